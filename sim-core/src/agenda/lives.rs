//! What each member of the ensemble comes to, night by night, as far as the list needs it.

use crate::Error;
use crate::colony::Colony;
use crate::ensemble::{Hands, Member, Peers};
use crate::queen::QueenState;
use crate::window::is_drone_frame;

/// A colony as it stands on a morning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Morning {
    pub bees: f64,
    pub frames_of_bees: f64,
    pub frames_of_brood: f64,
    pub drawn_frames: f64,
    pub stores_kg: f64,
    /// Sugar taken from feeders since today, kg.
    pub taken_kg: f64,
    /// Stores, and what is in the feeders.
    pub food_kg: f64,
    /// Sugar eaten in a day, as honey: mean of about a week.
    pub eaten_kg: f64,
    pub eggs: f64,
    /// Capped brood of workers and drones, cells.
    pub capped: f64,
    pub mites_per_100: f64,
    pub mites: f64,
    /// Queen cells with an egg, a larva or a pupa.
    pub cells: f64,
    pub laying: bool,
    pub alive: bool,
    /// Share of the highest box for brood that is drawn.
    pub top_drawn: f64,
    /// Share of the hive's frames that bees cover.
    pub covered: f64,
    /// Drones that came out of drone frames since those were put in or emptied.
    pub hatched: f64,
    /// Brood in drone frames, cells.
    pub in_drone_frames: f64,
    /// Whether a drone frame is in the hive.
    pub drone_frame: bool,
    /// Whether a honey super is on.
    pub honey_super: bool,
}

impl Morning {
    fn of(colony: &Colony, member: &Member, eaten_kg: f64) -> Self {
        let (p, stock) = (&member.parameters, &colony.stock);
        let bees = stock.adults.adults();
        let frames = &colony.frames;
        let top = frames
            .boxes
            .iter()
            .rposition(|storey| !storey.honey_super)
            .unwrap_or(0);
        let (drawn, room) = frames
            .frames
            .iter()
            .filter(|frame| frame.in_box == top)
            .fold((0.0, 0.0), |(drawn, room), frame| {
                (drawn + frame.drawn, room + frame.room)
            });
        let frames_of_bees = bees / p.comb.frame_of_bees;
        let is_trap = |index: usize| is_drone_frame(frames.frames[index].kind);
        let traps = colony
            .drone_brood
            .iter()
            .filter(|nest| nest.frame.is_some_and(is_trap));
        Self {
            bees,
            frames_of_bees,
            frames_of_brood: stock.worker_brood() / p.comb.brood_frame_cells,
            drawn_frames: frames.drawn_frames,
            stores_kg: colony.stores.sugar_g() / 1000.0,
            taken_kg: 0.0,
            food_kg: (colony.stores.sugar_g() + colony.feeder.syrup_g) / 1000.0,
            eaten_kg,
            eggs: stock.eggs,
            capped: stock.capped
                + colony
                    .drone_brood
                    .iter()
                    .map(|nest| nest.brood.capped())
                    .sum::<f64>(),
            mites_per_100: 100.0 * colony.mites.on_bees / bees.max(1.0),
            mites: colony.mites.on_bees + stock.mites_in_cells,
            cells: colony.succession.charged(&p.succession)
                + colony.succession.capped(&p.succession),
            laying: colony.queen.state == QueenState::Laying,
            alive: colony.alive,
            top_drawn: if room > 0.0 { drawn / room } else { 1.0 },
            covered: frames_of_bees / (frames.frames.len().max(1)) as f64,
            hatched: traps.clone().map(|nest| nest.emerged).sum(),
            in_drone_frames: traps.map(|nest| nest.brood.all()).sum(),
            drone_frame: frames.frames.iter().any(|frame| is_drone_frame(frame.kind)),
            honey_super: frames.has_honey_super(),
        }
    }
}

/// One member from today on.
#[derive(Debug, Clone)]
pub(super) struct Life {
    /// Every morning, today's first.
    pub mornings: Vec<Morning>,
    /// Days from today on which food was lacking.
    pub hungry: Vec<usize>,
    /// Days from today until a swarm left.
    pub swarm: Option<usize>,
}

impl Life {
    /// The morning so many days from today, or the last there is.
    pub fn on(&self, ahead: usize) -> &Morning {
        &self.mornings[ahead.min(self.mornings.len() - 1)]
    }

    /// The first morning on which something is so.
    pub fn first(&self, is: impl Fn(&Morning) -> bool) -> Option<usize> {
        self.mornings.iter().position(is)
    }
}

/// Lets members live from where they stand, today's morning, to the morning of day `until`.
///
/// # Errors
/// A day that does not add up: a fault of the program.
pub(super) fn of_all<H: Hands>(
    peers: &Peers,
    members: &[Member],
    until: usize,
    hands: &H,
) -> Result<Vec<Life>, Error> {
    let lives = hands.make(members.len(), |place| {
        let start = &members[place];
        let mut member = start.clone();
        let today = member.walk.day;
        let mut life = Life {
            mornings: vec![Morning::of(&start.walk.colony, start, 0.0)],
            hungry: Vec::new(),
            swarm: None,
        };
        let mut eaten = 0.0;
        let fed_before = start.so_far.sugar_fed_kg;
        let (mut hungry, mut swarmed) = (start.so_far.hungry_days, start.so_far.swarmed);
        peers.advance(&mut member, until, |day, colony, outcome, so_far| {
            let eaten_today = outcome.ledger.sugar_eaten_g / 1000.0;
            let pace = 1.0 / (1.0 + (day - today) as f64).min(7.0);
            eaten += pace * (eaten_today - eaten);
            life.mornings.push(Morning {
                taken_kg: so_far.sugar_fed_kg - fed_before,
                ..Morning::of(colony, start, eaten)
            });
            if so_far.hungry_days > hungry {
                life.hungry.push(day - today);
            }
            if so_far.swarmed > swarmed {
                life.swarm.get_or_insert(day - today);
            }
            (hungry, swarmed) = (so_far.hungry_days, so_far.swarmed);
        })?;
        Ok(life)
    });
    lives.into_iter().collect()
}
