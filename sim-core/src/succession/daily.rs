//! One day of queens and swarms.

use super::urge::{Crowd, mating_weather, supersedure_risk, swarm_urge, swarm_weather};
use super::{
    CELL_DAYS, Purpose, SuccessionParameters, Wait, YoungQueen, capped_from, emerges_at, swarm,
};
use crate::colony::Colony;
use crate::draw::Draw;
use crate::forage::Conditions;
use crate::ledger::Ledger;
use crate::math::{least, ramp, smooth_step, unit};
use crate::queen::{QueenBee, QueenState};
use crate::rng::Topic;

/// What the day leaves for the queens.
#[derive(Debug, Clone, Copy)]
pub struct Nightfall<'a> {
    /// Weather and season.
    pub today: &'a Conditions,
    /// How crowded the colony is.
    pub crowd: Crowd,
    /// What is left of the queen's laying power, 0 to 1.
    pub vigour: f64,
    /// Sugar that a bee of a swarm carries, g.
    pub crop_g: f64,
    /// Queens and swarms.
    pub p: &'a SuccessionParameters,
}

/// A day of queen cells, young queens, swarms and the lack of a queen.
pub fn live_a_day<D: Draw>(
    colony: &mut Colony,
    night: &Nightfall<'_>,
    draw: &mut D,
    ledger: &mut Ledger,
) {
    let mut evening = Evening {
        colony,
        night,
        draw,
        ledger,
    };
    evening.young_queen();
    evening.cells_grow();
    evening.swarm();
    evening.prepare();
    evening.begin();
    evening.queenless();
    evening.cups();
    evening.who_is_there();
}

struct Evening<'a, 'b, D: Draw> {
    colony: &'a mut Colony,
    night: &'a Nightfall<'b>,
    draw: &'a mut D,
    ledger: &'a mut Ledger,
}

impl<D: Draw> Evening<'_, '_, D> {
    /// Whether a queen that has mated lives in the hive.
    fn old_queen(&self) -> bool {
        matches!(
            self.colony.queen.state,
            QueenState::Laying | QueenState::Caged | QueenState::DroneLayer
        )
    }

    fn chance(&mut self, chance: f64) -> bool {
        // The mean of a chance under one half is no event.
        self.draw.how_many(Topic::Queen, 1.0, chance) > 0.5
    }

    fn cells_grow(&mut self) {
        let p = self.night.p;
        if self.colony.succession.purpose.is_none() {
            return;
        }
        let old_queen = self.old_queen();
        let ripe_at = emerges_at(p);
        let succession = &mut self.colony.succession;
        succession.cells.copy_within(0..CELL_DAYS - 1, 1);
        succession.cells[0] = 0.0;
        let ripe = succession.cells[ripe_at];
        succession.cells[ripe_at] = 0.0;
        if ripe < 0.5 {
            return;
        }
        if succession.after_swarm {
            // Bees keep the other queens in their cells until the swarm has left.
            succession.cells[ripe_at - 1] += ripe;
            return;
        }
        if succession.young.is_some() {
            succession.clear_cells();
            return;
        }
        if old_queen && succession.purpose != Some(Purpose::Supersedure) {
            // Weather held the swarm back until a young queen was ripe: bees give up.
            succession.clear_cells();
            return;
        }
        succession.young = Some(YoungQueen {
            age_d: 0.0,
            flights: 0.0,
            mated_for_d: None,
        });
        let others = succession.all_cells() + ripe - 1.0;
        if succession.purpose == Some(Purpose::Swarm) && others >= 1.0 {
            let left = smooth_step(
                self.night.crowd.adults,
                p.after_swarm_from_bees,
                p.after_swarm_from_bees,
            );
            if self.chance(p.after_swarm * left) {
                let succession = &mut self.colony.succession;
                succession.after_swarm = true;
                succession.cells[ripe_at - 1] += ripe - 1.0;
                return;
            }
        }
        self.colony.succession.clear_cells();
    }

    fn young_queen(&mut self) {
        let p = self.night.p;
        let Some(mut young) = self.colony.succession.young else {
            return;
        };
        young.age_d += 1.0;
        match &mut young.mated_for_d {
            Some(days) => {
                *days += 1.0;
                if *days + 1.0 >= p.mated_to_laying_d {
                    self.take_over(QueenState::Laying, young.age_d);
                    return;
                }
            }
            None if self.colony.succession.after_swarm && young.age_d > p.mature_d => {
                // Weather kept the after-swarm at home until its queen was ready to mate.
                self.colony.succession.clear_cells();
            }
            None if self.colony.succession.after_swarm => {}
            None if young.age_d >= p.too_old_to_mate_d => {
                self.take_over(QueenState::DroneLayer, young.age_d);
                return;
            }
            None if young.age_d > p.mature_d => {
                let fit = mating_weather(self.night.today, p);
                if self.colony.succession.wait.meets(self.draw, fit) {
                    if self.chance(p.mating_loss) {
                        self.colony.succession.young = None;
                        return;
                    }
                    young.flights += 1.0;
                    if young.flights >= p.mating_days {
                        young.mated_for_d = Some(0.0);
                    }
                }
            }
            None => {}
        }
        self.colony.succession.young = Some(young);
    }

    fn take_over(&mut self, state: QueenState, age_d: f64) {
        self.colony.queen = QueenBee {
            state,
            age_d,
            caged_for_d: 0.0,
            laying_for_d: 0.0,
            power: 1.0,
        };
        self.colony.succession.young = None;
        self.colony.succession.clear_cells();
    }
    /// The swarm leaves in fair weather once a cell is capped.
    fn swarm(&mut self) {
        let p = self.night.p;
        let succession = &mut self.colony.succession;
        if succession.purpose != Some(Purpose::Swarm) {
            return;
        }
        let prime = self.colony.queen.state == QueenState::Laying;
        let virgin = succession.after_swarm && succession.young.is_some();
        let ready = virgin || (prime && succession.capped(p) >= 0.5);
        if !ready {
            return;
        }
        let fit = swarm_weather(self.night.today);
        if !succession.forced && !succession.wait.meets(self.draw, fit) {
            return;
        }
        let share = if prime {
            self.colony.queen.state = QueenState::None;
            p.swarm_share
        } else {
            succession.young = None;
            p.after_swarm_share
        };
        let succession = &mut self.colony.succession;
        succession.forced = false;
        succession.after_swarm = false;
        succession.wait = Wait::default();
        swarm::depart(
            self.colony,
            share,
            self.night.crop_g,
            self.draw,
            self.ledger,
            p,
        );
    }

    /// A colony under way to swarm or to supersede lays eggs in cups, or thinks better of it.
    fn prepare(&mut self) {
        let p = self.night.p;
        let succession = &mut self.colony.succession;
        if self.colony.queen.state != QueenState::Laying || succession.young.is_some() {
            return;
        }
        let wanted = match succession.purpose {
            Some(Purpose::Swarm) => {
                let crowding = self.night.crowd.crowding(p);
                let gone = unit(1.0 - 2.0 * crowding / succession.crowd_at_start);
                if gone > 0.0 && self.chance(p.gives_up * gone) {
                    self.colony.succession.clear_cells();
                    return;
                }
                p.swarm_cells
            }
            Some(Purpose::Supersedure) => p.supersedure_cells,
            _ => return,
        };
        let succession = &mut self.colony.succession;
        // Cells are begun within a few days of each other.
        let first = succession.cells[capped_from(p) / 2..]
            .iter()
            .any(|&cells| cells >= 0.5);
        let missing = wanted - succession.all_cells();
        if !first && missing > 0.0 {
            succession.cells[0] += self.draw.events(Topic::Queen, 0.5 * missing);
        }
    }

    /// Chance decides whether the colony begins to prepare today.
    fn begin(&mut self) {
        let p = self.night.p;
        let queen = &self.colony.queen;
        if queen.state != QueenState::Laying || self.colony.succession.purpose.is_some() {
            return;
        }
        let (today, crowd) = (self.night.today, &self.night.crowd);
        let swarm = p.swarm_rate * swarm_urge(crowd, today, p);
        let supersedure = supersedure_risk(crowd.queen_years, self.night.vigour, today, p);
        let succession = &mut self.colony.succession;
        succession.no_swarm *= 1.0 - swarm;
        succession.no_supersedure *= 1.0 - supersedure;
        // The expected colony stays as it is: the mean of a small chance is never a whole event.
        if self.draw.how_many(Topic::Queen, 1.0, swarm) >= 1.0 {
            succession.purpose = Some(Purpose::Swarm);
            succession.crowd_at_start = crowd.crowding(p);
        } else if self.draw.how_many(Topic::Queen, 1.0, supersedure) >= 1.0 {
            succession.purpose = Some(Purpose::Supersedure);
        }
    }

    /// Without a queen: emergency cells while there are young larvae, laying workers in the end.
    fn queenless(&mut self) {
        let p = self.night.p;
        let old_queen = self.old_queen();
        let colony = &mut *self.colony;
        let succession = &mut colony.succession;
        if old_queen
            || succession.young.is_some()
            || colony.queen.state == QueenState::LayingWorkers
        {
            succession.queenless_d = 0.0;
            succession.hopeless_d = 0.0;
            return;
        }
        let stages = colony.worker_brood.stages;
        if succession.queenless_d >= 1.0 && succession.capped(p) < 0.5 {
            let raised = match succession.purpose {
                None | Some(Purpose::Emergency) => true,
                Some(_) => succession.all_cells() < 0.5,
            };
            if raised {
                self.emergency_cells(stages.egg);
            }
        }
        let colony = &mut *self.colony;
        let open: f64 = colony.worker_brood.cells[..stages.open()].iter().sum();
        let succession = &mut colony.succession;
        succession.queenless_d += 1.0;
        if succession.all_cells() >= 0.5 || open >= 1.0 {
            succession.hopeless_d = 0.0;
            return;
        }
        succession.hopeless_d += 1.0;
        if succession.hopeless_d > p.laying_workers_from_d
            && succession.wait.meets(self.draw, p.laying_workers_rate)
        {
            succession.clear_cells();
            colony.queen.state = QueenState::LayingWorkers;
        }
    }

    /// Some of the larvae under two days old are raised as queens.
    fn emergency_cells(&mut self, hatched: usize) {
        let p = self.night.p;
        let colony = &mut *self.colony;
        let missing = p.emergency_cells - colony.succession.all_cells();
        if missing <= 0.0 {
            return;
        }
        let mut begun = 0.0;
        for age in [hatched + 1, hatched] {
            let wanted = self
                .draw
                .events(Topic::Queen, 0.5 * p.emergency_pace * missing);
            let there = &mut colony.worker_brood.cells[age];
            let raised = least(wanted, *there);
            *there -= raised;
            colony.succession.cells[age] += raised;
            begun += raised;
        }
        self.ledger.raised_as_queens += begun;
        if begun > 0.0 {
            colony.succession.purpose = Some(Purpose::Emergency);
        }
    }

    /// Play cups: many in a strong colony in its season, rebuilt within days.
    fn cups(&mut self) {
        let p = self.night.p;
        let strong = smooth_step(self.night.crowd.adults, 12_000.0, 20_000.0);
        let season = ramp(self.night.today.day_length_h, 11.5, 14.0);
        let cups = &mut self.colony.succession.cups;
        *cups += 0.2 * (p.cups * strong * season - *cups);
    }

    /// The queen's state says who is there when no mated queen is.
    fn who_is_there(&mut self) {
        let colony = &mut *self.colony;
        if awaits_a_queen(colony.queen.state) {
            colony.queen.state = match colony.succession.young {
                None => QueenState::None,
                Some(young) if young.mated_for_d.is_some() => QueenState::Mated,
                Some(_) => QueenState::Virgin,
            };
        }
    }
}

/// Whether the hive holds no queen but a young one that does not lay, if that.
fn awaits_a_queen(state: QueenState) -> bool {
    matches!(
        state,
        QueenState::None | QueenState::Virgin | QueenState::Mated
    )
}
