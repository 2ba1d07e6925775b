//! What next: a dated list of what to do and what to look for, read off the members of an ensemble.
//!
//! The members are the colonies that fit a hive's visits, or, without visits, colonies of the same start and
//! weather. They go on living as the plan has it; whatever a share of them comes to that a
//! beekeeper would not wait for is put on the list, with the share, the dates and the reason. Nothing
//! in the list is written beforehand but the rules of the trade, which are parameters.

mod amounts;
mod feeding;
mod found;
mod icalendar;
mod lives;
mod mites;
mod planned;
mod room;
mod rules;
mod treatments;
mod visit;
mod words;

use jiff::civil::Date;
use serde::Serialize;

pub(crate) use amounts::capital;
pub use feeding::{Mix, Way};
pub use icalendar::icalendar;
pub(crate) use icalendar::{Event, calendar};
pub(crate) use rules::{
    act_from, honey_taken_after, is_autumn, is_winter, syrup_days, too_small_for_winter,
};
pub use treatments::Choice;
pub use visit::{Before, LookFor};
pub use words::Told;

use crate::calendar::{CalendarDate, days_between, plus_days};
use crate::document::{VERSION, scenario_digest};
use crate::ensemble::{Hands, Member, Peers, Spread, quantile};
use crate::order;
use crate::priors::AssumedMites;
use crate::scenario::{Move, Scenario};
use crate::verdict::{Alarm, Alarming, Cause, Effort, Fitting, Sign, alarms, fitting};
use crate::visits::Visit;
use crate::words::Saying;
use crate::{Error, Parameters};
use lives::Life;

params! {
    /// From when on something is put on the list of what to do next.
    AgendaParameters {
        /// Days from visit to visit.
        visit_every = 7.0, "d", 3.0..=28.0, Assumed, "weekly in the season: common practice, no source";
        /// Highest temperature of a day below which a hive is not opened.
        open_from_c = 12.0, "°C", 0.0..=25.0, Assumed, "10 to 13: common practice, no source";
        /// Share of the colonies that come to something, from which it is put on the list.
        act_from = 0.10, "-", 0.01..=0.9, Assumed, "a choice: one in ten is not waited for";
        /// Days for which food is to be in the hive at any time.
        food_for = 10.0, "d", 1.0..=60.0, Assumed, "a frame of stores in a strong colony: common practice, no source";
        /// The same while bees keep to their cluster.
        food_for_in_winter = 42.0, "d", 1.0..=120.0, Assumed, "hardly looked at between, and fed with trouble: common practice, no source";
        /// Days beyond the next visit for which want of food is looked for.
        food_beyond = 7.0, "d", 0.0..=60.0, Assumed, "should the visit after it be rained off";
        /// Part of the syrup's sugar that ends up in the comb.
        fed_stored = 0.78, "-", 0.3..=1.0, Published, "7 lb from a US gallon of 2:1: common practice, no source";
        /// Share of the highest box that is drawn when the next one goes on.
        box_drawn = 0.75, "-", 0.3..=1.0, Assumed, "7 to 8 of 10 frames: common practice, no source";
        /// Share of the hive's frames that bees could cover closely when the next box goes on.
        box_covered = 0.40, "-", 0.1..=1.0, Assumed, "bees on most frames, if thinly: common practice, no source";
        /// Days over which a colony still grows when it is given a box.
        box_growth = 21.0, "d", 0.0..=60.0, Assumed, "one round of brood";
        /// Bees from which a colony is asked to raise a frame of drones.
        drone_frame_bees = 10000.0, "bees", 1000.0..=40000.0, Assumed, "works poorly in weak colonies: extension, no figure found";
        /// Days from wash to wash.
        wash_every = 28.0, "d", 7.0..=120.0, Assumed, "monthly in the season: extension guides (from memory)";
        /// Mites on 100 bees from which to act while days grow longer.
        act_in_spring = 2.0, "mites", 0.1..=20.0, Published, "1 to 2 in spring: extension guides (from memory)";
        /// Mites on 100 bees from which to act while days grow shorter.
        act_in_autumn = 3.0, "mites", 0.1..=20.0, Published, "3 at any time: Jack et al. 2023; 2 to 3 in summer and autumn: extension guides (from memory)";
        /// Mites that fall on a board in a day from which to act.
        act_on_fall = 30.0, "mites", 1.0..=300.0, Published, "30 a day at any time, beside 3 on 100 bees: USDA-ARS (quoted elsewhere, not read there)";
        /// The same from autumn to spring.
        act_on_fall_in_autumn = 15.0, "mites", 1.0..=300.0, Published, "15 a day in autumn: a trial in Quebec, no author found";
        /// Days before it is taken in which bees gather a harvest.
        honey_gathered_for = 90.0, "d", 0.0..=200.0, Assumed, "the flows of one summer: common practice, no source";
        /// Bees under which a colony is not washed for mites.
        wash_bees = 5000.0, "bees", 600.0..=20000.0, Assumed, "300 of fewer are missed: common practice, no source";
        /// Stores with which a colony goes into winter.
        winter_stores_kg = 25.0, "kg", 5.0..=60.0, Published, "20 kg and more are used: Seeley & Visscher 1985; 25 kg: Seeley 2019; less where winters are mild";
        /// Mean of ten days below which syrup is hardly taken.
        syrup_from_c = 12.0, "°C", 0.0..=20.0, Assumed, "bees cluster and do not ripen it: common practice, no source";
        /// Days that feeding for winter takes.
        winter_feeding = 28.0, "d", 7.0..=90.0, Assumed, "taken and ripened in four weeks: common practice, no source";
    }
}

/// Days from the first of the list on which anything is looked at.
const LOOK_AHEAD: usize = 365;

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// The plan.
    pub scenario: &'a Scenario,
    /// The same, made ready.
    pub peers: &'a Peers,
    /// Name of the hive.
    pub hive: &'a str,
    /// Its visits, sifted; can be empty.
    pub visits: &'a [Visit],
    /// The day on which the list begins; otherwise that of the last visit, or of the start.
    pub on: Option<Date>,
    /// Weeks for which visits are listed, 1 to 52.
    pub weeks: u32,
    /// Members, and rounds of the filter.
    pub effort: Effort,
}

/// The list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Agenda {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the scenario.
    pub scenario: String,
    /// Its digest, 16 hexadecimal digits.
    pub scenario_digest: String,
    /// Name of the hive; empty: none.
    pub hive: String,
    /// The seed.
    pub seed: u32,
    /// Visits that the members were held against.
    pub visits: usize,
    /// Members that the list was read off.
    pub members: usize,
    /// The first day of the list.
    pub from: CalendarDate,
    /// The last day on which a visit is listed.
    pub to: CalendarDate,
    /// The last day that was looked at.
    pub until: CalendarDate,
    /// Where the list rests on few members.
    pub warnings: Vec<Saying>,
    /// That some colonies were lost before the first day, where some were: they are not among the members.
    pub left_out: Option<Saying>,
    /// Mites at the start that the scenario does not speak of.
    pub assumed_mites: Option<AssumedMites>,
    /// What to do, in order of date.
    pub items: Vec<Item>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Item {
    /// The first day on which to do it.
    pub from: CalendarDate,
    /// The last.
    pub to: CalendarDate,
    /// How sure that is: in so many of the colonies.
    pub sure: Sure,
    /// What.
    #[serde(flatten)]
    pub job: Job,
}

/// A count of members.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Sure {
    /// Members in which it is so.
    pub count: usize,
    /// Of so many.
    pub of: usize,
}

impl Sure {
    fn of(lives: &[Life], is: impl Fn(&Life) -> bool) -> Self {
        Self {
            count: lives.iter().filter(|life| is(life)).count(),
            of: lives.len(),
        }
    }

    /// The share.
    pub fn share(self) -> f64 {
        self.count as f64 / self.of.max(1) as f64
    }
}

/// What is to be done, with the figures that it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Job {
    /// Something that the plan has on this day.
    Planned {
        /// In words.
        text: Saying,
        /// What to mix for it.
        mix: Option<Mix>,
        /// It is a feed.
        feeds: bool,
        /// Boxes are lifted.
        lifts: bool,
        /// A box is given.
        adds_box: bool,
        /// It cannot be done, and why is in the text.
        refused: bool,
    },
    /// Make sure of a likely fault.
    Check {
        /// Which.
        cause: Cause,
        /// How to tell.
        tell: &'static str,
    },
    /// What a visit found that cannot wait: queen cells, a dead hive, a hive at odds with its plan.
    Found {
        /// What.
        alarm: Alarm,
    },
    /// Look whether the queen of a package is out of her cage.
    FirstLook {
        /// The day on which the plan has her out.
        out: CalendarDate,
    },
    /// Open the hive and look.
    Visit {
        /// What for.
        look_for: Box<LookFor>,
    },
    /// Feed.
    Feed {
        /// For winter, or until spring; otherwise against hunger.
        for_winter: bool,
        /// How it is given.
        way: Way,
        /// What a visit found, where it is fed for that.
        found: Option<Box<Alarm>>,
        /// What to mix; of sugar laid on the bars, the sugar in it.
        mix: Mix,
        /// Stores that are aimed at, kg.
        aim_kg: f64,
        /// Lowest stores of the members until then, kg.
        stores_kg: Spread,
        /// Members that stay below it with that feed.
        short_with_it: usize,
        /// Of so many: for winter, of those that live then.
        of: usize,
        /// Whether that is all that nine in ten colonies take by then, and not enough for them.
        all_they_take: bool,
    },
    /// Give a box on top.
    AddBox {
        /// The day on which half of those that need it are there.
        middle: CalendarDate,
        /// The day after that on which the plan gives one.
        planned: Option<CalendarDate>,
    },
    /// Put a drone frame in.
    DroneFrameIn {
        /// First eggs in it, in the earliest of twenty.
        first_egg: CalendarDate,
        /// The last day on which it is safe to take it out.
        out_by: CalendarDate,
        /// The day on which mites are compared.
        compared_on: CalendarDate,
        /// Mites fewer by then, if it comes out on the last safe day.
        fewer: Spread,
        /// Mites without it.
        without: Spread,
    },
    /// Take a drone frame out.
    DroneFrameOut {
        /// First drones, in the earliest of twenty.
        hatches: CalendarDate,
        /// Whether it is in the hive already; otherwise it is proposed here.
        there: bool,
    },
    /// Wash bees for mites.
    Wash {
        /// Bees in the sample.
        bees: u32,
        /// Nine in ten washes find at least so many mites.
        low: u32,
        /// Nine in ten washes find at most so many.
        high: u32,
        /// From so many on, treat.
        act_from: u32,
        /// The day of the last wash.
        last: Option<CalendarDate>,
    },
    /// Treat against mites.
    Treat {
        /// Mites on 100 bees from which to act, while days grow longer and while they grow shorter.
        act_from: (f64, f64),
        /// Members that are over it today; the others come to it.
        over: usize,
        /// The day by which half of those that come to it have.
        middle: CalendarDate,
        /// The wash or the fall that calls for it.
        found: Option<Box<Alarm>>,
        /// What could be given, the fitting first.
        choices: Vec<Choice>,
    },
    /// Days without brood, in which what kills mites on bees only reaches all of them.
    Broodless {
        /// What could be given.
        choices: Vec<Choice>,
    },
}

impl Job {
    /// Whether a visit calls for it, whatever the members hold.
    pub fn is_found(&self) -> bool {
        match self {
            Self::Found { .. } => true,
            Self::Feed { found, .. } | Self::Treat { found, .. } => found.is_some(),
            _ => false,
        }
    }
}

/// Everything that the rules read.
struct Scene<'a> {
    asked: Asked<'a>,
    p: &'a AgendaParameters,
    parameters: &'a Parameters,
    /// The members on today's morning.
    members: Vec<Member>,
    /// Colonies of the same start and weather on that morning, before any visit; none where there is no visit, for then the
    /// members are such colonies.
    before: Vec<Member>,
    lives: Vec<Life>,
    /// Today, counted from the first day of the season.
    today: usize,
    /// Days from today for which visits are listed.
    ahead: usize,
    /// What visits found that cannot wait.
    alarms: Vec<Alarm>,
}

impl Scene<'_> {
    /// What was found of a kind that cannot wait.
    fn alarm(&self, is: impl Fn(&Alarming) -> bool) -> Option<&Alarm> {
        self.alarms.iter().find(|alarm| is(&alarm.what))
    }

    fn has_queen_cells(&self) -> bool {
        self.alarm(|what| matches!(what, Alarming::QueenCells { .. }))
            .is_some()
    }

    /// Queen cells and no eggs: a young queen is not to be disturbed.
    fn is_queen_gone(&self) -> bool {
        let gone = |what: &Alarming| {
            matches!(
                what,
                Alarming::QueenCells {
                    sign: Sign::Gone,
                    ..
                }
            )
        };
        self.alarm(gone).is_some()
    }

    /// Who has nothing to eat has nothing for combs and drones.
    fn is_hungry(&self) -> bool {
        self.alarm(|what| matches!(what, Alarming::LowStores { .. }))
            .is_some()
    }

    fn many_mites(&self) -> Option<&Alarm> {
        self.alarm(|what| what.is_of_mites())
    }

    /// Whether bees keep to their cluster.
    fn is_winter(&self, ahead: usize) -> bool {
        let day = self.today + ahead.min(self.last());
        is_winter(&rules::runs(self.asked.peers, day), self.p)
    }

    /// Mites on 100 bees from which to act.
    fn act_from(&self, ahead: usize) -> f64 {
        let day = self.today + ahead.min(self.last());
        act_from(&rules::runs(self.asked.peers, day), self.p)
    }

    /// Whether days are too long for winter, and grow longer still.
    fn is_spring(&self, ahead: usize) -> bool {
        self.weather(ahead, |day| day.day_length_h) >= rules::WINTER_LENGTH_H
            && self.weather(ahead, |day| day.day_length_change_h) > 0.0
    }

    fn is_autumn(&self, ahead: usize) -> bool {
        let day = self.today + ahead.min(self.last());
        is_autumn(&rules::runs(self.asked.peers, day))
    }

    fn date(&self, ahead: usize) -> CalendarDate {
        CalendarDate(plus_days(
            self.asked.peers.season().first,
            (self.today + ahead) as i32,
        ))
    }

    /// Days from today to the last day that is looked at.
    fn last(&self) -> usize {
        (self.asked.peers.days() - 1 - self.today).min(LOOK_AHEAD)
    }

    /// The mean over the runs of weather of something that a day has.
    fn weather(&self, ahead: usize, of: impl Fn(&crate::forage::Conditions) -> f64) -> f64 {
        let day = self.today + ahead.min(self.last());
        rules::mean(&rules::runs(self.asked.peers, day), of)
    }

    /// Whether a number of members is enough to be put on the list.
    fn is_enough(&self, sure: Sure) -> bool {
        sure.share() >= self.p.act_from
    }

    /// The first members, to be tried with other plans.
    fn some(&self, count: usize) -> &[Member] {
        &self.members[..count.min(self.members.len())]
    }

    /// The plan with more moves, made ready.
    fn with(&self, moves: impl IntoIterator<Item = Move>) -> Result<Peers, Error> {
        let mut plan = self.asked.scenario.clone();
        plan.moves.extend(moves);
        self.asked.peers.with_plan(&plan)
    }

    fn item(&self, from: usize, to: usize, sure: Sure, job: Job) -> Item {
        let last = self.last();
        Item {
            from: self.date(from.min(last)),
            to: self.date(to.max(from).min(last)),
            sure,
            job,
        }
    }
}

/// Makes the list.
///
/// # Errors
/// A day outside of the season; a day that does not add up.
pub fn agenda<H: Hands>(asked: Asked, hands: &H) -> Result<Agenda, Error> {
    let peers = asked.peers;
    let today = first_day(peers, asked.visits, asked.on)?;
    let Fitting {
        members,
        warnings,
        left_out,
    } = fitting(peers, asked.visits, today, asked.effort, hands)?;
    let before = visit::peers(&asked, today, hands)?;
    let until = peers.days().min(today + LOOK_AHEAD + 1);
    let lives = lives::of_all(peers, &members, until, hands)?;
    let parameters = &peers.season().parameters;
    let mut scene = Scene {
        asked,
        p: &parameters.agenda,
        parameters,
        lives,
        today,
        alarms: alarms::of(peers, asked.visits, (&all(&members), &all(&before)), today)?,
        before,
        members,
        ahead: 0,
    };
    scene.ahead = scene.last().min(7 * asked.weeks as usize);
    let mut items = Vec::new();
    found::list(&scene, &mut items);
    let is = |is: fn(&Alarming) -> bool| scene.alarm(is).is_some();
    if is(|what| matches!(what, Alarming::AtOdds { .. })) {
        // The members say nothing of this hive.
        feeding::found(&scene, &mut items);
        treatments::found(&scene, &mut items);
    } else if !is(|what| matches!(what, Alarming::Lost { .. })) {
        let visits = visit::dates(&scene);
        planned::list(&scene, &mut items)?;
        visit::list(&scene, &visits, hands, &mut items)?;
        feeding::list(&scene, &visits, hands, &mut items)?;
        room::list(&scene, &visits, &mut items);
        mites::list(&scene, &visits, hands, &mut items)?;
    }
    Ok(Agenda {
        version: VERSION,
        scenario: asked.scenario.name.clone(),
        scenario_digest: scenario_digest(asked.scenario),
        hive: asked.hive.to_owned(),
        seed: peers.seed(),
        visits: asked.visits.len(),
        members: scene.lives.len(),
        from: scene.date(0),
        to: scene.date(scene.ahead),
        until: scene.date(scene.last()),
        warnings,
        left_out,
        assumed_mites: peers.assumed_mites(),
        items: in_order(items),
    })
}

fn all(members: &[Member]) -> Vec<&Member> {
    members.iter().collect()
}

/// By date; what falls on the same days stays in the order in which the rules were asked.
///
/// A list is short, and the standard library's stable sort costs about 10 kB in the page's module for each type.
fn in_order(items: Vec<Item>) -> Vec<Item> {
    let mut sorted: Vec<Item> = Vec::with_capacity(items.len());
    for item in items {
        let place = sorted.partition_point(|one| (one.from, one.to) <= (item.from, item.to));
        sorted.insert(place, item);
    }
    sorted
}

/// The day on which a list begins, by default that of the last visit or of the start, counted from the first of the season.
pub(crate) fn first_day(peers: &Peers, visits: &[Visit], on: Option<Date>) -> Result<usize, Error> {
    let first = peers.season().first;
    let seen = visits.last().map_or(first, |visit| visit.date.0);
    let on = on.unwrap_or(seen);
    let day = days_between(first, on);
    let last = peers.days() as i32 - 1;
    if day < days_between(first, seen) || day > last {
        return Err(Error::said(
            "on",
            Saying::new(|words| words.problems.date)
                .text("first", seen)
                .text("last", plus_days(first, last))
                .text("got", on),
        ));
    }
    Ok(day as usize)
}

/// The day by which a share of sorted days has come.
fn by(days: &[f64], share: f64) -> usize {
    libm::round(quantile(days, share)) as usize
}

/// The days on which something first is so, sorted, of those members in which it ever is.
fn when(lives: &[Life], day: impl Fn(&Life) -> Option<usize>) -> Vec<f64> {
    let mut days: Vec<f64> = lives
        .iter()
        .filter_map(|life| day(life).map(|day| day as f64))
        .collect();
    order::numbers(&mut days);
    days
}
