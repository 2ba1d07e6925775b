//! The plan with a drone frame in it whose removal is left open, and the same plan without the frame.

use jiff::civil::Date;

use crate::Error;
use crate::calendar::{CalendarDate, plus_days};
use crate::scenario::moves::{At, NewFrame};
use crate::scenario::{Action, Comb, Move, Scenario};
use crate::words::Saying;

/// Which frame is asked about.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Frame {
    /// The day on which it is put in; `None`: the first one of the plan, or one that is in the hive from the start.
    pub date: Option<Date>,
    /// Where; `None`: in the first place that fits.
    pub at: Option<At>,
    /// Drawn already.
    pub drawn: bool,
}

/// Where the frame comes from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Source {
    /// It is in the hive from the start, at this place.
    Hive(At),
    /// A move of the plan gives it, by its number from 0.
    Move(usize),
}

/// The two plans.
#[derive(Debug, Clone)]
pub struct Plans {
    /// With the frame, which nothing takes out.
    pub with: Scenario,
    /// Without it.
    pub without: Scenario,
    /// Where the frame comes from in `with`.
    pub source: Source,
    /// Moves of the plan that were set aside because they could take it out, in words.
    pub set_aside: Vec<Saying>,
}

/// Whether comb is a drone frame.
pub fn is_drone_frame(comb: Comb) -> bool {
    matches!(comb, Comb::DroneFrame | Comb::DrawnDroneFrame)
}

fn gives_drone_frame(step: &Move) -> bool {
    step.give_frame
        .as_ref()
        .is_some_and(|new| is_drone_frame(new.comb))
}

/// Makes the two plans.
///
/// # Errors
/// There is no drone frame in the plan and no date for one.
pub fn plans(scenario: &Scenario, frame: Frame) -> Result<Plans, Error> {
    let mut with = scenario.clone();
    // They speak of the whole plan.
    with.expect.clear();
    let in_plan = first_in_plan(scenario);
    let from = match (frame.date, in_plan) {
        (Some(date), _) => Some(CalendarDate(date)),
        (None, Some(Source::Hive(_))) => Some(scenario.start.date),
        (None, Some(Source::Move(index))) => scenario.moves[index].date,
        (None, None) => {
            return Err(Error::said(
                "date",
                Saying::new(|words| words.problems.no_drone_frame),
            ));
        }
    };
    let set_aside = set_aside(&mut with, from);
    let mut without = with.clone();
    let given = |step: &Move| {
        gives_drone_frame(step)
            && step.date == from
            && (frame.at.is_none() || step.give_frame.as_ref().and_then(|new| new.at) == frame.at)
    };
    let source = match (in_plan, with.moves.iter().position(given)) {
        (Some(Source::Hive(at)), _) if frame.date.is_none() => {
            leave_out(&mut without, at);
            Source::Hive(at)
        }
        (_, Some(index)) => {
            without.moves.remove(index);
            Source::Move(index)
        }
        (_, None) => {
            if let Some(CalendarDate(date)) = from {
                with.moves.push(give(date, frame));
            }
            Source::Move(without.moves.len())
        }
    };
    Ok(Plans {
        with,
        without,
        source,
        set_aside,
    })
}

/// Puts at the place of a drone frame what else could stand there: comb as it is beside it.
fn leave_out(plan: &mut Scenario, at: At) {
    let hive_box = &mut plan.hive.boxes[usize::from(at.in_box) - 1];
    if hive_box.contents.is_empty() {
        hive_box.contents = vec![hive_box.comb; hive_box.frames];
    }
    let mut others = hive_box.contents.iter().copied();
    let other = others.find(|comb| !is_drone_frame(*comb));
    hive_box.contents[usize::from(at.place) - 1] = other.unwrap_or_default();
}

fn give(date: Date, frame: Frame) -> Move {
    let comb = if frame.drawn {
        Comb::DrawnDroneFrame
    } else {
        Comb::DroneFrame
    };
    let new = NewFrame {
        comb,
        at: frame.at,
        replace: frame.at.is_some(),
    };
    Move::on(CalendarDate(date), Action::GiveFrame(new))
}

/// The drone frame that is in the hive first.
fn first_in_plan(scenario: &Scenario) -> Option<Source> {
    for (in_box, hive_box) in scenario.hive.boxes.iter().enumerate() {
        for place in 0..hive_box.frames {
            let comb = hive_box.contents.get(place).copied();
            if is_drone_frame(comb.unwrap_or(hive_box.comb)) {
                return Some(Source::Hive(At {
                    in_box: in_box as u8 + 1,
                    place: place as u8 + 1,
                }));
            }
        }
    }
    scenario
        .moves
        .iter()
        .enumerate()
        .filter(|(_, step)| gives_drone_frame(step))
        .min_by_key(|(_, step)| step.date)
        .map(|(index, _)| Source::Move(index))
}

/// Sets aside what would take a drone frame out from `from` on; returns it in words.
fn set_aside(plan: &mut Scenario, from: Option<CalendarDate>) -> Vec<Saying> {
    let takes = |step: &Move| {
        step.take_drone_frame.is_some()
            || step.freeze_drone_frame.is_some()
            || step.swap_drone_frames.is_some()
    };
    let mut words = Vec::new();
    plan.moves.retain_mut(|step| {
        if !takes(step) {
            return true;
        }
        let begins_before = from.zip(step.date).is_some_and(|(from, date)| date < from);
        let repeats = step.every_days.is_some() || step.when.is_some();
        if begins_before && !repeats {
            return true;
        }
        let name = step.action().map_or("", |action| action.name());
        words.push(match step.date {
            Some(date) => Saying::new(|words| words.window.move_on)
                .action("name", name)
                .day("date", date),
            None => Saying::new(|words| words.forms.as_it_is).action("text", name),
        });
        if let (true, Some(from)) = (begins_before, from) {
            let before = CalendarDate(plus_days(from.0, -1));
            step.until = Some(step.until.map_or(before, |until| until.min(before)));
            return true;
        }
        false
    });
    words
}
