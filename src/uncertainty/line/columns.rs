//! Linear least squares on a few columns, by orthogonal columns.

use super::{Error, Prediction};

/// What remains of a column, as a fraction, below which it is taken for a mixture of those before it.
const COLLINEAR: f64 = 1e-10;

/// A linear model y = Σ cᵢ xᵢ fitted to rows of N columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit<const N: usize> {
    coefficients: [f64; N],
    covariance: [[f64; N]; N],
    residual_standard_deviation: f64,
    degrees_of_freedom: f64,
    residuals: Vec<f64>,
}

/// Fits y = Σ cᵢ xᵢ to rows `([x₁, …, x_N], y)`, all with the same weight.
///
/// A constant term is a column of ones. Meant for a handful of columns; each is scaled, made orthogonal to those before it
/// (Gram and Schmidt, done twice), and only then used.
///
/// # Errors
///
/// Not more rows than columns, a row that is not finite, or a column that is zero or a mixture of those before it.
///
/// ```
/// use meniscus::uncertainty::line;
///
/// // y = 1 + 2 x - x², with a little scatter
/// let rows: Vec<_> = [(0.0, 1.01), (1.0, 1.99), (2.0, 1.0), (3.0, -2.0), (4.0, -7.0)]
///     .map(|(x, y): (f64, f64)| ([1.0, x, x * x], y))
///     .to_vec();
/// let fit = line::fit(&rows)?;
/// assert!((fit.coefficients()[2] + 1.0).abs() < 0.01);
///
/// let fault = line::fit(&[([1.0, 2.0], 0.0), ([2.0, 4.0], 1.0), ([3.0, 6.0], 3.0)]).expect_err("twice the first");
/// assert_eq!(
///     fault.to_string(),
///     "column 2 is zero or a mixture of those before it: leave it out or vary it on its own",
/// );
/// # Ok::<(), line::Error>(())
/// ```
pub fn fit<const N: usize>(rows: &[([f64; N], f64)]) -> Result<Fit<N>, Error> {
    if rows.len() <= N {
        return Err(Error::Points {
            given: rows.len(),
            least: N + 1,
        });
    }
    fit_with_scatter(rows, 0.0)
}

/// The same where each y is known to scatter by at least a standard uncertainty `scatter`, so that as many rows as columns are
/// enough: the residual standard deviation is the larger of what the rows show and what is known.
///
/// # Errors
///
/// Fewer rows than columns; else as [`fit`].
///
/// ```
/// use meniscus::uncertainty::line;
///
/// let fit = line::fit_with_scatter(&[([1.0, 0.0], 3.0), ([1.0, 2.0], 7.0)], 0.1)?;
/// assert!((fit.coefficients()[1] - 2.0).abs() < 1e-12);
/// assert!((fit.covariance()[1][1].sqrt() - 0.1 / 2f64.sqrt()).abs() < 1e-12);
/// assert!(line::fit_with_scatter(&[([1.0, 0.0], 3.0)], 0.1).is_err());
/// # Ok::<(), line::Error>(())
/// ```
pub fn fit_with_scatter<const N: usize>(rows: &[([f64; N], f64)], scatter: f64) -> Result<Fit<N>, Error> {
    let columns = (0..N).map(|column| rows.iter().map(|(row, _)| row[column]).collect());
    let fit = fit_columns(columns.collect(), rows.iter().map(|(_, y)| *y).collect(), scatter)?;
    Ok(Fit {
        coefficients: std::array::from_fn(|i| fit.coefficients[i]),
        covariance: std::array::from_fn(|i| std::array::from_fn(|j| fit.covariance[i][j])),
        residual_standard_deviation: fit.residual_standard_deviation,
        degrees_of_freedom: fit.degrees_of_freedom,
        residuals: fit.residuals,
    })
}

/// A linear model fitted to any number of columns.
pub(crate) struct Fitted {
    /// The coefficients, in the order of the columns.
    pub(crate) coefficients: Vec<f64>,
    /// Their covariances.
    pub(crate) covariance: Vec<Vec<f64>>,
    residual_standard_deviation: f64,
    degrees_of_freedom: f64,
    /// Each row's y less the model's.
    pub(crate) residuals: Vec<f64>,
}

/// The same as [`fit_with_scatter`] column by column, for any number of them: one piece of code for all, since each takes room on
/// the page.
pub(crate) fn fit_columns(columns: Vec<Vec<f64>>, y: Vec<f64>, scatter: f64) -> Result<Fitted, Error> {
    let (rows, count) = (y.len(), columns.len());
    if rows < count {
        return Err(Error::Points {
            given: rows,
            least: count,
        });
    }
    let sound = |row: usize| columns.iter().all(|column| column[row].is_finite()) && y[row].is_finite();
    if let Some(place) = (0..rows).find(|row| !sound(*row)) {
        return Err(Error::NotFinite { point: place + 1 });
    }
    let mut basis: Vec<Vec<f64>> = Vec::with_capacity(count);
    let mut triangle = vec![vec![0.0; count]; count];
    for (column, mut rest) in columns.into_iter().enumerate() {
        let size = norm(&rest);
        for (parts, part) in triangle.iter_mut().zip(remove(&basis, &mut rest)) {
            parts[column] = part;
        }
        let left = norm(&rest);
        if left <= COLLINEAR * size {
            return Err(Error::Collinear { column: column + 1 });
        }
        triangle[column][column] = left;
        rest.iter_mut().for_each(|x| *x /= left);
        basis.push(rest);
    }
    let mut residuals = y;
    let parts = remove(&basis, &mut residuals);
    let mut inverse = inverse(&triangle);
    let degrees_of_freedom = (rows - count) as f64;
    let shown = match degrees_of_freedom > 0.0 {
        true => norm(&residuals) / degrees_of_freedom.sqrt(),
        false => 0.0,
    };
    let residual_standard_deviation = shown.max(scatter);
    let coefficients = inverse.iter().map(|row| dot(row, &parts)).collect();
    for row in &mut inverse {
        row.iter_mut().for_each(|x| *x *= residual_standard_deviation);
    }
    let covariances = |row: &Vec<f64>| inverse.iter().map(|other| dot(row, other)).collect();
    Ok(Fitted {
        coefficients,
        covariance: inverse.iter().map(covariances).collect(),
        residual_standard_deviation,
        degrees_of_freedom,
        residuals,
    })
}

impl<const N: usize> Fit<N> {
    /// The coefficients, in the order of the columns.
    pub fn coefficients(&self) -> [f64; N] {
        self.coefficients
    }

    /// Covariances of the coefficients; their variances on the diagonal.
    pub fn covariance(&self) -> [[f64; N]; N] {
        self.covariance
    }

    /// The standard deviation of the rows about the model, in the unit of y.
    pub fn residual_standard_deviation(&self) -> f64 {
        self.residual_standard_deviation
    }

    /// The number of rows less the number of columns.
    pub fn degrees_of_freedom(&self) -> f64 {
        self.degrees_of_freedom
    }

    /// Each row's y less the model's, in the order of the rows.
    pub fn residuals(&self) -> &[f64] {
        &self.residuals
    }

    /// The model at a row of columns, and how well it is known there.
    pub fn predict(&self, row: [f64; N]) -> Prediction {
        let spread = self.covariance.map(|covariances| dot(&covariances, &row));
        Prediction {
            value: dot(&self.coefficients, &row),
            standard_uncertainty: dot(&spread, &row).max(0.0).sqrt(),
        }
    }
}

/// Takes the basis' parts out of a column and returns how much of each was in it. A second round takes out what rounding
/// left behind in the first.
fn remove(basis: &[Vec<f64>], column: &mut [f64]) -> Vec<f64> {
    let mut parts = vec![0.0; basis.len()];
    for _ in 0..2 {
        for (direction, part) in basis.iter().zip(&mut parts) {
            let more = dot(direction, column);
            *part += more;
            column.iter_mut().zip(direction).for_each(|(x, unit)| *x -= more * unit);
        }
    }
    parts
}

/// The inverse of an upper triangle, column by column from the bottom up.
fn inverse(triangle: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let count = triangle.len();
    let mut inverse = vec![vec![0.0; count]; count];
    for column in 0..count {
        inverse[column][column] = 1.0 / triangle[column][column];
        for row in (0..column).rev() {
            let sum: f64 = (row + 1..=column).map(|k| triangle[row][k] * inverse[k][column]).sum();
            inverse[row][column] = -sum / triangle[row][row];
        }
    }
    inverse
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// Length of a column, safe from overflow.
fn norm(column: &[f64]) -> f64 {
    let size = column.iter().fold(0.0, |size: f64, x| size.max(x.abs()));
    if size > 0.0 {
        size * column.iter().map(|x| (x / size).powi(2)).sum::<f64>().sqrt()
    } else {
        0.0
    }
}
