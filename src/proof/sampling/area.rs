//! An area of a picture, and its light, row by row.

use super::{Light, Refusal, Writing};

/// A rectangle of pixels.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Area {
    /// Pixels to its left.
    pub left: u32,
    /// Pixels above it.
    pub top: u32,
    /// Pixels side by side.
    pub width: u32,
    /// Pixels below one another.
    pub height: u32,
}

impl Area {
    /// The pixels of a part of a picture that is given in hundredths of its width and height: every pixel whose middle is in it.
    ///
    /// ```
    /// use meniscus::proof::sampling::Area;
    ///
    /// let area = Area::of_percent([50.0, 0.0, 25.0, 100.0], (400, 90));
    /// assert_eq!(area, Area { left: 200, top: 0, width: 100, height: 90 });
    /// ```
    pub fn of_percent([left, top, width, height]: [f64; 4], picture: (u32, u32)) -> Self {
        let pixel = |percent: f64, pixels: u32| {
            let at = (percent / 100.0 * f64::from(pixels)).round();
            (at.max(0.0) as u32).min(pixels)
        };
        let (start, end) = (pixel(left, picture.0), pixel(left + width, picture.0));
        let (above, below) = (pixel(top, picture.1), pixel(top + height, picture.1));
        Self {
            left: start,
            top: above,
            width: end.saturating_sub(start),
            height: below.saturating_sub(above),
        }
    }
}

/// Takes the pixels of an area, and says how much light they are.
pub struct Sampler {
    width: usize,
    height: usize,
    writing: Writing,
    /// The light of every value.
    light: Vec<f64>,
    sums: [[f64; CELLS]; CELLS],
    /// The sum of the steps from each value to its neighbours.
    steps: f64,
    black: usize,
    white: usize,
}

/// Cells side by side, and one below another.
const CELLS: usize = 8;

/// Most pixels at one end of the scale, of a thousand: specks of dust are as many (our choice, no source). If they are all cut off
/// by a tenth of the light, the mean is off by 0.5 ‰.
const MOST_CLIPPED: usize = 5;

impl Sampler {
    /// Fewest pixels each way: four in each cell.
    pub const LEAST: usize = 4 * CELLS;

    /// For an area of that many pixels.
    ///
    /// # Errors
    ///
    /// If these are too few.
    pub fn new(width: usize, height: usize, writing: Writing) -> Result<Self, Refusal> {
        if width < Self::LEAST || height < Self::LEAST {
            return Err(Refusal::TooSmall);
        }
        let full = f64::from(writing.full);
        let light = |value: u16| {
            let value = match writing.inverted {
                true => writing.full - value,
                false => value,
            };
            writing.coding.light(f64::from(value) / full)
        };
        Ok(Self {
            width,
            height,
            writing,
            light: (0..=writing.full).map(light).collect(),
            sums: [[0.0; CELLS]; CELLS],
            steps: 0.0,
            black: 0,
            white: 0,
        })
    }

    /// Takes one row: for each pixel its channels, of which the first three count, or the first alone where there are no three.
    pub fn row<V: Copy + Into<u16>>(&mut self, row: usize, values: &[V], channels: usize) {
        let used = if channels >= 3 { 3 } else { 1 };
        let sums = &mut self.sums[row * CELLS / self.height];
        let full = self.writing.full;
        let mut pixels = values.chunks_exact(channels);
        for (cell, sum) in sums.iter_mut().enumerate() {
            for pixel in pixels
                .by_ref()
                .take(starts(cell + 1, self.width) - starts(cell, self.width))
            {
                let (mut black, mut white) = (false, false);
                for value in &pixel[..used] {
                    let value: u16 = (*value).into();
                    black |= value == 0;
                    white |= value >= full;
                    let (below, above) = (value.saturating_sub(1), value.saturating_add(1).min(full));
                    let step = self.light[usize::from(above)] - self.light[usize::from(below)];
                    self.steps += step.abs() / f64::from((above - below).max(1)) / used as f64;
                    *sum += self.light[usize::from(value.min(full))] / used as f64;
                }
                self.black += usize::from(black);
                self.white += usize::from(white);
            }
        }
    }

    /// The light, once all rows are taken.
    ///
    /// # Errors
    ///
    /// If too much of the area is at one end of the scale.
    pub fn light(&self) -> Result<Light, Refusal> {
        let pixels = self.width * self.height;
        let is_much = |clipped: usize| clipped * 1000 > MOST_CLIPPED * pixels;
        if is_much(self.black) {
            return Err(Refusal::Black);
        }
        if is_much(self.white) {
            return Err(Refusal::White);
        }
        let total = |sums: &[[f64; CELLS]; CELLS]| sums.iter().flatten().sum::<f64>();
        Ok(Light {
            mean: total(&self.sums) / pixels as f64,
            scatter: self.scatter(1).max(self.scatter(2)),
            step: self.steps / pixels as f64 / 12f64.sqrt(),
        })
    }

    /// The standard deviation of the mean, from cells of which so many each way are taken together.
    fn scatter(&self, together: usize) -> f64 {
        let count = CELLS / together;
        let mean = |cell: usize| {
            let (column, row) = (cell % count * together, cell / count * together);
            let cells = self.sums[row..row + together].iter();
            let sum: f64 = cells
                .map(|row| row[column..column + together].iter().sum::<f64>())
                .sum();
            let wide = starts(column + together, self.width) - starts(column, self.width);
            let high = starts(row + together, self.height) - starts(row, self.height);
            sum / (wide * high) as f64
        };
        let means: Vec<f64> = (0..count * count).map(mean).collect();
        let number = means.len() as f64;
        let middle = means.iter().sum::<f64>() / number;
        let squares: f64 = means.iter().map(|mean| (mean - middle).powi(2)).sum();
        (squares / (number - 1.0) / number).sqrt()
    }
}

/// The first pixel of a cell, of so many side by side or below one another: pixel p belongs to cell p * 8 / pixels.
fn starts(cell: usize, pixels: usize) -> usize {
    (cell * pixels).div_ceil(CELLS)
}
