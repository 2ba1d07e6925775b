//! What a beekeeper would note about queens and swarms.

use super::{Purpose, SuccessionParameters, YoungQueen};
use crate::colony::Colony;
use crate::ledger::Ledger;
use crate::queen::QueenState;
use crate::words::Saying;

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
pub fn notes(before: &Seen, now: &Seen, flow: &Ledger) -> Vec<(&'static str, Saying)> {
    let mut notes = Vec::new();
    let mut note = |kind, text: Saying| notes.push((kind, text));
    if flow.swarmed > 0.0 {
        let swarm = if before.young.is_some() && now.young.is_none() {
            Saying::new(|words| words.events.after_swarm)
        } else {
            Saying::new(|words| words.events.swarm)
        };
        note("swarm", swarm.about("bees", flow.swarmed));
    } else if before.queen != now.queen && now.queen == QueenState::None {
        note("queen", Saying::new(|words| words.events.no_queen));
    }
    if before.charged < 0.5 && now.charged >= 0.5 {
        note(
            "queen",
            match now.purpose {
                Some(Purpose::Supersedure) => Saying::new(|words| words.events.supersedure_cells),
                Some(Purpose::Emergency) => Saying::new(|words| words.events.emergency_cells),
                _ => Saying::new(|words| words.events.swarm_cells),
            },
        );
    }
    if before.capped < 0.5 && now.capped >= 0.5 && now.purpose != Some(Purpose::Given) {
        note("queen", Saying::new(|words| words.events.first_cell_capped));
    }
    if before.charged + before.capped >= 0.5
        && now.charged + now.capped < 0.5
        && now.young.is_none()
        && now.queen == QueenState::Laying
        && before.queen == QueenState::Laying
        && before.young.is_none()
    {
        note("queen", Saying::new(|words| words.events.cells_gone));
    }
    match (before.young, now.young) {
        (None, Some(_)) if now.queen == QueenState::Laying => {
            note(
                "queen",
                Saying::new(|words| words.events.young_queen_beside),
            );
        }
        (None, Some(_)) => note("queen", Saying::new(|words| words.events.young_queen)),
        (Some(_), Some(young)) if young.age_d < 1.0 => note(
            "queen",
            Saying::new(|words| words.events.another_young_queen),
        ),
        (Some(old), Some(young)) if old.mated_for_d.is_none() && young.mated_for_d.is_some() => {
            note("queen", Saying::new(|words| words.events.young_queen_mated));
        }
        (Some(_), None) if now.queen == QueenState::DroneLayer => {
            note("queen", Saying::new(|words| words.events.not_mated_in_time))
        }
        (Some(_), None)
            if now.queen == QueenState::Laying && now.queen_age_d < before.queen_age_d =>
        {
            note(
                "queen",
                Saying::new(|words| words.events.young_queen_lays_old_gone),
            );
        }
        (Some(_), None)
            if now.queen == QueenState::Laying && before.queen != QueenState::Laying =>
        {
            note("queen", Saying::new(|words| words.events.young_queen_lays));
        }
        (Some(_), None) if flow.swarmed <= 0.0 => {
            note("queen", Saying::new(|words| words.events.young_queen_lost));
        }
        _ => {}
    }
    if before.queen != QueenState::LayingWorkers && now.queen == QueenState::LayingWorkers {
        note(
            "queen",
            Saying::new(|words| words.events.workers_begin_to_lay),
        );
    }
    notes
}
