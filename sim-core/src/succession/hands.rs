//! What a beekeeper's hands do to queens and queen cells.
//!
//! A move that cannot be made is refused with the reason in plain words, and nothing has changed.

use super::{CELL_DAYS, Purpose, SuccessionParameters, Wait, capped_from, emerges_at};
use crate::colony::Colony;
use crate::queen::{QueenBee, QueenState};

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
pub fn remove_queen(colony: &mut Colony) -> Result<(), &'static str> {
    let there = colony.queen.state;
    if !matches!(there, QueenState::None | QueenState::LayingWorkers) {
        colony.queen.state = QueenState::None;
        if matches!(there, QueenState::Virgin | QueenState::Mated) {
            colony.succession.young = None;
        }
        return Ok(());
    }
    Err("there is no queen in the hive")
}

/// Puts a laying queen into a cage for so many days; infinite until she is released.
///
/// # Errors
/// There is no laying queen, or she is in a cage already.
pub fn cage_queen(colony: &mut Colony, days: f64) -> Result<(), &'static str> {
    match colony.queen.state {
        QueenState::Laying => {
            colony.queen.state = QueenState::Caged;
            colony.queen.caged_for_d = days;
            Ok(())
        }
        QueenState::Caged => Err("the queen is in a cage already"),
        QueenState::DroneLayer => Err("the queen lays only drones; remove her"),
        _ => Err("there is no laying queen in the hive"),
    }
}

/// Lets a caged queen out.
///
/// # Errors
/// There is no caged queen.
pub fn release_queen(colony: &mut Colony) -> Result<(), &'static str> {
    if colony.queen.state != QueenState::Caged {
        return Err("there is no caged queen in the hive");
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
) -> Result<(), &'static str> {
    match colony.queen.state {
        QueenState::None => {}
        QueenState::LayingWorkers => return Err("workers lay in this hive and would kill a queen"),
        QueenState::Virgin | QueenState::Mated => {
            return Err("there is a young queen in the hive; remove her first");
        }
        QueenState::Laying | QueenState::Caged | QueenState::DroneLayer => {
            return Err("there is a queen in the hive; remove her first");
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
pub fn give_queen_cell(colony: &mut Colony, p: &SuccessionParameters) -> Result<(), &'static str> {
    match colony.queen.state {
        QueenState::None => {}
        QueenState::LayingWorkers => {
            return Err("workers lay in this hive and would tear the cell down");
        }
        _ => return Err("there is a queen in the hive, and bees would tear the cell down"),
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
pub fn force_swarm(colony: &mut Colony, p: &SuccessionParameters) -> Result<(), &'static str> {
    if colony.queen.state != QueenState::Laying {
        return Err("there is no laying queen to leave with a swarm");
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
