//! What to do next: the list in words, in both systems of units, and as calendar files.

use combcast_core::agenda::{Agenda, Job, Told, icalendar};
use combcast_core::calendar::CalendarDate;
use combcast_core::story::Units;
use combcast_core::words::{Language, Saying, Speech};
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::to_js;

/// The same in both systems, so that a change of units works nothing out anew.
#[derive(Serialize)]
pub struct Both<T> {
    metric: T,
    us: T,
}

impl<T> Both<T> {
    pub fn of(language: Language, make: impl Fn(Speech) -> T) -> Self {
        let speech = |units| Speech { language, units };
        Self {
            metric: make(speech(Units::Metric)),
            us: make(speech(Units::Us)),
        }
    }
}

/// The same in every language, for what takes long to work out and is there for long.
#[derive(Serialize)]
pub struct Spoken<T> {
    en: T,
    de: T,
}

impl<T> Spoken<T> {
    pub fn of(make: impl Fn(Language) -> T) -> Self {
        Self {
            en: make(Language::English),
            de: make(Language::German),
        }
    }
}

#[derive(Serialize)]
struct List {
    hive: String,
    visits: usize,
    members: usize,
    from: CalendarDate,
    to: CalendarDate,
    until: CalendarDate,
    warnings: Vec<Saying>,
    left_out: Option<Saying>,
    /// On 100 bees, where the plan does not say how many there are at the start: the page names its own control.
    assumed_mites: Option<f64>,
    items: Vec<Item>,
    calendar: Both<String>,
}

#[derive(Serialize)]
struct Item {
    from: CalendarDate,
    to: CalendarDate,
    /// The plan has it already.
    planned: bool,
    /// The hive is opened and looked at.
    visit: bool,
    /// A visit found it: it does not rest on colonies.
    found: bool,
    told: Both<Told>,
}

/// A list for the page; its calendar files say that they were made on `stamp`.
pub fn of(mut list: Agenda, stamp: CalendarDate, language: Language) -> JsValue {
    for said in (list.warnings.iter_mut()).chain(&mut list.left_out) {
        said.spoken(language.into());
    }
    let items = list.items.iter().map(|item| Item {
        from: item.from,
        to: item.to,
        planned: matches!(item.job, Job::Planned { .. }),
        visit: matches!(item.job, Job::Visit { .. }),
        found: item.job.is_found(),
        told: Both::of(language, |speech| item.told(&list, speech)),
    });
    let items = items.collect();
    let lists = std::slice::from_ref(&list);
    let calendar = Both::of(language, |speech| icalendar(lists, speech, stamp.0));
    to_js(&List {
        items,
        calendar,
        hive: list.hive,
        visits: list.visits,
        members: list.members,
        from: list.from,
        to: list.to,
        until: list.until,
        warnings: list.warnings,
        left_out: list.left_out,
        assumed_mites: list.assumed_mites.map(|assumed| assumed.per_100_bees),
    })
}
