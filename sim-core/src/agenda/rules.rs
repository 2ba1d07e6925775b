//! Rules of the trade that lists, verdicts and searches share: when it is autumn and winter, when mites are
//! too many, when syrup is taken, which colony is too small to winter, when honey would be
//! tainted.

use super::AgendaParameters;
use crate::Parameters;
use crate::ensemble::Peers;
use crate::forage::Conditions;
use crate::syrup::SUGAR_IN_HONEY;
use crate::treatments::taints;

/// The mean over the runs of weather of something that a day has.
pub(crate) fn mean(days: &[&Conditions], of: impl Fn(&Conditions) -> f64) -> f64 {
    days.iter().map(|day| of(day)).sum::<f64>() / days.len().max(1) as f64
}

/// A day of the season in each run of its weather.
pub(crate) fn runs(peers: &Peers, day: usize) -> Vec<&Conditions> {
    let seasons = peers.seasons().iter();
    seasons.map(|season| &season.conditions[day]).collect()
}

/// Hours of daylight from which it is not winter, however cold.
pub(super) const WINTER_LENGTH_H: f64 = 12.0;

/// Whether bees keep to their cluster on a day, by the runs of its weather: short days, and too cold for syrup.
pub(crate) fn is_winter(days: &[&Conditions], p: &AgendaParameters) -> bool {
    mean(days, |day| day.day_length_h) < WINTER_LENGTH_H
        && mean(days, |day| day.ten_days_c) < p.syrup_from_c
}

/// Hours of daylight under which, while days grow shorter, it is autumn: bees raise winter bees and lay in stores.
const AUTUMN_LENGTH_H: f64 = 14.0;

/// Whether it is autumn on a day, by the runs of its weather.
pub(crate) fn is_autumn(days: &[&Conditions]) -> bool {
    mean(days, |day| day.day_length_change_h) < 0.0
        && mean(days, |day| day.day_length_h) < AUTUMN_LENGTH_H
}

/// Mites on 100 bees from which to act on a day, by the runs of its weather.
pub(crate) fn act_from(days: &[&Conditions], p: &AgendaParameters) -> f64 {
    if mean(days, |day| day.day_length_change_h) >= 0.0 {
        p.act_in_spring
    } else {
        p.act_in_autumn
    }
}

/// Whether syrup is taken and ripened, for each day of the season: not in winter, and not in a warm spell after it has begun.
pub(crate) fn syrup_days(peers: &Peers) -> Vec<bool> {
    let p = &peers.season().parameters.agenda;
    let mut over = false;
    (0..peers.days())
        .map(|day| {
            let days = runs(peers, day);
            let winter = is_winter(&days, p);
            let falling = mean(&days, |day| day.day_length_change_h) < 0.0;
            over = falling && (over || winter);
            !winter && !over
        })
        .collect()
}

/// Whether a colony is too small to take its winter stores, and so to winter alone: what so many bees take from full feeders for as
/// long as feeding for winter takes does not bring what they have then up to them. Lists of jobs try it on their colonies.
pub(crate) fn too_small_for_winter(stores_kg: f64, bees: f64, p: &Parameters) -> bool {
    let sugar_kg = p.stores.syrup_per_bee_g / 1000.0 * bees * p.agenda.winter_feeding;
    stores_kg + sugar_kg * p.agenda.fed_stored / SUGAR_IN_HONEY < p.agenda.winter_stores_kg
}

/// Days from a day of the season until the plan takes honey that a treatment of `days` days from then on could taint, if that has
/// no place beside honey.
pub(crate) fn honey_taken_after(peers: &Peers, day: usize, days: u32) -> Option<u32> {
    let gathered_for = peers.season().parameters.agenda.honey_gathered_for;
    let seasons = peers.seasons().iter();
    let taken = seasons
        .filter_map(|season| season.honey_taken_in(day))
        .min()?;
    taints(days, taken, gathered_for).then_some(taken)
}
