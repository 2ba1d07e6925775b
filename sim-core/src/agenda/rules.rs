//! Rules of the trade that lists, verdicts and searches share: when it is winter, when syrup is taken, when honey would be
//! tainted.

use super::AgendaParameters;
use crate::calendar::{CalendarDate, plus_days};
use crate::ensemble::Peers;
use crate::forage::Conditions;
use crate::scenario::{Action, Scenario};

/// The mean over the runs of weather of something that a day has.
pub(crate) fn mean(days: &[&Conditions], of: impl Fn(&Conditions) -> f64) -> f64 {
    days.iter().map(|day| of(day)).sum::<f64>() / days.len().max(1) as f64
}

/// A day of the season in each run of its weather.
pub(crate) fn runs(peers: &Peers, day: usize) -> Vec<&Conditions> {
    let seasons = peers.seasons().iter();
    seasons.map(|season| &season.conditions[day]).collect()
}

/// Whether bees keep to their cluster on a day, by the runs of its weather: short days, and too cold for syrup.
pub(crate) fn is_winter(days: &[&Conditions], p: &AgendaParameters) -> bool {
    mean(days, |day| day.day_length_h) < 12.0 && mean(days, |day| day.ten_days_c) < p.syrup_from_c
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

/// The day on which the plan takes honey that a treatment of `days` days from a date on could taint, if that has no place
/// beside honey.
pub(crate) fn honey_taken_after(
    scenario: &Scenario,
    p: &AgendaParameters,
    date: CalendarDate,
    days: u32,
) -> Option<CalendarDate> {
    let until = f64::from(days) + p.honey_gathered_for;
    let takes = scenario.moves.iter().filter_map(|step| {
        let first = step.date?;
        matches!(step.action(), Some(Action::TakeHoney(_))).then_some(())?;
        // Of one that is repeated, the first time after the date.
        let since = date.days_since(first);
        let taken = match step.every_days {
            Some(every) if since >= 0 => {
                let turns = since / i32::from(every) + 1;
                CalendarDate(plus_days(first.0, i32::from(every) * turns))
            }
            _ => first,
        };
        let over = step.until.is_some_and(|until| taken > until);
        let ahead = taken.days_since(date);
        (!over && ahead > 0 && f64::from(ahead) < until).then_some(taken)
    });
    takes.min()
}
