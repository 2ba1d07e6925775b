//! Plans to be tried, within the limits: each kind of move by itself, and the best of several kinds together.

use serde::{Deserialize, Serialize};

use super::race::Runner;
use crate::agenda::{honey_taken_after, syrup_days};
use crate::calendar::{CalendarDate, plus_days};
use crate::ensemble::Peers;
use crate::order;
use crate::scenario::moves::{At, NewFrame, Syrup, Treat, Which};
use crate::scenario::{Action, BoxSize, Comb, FeedKind, HiveBox, Move};
use crate::syrup::{LITRES_PER_JAR, ONE_TO_ONE, TWO_TO_ONE, sugar_g_per_litre};
use crate::treatments::{SuperRule, TREATMENTS, TreatmentInfo};

/// Longest time between two swaps of drone frames that is tried: a drone grows up in 24 days, and some days go by
/// before the queen lays.
const LONGEST_TURN: usize = 30;
/// Shortest: less leaves hardly a capped cell in the frame.
const SHORTEST_TURN: usize = 12;
/// Most frames of drones in a season.
const MOST_TURNS: usize = 6;
/// Days from today on which a calendar of drone frames may begin.
const BEGIN_WITHIN: usize = 84;
/// Days from today on which anything may be done.
const WITHIN: usize = 210;

/// A kind of moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Family {
    /// A pair of drone frames: one in the hive, the other in the freezer.
    DroneFrames,
    /// A treatment.
    Treatment,
    /// Syrup.
    Feed,
    /// Another box.
    Box,
    /// Queen cells removed at every visit for some weeks.
    QueenCells,
}

impl Family {
    /// Every kind.
    pub const ALL: [Self; 5] = [
        Self::DroneFrames,
        Self::Treatment,
        Self::Feed,
        Self::Box,
        Self::QueenCells,
    ];

    /// Its name on a command line.
    pub fn name(self) -> &'static str {
        match self {
            Self::DroneFrames => "drone-frames",
            Self::Treatment => "treatment",
            Self::Feed => "feed",
            Self::Box => "box",
            Self::QueenCells => "queen-cells",
        }
    }
}

/// What may be done.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    /// Kinds of moves that may be added.
    pub families: Vec<Family>,
    /// Visits in a week, 1 to 7: what is added falls on their days.
    pub visits_per_week: u8,
    /// No treatment, of whatever kind.
    pub no_chemicals: bool,
    /// Quart jars of syrup that may be given, 0 to 200.
    pub jars: f64,
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            families: Family::ALL.to_vec(),
            visits_per_week: 1,
            no_chemicals: false,
            jars: 20.0,
        }
    }
}

/// The days on which something may be done, all as far apart as visits are.
struct Days<'a> {
    peers: &'a Peers,
    today: usize,
    step: usize,
    last: usize,
}

impl Days<'_> {
    fn date(&self, day: usize) -> CalendarDate {
        CalendarDate(plus_days(self.peers.season().first, day as i32))
    }

    /// Days of visits from the next on, up to so many days from today.
    fn until(&self, within: usize) -> impl Iterator<Item = usize> {
        let last = self.last.min(self.today + within);
        (self.today + self.step..=last).step_by(self.step)
    }
}

/// Plans of one kind of moves.
pub(super) fn single(peers: &Peers, today: usize, limits: &Limits) -> Vec<Runner> {
    let days = Days {
        peers,
        today,
        step: 7_usize.div_ceil(usize::from(limits.visits_per_week.clamp(1, 7))),
        last: peers.days() - 1,
    };
    let mut pool = Vec::new();
    for &family in &limits.families {
        let plans = match family {
            Family::DroneFrames => drone_frames(&days),
            Family::Treatment if limits.no_chemicals => Vec::new(),
            Family::Treatment => treatments(&days),
            Family::Feed => feeds(&days, limits.jars),
            Family::Box => boxes(&days),
            Family::QueenCells => queen_cells(&days),
        };
        pool.extend(plans.into_iter().map(|moves| Runner {
            families: vec![family],
            moves,
            lives: Vec::new(),
        }));
    }
    // Of plans that serve alike, the one with fewer visits comes first.
    order::by_key(&mut pool, |runner| visits(&runner.moves).into());
    pool
}

/// Days on which something is done.
fn visits(moves: &[Move]) -> i32 {
    moves
        .iter()
        .map(|step| match (step.every_days, step.date, step.until) {
            (Some(every), Some(from), Some(until)) => 1 + until.days_since(from) / i32::from(every),
            _ => 1,
        })
        .sum()
}

/// A frame in on a day; swapped for its twin again and again; the last one out.
fn drone_frames(days: &Days) -> Vec<Vec<Move>> {
    let mut plans = Vec::new();
    // Where there is room or an undrawn frame; or else instead of the outermost frame of the lowest box.
    let outermost = At {
        in_box: 1,
        place: 1,
    };
    let places = [None, Some(outermost)];
    let turns: Vec<usize> = (1..=LONGEST_TURN / days.step)
        .map(|steps| steps * days.step)
        .filter(|turn| *turn >= SHORTEST_TURN)
        .collect();
    for first in days.until(BEGIN_WITHIN) {
        for &turn in &turns {
            for frames in 1..=MOST_TURNS {
                let last = first + frames * turn;
                if last > days.last.min(days.today + WITHIN) {
                    break;
                }
                for at in places {
                    let frame = NewFrame {
                        comb: Comb::DroneFrame,
                        at,
                        replace: at.is_some(),
                    };
                    let mut moves = vec![Move::on(days.date(first), Action::GiveFrame(frame))];
                    if frames > 1 {
                        moves.push(Move {
                            every_days: Some(turn as u16),
                            until: Some(days.date(last - turn)),
                            ..Move::on(
                                days.date(first + turn),
                                Action::SwapDroneFrames(Which::default()),
                            )
                        });
                    }
                    moves.push(Move::on(
                        days.date(last),
                        Action::TakeDroneFrame(Which::default()),
                    ));
                    plans.push(moves);
                }
            }
        }
    }
    plans
}

/// Every treatment on every second visit; none that has no place beside honey before the plan takes that.
fn treatments(days: &Days) -> Vec<Vec<Move>> {
    let starts: Vec<usize> = days.until(WITHIN).step_by(2).collect();
    let taints = |row: &TreatmentInfo, day: usize| {
        row.supers == SuperRule::Off && honey_taken_after(days.peers, day, row.days).is_some()
    };
    TREATMENTS
        .iter()
        .flat_map(|row| {
            let fit = starts.iter().filter(move |day| !taints(row, **day));
            fit.map(move |&day| {
                vec![Move::on(
                    days.date(day),
                    Action::Treat(Treat {
                        with: row.treatment,
                        days: None,
                        resistance: None,
                    }),
                )]
            })
        })
        .collect()
}

/// A quarter, a half and all of the jars, from every second visit on, filled four times.
fn feeds(days: &Days, jars: f64) -> Vec<Vec<Move>> {
    let mut plans = Vec::new();
    if jars < 1.0 {
        return plans;
    }
    let taken = syrup_days(days.peers);
    for first in days.until(WITHIN).step_by(2) {
        let last = first + 3 * days.step.max(7);
        if last > days.last {
            break;
        }
        // In the cold it is not taken.
        if !taken[first..=last].iter().all(|taken| *taken) {
            continue;
        }
        for kind in [FeedKind::OneToOne, FeedKind::TwoToOne] {
            for part in [0.25, 0.5, 1.0] {
                // The schema's range of a filling.
                let filling = (jars * part / 4.0).clamp(0.25, 50.0);
                plans.push(vec![Move {
                    every_days: Some(days.step.max(7) as u16),
                    until: Some(days.date(last)),
                    ..Move::on(
                        days.date(first),
                        Action::Feed(Syrup {
                            kind,
                            litres: None,
                            jars: Some(filling),
                            feeders: 2,
                        }),
                    )
                }]);
            }
        }
    }
    plans
}

/// A deep box of foundation on each visit.
fn boxes(days: &Days) -> Vec<Vec<Move>> {
    days.until(BEGIN_WITHIN)
        .map(|day| {
            vec![Move::on(
                days.date(day),
                Action::AddBox(HiveBox {
                    size: BoxSize::Deep,
                    frames: 10,
                    comb: Comb::Foundation,
                    contents: Vec::new(),
                    honey_super: false,
                }),
            )]
        })
        .collect()
}

/// Cells broken at each visit, for four, eight or twelve weeks.
fn queen_cells(days: &Days) -> Vec<Vec<Move>> {
    let mut plans = Vec::new();
    for first in days.until(28).step_by(2) {
        for weeks in [4, 8, 12] {
            let last = (first + 7 * weeks).min(days.last);
            plans.push(vec![Move {
                every_days: Some(days.step.min(7) as u16),
                until: Some(days.date(last)),
                ..Move::on(days.date(first), Action::RemoveQueenCells(true))
            }]);
        }
    }
    plans
}

/// The best two of each kind with the best two of each other kind, and one of each of three.
pub(super) fn joined(standing: &[Runner]) -> Vec<Runner> {
    let mut families: Vec<Family> = Vec::new();
    for runner in standing {
        for family in &runner.families {
            if !families.contains(family) {
                families.push(*family);
            }
        }
    }
    let of = |family: Family, count: usize| {
        standing
            .iter()
            .filter(move |runner| runner.families == [family])
            .take(count)
    };
    let join = |parts: &[&Runner]| Runner {
        families: parts
            .iter()
            .flat_map(|part| part.families.clone())
            .collect(),
        moves: parts.iter().flat_map(|part| part.moves.clone()).collect(),
        lives: Vec::new(),
    };
    let mut plans = Vec::new();
    for (place, &one) in families.iter().enumerate() {
        for (next, &other) in families.iter().enumerate().skip(place + 1) {
            for a in of(one, 2) {
                for b in of(other, 2) {
                    plans.push(join(&[a, b]));
                }
            }
            for &third in &families[next + 1..] {
                for (a, (b, c)) in of(one, 1).zip(of(other, 1).zip(of(third, 1))) {
                    plans.push(join(&[a, b, c]));
                }
            }
        }
    }
    order::by_key(&mut plans, |runner| visits(&runner.moves).into());
    plans
}

/// Jars and sugar (kg) of the syrup in some moves.
pub(super) fn syrup(moves: &[Move]) -> (f64, f64) {
    moves
        .iter()
        .filter_map(|step| {
            let syrup = step.feed.as_ref()?;
            let jars = syrup
                .jars
                .or(syrup.litres.map(|litres| litres / LITRES_PER_JAR))?;
            let times = visits(core::slice::from_ref(step));
            let share = if syrup.kind == FeedKind::TwoToOne {
                TWO_TO_ONE
            } else {
                ONE_TO_ONE
            };
            let jars = jars * f64::from(times);
            let sugar_kg = jars * LITRES_PER_JAR * sugar_g_per_litre(share) / 1000.0;
            Some((jars, sugar_kg))
        })
        .fold((0.0, 0.0), |sum, of| (sum.0 + of.0, sum.1 + of.1))
}
