//! A season in words: the sentences of one day, the season at a glance, the week-by-week table.
//!
//! The story says what the numbers of the season say and no more. All wording stands in one
//! catalogue, `story/words.rs`.

mod amounts;
mod facts;
mod overview;
mod reasons;
mod twin;
mod week;
mod window;
mod words;

use jiff::civil::Date;
use serde::Serialize;

pub use amounts::{Units, about, day_and_month, grouped, month_name, short_date, short_weekday};
pub use overview::overview;
pub use twin::{Names, twin};
pub use week::{WeekRow, sparkline, week_table};
pub use window::{LATE, window};
pub use words::{day_in_numbers, week_headings, week_units};

use crate::calendar::days_between;
use crate::queen::Brake;
use crate::season::Season;
use facts::Facts;
use words::fill;

/// What a stretch of the story speaks of, so that a page can set it off and a tap can lead there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Emphasis {
    /// The words between.
    Plain,
    /// The date that the story speaks of.
    Date,
    /// A number of bees.
    Bees,
    /// Brood.
    Brood,
    /// Drawn comb.
    Comb,
    /// Eggs laid.
    Eggs,
    /// What holds the queen back.
    Brake,
    /// Weather.
    Weather,
    /// Stores and feed.
    Food,
    /// Another date, past or to come.
    When,
    /// Something to worry about.
    Caution,
}

/// A stretch of words with one emphasis.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Span {
    /// The words.
    pub text: String,
    /// What they speak of.
    pub kind: Emphasis,
}

impl Span {
    fn new(text: impl Into<String>, kind: Emphasis) -> Self {
        Self {
            text: text.into(),
            kind,
        }
    }
}

/// One sentence.
pub type Sentence = Vec<Span>;

/// The sentences of a story.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Story {
    /// The sentences in order, each a list of spans.
    pub sentences: Vec<Sentence>,
}

impl Story {
    /// The words alone, sentences parted by a space.
    pub fn plain(&self) -> String {
        let sentences: Vec<String> = self
            .sentences
            .iter()
            .map(|spans| spans.iter().map(|span| span.text.as_str()).collect())
            .collect();
        sentences.join(" ")
    }
}

/// The story of one day of a season; `None` when the date lies outside of it.
pub fn on(season: &Season, date: Date, units: Units) -> Option<Story> {
    let today = usize::try_from(days_between(season.first, date)).ok()?;
    let facts = Facts::new(season, today)?;
    let teller = Teller { facts, units };
    let sentences = match facts.lost() {
        Some(lost) if lost <= today => vec![teller.lost(lost)],
        _ => [
            Some(teller.opening()),
            Some(teller.brake()),
            teller.lowest(),
            teller.food(),
            teller.fed(),
            teller.next(),
        ]
        .into_iter()
        .flatten()
        .collect(),
    };
    Some(Story { sentences })
}

/// Makes the sentences of one day.
struct Teller<'a> {
    facts: Facts<'a>,
    units: Units,
}

fn part(text: impl Into<String>, kind: Emphasis) -> Vec<Span> {
    vec![Span::new(text, kind)]
}

impl Teller<'_> {
    fn day_name(&self, index: usize) -> String {
        amounts::day_and_month(self.facts.date(index), self.facts.over_years())
    }

    /// "about 24 May" as a part.
    fn about(&self, index: usize) -> Vec<Span> {
        part(words::about(&self.day_name(index)), Emphasis::When)
    }

    /// "on 24 May" as a part.
    fn on(&self, index: usize) -> Vec<Span> {
        part(words::on(&self.day_name(index)), Emphasis::When)
    }

    fn bees(&self, index: usize) -> Vec<Span> {
        let count = amounts::about(self.facts.at(index).adult_bees);
        part(words::bees(&count), Emphasis::Bees)
    }

    fn brood(&self, index: usize) -> Vec<Span> {
        let day = self.facts.at(index);
        let any = day.eggs + day.open_larvae + day.capped_worker >= 1.0;
        part(
            words::frames_of_brood(amounts::halves(day.frames_of_brood), any),
            Emphasis::Brood,
        )
    }

    fn comb(&self, index: usize) -> Vec<Span> {
        let day = self.facts.at(index);
        part(
            words::frames_drawn(amounts::halves(day.drawn_frames), day.drawn_cells >= 1.0),
            Emphasis::Comb,
        )
    }

    fn stores(&self, index: usize) -> Vec<Span> {
        let kg = facts::stores_kg(self.facts.at(index));
        part(self.units.weight_text(kg), Emphasis::Food)
    }

    fn today(&self) -> Vec<Span> {
        let date = self.facts.date(self.facts.today);
        part(
            amounts::short_weekday(date, self.facts.over_years()),
            Emphasis::Date,
        )
    }

    fn day_number(&self) -> Vec<Span> {
        part((self.facts.today + 1).to_string(), Emphasis::Plain)
    }

    fn opening(&self) -> Sentence {
        let today = self.facts.today;
        fill(
            words::OPENING,
            &[
                ("date", self.today()),
                ("day", self.day_number()),
                ("bees", self.bees(today)),
                ("brood", self.brood(today)),
                ("comb", self.comb(today)),
            ],
        )
    }

    fn lost(&self, lost: usize) -> Sentence {
        fill(
            words::LOST,
            &[
                ("date", self.today()),
                ("day", self.day_number()),
                ("when", self.on(lost)),
            ],
        )
    }

    /// What has held the queen back, since when, and why.
    fn brake(&self) -> Sentence {
        let (brake, since) = self.facts.brake_since();
        let held = part(words::held_back_by(brake), Emphasis::Brake);
        match brake {
            Brake::Caged => match self.facts.queen_out() {
                Some(out) if out == self.facts.today => {
                    fill(words::CAGED_TODAY, &[("brake", held)])
                }
                Some(out) => fill(
                    words::CAGED_UNTIL,
                    &[("brake", held), ("when", self.about(out))],
                ),
                None => fill(words::CAGED, &[("brake", held)]),
            },
            Brake::NoQueen => fill(words::NO_QUEEN, &[("brake", held)]),
            Brake::HerRate => self.free(since),
            _ => {
                let (since, only_today) = self.since(since);
                let why = reasons::why(&self.facts, brake, self.units);
                let template = match (only_today, why.is_empty()) {
                    (true, true) => words::HELD_TODAY,
                    (true, false) => words::HELD_TODAY_WHY,
                    (false, true) => words::HELD,
                    (false, false) => words::HELD_WHY,
                };
                let mut parts = vec![("since", since), ("brake", held)];
                if !why.is_empty() {
                    parts.push(("why", why));
                }
                fill(template, &parts)
            }
        }
    }

    fn free(&self, since: usize) -> Sentence {
        let eggs = self.facts.day().eggs_laid;
        let count = part(words::eggs_a_day(&amounts::about(eggs)), Emphasis::Eggs);
        if eggs < 50.0 {
            return fill(words::RESTS, &[("eggs", count)]);
        }
        let (since, only_today) = self.since(since);
        let template = if only_today {
            words::FREE_TODAY
        } else {
            words::FREE
        };
        fill(template, &[("since", since), ("eggs", count)])
    }

    /// "Since Friday", and whether it is no more than today.
    fn since(&self, since: usize) -> (Vec<Span>, bool) {
        let today = self.facts.today;
        let in_week = self.facts.brake_in_week();
        let week = self.facts.week().len();
        let run = today - since + 1;
        let plain = |text: &str| part(text, Emphasis::Plain);
        let span = if since == 0 && today > 0 {
            plain(words::SINCE_START)
        } else if run < 3 && in_week > run + 1 {
            // A brake that comes and goes is told by how often, not since when.
            fill(
                words::MOST_DAYS,
                &[
                    ("count", plain(&in_week.to_string())),
                    ("days", plain(&week.to_string())),
                ],
            )
        } else if run == 1 {
            return (plain(words::SINCE_TODAY), true);
        } else if run == 2 {
            plain(words::SINCE_YESTERDAY)
        } else {
            let when = if run <= 7 {
                amounts::weekday(self.facts.date(since)).to_owned()
            } else {
                self.day_name(since)
            };
            fill(words::SINCE, &[("when", part(when, Emphasis::When))])
        };
        (span, false)
    }

    /// The low point, while it is near.
    fn lowest(&self) -> Option<Sentence> {
        let low = self.facts.low_point()?;
        let today = self.facts.today;
        let (template, when) = if today.abs_diff(low) <= 3 {
            (words::LOWEST, self.on(low))
        } else if low > today && low - today <= 28 {
            (words::LOWEST_AHEAD, self.about(low))
        } else if low < today && today - low <= 14 {
            (words::LOWEST_PAST, self.on(low))
        } else {
            return None;
        };
        Some(fill(template, &[("bees", self.bees(low)), ("when", when)]))
    }

    fn food(&self) -> Option<Sentence> {
        let today = self.facts.today;
        if self.facts.hungry(today) {
            return Some(fill(
                words::HUNGRY,
                &[("hungry", part(words::HUNGRY_WORD, Emphasis::Caution))],
            ));
        }
        if facts::stores_kg(self.facts.day()) < 0.005 {
            return None;
        }
        let stores = ("stores", self.stores(today));
        let Some(days) = self.facts.days_of_food() else {
            return Some(fill(words::FOOD_ONLY, &[stores]));
        };
        let time = ("time", part(words::time(days), Emphasis::Food));
        Some(if days < 5.0 {
            let caution = part(words::FOOD_SHORT_WORD, Emphasis::Caution);
            fill(words::FOOD_SHORT, &[("caution", caution), stores, time])
        } else {
            fill(words::FOOD, &[stores, time])
        })
    }

    fn fed(&self) -> Option<Sentence> {
        let week = self.facts.week();
        let recent = &week[week.len().saturating_sub(3)..];
        let sugar = facts::mean(recent, |day| day.syrup_kg);
        (self.facts.day().syrup_kg > 0.005 && sugar > 0.005).then(|| {
            let sugar = part(self.units.weight_text(sugar), Emphasis::Food);
            fill(words::FOOD_FED, &[("sugar", sugar)])
        })
    }

    /// What comes next: trouble first, then the next turning point.
    fn next(&self) -> Option<Sentence> {
        let facts = &self.facts;
        let today = facts.today;
        if let Some(lost) = facts.lost_ahead() {
            let word = part(words::NEXT_LOST_WORD, Emphasis::Caution);
            let parts = [("lost", word), ("when", self.about(lost))];
            return Some(fill(words::NEXT_LOST, &parts));
        }
        if let Some(hungry) = facts.hungry_ahead() {
            let word = part(words::NEXT_HUNGRY_WORD, Emphasis::Caution);
            let parts = [("runs_out", word), ("when", self.about(hungry))];
            return Some(fill(words::NEXT_HUNGRY, &parts));
        }
        let young = facts.first_emergence();
        if facts.bare_start()
            && let Some(young) = young
            && young > today
        {
            return Some(fill(words::NEXT_FIRST_BEES, &[("when", self.about(young))]));
        }
        if let (Some(low), Some(back)) = (facts.low_point(), facts.back_to_start())
            && low <= today
            && back > today
        {
            let parts = [("bees", self.bees(0)), ("when", self.about(back))];
            return Some(fill(words::NEXT_BACK, &parts));
        }
        if let Some(brood) = facts.brood_ahead() {
            return Some(fill(words::NEXT_BROOD, &[("when", self.about(brood))]));
        }
        if facts.bare_start() && young.is_none() {
            let end = part(self.day_name(facts.last()), Emphasis::When);
            return Some(fill(words::NEXT_NO_BEES, &[("when", end)]));
        }
        // While numbers still fall, the far peak would raise false hopes.
        if facts.low_point().is_some_and(|low| low > today) {
            return None;
        }
        let peak = facts.peak_ahead()?;
        let parts = [("when", self.about(peak)), ("bees", self.bees(peak))];
        Some(fill(words::NEXT_MOST, &parts))
    }
}
