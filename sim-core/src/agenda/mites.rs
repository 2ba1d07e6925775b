//! Mites: when to wash, when a drone frame goes in and comes out.

use super::lives::{self, Life};
use super::{Item, Job, Scene, Sure, by, treatments, when};
use crate::Error;
use crate::calendar::days_between;
use crate::ensemble::{Hands, Spread};
use crate::math::exp;
use crate::scenario::moves::{At, NewFrame, Which};
use crate::scenario::{Action, Comb, Move};
use crate::visits::Chance;

/// Bees in a wash: half a cup.
const WASH: u32 = 300;
/// Members that drone frames are tried on, and washes are drawn from.
const TRIED: usize = 200;
/// Days that are looked at after a drone frame is put in.
const FRAME_DAYS: usize = 60;
/// Days from the removal of a drone frame until mites are compared: all that came out of it has come out.
const COMPARED_AFTER: usize = 21;
/// Days before the last safe one on which a drone frame may come out: a visit falls among them.
const OUT_WITHIN: usize = 6;

pub(super) fn list<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    washes(scene, visits, items);
    frame_in_hive(scene, items);
    new_frame(scene, visits, hands, items)?;
    treatments::treat(scene, items);
    treatments::broodless(scene, items);
    Ok(())
}

fn washes(scene: &Scene, visits: &[usize], items: &mut Vec<Item>) {
    // One that is over the mark is enough.
    if scene.many_mites().is_some() {
        return;
    }
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
        if (day as i32) < due || !can_be_washed(scene, day) {
            continue;
        }
        let threshold = scene.act_from(day);
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

/// Whether most colonies have bees to spare on a brood frame.
fn can_be_washed(scene: &Scene, day: usize) -> bool {
    let can = Sure::of(&scene.lives, |life| {
        let morning = life.on(day);
        morning.bees >= scene.p.wash_bees && morning.frames_of_brood >= 0.25
    });
    !scene.is_winter(day) && 2 * can.count > can.of
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
    // A frame of drones is too slow for many mites, and nothing for a colony about to swarm.
    if scene.many_mites().is_some() || scene.has_queen_cells() || scene.is_hungry() {
        return Ok(());
    }
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
