//! When to feed, and how much: against hunger before the visit after next, and for winter.

use serde::Serialize;

use super::lives::{self, Life, Morning};
use super::{Item, Job, Scene, Sure, rules, when};
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
    if !found(scene, items) && !until_spring(scene, hands, items)? {
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

/// A stretch of days from today, and the days for which there ought to be food on each of them.
struct Stretch<'a> {
    scene: &'a Scene<'a>,
    until: usize,
    food_for: f64,
}

impl Stretch<'_> {
    /// The first day on which a living colony has not food enough.
    fn short(&self, life: &Life) -> Option<usize> {
        let lacking = |(day, morning): (usize, &Morning)| {
            let little = day > 0 && morning.food_kg < self.food_for * morning.eaten_kg;
            (morning.alive && little).then_some(day)
        };
        let hungry = life.hungry.first().copied();
        let hungry = hungry.filter(|day| *day < self.until);
        let mornings = life.mornings.iter().enumerate().take(self.until + 1);
        let little = mornings.skip(1).find_map(lacking);
        match (hungry, little) {
            (Some(hungry), Some(little)) => Some(hungry.min(little)),
            (one, other) => one.or(other),
        }
    }

    fn mornings<'l>(&self, life: &'l Life) -> &'l [Morning] {
        &life.mornings[1..=self.until.min(life.mornings.len() - 1)]
    }

    fn lowest(&self, life: &Life) -> f64 {
        let stores = self.mornings(life).iter().map(|morning| morning.stores_kg);
        stores.fold(f64::INFINITY, f64::min)
    }

    fn wanted(&self, life: &Life) -> f64 {
        let mornings = self.mornings(life).iter();
        let wanted = mornings.map(|morning| self.food_for * morning.eaten_kg);
        wanted.fold(0.0, f64::max)
    }

    fn missing(&self, life: &Life) -> f64 {
        let hungry = life.hungry.iter().filter(|day| **day < self.until).count();
        let eaten = self.wanted(life) / self.food_for;
        match self.short(life) {
            Some(_) => (self.wanted(life) - self.lowest(life)).max(0.0) + hungry as f64 * eaten,
            None => 0.0,
        }
    }

    /// Something of each member, sorted.
    fn of_each(&self, of: impl Fn(&Life) -> f64) -> Vec<f64> {
        let mut all: Vec<f64> = self.scene.lives.iter().map(of).collect();
        order::numbers(&mut all);
        all
    }

    fn stores(&self) -> Spread {
        Spread::of(&mut self.of_each(|life| self.lowest(life)))
    }

    /// Enough for nine in ten, and how many stay short with it. What starving colonies lack is less than they eat once they are
    /// fed, so it is tried.
    fn enough(
        &self,
        kind: FeedKind,
        short_with: impl Fn(Mix) -> Result<Sure, Error>,
    ) -> Result<(Mix, Sure), Error> {
        let mut mix = self.lacking(kind);
        let mut short_with_it = short_with(mix)?;
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
        Ok((mix, short_with_it))
    }

    /// What nine in ten lack no more than.
    fn lacking(&self, kind: FeedKind) -> Mix {
        let missing = self.of_each(|life| self.missing(life));
        Mix::for_honey(kind, quantile(&missing, 0.9), self.scene.p.fed_stored)
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
    let stretch = |until: usize| Stretch {
        scene,
        until,
        food_for,
    };
    let (whole, first) = (stretch(until), stretch(next));
    let sure = Sure::of(&scene.lives, |life| whole.short(life).is_some());
    if !scene.is_enough(sure) {
        return Ok(());
    }
    // Before the next visit, if it cannot wait for it.
    let sooner = Sure::of(&scene.lives, |life| first.short(life).is_some());
    let day = if scene.is_enough(sooner) { 0 } else { next };
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
            whole.short(life).is_some_and(|short| short > day + 2)
        }))
    };
    let (mix, short_with_it) = match way {
        Way::Syrup => whole.enough(kind, short_with)?,
        Way::OnTheBars => (whole.lacking(kind), sure),
    };
    let job = Job::Feed {
        for_winter: false,
        way,
        found: None,
        mix,
        aim_kg: quantile(&whole.of_each(|life| whole.wanted(life)), 0.5),
        stores_kg: whole.stores(),
        short_with_it: short_with_it.count,
        of: short_with_it.of,
        all_they_take: false,
    };
    items.push(scene.item(day, day, sure, job));
    Ok(())
}

/// Sugar on the bars where it is too cold for syrup, and what is in the hive does not last until that is over; whether it is
/// listed.
fn until_spring<H: Hands>(scene: &Scene, hands: &H, items: &mut Vec<Item>) -> Result<bool, Error> {
    let Some(until) = first_of_syrup(scene) else {
        return Ok(false);
    };
    let stretch = Stretch {
        scene,
        until,
        food_for: scene.p.food_for,
    };
    let days = when(&scene.lives, |life| stretch.short(life));
    let sure = Sure {
        count: days.len(),
        of: scene.lives.len(),
    };
    if !scene.is_enough(sure) {
        return Ok(false);
    }
    // The day by which so many are short that it is not waited for more.
    let act = libm::ceil(scene.p.act_from * sure.of as f64) as usize;
    let by = days[act.clamp(1, days.len()) - 1] as usize;
    // The model knows no sugar on the bars: it is tried as stores in the combs.
    let honey_kg = |mix: Mix| mix.sugar_kg * scene.p.fed_stored / SUGAR_IN_HONEY;
    let short_with = |mix: Mix| -> Result<Sure, Error> {
        let mut fed = scene.members.clone();
        for member in &mut fed {
            member.walk.suppose_honey(1000.0 * honey_kg(mix));
        }
        let lives = lives::of_all(scene.asked.peers, &fed, scene.today + until, hands)?;
        Ok(Sure::of(&lives, |life| stretch.short(life).is_some()))
    };
    let (mix, short_with_it) = stretch.enough(FeedKind::TwoToOne, short_with)?;
    let job = Job::Feed {
        for_winter: true,
        way: Way::OnTheBars,
        found: None,
        mix,
        aim_kg: quantile(&stretch.of_each(|life| life.on(0).stores_kg), 0.1) + honey_kg(mix),
        stores_kg: stretch.stores(),
        short_with_it: short_with_it.count,
        of: short_with_it.of,
        all_they_take: false,
    };
    items.push(scene.item(0, by, sure, job));
    Ok(true)
}

/// Where it is too cold for syrup today: the first day after that on which syrup is taken to stay, or the last that is looked at.
fn first_of_syrup(scene: &Scene) -> Option<usize> {
    let taken = &rules::syrup_days(scene.asked.peers)[scene.today..=scene.today + scene.last()];
    if taken[0] {
        return None;
    }
    let spring = (0..taken.len()).find(|day| scene.is_spring(*day));
    let mut cold = taken[..spring.unwrap_or(taken.len())].iter();
    cold.rposition(|taken| !taken)
        .map(|last| (last + 1).min(scene.last()))
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
