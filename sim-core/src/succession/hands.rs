//! What a beekeeper's hands do to queens and queen cells.
//!
//! A move that cannot be made is refused with the reason in plain words, and nothing has changed.

use super::{CELL_DAYS, Purpose, SuccessionParameters, Wait, capped_from, emerges_at};
use crate::colony::Colony;
use crate::queen::{QueenBee, QueenState};
use crate::words::Saying;

/// Queen cells as a beekeeper counts them.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Cells {
    /// Empty cups.
    pub cups: f64,
    /// Cells with an egg or a larva.
    pub charged: f64,
    /// Capped cells.
    pub capped: f64,
}

/// Takes the queen out, a young one where there is no other.
///
/// # Errors
/// There is none.
pub fn remove_queen(colony: &mut Colony) -> Result<(), Saying> {
    let there = colony.queen.state;
    if !matches!(there, QueenState::None | QueenState::LayingWorkers) {
        colony.queen.state = QueenState::None;
        if matches!(there, QueenState::Virgin | QueenState::Mated) {
            colony.succession.young = None;
        }
        return Ok(());
    }
    Err(Saying::new(|words| words.refusals.no_queen))
}

/// Puts a laying queen into a cage for so many days; infinite until she is released.
///
/// # Errors
/// There is no laying queen, or she is in a cage already.
pub fn cage_queen(colony: &mut Colony, days: f64) -> Result<(), Saying> {
    match colony.queen.state {
        QueenState::Laying => {
            colony.queen.state = QueenState::Caged;
            colony.queen.caged_for_d = days;
            Ok(())
        }
        QueenState::Caged => Err(Saying::new(|words| words.refusals.caged_already)),
        QueenState::DroneLayer => Err(Saying::new(|words| words.refusals.lays_only_drones)),
        _ => Err(Saying::new(|words| words.refusals.no_laying_queen)),
    }
}

/// Lets a caged queen out.
///
/// # Errors
/// There is no caged queen.
pub fn release_queen(colony: &mut Colony) -> Result<(), Saying> {
    if colony.queen.state != QueenState::Caged {
        return Err(Saying::new(|words| words.refusals.no_caged_queen));
    }
    colony.queen.state = QueenState::Laying;
    colony.queen.laying_for_d = 0.0;
    Ok(())
}

/// Gives a mated queen, in a cage for `caged_days` (0: run in).
///
/// # Errors
/// There is a queen, or laying workers would kill her.
pub fn requeen(
    colony: &mut Colony,
    age_years: f64,
    power: f64,
    caged_days: f64,
) -> Result<(), Saying> {
    match colony.queen.state {
        QueenState::None => {}
        QueenState::LayingWorkers => return Err(Saying::new(|words| words.refusals.workers_lay)),
        QueenState::Virgin | QueenState::Mated => {
            return Err(Saying::new(|words| words.refusals.young_queen_there));
        }
        QueenState::Laying | QueenState::Caged | QueenState::DroneLayer => {
            return Err(Saying::new(|words| words.refusals.queen_there));
        }
    }
    colony.queen = QueenBee {
        state: if caged_days > 0.0 {
            QueenState::Caged
        } else {
            QueenState::Laying
        },
        age_d: age_years * 365.0,
        caged_for_d: caged_days,
        laying_for_d: 0.0,
        power,
    };
    // With a queen among them bees tear emergency cells down.
    colony.succession.clear_cells();
    colony.succession.queenless_d = 0.0;
    colony.succession.hopeless_d = 0.0;
    Ok(())
}

/// Gives a ripe queen cell, from which the queen comes out in two days.
///
/// # Errors
/// There is a queen, or laying workers would tear the cell down.
pub fn give_queen_cell(colony: &mut Colony, p: &SuccessionParameters) -> Result<(), Saying> {
    match colony.queen.state {
        QueenState::None => {}
        QueenState::LayingWorkers => {
            return Err(Saying::new(|words| words.refusals.workers_would_tear));
        }
        _ => return Err(Saying::new(|words| words.refusals.bees_would_tear)),
    }
    let succession = &mut colony.succession;
    succession.cells[emerges_at(p) - 2] += 1.0;
    succession.purpose.get_or_insert(Purpose::Given);
    succession.hopeless_d = 0.0;
    Ok(())
}

/// Breaks every queen cell and cup, and says what there was.
///
/// A colony that prepares to swarm begins again the next day; one that is queenless, too, as long as
/// it has young larvae. Cups mean nothing and are rebuilt.
pub fn remove_queen_cells(colony: &mut Colony, p: &SuccessionParameters) -> Cells {
    let succession = &mut colony.succession;
    let there = Cells {
        cups: succession.cups,
        charged: succession.charged(p),
        capped: succession.capped(p),
    };
    succession.cells = [0.0; CELL_DAYS];
    succession.cups = 0.0;
    succession.after_swarm = false;
    if there.charged + there.capped > 0.0 {
        succession.wait = Wait::default();
    }
    there
}

/// Makes the colony swarm today: the queen leaves, and cells just capped are left behind.
///
/// # Errors
/// There is no laying queen to leave.
pub fn force_swarm(colony: &mut Colony, p: &SuccessionParameters) -> Result<(), Saying> {
    if colony.queen.state != QueenState::Laying {
        return Err(Saying::new(|words| words.refusals.no_queen_to_swarm));
    }
    let succession = &mut colony.succession;
    succession.purpose = Some(Purpose::Swarm);
    if succession.capped(p) < 0.5 {
        // They are capped tonight.
        succession.cells = [0.0; CELL_DAYS];
        succession.cells[capped_from(p) - 1] = libm::round(p.swarm_cells);
    }
    succession.forced = true;
    Ok(())
}
