//! Why a brake binds, as far as the last week's numbers tell.

use super::facts::{Facts, mean, sum};
use super::{Emphasis, Span, amounts, frames, part};
use crate::queen::Brake;
use crate::words::{Speech, fill};

/// Less income than this (sugar and nectar as honey, kg a day) leaves nothing for wax.
const INCOME_FOR_WAX_KG: f64 = 0.1;
/// A day with at least this much rain is a day of rain, mm.
const RAIN_DAY_MM: f64 = 1.0;

/// The reasons, joined by commas; empty where the numbers do not tell.
pub(super) fn why(facts: &Facts<'_>, brake: Brake, speech: Speech) -> Vec<Span> {
    let words = &speech.words().story;
    let found = match brake {
        Brake::EmptyCells => empty_cells(facts, speech),
        Brake::Nurses => nurses(facts, speech),
        Brake::Pollen => pollen(facts, speech),
        Brake::Food => food(facts, speech),
        Brake::Warmth => warmth(facts, speech),
        Brake::HerRate | Brake::Caged | Brake::NoQueen => Vec::new(),
    };
    let mut joined = Vec::new();
    for (index, reason) in found.into_iter().enumerate() {
        if index > 0 {
            joined.push(Span::new(words.why_join, Emphasis::Plain));
        }
        joined.extend(reason);
    }
    joined
}

/// A share in words, for shares from about a third upwards.
fn share_in_words(share: f64, words: &[&'static str; 6]) -> &'static str {
    const UP_TO: [f64; 5] = [0.29, 0.42, 0.58, 0.71, 0.9];
    let place = UP_TO.iter().position(|bound| share < *bound);
    words[place.unwrap_or(5)]
}

type Reasons = Vec<Vec<Span>>;

fn empty_cells(facts: &Facts<'_>, speech: Speech) -> Reasons {
    let words = &speech.words().story;
    let week = facts.week();
    let share = facts.share_of_stores();
    if share > 0.4 {
        let share = part(share_in_words(share, &words.shares), Emphasis::Food);
        return vec![fill(words.why_full, &[("share", share)])];
    }
    let drawn = facts.day().drawn_frames - week[0].drawn_frames;
    let halves = amounts::halves(drawn.max(0.0));
    if halves > 0 {
        let frames = part(
            frames(drawn.max(0.0), words.little_comb, &words.frames),
            Emphasis::Comb,
        );
        let days = part((week.len() - 1).to_string(), Emphasis::Plain);
        return vec![fill(
            words.why_comb_grows,
            &[("frames", frames), ("days", days)],
        )];
    }
    let income = mean(week, |day| day.nectar_kg + day.syrup_kg);
    if income < INCOME_FOR_WAX_KG {
        let mut reasons: Reasons = weather(facts, speech).into_iter().collect();
        if reasons.is_empty() {
            reasons.push(part(words.why_little_nectar, Emphasis::Food));
        }
        reasons.push(part(words.why_little_comb, Emphasis::Comb));
        return reasons;
    }
    vec![part(words.why_brood_fills, Emphasis::Brood)]
}

fn nurses(facts: &Facts<'_>, speech: Speech) -> Reasons {
    let (words, forms) = (&speech.words().story, &speech.words().forms);
    let week = facts.week();
    if facts.bare_start() && facts.first_emergence().is_none_or(|day| day > facts.today) {
        return vec![part(words.why_no_young, Emphasis::Bees)];
    }
    // Nurses are young house bees: they come out of their cells, and take up flying or die.
    let fewer = week[0].house_bees - facts.day().house_bees;
    if week.len() > 2 && fewer > 0.03 * week[0].house_bees {
        let out = sum(&week[1..], |day| day.emerged);
        let days = week.len() - 1;
        if out < 0.5 {
            let days = part(forms.days.number(days), Emphasis::Plain);
            return vec![fill(words.why_none_out, &[("days", days)])];
        }
        let days = part(days.to_string(), Emphasis::Plain);
        let gone = part(speech.language.about(out + fewer), Emphasis::Bees);
        let out = part(forms.bees.of(&speech.language.about(out)), Emphasis::Bees);
        let parts = [("out", out), ("gone", gone), ("days", days)];
        return vec![fill(words.why_few_out, &parts)];
    }
    let larvae = speech.language.about(facts.day().open_larvae);
    let larvae = part(words.larvae.of(&larvae), Emphasis::Brood);
    vec![fill(words.why_enough_larvae, &[("larvae", larvae)])]
}

fn pollen(facts: &Facts<'_>, speech: Speech) -> Reasons {
    let (words, forms) = (&speech.words().story, &speech.words().forms);
    let week = facts.week();
    let came = sum(week, |day| day.pollen_in_kg);
    let days = part(week.len().to_string(), Emphasis::Plain);
    let mut reasons = vec![if came < 0.005 {
        let days = part(forms.days.number(week.len()), Emphasis::Plain);
        fill(words.why_no_pollen_in, &[("days", days)])
    } else {
        let came = part(speech.weight_text(came), Emphasis::Food);
        let pattern = if week.len() == 1 {
            words.why_pollen_in_today
        } else {
            words.why_pollen_in
        };
        fill(pattern, &[("pollen", came), ("days", days)])
    }];
    if let Some(weather) = weather(facts, speech) {
        reasons.push(weather);
    } else if mean(week, |day| day.pollen_index) < 0.15 {
        reasons.push(part(words.why_nothing_in_bloom, Emphasis::Weather));
    }
    reasons
}

fn food(facts: &Facts<'_>, speech: Speech) -> Reasons {
    let words = &speech.words().story;
    let mut reasons: Reasons = weather(facts, speech).into_iter().collect();
    if mean(facts.week(), |day| day.nectar_index) < 0.15 {
        reasons.push(part(words.why_little_nectar, Emphasis::Food));
    }
    reasons
}

fn warmth(facts: &Facts<'_>, speech: Speech) -> Reasons {
    let words = &speech.words().story;
    let low = facts
        .week()
        .iter()
        .map(|day| day.low_c)
        .fold(f64::INFINITY, f64::min);
    let low = part(speech.degrees_text(low), Emphasis::Weather);
    vec![fill(words.why_cold, &[("low", low)])]
}

/// Rain or want of flight, where the last week had it.
fn weather(facts: &Facts<'_>, speech: Speech) -> Option<Vec<Span>> {
    let (words, forms) = (&speech.words().story, &speech.words().forms);
    let week = facts.week();
    if week.len() < 3 {
        return None;
    }
    let wet = week.iter().filter(|day| day.rain_mm >= RAIN_DAY_MM).count();
    if 2 * wet >= week.len() {
        let amount = speech.rain_text(sum(week, |day| day.rain_mm));
        return Some(fill(
            words.why_rain,
            &[
                ("count", part(wet.to_string(), Emphasis::Weather)),
                ("days", part(week.len().to_string(), Emphasis::Weather)),
                ("amount", part(amount, Emphasis::Weather)),
            ],
        ));
    }
    let hours = mean(week, |day| day.flight_hours);
    if hours < 0.05 {
        let days = part(forms.days.number(week.len()), Emphasis::Weather);
        return Some(fill(words.why_no_flight, &[("days", days)]));
    }
    (hours < 2.0).then(|| {
        let hours = part(
            forms.hours.of(&speech.language.few_digits(hours)),
            Emphasis::Weather,
        );
        fill(words.why_little_flight, &[("hours", hours)])
    })
}
