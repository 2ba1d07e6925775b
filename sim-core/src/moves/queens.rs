//! The queen: caging, releasing, taking away, giving.

use super::{Done, Hand, Report, Result, report};
use crate::draw::Draw;
use crate::queen::{QueenBee, QueenState};
use crate::rng::Topic;
use crate::scenario::moves::NewQueen;

impl<D: Draw> Hand<'_, D> {
    pub(super) fn has_queen(&self) -> bool {
        matches!(self.colony.queen.state, QueenState::Laying | QueenState::Caged)
    }

    pub(super) fn cage_queen(&mut self, days: Option<f64>) -> Result {
        match self.colony.queen.state {
            QueenState::Laying => {}
            QueenState::Caged => return Err("the queen is in a cage already".to_owned()),
            _ => return Err("there is no laying queen to cage".to_owned()),
        }
        let queen = &mut self.colony.queen;
        queen.state = QueenState::Caged;
        queen.caged_for_d = days.unwrap_or(f64::INFINITY);
        queen.laying_for_d = 0.0;
        Ok(Done::new(match days {
            Some(days) => format!("the queen is caged for {days} days"),
            None => "the queen is caged".to_owned(),
        }))
    }

    pub(super) fn release_queen(&mut self) -> Result {
        if self.colony.queen.state != QueenState::Caged {
            return Err("no queen is in a cage".to_owned());
        }
        self.colony.queen.state = QueenState::Laying;
        self.colony.queen.caged_for_d = 0.0;
        Ok(Done::new("the queen is let out of her cage"))
    }

    pub(super) fn remove_queen(&mut self) -> Result {
        if !self.has_queen() {
            return Err("there is no queen to take away".to_owned());
        }
        self.colony.queen.state = QueenState::None;
        Ok(Done::new("the queen is taken away"))
    }

    pub(super) fn give_queen(&mut self, new: &NewQueen) -> Result {
        if self.has_queen() {
            return Err(
                "a queen is in the hive, and the bees would kill the new one; use replace_queen"
                    .to_owned(),
            );
        }
        self.introduce(new.age_years, new.laying_power, new.caged_days);
        Ok(Done::new("a mated queen is given"))
    }

    pub(super) fn replace_queen(&mut self, new: &NewQueen) -> Result {
        if !self.has_queen() {
            return Err("there is no queen to replace; use give_queen".to_owned());
        }
        self.introduce(new.age_years, new.laying_power, new.caged_days);
        Ok(Done::new("the queen is replaced by a mated queen"))
    }

    pub(super) fn introduce(&mut self, age_years: f64, power: f64, caged_days: f64) {
        let caged = caged_days > 0.0;
        self.colony.queen = QueenBee {
            state: if caged { QueenState::Caged } else { QueenState::Laying },
            age_d: age_years * 365.0,
            caged_for_d: caged_days,
            laying_for_d: 0.0,
            power,
        };
    }

    /// The risk that a treatment puts on the queen. In mean mode there is no part of a queen to lose: she stays.
    pub(super) fn risk_of_queen(&mut self, risk: f64, reports: &mut Vec<Report>) {
        if risk <= 0.0 || !self.has_queen() {
            return;
        }
        if self.draw.how_many(Topic::Queen, 1.0, risk) >= 1.0 {
            self.colony.queen.state = QueenState::None;
            let done = Done::new("the queen is lost in the treatment");
            reports.push(report(None, Ok(done)));
        }
    }
}
