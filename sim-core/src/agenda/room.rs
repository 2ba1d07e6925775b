//! When the colony needs another box.

use super::lives::Morning;
use super::{AgendaParameters, Item, Job, Scene, Sure, by, when};

/// Whether comb is drawn and bees cover it so far that another box is wanted.
pub(super) fn is_full(morning: &Morning, p: &AgendaParameters) -> bool {
    morning.top_drawn >= p.box_drawn && morning.covered >= p.box_covered
}

pub(super) fn list(scene: &Scene, visits: &[usize], items: &mut Vec<Item>) {
    // Who has swarmed has room enough.
    if scene.is_queen_gone() || scene.is_hungry() {
        return;
    }
    let (p, last) = (scene.p, scene.last());
    let needs = |life: &super::Life| {
        let day = life.first(|morning| morning.alive && is_full(morning, p))?;
        // A box on a colony that shrinks is only more to heat and to guard.
        let later = life.on((day + p.box_growth as usize).min(last));
        (later.bees >= life.on(day).bees).then_some(day)
    };
    let days = when(&scene.lives, needs);
    let sure = Sure {
        count: days.len(),
        of: scene.lives.len(),
    };
    if !scene.is_enough(sure) {
        return;
    }
    // What is so today already can wait for the next visit, and not longer.
    let next = visits.first().copied().unwrap_or(0);
    let (early, middle, late) = (by(&days, 0.05), by(&days, 0.5), by(&days, 0.95));
    let from = if early == 0 { next } else { early };
    // Only a box that comes later than half of them need it: one that comes earlier is on by then, and they need another.
    let middle = middle.max(from);
    let planned = items.iter().find_map(|item| match item.job {
        Job::Planned {
            adds_box: true,
            refused: false,
            ..
        } if item.from > scene.date(middle) => Some(item.from),
        _ => None,
    });
    let job = Job::AddBox {
        middle: scene.date(middle),
        planned,
    };
    items.push(scene.item(from, late.max(from), sure, job));
}
