//! The chance of a reading: how likely it is, how far out it lies, and drawing one.

use rand::RngExt;
use rand_distr::{Binomial, Distribution, Gamma, Poisson, StandardNormal};
use rand_pcg::Pcg64Mcg;

use super::VisitsParameters;
use crate::math::{exp, ln, most};
use crate::priors::normal_share;

/// Smallest chance of anything: keeps logarithms finite where a colony rules a reading out.
const LEAST: f64 = 1e-12;

/// How a reading varies about what is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Chance {
    /// Normal about `mean`, a few far out; what is below `least` is read as nothing.
    Amount {
        /// What is there.
        mean: f64,
        /// Standard deviation.
        error: f64,
        /// Smallest amount that is written down; minus infinity: any.
        least: f64,
    },
    /// Yes with a probability.
    Yes(f64),
    /// A count of `of` with a probability each, alike by `clumping`.
    Among {
        /// How many are looked at.
        of: f64,
        /// Probability of each.
        share: f64,
        /// Intra-class correlation.
        clumping: f64,
    },
    /// A count with this mean, and a relative spread beyond that of counting.
    Count {
        /// Mean.
        mean: f64,
        /// Relative spread.
        spread: f64,
    },
}

impl Chance {
    /// The mean reading, slips and the smallest amount left out.
    pub fn mean(self) -> f64 {
        match self {
            Self::Amount { mean, .. } | Self::Count { mean, .. } => mean,
            Self::Yes(chance) => chance,
            Self::Among { of, share, .. } => of * share,
        }
    }

    /// Logarithm of the probability (for amounts: of its density) of reading `value`.
    pub fn log_likelihood(self, value: f64, p: &VisitsParameters) -> f64 {
        let chance = match self {
            Self::Amount { mean, error, least } => {
                let of = |error: f64| {
                    if value <= least {
                        return normal_share((least - mean) / error);
                    }
                    let far = (value - mean) / error;
                    exp(-0.5 * far * far) / (error * 2.506_628_274_631_000_2)
                };
                (1.0 - p.slips) * of(error) + p.slips * of(error * p.slips_wider)
            }
            Self::Yes(chance) => {
                if value > 0.5 {
                    chance
                } else {
                    1.0 - chance
                }
            }
            Self::Among {
                of,
                share,
                clumping,
            } => return beta_binomial(value, of, share, clumping),
            Self::Count { mean, spread } => return negative_binomial(value, mean, spread),
        };
        ln(most(chance, LEAST))
    }

    /// Probability of reading less than `value`, and half of that of reading just it.
    pub fn below(self, value: f64, p: &VisitsParameters) -> f64 {
        let count = |log: &dyn Fn(f64) -> f64| {
            let less: f64 = (0..value as u32).map(|k| exp(log(f64::from(k)))).sum();
            less + 0.5 * exp(log(value))
        };
        match self {
            Self::Amount { mean, error, least } => {
                let of = |error: f64| {
                    if value <= least {
                        0.5 * normal_share((least - mean) / error)
                    } else {
                        normal_share((value - mean) / error)
                    }
                };
                (1.0 - p.slips) * of(error) + p.slips * of(error * p.slips_wider)
            }
            Self::Yes(chance) => {
                if value > 0.5 {
                    1.0 - 0.5 * chance
                } else {
                    0.5 * (1.0 - chance)
                }
            }
            Self::Among {
                of,
                share,
                clumping,
            } => count(&|k| beta_binomial(k, of, share, clumping)),
            Self::Count { mean, spread } => count(&|k| negative_binomial(k, mean, spread)),
        }
    }

    /// Draws a reading.
    pub fn draw(self, stream: &mut Pcg64Mcg, p: &VisitsParameters) -> f64 {
        match self {
            Self::Amount { mean, error, least } => {
                let wider = if stream.random::<f64>() < p.slips {
                    p.slips_wider
                } else {
                    1.0
                };
                let normal: f64 = StandardNormal.sample(stream);
                let value = mean + wider * error * normal;
                if value <= least { 0.0 } else { value }
            }
            Self::Yes(chance) => f64::from(u8::from(stream.random::<f64>() < chance)),
            Self::Among {
                of,
                share,
                clumping,
            } => {
                let (a, b) = beta_shape(share, clumping);
                let x = gamma(a, stream);
                let share = x / most(x + gamma(b, stream), 1e-300);
                Binomial::new(of as u64, share.clamp(0.0, 1.0))
                    .map_or(0.0, |count| count.sample(stream) as f64)
            }
            Self::Count { mean, spread } => {
                let shape = 1.0 / (spread * spread);
                let mean = gamma(shape, stream) / shape * mean;
                Poisson::new(mean).map_or(0.0, |count| count.sample(stream))
            }
        }
    }
}

fn gamma(shape: f64, stream: &mut Pcg64Mcg) -> f64 {
    Gamma::new(shape, 1.0).map_or(0.0, |gamma| gamma.sample(stream))
}

fn beta_shape(share: f64, clumping: f64) -> (f64, f64) {
    let share = share.clamp(1e-5, 0.999);
    let total = (1.0 - clumping) / clumping;
    (share * total, (1.0 - share) * total)
}

fn ln_gamma(x: f64) -> f64 {
    libm::lgamma(x)
}

fn ln_choose(n: f64, k: f64) -> f64 {
    ln_gamma(n + 1.0) - ln_gamma(k + 1.0) - ln_gamma(n - k + 1.0)
}

fn beta_binomial(k: f64, n: f64, share: f64, clumping: f64) -> f64 {
    let (a, b) = beta_shape(share, clumping);
    let ln_beta = |a: f64, b: f64| ln_gamma(a) + ln_gamma(b) - ln_gamma(a + b);
    ln_choose(n, k) + ln_beta(k + a, n - k + b) - ln_beta(a, b)
}

fn negative_binomial(k: f64, mean: f64, spread: f64) -> f64 {
    let shape = 1.0 / (spread * spread);
    let mean = most(mean, 1e-3);
    ln_gamma(k + shape) - ln_gamma(shape) - ln_gamma(k + 1.0)
        + shape * ln(shape / (shape + mean))
        + k * ln(mean / (shape + mean))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rng::{Topic, stream};

    #[test]
    fn counts_have_the_chances_of_their_distributions() {
        // scipy.stats.betabinom.logpmf(5, 300, 0.02 * 249, 0.98 * 249): clumping 0.004.
        // scipy.stats.nbinom.logpmf(12, 1 / 0.35**2, (1 / 0.35**2) / (1 / 0.35**2 + 9)).
        let p = VisitsParameters::default();
        for chance in [
            Chance::Among {
                of: 300.0,
                share: 0.02,
                clumping: 0.004,
            },
            Chance::Count {
                mean: 9.0,
                spread: 0.35,
            },
        ] {
            let sum: f64 = (0..=300)
                .map(|k| exp(chance.log_likelihood(f64::from(k), &p)))
                .sum();
            assert!((sum - 1.0).abs() < 1e-9, "{chance:?}: {sum}");
        }
    }

    #[test]
    fn draws_lie_where_they_are_said_to_lie() {
        // The share below is uniform over draws: mean 1/2 ± 4 standard errors of 0.289 / √4000.
        let p = VisitsParameters::default();
        let mut stream = stream(3, 0, Topic::Luck, 1);
        for chance in [
            Chance::Amount {
                mean: 0.4,
                error: 0.3,
                least: 0.125,
            },
            Chance::Yes(0.3),
            Chance::Among {
                of: 300.0,
                share: 0.02,
                clumping: 0.004,
            },
            Chance::Count {
                mean: 9.0,
                spread: 0.35,
            },
        ] {
            let mean = (0..4000)
                .map(|_| chance.below(chance.draw(&mut stream, &p), &p))
                .sum::<f64>()
                / 4000.0;
            assert!((mean - 0.5).abs() < 0.0183, "{chance:?}: {mean}");
        }
    }
}
