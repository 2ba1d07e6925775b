//! Mites: when to wash, when a drone frame goes in and comes out, when treatments would fit.

use serde::Serialize;

use super::lives::{self, Life, Morning};
use super::{Item, Job, Scene, Sure, by, when};
use crate::Error;
use crate::calendar::{CalendarDate, days_between};
use crate::ensemble::{Hands, Spread};
use crate::forage::Conditions;
use crate::math::exp;
use crate::scenario::moves::{At, NewFrame, Which};
use crate::scenario::{Action, Comb, Move};
use crate::treatments::{SuperRule, TREATMENTS, Treatment, TreatmentInfo};
use crate::visits::Chance;

/// Bees in a wash: half a cup.
const WASH: u32 = 300;
/// Capped cells that are no brood to speak of.
const FEW_CELLS: f64 = 50.0;
/// Days that a window without brood has to last to be worth a date.
const BROODLESS_DAYS: usize = 7;
/// Members that drone frames are tried on, and washes are drawn from.
const TRIED: usize = 200;
/// Days that are looked at after a drone frame is put in.
const FRAME_DAYS: usize = 60;
/// Days from the removal of a drone frame until mites are compared: all that came out of it has come out.
const COMPARED_AFTER: usize = 21;
/// Share of the runs of weather, where it is drawn, in which a day has to suit a treatment.
const MOST_WEATHERS: f64 = 0.8;
/// Days before the last safe one on which a drone frame may come out: a visit falls among them.
const OUT_WITHIN: usize = 6;

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

pub(super) fn list<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    washes(scene, visits, items);
    frame_in_hive(scene, items);
    new_frame(scene, visits, hands, items)?;
    treat(scene, items);
    broodless(scene, items);
    Ok(())
}

/// Mites on 100 bees from which to act on a day.
fn act_from(scene: &Scene, day: usize) -> f64 {
    if scene.weather(day, |day| day.day_length_change_h) >= 0.0 {
        scene.p.act_in_spring
    } else {
        scene.p.act_in_autumn
    }
}

fn washes(scene: &Scene, visits: &[usize], items: &mut Vec<Item>) {
    let first = scene.asked.peers.season().first;
    let washed = scene
        .asked
        .visits
        .iter()
        .rev()
        .find(|visit| visit.wash.is_some());
    let washed = washed.map(|visit| visit.date);
    let mut due = washed.map_or(0, |date| {
        days_between(first, date.0) + scene.p.wash_every as i32 - scene.today as i32
    });
    let mut last = washed;
    for &day in visits {
        if (day as i32) < due {
            continue;
        }
        let threshold = act_from(scene, day);
        let sure = Sure::of(&scene.lives, |life| {
            let morning = life.on(day);
            morning.alive && morning.mites_per_100 >= threshold
        });
        let (low, high) = wash(scene, day);
        let job = Job::Wash {
            bees: WASH,
            low,
            high,
            act_from: (threshold / 100.0 * f64::from(WASH)).ceil() as u32,
            last,
        };
        items.push(scene.item(day, day, sure, job));
        last = Some(scene.date(day));
        due = day as i32 + scene.p.wash_every as i32;
    }
}

/// Between which counts nine in ten washes lie: members and the chance of the jar together.
fn wash(scene: &Scene, day: usize) -> (u32, u32) {
    let p = &scene.parameters.visits;
    let step = scene.lives.len().div_ceil(TRIED).max(1);
    let shares: Vec<f64> = scene
        .lives
        .iter()
        .step_by(step)
        .map(|life| life.on(day))
        .filter(|morning| morning.alive)
        .map(|morning| morning.mites_per_100 / 100.0)
        .collect();
    let mut below = 0.0;
    let (mut low, mut high) = (None, 0);
    for mites in 0..=WASH {
        let chance: f64 = shares
            .iter()
            .map(|&share| {
                let jar = Chance::Among {
                    of: f64::from(WASH),
                    share,
                    clumping: p.wash_clumping,
                };
                exp(jar.log_likelihood(f64::from(mites), p))
            })
            .sum();
        below += chance / shares.len().max(1) as f64;
        if below >= 0.05 {
            low.get_or_insert(mites);
        }
        high = mites;
        if below >= 0.95 {
            break;
        }
    }
    (low.unwrap_or(0), high)
}

/// The morning on which drones have come out of a drone frame; the first that is known of.
fn hatched(life: &Life) -> Option<usize> {
    life.first(|morning| morning.hatched >= 0.5)
}

/// The last day on which all drones are in their cells, whatever the hour: on the morning `hatched` some have
/// come out the day before.
fn last_safe(hatched: usize) -> usize {
    hatched.saturating_sub(2)
}

/// A drone frame of the plan that the plan leaves in for too long.
fn frame_in_hive(scene: &Scene, items: &mut Vec<Item>) {
    let days = when(&scene.lives, hatched);
    let sure = Sure {
        count: days.len(),
        of: scene.lives.len(),
    };
    if !scene.is_enough(sure) {
        return;
    }
    let hatches = by(&days, 0.05);
    let out_by = last_safe(hatches);
    let job = Job::DroneFrameOut {
        hatches: scene.date(hatches.saturating_sub(1)),
        there: true,
    };
    items.push(scene.item(out_by.saturating_sub(OUT_WITHIN), out_by, sure, job));
}

/// A drone frame that could go in at the next visit, if it would take mites away.
fn new_frame<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    let Some(&day) = visits.first() else {
        return Ok(());
    };
    let already = Sure::of(&scene.lives, |life| {
        life.mornings.iter().any(|morning| morning.drone_frame)
    });
    let strong = Sure::of(&scene.lives, |life| {
        life.on(day).bees >= scene.p.drone_frame_bees
    });
    if already.count > 0 || 2 * strong.count < strong.of {
        return Ok(());
    }
    let Some((give, lives)) = tried(scene, day, hands)? else {
        return Ok(());
    };
    let half = lives.len() / 2;
    let eggs = when(&lives, |life| {
        life.first(|morning| morning.in_drone_frames >= 1.0)
    });
    let out = when(&lives, hatched);
    if eggs.len() <= half || out.len() <= half {
        return Ok(());
    }
    let (first_egg, hatches) = (by(&eggs, 0.05), by(&out, 0.05));
    let out_by = last_safe(hatches);
    let compared = (out_by + COMPARED_AFTER).min(scene.last());
    let take = Move::on(
        scene.date(out_by),
        Action::TakeDroneFrame(Which { at: None }),
    );
    let with = lives::of_all(
        &scene.with([give, take])?,
        scene.some(TRIED),
        scene.today + compared,
        hands,
    )?;
    let without = || scene.lives.iter().take(with.len());
    let gains: Vec<f64> = without()
        .zip(&with)
        .map(|(without, with)| without.on(compared).mites - with.on(compared).mites)
        .collect();
    let sure = Sure {
        count: gains.iter().filter(|gain| **gain > 0.0).count(),
        of: gains.len(),
    };
    let mut mites: Vec<f64> = without().map(|life| life.on(compared).mites).collect();
    let fewer = Spread::of(&mut gains.clone());
    // A frame that takes less than a mite is not worth its drones.
    if fewer.median < 1.0 {
        return Ok(());
    }
    let job = Job::DroneFrameIn {
        first_egg: scene.date(first_egg.saturating_sub(1)),
        out_by: scene.date(out_by),
        compared_on: scene.date(compared),
        fewer,
        without: Spread::of(&mut mites),
    };
    items.push(scene.item(day, day, sure, job));
    let job = Job::DroneFrameOut {
        hatches: scene.date(hatches.saturating_sub(1)),
        there: false,
    };
    let sure = Sure {
        count: out.len(),
        of: lives.len(),
    };
    items.push(scene.item(out_by.saturating_sub(OUT_WITHIN), out_by, sure, job));
    Ok(())
}

/// A drone frame tried on some members: in an empty place or instead of an undrawn frame, or else instead of the
/// outermost frame of the lowest box.
fn tried<H: Hands>(
    scene: &Scene,
    day: usize,
    hands: &H,
) -> Result<Option<(Move, Vec<Life>)>, Error> {
    let until = (scene.today + day + FRAME_DAYS).min(scene.asked.peers.days());
    let places = [
        (None, false),
        (
            Some(At {
                in_box: 1,
                place: 1,
            }),
            true,
        ),
    ];
    for (at, replace) in places {
        let new = NewFrame {
            comb: Comb::DroneFrame,
            at,
            replace,
        };
        let give = Move::on(scene.date(day), Action::GiveFrame(new));
        let lives = lives::of_all(
            &scene.with([give.clone()])?,
            scene.some(TRIED),
            until,
            hands,
        )?;
        let there = |life: &Life| life.on(day + 1).drone_frame;
        if 2 * lives.iter().filter(|life| there(life)).count() > lives.len() {
            return Ok(Some((give, lives)));
        }
    }
    Ok(None)
}

fn treat(scene: &Scene, items: &mut Vec<Item>) {
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
        choices: choices(scene, early, |_| true),
    };
    items.push(scene.item(early, late, sure, job));
}

/// Treatments from a day on, the fitting first, otherwise in the order of the table.
fn choices(scene: &Scene, day: usize, which: impl Fn(&TreatmentInfo) -> bool) -> Vec<Choice> {
    let most = |is: &dyn Fn(&Morning) -> bool| {
        2 * Sure::of(&scene.lives, |life| is(life.on(day))).count > scene.lives.len()
    };
    let (supers, brood) = (
        most(&|morning| morning.honey_super),
        most(&|morning| morning.capped >= FEW_CELLS),
    );
    let mut choices: Vec<Choice> = TREATMENTS
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
        .collect();
    choices.sort_by_key(|choice| !choice.fits);
    choices
}

/// The first stretch of days without capped brood.
fn broodless(scene: &Scene, items: &mut Vec<Item>) {
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
                choices: choices(scene, middle, |row| row.in_cells <= 0.0 && row.days <= 7),
            };
            items.push(scene.item(day, end - 1, sure, job));
            return;
        }
        day = end.max(day + 1);
    }
}
