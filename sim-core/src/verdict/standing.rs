//! Where a colony stands among those of the same start and weather.

use serde::Serialize;

use crate::ensemble::{Spread, quantile};
use crate::order;
use crate::words::Language;

/// A standing in a word.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Word {
    /// Stronger than three in four.
    Ahead,
    /// Among the middle half.
    InStep,
    /// Weaker than three in four.
    Behind,
    /// Weaker than nineteen in twenty.
    FarBehind,
    /// No bee is left.
    Lost,
    /// The hive lives, and most colonies of its plan do not: among them it stands nowhere.
    AtOdds,
    /// Nothing that was seen tells how strong it is: it would stand where its peers do.
    Untold,
}

impl Word {
    /// The word for bees and brood together, and the share of weaker colonies.
    pub fn of(strength: f64, weaker: f64) -> Self {
        match weaker {
            _ if strength < 1.0 => Self::Lost,
            w if w < 0.05 => Self::FarBehind,
            w if w < 0.25 => Self::Behind,
            w if w <= 0.75 => Self::InStep,
            _ => Self::Ahead,
        }
    }

    /// In words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().verdict.standings[self as usize]
    }
}

/// Where the colony stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Standing {
    /// In a word, by strength: bees and brood together.
    pub word: Word,
    /// Share of its peers that are weaker, 0 to 1.
    pub weaker: f64,
    /// Its strength: adult workers and worker brood.
    pub strength: Spread,
    /// Strength of its peers.
    pub peers: Spread,
    /// Days by which it is ahead of the median peer (negative: behind); `None` where the median
    /// peer does not grow, or is nowhere as strong as this while it does.
    pub days_ahead: Option<f64>,
    /// The same for the weakest and the strongest of nine in ten colonies that fit.
    pub days_least: Option<f64>,
    /// See `days_least`.
    pub days_most: Option<f64>,
    /// Share of its peers with fewer bees.
    pub fewer_bees: f64,
    /// Share of its peers with less brood.
    pub less_brood: f64,
}

/// Bees and brood of one colony.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Size {
    /// Adult workers.
    pub bees: f64,
    /// Worker brood, cells.
    pub brood: f64,
}

impl Size {
    fn strength(self) -> f64 {
        self.bees + self.brood
    }
}

impl Standing {
    /// From the sizes of the colonies that fit, of its peers, and the median peer's strength day by day.
    pub fn of(here: &[Size], peers: &[Size], medians: &[f64], day: usize) -> Self {
        let of = |sizes: &[Size], value: fn(Size) -> f64| -> Vec<f64> {
            sizes.iter().map(|&size| value(size)).collect()
        };
        let share = |value: fn(Size) -> f64| {
            let mut here = of(here, value);
            order::numbers(&mut here);
            let median = quantile(&here, 0.5);
            let peers = of(peers, value);
            let less = peers.iter().filter(|&&peer| peer < median).count() as f64;
            let level = peers.iter().filter(|&&peer| peer == median).count() as f64;
            (less + 0.5 * level) / peers.len() as f64
        };
        let strength = Spread::of(&mut of(here, Size::strength));
        let weaker = share(Size::strength);
        Self {
            word: Word::of(strength.median, weaker),
            weaker,
            strength,
            peers: Spread::of(&mut of(peers, Size::strength)),
            days_ahead: days_ahead(strength.median, medians, day),
            days_least: days_ahead(strength.q05, medians, day),
            days_most: days_ahead(strength.q95, medians, day),
            fewer_bees: share(|size| size.bees),
            less_brood: share(|size| size.brood),
        }
    }
}

impl Standing {
    /// Of a colony of which nothing was seen that tells its strength.
    pub(super) fn untold(self) -> Self {
        Self {
            word: Word::Untold,
            days_ahead: None,
            days_least: None,
            days_most: None,
            ..self
        }
    }
}

/// How far the median peer may fall back in a spell of growth, as a share: rain keeps bees from growing for some days.
const DIP: f64 = 0.02;

/// Days to the nearest day on which the median peer is as strong, within the spell of growth that `day` lies in: where it
/// shrinks, to be weaker is not to be late.
fn days_ahead(strength: f64, medians: &[f64], day: usize) -> Option<f64> {
    let today = *medians.get(day)?;
    let mut highest = today;
    let grows = |median: &&f64| {
        highest = f64::max(highest, **median);
        **median >= highest * (1.0 - DIP)
    };
    let last = day + medians[day..].iter().take_while(grows).count() - 1;
    let mut lowest = today;
    let grew = |median: &&f64| {
        lowest = f64::min(lowest, **median);
        **median <= lowest * (1.0 + DIP)
    };
    let first = day + 1 - medians[..=day].iter().rev().take_while(grew).count();
    // Too flat to tell days by.
    if medians[last] <= medians[first] * (1.0 + 2.0 * DIP) {
        return None;
    }
    let crossing = |from: usize| {
        let (a, b) = (medians[from], medians[from + 1]);
        let crosses = a != b && (a - strength) * (b - strength) <= 0.0;
        crosses.then(|| from as f64 + (strength - a) / (b - a) - day as f64)
    };
    if strength >= today {
        (day..last).find_map(crossing)
    } else {
        (first..day).rev().find_map(crossing)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_counted_along_the_median_colony() {
        // Falls by 100 a day to day 20, then rises by 200 a day.
        let medians: Vec<f64> = (0..60)
            .map(|day| {
                let day = f64::from(day);
                if day < 20.0 {
                    10_000.0 - 100.0 * day
                } else {
                    8000.0 + 200.0 * (day - 20.0)
                }
            })
            .collect();
        assert_eq!(days_ahead(11_000.0, &medians, 30), Some(5.0));
        assert_eq!(days_ahead(9000.0, &medians, 30), Some(-5.0));
        assert_eq!(days_ahead(10_000.0, &medians, 30), Some(0.0));
        assert_eq!(days_ahead(7000.0, &medians, 30), None);
        // Where the middle one shrinks, weaker is not late and stronger is not early.
        assert_eq!(days_ahead(8500.0, &medians, 10), None);
        assert_eq!(days_ahead(9500.0, &medians, 10), None);
        assert_eq!(days_ahead(7000.0, &medians, 10), None);
        // A rainy day of the growing season does not end it.
        let mut dented = medians.clone();
        dented[28] = dented[27] - 50.0;
        assert_eq!(days_ahead(9000.0, &dented, 30), Some(-5.0));
    }

    #[test]
    fn words_follow_the_share_of_weaker_colonies() {
        let words =
            [0.01, 0.1, 0.5, 0.9].map(|weaker| Word::of(9000.0, weaker).words(Language::English));
        assert_eq!(words, ["far behind", "behind", "in step", "ahead"]);
        // Among colonies that are lost as well, half are weaker.
        assert_eq!(Word::of(0.0, 0.5), Word::Lost);
    }
}
