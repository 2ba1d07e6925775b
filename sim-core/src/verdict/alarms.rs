//! What visits found that cannot wait, whatever the colonies of the model that fit them hold: queen cells, empty
//! stores, mites over the mark, a dead hive, a hive that lives where the plan's colonies do not.

use serde::Serialize;

use crate::calendar::{CalendarDate, days_between, plus_days};
use crate::ensemble::{Member, Peers, quantile};
use crate::order;
use crate::scenario::moves::Treat;
use crate::scenario::{Action, FeedKind};
use crate::season::Prepared;
use crate::visits::{Visit, What, at_visit};
use crate::words::{Entry, Language, Saying};
use crate::{Error, Parameters, agenda};

/// Days for which queen cells that were found tell something: a queen is out of hers 16 days after the egg.
const CELLS_TELL: i32 = 16;
/// Days for which stores that were found tell something.
const STORES_TELL: i32 = 7;
/// Days for which mites over the mark call for a treatment.
const MITES_TELL: i32 = 42;
/// Days after its end for which what a treatment killed still falls: some three weeks (from memory).
const FALLS_ON: u32 = 21;
/// Days after a visit in which a plan without living colonies contradicts it.
const BEES_TELL: i32 = 7;
/// Share of the colonies of a plan that are lost, from which a hive that lives contradicts it.
const CONTRADICTED: f64 = 0.75;
/// Bees where nobody counted them: a new package.
const SOME_BEES: f64 = 10_000.0;

/// Something that cannot wait.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Alarm {
    /// When it was found.
    pub date: CalendarDate,
    /// What.
    #[serde(flatten)]
    pub what: Alarming,
    /// In words.
    pub text: Saying,
}

/// What cannot wait.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(tag = "alarm", rename_all = "snake_case")]
pub enum Alarming {
    /// Charged or capped queen cells.
    QueenCells {
        /// With an egg or a larva.
        charged: u32,
        /// Capped.
        capped: u32,
        /// What they mean.
        sign: Sign,
    },
    /// Food for less than some days.
    LowStores {
        /// Stores found, kg.
        found_kg: f64,
        /// Days for which there ought to be food.
        days: f64,
        /// What a colony of that size eats in them, kg.
        aim_kg: f64,
    },
    /// A wash at or over the mark, and no treatment since.
    ManyMites {
        /// Mites found.
        mites: u32,
        /// Bees washed.
        bees: u32,
        /// Mites on 100 bees.
        per_100: f64,
        /// Mites on 100 bees from which to act.
        act_from: f64,
    },
    /// A fall of mites at or over the mark, and no treatment that killed them or came since.
    ManyFallen {
        /// Mites on the board.
        mites: u32,
        /// Days for which it lay.
        days: f64,
        /// Mites in a day.
        a_day: f64,
        /// Mites in a day from which to act.
        act_from: f64,
    },
    /// No bees were found, or no colony of the plan lives.
    Lost {
        /// They were looked for.
        found: bool,
        /// Members that starved.
        starved: usize,
        /// Of so many that were lost.
        of: usize,
        /// Of so many members.
        all: usize,
    },
    /// The hive lives, and most colonies of its plan do not.
    AtOdds {
        /// Lost of 100 colonies of the plan.
        lost: u32,
    },
}

/// What queen cells mean, by what else was seen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sign {
    /// No eggs: the queen is gone.
    Gone,
    /// Capped, with eggs or a queen: a swarm is about to leave.
    Leaving,
    /// None capped.
    Raising,
    /// Nobody looked for eggs or queen.
    Unknown,
}

impl Alarming {
    fn place(self) -> usize {
        match self {
            Self::QueenCells { .. } => 0,
            Self::LowStores { .. } => 1,
            Self::ManyMites { .. } => 2,
            Self::ManyFallen { .. } => 3,
            Self::Lost { .. } => 4,
            Self::AtOdds { .. } => 5,
        }
    }

    /// Whether it calls for a treatment against mites.
    pub fn is_of_mites(self) -> bool {
        matches!(self, Self::ManyMites { .. } | Self::ManyFallen { .. })
    }

    /// In a few words.
    pub fn words(self, language: Language) -> &'static str {
        language.words().alarms.names[self.place()]
    }
}

/// The sayings of two entries, parted by a blank.
fn then(said: Saying, entry: Entry) -> Saying {
    let blank = said.and(|words| words.forms.as_it_is).text("text", " ");
    blank.and(entry)
}

/// "On 10 May 12 capped queen cells were found."
pub(crate) fn cells_found(date: CalendarDate, charged: u32, capped: u32) -> Saying {
    let one = |name: &'static str, said: Saying, kind: usize, count: u32| {
        if kind == 0 {
            said.counted(name, |words| words.alarms.cells_charged, count)
        } else {
            said.counted(name, |words| words.alarms.cells_capped, count)
        }
    };
    let alone = || Saying::new(|words| words.forms.as_it_is);
    let cells = match (charged, capped) {
        (_, 0) => one("text", alone(), 0, charged),
        (0, _) => one("text", alone(), 1, capped),
        _ => {
            let both = Saying::new(|words| words.alarms.cells_both);
            one("charged", one("capped", both, 1, capped), 0, charged)
        }
    };
    Saying::new(|words| words.alarms.cells_found)
        .day("date", date)
        .said("cells", cells)
}

impl Alarm {
    fn new(date: CalendarDate, what: Alarming) -> Self {
        let text = match what {
            Alarming::QueenCells {
                charged,
                capped,
                sign,
            } => {
                let place = sign as usize;
                let mean = |words: &'static crate::words::Words| words.forms.as_it_is;
                let said = then(cells_found(date, charged, capped), mean);
                let said = said.choice("text", |words| &words.alarms.cells_mean, place);
                let said = then(said, |words| words.alarms.cells_tell);
                then(said, mean).choice("text", |words| &words.alarms.cells_do, place)
            }
            Alarming::LowStores {
                found_kg,
                days,
                aim_kg,
            } => {
                let said = if found_kg < 0.05 {
                    Saying::new(|words| words.alarms.no_stores)
                } else {
                    Saying::new(|words| words.alarms.low_stores).grams("found", 1000.0 * found_kg)
                };
                said.day("date", date)
                    .grams("aim", 1000.0 * aim_kg)
                    .plain("days", days)
            }
            Alarming::ManyMites {
                mites,
                bees,
                per_100,
                act_from,
            } => Saying::new(|words| words.alarms.mites)
                .day("date", date)
                .plain("mites", mites)
                .plain("bees", bees)
                .decimal("share", per_100, 1)
                .plain("act_from", act_from),
            Alarming::ManyFallen {
                mites,
                days,
                a_day,
                act_from,
            } => Saying::new(|words| words.alarms.fallen)
                .day("date", date)
                .grouped("mites", f64::from(mites))
                .counted("days", |words| words.forms.days, days)
                .grouped("a_day", a_day)
                .plain("act_from", act_from),
            Alarming::Lost {
                found,
                starved,
                of,
                all,
            } => {
                let said = if found {
                    Saying::new(|words| words.alarms.no_bees)
                } else {
                    Saying::new(|words| words.alarms.all_lost).said("lost", counted_of(of, all))
                };
                let said = said.day("date", date);
                if 2 * starved > of {
                    then(said, |words| words.alarms.starved)
                        .said("starved", counted_of(starved, of))
                } else {
                    said
                }
            }
            Alarming::AtOdds { lost } => {
                let said = Saying::new(|words| words.alarms.at_odds)
                    .day("date", date)
                    .plain("lost", lost);
                then(said, |words| words.alarms.at_odds_do)
            }
        };
        Self { date, what, text }
    }
}

/// "830 of 1,000 colonies".
pub(super) fn counted_of(count: usize, of: usize) -> Saying {
    Saying::new(|words| words.agenda.of_colonies)
        .grouped("count", count as f64)
        .grouped("all", of as f64)
}

/// What cannot wait after some visits (in order of date, within the season; can be none) on the morning of day `today`,
/// not before the last of them. `members` are the colonies that fit as they are then, `before` those of the same start and
/// weather before any visit; dead ones too.
///
/// # Errors
/// A day that does not add up: a fault of the program.
pub(crate) fn of(
    peers: &Peers,
    visits: &[Visit],
    (members, before): (&[&Member], &[&Member]),
    today: usize,
) -> Result<Vec<Alarm>, Error> {
    let first = peers.season().first;
    let date = CalendarDate(plus_days(first, today as i32));
    let ago = |visit: &Visit| date.days_since(visit.date);
    let mut alarms = Vec::new();
    if let Some(alarm) = dead_or_at_odds(visits, (members, before), date) {
        alarms.push(alarm);
    }
    let p = &peers.season().parameters;
    let last = |is: fn(&Visit) -> bool| visits.iter().rposition(is);
    let cells = last(|visit| visit.charged_cells.is_some() || visit.capped_cells.is_some());
    if let Some(visit) = cells.map(|place| &visits[place])
        && ago(visit) <= CELLS_TELL
        && let Some(what) = queen_cells(visit)
    {
        alarms.push(Alarm::new(visit.date, what));
    }
    if let Some(place) = visits.len().checked_sub(1)
        && ago(&visits[place]) <= STORES_TELL
    {
        let visit = &visits[place];
        let day = days_between(first, visit.date.0).max(0) as usize;
        let readings = at_visit(visits, place, &p.visits);
        let found = readings.iter().find(|one| one.what == What::Stores);
        let no_bees = alarms
            .iter()
            .any(|alarm| matches!(alarm.what, Alarming::Lost { .. }));
        if let Some(found) = found
            && !no_bees
            && let Some(what) = low_stores(visit, found.value, (peers, day), members)?
        {
            alarms.push(Alarm::new(visit.date, what));
        }
    }
    let washed = last(|visit| visit.wash.is_some());
    let fallen = last(|visit| visit.mite_fall.is_some());
    if let Some(visit) = washed.map(|place| &visits[place])
        && ago(visit) <= MITES_TELL
        && !is_treated(peers, visit.date, today, |_| 0)?
        && let Some(what) = many_mites(visit, peers, p)
    {
        alarms.push(Alarm::new(visit.date, what));
    // A wash of the same visit or a later one tells more than a board.
    } else if let Some(visit) = fallen.filter(|fallen| washed.is_none_or(|washed| washed < *fallen))
        && let visit = &visits[visit]
        && ago(visit) <= MITES_TELL
        && let Some(what) = many_fallen(visit, peers, p)
        && !is_treated(peers, laid_on(visit), today, |treat| {
            treat.days.map_or(treat.with.info().days, u32::from) + FALLS_ON
        })?
    {
        alarms.push(Alarm::new(visit.date, what));
    }
    Ok(alarms)
}

/// Whether the last visit found bees, brood, eggs, a queen or cells of one; `None`: it found none, having looked for bees.
fn lives(visit: &Visit) -> Option<bool> {
    let some = |frames: &[f64]| frames.iter().sum::<f64>() > 0.0;
    if some(&visit.frames_of_bees)
        || some(&visit.frames_of_brood)
        || visit.eggs_seen == Some(true)
        || visit.queen_seen == Some(true)
    {
        return Some(true);
    }
    // Cells can be left over where no bee is.
    let cells = queen_cells(visit).is_some();
    visit.frames_of_bees.is_empty().then_some(cells)
}

fn dead_or_at_odds(
    visits: &[Visit],
    (members, before): (&[&Member], &[&Member]),
    today: CalendarDate,
) -> Option<Alarm> {
    fn lost<'m>(some: &[&'m Member]) -> Vec<&'m Member> {
        let dead = some.iter().filter(|member| !member.walk.colony.alive);
        dead.copied().collect()
    }
    let dead = lost(members);
    // Who starved has nothing left.
    let starved = |member: &Member| {
        member.so_far.hungry_days > 0.0 && member.walk.colony.stores.sugar_g() < 200.0
    };
    let starved = |some: &[&Member]| some.iter().filter(|member| starved(member)).count();
    let alarm = |found: bool, date: CalendarDate| {
        // Why colonies of this plan are lost, those show too that fit no visit.
        let (dead, all) = if dead.is_empty() {
            (lost(before), before.len())
        } else {
            (dead.clone(), members.len())
        };
        let what = Alarming::Lost {
            found,
            starved: starved(&dead),
            of: dead.len(),
            all,
        };
        Alarm::new(date, what)
    };
    let seen = visits.last().map(|visit| (visit, lives(visit)));
    match seen {
        Some((visit, None)) => Some(alarm(true, visit.date)),
        Some((visit, Some(true))) if today.days_since(visit.date) <= BEES_TELL => {
            let some = if before.is_empty() { members } else { before };
            let share = lost(some).len() as f64 / some.len().max(1) as f64;
            let at_odds = share > CONTRADICTED || 2 * dead.len() > members.len();
            let lost = libm::round(100.0 * share) as u32;
            at_odds.then(|| Alarm::new(visit.date, Alarming::AtOdds { lost }))
        }
        _ => (2 * dead.len() > members.len()).then(|| alarm(false, today)),
    }
}

fn queen_cells(visit: &Visit) -> Option<Alarming> {
    let (charged, capped) = (
        visit.charged_cells.unwrap_or(0),
        visit.capped_cells.unwrap_or(0),
    );
    let hers = visit.eggs_seen == Some(true) || visit.queen_seen == Some(true);
    let sign = match (hers, visit.eggs_seen) {
        (false, Some(false)) => Sign::Gone,
        (true, _) if capped > 0 => Sign::Leaving,
        (true, _) => Sign::Raising,
        (false, _) => Sign::Unknown,
    };
    (charged + capped > 0).then_some(Alarming::QueenCells {
        charged,
        capped,
        sign,
    })
}

/// What a colony of the size that was seen eats in a day, kg of honey: bees at their work, larvae, the warmth of brood.
fn eaten_kg(visit: &Visit, p: &Parameters) -> f64 {
    let sum = |frames: &[f64]| (!frames.is_empty()).then(|| frames.iter().sum::<f64>());
    let bees = sum(&visit.frames_of_bees).map_or(SOME_BEES, |frames| frames * p.comb.frame_of_bees);
    let brood = sum(&visit.frames_of_brood).unwrap_or(0.0) * p.comb.brood_frame_cells;
    let food = &p.stores;
    // Larvae eat on six of the 21 days.
    let eaten = bees * (food.adult_g + food.care_g)
        + brood * (food.larva_g * 6.0 / 21.0 + food.brood_heat_g);
    eaten / 1000.0
}

fn low_stores(
    visit: &Visit,
    found_kg: f64,
    (peers, day): (&Peers, usize),
    members: &[&Member],
) -> Result<Option<Alarming>, Error> {
    let p = &peers.season().parameters;
    let days = if agenda::is_winter(&[&peers.season().conditions[day]], &p.agenda) {
        p.agenda.food_for_in_winter
    } else {
        p.agenda.food_for
    };
    let aim_kg = days * eaten_kg(visit, p);
    let mut feeders: Vec<f64> = members
        .iter()
        .map(|member| member.walk.colony.feeder.syrup_g / 1000.0)
        .collect();
    order::numbers(&mut feeders);
    let in_feeder = if feeders.is_empty() {
        0.0
    } else {
        quantile(&feeders, 0.5)
    };
    // What lasts until the plan fills the feeders, and a day more, is enough.
    let food_kg = found_kg + in_feeder;
    let lasts = next_filling(peers.season(), day)?
        .is_some_and(|ahead| food_kg >= (ahead + 1) as f64 * aim_kg / days || ahead == 0);
    Ok((food_kg < aim_kg && !lasts).then_some(Alarming::LowStores {
        found_kg,
        days,
        aim_kg,
    }))
}

/// Days from a day until the plan fills feeders next.
fn next_filling(season: &Prepared, day: usize) -> Result<Option<usize>, Error> {
    let syrup =
        |action: &Action| matches!(action, Action::Feed(feed) if feed.kind != FeedKind::Patty);
    let by_hand = season.moves_of(syrup)?;
    let by_hand = |on: usize| by_hand.iter().any(|(day, _)| *day == on);
    let mut days = day..season.conditions.len();
    let next = days.find(|day| season.fills_feeders(*day) || by_hand(*day));
    Ok(next.map(|next| next - day))
}

/// Whether the plan treats from a date on, until the morning of day `today` or on that day; or has treated before, and that
/// `works` so many days.
fn is_treated(
    peers: &Peers,
    from: CalendarDate,
    today: usize,
    works: impl Fn(&Treat) -> u32,
) -> Result<bool, Error> {
    let from = days_between(peers.season().first, from.0);
    let treats = |action: &Action| matches!(action, Action::Treat(_));
    let given = peers.season().moves_of(treats)?;
    Ok(given.iter().any(|(day, action)| {
        let works = if let Action::Treat(treat) = action {
            works(treat)
        } else {
            0
        };
        *day <= today && *day as i32 + works as i32 >= from
    }))
}

fn many_mites(visit: &Visit, peers: &Peers, p: &Parameters) -> Option<Alarming> {
    let wash = visit.wash?;
    let day = days_between(peers.season().first, visit.date.0).max(0) as usize;
    let act_from = agenda::act_from(&[&peers.season().conditions[day]], &p.agenda);
    let recovery = if wash.sugar {
        p.visits.sugar_recovery
    } else {
        1.0
    };
    let per_100 = 100.0 * f64::from(wash.mites) / f64::from(wash.bees.max(1)) / recovery;
    (per_100 >= act_from).then_some(Alarming::ManyMites {
        mites: wash.mites,
        bees: wash.bees,
        per_100,
        act_from,
    })
}

/// The day on which a board was laid.
fn laid_on(visit: &Visit) -> CalendarDate {
    let days = visit.mite_fall.map_or(0.0, |fall| fall.days);
    CalendarDate(plus_days(visit.date.0, -(libm::ceil(days) as i32)))
}

/// A board says little of the share of bees with mites: the mark of the trade counts what falls, and so does this.
fn many_fallen(visit: &Visit, peers: &Peers, p: &Parameters) -> Option<Alarming> {
    let fall = visit.mite_fall?;
    let day = days_between(peers.season().first, visit.date.0).max(0) as usize;
    let day = [&peers.season().conditions[day]];
    let late = agenda::is_autumn(&day) || agenda::is_winter(&day, &p.agenda);
    let act_from = if late {
        p.agenda.act_on_fall_in_autumn
    } else {
        p.agenda.act_on_fall
    };
    let a_day = f64::from(fall.mites) / fall.days;
    (a_day >= act_from).then_some(Alarming::ManyFallen {
        mites: fall.mites,
        days: fall.days,
        a_day,
        act_from,
    })
}
