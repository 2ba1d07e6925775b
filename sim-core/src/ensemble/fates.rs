//! Expected numbers of animals, and queens' fates by chance.
//!
//! In an ensemble the chance of single bees is small beside what nobody knows of the colony. Whether
//! it swarms is not: no colony half swarms. So a member's bees are means, and its one-off events are
//! drawn, at a cost that is hardly more than that of the mean alone.

use rand::RngExt;
use rand_pcg::Pcg64Mcg;

use crate::draw::{Draw, Mean};
use crate::rng::{Topic, stream};

/// Means of animals; queens' fates from streams keyed by seed, member and day.
#[derive(Debug, Clone)]
pub struct Fates {
    seed: u32,
    member: u32,
    day: u32,
    stream: Option<Pcg64Mcg>,
}

impl Fates {
    /// The fates of one member.
    pub fn new(seed: u32, member: u32) -> Self {
        Self {
            seed,
            member,
            day: 0,
            stream: None,
        }
    }
}

impl Draw for Fates {
    fn begin_day(&mut self, day: u32) {
        self.day = day;
        self.stream = None;
    }

    fn how_many(&mut self, topic: Topic, count: f64, probability: f64) -> f64 {
        let one_event = matches!(topic, Topic::Queen) && count == 1.0;
        if !one_event {
            return Mean.how_many(topic, count, probability);
        }
        if probability <= 0.0 {
            return 0.0;
        }
        let (seed, member, day) = (self.seed, self.member, self.day);
        let stream = self
            .stream
            .get_or_insert_with(|| stream(seed, member, Topic::Queen, day));
        f64::from(u8::from(stream.random::<f64>() < probability))
    }

    fn events(&mut self, topic: Topic, mean: f64) -> f64 {
        Mean.events(topic, mean)
    }

    fn of_groups<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &[f64; N],
        gone: &[f64; N],
        expected: &mut [f64; N],
    ) -> f64 {
        Mean.of_groups(topic, groups, gone, expected)
    }

    fn of_risks<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &mut [f64; N],
        risks: &[f64; N],
    ) -> f64 {
        Mean.of_risks(topic, groups, risks)
    }

    fn take(&mut self, groups: &mut [f64], count: f64) -> f64 {
        Mean.take(groups, count)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_event_happens_or_not_and_animals_are_means() {
        let mut happened = 0.0;
        for member in 0..4000 {
            let mut fates = Fates::new(1, member);
            fates.begin_day(7);
            let event = fates.how_many(Topic::Queen, 1.0, 0.25);
            assert!(event == 0.0 || event == 1.0);
            happened += event;
            assert_eq!(fates.how_many(Topic::Brood, 1000.0, 0.25), 250.0);
            assert_eq!(fates.how_many(Topic::Queen, 30.0, 0.25), 7.5);
        }
        // Binomial, n = 4000, p = 0.25: standard deviation 27.4; four of them to either side.
        assert!((happened - 1000.0).abs() < 110.0, "{happened}");
    }
}
