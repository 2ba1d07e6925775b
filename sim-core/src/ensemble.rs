//! What many seasons come to: means, quantiles, and in how many something is so.
//!
//! Values are taken in the order of the members, so that the sums have the same bits however many
//! threads ran them.

mod bands;
mod fates;
mod peers;

pub use bands::{
    Bands, FEWEST_FOR_MITES, Known, OnDate, Passed, Path, RISKS, Risk, THRESHOLDS, Walked,
    looked_at,
};
pub use fates::Fates;
pub use peers::{Alone, Hands, Luck, Member, Peers, SoFar};

use crate::order;
use serde::Serialize;

/// Mean and quantiles of one number over the members of an ensemble.
///
/// Quantiles lie on straight lines between the sorted values, the lowest being quantile 0 and the
/// highest 1 (definition 7 of Hyndman & Fan 1996).
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Spread {
    /// Mean.
    pub mean: f64,
    /// Standard error of the mean; 0 for a single member.
    pub standard_error: f64,
    /// 5 % of the members lie below.
    pub q05: f64,
    /// 25 % lie below.
    pub q25: f64,
    /// As many above as below.
    pub median: f64,
    /// 75 % lie below.
    pub q75: f64,
    /// 95 % lie below.
    pub q95: f64,
}

impl Spread {
    /// The spread of some values, at least one; they are sorted on the way.
    pub fn of(values: &mut [f64]) -> Self {
        let count = values.len() as f64;
        let mean = values.iter().sum::<f64>() / count;
        let squares: f64 = values.iter().map(|x| (x - mean) * (x - mean)).sum();
        let standard_error = if values.len() > 1 {
            (squares / (count - 1.0) / count).sqrt()
        } else {
            0.0
        };
        order::numbers(values);
        Self {
            mean,
            standard_error,
            q05: quantile(values, 0.05),
            q25: quantile(values, 0.25),
            median: quantile(values, 0.5),
            q75: quantile(values, 0.75),
            q95: quantile(values, 0.95),
        }
    }
}

/// The quantile at `share`, 0 to 1, of sorted values, at least one.
pub(crate) fn quantile(sorted: &[f64], share: f64) -> f64 {
    let along = share * (sorted.len() - 1) as f64;
    let below = along.floor() as usize;
    let above = (below + 1).min(sorted.len() - 1);
    let part = along - along.floor();
    // Exact where both ends are the same, as in a difference that is zero.
    sorted[below] + part * (sorted[above] - sorted[below])
}

/// In how many members one side is ahead of the other.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Tally {
    /// Members in which the plan is ahead.
    pub ahead: usize,
    /// Members in which both are the same to the last bit.
    pub level: usize,
    /// Members in which the plan is behind.
    pub behind: usize,
}

impl Tally {
    /// Counts gains above zero, at it and below it.
    pub fn of(gains: impl IntoIterator<Item = f64>) -> Self {
        let mut tally = Self::default();
        for gain in gains {
            if gain > 0.0 {
                tally.ahead += 1;
            } else if gain < 0.0 {
                tally.behind += 1;
            } else {
                tally.level += 1;
            }
        }
        tally
    }

    /// All members.
    pub fn members(self) -> usize {
        self.ahead + self.level + self.behind
    }

    /// Estimated probability that the plan is ahead.
    pub fn probability(self) -> f64 {
        self.ahead as f64 / self.members() as f64
    }

    /// Standard error of [`Tally::probability`], binomial.
    ///
    /// One success and one failure are added first: a plan that was ahead in all of ten seasons is
    /// not certain to be ahead in the next.
    pub fn standard_error(self) -> f64 {
        let count = self.members() as f64 + 2.0;
        let share = (self.ahead as f64 + 1.0) / count;
        (share * (1.0 - share) / count).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::{Spread, Tally};

    #[test]
    fn quantiles_are_those_of_numpy() {
        // numpy.quantile([1, 3, 4, 8, 9, 20], [.05, .25, .5, .75, .95]) of numpy 2, default method;
        // standard error: scipy.stats.sem of the same.
        let spread = Spread::of(&mut [9.0, 1.0, 20.0, 4.0, 3.0, 8.0]);
        let expected = [1.5, 3.25, 6.0, 8.75, 17.25];
        let got = [
            spread.q05,
            spread.q25,
            spread.median,
            spread.q75,
            spread.q95,
        ];
        assert_eq!(got, expected);
        assert_eq!(spread.mean, 7.5);
        assert!(
            (spread.standard_error - 2.789_862_601_156_791).abs() < 1e-12,
            "{}",
            spread.standard_error
        );
    }

    #[test]
    fn one_value_is_all_of_its_spread() {
        let spread = Spread::of(&mut [3.25]);
        assert_eq!((spread.mean, spread.q05, spread.q95), (3.25, 3.25, 3.25));
        assert_eq!(spread.standard_error, 0.0);
    }

    #[test]
    fn a_tally_counts_every_member_once() {
        let tally = Tally::of([1.0, -1.0, 0.0, 2.0, -0.0]);
        assert_eq!((tally.ahead, tally.level, tally.behind), (2, 2, 1));
        assert_eq!(tally.members(), 5);
        assert_eq!(tally.probability(), 0.4);
        let always = Tally::of([1.0; 8]);
        assert_eq!(always.probability(), 1.0);
        assert!((always.standard_error() - 0.094_868_329_805).abs() < 1e-9);
    }
}
