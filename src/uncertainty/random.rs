//! A small seeded generator of random numbers. Not for secrets.

/// Seeded generator: the same seed gives the same numbers on every machine.
///
/// xoshiro256++ (Blackman and Vigna, *Scrambled linear pseudorandom number generators*, ACM Trans. Math. Softw. 47, 2021),
/// its state filled from the seed by SplitMix64 as its authors advise.
///
/// ```
/// use meniscus::uncertainty::Random;
///
/// let (mut one, mut same) = (Random::new(7), Random::new(7));
/// assert_eq!(one.uniform(), same.uniform());
/// assert_ne!(one.uniform(), Random::new(8).uniform());
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Random {
    state: [u64; 4],
    spare: Option<f64>,
}

impl Random {
    /// A generator from any seed, zero included.
    pub fn new(seed: u64) -> Self {
        let mut counter = seed;
        let state = std::array::from_fn(|_| {
            counter = counter.wrapping_add(0x9e37_79b9_7f4a_7c15);
            let mut mixed = counter;
            mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
            mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
            mixed ^ (mixed >> 31)
        });
        Self { state, spare: None }
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        let [a, b, c, d] = self.state;
        let result = a.wrapping_add(d).rotate_left(23).wrapping_add(a);
        let (c, d) = (c ^ a, d ^ b);
        self.state = [a ^ d, b ^ c, c ^ (b << 17), d.rotate_left(45)];
        result
    }

    /// Uniform on [0, 1), in steps of 2⁻⁵³.
    pub fn uniform(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A normal deviate of mean 0 and standard deviation 1 (polar method, Marsaglia and Bray 1964).
    pub fn normal(&mut self) -> f64 {
        if let Some(spare) = self.spare.take() {
            return spare;
        }
        let (x, y, square) = self.in_disc();
        let scale = (-2.0 * square.ln() / square).sqrt();
        self.spare = Some(y * scale);
        x * scale
    }

    /// A deviate of Student's t (polar method, Bailey, Math. Comp. 62, 1994).
    pub(super) fn student(&mut self, degrees_of_freedom: f64) -> f64 {
        let (x, _, square) = self.in_disc();
        let growth = (-2.0 / degrees_of_freedom * square.ln()).exp_m1();
        x * (degrees_of_freedom * growth / square).sqrt()
    }

    /// A point within the unit disc, not its centre, and its squared distance from there.
    fn in_disc(&mut self) -> (f64, f64, f64) {
        loop {
            let (x, y) = (2.0 * self.uniform() - 1.0, 2.0 * self.uniform() - 1.0);
            let square = x * x + y * y;
            if square > 0.0 && square < 1.0 {
                return (x, y, square);
            }
        }
    }
}
