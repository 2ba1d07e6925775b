//! What the story can say, read off a season: turning points, runs of one brake, food left.

use jiff::civil::Date;

use crate::agenda;
use crate::calendar::plus_days;
use crate::math::most;
use crate::observe::DayRecord;
use crate::queen::{Brake, QueenState};
use crate::scenario::BoxSize;
use crate::season::{Event, Season};
use crate::words::Saying;

/// How many days back the story looks for reasons.
const LOOK_BACK: usize = 7;
/// How many days ahead the story looks for trouble.
const LOOK_AHEAD: usize = 60;
/// A package or swarm turns within this many days; a later trough is another story.
const TURNS_WITHIN: usize = 90;
/// Fewest cells of brood that are seen on a comb: a patch of two fingers' breadth.
const A_PATCH: f64 = 50.0;
/// A queen who lays fewer eggs a day, with nothing that holds her back, rests or is about to.
const FEW_EGGS: f64 = 50.0;
/// Share of her best rate under which the time of the year lets a queen lay little.
const LITTLE: f64 = 0.5;
/// Stores that are short by less, kg, last.
const HARDLY_SHORT_KG: f64 = 0.05;
/// How many weeks ahead mites are told.
const MITES_AHEAD_WEEKS: usize = 3;
/// A count of mites that changes by less, as a share, is told as the same.
const AS_MANY: f64 = 0.1;

/// What sets the pace of laying on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    /// Something holds the queen back.
    Held(Brake),
    /// Nothing does, and she hardly lays.
    Rest,
    /// Nothing does, and for the time of the year she lays little.
    Season,
    /// Nothing does.
    Free,
}

/// Where a count of mites on bees goes, and what moves it most.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Trend {
    Same,
    More(Moved),
    Fewer(Moved),
}

/// What moves a count of mites on 100 bees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Moved {
    /// There are more mites or fewer, in cells and on bees.
    Mites,
    /// More of them are on bees or fewer, as brood dwindles or spreads.
    Brood,
    /// There are fewer bees or more.
    Bees,
    /// Nothing that the numbers tell.
    Unknown,
}

/// The cold part of a year: the days from which and up to which bees keep to their cluster.
#[derive(Debug, Clone, Copy)]
struct Winter {
    begins: usize,
    /// As far as the season goes.
    ends: usize,
}

/// For how long stores last, days.
#[derive(Debug, Clone, Copy)]
pub(super) struct FoodFor {
    pub(super) days: f64,
    /// Whether the season goes on for so long.
    pub(super) is_known: bool,
}

/// Stores for winter.
#[derive(Debug, Clone, Copy)]
pub(super) struct WinterStores {
    /// The day that counts: the first of winter, or today.
    pub(super) on: usize,
    /// Stores on that day, kg.
    pub(super) kg: f64,
    pub(super) last: Last,
}

/// Whether stores last until spring.
#[derive(Debug, Clone, Copy)]
pub(super) enum Last {
    /// They do, as far as is known.
    Enough,
    /// So much less than they need until spring, kg.
    Short(f64),
    /// So much less than lists of jobs feed a colony to, kg, and whether this season's own winter is known to leave enough of it.
    UnderAdvice(f64, bool),
}

/// A season looked at from one of its days (`today`, an index into the days).
#[derive(Debug, Clone, Copy)]
pub(super) struct Facts<'a> {
    season: &'a Season,
    pub(super) today: usize,
}

impl<'a> Facts<'a> {
    pub(super) fn new(season: &'a Season, today: usize) -> Option<Self> {
        (today < season.days.len()).then_some(Self { season, today })
    }

    pub(super) fn day(&self) -> &'a DayRecord {
        &self.season.days[self.today]
    }

    pub(super) fn days(&self) -> &'a [DayRecord] {
        &self.season.days
    }

    pub(super) fn at(&self, index: usize) -> &'a DayRecord {
        &self.season.days[index]
    }

    pub(super) fn date(&self, index: usize) -> Date {
        // A season has far fewer days than an i32 holds.
        plus_days(self.season.first, index as i32)
    }

    pub(super) fn last(&self) -> usize {
        self.season.days.len() - 1
    }

    /// Whether dates need their year.
    pub(super) fn over_years(&self) -> bool {
        self.season.first.year() != self.date(self.last()).year()
    }

    /// The last week up to today.
    pub(super) fn week(&self) -> &'a [DayRecord] {
        &self.season.days[(self.today + 1).saturating_sub(LOOK_BACK)..=self.today]
    }

    /// First day without bees.
    pub(super) fn lost(&self) -> Option<usize> {
        self.days().iter().position(|day| day.adult_bees < 1.0)
    }

    /// The day, within sight of today, on which the colony is lost.
    pub(super) fn lost_ahead(&self) -> Option<usize> {
        self.lost()
            .filter(|&lost| lost > self.today && lost <= self.today + LOOK_AHEAD)
    }

    /// The day, within sight of today, from which the colony starves.
    pub(super) fn hungry_ahead(&self) -> Option<usize> {
        if self.hungry(self.today) {
            return None;
        }
        let end = (self.today + LOOK_AHEAD).min(self.last());
        (self.today + 1..=end).find(|&index| self.hungry(index))
    }

    /// Whether the colony starves, as the list of events has it: a package that lives on what it carries is not hungry,
    /// with or without comb.
    pub(super) fn hungry(&self, index: usize) -> bool {
        self.at(index).starving
    }

    /// What sets the pace of laying on a day.
    pub(super) fn pace(&self, index: usize) -> Pace {
        let day = self.at(index);
        if day.brake != Brake::HerRate {
            Pace::Held(day.brake)
        } else if day.eggs_laid < FEW_EGGS {
            Pace::Rest
        } else if self.season.conditions[index].laying_season < LITTLE {
            Pace::Season
        } else {
            Pace::Free
        }
    }

    /// Since when the pace has been today's on every day.
    pub(super) fn pace_since(&self) -> usize {
        let pace = self.pace(self.today);
        let earlier = (0..self.today).rev().find(|&day| self.pace(day) != pace);
        earlier.map_or(0, |index| index + 1)
    }

    /// On how many days of the last week the pace was today's.
    pub(super) fn pace_in_week(&self) -> usize {
        let pace = self.pace(self.today);
        let from = self.today + 1 - self.week().len();
        (from..=self.today)
            .filter(|&day| self.pace(day) == pace)
            .count()
    }

    /// Whether this evening's queen is not the one that the day's laying speaks of: she left, was taken or caged, or is new.
    pub(super) fn another_queen(&self) -> bool {
        let day = self.day();
        match day.brake {
            Brake::Caged => false,
            Brake::NoQueen => day.queen == QueenState::Laying,
            _ => !matches!(day.queen, QueenState::Laying | QueenState::DroneLayer),
        }
    }

    pub(super) fn bare_start(&self) -> bool {
        let first = self.at(0);
        first.capped_worker < 1.0 && first.open_larvae < 1.0
    }

    /// The day on which the first workers of this queen emerge, for a colony that began without brood.
    pub(super) fn first_emergence(&self) -> Option<usize> {
        self.days().iter().position(|day| day.emerged >= 1.0)
    }

    /// The turning point of a colony that first dwindles and then grows.
    pub(super) fn low_point(&self) -> Option<usize> {
        let days = &self.days()[..=self.last().min(TURNS_WITHIN)];
        let (low, lowest) = days
            .iter()
            .enumerate()
            .min_by(|(_, a), (_, b)| a.adult_bees.total_cmp(&b.adult_bees))?;
        let falls = lowest.adult_bees < 0.97 * days[0].adult_bees;
        let rises = self.days()[low..]
            .iter()
            .any(|day| day.adult_bees > 1.03 * lowest.adult_bees);
        (falls && rises && lowest.adult_bees >= 1.0).then_some(low)
    }

    /// The first day after the low point with as many bees as on the first day.
    pub(super) fn back_to_start(&self) -> Option<usize> {
        let low = self.low_point()?;
        let start = self.at(0).adult_bees;
        (low..=self.last()).find(|&index| self.at(index).adult_bees >= start)
    }

    /// The day with the most bees between two days.
    pub(super) fn most_bees(&self, from: usize, to: usize) -> Option<usize> {
        (from..=to.min(self.last()))
            .max_by(|&a, &b| self.at(a).adult_bees.total_cmp(&self.at(b).adult_bees))
    }

    /// The day with the most bees between today and the low point, where they rise first.
    pub(super) fn rise_before(&self, low: usize) -> Option<usize> {
        self.most_bees(self.today, low)
            .filter(|&most| self.at(most).adult_bees > 1.03 * self.day().adult_bees)
    }

    /// The next peak: the day with the most bees within the next months, where it is a turning point.
    pub(super) fn peak_ahead(&self) -> Option<usize> {
        let end = (self.today + 2 * LOOK_AHEAD).min(self.last());
        let peak = self.most_bees(self.today, end)?;
        (peak > self.today + LOOK_BACK
            && peak < end
            && self.at(peak).adult_bees > 1.05 * self.day().adult_bees)
            .then_some(peak)
    }

    /// Whether there is worker brood on a day, be it a single cell.
    pub(super) fn has_brood(day: &DayRecord) -> bool {
        day.frames_of_brood >= 0.05 || worker_brood(day) >= 1.0
    }

    /// Whether worker brood is seen at a glance.
    pub(super) fn has_patch(day: &DayRecord) -> bool {
        day.frames_of_brood >= 0.05 || worker_brood(day) >= A_PATCH
    }

    /// Whether drone brood is seen on a day.
    pub(super) fn has_drone_brood(day: &DayRecord) -> bool {
        day.drone_brood >= A_PATCH
    }

    /// The day, after today and up to another one, on which bees leave all at once, where they hold their number until then.
    pub(super) fn leave_before(&self, low: usize) -> Option<usize> {
        let bees = |index: usize| self.at(index).adult_bees;
        (self.today + 1..=low)
            .find(|&index| bees(index) < 0.9 * bees(index - 1))
            .filter(|&index| bees(index - 1) > 0.97 * bees(self.today))
    }

    /// What takes bees out of the hive on a day: a swarm, or else a move.
    pub(super) fn what_left(&self, index: usize) -> Option<&'a Saying> {
        self.event(index, &["swarm", "move"])
    }

    /// What happened today that is worth a sentence: a swarm, or else something about the queen, or else a move.
    pub(super) fn of_today(&self) -> Option<&'a Saying> {
        self.event(self.today, &["swarm", "queen", "move"])
    }

    /// The first event of a day that is of one of these kinds, the most telling kind first.
    fn event(&self, index: usize, kinds: &[&str]) -> Option<&'a Saying> {
        let of_day = |event: &&Event| event.day as usize == index + 1;
        kinds
            .iter()
            .find_map(|kind| {
                let mut events = self.season.events.iter().filter(of_day);
                events.find(|event| event.kind == *kind)
            })
            .map(|event| &event.text)
    }

    /// The next day with brood, while there is none.
    pub(super) fn brood_ahead(&self) -> Option<usize> {
        let none = |day: &DayRecord| !Self::has_brood(day);
        if !none(self.day()) {
            return None;
        }
        (self.today + 1..=self.last()).find(|&index| !none(self.at(index)))
    }

    /// The day on which the queen is out of her cage.
    pub(super) fn queen_out(&self) -> Option<usize> {
        (self.today..=self.last()).find(|&index| self.at(index).queen != QueenState::Caged)
    }

    /// For how many days the stores last if nothing comes in: as the colony eats on the days to come, and not longer than at
    /// what it ate in the last week.
    pub(super) fn food_for(&self) -> Option<FoodFor> {
        let eaten = |days: &[DayRecord]| mean(days, |day| day.honey_eaten_kg);
        let (stores, lately) = (stores_kg(self.day()), eaten(self.week()));
        if lately <= 1e-6 {
            return None;
        }
        let coming = &self.days()[self.today + 1..];
        let mut left = stores;
        let empty = coming.iter().position(|record| {
            left -= record.honey_eaten_kg;
            left <= 0.0
        });
        // From the last day of the season on as in its last week.
        let last = &coming[coming.len().saturating_sub(LOOK_BACK)..];
        let days = match empty {
            Some(day) => (day + 1) as f64,
            None => coming.len() as f64 + left / most(eaten(last), lately),
        };
        let days = days.min(stores / lately);
        Some(FoodFor {
            days,
            is_known: days <= coming.len() as f64,
        })
    }

    /// The winter of a day in autumn or winter; `None` in spring and summer, where the season has no winter day, and where it
    /// began in winter.
    fn winter(&self) -> Option<Winter> {
        let season = self.season;
        let autumn = |index: usize| agenda::is_autumn(&[&season.conditions[index]]);
        let cold = |index: usize| {
            agenda::is_winter(&[&season.conditions[index]], &season.parameters.agenda)
        };
        // Autumn ends with the shortest day.
        let in_autumn = (0..=self.today).rev().find(|&index| autumn(index))?;
        let first = (0..in_autumn)
            .rev()
            .find(|&index| !autumn(index))
            .map_or(0, |before| before + 1);
        let begins = (first..=self.last())
            .take_while(|&index| autumn(index))
            .find(|&index| cold(index))?;
        let shortest = (begins..=self.last()).find(|&index| !autumn(index));
        let next = shortest.and_then(|from| (from..=self.last()).find(|&index| autumn(index)));
        let until = next.unwrap_or(self.last() + 1);
        let ends = (begins..until).rev().find(|&index| cold(index))?;
        (self.today <= ends).then_some(Winter { begins, ends })
    }

    /// What is in store for winter, in autumn and winter.
    ///
    /// Where the season has all of the winter, it shows what this colony needs: as in lists of jobs, food for some days on each
    /// day up to spring. The winter to come may be another one: before it begins, and where the season ends in it, the stores
    /// that lists feed a colony to count as well, less what it has eaten of them.
    pub(super) fn winter_stores(&self) -> Option<WinterStores> {
        let Winter { begins, ends } = self.winter()?;
        let p = &self.season.parameters.agenda;
        let on = self.today.max(begins);
        let kg = stores_kg(self.at(on));
        let lacking = |day: &DayRecord| p.food_for * day.honey_eaten_kg - stores_kg(day);
        let missing = self.days()[on..=ends].iter().map(lacking).fold(0.0, most);
        let is_known = ends < self.last();
        let eaten = sum(&self.days()[begins..on], |day| day.honey_eaten_kg);
        let under = p.winter_stores_kg - eaten - kg;
        let last = if missing >= HARDLY_SHORT_KG {
            Last::Short(missing)
        } else if under >= HARDLY_SHORT_KG && (self.today < begins || !is_known) {
            Last::UnderAdvice(under, is_known)
        } else {
            Last::Enough
        };
        Some(WinterStores { on, kg, last })
    }

    /// Whether, in the weeks of feeding for winter or later in autumn, the colony is too small to take its winter stores.
    pub(super) fn too_small_for_winter(&self) -> bool {
        let Some(Winter { begins, .. }) = self.winter() else {
            return false;
        };
        let p = &self.season.parameters;
        let from = begins.saturating_sub(p.agenda.winter_feeding as usize);
        let autumn = agenda::is_autumn(&[&self.season.conditions[self.today]]);
        let feeding = &self.days()[from..begins];
        autumn
            && self.today >= from
            && from < begins
            && stores_kg(self.at(begins)) < p.agenda.winter_stores_kg
            && agenda::too_small_for_winter(
                stores_kg(self.at(from)),
                mean(feeding, |day| day.adult_bees),
                p,
            )
    }

    /// Mites on 100 bees from which to act on a day.
    pub(super) fn mite_mark(&self, index: usize) -> f64 {
        let season = self.season;
        agenda::act_from(&[&season.conditions[index]], &season.parameters.agenda)
    }

    /// Whether there are so many mites that it is time to act.
    pub(super) fn many_mites(&self, index: usize) -> bool {
        self.at(index).mites_per_100_bees >= self.mite_mark(index)
    }

    /// For how many whole weeks mites are told ahead: fewer near the end of the season.
    pub(super) fn weeks_ahead(&self) -> usize {
        MITES_AHEAD_WEEKS.min((self.last() - self.today) / 7)
    }

    /// The first day, from today to some weeks on, with so many mites that it is time to act.
    pub(super) fn over_the_mark(&self) -> Option<usize> {
        (self.today..=self.today + 7 * self.weeks_ahead()).find(|&index| self.many_mites(index))
    }

    /// All mites of a day.
    pub(super) fn all_mites(day: &DayRecord) -> f64 {
        day.mites_on_bees + day.mites_in_cells
    }

    /// Whether brood lies in medium frames, by the lowest box at the end: it is counted by deep ones.
    pub(super) fn brood_in_mediums(&self) -> bool {
        let lowest = self.season.colony.frames.boxes.first();
        lowest.is_some_and(|lowest| lowest.size == BoxSize::Medium)
    }

    /// Where the count of mites on 100 bees goes up to a day.
    ///
    /// The count is all mites, times the share of them on bees, by the bees: what of these changes most makes it go there.
    pub(super) fn mite_trend(&self, later: usize) -> Trend {
        let all = Self::all_mites;
        let cells = |day: &DayRecord| day.capped_worker + day.drone_brood;
        let (now, then) = (self.day(), self.at(later));
        let (count, next) = (now.mites_per_100_bees, then.mites_per_100_bees);
        if (next - count).abs() <= AS_MANY * count {
            return Trend::Same;
        }
        let more = next > count;
        let grows = |from: f64, to: f64| {
            let by = if from > 0.0 { to / from } else { 1.0 };
            if more { by } else { 1.0 / most(by, 1e-9) }
        };
        let on_bees = |day: &DayRecord| day.mites_on_bees / most(all(day), 1e-9);
        let causes = [
            (Moved::Mites, grows(all(now), all(then))),
            (Moved::Brood, grows(on_bees(now), on_bees(then))),
            (Moved::Bees, grows(then.adult_bees, now.adult_bees)),
        ];
        let (cause, _) = causes
            .into_iter()
            .max_by(|(_, a), (_, b)| a.total_cmp(b))
            .expect("there are three");
        // Mites can leave cells or enter them while brood stays as it is.
        let cause = match cause {
            Moved::Brood if (cells(then) < cells(now)) != more => Moved::Unknown,
            cause => cause,
        };
        if more {
            Trend::More(cause)
        } else {
            Trend::Fewer(cause)
        }
    }

    /// Share of the drawn comb that honey and syrup take.
    pub(super) fn share_of_stores(&self) -> f64 {
        let day = self.day();
        if day.drawn_cells < 1.0 {
            return 0.0;
        }
        1000.0 * stores_kg(day) / self.season.parameters.stores.honey_per_cell_g / day.drawn_cells
    }
}

fn worker_brood(day: &DayRecord) -> f64 {
    day.eggs + day.open_larvae + day.capped_worker
}

/// Honey and what is being ripened, kg.
pub(super) fn stores_kg(day: &DayRecord) -> f64 {
    day.honey_kg + day.unripe_kg
}

/// Sum of a column over some days.
pub(super) fn sum(days: &[DayRecord], column: impl Fn(&DayRecord) -> f64) -> f64 {
    days.iter().map(column).sum()
}

/// Mean of a column over some days.
pub(super) fn mean(days: &[DayRecord], column: impl Fn(&DayRecord) -> f64) -> f64 {
    sum(days, column) / days.len().max(1) as f64
}
