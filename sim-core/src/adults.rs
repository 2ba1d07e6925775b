//! Workers: house bees and foragers by physiological age.
//!
//! A bee's physiological age runs with her work, and bees of one age work alike: so bees that emerged
//! within two days of physiological time share a class. In June a class is two days' bees, in December
//! it is a month's. Nothing is smeared from class to class.

use crate::brood::MOST_DAYS;
use crate::draw::Draw;
use crate::math::{least, most, smooth_step, sum, unit};
use crate::rng::Topic;

/// Number of age classes kept apart; the oldest are pooled.
pub const CLASSES: usize = 12;

/// Physiological days that share a class.
pub const CLASS_D: f64 = 3.4;

params! {
    /// House bees and foragers.
    AdultsParameters {
        /// Physiological days that an idle winter bee ages in a day.
        idle_ageing = 0.0455, "d/d", 0.001..=0.2, Tuned, "winter life 150 to 200 d: Fukuda & Sekiguchi 1966 (from memory)";
        /// Open larvae per house bee at which brood care makes her age one day in a day.
        full_care = 0.28, "cells/bee", 0.05..=3.0, Tuned, "June death curve: Sekiguchi et al. 1962";
        /// Open larvae per house bee at which half of the care effect is reached.
        half_care = 0.195, "cells/bee", 0.02..=2.0, Tuned, "spring dwindle: Seeley & Visscher 1985 (from memory)";
        /// Ageing of bees past nursing by the work of warm days, at ten flight hours and more with forage about; less where bees stay at home.
        outdoor_ageing = 0.915, "d/d", 0.0..=1.0, Tuned, "lives of 20 to 30 d from late spring to late autumn: bioRxiv 2023.10.26.564284";
        /// The part of it that falls on the youngest bees, who do not yet do such work.
        outdoor_ageing_of_young = 0.258, "-", 0.0..=1.0, Tuned, "winter life 150 to 200 d: Fukuda & Sekiguchi 1966 (from memory)";
        /// Daily death risk of any house bee.
        idle_death = 0.0015, "1/d", 0.0..=0.05, Tuned, "winter loss: Free & Racey 1968, Harbo 1983";
        /// Further daily death risk of a house bee that ages at full pace.
        work_death = 0.00265, "1/d", 0.0..=0.05, Tuned, "10 to 15 % of deaths are in the nest: Gary in Page 2013";
        /// Daily death risk of house bees past old age, at full pace.
        old_death = 0.12, "1/d", 0.0..=1.0, Assumed, "end of life of bees that never fly";
        /// Physiological age at which half of the old-age risk is reached.
        old_age = 33.0, "d", 15.0..=60.0, Assumed, "modal age of death 25 to 30 d: Sekiguchi et al. 1962";
        /// Physiological age of the first foraging flight in a balanced colony.
        foraging_age = 19.1, "d", 8.0..=35.0, Tuned, "about 21 d: Seeley 1982; death curve of Sekiguchi et al. 1962";
        /// Spread of the age of first foraging, from the first bee to the last.
        foraging_spread = 22.7, "d", 4.0..=40.0, Tuned, "flexible: 5 to 7 d in young colonies, 30 d and more at the latest (from memory)";
        /// Share of foragers below which younger bees go out, above which older ones stay in.
        balanced_share = 0.24, "-", 0.05..=0.6, Tuned, "20 to 33 % foragers in colonies of 10,000 to 30,000: Farrar's rule (Reid 1980)";
        /// How much younger bees forage when there are no foragers at all.
        early_by = 9.0, "d", 0.0..=18.0, Tuned, "14 d for young bees among few foragers: Winston";
        /// Recruitment of house bees of age when no forager is out.
        recruitment = 0.312, "1/d", 0.05..=1.0, Tuned, "form of Khoury et al. 2011; their 0.25 stands without an age gate";
        /// Fall of recruitment with the share of foragers.
        inhibition = 0.50, "1/d", 0.0..=2.0, Tuned, "form of Khoury et al. 2011";
        /// Rise of recruitment when the colony is hungry.
        hungry_recruitment = 0.25, "1/d", 0.0..=1.0, Published, "Khoury et al. 2013 (from memory)";
        /// How much younger bees forage when the colony is hungry.
        hungry_early_by = 8.0, "d", 0.0..=15.0, Assumed, "food shortage brings foraging forward: review 2008 (s00265-008-0591-7)";
        /// Stores per bee at which hunger is half.
        hunger_stores_g = 0.012, "g/bee", 0.001..=0.2, Assumed, "half a month of broodless winter food is 0.07 g";
        /// Share of foragers from which some go back to house work.
        reversion_share = 0.33, "-", 0.1..=0.9, Published, "equilibrium share of Khoury et al. 2011";
        /// Foragers going back in a day for each unit of share too many.
        reversion = 0.5, "1/d", 0.0..=2.0, Assumed, "no figure found";
        /// Death risk of a forager in an hour flown.
        flight_death = 0.036, "1/h", 0.0..=0.2, Published, "Visscher & Dukas 1997: 28 h of flight in a life (from memory)";
        /// Share of the hours that allow flight that a forager is in the air on a rich day.
        hours_in_air = 0.316, "-", 0.05..=1.0, Tuned, "forager life of about 8 d: Visscher & Dukas 1997 (from memory)";
        /// Daily death risk of a forager that does not fly.
        forager_death = 0.0152, "1/d", 0.0..=0.2, Tuned, "bees in March: Harris 2008";
        /// Share of adults lost in a day without any food.
        starving_death = 0.25, "1/d", 0.0..=1.0, Assumed, "dead within days";
        /// Further daily death risk in a small cluster on cold nights.
        cold_death = 0.035, "1/d", 0.0..=0.5, Assumed, "small clusters die of cold";
        /// Bees of a cluster on which half of that risk falls; less on larger ones.
        small_cluster = 3000.0, "bees", 100.0..=10000.0, Assumed, "combine under 5 frames: extension rule (from memory)";
    }
}

/// The adult workers of a colony.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Adults {
    /// Physiological age of each class, d. Classes are kept in a ring: their order in the arrays is not their order of age.
    pub age: [f64; CLASSES],
    /// House bees of each class.
    pub house: [f64; CLASSES],
    /// Foragers of each class.
    pub foragers: [f64; CLASSES],
    /// The class that takes today's bees.
    youngest: usize,
    /// Physiological days since that class was opened.
    open_for: f64,
}

impl Default for Adults {
    fn default() -> Self {
        Self {
            age: [0.0; CLASSES],
            house: [0.0; CLASSES],
            foragers: [0.0; CLASSES],
            youngest: 0,
            open_for: 0.0,
        }
    }
}

impl Adults {
    /// `bees` house bees and `foragers` spread evenly over ages from 0 to `oldest` days; foragers are the oldest.
    pub fn spread(bees: f64, foragers: f64, oldest: f64) -> Self {
        let mut adults = Self::default();
        let classes = (libm::ceil(oldest / CLASS_D) as usize).clamp(1, CLASSES - 1);
        let total = bees + foragers;
        // Whole bees in every class, so that random mode starts with whole bees.
        let (mut dealt_all, mut dealt_house) = (0.0, 0.0);
        for k in 0..classes {
            let done = (k + 1) as f64 / classes as f64;
            let all = libm::round(total * done) - dealt_all;
            dealt_all += all;
            let house = (libm::round(bees) - dealt_house).min(all).max(0.0);
            dealt_house += house;
            // The youngest class is the last in the ring, so that the next class opened comes after it.
            let slot = classes - 1 - k;
            adults.age[slot] = (k as f64 + 0.5) * oldest / classes as f64;
            adults.house[slot] = house;
            adults.foragers[slot] = all - house;
        }
        adults.youngest = classes - 1;
        adults.open_for = CLASS_D;
        adults
    }

    /// `emerged` young bees join, after a day of `nurse_pace` for those of the days before.
    pub fn join(&mut self, nurse_pace: f64, emerged: f64) {
        self.open_for += nurse_pace;
        if self.open_for >= CLASS_D {
            self.open_class();
        }
        let k = self.youngest;
        let there = self.house[k] + self.foragers[k];
        if emerged > 0.0 {
            self.age[k] *= there / (there + emerged);
            self.house[k] += emerged;
        }
    }

    /// Other bees join, each class of them the class that is nearest to its age.
    pub fn take_in(&mut self, others: &Self) {
        for k in 0..CLASSES {
            let coming = others.house[k] + others.foragers[k];
            if coming <= 0.0 {
                continue;
            }
            let there = |k: usize| self.house[k] + self.foragers[k];
            let apart = |k: usize| (self.age[k] - others.age[k]).abs();
            let nearest = (0..CLASSES)
                .filter(|&k| there(k) > 0.0)
                .min_by(|&a, &b| apart(a).total_cmp(&apart(b)))
                .unwrap_or(self.youngest);
            let staying = there(nearest);
            self.age[nearest] =
                (self.age[nearest] * staying + others.age[k] * coming) / (staying + coming);
            self.house[nearest] += others.house[k];
            self.foragers[nearest] += others.foragers[k];
        }
    }

    /// Opens a class for the young, in the place of the oldest, whose last bees join the next oldest.
    fn open_class(&mut self) {
        let k = (self.youngest + 1) % CLASSES;
        let next = (k + 1) % CLASSES;
        let (leaving, staying) = (
            self.house[k] + self.foragers[k],
            self.house[next] + self.foragers[next],
        );
        if leaving > 0.0 {
            self.age[next] =
                (self.age[k] * leaving + self.age[next] * staying) / (leaving + staying);
            self.house[next] += self.house[k];
            self.foragers[next] += self.foragers[k];
        }
        self.age[k] = 0.0;
        self.house[k] = 0.0;
        self.foragers[k] = 0.0;
        self.youngest = k;
        self.open_for = 0.0;
    }
}

/// A count of the colony by jobs, taken once a day before anything happens.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Census {
    /// House bees.
    pub house: f64,
    /// Foragers.
    pub foragers: f64,
    /// Nurses, in full nurses.
    pub nurses: f64,
    /// Comb builders, in full builders.
    pub builders: f64,
    /// Natural logarithm of all adult workers, at least one: several rules go by powers of their number.
    pub ln_adults: f64,
}

impl Census {
    /// Adds another part of the colony.
    pub fn add(&mut self, other: &Self) {
        self.house += other.house;
        self.foragers += other.foragers;
        self.nurses += other.nurses;
        self.builders += other.builders;
    }

    /// All adult workers.
    pub fn adults(&self) -> f64 {
        self.house + self.foragers
    }
}

/// Nursing power of a house bee by age (Seeley 1982: brood care from 2 to 11 days), 0 to 1.
#[inline(always)]
fn nursing(age: f64) -> f64 {
    let rising = least(0.15 + (0.85 / 3.0) * age, 1.0);
    let falling = most(1.0 - (0.70 / 14.0) * (age - 13.0), 0.30);
    least(rising, falling)
}

/// Wax power of a house bee by age (Burger: glands best from 7 to 14 days), 0 to 1.
#[inline(always)]
fn building(age: f64) -> f64 {
    unit(least(
        (age - 4.0) * (1.0 / 4.0),
        (28.0 - age) * (1.0 / 12.0),
    ))
}

/// Counts the colony.
pub fn census(adults: &Adults) -> Census {
    let mut nurses = [0.0; CLASSES];
    let mut builders = [0.0; CLASSES];
    for k in 0..CLASSES {
        nurses[k] = adults.house[k] * nursing(adults.age[k]);
        builders[k] = adults.house[k] * building(adults.age[k]);
    }
    Census {
        house: sum(&adults.house),
        foragers: sum(&adults.foragers),
        nurses: sum(&nurses),
        builders: sum(&builders),
        ln_adults: 0.0,
    }
}

/// The day's risks and pace, the same for every bee of the colony.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    /// Physiological days that pass today for a bee that nurses, 0 to 1.
    pub nurse_pace: f64,
    /// Physiological days that pass today for a bee past nursing, 0 to 1.
    pub worker_pace: f64,
    /// Death risk of a house bee of any age.
    pub house_death: f64,
    /// Further risk of a house bee past old age.
    pub old_death: f64,
    /// Risk that a house bee well past the foraging age goes out today.
    pub recruitment: f64,
    /// Age at which half of that is reached, d.
    pub foraging_age: f64,
    /// Death risk of a forager.
    pub forager_death: f64,
    /// Risk that a forager goes back to house work.
    pub reversion: f64,
}

impl Rates {
    /// Death risk of a house bee of this age.
    #[inline(always)]
    pub fn house_death_at(&self, age: f64, p: &AdultsParameters) -> f64 {
        least(
            self.house_death + self.old_death * smooth_step(age, p.old_age, 9.0),
            1.0,
        )
    }

    /// The day for bees that mites or virus damaged: they age faster, and never slower than `idle`.
    #[must_use]
    pub fn for_damaged(&self, faster: f64, idle: f64) -> Self {
        Self {
            nurse_pace: most(idle, faster * self.nurse_pace),
            worker_pace: most(idle, faster * self.worker_pace),
            ..*self
        }
    }

    /// Physiological days that pass today for a bee of this age, 0 to 1; more for damaged bees.
    ///
    /// Nurses age by the brood that they feed. From the second week on bees receive nectar, build,
    /// guard and fly, and age by that too: so bees that found brood to feed in August are gone in
    /// October, and those that found none come through the winter.
    #[inline(always)]
    pub fn pace_at(&self, age: f64) -> f64 {
        self.nurse_pace + (self.worker_pace - self.nurse_pace) * unit((age - 6.0) * (1.0 / 8.0))
    }

    /// Risk that a surviving house bee of this age becomes a forager.
    #[inline(always)]
    pub fn recruitment_at(&self, age: f64, p: &AdultsParameters) -> f64 {
        self.recruitment * smooth_step(age, self.foraging_age, p.foraging_spread)
    }
}

/// What the day asks of adult bees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demands {
    /// Open larvae to feed, cells; a drone larva counts for more.
    pub larvae: f64,
    /// Hours that allow flight.
    pub flight_hours: f64,
    /// Hours that a forager was in the air.
    pub hours_flown: f64,
    /// Nectar on offer.
    pub nectar: f64,
    /// Stores of sugar for each bee, g.
    pub stores_per_bee: f64,
    /// Share of the day's food that was lacking.
    pub food_lacking: f64,
    /// Death risk by virus.
    pub virus_death: f64,
    /// Mean low of the last nights, °C.
    pub nights_c: f64,
}

/// Share of full ageing that brood care asks of each house bee; above 1 when she is overloaded.
#[inline]
pub fn care_load(larvae: f64, house: f64, p: &AdultsParameters) -> f64 {
    let hill = |x: f64| x * x / (x * x + p.half_care * p.half_care);
    hill(larvae / most(house, 1.0)) / hill(p.full_care)
}

/// Hours that a forager is in the air, of those that allow flight; bees stay at home in a dearth.
#[inline]
pub fn hours_flown(flight_hours: f64, on_offer: f64, p: &AdultsParameters) -> f64 {
    p.hours_in_air * flight_hours * (0.25 + 0.75 * unit(on_offer / 0.5))
}

/// How hungry a colony is by its stores for each bee, 0 to 1 (form of Khoury et al. 2013).
#[inline]
pub fn hunger(stores_per_bee_g: f64, p: &AdultsParameters) -> f64 {
    let stores = stores_per_bee_g / p.hunger_stores_g;
    1.0 / (1.0 + stores * stores)
}

/// Works out the day's risks and pace.
pub fn rates(count: &Census, day: &Demands, p: &AdultsParameters) -> Rates {
    let care = care_load(day.larvae, count.house, p);
    let care = least(1.0, care);
    // Hours that were flown, so that bees age less where nothing is to be had.
    let outdoors =
        p.outdoor_ageing * unit(day.hours_flown / (10.0 * p.hours_in_air)) * (1.0 - care);
    let pace = |work: f64| least(1.0, p.idle_ageing + (1.0 - p.idle_ageing) * work);
    let worker_pace = pace(care + outdoors);

    let share = count.foragers / most(count.adults(), 1.0);
    // Hunger sends bees out only where there is something to fetch.
    let hunger = unit(day.nectar / 0.2) * hunger(day.stores_per_bee, p);
    // Bees go out early only where there is work for them: brood to feed or nectar to fetch.
    let call = most(care, unit(day.nectar / 0.5));
    let short = (p.balanced_share - share) / p.balanced_share;
    let shift = if short > 0.0 {
        -p.early_by * call * short
    } else {
        p.early_by * least(0.6, -short)
    };
    let wish = most(
        0.0,
        p.recruitment + p.hungry_recruitment * hunger - p.inhibition * share,
    );

    let starving = p.starving_death * unit(day.food_lacking) + day.virus_death;
    // Warmth is lost at the surface: with twice the bees each is at a far smaller risk.
    let size = count.adults() / p.small_cluster;
    let size = size * size;
    let small = 1.0 / (1.0 + size * size);
    let cold = p.cold_death * small * unit((8.0 - day.nights_c) / 10.0);
    let flying = p.flight_death * day.hours_flown
        + p.forager_death * (0.4 + 0.6 * unit(day.flight_hours / 3.0));
    Rates {
        nurse_pace: pace(care + p.outdoor_ageing_of_young * outdoors),
        worker_pace,
        house_death: p.idle_death + p.work_death * worker_pace + starving + cold,
        old_death: p.old_death * worker_pace,
        recruitment: least(
            1.0,
            wish * unit(day.flight_hours / 2.5) * (0.25 + 0.75 * call),
        ),
        foraging_age: p.foraging_age + shift - p.hungry_early_by * hunger,
        forager_death: least(1.0, 1.0 - crate::math::exp(-flying) + starving + cold),
        reversion: least(1.0, p.reversion * most(0.0, share - p.reversion_share)),
    }
}

/// Bees marked on the day of emergence and followed, as with a dab of paint; they change nothing.
///
/// Shares of one bee: `house + foragers` are alive, the rest has died.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// Day of the season on which they emerged.
    pub day: usize,
    /// How many they were.
    pub count: f64,
    /// Physiological age, d.
    pub age: f64,
    /// Share alive as house bees.
    pub house: f64,
    /// Share alive as foragers.
    pub foragers: f64,
    /// Share that died at each age in days.
    pub died: Vec<f64>,
    /// Share out as foragers at each age in days.
    pub out: Vec<f64>,
    /// Share that died as house bees.
    pub died_in_hive: f64,
}

impl Marked {
    /// Bees that emerged today.
    pub fn new(day: usize, count: f64) -> Self {
        Self {
            day,
            count,
            age: 0.0,
            house: 1.0,
            foragers: 0.0,
            died: Vec::with_capacity(MOST_DAYS),
            out: Vec::with_capacity(MOST_DAYS),
            died_in_hive: 0.0,
        }
    }

    /// One day at the colony's rates.
    pub fn live(&mut self, rates: &Rates, p: &AdultsParameters) {
        let died_in = self.house * rates.house_death_at(self.age, p);
        let out = (self.house - died_in) * rates.recruitment_at(self.age, p);
        let died_out = self.foragers * rates.forager_death;
        let back = (self.foragers - died_out) * rates.reversion;
        self.house += back - died_in - out;
        self.foragers += out - died_out - back;
        self.died_in_hive += died_in;
        self.died.push(died_in + died_out);
        self.out.push(self.foragers);
        self.age += rates.pace_at(self.age);
    }

    /// Share still alive.
    pub fn alive(&self) -> f64 {
        self.house + self.foragers
    }

    /// Mean length of life, d; those still alive count with their age so far.
    pub fn mean_life(&self) -> f64 {
        let dead: f64 = self
            .died
            .iter()
            .enumerate()
            .map(|(age, share)| (age as f64 + 0.5) * share)
            .sum();
        dead + self.alive() * self.died.len() as f64
    }
}

/// Deaths of a day.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Deaths {
    /// House bees.
    pub house: f64,
    /// Foragers.
    pub foragers: f64,
}

/// Bees die, take up foraging, go back and grow older, class by class.
///
/// Foragers of this morning die and go back; those who go out today are spared until tomorrow.
pub fn live_a_day<D: Draw>(
    adults: &mut Adults,
    rates: &Rates,
    draw: &mut D,
    p: &AdultsParameters,
) -> Deaths {
    let mut died_in = [0.0; CLASSES];
    let mut out = [0.0; CLASSES];
    let mut died_out = [0.0; CLASSES];
    let mut back = [0.0; CLASSES];
    for k in 0..CLASSES {
        let (age, house, foragers) = (adults.age[k], adults.house[k], adults.foragers[k]);
        died_in[k] = house * rates.house_death_at(age, p);
        out[k] = (house - died_in[k]) * rates.recruitment_at(age, p);
        died_out[k] = foragers * rates.forager_death;
        back[k] = (foragers - died_out[k]) * rates.reversion;
    }
    const NONE: [f64; CLASSES] = [0.0; CLASSES];
    let deaths = Deaths {
        house: draw.of_groups(Topic::Adults, &adults.house, &NONE, &mut died_in),
        foragers: draw.of_groups(Topic::Adults, &adults.foragers, &NONE, &mut died_out),
    };
    if rates.recruitment > 0.0 {
        draw.of_groups(Topic::Adults, &adults.house, &died_in, &mut out);
    }
    if rates.reversion > 0.0 {
        draw.of_groups(Topic::Adults, &adults.foragers, &died_out, &mut back);
    }
    for k in 0..CLASSES {
        adults.house[k] += back[k] - out[k] - died_in[k];
        adults.foragers[k] += out[k] - back[k] - died_out[k];
        adults.age[k] += rates.pace_at(adults.age[k]);
    }
    deaths
}
