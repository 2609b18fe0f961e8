//! The normal distribution and Student's t: what share lies below a value, and the value for a share.
//!
//! Good to about 12 digits, in the tails too. Degrees of freedom may be any number above zero; infinitely many give the
//! normal distribution.

use std::f64::consts::PI;
use std::fmt;

/// What is wrong with the question.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Error {
    /// A probability is not strictly between 0 and 1.
    Probability {
        /// The probability asked for.
        given: f64,
    },
    /// Degrees of freedom are not above zero.
    DegreesOfFreedom {
        /// The degrees of freedom given.
        given: f64,
    },
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Probability { given } => {
                write!(f, "a probability of {given} has no quantile: give one between 0 and 1")
            }
            Self::DegreesOfFreedom { given } => {
                write!(f, "{given} degrees of freedom: give a number above zero")
            }
        }
    }
}

impl std::error::Error for Error {}

/// The share of a normal distribution (mean 0, standard deviation 1) below `x`. NaN for NaN.
///
/// ```
/// use meniscus::uncertainty::student;
///
/// assert_eq!(student::normal_cdf(0.0), 0.5);
/// assert!((student::normal_cdf(-1.0) - 0.158_655_253_931_457).abs() < 1e-15);
/// ```
pub fn normal_cdf(x: f64) -> f64 {
    below(x, normal_tail(x.abs()))
}

/// The value that a share `probability` of the normal distribution (mean 0, standard deviation 1) lies below.
///
/// # Errors
///
/// A probability that is not between 0 and 1.
///
/// ```
/// use meniscus::uncertainty::student;
///
/// let k = student::normal_quantile(0.975)?;
/// assert!((k - 1.959_963_984_540_054).abs() < 1e-12);
/// assert!(student::normal_quantile(1.0).is_err());
/// # Ok::<(), student::Error>(())
/// ```
pub fn normal_quantile(probability: f64) -> Result<f64, Error> {
    t_quantile(probability, f64::INFINITY)
}

/// The share of Student's t below `t`. NaN for NaN.
///
/// # Errors
///
/// Degrees of freedom that are not above zero.
///
/// ```
/// use meniscus::uncertainty::student;
///
/// assert!((student::t_cdf(1.0, 1.0)? - 0.75).abs() < 1e-14);
/// # Ok::<(), student::Error>(())
/// ```
pub fn t_cdf(t: f64, degrees_of_freedom: f64) -> Result<f64, Error> {
    check(degrees_of_freedom)?;
    Ok(below(t, t_tail(t.abs(), degrees_of_freedom)))
}

/// The value that a share `probability` of Student's t lies below; infinite where it is too large for a number.
///
/// # Errors
///
/// A probability that is not between 0 and 1, or degrees of freedom that are not above zero.
///
/// ```
/// use meniscus::uncertainty::student;
///
/// assert!((student::t_quantile(0.975, 9.0)? - 2.262_157_162_798_205).abs() < 1e-12);
/// let fault = student::t_quantile(0.975, 0.0).expect_err("no freedom");
/// assert_eq!(fault.to_string(), "0 degrees of freedom: give a number above zero");
/// # Ok::<(), student::Error>(())
/// ```
pub fn t_quantile(probability: f64, degrees_of_freedom: f64) -> Result<f64, Error> {
    if !(probability > 0.0 && probability < 1.0) {
        return Err(Error::Probability { given: probability });
    }
    check(degrees_of_freedom)?;
    let tail = probability.min(1.0 - probability);
    let normal = normal_tail_quantile(tail);
    let size = if degrees_of_freedom.is_finite() {
        t_tail_quantile(tail, degrees_of_freedom, normal)
    } else {
        normal
    };
    Ok(if probability < 0.5 { -size } else { size })
}

fn check(degrees_of_freedom: f64) -> Result<(), Error> {
    if degrees_of_freedom > 0.0 {
        Ok(())
    } else {
        Err(Error::DegreesOfFreedom {
            given: degrees_of_freedom,
        })
    }
}

/// From the upper tail beyond |x| to the share below x.
fn below(x: f64, tail: f64) -> f64 {
    if x > 0.0 { 1.0 - tail } else { tail }
}

fn normal_density(x: f64) -> f64 {
    (-0.5 * x * x).exp() / (2.0 * PI).sqrt()
}

/// The share above `x`, which is not negative: a series near zero, a continued fraction beyond (Abramowitz and Stegun,
/// *Handbook of Mathematical Functions*, 26.2.11 and 26.2.14).
fn normal_tail(x: f64) -> f64 {
    if x < 2.0 {
        let (mut term, mut sum, mut odd) = (x, x, 1.0);
        while term > sum * f64::EPSILON / 4.0 {
            odd += 2.0;
            term *= x * x / odd;
            sum += term;
        }
        0.5 - normal_density(x) * sum
    } else {
        normal_density(x) / (1..=150).rev().fold(x, |rest, level| x + f64::from(level) / rest)
    }
}

/// The `x` with a share `tail` above it, for a tail of at most one half.
fn normal_tail_quantile(tail: f64) -> f64 {
    if tail == 0.5 {
        return 0.0;
    }
    // Abramowitz and Stegun 26.2.23, good to 4.5e-4; then Halley's method, which cubes the error each time.
    let s = (-2.0 * tail.ln()).sqrt();
    let upper = (0.010_328 * s + 0.802_853) * s + 2.515_517;
    let lower = ((0.001_308 * s + 0.189_269) * s + 1.432_788) * s + 1.0;
    let mut x = (s - upper / lower).max(0.0);
    for _ in 0..3 {
        let excess = (normal_tail(x) - tail) / normal_density(x);
        x += excess / (1.0 - 0.5 * excess * x);
    }
    x
}

/// The share above `t`, which is not negative.
fn t_tail(t: f64, degrees_of_freedom: f64) -> f64 {
    if degrees_of_freedom.is_infinite() {
        return normal_tail(t);
    }
    let a = 0.5 * degrees_of_freedom;
    let (x, y, power) = mapped(t, degrees_of_freedom);
    let front = y.sqrt() * power * gamma_ratio(a) / PI.sqrt();
    if x * (a + 2.5) < a + 1.0 {
        0.5 * front / tail_fraction(a, x, y)
    } else {
        let (mut term, mut sum, mut level) = (1.0, 1.0, 0.5);
        while term > sum * f64::EPSILON / 4.0 {
            term *= y * (a + level) / (level + 1.0);
            sum += term;
            level += 1.0;
        }
        0.5 - front * sum
    }
}

fn t_density(t: f64, degrees_of_freedom: f64) -> f64 {
    let (x, _, power) = mapped(t, degrees_of_freedom);
    gamma_ratio(0.5 * degrees_of_freedom) / (PI * degrees_of_freedom).sqrt() * power * x.sqrt()
}

/// x = ν/(ν + t²), 1 − x, and x to the power ν/2, none of them spoilt by a large t or ν.
fn mapped(t: f64, degrees_of_freedom: f64) -> (f64, f64, f64) {
    let ratio = t / degrees_of_freedom.sqrt();
    let square = ratio * ratio;
    let log = if ratio > 1.0 {
        2.0 * ratio.ln() + (1.0 / square).ln_1p()
    } else {
        square.ln_1p()
    };
    let x = 1.0 / (1.0 + square);
    let y = if ratio > 1.0 {
        1.0 / (1.0 + 1.0 / square)
    } else {
        square * x
    };
    (x, y, (-0.5 * degrees_of_freedom * log).exp())
}

/// The continued fraction of the incomplete beta function with b = ½ (Didonato and Morris, ACM Trans. Math. Softw. 18,
/// 1992), by the modified Lentz method. It takes 1 − x as well as x, so that nothing cancels when ν is large.
fn tail_fraction(a: f64, x: f64, y: f64) -> f64 {
    let lambda = a * y - 0.5 * x;
    let beta = |n: f64| {
        n + n * (0.5 - n) * x / (a + 2.0 * n - 1.0) + (a + n) / (a + 2.0 * n + 1.0) * (lambda + 1.0 + n * (1.0 + y))
    };
    let mut value = a / (a + 1.0) * (lambda + 1.0);
    let (mut upper, mut lower) = (value, 0.0);
    for level in 1..10_000 {
        let n = f64::from(level);
        let root = x / (a + 2.0 * n - 1.0);
        let alpha = (a + n - 1.0) * (a + n - 0.5) * n * (0.5 - n) * root * root;
        upper = beta(n) + alpha / upper;
        lower = 1.0 / (beta(n) + alpha * lower);
        value *= upper * lower;
        if (upper * lower - 1.0).abs() <= f64::EPSILON {
            break;
        }
    }
    value
}

/// Γ(z + ½)/Γ(z): a series in z − ¼ (NIST Digital Library of Mathematical Functions, 5.11.14) once z is large enough.
fn gamma_ratio(z: f64) -> f64 {
    let (mut factor, mut z) = (1.0, z);
    while z < 17.0 {
        factor *= z / (z + 0.5);
        z += 1.0;
    }
    let w = z - 0.25;
    let s = 1.0 / (w * w);
    let series = ((-174_317.0 / 134_217_728.0 * s + 631.0 / 524_288.0) * s - 19.0 / 8_192.0) * s + 1.0 / 64.0;
    factor * w.sqrt() * (1.0 + s * series)
}

/// The `t` with a share `tail` above it. It is never below the normal one, which is where the search starts: doubling until
/// the root lies within a factor of two, then Newton's method on the logarithms of share and `t`.
fn t_tail_quantile(tail: f64, degrees_of_freedom: f64, normal: f64) -> f64 {
    let mut t = normal;
    if t == 0.0 {
        return t;
    }
    while t_tail(2.0 * t, degrees_of_freedom) > tail {
        t *= 2.0;
        if t.is_infinite() {
            return t;
        }
    }
    for _ in 0..50 {
        let share = t_tail(t, degrees_of_freedom);
        let step = (share / tail).ln() * share / (t * t_density(t, degrees_of_freedom));
        t *= step.exp();
        if step.abs() < 4.0 * f64::EPSILON {
            break;
        }
    }
    t
}
