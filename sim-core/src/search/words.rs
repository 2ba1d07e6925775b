//! The moves of a plan, day by day and in words.

use serde::Serialize;

use crate::agenda::{LIFTING, ROBBING, STINGS};
use crate::calendar::{CalendarDate, plus_days};
use crate::scenario::{Action, FeedKind, Move};
use crate::treatments::LABEL;

/// A move on a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DatedMove {
    /// The day.
    pub date: CalendarDate,
    /// The move in words, as something to do.
    pub text: String,
}

/// Every day of some moves.
pub(super) fn calendar(moves: &[Move], last: CalendarDate) -> Vec<DatedMove> {
    let mut dated: Vec<DatedMove> = Vec::new();
    for step in moves {
        let (Some(first), Some(action)) = (step.date, step.action()) else {
            continue;
        };
        let until = step.until.unwrap_or(last).min(last);
        let every = step.every_days.map_or(i32::MAX, i32::from);
        let mut date = first;
        loop {
            dated.push(DatedMove {
                date,
                text: in_words(&action),
            });
            if every == i32::MAX {
                break;
            }
            date = CalendarDate(plus_days(date.0, every));
            if date > until {
                break;
            }
        }
    }
    dated.sort_by_key(|one| one.date);
    dated
}

/// What to beware of in what some moves ask for.
pub(super) fn cautions<'m>(moves: impl Iterator<Item = &'m Move>) -> Vec<&'static str> {
    let mut cautions = vec![STINGS];
    let mut add = |caution| {
        if !cautions.contains(&caution) {
            cautions.push(caution);
        }
    };
    for step in moves {
        if let Some(treat) = &step.treat {
            add(LABEL);
            add(treat.with.info().caution);
        }
        if step.feed.is_some() {
            add(ROBBING);
        }
        if step.add_box.is_some() {
            add(LIFTING);
        }
    }
    cautions
}

/// A move as something to do: what a search adds has words of its own, others their name.
fn in_words(action: &Action) -> String {
    match action {
        Action::GiveFrame(new) => match new.at {
            None => "put in a drone frame".to_owned(),
            Some(at) => format!(
                "put in a drone frame instead of the frame at place {} of box {}",
                at.place, at.in_box
            ),
        },
        Action::SwapDroneFrames(_) => {
            "take the drone frame out to freeze it, and put in its twin".to_owned()
        }
        Action::TakeDroneFrame(_) => "take the drone frame out".to_owned(),
        Action::Treat(treat) => format!("treat with {}", treat.with.info().name),
        Action::Feed(syrup) => {
            let kind = match syrup.kind {
                FeedKind::TwoToOne => "2:1",
                _ => "1:1",
            };
            let jars = syrup.jars.unwrap_or(0.0);
            format!("feed {jars} quart jars of {kind} syrup")
        }
        Action::AddBox(_) => "give a box of foundation".to_owned(),
        Action::RemoveQueenCells(_) => "break every queen cell".to_owned(),
        other => other.name().replace('_', " "),
    }
}
