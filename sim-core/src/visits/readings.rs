//! What a visit reads, beside what a colony of the model would show.

use rand_pcg::Pcg64Mcg;
use serde::Serialize;

use super::chance::Chance;
use super::{DroneFrame, MiteFall, MiteWash, SyrupTaken, Visit, VisitsParameters};
use crate::ensemble::Member;
use crate::math::most;
use crate::priors::Unknown;
use crate::queen::QueenState;
use crate::syrup::sugar_g_per_litre;
use crate::words::Language;

/// What a colony would show to a visitor in the morning.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Shown {
    /// Adult workers.
    pub adults: f64,
    /// Frames of bees, as this observer sees them.
    pub bees: f64,
    /// Frames of worker brood, as this observer sees them.
    pub brood: f64,
    /// Frames drawn.
    pub drawn: f64,
    /// Honey and nectar, kg.
    pub stores_kg: f64,
    /// Worker eggs.
    pub eggs: f64,
    /// Whether there is a queen to be found.
    pub queen: bool,
    /// Whether there are queen cells with something in them.
    pub charged: bool,
    /// Whether there are capped queen cells.
    pub capped: bool,
    /// How far the drone frame is, where there is one.
    pub drone_frame: Option<DroneFrame>,
    /// Mites on each bee.
    pub mites_per_bee: f64,
    /// Mites that fall in a day.
    pub mite_fall: f64,
    /// Sugar taken from feeders since the start, kg.
    pub sugar_fed_kg: f64,
    /// Bees, brood, comb and stores, kg.
    pub weight_kg: f64,
}

impl Shown {
    /// What a member would show.
    pub fn of(member: &Member) -> Self {
        let (colony, p) = (&member.walk.colony, &member.parameters);
        let stock = &colony.stock;
        let eye = Unknown::Eye.value(member.unknowns[Unknown::Eye as usize], &p.priors);
        let bees = stock.adults.adults();
        let sugar_kg = (colony.stores.honey_g + colony.stores.unripe_g) / 1000.0;
        let (charged, capped) = (
            colony.succession.charged(&p.succession),
            colony.succession.capped(&p.succession),
        );
        Self {
            adults: bees,
            bees: eye * bees / p.comb.frame_of_bees,
            brood: eye * stock.worker_brood() / p.comb.brood_frame_cells,
            drawn: colony.frames.drawn_frames,
            stores_kg: sugar_kg,
            eggs: stock.eggs,
            queen: matches!(
                colony.queen.state,
                QueenState::Laying | QueenState::DroneLayer | QueenState::Caged
            ),
            charged: charged >= 0.5,
            capped: capped >= 0.5,
            drone_frame: drone_frame(member),
            mites_per_bee: colony.mites.on_bees / most(bees, 1.0),
            mite_fall: member.so_far.mite_fall,
            sugar_fed_kg: member.so_far.sugar_fed_kg,
            // A bee is about 0.12 g, a brood cell on the way as much; 11.8 mg of wax a cell.
            weight_kg: sugar_kg
                + colony.stores.pollen_g / 1000.0
                + 0.12e-3 * (bees + stock.larvae + stock.capped)
                + 11.8e-6 * colony.frames.worker_cells,
        }
    }
}

fn drone_frame(member: &Member) -> Option<DroneFrame> {
    let colony = &member.walk.colony;
    let nest = colony
        .drone_brood
        .iter()
        .find(|nest| nest.frame.is_some())?;
    let frame = &colony.frames.frames[nest.frame?];
    let there = |cells: f64| cells >= 20.0;
    Some(if there(nest.emerged) {
        DroneFrame::Hatched
    } else if there(nest.brood.capped()) {
        DroneFrame::Capped
    } else if there(nest.brood.larvae()) {
        DroneFrame::Larvae
    } else if there(nest.brood.eggs()) {
        DroneFrame::Eggs
    } else if frame.drawn >= 0.5 * frame.room {
        DroneFrame::Drawn
    } else {
        DroneFrame::NotDrawn
    })
}

/// What is read.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// Frames of bees.
    FramesOfBees,
    /// Frames of brood.
    FramesOfBrood,
    /// Frames drawn.
    FramesDrawn,
    /// Honey and nectar, kg.
    Stores,
    /// Eggs seen.
    Eggs,
    /// Queen seen.
    Queen,
    /// Queen cells with an egg or a larva found.
    ChargedCells,
    /// Capped queen cells found.
    CappedCells,
    /// The state of the drone frame.
    DroneFrame,
    /// Mites in a wash.
    Wash,
    /// Mites fallen.
    MiteFall,
    /// Sugar in the syrup taken, kg.
    Syrup,
    /// Weight gained since the first weighing, kg.
    Weight,
}

impl What {
    /// In plain words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().verdict.readings[self as usize]
    }

    /// Whether it tells how strong a colony is: eggs, queens, cells, mites and syrup do not.
    pub fn tells_strength(self) -> bool {
        matches!(
            self,
            Self::FramesOfBees
                | Self::FramesOfBrood
                | Self::FramesDrawn
                | Self::Stores
                | Self::Weight
        )
    }
}

/// One thing that was read at a visit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// What.
    pub what: What,
    /// The value: an amount, a count, or 1 for yes and 0 for no.
    pub value: f64,
    /// Bees washed, days of the board; otherwise 1.
    pub of: f64,
    /// The visit from which on it counts (syrup, weight), by its place; `None`: the start.
    pub since: Option<usize>,
    /// A drone frame's state.
    pub frame: Option<DroneFrame>,
    /// Share of the mites that the method finds.
    pub recovery: f64,
}

impl Reading {
    fn plain(what: What, value: f64) -> Self {
        Self {
            what,
            value,
            of: 1.0,
            since: None,
            frame: None,
            recovery: 1.0,
        }
    }

    /// How the reading varies where a colony shows this now, and showed `before` at the visits before.
    fn chance(&self, now: &Shown, before: &[Shown], p: &VisitsParameters) -> Chance {
        let amount = |mean: f64, share: f64, floor: f64, least: f64| Chance::Amount {
            mean,
            error: f64::sqrt(share * share * mean * mean + floor * floor),
            least,
        };
        let earlier = self.since.map(|visit| before[visit]);
        let quarter = 0.125;
        let cells = |there: bool| {
            Chance::Yes(match there {
                true => p.cells_seen,
                false if now.adults >= 1.0 => p.cells_false,
                // Left over in a dead hive, and taken for cells of a colony that lives.
                false => p.cells_false * p.cells_false,
            })
        };
        match self.what {
            What::FramesOfBees => amount(now.bees, p.bees_share, p.bees_least, quarter),
            What::FramesOfBrood => amount(now.brood, p.brood_share, p.brood_least, quarter),
            What::FramesDrawn => amount(now.drawn, p.drawn_share, p.drawn_least, quarter),
            What::Stores => amount(now.stores_kg, p.stores_share, p.stores_least_kg, 0.1),
            What::Eggs => Chance::Yes(
                p.eggs_false + (p.eggs_seen - p.eggs_false) * now.eggs / (now.eggs + p.eggs_half),
            ),
            What::Queen => Chance::Yes(if now.queen {
                p.queen_seen
            } else {
                p.queen_false
            }),
            What::ChargedCells => cells(now.charged),
            What::CappedCells => cells(now.capped),
            What::DroneFrame => {
                let right = self.frame == now.drone_frame;
                // The others share what is left.
                Chance::Yes(if right {
                    p.drone_frame_right
                } else {
                    (1.0 - p.drone_frame_right) / 5.0
                })
            }
            What::Wash => Chance::Among {
                of: self.of,
                share: now.mites_per_bee * self.recovery,
                clumping: p.wash_clumping,
            },
            What::MiteFall => Chance::Count {
                mean: now.mite_fall * self.of,
                spread: p.fall_share,
            },
            What::Syrup => {
                let earlier = earlier.map_or(0.0, |there| there.sugar_fed_kg);
                amount(
                    now.sugar_fed_kg - earlier,
                    p.syrup_share,
                    p.syrup_least_kg,
                    0.05,
                )
            }
            What::Weight => {
                let earlier = earlier.map_or(now.weight_kg, |there| there.weight_kg);
                amount(now.weight_kg - earlier, 0.0, p.weight_kg, f64::NEG_INFINITY)
            }
        }
    }

    /// What the colony would show, errors of reading left out; for sights, their chance.
    pub fn expected(&self, now: &Shown, before: &[Shown], p: &VisitsParameters) -> f64 {
        self.chance(now, before, p).mean()
    }

    /// Logarithm of how likely the reading is.
    pub fn log_likelihood(&self, now: &Shown, before: &[Shown], p: &VisitsParameters) -> f64 {
        self.chance(now, before, p).log_likelihood(self.value, p)
    }

    /// Probability of a smaller reading, and half of that of just this one.
    pub fn below(&self, now: &Shown, before: &[Shown], p: &VisitsParameters) -> f64 {
        self.chance(now, before, p).below(self.value, p)
    }

    fn drawn(
        mut self,
        now: &Shown,
        before: &[Shown],
        p: &VisitsParameters,
        stream: &mut Pcg64Mcg,
    ) -> Self {
        self.value = self.chance(now, before, p).draw(stream, p);
        self
    }
}

/// What a visit reads, item by item; `visits` are the visits up to it, in order of date.
pub fn at_visit(visits: &[Visit], place: usize, p: &VisitsParameters) -> Vec<Reading> {
    let visit = &visits[place];
    let mut readings = Vec::new();
    let mut read = |what: What, value: Option<f64>| {
        readings.extend(value.map(|value| Reading::plain(what, value)));
    };
    let sum = |boxes: &[f64]| (!boxes.is_empty()).then(|| boxes.iter().sum::<f64>());
    let yes = |seen: Option<bool>| seen.map(|seen| f64::from(u8::from(seen)));
    let some = |cells: Option<u32>| cells.map(|cells| f64::from(u8::from(cells > 0)));
    read(What::FramesOfBees, sum(&visit.frames_of_bees));
    read(What::FramesOfBrood, sum(&visit.frames_of_brood));
    read(What::FramesDrawn, sum(&visit.frames_drawn));
    let framed = visit
        .frames_of_stores
        .map(|frames| frames * p.stores_frame_kg);
    read(What::Stores, visit.stores_kg.or(framed));
    read(What::Eggs, yes(visit.eggs_seen));
    read(What::Queen, yes(visit.queen_seen));
    read(What::ChargedCells, some(visit.charged_cells));
    read(What::CappedCells, some(visit.capped_cells));
    if let Some(frame) = visit.drone_frame {
        readings.push(Reading {
            frame: Some(frame),
            ..Reading::plain(What::DroneFrame, 1.0)
        });
    }
    if let Some(MiteWash { mites, bees, sugar }) = visit.wash {
        readings.push(Reading {
            of: f64::from(bees),
            recovery: if sugar { p.sugar_recovery } else { 1.0 },
            ..Reading::plain(What::Wash, f64::from(mites))
        });
    }
    if let Some(MiteFall { mites, days }) = visit.mite_fall {
        readings.push(Reading {
            of: days,
            ..Reading::plain(What::MiteFall, f64::from(mites))
        });
    }
    if let Some(taken) = visit.syrup_taken {
        readings.push(Reading {
            since: since(visits, place, &taken),
            ..Reading::plain(What::Syrup, taken.sugar_kg())
        });
    }
    let mark = visits[..place]
        .iter()
        .position(|before| before.weight_kg.is_some());
    if let (Some(now), Some(mark)) = (visit.weight_kg, mark) {
        let then = visits[mark].weight_kg.unwrap_or(now);
        readings.push(Reading {
            since: Some(mark),
            ..Reading::plain(What::Weight, now - then)
        });
    }
    readings
}

/// The visit since which syrup was taken: the last one on or before the date that is named.
fn since(visits: &[Visit], place: usize, taken: &SyrupTaken) -> Option<usize> {
    match taken.since {
        None => place.checked_sub(1),
        Some(date) => visits[..place].iter().rposition(|visit| visit.date <= date),
    }
}

/// A visit to a colony that shows `now`, with everything looked at that `like` has, and read by chance.
///
/// `visits` are those before it, and `before` what the colony showed at them.
pub fn seen_by_chance(
    like: &Visit,
    visits: &[Visit],
    now: &Shown,
    before: &[Shown],
    p: &VisitsParameters,
    stream: &mut Pcg64Mcg,
) -> Visit {
    let mut all = visits.to_vec();
    all.push(like.clone());
    let place = visits.len();
    let mut visit = like.clone();
    // No jar is filled from fewer bees than go into it.
    visit.wash = visit.wash.filter(|wash| now.adults >= f64::from(wash.bees));
    for reading in at_visit(&all, place, p) {
        let drawn = reading.drawn(now, before, p, stream).value;
        let quarters = libm::round(most(drawn, 0.0) * 4.0) / 4.0;
        let yes = drawn > 0.5;
        match reading.what {
            What::FramesOfBees => visit.frames_of_bees = vec![quarters],
            What::FramesOfBrood => visit.frames_of_brood = vec![quarters],
            What::FramesDrawn => visit.frames_drawn = vec![quarters],
            What::Stores => {
                visit.frames_of_stores = None;
                visit.stores_kg = Some(libm::round(most(drawn, 0.0) * 10.0) / 10.0);
            }
            What::Eggs => visit.eggs_seen = Some(yes),
            What::Queen => visit.queen_seen = Some(yes),
            What::ChargedCells => visit.charged_cells = Some(if yes { 4 } else { 0 }),
            What::CappedCells => visit.capped_cells = Some(if yes { 3 } else { 0 }),
            What::DroneFrame => visit.drone_frame = now.drone_frame,
            What::Wash => {
                visit.wash = visit.wash.map(|wash| MiteWash {
                    mites: drawn as u32,
                    ..wash
                });
            }
            What::MiteFall => {
                visit.mite_fall = visit.mite_fall.map(|fall| MiteFall {
                    mites: drawn as u32,
                    ..fall
                });
            }
            What::Syrup => {
                let litres = drawn / (sugar_g_per_litre(crate::syrup::ONE_TO_ONE) / 1000.0);
                visit.syrup_taken = visit.syrup_taken.map(|taken| SyrupTaken {
                    litres: Some(libm::round(litres * 10.0) / 10.0),
                    jars: None,
                    kind: crate::scenario::FeedKind::OneToOne,
                    ..taken
                });
            }
            What::Weight => {
                let mark = reading.since.and_then(|mark| visits[mark].weight_kg);
                visit.weight_kg = mark.map(|mark| libm::round((mark + drawn) * 10.0) / 10.0);
            }
        }
    }
    visit
}
