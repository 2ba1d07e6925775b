//! When treatments would fit: when mites pass the mark, days without brood, and what suits weather, brood and supers.

use serde::Serialize;

use super::lives::{Life, Morning};
use super::mites::act_from;
use super::{Item, Job, Scene, Sure, by, when};
use crate::calendar::CalendarDate;
use crate::forage::Conditions;
use crate::treatments::{SuperRule, TREATMENTS, Treatment, TreatmentInfo};
use crate::words::{Speech, text};

/// Capped cells that are no brood to speak of.
const FEW_CELLS: f64 = 50.0;
/// Days that a window without brood has to last to be worth a date.
const BROODLESS_DAYS: usize = 7;
/// Share of the runs of weather, where it is drawn, in which a day has to suit a treatment.
const MOST_WEATHERS: f64 = 0.8;

/// A treatment that could be given, and what speaks for it or against.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Choice {
    /// Which.
    pub treatment: Treatment,
    /// Its name in words.
    pub name: &'static str,
    /// Days that it works.
    pub days: u32,
    /// Of those, days inside of its window of temperature.
    pub days_in_window: u32,
    /// The window, °C.
    pub window_c: (f64, f64),
    /// Where the weather does not suit: the first later day from which it does for the whole time.
    pub suits_from: Option<CalendarDate>,
    /// Whether honey supers are on, and what that means.
    pub supers: Option<SuperRule>,
    /// Whether there is capped brood that it does not reach and does not outlast.
    pub brood_in_the_way: bool,
    /// Whether nothing of that speaks against it.
    pub fits: bool,
    /// What to look out for.
    pub caution: &'static str,
    /// Where the figures come from.
    pub source: &'static str,
}

pub(super) fn treat(scene: &Scene, items: &mut Vec<Item>) {
    let thresholds: Vec<f64> = (0..=scene.last()).map(|day| act_from(scene, day)).collect();
    // Who is over it today, where nobody has washed, is found by the wash.
    let washed = scene.asked.visits.iter().any(|visit| visit.wash.is_some());
    let days = when(&scene.lives, |life| {
        life.mornings
            .iter()
            .zip(&thresholds)
            .position(|(morning, from)| morning.alive && morning.mites_per_100 >= *from)
            .filter(|day| washed || *day > 0)
    });
    let sure = Sure {
        count: days.len(),
        of: scene.lives.len(),
    };
    if !scene.is_enough(sure) {
        return;
    }
    let (early, late) = (by(&days, 0.25), by(&days, 0.75));
    let job = Job::Treat {
        act_from: (scene.p.act_in_spring, scene.p.act_in_autumn),
        middle: scene.date(by(&days, 0.5)),
        choices: choices(scene, early, &|_| true),
    };
    items.push(scene.item(early, late, sure, job));
}

/// Treatments from a day on, the fitting first, otherwise in the order of the table.
fn choices(scene: &Scene, day: usize, which: &dyn Fn(&TreatmentInfo) -> bool) -> Vec<Choice> {
    let most = |is: &dyn Fn(&Morning) -> bool| {
        2 * Sure::of(&scene.lives, |life| is(life.on(day))).count > scene.lives.len()
    };
    let (supers, brood) = (
        most(&|morning| morning.honey_super),
        most(&|morning| morning.capped >= FEW_CELLS),
    );
    let (mut choices, others): (Vec<Choice>, Vec<Choice>) = TREATMENTS
        .iter()
        .filter(|row| which(row))
        .map(|row| {
            let (low, high) = row.window_c;
            let in_window: Vec<bool> = (0..=scene.last())
                .map(|ahead| {
                    let in_it = |day: &Conditions| day.mean_c >= low && day.high_c <= high;
                    scene.weather(ahead, |day| f64::from(u8::from(in_it(day)))) >= MOST_WEATHERS
                })
                .collect();
            let until = (day + row.days as usize).min(in_window.len());
            let days_in_window = in_window[day..until].iter().filter(|is| **is).count() as u32;
            let suits = in_window[day..]
                .windows(row.days as usize)
                .position(|days| days.iter().all(|is| *is));
            let supers = supers.then_some(row.supers);
            // What works for weeks outlasts a round of brood.
            let brood_in_the_way = brood && row.in_cells <= 0.0 && row.days <= 7;
            Choice {
                treatment: row.treatment,
                name: row.name,
                days: (until - day) as u32,
                days_in_window,
                window_c: row.window_c,
                suits_from: suits
                    .filter(|later| *later > 0)
                    .map(|later| scene.date(day + later)),
                supers,
                brood_in_the_way,
                fits: days_in_window == (until - day) as u32
                    && supers != Some(SuperRule::Off)
                    && !brood_in_the_way,
                caution: row.caution,
                source: row.source,
            }
        })
        .partition(|choice| choice.fits);
    choices.extend(others);
    choices
}

/// The first stretch of days without capped brood.
pub(super) fn broodless(scene: &Scene, items: &mut Vec<Item>) {
    let is = |life: &Life, day: usize| {
        let morning = life.on(day);
        morning.alive && morning.capped < FEW_CELLS
    };
    let most =
        |day: usize| 2 * Sure::of(&scene.lives, |life| is(life, day)).count > scene.lives.len();
    let mut day = 0;
    while day <= scene.last() {
        let end = (day..=scene.last())
            .find(|&day| !most(day))
            .unwrap_or(scene.last() + 1);
        if end - day >= BROODLESS_DAYS {
            let middle = day + (end - day) / 2;
            let sure = Sure::of(&scene.lives, |life| is(life, middle));
            let job = Job::Broodless {
                choices: choices(scene, middle, &|row| row.in_cells <= 0.0 && row.days <= 7),
            };
            items.push(scene.item(day, end - 1, sure, job));
            return;
        }
        day = end.max(day + 1);
    }
}

/// What suits the days and what does not, in words.
pub(super) fn told(
    choices: &[Choice],
    speech: Speech,
    date_told: impl Fn(CalendarDate) -> String,
) -> Vec<String> {
    let words = &speech.words().agenda;
    let name = |choice: &Choice| speech.words().treatments[choice.treatment as usize].to_owned();
    let described = |choice: &Choice, pattern: &str| {
        let (low, high) = choice.window_c;
        let date = choice.suits_from.map_or_else(String::new, &date_told);
        let parts = [
            ("name", &*name(choice)),
            ("low", &format!("{:.0}", speech.units.degrees(low))),
            ("high", &speech.degrees_text(high)),
            ("days", &choice.days_in_window.to_string()),
            ("all", &choice.days.to_string()),
            ("date", &date),
        ];
        text(pattern, &parts)
    };
    let in_window = |choice: &Choice| described(choice, words.treatment_in_window);
    let out_of_window = |choice: &Choice| {
        described(
            choice,
            match choice.suits_from {
                Some(_) => words.treatment_suits_later,
                None => words.treatment_out_of_window,
            },
        )
    };
    let off = |choice: &Choice| choice.supers == Some(SuperRule::Off);
    let weather = |choice: &Choice| !choice.fits && !off(choice) && !choice.brood_in_the_way;
    let in_the_way = |choice: &Choice| choice.brood_in_the_way && !off(choice);
    let by_label = |choice: &Choice| choice.fits && choice.supers == Some(SuperRule::SomeLabels);
    // The line's pattern, which choices stand in it, and how each is told.
    type Line<'a> = (
        &'a str,
        &'a dyn Fn(&Choice) -> bool,
        &'a dyn Fn(&Choice) -> String,
    );
    let lines: [Line; 5] = [
        (words.suits, &|choice| choice.fits, &in_window),
        (words.too_cold_or_hot, &weather, &out_of_window),
        (words.brood_in_the_way, &in_the_way, &name),
        (words.not_with_supers, &off, &name),
        (words.supers_by_label, &by_label, &name),
    ];
    let mut told = Vec::new();
    for (pattern, is, how) in lines {
        let some: Vec<String> = choices
            .iter()
            .filter(|choice| is(choice))
            .map(how)
            .collect();
        if !some.is_empty() {
            told.push(text(pattern, &[("list", &some.join("; "))]));
        } else if told.is_empty() {
            told.push(words.nothing_suits.to_owned());
        }
    }
    told
}
