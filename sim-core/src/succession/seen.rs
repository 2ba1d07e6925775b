//! What a beekeeper would note about queens and swarms.

use super::{Purpose, SuccessionParameters, YoungQueen};
use crate::colony::Colony;
use crate::ledger::Ledger;
use crate::queen::QueenState;
use crate::story::about;

/// Queens and queen cells on one evening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seen {
    queen: QueenState,
    queen_age_d: f64,
    young: Option<YoungQueen>,
    purpose: Option<Purpose>,
    charged: f64,
    capped: f64,
}

impl Seen {
    /// Looks at the colony.
    pub fn of(colony: &Colony, p: &SuccessionParameters) -> Self {
        let succession = &colony.succession;
        Self {
            queen: colony.queen.state,
            queen_age_d: colony.queen.age_d,
            young: succession.young,
            purpose: succession.purpose,
            charged: succession.charged(p),
            capped: succession.capped(p),
        }
    }
}

/// What is new since the evening `before`, in words: kind of event and text.
pub fn notes(before: &Seen, now: &Seen, flow: &Ledger) -> Vec<(&'static str, String)> {
    let mut notes = Vec::new();
    let mut note = |kind, text: &str| notes.push((kind, text.to_owned()));
    if flow.swarmed > 0.0 {
        let queen = if before.young.is_some() && now.young.is_none() {
            "an after-swarm leaves with a young queen"
        } else {
            "a swarm leaves with the old queen"
        };
        note(
            "swarm",
            &format!("{queen} and about {} bees", about(flow.swarmed)),
        );
    } else if before.queen != now.queen && now.queen == QueenState::None {
        note("queen", "there is no queen in the hive");
    }
    if before.charged < 0.5 && now.charged >= 0.5 {
        note(
            "queen",
            match now.purpose {
                Some(Purpose::Supersedure) => {
                    "eggs in one to a few queen cells: the colony means to replace its queen"
                }
                Some(Purpose::Emergency) => "emergency queen cells are begun over young larvae",
                _ => "eggs in queen cells: the colony prepares to swarm",
            },
        );
    }
    if before.capped < 0.5 && now.capped >= 0.5 && now.purpose != Some(Purpose::Given) {
        note("queen", "the first queen cell is capped");
    }
    if before.charged + before.capped >= 0.5
        && now.charged + now.capped < 0.5
        && now.young.is_none()
        && now.queen == QueenState::Laying
        && before.queen == QueenState::Laying
        && before.young.is_none()
    {
        note(
            "queen",
            "the queen cells are gone, and the old queen is still there",
        );
    }
    match (before.young, now.young) {
        (None, Some(_)) if now.queen == QueenState::Laying => {
            note("queen", "a young queen emerges beside the old one");
        }
        (None, Some(_)) => note("queen", "a young queen emerges"),
        (Some(_), Some(young)) if young.age_d < 1.0 => note("queen", "another young queen emerges"),
        (Some(old), Some(young)) if old.mated_for_d.is_none() && young.mated_for_d.is_some() => {
            note("queen", "the young queen has mated");
        }
        (Some(_), None) if now.queen == QueenState::DroneLayer => note(
            "queen",
            "the young queen has not mated in time: she will lay only drones",
        ),
        (Some(_), None)
            if now.queen == QueenState::Laying && now.queen_age_d < before.queen_age_d =>
        {
            note(
                "queen",
                "the young queen is ready to lay; the old one is gone",
            );
        }
        (Some(_), None)
            if now.queen == QueenState::Laying && before.queen != QueenState::Laying =>
        {
            note("queen", "the young queen is ready to lay");
        }
        (Some(_), None) if flow.swarmed <= 0.0 => {
            note(
                "queen",
                "the young queen does not come back from her flight",
            );
        }
        _ => {}
    }
    if before.queen != QueenState::LayingWorkers && now.queen == QueenState::LayingWorkers {
        note(
            "queen",
            "workers begin to lay: only drones come of their eggs",
        );
    }
    notes
}
