//! Random or mean from one code: what is drawn by chance in one mode is its mean in the other.

use rand::RngExt;
use rand_distr::{Binomial, Distribution, Poisson};
use rand_pcg::Pcg64Mcg;

use crate::math::{least, most, sum};
use crate::rng::{Topic, stream};

/// Room for every topic number.
const TOPICS: usize = Topic::Luck as usize + 1;

/// Draws numbers of animals.
pub trait Draw: std::fmt::Debug {
    /// Tells the draw that a new day begins.
    fn begin_day(&mut self, day: u32);

    /// How many of `count` meet a risk of `probability`.
    fn how_many(&mut self, topic: Topic, count: f64, probability: f64) -> f64;

    /// How many events happen when `mean` are expected.
    fn events(&mut self, topic: Topic, mean: f64) -> f64;

    /// How many of each group meet its own risk: `expected` holds the means, and is replaced by the draw.
    ///
    /// `gone` are those of each group who are out of it already; no group loses more than the rest.
    /// Returns the sum.
    fn of_groups<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &[f64; N],
        gone: &[f64; N],
        expected: &mut [f64; N],
    ) -> f64
    where
        Self: Sized;

    /// How many of each group meet its own `risk`, and how many in all.
    #[inline]
    fn at_risk<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &[f64; N],
        risks: &[f64; N],
    ) -> ([f64; N], f64)
    where
        Self: Sized,
    {
        let mut taken = [0.0; N];
        for k in 0..N {
            taken[k] = groups[k] * risks[k];
        }
        let all = self.of_groups(topic, groups, &[0.0; N], &mut taken);
        (taken, all)
    }

    /// Takes from each group those who meet its own `risk`; returns how many in all.
    fn of_risks<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &mut [f64; N],
        risks: &[f64; N],
    ) -> f64
    where
        Self: Sized,
    {
        let (taken, all) = self.at_risk(topic, groups, risks);
        for (group, taken) in groups.iter_mut().zip(&taken) {
            *group -= taken;
        }
        all
    }

    /// Takes `count` from the groups in proportion to their size, without any chance; returns how many
    /// were taken. Whole animals are rounded up.
    fn take(&mut self, groups: &mut [f64], count: f64) -> f64;
}

/// Every draw is its mean.
#[derive(Debug, Clone, Copy, Default)]
pub struct Mean;

impl Draw for Mean {
    #[inline]
    fn begin_day(&mut self, _: u32) {}

    #[inline]
    fn how_many(&mut self, _: Topic, count: f64, probability: f64) -> f64 {
        count * probability
    }

    #[inline]
    fn events(&mut self, _: Topic, mean: f64) -> f64 {
        mean
    }

    #[inline]
    fn of_groups<const N: usize>(
        &mut self,
        _: Topic,
        _: &[f64; N],
        _: &[f64; N],
        expected: &mut [f64; N],
    ) -> f64 {
        sum(expected)
    }

    fn take(&mut self, groups: &mut [f64], count: f64) -> f64 {
        let before: f64 = groups.iter().sum();
        if before <= 0.0 || count <= 0.0 {
            return 0.0;
        }
        let left = most(0.0, 1.0 - count / before);
        for group in groups.iter_mut() {
            *group *= left;
        }
        before - groups.iter().sum::<f64>()
    }
}

/// Whole animals, from streams keyed by seed, member, topic and day.
#[derive(Debug, Clone)]
pub struct Random {
    seed: u32,
    member: u32,
    first: u32,
    day: u32,
    // One stream a topic, made when it is first used on a day.
    streams: [Option<Pcg64Mcg>; TOPICS],
}

impl Random {
    /// The draws of one member of an ensemble; a single season is member 0.
    pub fn new(seed: u32, member: u32) -> Self {
        Self {
            seed,
            member,
            first: 0,
            day: 0,
            streams: [const { None }; TOPICS],
        }
    }

    /// The same draws for a season that starts so many days later (negative: earlier), so that both
    /// have one luck on one date.
    #[must_use]
    pub fn starting_on(mut self, days_later: i32) -> Self {
        // Days before the first wrap round to the far end of the keys, where no season comes.
        self.first = days_later as u32;
        self
    }

    fn stream(&mut self, topic: Topic) -> &mut Pcg64Mcg {
        let (seed, member, day) = (self.seed, self.member, self.day);
        self.streams[topic as usize].get_or_insert_with(|| stream(seed, member, topic, day))
    }
}

impl Draw for Random {
    fn begin_day(&mut self, day: u32) {
        self.day = self.first.wrapping_add(day);
        self.streams = [const { None }; TOPICS];
    }

    fn how_many(&mut self, topic: Topic, count: f64, probability: f64) -> f64 {
        if count <= 0.0 || probability <= 0.0 {
            return 0.0;
        }
        let binomial =
            Binomial::new(count as u64, probability.min(1.0)).expect("a probability of 0 to 1");
        binomial.sample(self.stream(topic)) as f64
    }

    fn events(&mut self, topic: Topic, mean: f64) -> f64 {
        if mean <= 0.0 {
            return 0.0;
        }
        let poisson = Poisson::new(mean).expect("a positive finite mean");
        poisson.sample(self.stream(topic))
    }

    // One binomial draw for the sum, then the animals are dealt out along the groups in proportion to
    // what each expects, from a random offset: whole numbers, at a cost that does not grow with the
    // number of groups. The sum's spread is that of a binomial with the mean risk.
    fn of_groups<const N: usize>(
        &mut self,
        topic: Topic,
        groups: &[f64; N],
        gone: &[f64; N],
        expected: &mut [f64; N],
    ) -> f64 {
        let count = sum(groups) - sum(gone);
        let mean = sum(expected);
        if count <= 0.0 || mean <= 0.0 {
            expected.fill(0.0);
            return 0.0;
        }
        let total = self.how_many(topic, count, mean / count);
        let scale = total / mean;
        let offset: f64 = self.stream(topic).random();
        let (mut along, mut dealt, mut short) = (0.0, 0.0, 0.0);
        for ((group, gone), slot) in groups.iter().zip(gone).zip(expected.iter_mut()) {
            along += *slot * scale;
            // A cast is the fastest way down to a whole number, and these are never negative.
            let due = (((along + offset) as i64) as f64).min(total) - dealt;
            dealt += due;
            // What a group cannot give is asked of the next ones.
            let given = (due + short).min(group - gone);
            short += due - given;
            *slot = given;
        }
        // Rounding of the running sum can leave the last animals undealt.
        let mut left = total - dealt + short;
        for ((group, gone), slot) in groups.iter().zip(gone).zip(expected.iter_mut()).rev() {
            if left <= 0.0 {
                break;
            }
            let more = left.min(group - gone - *slot);
            *slot += more;
            left -= more;
        }
        total - left
    }

    fn take(&mut self, groups: &mut [f64], count: f64) -> f64 {
        let there: f64 = groups.iter().sum();
        let wanted = least(libm::ceil(count), there);
        if there <= 0.0 || wanted <= 0.0 {
            return 0.0;
        }
        let (mut along, mut taken) = (0.0, 0.0);
        for group in groups.iter_mut() {
            along += *group;
            // What the groups up to here have to give, rounded: never more than they hold.
            let due = libm::floor(along / there * wanted + 0.5) - taken;
            let given = least(due, *group);
            *group -= given;
            taken += given;
        }
        for group in groups.iter_mut() {
            let more = least(wanted - taken, *group);
            *group -= more;
            taken += more;
        }
        taken
    }
}
