//! What visits found that cannot wait, and the first look into a package.

use super::{Item, Job, Scene, Sure};
use crate::calendar::{CalendarDate, plus_days};
use crate::verdict::Alarming;

/// Days after it was put in on which a package is looked into first.
const FIRST_LOOK: (usize, usize) = (3, 5);

pub(super) fn list(scene: &Scene, items: &mut Vec<Item>) {
    for alarm in &scene.alarms {
        let sure = match alarm.what {
            Alarming::QueenCells { .. } => Sure::of(&scene.lives, |life| life.on(0).cells >= 1.0),
            Alarming::Lost { .. } => Sure::of(&scene.lives, |life| !life.on(0).alive),
            Alarming::AtOdds { .. } => Sure::of(&scene.lives, |life| life.on(0).alive),
            // Fed for, treated for.
            Alarming::LowStores { .. }
            | Alarming::ManyMites { .. }
            | Alarming::ManyFallen { .. } => continue,
        };
        let alarm = alarm.clone();
        items.push(scene.item(0, 0, sure, Job::Found { alarm }));
    }
}

/// A package whose queen travels in a cage: whether she is out, and whether they take the syrup.
pub(super) fn first_look(scene: &Scene, items: &mut Vec<Item>) {
    let start = &scene.asked.scenario.start;
    let Some(package) = &start.package else {
        return;
    };
    let out = libm::ceil(package.queen_caged_days) as usize;
    let (first, last) = (FIRST_LOOK.0.max(out), FIRST_LOOK.1.max(out + 2));
    let seen = |day: usize| {
        let visits = scene.asked.visits.iter();
        let mut days = visits.map(|visit| visit.date.days_since(start.date));
        days.any(|seen| seen >= day as i32)
    };
    if out == 0 || scene.today > last || seen(first) {
        return;
    }
    let day = first.saturating_sub(scene.today);
    let sure = Sure::of(&scene.lives, |life| life.on(day).laying);
    let out = CalendarDate(plus_days(start.date.0, out as i32));
    let job = Job::FirstLook { out };
    items.push(scene.item(day, last.saturating_sub(scene.today), sure, job));
}
