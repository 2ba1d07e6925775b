//! The window of a drone frame: what comes of taking it out on each day, against no frame at all.
//!
//! Mites prefer drone cells, and are shut in with the brood. Taken out in time, the frame takes them away;
//! left in until its drones emerge, it has bred more than would have been without it. The season is run
//! once with the frame in it; on each morning a branch of it takes the frame out and goes on to the
//! day on which mites are counted. The season without the frame has the same weather and luck.

mod plan;

use std::sync::Arc;

use jiff::civil::Date;
use serde::Serialize;

pub use plan::{Frame, Plans, Source, is_drone_frame, plans};

use crate::Error;
use crate::calendar::{CalendarDate, days_between, plus_days};
use crate::colony::Colony;
use crate::document::{VERSION, scenario_digest};
use crate::draw::{Draw, Mean, Random};
use crate::ensemble::Spread;
use crate::moves::Task;
use crate::order;
use crate::scenario::moves::{At, Which};
use crate::scenario::{Action, Mode};
use crate::season::{Course, Prepared, prepare};
use crate::twin::Side;
use crate::weather;
use crate::words::Saying;

/// Days after the first drones emerge on which the frame is still looked at.
const DAYS_LATE: i32 = 9;
/// Days after the last removal until mites are counted: longer than a drone cell is capped, so that all
/// that came out of the frame has come out.
const DAYS_AFTER: i32 = 21;
/// Days in the hive that are looked at where the queen lays nothing into the frame.
const DAYS_WITHOUT_BROOD: i32 = 35;

/// What is asked.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Question {
    /// Which frame.
    pub frame: Frame,
    /// The day on which mites are counted; `None`: three weeks after the last removal, or the season's last.
    pub counted_on: Option<Date>,
}

/// A window ready to be worked out, member by member.
#[derive(Debug, Clone)]
pub struct Ready<'a> {
    side: Side<'a>,
    plans: Plans,
    /// The seasons of member 0, and of every member where no weather is drawn: with the frame, and without.
    ready: [Prepared; 2],
    drawn_weather: bool,
    given: usize,
    at: At,
    last_out: usize,
    counted_on: usize,
}

/// What one member of an ensemble comes to.
#[derive(Debug, Clone, PartialEq)]
pub struct Member {
    first_egg: Option<usize>,
    emerges: Option<usize>,
    out: Vec<Out>,
    left_in: f64,
    without: f64,
}

/// The frame taken out on one morning.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
struct Out {
    open: f64,
    capped: f64,
    emerged: f64,
    removed: f64,
    share: f64,
    let_out: f64,
    later: f64,
    lost: bool,
}

impl<'a> Ready<'a> {
    /// Makes a window ready.
    ///
    /// # Errors
    /// A scenario that cannot be run; no drone frame and no date for one; a frame that is refused, with
    /// the reason; a season that ends before the frame could come out.
    pub fn new(side: Side<'a>, question: Question) -> Result<Self, Error> {
        let plans = plans(side.scenario, question.frame)?;
        let (ready, drawn_weather) = prepare_both(side, &plans, 0)?;
        let mut window = Self {
            side,
            plans,
            ready,
            drawn_weather,
            given: 0,
            at: At {
                in_box: 1,
                place: 1,
            },
            last_out: 0,
            counted_on: 0,
        };
        window.look_ahead(question)?;
        Ok(window)
    }

    /// Runs the season in expected values to find where the frame is, when its drones emerge, and so the
    /// days that are worth a look.
    fn look_ahead(&mut self, question: Question) -> Result<(), Error> {
        let [season, _] = &self.ready;
        let last = season.conditions.len() - 1;
        let mut course = season.begin();
        let mut frame = Followed::new(self.plans.source);
        let mut emerges = None;
        while course.day <= last && emerges.is_none() {
            frame.live_a_day(&mut course, None, &mut Mean)?;
            if let Some(reason) = &frame.refused {
                let mut reason = reason.clone();
                let place = if question.frame.at.is_some() {
                    "at"
                } else {
                    reason = reason.and(|words| words.problems.name_a_place);
                    "date"
                };
                return Err(Error::said(place, reason));
            }
            emerges = frame.emerges;
        }
        let Some((day, at)) = frame.given else {
            return Err(Error::said(
                "date",
                Saying::new(|words| words.problems.frame_never_in),
            ));
        };
        self.given = day;
        self.at = at;
        // Of a season that ends too soon, the state of the brood says when it would be.
        let out_until = match emerges.or(frame.due()) {
            Some(emerges) => emerges as i32 + DAYS_LATE,
            None => day as i32 + DAYS_WITHOUT_BROOD,
        };
        self.last_out = last.min(out_until as usize);
        if self.last_out <= day {
            return Err(Error::said(
                "until",
                Saying::new(|words| words.problems.frame_in_on_last_day),
            ));
        }
        self.counted_on = match question.counted_on {
            None => last.min(self.last_out + DAYS_AFTER as usize),
            Some(date) => {
                let day = days_between(season.first, date);
                let earliest = plus_days(season.first, self.given as i32 + 1);
                if day <= self.given as i32 || day > last as i32 {
                    return Err(Error::said(
                        "counted_on",
                        Saying::new(|words| words.problems.date)
                            .text("first", earliest)
                            .text("last", self.side.scenario.until)
                            .text("got", date),
                    ));
                }
                // What would be taken out after the count cannot show in it.
                self.last_out = self.last_out.min(day as usize);
                day as usize
            }
        };
        Ok(())
    }

    /// Works out the window in whole animals.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn member(&self, member: u32) -> Result<Member, Error> {
        let draw = Random::new(self.side.scenario.seed, member);
        if self.drawn_weather && member > 0 {
            let (ready, _) = prepare_both(self.side, &self.plans, member)?;
            self.run(&ready, &draw)
        } else {
            self.run(&self.ready, &draw)
        }
    }

    /// Works out the window in expected values, in the weather of member 0.
    ///
    /// # Errors
    /// A day that does not add up: a fault of the program.
    pub fn mean(&self) -> Result<Member, Error> {
        self.run(&self.ready, &Mean)
    }

    fn run<D: Draw + Clone>(&self, ready: &[Prepared; 2], luck: &D) -> Result<Member, Error> {
        let [with, without] = ready;
        let mut draw = luck.clone();
        let mut course = with.begin();
        let mut frame = Followed::new(self.plans.source);
        let mut out = Vec::with_capacity(self.last_out - self.given);
        while course.day <= self.counted_on {
            if self.given < course.day && course.day <= self.last_out {
                out.push(self.take_out(&course, &frame, draw.clone())?);
            }
            frame.live_a_day(&mut course, None, &mut draw)?;
        }
        let mut draw = luck.clone();
        let mut never = without.begin();
        while never.day <= self.counted_on {
            never.live_a_day(None, &mut draw)?;
        }
        Ok(Member {
            first_egg: frame.first_egg,
            emerges: frame.emerges.or(frame.due()),
            out,
            left_in: mites(&course.colony),
            without: mites(&never.colony),
        })
    }

    /// A branch that takes the frame out this morning.
    fn take_out<D: Draw>(
        &self,
        course: &Course<'_>,
        frame: &Followed,
        mut draw: D,
    ) -> Result<Out, Error> {
        let mut branch = course.clone();
        let number = self.plans.with.moves.len();
        let task = frame.at.map(|at| {
            Arc::new(Task {
                number,
                when: None,
                every_days: None,
                action: Action::TakeDroneFrame(Which { at: Some(at) }),
            })
        });
        let outcome = branch.live_a_day(task.as_ref(), &mut draw)?;
        let mut out = Out::default();
        let report = outcome.moves.iter().find(|one| one.number == Some(number));
        for (name, figure) in report.iter().flat_map(|report| &report.figures) {
            match *name {
                "drone_cells_open" => out.open = *figure,
                "drone_cells_capped" => out.capped = *figure,
                "drones_emerged" => out.emerged = *figure,
                "mites_removed" => out.removed = *figure,
                "share_of_mites" => out.share = *figure,
                _ => {}
            }
        }
        while branch.day <= self.counted_on {
            branch.live_a_day(None, &mut draw)?;
        }
        out.let_out = frame.let_out;
        out.later = mites(&branch.colony);
        out.lost = !branch.colony.alive;
        Ok(out)
    }
}

fn mites(colony: &Colony) -> f64 {
    colony.mites.on_bees + colony.stock.mites_in_cells
}

fn prepare_both(side: Side, plans: &Plans, member: u32) -> Result<([Prepared; 2], bool), Error> {
    let (weather, report) = weather::lay(side.scenario, side.record, member)?;
    let drawn = report.season.is_some_and(|days| days.generated > 0);
    let ready = [
        prepare(&plans.with, &weather)?,
        prepare(&plans.without, &weather)?,
    ];
    Ok((ready, drawn))
}

/// The frame in question, followed through a season.
#[derive(Debug, Clone)]
struct Followed {
    source: Source,
    /// Day and place at which it was put in.
    given: Option<(usize, At)>,
    /// Where it is now.
    at: Option<At>,
    first_egg: Option<usize>,
    emerges: Option<usize>,
    /// Days until the oldest brood in it emerges, as of the last night.
    days_left: Option<usize>,
    /// Days lived.
    day: usize,
    /// Mother mites that came out of it with drones.
    let_out: f64,
    refused: Option<Saying>,
}

impl Followed {
    fn new(source: Source) -> Self {
        let there = match source {
            Source::Hive(at) => Some(at),
            Source::Move(_) => None,
        };
        Self {
            source,
            given: there.map(|at| (0, at)),
            at: there,
            first_egg: None,
            emerges: None,
            days_left: None,
            day: 0,
            let_out: 0.0,
            refused: None,
        }
    }

    /// The day on which the oldest brood in it would emerge.
    fn due(&self) -> Option<usize> {
        self.days_left.map(|left| self.day - 1 + left)
    }

    fn live_a_day<D: Draw>(
        &mut self,
        course: &mut Course<'_>,
        besides: Option<&Arc<Task>>,
        draw: &mut D,
    ) -> Result<(), Error> {
        let before = drone_frames(&course.colony);
        let emerging = self.nest(&course.colony).map_or(0.0, |nest| {
            nest.brood.mothers[nest.brood.stages.total() - 1]
        });
        self.let_out += emerging;
        self.day = course.day + 1;
        let day = course.day;
        let outcome = course.live_a_day(besides, draw)?;
        if let Source::Move(number) = self.source
            && self.given.is_none()
        {
            let report = outcome.moves.iter().find(|one| one.number == Some(number));
            match report {
                Some(report) if report.refused => self.refused = Some(report.text.clone()),
                Some(_) => {
                    let now = drone_frames(&course.colony);
                    self.at = now.into_iter().find(|at| !before.contains(at));
                    self.given = self.at.map(|at| (day, at));
                }
                None => {}
            }
        } else if self.at.is_some_and(|at| before.contains(&at)) {
            // A frame that was moved: where one is new.
            let now = drone_frames(&course.colony);
            if self.at.is_some_and(|at| !now.contains(&at)) {
                self.at = now.into_iter().find(|at| !before.contains(at));
            }
        }
        if let Some(nest) = self.nest(&course.colony) {
            let brood = &nest.brood;
            let total = brood.stages.total();
            // A trace in expected values is no egg.
            let oldest = (0..total).rev().find(|&age| brood.cells[age] >= 0.5);
            self.days_left = oldest.map(|age| total - age);
            if self.first_egg.is_none() {
                self.first_egg = oldest.map(|age| day - age.min(day));
            }
            if self.emerges.is_none() && nest.emerged >= 0.5 {
                self.emerges = Some(day);
            }
        }
        Ok(())
    }

    fn nest<'c>(&self, colony: &'c Colony) -> Option<&'c crate::colony::DroneNest> {
        let at = self.at?;
        let frames = &colony.frames.frames;
        let index = frames.iter().position(|frame| place_of(frame) == at)?;
        colony
            .drone_brood
            .iter()
            .find(|nest| nest.frame == Some(index))
    }
}

fn place_of(frame: &crate::comb::Frame) -> At {
    At {
        in_box: frame.in_box as u8 + 1,
        place: frame.position as u8 + 1,
    }
}

/// Where drone frames are.
fn drone_frames(colony: &Colony) -> Vec<At> {
    colony
        .frames
        .frames
        .iter()
        .filter(|frame| is_drone_frame(frame.kind))
        .map(place_of)
        .collect()
}

/// The window of a drone frame, over one season in expected values or over an ensemble.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Window {
    /// Version of the program.
    pub version: &'static str,
    /// Name of the plan.
    pub plan: String,
    /// Digest of the plan's scenario, 16 hexadecimal digits.
    pub plan_digest: String,
    /// The seed.
    pub seed: u32,
    /// Whole animals or expected values.
    pub mode: Mode,
    /// Number of members.
    pub members: usize,
    /// The day on which the frame is put in.
    pub given: CalendarDate,
    /// Where.
    pub at: At,
    /// Moves of the plan that were set aside because they could take it out.
    pub set_aside: Vec<Saying>,
    /// The day of the first egg in it; in an ensemble, that of the earliest of twenty members.
    pub first_egg: Option<CalendarDate>,
    /// The day on which its first drones emerge; in an ensemble, that of the earliest of twenty members.
    pub emerges: Option<CalendarDate>,
    /// The last day on which it can come out with all its drones in their cells, whatever the hour.
    pub last_safe: Option<CalendarDate>,
    /// The last of the days right after `last_safe` on which it is worth no less in the mean; in one colony or another a drone
    /// has left it by then. None: the day after is worth less already.
    pub as_good_until: Option<CalendarDate>,
    /// The day on which mites are counted.
    pub counted_on: CalendarDate,
    /// Mites on that day without the frame.
    pub mites_without: Spread,
    /// Mites fewer (negative: more) on that day than without the frame, if it is left in.
    pub gain_left_in: Spread,
    /// Each day on which it could come out.
    pub days: Vec<DayOut>,
}

/// The frame taken out on one morning.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DayOut {
    /// The day.
    pub date: CalendarDate,
    /// Days in the hive.
    pub days_in: u32,
    /// Days after the last safe one, negative before it.
    pub days_late: Option<i32>,
    /// Age of the oldest brood that was laid in it, days since the first egg.
    pub days_since_first_egg: Option<i32>,
    /// Cells with eggs and larvae, mean.
    pub drone_cells_open: f64,
    /// Capped cells, mean.
    pub drone_cells_capped: f64,
    /// Drones that have emerged from it, mean.
    pub drones_emerged: f64,
    /// Mother mites that came out of it with them, mean.
    pub mites_let_out: f64,
    /// Mites that leave the hive in it.
    pub mites_removed: Spread,
    /// Their share of all mites of the colony, mean.
    pub share_of_mites: f64,
    /// Mites fewer (negative: more) than without the frame on the day of the count.
    pub gain: Spread,
    /// Share of members in which mites are fewer.
    pub probability: f64,
    /// Members in which the colony is lost by then.
    pub lost: usize,
}

impl Window {
    /// Brings the members together, in the order of their numbers.
    ///
    /// # Errors
    /// That of the first member that has one; no member at all.
    pub fn of(
        ready: &Ready,
        mode: Mode,
        members: impl IntoIterator<Item = Result<Member, Error>>,
    ) -> Result<Self, Error> {
        let members = members.into_iter().collect::<Result<Vec<_>, _>>()?;
        if members.is_empty() {
            return Err(Error::scenario("members", "expected at least one member"));
        }
        let first = ready.ready[0].first;
        let date = |day: usize| CalendarDate(plus_days(first, day as i32));
        let spread = |of: &dyn Fn(&Member) -> f64| {
            Spread::of(&mut members.iter().map(of).collect::<Vec<f64>>())
        };
        let first_egg = earliest(members.iter().map(|member| member.first_egg));
        let emerges = earliest(members.iter().map(|member| member.emerges));
        let last_safe = emerges.map(|day| day.saturating_sub(1));
        let days: Vec<DayOut> = (ready.given + 1..=ready.last_out)
            .enumerate()
            .map(|(k, day)| {
                let mean = |of: fn(&Out) -> f64| {
                    members.iter().map(|member| of(&member.out[k])).sum::<f64>()
                        / members.len() as f64
                };
                let better = members
                    .iter()
                    .filter(|member| member.out[k].later < member.without)
                    .count();
                let since = |then: Option<usize>| then.map(|then| day as i32 - then as i32);
                DayOut {
                    date: date(day),
                    days_in: (day - ready.given) as u32,
                    days_late: since(last_safe),
                    days_since_first_egg: since(first_egg).filter(|days| *days >= 0),
                    drone_cells_open: mean(|out| out.open),
                    drone_cells_capped: mean(|out| out.capped),
                    drones_emerged: mean(|out| out.emerged),
                    mites_let_out: mean(|out| out.let_out),
                    mites_removed: spread(&|member| member.out[k].removed),
                    share_of_mites: mean(|out| out.share),
                    gain: spread(&|member| member.without - member.out[k].later),
                    probability: better as f64 / members.len() as f64,
                    lost: members.iter().filter(|member| member.out[k].lost).count(),
                }
            })
            .collect();
        let as_good_until = as_good_until(&days);
        Ok(Self {
            version: VERSION,
            plan: ready.side.scenario.name.clone(),
            plan_digest: scenario_digest(ready.side.scenario),
            seed: ready.side.scenario.seed,
            mode,
            members: members.len(),
            given: date(ready.given),
            at: ready.at,
            set_aside: ready.plans.set_aside.clone(),
            first_egg: first_egg.map(date),
            emerges: emerges.map(date),
            last_safe: last_safe.map(date),
            as_good_until,
            counted_on: date(ready.counted_on),
            mites_without: spread(&|member| member.without),
            gain_left_in: spread(&|member| member.without - member.left_in),
            days,
        })
    }

    /// Whether no member has a mite.
    pub fn has_no_mites(&self) -> bool {
        let none = |mites: &Spread| mites.mean == 0.0 && mites.q95 == 0.0;
        none(&self.mites_without) && none(&self.gain_left_in)
    }

    /// The day that lies so many days after the last safe one.
    pub fn late(&self, days: i32) -> Option<&DayOut> {
        self.days.iter().find(|day| day.days_late == Some(days))
    }

    /// The first and the last day out, after the last safe one, of the first spell in which the frame does
    /// more harm than good; later a second crop of drones can trap mites again.
    pub fn harmful(&self) -> Option<(&DayOut, &DayOut)> {
        let mut spell = self
            .days
            .iter()
            .skip_while(|day| day.days_late.is_none_or(|late| late <= 0) || day.gain.mean >= 0.0)
            .take_while(|day| day.gain.mean < 0.0);
        let first = spell.next()?;
        Some((first, spell.last().unwrap_or(first)))
    }
}

/// The last of the days right after the last safe one on which the frame is worth no less, in whole mites.
fn as_good_until(days: &[DayOut]) -> Option<CalendarDate> {
    let (safe, after) = days
        .iter()
        .position(|day| day.days_late == Some(0))
        .and_then(|place| days[place..].split_first())?;
    let worth = |day: &&DayOut| day.gain.mean.round() >= safe.gain.mean.round();
    after.iter().take_while(worth).last().map(|day| day.date)
}

/// The earliest of twenty, if more than half of the members have one.
fn earliest(days: impl Iterator<Item = Option<usize>>) -> Option<usize> {
    let all: Vec<Option<usize>> = days.collect();
    let mut there: Vec<usize> = all.iter().flatten().copied().collect();
    if 2 * there.len() <= all.len() {
        return None;
    }
    order::by_key(&mut there, |&day| day as i64);
    Some(there[there.len() / 20])
}
