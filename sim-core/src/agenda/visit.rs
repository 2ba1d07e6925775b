//! When to open the hive next, and what should be in it.

use serde::Serialize;

use super::lives::Morning;
use super::room::is_full;
use super::{Asked, Item, Job, Scene, Sure, lives};
use crate::Error;
use crate::calendar::{CalendarDate, days_between};
use crate::ensemble::{Hands, Member, Spread};
use crate::verdict::Cause;
use crate::words::Language;

/// Colonies that those with visits are held against.
const PEERS: usize = 400;

/// Days for which a hive with queen cells and no eggs is left alone.
const LEFT_ALONE: usize = 21;
/// So many times as far apart are looks at a hive in winter.
const WINTER_VISITS: usize = 4;

/// What a visit should find, nine in ten colonies between the quantiles of 5 and 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LookFor {
    /// Frames of brood, where the queen lays.
    pub brood_frames: Spread,
    /// Frames covered with bees, where the colony lives.
    pub bee_frames: Spread,
    /// Frames drawn, where the colony lives.
    pub drawn_frames: Spread,
    /// Honey, nectar and syrup in the comb, kg, where the colony lives.
    pub stores_kg: Spread,
    /// Members with a laying queen.
    pub laying: usize,
    /// Members with eggs enough to be seen.
    pub eggs: usize,
    /// Members with queen cells that are charged or capped, or gone with a swarm since today.
    pub swarming: usize,
    /// Members that are lost.
    pub lost: usize,
    /// Members with a poor queen, or none, today.
    pub poor_queen: usize,
    /// Members whose stores and feeders last for fewer days than there ought to be food for (`agenda.food_for`).
    pub short_of_food: usize,
    /// Members with comb and bees enough in the highest box to be given another.
    pub short_of_room: usize,
    /// What the middle living member has at the visit before, or today.
    pub before: Before,
    /// Frames of brood of colonies of the same start and weather in which nothing is wrong, before any visit; the
    /// middle half is in step. Only where there are visits.
    pub in_step: Option<Spread>,
    /// Whether it is the next visit.
    pub next: bool,
    /// Whether queen cells were found and no eggs: then a young queen is looked for, and the members, which have the old one, say
    /// nothing of the brood.
    pub young_queen: bool,
    /// Whether bees keep to their cluster: it is hefted and looked at from above, not opened.
    pub winter: bool,
}

/// What the middle living member has on a day.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Before {
    /// The day.
    pub date: CalendarDate,
    /// Frames of brood.
    pub brood_frames: f64,
    /// Frames drawn.
    pub drawn_frames: f64,
    /// Honey, nectar and syrup in the comb, kg.
    pub stores_kg: f64,
}

/// The days of the visits, counted from today.
pub(super) fn dates(scene: &Scene) -> Vec<usize> {
    let first = scene.asked.peers.season().first;
    let seen = scene.asked.visits.last();
    let seen = seen.map_or(0, |visit| days_between(first, visit.date.0)) as usize;
    let every = scene.p.visit_every as usize;
    // A young queen is left alone until she can have laid.
    let first = if scene.is_queen_gone() {
        LEFT_ALONE
    } else {
        every
    };
    let mut due = (seen + first).max(scene.today) - scene.today;
    let mut days: Vec<usize> = Vec::new();
    while due <= scene.ahead {
        // The first day that is warm enough, as long as it is not nearer to the next visit.
        let warm = |day: &usize| scene.weather(*day, |day| day.high_c) >= scene.p.open_from_c;
        // To heft a hive it need not be warm, and not be done each week.
        let winter = scene.is_winter(due);
        let found = (due..due + every).find(warm).or(winter.then_some(due));
        match found {
            Some(day) if day <= scene.ahead => {
                let every = if winter { WINTER_VISITS * every } else { every };
                days.push(day);
                due = day + every;
            }
            _ => due += every,
        }
    }
    // Where no colony is left, there is nothing to look at again.
    let lost = |day: &usize| scene.lives.iter().all(|life| !life.on(*day).alive);
    let end = days.iter().position(lost).map_or(days.len(), |at| at + 1);
    days.truncate(end);
    days
}

pub(super) fn list<H: Hands>(
    scene: &Scene,
    visits: &[usize],
    hands: &H,
    items: &mut Vec<Item>,
) -> Result<(), Error> {
    let sound = sound(scene, hands)?;
    super::found::first_look(scene, items);
    if let Some(next) = visits.first() {
        check(scene, *next, items);
    }
    let eggs_to_see = scene.parameters.visits.eggs_half;
    for (place, &day) in visits.iter().enumerate() {
        let lives = &scene.lives;
        let spread_on =
            |day: usize, whose: &dyn Fn(&Morning) -> bool, of: &dyn Fn(&Morning) -> f64| {
                let mut values: Vec<f64> = lives
                    .iter()
                    .map(|life| life.on(day))
                    .filter(|morning| whose(morning))
                    .map(of)
                    .collect();
                if values.is_empty() {
                    values.push(0.0);
                }
                Spread::of(&mut values)
            };
        let spread = |whose: &dyn Fn(&Morning) -> bool, of: &dyn Fn(&Morning) -> f64| {
            spread_on(day, whose, of)
        };
        let earlier = place.checked_sub(1).map_or(0, |before| visits[before]);
        let middle =
            |of: &dyn Fn(&Morning) -> f64| spread_on(earlier, &|morning| morning.alive, of).median;
        let count =
            |is: &dyn Fn(&super::Life) -> bool| lives.iter().filter(|life| is(life)).count();
        let laying = Sure::of(lives, |life| life.on(day).laying && life.on(day).alive);
        let look_for = LookFor {
            brood_frames: spread(&|morning| morning.alive && morning.laying, &|morning| {
                morning.frames_of_brood
            }),
            bee_frames: spread(&|morning| morning.alive, &|morning| morning.frames_of_bees),
            drawn_frames: spread(&|morning| morning.alive, &|morning| morning.drawn_frames),
            stores_kg: spread(&|morning| morning.alive, &|morning| morning.stores_kg),
            laying: laying.count,
            eggs: count(&|life| life.on(day).eggs >= eggs_to_see),
            swarming: count(&|life| {
                life.on(day).cells >= 1.0 || life.swarm.is_some_and(|swarm| swarm < day)
            }),
            lost: count(&|life| !life.on(day).alive),
            poor_queen: scene
                .members
                .iter()
                .filter(|member| Cause::Queen.is_in(member) || Cause::NoQueen.is_in(member))
                .count(),
            short_of_food: count(&|life| {
                let morning = life.on(day);
                morning.alive && morning.food_kg < scene.p.food_for * morning.eaten_kg
            }),
            short_of_room: count(&|life| {
                let morning = life.on(day);
                morning.alive && is_full(morning, scene.p)
            }),
            before: Before {
                date: scene.date(earlier),
                brood_frames: middle(&|morning| morning.frames_of_brood),
                drawn_frames: middle(&|morning| morning.drawn_frames),
                stores_kg: middle(&|morning| morning.stores_kg),
            },
            in_step: (!sound.is_empty()).then(|| {
                let mut brood: Vec<f64> = sound
                    .iter()
                    .map(|life| life.on(day).frames_of_brood)
                    .collect();
                Spread::of(&mut brood)
            }),
            next: visits.first() == Some(&day),
            young_queen: scene.is_queen_gone(),
            winter: scene.is_winter(day),
        };
        items.push(scene.item(
            day,
            day,
            laying,
            Job::Visit {
                look_for: Box::new(look_for),
            },
        ));
    }
    Ok(())
}

/// Colonies of the same start and weather today, before any visit; none where there is no visit, for then the members are
/// such colonies.
pub(super) fn peers<H: Hands>(
    asked: &Asked,
    today: usize,
    hands: &H,
) -> Result<Vec<Member>, Error> {
    if asked.visits.is_empty() {
        return Ok(Vec::new());
    }
    let made = hands.make(PEERS, |number| {
        let mut member = asked.peers.member(number as u32)?;
        asked.peers.advance(&mut member, today, |_, _, _, _| {})?;
        Ok(member)
    });
    made.into_iter().collect()
}

/// Those of them in which nothing is wrong today.
fn sound<H: Hands>(scene: &Scene, hands: &H) -> Result<Vec<super::Life>, Error> {
    let is_sound = |member: &&Member| !Cause::ALL.iter().any(|cause| cause.is_in(member));
    let sound: Vec<Member> = scene.before.iter().filter(is_sound).cloned().collect();
    let until = scene.today + scene.ahead;
    lives::of_all(scene.asked.peers, &sound, until, hands)
}

/// A fault that more colonies have than not.
fn check(scene: &Scene, day: usize, items: &mut Vec<Item>) {
    if scene.asked.visits.is_empty() {
        return;
    }
    for cause in Cause::ALL {
        let sure = Sure {
            count: scene
                .members
                .iter()
                .filter(|member| cause.is_in(member))
                .count(),
            of: scene.members.len(),
        };
        // It is known already.
        let known = cause == Cause::Mites && scene.many_mites().is_some();
        if 2 * sure.count > sure.of && !known {
            let tell = cause.tell(Language::English);
            items.push(scene.item(day, day, sure, Job::Check { cause, tell }));
        }
    }
}
