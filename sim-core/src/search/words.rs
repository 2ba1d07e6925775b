//! The moves of a plan, day by day and in words.

use serde::Serialize;

use crate::calendar::{CalendarDate, plus_days};
use crate::order;
use crate::scenario::{Action, FeedKind, Move};
use crate::words::{Language, Saying};

/// A move on a day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DatedMove {
    /// The day.
    pub date: CalendarDate,
    /// The move, as something to do.
    pub text: Saying,
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
    order::by_key(&mut dated, |one| one.date.number());
    dated
}

/// What to beware of in what some moves ask for.
pub(super) fn cautions<'m>(
    moves: impl Iterator<Item = &'m Move>,
    language: Language,
) -> Vec<&'static str> {
    let words = &language.words().cautions;
    let mut cautions = vec![words.stings];
    let mut add = |caution| {
        if !cautions.contains(&caution) {
            cautions.push(caution);
        }
    };
    for step in moves {
        if let Some(treat) = &step.treat {
            add(words.label);
            add(words.treatments[treat.with as usize]);
        }
        if step.feed.is_some() {
            add(words.robbing);
        }
        if step.add_box.is_some() {
            add(words.lifting);
        }
    }
    cautions
}

/// A move as something to do: what a search adds has words of its own, others their name.
fn in_words(action: &Action) -> Saying {
    match action {
        Action::GiveFrame(new) => match new.at {
            None => Saying::new(|words| words.search.drone_frame_in),
            Some(at) => Saying::new(|words| words.search.drone_frame_in_place_of)
                .plain("place", at.place)
                .plain("box", at.in_box),
        },
        Action::SwapDroneFrames(_) => Saying::new(|words| words.search.drone_frames_swapped),
        Action::TakeDroneFrame(_) => Saying::new(|words| words.search.drone_frame_out),
        Action::Treat(treat) => {
            let place = treat.with as usize;
            Saying::new(|words| words.search.treat).choice(
                "treatment",
                |words| &words.treatments,
                place,
            )
        }
        Action::Feed(syrup) => Saying::new(|words| words.search.feed)
            .plain("jars", syrup.jars.unwrap_or(0.0))
            .choice(
                "feed",
                |words| &words.agenda.feeds,
                usize::from(matches!(syrup.kind, FeedKind::TwoToOne)),
            ),
        Action::AddBox(_) => Saying::new(|words| words.search.add_box),
        Action::RemoveQueenCells(_) => Saying::new(|words| words.search.queen_cells),
        other => Saying::new(|words| words.forms.as_it_is).action("text", other.name()),
    }
}
