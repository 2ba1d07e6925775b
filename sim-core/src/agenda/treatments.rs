//! When treatments would fit: when mites pass the mark, days without brood, and what suits weather, brood and supers.

use serde::Serialize;

use super::lives::{Life, Morning};
use super::{Item, Job, Scene, Sure, by, honey_taken_after, when};
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
/// Days for which one waits for weather that suits.
const SOON: usize = 42;

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
    /// Where the weather of the first day does not suit: the first later day from which it does for the whole time.
    pub suits_from: Option<CalendarDate>,
    /// Whether honey supers are on, or honey is taken later, and what that means.
    pub supers: Option<SuperRule>,
    /// The day on which honey is taken that it would taint: not before.
    pub honey: Option<CalendarDate>,
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
    if found(scene, items) {
        return;
    }
    let thresholds: Vec<f64> = (0..=scene.last()).map(|day| scene.act_from(day)).collect();
    let passes = |life: &Life| {
        let mornings = life.mornings.iter().zip(&thresholds);
        let mut mornings = mornings.map(|(morning, from)| (morning, *from));
        mornings.position(|(morning, from)| morning.alive && morning.mites_per_100 >= from)
    };
    let days = when(&scene.lives, passes);
    let over = days.iter().filter(|day| **day < 0.5).count();
    // Who is over it today, where nobody has washed, is found by the wash.
    let washed = scene.asked.visits.iter().any(|visit| visit.wash.is_some());
    let to_come = if washed { &days[..] } else { &days[over..] };
    let sure = |count: usize| Sure {
        count,
        of: scene.lives.len(),
    };
    if !scene.is_enough(sure(to_come.len())) {
        return;
    }
    let (early, late) = (by(to_come, 0.25), by(to_come, 0.75));
    let job = Job::Treat {
        act_from: (scene.p.act_in_spring, scene.p.act_in_autumn),
        over,
        middle: scene.date(by(to_come, 0.5)),
        found: None,
        choices: choices(scene, (early, early, late + SOON), &|_| true),
    };
    items.push(scene.item(early, late, sure(days.len()), job));
}

/// Treat today, for mites that a visit found over the mark; whether there was one.
pub(super) fn found(scene: &Scene, items: &mut Vec<Item>) -> bool {
    let Some(alarm) = scene.many_mites() else {
        return false;
    };
    let threshold = scene.act_from(0);
    let sure = Sure::of(&scene.lives, |life| life.on(0).mites_per_100 >= threshold);
    let job = Job::Treat {
        act_from: (scene.p.act_in_spring, scene.p.act_in_autumn),
        over: sure.count,
        middle: scene.date(0),
        found: Some(Box::new(alarm.clone())),
        choices: choices(scene, (0, 0, SOON), &|_| true),
    };
    items.push(scene.item(0, 0, sure, job));
    true
}

/// What speaks for a treatment that is begun on a day, and against it.
struct Begun<'a> {
    scene: &'a Scene<'a>,
    row: &'a TreatmentInfo,
    /// Days inside of its window of temperature.
    in_window: Vec<bool>,
    /// Days on which most colonies have honey supers, and capped brood.
    supers: &'a [bool],
    brood: &'a [bool],
}

impl Begun<'_> {
    fn until(&self, day: usize) -> usize {
        (day + self.row.days as usize).min(self.in_window.len())
    }

    fn days_in_window(&self, day: usize) -> u32 {
        let days = &self.in_window[day..self.until(day)];
        days.iter().filter(|is| **is).count() as u32
    }

    fn suits_weather(&self, day: usize) -> bool {
        self.days_in_window(day) as usize == self.until(day) - day
    }

    fn has_supers(&self, day: usize) -> bool {
        self.supers[day..self.until(day)].iter().any(|is| *is)
    }

    /// The day on which honey is taken that it could taint.
    fn honey(&self, day: usize) -> Option<CalendarDate> {
        let Scene { asked, today, .. } = self.scene;
        let taken = honey_taken_after(asked.peers, today + day, self.row.days)?;
        Some(self.scene.date(day + taken as usize))
    }

    /// What works for weeks outlasts a round of brood.
    fn brood_in_the_way(&self, day: usize) -> bool {
        self.brood[day] && self.row.in_cells <= 0.0 && self.row.days <= 7
    }

    fn fits(&self, day: usize) -> bool {
        let off = self.row.supers == SuperRule::Off;
        let honey = || self.has_supers(day) || self.honey(day).is_some();
        self.suits_weather(day) && !self.brood_in_the_way(day) && !(off && honey())
    }
}

/// Treatments from a day on, the fitting first, otherwise in the order of the table: those that fit when they begin on one
/// of the days from the first to the second number; of others, a day that suits is looked for up to the third.
fn choices(
    scene: &Scene,
    (from, fits_by, told_by): (usize, usize, usize),
    which: &dyn Fn(&TreatmentInfo) -> bool,
) -> Vec<Choice> {
    let most = |is: &dyn Fn(&Morning) -> bool| -> Vec<bool> {
        (0..=scene.last())
            .map(|day| {
                2 * Sure::of(&scene.lives, |life| is(life.on(day))).count > scene.lives.len()
            })
            .collect()
    };
    let supers = most(&|morning| morning.honey_super);
    let brood = most(&|morning| morning.capped >= FEW_CELLS);
    let from = from.min(scene.last());
    let days = |until: usize| from..=until.clamp(from, scene.last());
    let (mut choices, others): (Vec<Choice>, Vec<Choice>) = TREATMENTS
        .iter()
        .filter(|row| which(row))
        .map(|row| {
            let (low, high) = row.window_c;
            let in_it = |day: &Conditions| day.mean_c >= low && day.high_c <= high;
            let is_in = |ahead: usize| {
                scene.weather(ahead, |day| f64::from(u8::from(in_it(day)))) >= MOST_WEATHERS
            };
            let begun = Begun {
                scene,
                row,
                in_window: (0..=scene.last()).map(is_in).collect(),
                supers: &supers,
                brood: &brood,
            };
            let fits = days(fits_by).find(|day| begun.fits(*day));
            let day = fits.unwrap_or(from);
            let honey = begun.honey(day);
            let any = begun.has_supers(day) || honey.is_some();
            let later = || days(told_by).find(|later| begun.suits_weather(*later));
            let suits_from = match fits {
                Some(day) => Some(day),
                None => later(),
            };
            Choice {
                treatment: row.treatment,
                name: row.name,
                days: (begun.until(day) - day) as u32,
                days_in_window: begun.days_in_window(day),
                window_c: row.window_c,
                suits_from: suits_from
                    .filter(|later| *later > from)
                    .map(|later| scene.date(later)),
                supers: any.then_some(row.supers),
                // What may stay beside honey need not wait for it.
                honey: honey.filter(|_| row.supers == SuperRule::Off),
                brood_in_the_way: begun.brood_in_the_way(day),
                fits: fits.is_some(),
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
            // Any day of the stretch will do, and none after it.
            let stretch = (day, end - 1, end - 1);
            let job = Job::Broodless {
                choices: choices(scene, stretch, &|row| row.in_cells <= 0.0 && row.days <= 7),
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
    let in_window = |choice: &Choice| {
        described(
            choice,
            match choice.suits_from {
                Some(_) => words.treatment_in_window_from,
                None => words.treatment_in_window,
            },
        )
    };
    let out_of_window = |choice: &Choice| {
        described(
            choice,
            match choice.suits_from {
                Some(_) => words.treatment_suits_later,
                None => words.treatment_out_of_window,
            },
        )
    };
    let off = |choice: &Choice| !choice.fits && choice.supers == Some(SuperRule::Off);
    let honey = |choice: &Choice| off(choice) && choice.honey.is_some();
    let supers = |choice: &Choice| off(choice) && choice.honey.is_none();
    let weather = |choice: &Choice| !choice.fits && !off(choice) && !choice.brood_in_the_way;
    let in_the_way = |choice: &Choice| choice.brood_in_the_way && !off(choice);
    let by_label = |choice: &Choice| choice.fits && choice.supers == Some(SuperRule::SomeLabels);
    // The line's pattern, which choices stand in it, and how each is told.
    type Line<'a> = (
        &'a str,
        &'a dyn Fn(&Choice) -> bool,
        &'a dyn Fn(&Choice) -> String,
    );
    let lines: [Line; 6] = [
        (words.suits, &|choice| choice.fits, &in_window),
        (words.too_cold_or_hot, &weather, &out_of_window),
        (words.brood_in_the_way, &in_the_way, &name),
        (words.not_with_supers, &supers, &name),
        (words.not_before_honey, &honey, &name),
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
            let taken = choices.iter().find_map(|choice| choice.honey);
            let date = taken.map_or_else(String::new, &date_told);
            told.push(text(
                pattern,
                &[("list", &some.join("; ")), ("date", &date)],
            ));
        } else if told.is_empty() {
            told.push(words.nothing_suits.to_owned());
        }
    }
    told
}
