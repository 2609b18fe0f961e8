//! The oxygen above a liquid, for each millilitre of gas: it comes in with air at an opening and through the wall, and
//! goes out into the liquid. dx/dt = r (1 - x / f) - x / u, with f what fresh air holds, r what the wall lets into a
//! gas without oxygen, and u the uptake. The wall along the liquid lets all of its oxygen straight into it.

/// What drives it, in mmol, ml and days.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pool {
    /// Oxygen in a millilitre of fresh air.
    pub fresh: f64,
    /// Oxygen through the wall in a day for each millilitre of the container.
    pub wall: f64,
    /// Days in which all but 1/e of it is taken up.
    pub uptake: f64,
}

impl Pool {
    /// What is taken up in so many closed days, and what is then left, of a start.
    pub fn closed(&self, start: f64, days: f64) -> (f64, f64) {
        let rate = self.rate();
        let settled = self.wall / rate;
        let gone = -(-rate * days).exp_m1();
        let integral = settled * days + (start - settled) * gone / rate;
        (integral / self.uptake, start + (settled - start) * gone)
    }

    /// What is taken up in a day, in the mean, with openings at random `interval` days apart that each bring air of
    /// which that share is fresh.
    pub fn in_use(&self, air: f64, interval: f64) -> f64 {
        let openings = interval.recip();
        let mean = (openings * air * self.fresh + self.wall) / (openings + self.rate());
        mean / self.uptake
    }

    fn rate(&self) -> f64 {
        1.0 / self.uptake + self.wall / self.fresh
    }
}
