//! Drones: when they are reared, and when they are turned out.

use crate::forage::Conditions;
use crate::math::{most, ramp, smooth_step, unit};

params! {
    /// Drones.
    DronesParameters {
        /// Share of eggs that are drone eggs at the height of the season.
        egg_share = 0.0305, "-", 0.0..=0.5, Tuned, "300 to 1,000 drones at the peak: Gruszka 1998";
        /// The same with drone comb to spare.
        egg_share_with_comb = 0.09, "-", 0.0..=0.5, Assumed, "mites.md 7; no controlled daily series found";
        /// Workers at which half of the wish for drones is reached; none are wanted under 4,000.
        wanted_from_bees = 7000.0, "bees", 2000.0..=30000.0, Assumed, "drone comb over 4,000 workers: Smith et al. 2014";
        /// Day length from which drones are reared.
        day_length_h = 12.2, "h", 8.0..=16.0, Assumed, "three weeks before swarming: Allen 1965";
        /// Pollen income that carries drone rearing, for each 10,000 bees.
        pollen_g = 20.0, "g/d", 1.0..=200.0, Assumed, "no pollen, no drones: Flottum";
        /// Daily death risk of an adult drone.
        death = 0.04, "1/d", 0.0..=0.3, Published, "mean life 21 to 32 d: Fukuda & Ohtani 1977 (from memory)";
        /// Further risk when days shorten and nectar fails: drones are turned out.
        eviction = 0.10, "1/d", 0.0..=1.0, Assumed, "late summer, when nectar stops: Flottum";
        /// Nectar on offer below which drones are turned out.
        eviction_nectar = 0.15, "-", 0.0..=1.0, Assumed, "late summer, when nectar stops: Flottum";
        /// Further risk once days are short.
        autumn_eviction = 0.15, "1/d", 0.0..=1.0, Assumed, "none in winter: Free & Williams 1975";
    }
}

/// How much a colony wants drones, 0 to 1.
pub fn wish(adults: f64, pollen_income_g: f64, today: &Conditions, p: &DronesParameters) -> f64 {
    let size = smooth_step(adults, p.wanted_from_bees, 6000.0);
    // Rearing ends as days shorten through late summer, well after midsummer.
    let season = ramp(today.day_length_h, p.day_length_h, p.day_length_h + 1.3)
        * unit(1.0 + 25.0 * today.day_length_change_h);
    let need_g = p.pollen_g * most(adults, 1.0) / 10_000.0;
    size * season * unit(pollen_income_g / need_g)
}

/// Daily death risk of an adult drone.
pub fn death_risk(today: &Conditions, p: &DronesParameters) -> f64 {
    let shortening = today.day_length_change_h < 0.0;
    let mut risk = p.death;
    if shortening {
        risk += p.eviction * unit(1.0 - today.nectar / p.eviction_nectar);
        risk += p.autumn_eviction * ramp(today.day_length_h, 12.0, 11.0);
    }
    risk.min(1.0)
}
