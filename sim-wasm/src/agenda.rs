//! What to do next: the list in words, in both systems of units, and as calendar files.

use combcast_core::agenda::{Agenda, Job, Told, icalendar};
use combcast_core::calendar::CalendarDate;
use combcast_core::story::Units;
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::to_js;

/// The same in both systems, so that a change of units works nothing out anew.
#[derive(Serialize)]
struct Both<T> {
    metric: T,
    us: T,
}

impl<T> Both<T> {
    fn of(make: impl Fn(Units) -> T) -> Self {
        Self {
            metric: make(Units::Metric),
            us: make(Units::Us),
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
    warnings: Vec<String>,
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
    told: Both<Told>,
}

/// A list for the page; its calendar files say that they were made on `stamp`.
pub fn of(list: Agenda, stamp: CalendarDate) -> JsValue {
    let items = list.items.iter().map(|item| Item {
        from: item.from,
        to: item.to,
        planned: matches!(item.job, Job::Planned { .. }),
        visit: matches!(item.job, Job::Visit { .. }),
        told: Both::of(|units| item.told(&list, units.into())),
    });
    let items = items.collect();
    let lists = std::slice::from_ref(&list);
    let calendar = Both::of(|units| icalendar(lists, units.into(), stamp.0));
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
    })
}
