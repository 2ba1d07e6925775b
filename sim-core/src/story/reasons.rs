//! Why a brake binds, as far as the last week's numbers tell.

use super::amounts::{self, Units};
use super::facts::{Facts, mean, sum};
use super::words::{self, fill};
use super::{Emphasis, Span, part};
use crate::queen::Brake;

/// Less income than this (sugar and nectar as honey, kg a day) leaves nothing for wax.
const INCOME_FOR_WAX_KG: f64 = 0.1;
/// A day with at least this much rain is a day of rain, mm.
const RAIN_DAY_MM: f64 = 1.0;

/// The reasons, joined by commas; empty where the numbers do not tell.
pub(super) fn why(facts: &Facts<'_>, brake: Brake, units: Units) -> Vec<Span> {
    let found = match brake {
        Brake::EmptyCells => empty_cells(facts, units),
        Brake::Nurses => nurses(facts),
        Brake::Pollen => pollen(facts, units),
        Brake::Food => food(facts, units),
        Brake::Warmth => warmth(facts, units),
        Brake::HerRate | Brake::Caged | Brake::NoQueen => Vec::new(),
    };
    let mut joined = Vec::new();
    for (index, reason) in found.into_iter().enumerate() {
        if index > 0 {
            joined.push(Span::new(words::WHY_JOIN, Emphasis::Plain));
        }
        joined.extend(reason);
    }
    joined
}

type Reasons = Vec<Vec<Span>>;

fn empty_cells(facts: &Facts<'_>, units: Units) -> Reasons {
    let week = facts.week();
    let share = facts.share_of_stores();
    if share > 0.4 {
        let share = part(words::share(share), Emphasis::Food);
        return vec![fill(words::WHY_FULL, &[("share", share)])];
    }
    let drawn = facts.day().drawn_frames - week[0].drawn_frames;
    let halves = amounts::halves(drawn.max(0.0));
    if halves > 0 {
        let frames = part(words::frames_alone(halves), Emphasis::Comb);
        let days = part((week.len() - 1).to_string(), Emphasis::Plain);
        return vec![fill(
            words::WHY_COMB_GROWS,
            &[("frames", frames), ("days", days)],
        )];
    }
    let income = mean(week, |day| day.nectar_kg + day.syrup_kg);
    if income < INCOME_FOR_WAX_KG {
        let mut reasons: Reasons = weather(facts, units).into_iter().collect();
        if reasons.is_empty() {
            reasons.push(part(words::WHY_LITTLE_NECTAR, Emphasis::Food));
        }
        reasons.push(part(words::WHY_LITTLE_COMB, Emphasis::Comb));
        return reasons;
    }
    vec![part(words::WHY_BROOD_FILLS, Emphasis::Brood)]
}

fn nurses(facts: &Facts<'_>) -> Reasons {
    let week = facts.week();
    if facts.bare_start() && facts.first_emergence().is_none_or(|day| day > facts.today) {
        return vec![part(words::WHY_NO_YOUNG, Emphasis::Bees)];
    }
    let fewer = week[0].adult_bees - facts.day().adult_bees;
    if fewer > 0.03 * week[0].adult_bees {
        let fewer = part(words::bees(&amounts::about(fewer)), Emphasis::Bees);
        let days = part((week.len() - 1).to_string(), Emphasis::Plain);
        return vec![fill(words::WHY_FEWER, &[("fewer", fewer), ("days", days)])];
    }
    let larvae = amounts::about(facts.day().open_larvae);
    let larvae = part(words::larvae(&larvae), Emphasis::Brood);
    vec![fill(words::WHY_ENOUGH_LARVAE, &[("larvae", larvae)])]
}

fn pollen(facts: &Facts<'_>, units: Units) -> Reasons {
    let week = facts.week();
    let came = sum(week, |day| day.pollen_in_kg);
    let days = part(week.len().to_string(), Emphasis::Plain);
    let mut reasons = vec![if came < 0.005 {
        let days = part(words::days(week.len()), Emphasis::Plain);
        fill(words::WHY_NO_POLLEN_IN, &[("days", days)])
    } else {
        let came = part(units.weight_text(came), Emphasis::Food);
        fill(words::WHY_POLLEN_IN, &[("pollen", came), ("days", days)])
    }];
    if let Some(weather) = weather(facts, units) {
        reasons.push(weather);
    } else if mean(week, |day| day.pollen_index) < 0.15 {
        reasons.push(part(words::WHY_NOTHING_IN_BLOOM, Emphasis::Weather));
    }
    reasons
}

fn food(facts: &Facts<'_>, units: Units) -> Reasons {
    let mut reasons: Reasons = weather(facts, units).into_iter().collect();
    if mean(facts.week(), |day| day.nectar_index) < 0.15 {
        reasons.push(part(words::WHY_LITTLE_NECTAR, Emphasis::Food));
    }
    reasons
}

fn warmth(facts: &Facts<'_>, units: Units) -> Reasons {
    let low = facts
        .week()
        .iter()
        .map(|day| day.low_c)
        .fold(f64::INFINITY, f64::min);
    let low = part(units.degrees_text(low), Emphasis::Weather);
    vec![fill(words::WHY_COLD, &[("low", low)])]
}

/// Rain or want of flight, where the last week had it.
fn weather(facts: &Facts<'_>, units: Units) -> Option<Vec<Span>> {
    let week = facts.week();
    if week.len() < 3 {
        return None;
    }
    let wet = week.iter().filter(|day| day.rain_mm >= RAIN_DAY_MM).count();
    if 2 * wet >= week.len() {
        let amount = units.rain_text(sum(week, |day| day.rain_mm));
        return Some(fill(
            words::WHY_RAIN,
            &[
                ("count", part(wet.to_string(), Emphasis::Weather)),
                ("days", part(week.len().to_string(), Emphasis::Weather)),
                ("amount", part(amount, Emphasis::Weather)),
            ],
        ));
    }
    let hours = mean(week, |day| day.flight_hours);
    if hours < 0.05 {
        let days = part(words::days(week.len()), Emphasis::Weather);
        return Some(fill(words::WHY_NO_FLIGHT, &[("days", days)]));
    }
    (hours < 2.0).then(|| {
        let hours = part(words::hours(&amounts::hours(hours)), Emphasis::Weather);
        fill(words::WHY_LITTLE_FLIGHT, &[("hours", hours)])
    })
}
