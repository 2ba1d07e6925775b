//! Invented visits, to practise on and to test the verdict with: a colony of the model is drawn, a
//! fault planted in it if wanted, and visited with all the errors that a visitor makes.

use std::str::FromStr;

use serde::Serialize;

use super::{Candidate, Cause, Hive};
use crate::Error;
use crate::calendar::{CalendarDate, plus_days};
use crate::ensemble::{Luck, Member, Peers};
use crate::filter::Model;
use crate::priors::Unknown;
use crate::rng::{Topic, stream};
use crate::visits::{FULL_SHEET, Shown, SyrupTaken, Visit, seen_by_chance};

/// Sets the streams of observation errors apart from those of members.
const EYES: u32 = 0xC2B2_AE35;

/// Most lucks that are tried to find one in which a swarm leaves.
const MOST_LUCKS: u32 = 4000;

/// A fault to plant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fault {
    /// None at all: a sound colony.
    Nothing,
    /// A package without a queen.
    Queenless,
    /// A poor queen.
    Queen,
    /// Mites that nobody knows of.
    Mites,
    /// Forage and feed that do not reach the colony.
    Hunger,
    /// A swarm leaves between the first visit and the last.
    Swarm,
}

impl Fault {
    /// Every fault, with its name.
    pub const ALL: [(Self, &str); 6] = [
        (Self::Nothing, "nothing"),
        (Self::Queenless, "queenless"),
        (Self::Queen, "queen"),
        (Self::Mites, "mites"),
        (Self::Hunger, "hunger"),
        (Self::Swarm, "swarm"),
    ];

    /// The cause that a verdict should name.
    pub fn cause(self) -> Option<Cause> {
        match self {
            Self::Nothing => None,
            Self::Queenless => Some(Cause::NoQueen),
            Self::Queen => Some(Cause::Queen),
            Self::Mites => Some(Cause::Mites),
            Self::Hunger => Some(Cause::Food),
            Self::Swarm => Some(Cause::Losses),
        }
    }
}

impl FromStr for Fault {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let known = Self::ALL.iter().find(|(_, name)| *name == text);
        known.map(|(fault, _)| *fault).ok_or_else(|| {
            let names: Vec<&str> = Self::ALL.iter().map(|(_, name)| *name).collect();
            format!("expected one of {}, got \"{text}\"", names.join(", "))
        })
    }
}

/// Empty sheets for visits on days of the season: everything is to be looked at, syrup where the
/// scenario feeds, a wash at every visit for which `wash` says so.
pub fn sheets(
    peers: &Peers,
    days: &[usize],
    feeds: bool,
    wash: impl Fn(usize) -> bool,
) -> Vec<Visit> {
    days.iter()
        .enumerate()
        .map(|(place, &day)| {
            let mut sheet = FULL_SHEET;
            sheet.date = CalendarDate(plus_days(peers.season().first, day as i32));
            sheet.frames_of_bees = vec![0.0];
            sheet.frames_of_brood = vec![0.0];
            sheet.frames_drawn = vec![0.0];
            if !wash(place) {
                sheet.wash = None;
            }
            sheet.syrup_taken = sheet.syrup_taken.filter(|_: &SyrupTaken| feeds);
            sheet
        })
        .collect()
}

/// Colony number `number` of the peers, perhaps with a fault, and what would be written down of it on `sheets`.
///
/// # Errors
/// A swarm is asked for, and in no luck that was tried does one leave between the first and the last
/// sheet.
pub fn rehearse(
    peers: &Peers,
    sheets: &[Visit],
    number: u32,
    fault: Option<Fault>,
) -> Result<(Candidate, Vec<Visit>), Error> {
    let hive = Hive::new(peers, sheets);
    let member = planted(peers, &hive, number, fault)?;
    let mut colony = Candidate {
        member,
        shown: Vec::with_capacity(sheets.len()),
    };
    let p = peers.season().parameters.visits;
    let mut visits: Vec<Visit> = Vec::with_capacity(sheets.len());
    for (step, sheet) in sheets.iter().enumerate() {
        hive.advance(&mut colony, step)?;
        let mut eyes = stream(peers.seed() ^ EYES, number, Topic::Luck, step as u32);
        let (now, before): (&Shown, &[Shown]) = (&colony.shown[step], &colony.shown[..step]);
        visits.push(seen_by_chance(sheet, &visits, now, before, &p, &mut eyes));
    }
    Ok((colony, visits))
}

/// A colony on its first morning, its fault in the middle of the fault's range.
fn planted(peers: &Peers, hive: &Hive, number: u32, fault: Option<Fault>) -> Result<Member, Error> {
    let drawn = peers.member(number)?;
    let Some(fault) = fault else {
        return Ok(drawn);
    };
    let priors = peers.season().parameters.priors;
    let mut unknowns = drawn.unknowns;
    // No other fault than the planted one.
    for unknown in Unknown::ALL {
        let z = &mut unknowns[unknown as usize];
        while unknown.is_faulty(*z, &priors) {
            *z *= -0.5;
        }
    }
    let middle = |unknown: Unknown| unknown.middle_of_fault(&priors);
    match fault {
        Fault::Nothing => {}
        Fault::Queenless => {
            let Some(dead) = Unknown::Queen.middle_of_nothing(&priors) else {
                return Err(Error::scenario("", "only a package starts without a queen"));
            };
            unknowns[Unknown::Queen as usize] = dead;
        }
        Fault::Queen => unknowns[Unknown::Queen as usize] = middle(Unknown::Queen),
        Fault::Mites => unknowns[Unknown::Mites as usize] = middle(Unknown::Mites),
        Fault::Hunger => {
            unknowns[Unknown::Forage as usize] = middle(Unknown::Forage);
            unknowns[Unknown::Feed as usize] = middle(Unknown::Feed);
        }
        Fault::Swarm => {
            let (first, last) = (hive.days[0], hive.days[hive.days.len() - 1]);
            for luck in 0..MOST_LUCKS {
                let luck = Luck::of(number.wrapping_add(luck.wrapping_mul(7919)));
                let mut tried = peers.with(unknowns, luck.clone())?;
                peers.advance(&mut tried, last, |_, _, _, _| {})?;
                if tried
                    .so_far
                    .swarm_day
                    .is_some_and(|day| day >= first && day + 7 <= last)
                {
                    return peers.with(unknowns, luck);
                }
            }
            return Err(Error::scenario(
                "",
                "no swarm leaves between the first visit and a week before the last, however often it is tried",
            ));
        }
    }
    peers.with(unknowns, drawn.luck)
}
