//! How a beekeeper counts mites: what a wash would show, with its range.

use crate::math::{exp, least, ln};
use crate::observe::DayRecord;

/// What an instrument would show.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Reading {
    /// The mean of many readings.
    pub mean: f64,
    /// 95 of 100 readings are at least this: 2.5 of 100 are lower.
    pub low: f64,
    /// 95 of 100 readings are at most this: 2.5 of 100 are higher.
    pub high: f64,
    /// Chance of finding none.
    pub chance_of_none: f64,
}

/// An alcohol wash or a sugar roll of some bees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wash {
    /// How many bees are washed; half a cup is about 300 (400 in one guide).
    pub bees: u32,
    /// Share of the mites on them that is found: 1 for a thorough wash; 0.929 for powdered sugar
    /// (Macedo, Wu & Ellis 2002).
    pub recovery: f64,
}

impl Wash {
    /// Half a cup of bees, every mite found.
    pub const HALF_A_CUP: Self = Self {
        bees: 300,
        recovery: 1.0,
    };

    /// What it finds when `mites_per_bee` sit on each bee: a binomial count. Mites sit in clumps, so that
    /// real counts vary a little more.
    pub fn found(&self, mites_per_bee: f64) -> Reading {
        binomial(self.bees, (mites_per_bee * self.recovery).clamp(0.0, 1.0))
    }
}

/// The wash of half a cup of bees on a day of a season.
pub fn wash_on(day: &DayRecord) -> Reading {
    Wash::HALF_A_CUP.found(day.mites_per_100_bees / 100.0)
}

fn most_zero(x: f64) -> f64 {
    if x > 0.0 { x } else { 0.0 }
}

fn binomial(n: u32, p: f64) -> Reading {
    let n = f64::from(n);
    if p >= 1.0 || p <= 0.0 {
        let all = if p >= 1.0 { n } else { 0.0 };
        return Reading {
            mean: all,
            low: all,
            high: all,
            chance_of_none: f64::from(u8::from(all == 0.0)),
        };
    }
    let odds = p / (1.0 - p);
    let (mean, none) = (n * p, exp(n * ln(1.0 - p)));
    let mut reading = counted(mean, mean * (1.0 - p), none, |k, before| {
        before * (n - k + 1.0) / k * odds
    });
    reading.high = least(reading.high, n);
    reading
}

/// Mean and range of a count from its variance, the chance of none and the step from one count to the next.
fn counted(mean: f64, variance: f64, none: f64, step: impl Fn(f64, f64) -> f64) -> Reading {
    // Far out the chance of none underflows; there the normal curve serves.
    if none < 1e-290 {
        let spread = 1.96 * f64::sqrt(variance);
        return Reading {
            mean,
            low: f64::floor(most_zero(mean - spread)),
            high: libm::ceil(mean + spread),
            chance_of_none: 0.0,
        };
    }
    let (mut chance, mut sum, mut k) = (none, none, 0.0);
    let mut low = None;
    while sum < 0.975 && k < 1e6 {
        if sum >= 0.025 && low.is_none() {
            low = Some(k);
        }
        k += 1.0;
        chance = step(k, chance);
        sum += chance;
    }
    Reading {
        mean,
        low: low.unwrap_or(k),
        high: k,
        chance_of_none: none,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wash_never_finds_more_than_it_can() {
        let found = Wash::HALF_A_CUP.found(0.94);
        // Binomial, n = 300, p = 0.94: mean 282, standard deviation 4.11; 1.96 of them to either side.
        assert_eq!((found.low, found.high), (273.0, 291.0));
        assert_eq!(Wash::HALF_A_CUP.found(2.0).high, 300.0);
        assert_eq!(Wash::HALF_A_CUP.found(0.0).high, 0.0);
    }

    #[test]
    fn a_wash_counts_by_chance() {
        // Binomial, n = 300, p = 0.03: 0.0199 at most 3, 0.0524 at most 4, 0.9610 at most 14, 0.9797 at most 15.
        let found = Wash::HALF_A_CUP.found(0.03);
        assert_eq!((found.low, found.high), (4.0, 15.0));
    }
}
