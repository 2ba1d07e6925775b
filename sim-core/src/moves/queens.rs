//! The queen and her cells: what is written in a plan, handed on to [`succession`].

use super::{Done, Hand, Report, Result, report};
use crate::queen::QueenState;
use crate::rng::Topic;
use crate::scenario::moves::NewQueen;
use crate::succession;
use crate::words::Saying;

impl Hand<'_> {
    /// Whether a grown queen is there.
    pub(super) fn has_queen(&self) -> bool {
        !matches!(
            self.colony.queen.state,
            QueenState::None | QueenState::LayingWorkers
        )
    }

    pub(super) fn cage_queen(&mut self, days: Option<f64>) -> Result {
        succession::cage_queen(self.colony, days.unwrap_or(f64::INFINITY))?;
        Ok(Done::new(match days {
            Some(days) => Saying::new(|words| words.moves.caged_for).plain("days", days),
            None => Saying::new(|words| words.moves.caged),
        }))
    }

    pub(super) fn release_queen(&mut self) -> Result {
        succession::release_queen(self.colony)?;
        Ok(Done::new(Saying::new(|words| words.moves.let_out)))
    }

    pub(super) fn remove_queen(&mut self) -> Result {
        succession::remove_queen(self.colony)?;
        Ok(Done::new(Saying::new(|words| words.moves.queen_away)))
    }

    pub(super) fn give_queen(&mut self, new: &NewQueen) -> Result {
        succession::requeen(self.colony, new.age_years, new.laying_power, new.caged_days)?;
        Ok(Done::new(Saying::new(|words| words.moves.queen_given)))
    }

    pub(super) fn replace_queen(&mut self, new: &NewQueen) -> Result {
        succession::remove_queen(self.colony)?;
        self.give_queen(new)?;
        Ok(Done::new(Saying::new(|words| words.moves.queen_replaced)))
    }

    pub(super) fn give_queen_cell(&mut self) -> Result {
        succession::give_queen_cell(self.colony, &self.parameters.succession)?;
        Ok(Done::new(Saying::new(|words| words.moves.queen_cell_given)))
    }

    pub(super) fn remove_queen_cells(&mut self) -> Result {
        let p = &self.parameters.succession;
        let there = &self.colony.succession;
        if there.cups + there.charged(p) + there.capped(p) < 0.5 {
            return Err(Saying::new(|words| words.refusals.no_queen_cells));
        }
        let gone = succession::remove_queen_cells(self.colony, p);
        Ok(Done::new(
            Saying::new(|words| words.moves.queen_cells_broken)
                .grouped("cups", gone.cups)
                .grouped("charged", gone.charged)
                .grouped("capped", gone.capped),
        )
        .with("cups", gone.cups)
        .with("charged_queen_cells", gone.charged)
        .with("capped_queen_cells", gone.capped))
    }

    pub(super) fn let_swarm(&mut self) -> Result {
        succession::force_swarm(self.colony, &self.parameters.succession)?;
        Ok(Done::new(Saying::new(|words| words.moves.made_to_swarm)))
    }

    /// The risk that a treatment puts on the queen. The mean season has no part of a queen to lose: she stays.
    /// What a treatment does to the queen, at the end of the day's work.
    pub fn risk_of_queen(&mut self, risk: f64, reports: &mut Vec<Report>) {
        if risk <= 0.0 || !self.has_queen() {
            return;
        }
        if self.draw.how_many(Topic::Queen, 1.0, risk) >= 1.0
            && succession::remove_queen(self.colony).is_ok()
        {
            let done = Done::new(Saying::new(|words| words.moves.lost_in_treatment));
            reports.push(report(None, Ok(done)));
        }
    }
}
