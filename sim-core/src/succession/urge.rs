//! What drives a colony to swarm or to replace its queen, and the weather for flights.

use super::SuccessionParameters;
use crate::forage::Conditions;
use crate::math::{least, most, ramp, smooth_step, unit};

/// What the urge to swarm is read from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Crowd {
    /// Adult workers.
    pub adults: f64,
    /// Full nurses.
    pub nurses: f64,
    /// Room on all frames, drawn or not, in worker cells.
    pub room: f64,
    /// Share of the drawn comb in use.
    pub used: f64,
    /// Sugar coming in, g as honey for each bee.
    pub income_per_bee: f64,
    /// Age of the queen, years.
    pub queen_years: f64,
}

impl Crowd {
    /// How crowded bees and nest are, 0 to 1: what room and splitting take away.
    pub fn crowding(&self, p: &SuccessionParameters) -> f64 {
        let bees = smooth_step(
            self.adults / most(self.room, 1.0),
            p.crowded_at,
            p.crowded_spread,
        );
        let nest = smooth_step(self.used, p.full_nest, p.full_nest_spread);
        let size = smooth_step(self.adults, p.swarm_from_bees, p.swarm_from_bees);
        bees * nest * size
    }
}

/// The season for swarming, 0 to 1: days long, and growing longer or not long past their longest.
fn swarm_season(today: &Conditions) -> f64 {
    ramp(today.day_length_h, 12.5, 14.0) * unit(1.0 + 25.0 * today.day_length_change_h)
}

/// The urge to swarm, 0 to 1, from what the colony is like today.
pub fn swarm_urge(crowd: &Crowd, today: &Conditions, p: &SuccessionParameters) -> f64 {
    let season = swarm_season(today);
    if season <= 0.0 {
        return 0.0;
    }
    let crowding = crowd.crowding(p);
    if crowding <= 0.0 {
        return 0.0;
    }
    let young = smooth_step(
        crowd.nurses / most(crowd.adults, 1.0),
        p.young_share,
        2.0 * p.young_share,
    );
    let income =
        p.urge_without_income + (1.0 - p.urge_without_income) * unit(crowd.income_per_bee / 0.010);
    let queen = p.young_queen_swarms
        + (1.0 - p.young_queen_swarms) * unit(crowd.queen_years / p.old_queen_years);
    season * crowding * young * income * queen
}

/// Chance that the colony begins to supersede a queen of this age today.
///
/// `left` is what is left of her laying power, 0 to 1. Only while drones fly: a queen raised at
/// another time could not mate.
pub fn supersedure_risk(
    queen_years: f64,
    left: f64,
    today: &Conditions,
    p: &SuccessionParameters,
) -> f64 {
    // The season is about half of a year.
    let season = 2.0 * ramp(today.day_length_h, 11.5, 13.0);
    let yearly = p.supersedure_first_year + p.supersedure_each_year * queen_years;
    let failing = 1.0 + (p.supersedure_of_failing - 1.0) * unit(1.0 - left);
    least(1.0, season * yearly * failing / 365.0)
}

/// How fit the day is for a swarm to leave, 0 to 1.
pub fn swarm_weather(today: &Conditions) -> f64 {
    ramp(today.high_c, 15.0, 20.0) * ramp(today.flight_hours, 2.0, 5.0)
}

/// How fit the day is for a queen to fly and mate, 0 to 1.
pub fn mating_weather(today: &Conditions, p: &SuccessionParameters) -> f64 {
    ramp(today.high_c, p.mating_from_c, p.mating_full_c) * ramp(today.flight_hours, 1.0, 4.0)
}
