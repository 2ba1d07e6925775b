//! Drones: when they are reared, and when they are turned out.

use crate::forage::Conditions;
use crate::math::{least, most, ramp, smooth_step, unit};

params! {
    /// Drones.
    DronesParameters {
        /// Share of eggs that go into corners and edges of worker comb as drone eggs at the height of the season.
        egg_share = 0.0287, "-", 0.0..=0.5, Tuned, "300 to 1,000 drones at the peak: Gruszka 1998";
        /// Share of eggs that go into drone comb besides, over the weeks, where there is enough of it.
        egg_share_in_comb = 0.08, "-", 0.0..=0.5, Assumed, "3,000 to 4,000 cells laid in a deep drone frame (from memory), 11 to 14 % of capped cells: Al Toufailia et al.";
        /// Days in which most of the drone brood that is wanted is laid, where there is drone comb for it.
        laid_up_d = 4.0, "d", 1.0..=30.0, Assumed, "drawn drone comb is laid up within a week: common practice, no source";
        /// Largest share of a day's eggs that goes into drone comb.
        rush_share = 0.4, "-", 0.0..=1.0, Assumed, "no figure found";
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

/// Drone eggs that the queen means to lay into drone comb today, of `laid` eggs in all, where the wish for
/// drones is `wish` and `brood` cells of the comb hold drones that take `days` to emerge.
///
/// Drone comb is laid up at once, and left alone while it is full: drone brood inhibits the laying of more
/// (Free & Williams 1975; Omholt 1988; from memory). Over the weeks that comes to the share in comb.
///
/// ```
/// use combcast_core::drones::{DronesParameters, eggs_into_comb};
/// let p = DronesParameters::default();
/// let empty = eggs_into_comb(1000.0, 1.0, 0.0, 24.0, &p);
/// let full = eggs_into_comb(1000.0, 1.0, 24.0 * 1000.0 * p.egg_share_in_comb, 24.0, &p);
/// assert!(empty > 200.0 && full == 0.0);
/// ```
pub fn eggs_into_comb(laid: f64, wish: f64, brood: f64, days: f64, p: &DronesParameters) -> f64 {
    let wanted = p.egg_share_in_comb * wish * laid * days;
    least(most(0.0, wanted - brood) / p.laid_up_d, p.rush_share * laid)
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
