//! When to feed, and how much: against hunger before the visit after next, and for winter.

use serde::Serialize;

use super::lives::{self, Life};
use super::{Item, Job, Scene, Sure, rules};
use crate::Error;
use crate::calendar::CalendarDate;
use crate::ensemble::{Hands, Spread, quantile};
use crate::order;
use crate::scenario::moves::Syrup;
use crate::scenario::{Action, FeedKind, Move};
use crate::syrup::{
    LITRES_PER_JAR, ONE_TO_ONE, SUGAR_IN_HONEY, TWO_TO_ONE, litres_from_a_litre_of_water,
    sugar_g_per_litre,
};
use crate::verdict::{Alarm, Alarming};

/// Syrup and what is mixed for it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Mix {
    /// `1:1` or `2:1`, by weight.
    #[serde(rename = "syrup")]
    pub kind: FeedKind,
    /// Syrup, litres.
    pub litres: f64,
    /// Sugar in it, kg.
    pub sugar_kg: f64,
    /// Water in it, litres.
    pub water_litres: f64,
}

/// How sugar is given.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// As syrup in a feeder.
    Syrup,
    /// As fondant or dry sugar, laid on the bars over the cluster: too cold for syrup. The model does not know it.
    OnTheBars,
}

/// How often half as much feed again is tried where it is not enough.
const MORE_FEED: usize = 5;

impl Mix {
    /// So many litres of syrup.
    pub fn of(kind: FeedKind, litres: f64) -> Self {
        let share = if kind == FeedKind::TwoToOne {
            TWO_TO_ONE
        } else {
            ONE_TO_ONE
        };
        Self {
            kind,
            litres,
            sugar_kg: litres * sugar_g_per_litre(share) / 1000.0,
            water_litres: litres / litres_from_a_litre_of_water(share),
        }
    }

    /// The same with no more sugar than this, in whole quart jars.
    fn at_most(self, sugar_kg: f64) -> Self {
        let litres = sugar_kg / Self::of(self.kind, 1.0).sugar_kg;
        let jars = (litres / LITRES_PER_JAR).round() * LITRES_PER_JAR;
        Self::of(self.kind, self.litres.min(jars.max(LITRES_PER_JAR)))
    }

    /// One filling of a plan; none of patties, and of what is kept full.
    pub(super) fn of_filling(kind: FeedKind, litres: Option<f64>) -> Option<Self> {
        match kind {
            FeedKind::Patty => None,
            _ => litres.map(|litres| Self::of(kind, litres)),
        }
    }

    /// Syrup that leaves so much honey in the comb, in whole quart jars or half litres: the larger.
    fn for_honey(kind: FeedKind, honey_kg: f64, stored: f64) -> Self {
        let sugar_kg = honey_kg * SUGAR_IN_HONEY / stored;
        let one = Self::of(kind, 1.0);
        let litres = sugar_kg / one.sugar_kg;
        let jars = (litres / LITRES_PER_JAR).ceil() * LITRES_PER_JAR;
        Self::of(kind, jars.max(LITRES_PER_JAR))
    }
}

pub(super) fn list<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    // What was written down comes before what the members hold.
    if !found(scene, items) {
        against_hunger(scene, visits, hands, items)?;
    }
    for_winter(scene, hands, items)
}

/// How sugar is given on a day, and as which syrup.
fn given(scene: &Scene, day: usize) -> (Way, FeedKind) {
    let taken = rules::syrup_days(scene.asked.peers)[scene.today + day];
    // In autumn syrup is given as stores, and not to grow on.
    match (taken, scene.is_autumn(day)) {
        (false, _) => (Way::OnTheBars, FeedKind::TwoToOne),
        (true, true) => (Way::Syrup, FeedKind::TwoToOne),
        (true, false) => (Way::Syrup, FeedKind::OneToOne),
    }
}

/// Feed today for low stores that a visit found; whether it did.
pub(super) fn found(scene: &Scene, items: &mut Vec<Item>) -> bool {
    let Some((alarm, found_kg, days, aim_kg)) = scene.alarms.iter().find_map(|alarm| {
        let Alarming::LowStores {
            found_kg,
            days,
            aim_kg,
        } = alarm.what
        else {
            return None;
        };
        Some((alarm, found_kg, days, aim_kg))
    }) else {
        return false;
    };
    let (way, kind) = given(scene, 0);
    // What is eaten until the next visit comes on top.
    let missing = aim_kg * (1.0 + scene.p.visit_every / days) - found_kg;
    let mut stores: Vec<f64> = scene
        .lives
        .iter()
        .map(|life| life.on(0).stores_kg)
        .collect();
    let low = |life: &Life| life.on(0).food_kg < aim_kg;
    let sure = Sure::of(&scene.lives, low);
    let job = Job::Feed {
        for_winter: false,
        way,
        found: Some(Box::new(Alarm::clone(alarm))),
        mix: Mix::for_honey(kind, missing.max(0.0), scene.p.fed_stored),
        aim_kg,
        stores_kg: Spread::of(&mut stores),
        short_with_it: sure.count,
        of: sure.of,
        all_they_take: false,
    };
    items.push(scene.item(0, 0, sure, job));
    true
}

/// The first day on which a living colony has not food enough, up to `until`.
fn short(life: &Life, until: usize, food_for: f64) -> Option<usize> {
    let lacking = |(day, morning): (usize, &lives::Morning)| {
        let little = day > 0 && morning.food_kg < food_for * morning.eaten_kg;
        (morning.alive && little).then_some(day)
    };
    let hungry = life.hungry.first().copied().filter(|day| *day < until);
    let mornings = life.mornings.iter().enumerate().take(until + 1);
    let little = mornings.skip(1).find_map(lacking);
    match (hungry, little) {
        (Some(hungry), Some(little)) => Some(hungry.min(little)),
        (one, other) => one.or(other),
    }
}

fn against_hunger<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    let p = scene.p;
    let Some(&next) = visits.first() else {
        return Ok(());
    };
    let until = (next + p.food_beyond as usize).min(scene.last());
    let food_for = if scene.is_winter(0) {
        p.food_for_in_winter
    } else {
        p.food_for
    };
    let sure = Sure::of(&scene.lives, |life| short(life, until, food_for).is_some());
    if !scene.is_enough(sure) {
        return Ok(());
    }
    // Before the next visit, if it cannot wait for it.
    let sooner = Sure::of(&scene.lives, |life| short(life, next, food_for).is_some());
    let day = if scene.is_enough(sooner) { 0 } else { next };
    let mornings = |life: &Life| life.mornings[1..=until.min(life.mornings.len() - 1)].to_vec();
    let lowest = |life: &Life| {
        let of = mornings(life);
        of.iter()
            .map(|morning| morning.stores_kg)
            .fold(f64::INFINITY, f64::min)
    };
    let wanted = |life: &Life| {
        let of = mornings(life);
        of.iter()
            .map(|morning| food_for * morning.eaten_kg)
            .fold(0.0, f64::max)
    };
    let missing = |life: &Life| {
        let hungry = life.hungry.iter().filter(|day| **day < until).count();
        let eaten = wanted(life) / food_for;
        match short(life, until, food_for) {
            Some(_) => (wanted(life) - lowest(life)).max(0.0) + hungry as f64 * eaten,
            None => 0.0,
        }
    };
    let mut all_missing: Vec<f64> = scene.lives.iter().map(missing).collect();
    order::numbers(&mut all_missing);
    let mut aims: Vec<f64> = scene.lives.iter().map(wanted).collect();
    order::numbers(&mut aims);
    let (way, kind) = given(scene, day);
    let short_with = |mix: Mix| -> Result<Sure, Error> {
        let feed = syrup(mix.kind, mix.litres, 1);
        let fed = Move::on(scene.date(day), feed);
        let lives = lives::of_all(
            &scene.with([fed])?,
            &scene.members,
            scene.today + until,
            hands,
        )?;
        Ok(Sure::of(&lives, |life| {
            // What it has on the days before it is fed is past help.
            short(life, until, food_for).is_some_and(|short| short > day + 2)
        }))
    };
    // Enough for nine in ten. What starving colonies lack is less than they eat once they are fed, so it is tried.
    let mut mix = Mix::for_honey(kind, quantile(&all_missing, 0.9), p.fed_stored);
    let mut short_with_it = sure;
    if way == Way::Syrup {
        short_with_it = short_with(mix)?;
        for _ in 0..MORE_FEED {
            if short_with_it.share() <= 0.1 {
                break;
            }
            let more = Mix::of(
                kind,
                mix.litres + (mix.litres / LITRES_PER_JAR / 2.0).ceil() * LITRES_PER_JAR,
            );
            let short_with_more = short_with(more)?;
            if short_with_more.count < short_with_it.count {
                (mix, short_with_it) = (more, short_with_more);
            } else {
                break;
            }
        }
    }
    let mut lows: Vec<f64> = scene.lives.iter().map(lowest).collect();
    let job = Job::Feed {
        for_winter: false,
        way,
        found: None,
        mix,
        aim_kg: quantile(&aims, 0.5),
        stores_kg: Spread::of(&mut lows),
        short_with_it: short_with_it.count,
        of: short_with_it.of,
        all_they_take: false,
    };
    items.push(scene.item(day, day, sure, job));
    Ok(())
}

fn syrup(kind: FeedKind, litres: f64, feeders: u8) -> Action {
    Action::Feed(Syrup {
        kind,
        litres: Some(litres.clamp(0.1, 50.0)),
        jars: None,
        feeders,
    })
}

/// The last day of autumn on which syrup is still taken; `None` where the season ends before it.
fn last_of_syrup(scene: &Scene) -> Option<usize> {
    let taken = rules::syrup_days(scene.asked.peers);
    let autumn = |day: &usize| scene.weather(*day, |day| day.day_length_change_h) < 0.0;
    let too_late = (0..=scene.last())
        .filter(autumn)
        .find(|day| !taken[scene.today + day])?;
    too_late.checked_sub(1)
}

fn for_winter<H: Hands>(scene: &Scene, hands: &H, items: &mut Vec<Item>) -> Result<(), Error> {
    let p = scene.p;
    let Some(ready) = last_of_syrup(scene) else {
        return Ok(());
    };
    let aim = p.winter_stores_kg;
    let short = |lives: &[Life]| {
        Sure::of(lives, |life| {
            life.on(ready).alive && life.on(ready).stores_kg < aim
        })
    };
    // A colony that is lost needs no feed.
    let sure = Sure {
        of: scene
            .lives
            .iter()
            .filter(|life| life.on(ready).alive)
            .count(),
        ..short(&scene.lives)
    };
    if !scene.is_enough(sure) {
        return Ok(());
    }
    // Once it is time, it does not wait for the next visit.
    let from = ready.saturating_sub(p.winter_feeding as usize);
    let mut stored: Vec<f64> = scene
        .lives
        .iter()
        .map(|life| life.on(ready))
        .filter(|morning| morning.alive)
        .map(|morning| morning.stores_kg)
        .collect();
    let stores = Spread::of(&mut stored);
    let mix = Mix::for_honey(
        FeedKind::TwoToOne,
        // Nine in ten lack no more; who has more stores needs less.
        (aim - quantile(&stored, 0.1)).max(0.0),
        p.fed_stored,
    );
    // Filled once a week, a part each time.
    let weeks = ((ready - from) / 7).max(1);
    let feed = Move {
        every_days: Some(7),
        until: Some(CalendarDate(scene.date(ready).0)),
        ..Move::on(
            scene.date(from),
            syrup(mix.kind, mix.litres / weeks as f64, 2),
        )
    };
    let lives = lives::of_all(
        &scene.with([feed])?,
        &scene.members,
        (scene.today + ready + 1).min(scene.asked.peers.days()),
        hands,
    )?;
    // What a colony takes of it, nine in ten of those that live: more in the feeder is not taken either.
    let both = scene.lives.iter().zip(&lives);
    let mut taken: Vec<f64> = both
        .filter(|(_, fed)| fed.on(ready).alive)
        .map(|(unfed, fed)| fed.on(ready).taken_kg - unfed.on(ready).taken_kg)
        .collect();
    order::numbers(&mut taken);
    let living = taken.len();
    if living == 0 {
        return Ok(());
    }
    let listed = mix.at_most(quantile(&taken, 0.9));
    let job = Job::Feed {
        for_winter: true,
        way: Way::Syrup,
        found: None,
        all_they_take: listed.litres < mix.litres,
        mix: listed,
        aim_kg: aim,
        stores_kg: stores,
        short_with_it: short(&lives).count,
        of: living,
    };
    items.push(scene.item(from, ready, sure, job));
    Ok(())
}
