//! What nobody knows of a colony before it is looked at: how far colonies of the same start and
//! weather lie apart, and how often something is wrong with one.
//!
//! Each [`Unknown`] multiplies a parameter or a value of the scenario. It is written as a standard
//! normal number `z`, so that all of them together are plain to move about; [`Unknown::value`] turns
//! `z` into the multiplier. Most colonies lie about the median, log-normally; a stated share has
//! a fault, evenly spread over a stated range that sound colonies hardly reach.

use crate::Parameters;
use crate::math::{exp, least, ln, most};
use crate::scenario::Start;
use crate::words::{Language, Saying};

params! {
    /// What nobody knows of a colony: spreads are standard deviations of logarithms.
    PriorsParameters {
        /// Spread of sound queens' laying power.
        queen_spread = 0.12, "-", 0.0..=1.0, Assumed, "no figure found for queens of one source";
        /// Share of packages whose queen is dead or lost before she lays, unknown to the beekeeper.
        queen_dead = 0.03, "-", 0.0..=0.5, Assumed, "5 of 50 packages came with a dead queen: Mangum 2019; most are seen in the cage and replaced";
        /// Share of colonies with a poor queen.
        queen_fault = 0.10, "-", 0.0..=0.9, Assumed, "5 of 50 packages came with a dead queen: Mangum 2019; poor ones are not fewer";
        /// Laying power of the poorest queen.
        queen_fault_from = 0.10, "-", 0.01..=1.0, Assumed, "hardly lays";
        /// Laying power of the best of the poor queens.
        queen_fault_to = 0.60, "-", 0.02..=1.0, Assumed, "her third year lies at 0.45 to 0.73: Akyol et al. 2008, A. m. bandasii";
        /// Spread of the eggs that a nurse can bring up.
        nursing_spread = 0.12, "-", 0.0..=1.0, Assumed, "brood cells for each bee: 0.34 ± 0.20 and 0.72 ± 0.31 between colonies: Harbo 1993; part of it is the queen's";
        /// Spread of workers' life.
        life_spread = 0.10, "-", 0.0..=1.0, Assumed, "15 to 38 d in summer over all causes: Sci Rep 2019 (s41598-019-40725)";
        /// Spread of the bees that are hived.
        bees_spread = 0.08, "-", 0.0..=1.0, Published, "3,333 to 4,000 bees in a pound, 2,800 to 3,065 engorged: trade; Harbo 1983, 1986";
        /// Share of colonies that lose bees to another hive at the start.
        bees_fault = 0.05, "-", 0.0..=0.9, Assumed, "packages side by side lie threefold apart after 3 days: common practice, no source";
        /// Share of the bees left by the worst drift.
        bees_fault_from = 0.35, "-", 0.05..=1.0, Assumed, "half of that threefold";
        /// Share of the bees left by the least drift that counts as a loss.
        bees_fault_to = 0.75, "-", 0.1..=1.0, Assumed, "no figure found";
        /// Spread of what foragers bring.
        forage_spread = 0.20, "-", 0.0..=1.0, Assumed, "no figure found for hives of one yard";
        /// Share of places that offer far less than their forage type.
        forage_fault = 0.08, "-", 0.0..=0.9, Assumed, "a crop that does not flow, hives too many; no figure found";
        /// Forage of the poorest place.
        forage_fault_from = 0.05, "-", 0.0..=1.0, Assumed, "next to nothing";
        /// Forage of the best of the poor places.
        forage_fault_to = 0.50, "-", 0.02..=1.0, Assumed, "no figure found";
        /// Spread of the syrup that a bee takes.
        feed_spread = 0.15, "-", 0.0..=1.0, Assumed, "a quart a day to a quart in three days on like packages: common practice, no source";
        /// Share of colonies whose feed did not reach them: leaking, robbed, empty or out of reach.
        feed_fault = 0.08, "-", 0.0..=0.9, Assumed, "no figure found";
        /// Syrup taken where it failed worst.
        feed_fault_from = 0.0, "-", 0.0..=1.0, Assumed, "none";
        /// Syrup taken where it failed least.
        feed_fault_to = 0.45, "-", 0.01..=1.0, Assumed, "no figure found";
        /// Spread of comb building.
        comb_spread = 0.15, "-", 0.0..=1.0, Assumed, "8 of 10 frames after 30 to 36 days: common practice, no source";
        /// Share of colonies that hardly take up their foundation.
        comb_fault = 0.05, "-", 0.0..=0.9, Assumed, "poorly waxed or badly placed foundation; no figure found";
        /// Building where it is taken up worst.
        comb_fault_from = 0.15, "-", 0.0..=1.0, Assumed, "no figure found";
        /// Building where it is taken up best among those.
        comb_fault_to = 0.50, "-", 0.02..=1.0, Assumed, "bare plastic is taken up at half speed: assumed of the comb";
        /// Mites on 100 bees at the start where the scenario does not say: nobody knows that there are none.
        mites_usual = 0.8, "mites", 0.0..=20.0, Assumed, "package and nuc loads of 0 to 3: common practice, no source";
        /// Spread of mites at the start.
        mites_spread = 0.60, "-", 0.0..=2.0, Assumed, "no figure found for one source";
        /// Share of colonies that start with far more mites than was thought.
        mites_fault = 0.08, "-", 0.0..=0.9, Assumed, "no figure found";
        /// How many times the usual load the least of these have.
        mites_fault_from = 4.0, "-", 1.0..=50.0, Assumed, "beyond the spread of the others";
        /// How many times the usual load the worst have.
        mites_fault_to = 14.0, "-", 1.0..=100.0, Assumed, "about 10 on 100 bees";
        /// Spread of the eyes that estimate frames of bees and of brood: one observer is always over or under.
        eye_spread = 0.10, "-", 0.0..=1.0, Assumed, "trained eyes agree within about a tenth: Imdorf et al. 1987 (from memory)";
        /// Spread of mites' daughters.
        mite_growth_spread = 0.12, "-", 0.0..=1.0, Published, "0.9 to 1.07 daughters between studies: Martin 2001, Martin & Kryger 2002, Strapazzon et al. 2009";
    }
}

/// Number of unknowns.
pub const COUNT: usize = 10;

/// The unknowns of one colony as standard normal numbers, in the order of [`Unknown::ALL`].
pub type Unknowns = [f64; COUNT];

/// Something that nobody knows of a colony.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Unknown {
    /// The queen's laying power.
    Queen,
    /// Eggs that a nurse can bring up.
    Nursing,
    /// How long workers live.
    WorkerLife,
    /// How many bees there are at the start.
    Bees,
    /// What foragers bring home.
    Forage,
    /// How much syrup a bee takes.
    Feed,
    /// Zeal in comb building.
    Comb,
    /// Mites at the start.
    Mites,
    /// Mites' daughters.
    MiteGrowth,
    /// What the observer makes of a frame of bees or of brood.
    Eye,
}

/// How an unknown is spread: the median is 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shape {
    /// Standard deviation of the logarithm among sound colonies.
    pub spread: f64,
    /// Share of colonies with a fault, 0 to 1.
    pub fault: f64,
    /// Part of those that have nothing at all of it: a queen that is dead.
    pub nothing: f64,
    /// Range of the other faults: below the sound ones, or above.
    pub range: (f64, f64),
    /// Whether faults lie above the sound colonies.
    pub above: bool,
}

impl Unknown {
    /// Every unknown.
    pub const ALL: [Self; COUNT] = [
        Self::Queen,
        Self::Nursing,
        Self::WorkerLife,
        Self::Bees,
        Self::Forage,
        Self::Feed,
        Self::Comb,
        Self::Mites,
        Self::MiteGrowth,
        Self::Eye,
    ];

    /// A short name in plain words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().verdict.unknowns[self as usize]
    }

    /// How it is spread over colonies.
    pub fn shape(self, p: &PriorsParameters) -> Shape {
        let below = |spread, fault, from, to| Shape {
            spread,
            fault,
            nothing: 0.0,
            range: (from, to),
            above: false,
        };
        match self {
            Self::Queen => Shape {
                nothing: p.queen_dead,
                ..below(
                    p.queen_spread,
                    p.queen_dead + p.queen_fault,
                    p.queen_fault_from,
                    p.queen_fault_to,
                )
            },
            Self::Nursing => below(p.nursing_spread, 0.0, 1.0, 1.0),
            Self::WorkerLife => below(p.life_spread, 0.0, 1.0, 1.0),
            Self::Bees => below(
                p.bees_spread,
                p.bees_fault,
                p.bees_fault_from,
                p.bees_fault_to,
            ),
            Self::Forage => below(
                p.forage_spread,
                p.forage_fault,
                p.forage_fault_from,
                p.forage_fault_to,
            ),
            Self::Feed => below(
                p.feed_spread,
                p.feed_fault,
                p.feed_fault_from,
                p.feed_fault_to,
            ),
            Self::Comb => below(
                p.comb_spread,
                p.comb_fault,
                p.comb_fault_from,
                p.comb_fault_to,
            ),
            Self::Mites => Shape {
                above: true,
                ..below(
                    p.mites_spread,
                    p.mites_fault,
                    p.mites_fault_from,
                    p.mites_fault_to,
                )
            },
            Self::MiteGrowth => below(p.mite_growth_spread, 0.0, 1.0, 1.0),
            Self::Eye => below(p.eye_spread, 0.0, 1.0, 1.0),
        }
    }

    /// The multiplier that belongs to a standard normal number; it rises with it.
    pub fn value(self, z: f64, p: &PriorsParameters) -> f64 {
        self.shape(p).value(z)
    }

    /// The standard normal number in the middle of the faults that leave something; 0 where there is no fault.
    pub fn middle_of_fault(self, p: &PriorsParameters) -> f64 {
        let shape = self.shape(p);
        if shape.fault <= 0.0 {
            return 0.0;
        }
        let z = normal_quantile(0.5 * (shape.nothing + shape.fault));
        if shape.above { -z } else { z }
    }

    /// The standard normal number in the middle of those that have nothing of it; `None` where all have some.
    pub fn middle_of_nothing(self, p: &PriorsParameters) -> Option<f64> {
        let nothing = self.shape(p).nothing;
        (nothing > 0.0).then(|| normal_quantile(0.5 * nothing))
    }

    /// Whether the colony has nothing of it.
    pub fn is_nothing(self, z: f64, p: &PriorsParameters) -> bool {
        normal_share(z) < self.shape(p).nothing
    }

    /// Whether the colony has this fault.
    pub fn is_faulty(self, z: f64, p: &PriorsParameters) -> bool {
        self.shape(p).is_faulty(z)
    }
}

impl Shape {
    fn value(self, z: f64) -> f64 {
        let share = normal_share(z);
        let (from, to) = self.range;
        if self.above {
            let sound = 1.0 - self.fault;
            if self.is_faulty(z) {
                return from + (to - from) * (share - sound) / self.fault;
            }
            // The far tail of sound colonies ends where faults begin.
            let value = exp(self.spread * normal_quantile(share / sound));
            if self.fault > 0.0 {
                least(value, from)
            } else {
                value
            }
        } else {
            if share < self.nothing {
                return 0.0;
            }
            if self.is_faulty(z) {
                return from + (to - from) * (share - self.nothing) / (self.fault - self.nothing);
            }
            let value =
                exp(self.spread * normal_quantile((share - self.fault) / (1.0 - self.fault)));
            if self.fault > 0.0 {
                most(value, to)
            } else {
                value
            }
        }
    }

    fn is_faulty(self, z: f64) -> bool {
        let share = normal_share(z);
        if self.above {
            share > 1.0 - self.fault
        } else {
            share < self.fault
        }
    }
}

/// Mites that colonies were given because the scenario does not say how many there are at the start.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct AssumedMites {
    /// The usual load, mites on 100 bees; colonies lie about it.
    pub per_100_bees: f64,
    /// That it was assumed, and how to say otherwise.
    pub text: Saying,
}

impl AssumedMites {
    /// What was assumed; `None` where the start says how many mites there are, be it 0.
    pub fn of(start: &Start, p: &PriorsParameters) -> Option<Self> {
        start.mites_per_100_bees.is_none().then(|| Self {
            per_100_bees: p.mites_usual,
            text: Saying::new(|words| words.verdict.assumed_mites).decimal(
                "mites",
                p.mites_usual,
                1,
            ),
        })
    }
}

/// Applies the unknowns of a colony to its start and to the parameters.
pub fn apply(z: &Unknowns, start: &mut Start, parameters: &mut Parameters) {
    let priors = parameters.priors;
    let value = |unknown: Unknown| unknown.value(z[unknown as usize], &priors);
    let bees = value(Unknown::Bees);
    let (package, swarm) = (&mut start.package, &mut start.swarm);
    let packed = package
        .as_mut()
        .map(|bees| (&mut bees.pounds, &mut bees.kilograms, &mut bees.bees));
    let swarmed = swarm
        .as_mut()
        .map(|bees| (&mut bees.pounds, &mut bees.kilograms, &mut bees.bees));
    for (pounds, kilograms, count) in [packed, swarmed].into_iter().flatten() {
        for amount in [pounds, kilograms, count].into_iter().flatten() {
            *amount *= bees;
        }
    }
    for there in [&mut start.nuc, &mut start.established]
        .into_iter()
        .flatten()
    {
        there.frames_of_bees *= bees;
    }
    start.queen.laying_power *= value(Unknown::Queen);
    let mites = start.mites_per_100_bees.unwrap_or(priors.mites_usual);
    start.mites_per_100_bees = Some(mites * value(Unknown::Mites));

    parameters.queen.eggs_per_nurse *= value(Unknown::Nursing);
    let hazard = 1.0 / value(Unknown::WorkerLife);
    parameters.adults.idle_death *= hazard;
    parameters.adults.work_death *= hazard;
    parameters.adults.flight_death *= hazard;
    parameters.adults.forager_death *= hazard;
    let forage = value(Unknown::Forage);
    parameters.stores.nectar_load_g *= forage;
    parameters.stores.pollen_load_g *= forage;
    parameters.stores.syrup_per_bee_g *= value(Unknown::Feed);
    parameters.comb.cells_per_builder *= value(Unknown::Comb);
    let daughters = value(Unknown::MiteGrowth);
    parameters.mites.daughters_worker *= daughters;
    parameters.mites.daughters_drone *= daughters;
}

/// Share of a standard normal below `z`.
pub fn normal_share(z: f64) -> f64 {
    0.5 * libm::erfc(-z / core::f64::consts::SQRT_2)
}

/// The standard normal number below which a share lies; ±6 at the ends.
///
/// A rational start (Abramowitz & Stegun 1964, 26.2.23), then two steps of Newton's method: good to
/// 1e-12 within ±5.
pub fn normal_quantile(share: f64) -> f64 {
    const FAR: f64 = 6.0;
    let tail = if share < 0.5 { share } else { 1.0 - share };
    if tail < 1e-9 {
        return if share < 0.5 { -FAR } else { FAR };
    }
    let t = f64::sqrt(-2.0 * ln(tail));
    let mut z = t
        - (2.515_517 + t * (0.802_853 + t * 0.010_328))
            / (1.0 + t * (1.432_788 + t * (0.189_269 + t * 0.001_308)));
    for _ in 0..2 {
        let density = exp(-0.5 * z * z) * 0.398_942_280_401_432_7;
        z += (normal_share(-z) - tail) / density;
    }
    if share < 0.5 { -z } else { z }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_of_the_normal_are_the_tabled_ones() {
        // scipy.stats.norm.ppf of the same.
        for (share, z) in [
            (0.5, 0.0),
            (0.975, 1.959_963_984_540_054),
            (0.05, -1.644_853_626_951_472_7),
            (0.001, -3.090_232_306_167_813),
        ] {
            let got = normal_quantile(share);
            assert!((got - z).abs() < 1e-9, "{share}: {got} is not {z}");
            assert!((normal_share(z) - share).abs() < 1e-12);
        }
    }

    #[test]
    fn multipliers_rise_with_z_and_faults_have_their_share() {
        let p = PriorsParameters::default();
        for unknown in Unknown::ALL {
            let steps: Vec<f64> = (-40..=40).map(|k| f64::from(k) * 0.1).collect();
            let values: Vec<f64> = steps.iter().map(|z| unknown.value(*z, &p)).collect();
            assert!(values.is_sorted(), "{unknown:?}: {values:?}");
            let shape = unknown.shape(&p);
            let shares = 20_000;
            let faulty = (0..shares)
                .filter(|k| {
                    let z = normal_quantile((f64::from(*k) + 0.5) / f64::from(shares));
                    unknown.is_faulty(z, &p)
                })
                .count();
            let share = faulty as f64 / f64::from(shares);
            assert!((share - shape.fault).abs() < 2e-4, "{unknown:?}: {share}");
            let nothing = unknown.middle_of_nothing(&p);
            assert_eq!(nothing.is_some(), unknown == Unknown::Queen);
            assert!(
                nothing.is_none_or(|z| unknown.is_nothing(z, &p) && unknown.value(z, &p) == 0.0)
            );
            let middle = unknown.middle_of_fault(&p);
            assert!(!unknown.is_nothing(middle, &p) && unknown.value(middle, &p) > 0.0);
        }
    }
}
