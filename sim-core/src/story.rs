//! A season in words: the sentences of one day, the season at a glance, the week-by-week table.
//!
//! The story says what the numbers of the season say and no more. All wording stands in the catalogues of
//! `words.rs`.

mod amounts;
mod facts;
mod food;
mod overview;
mod reasons;
mod twin;
mod week;
mod window;

use jiff::civil::Date;
use serde::Serialize;

pub use amounts::{Units, about, day_and_month, grouped};
pub use overview::overview;
pub use twin::{Names, twin};
pub use week::{WeekRow, sparkline, week_headings, week_table, week_units};
pub use window::{LATE, window};

use crate::calendar::days_between;
use crate::queen::{Brake, QueenState};
use crate::season::Season;
use crate::words::{Forms, Saying, Speech, StoryWords, fill, text};
use facts::{Facts, Pace, Trend};

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
    pub(crate) fn new(text: impl Into<String>, kind: Emphasis) -> Self {
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
pub fn on(season: &Season, date: Date, speech: Speech) -> Option<Story> {
    let today = usize::try_from(days_between(season.first, date)).ok()?;
    let facts = Facts::new(season, today)?;
    let teller = Teller::new(facts, speech);
    let sentences = match facts.lost() {
        Some(lost) if lost <= today => vec![teller.lost(lost)],
        _ => [
            Some(teller.opening()),
            Some(teller.brake()),
            teller.of_today(),
            teller.lowest(),
            teller.food(),
            teller.small(),
            teller.fed(),
            teller.mites(),
            teller.mark(),
            teller.next(),
        ]
        .into_iter()
        .flatten()
        .collect(),
    };
    Some(Story { sentences })
}

/// Fewest mites on 100 bees that are worth a sentence: one mite in a wash of 300 bees.
const FEW_MITES: f64 = 0.3;

/// For how many days ahead the low point is told.
const LOW_AHEAD: usize = 28;

/// Makes the sentences of one day.
struct Teller<'a> {
    facts: Facts<'a>,
    speech: Speech,
    words: &'static StoryWords,
}

/// Half frames in words: none, "half a frame …", "1 frame …", "1½ frames …".
fn frames(frames: f64, none: &str, words: &[&str; 3]) -> String {
    let halves = amounts::halves(frames);
    let half = if halves % 2 == 1 { "½" } else { "" };
    let pattern = match halves {
        0 => none,
        1 => words[0],
        2 => words[1],
        _ => words[2],
    };
    text(pattern, &[("frames", &format!("{}{half}", halves / 2))])
}

fn part(text: impl Into<String>, kind: Emphasis) -> Vec<Span> {
    vec![Span::new(text, kind)]
}

impl<'a> Teller<'a> {
    fn new(facts: Facts<'a>, speech: Speech) -> Self {
        let words = &speech.words().story;
        Self {
            facts,
            speech,
            words,
        }
    }

    /// Mites on 100 bees, and how many they are some weeks on: mites in cells are not counted with them, so that the count
    /// goes other ways than all mites do.
    fn mites(&self) -> Option<Sentence> {
        let facts = &self.facts;
        let today = facts.day().mites_per_100_bees;
        if today < FEW_MITES {
            return None;
        }
        let emphasis = if facts.many_mites(facts.today) {
            Emphasis::Caution
        } else {
            Emphasis::Plain
        };
        let weeks = facts.weeks_ahead();
        let later = facts.today + 7 * weeks;
        let pattern = if weeks == 0 || facts.at(later).adult_bees < 1.0 {
            self.words.mites
        } else {
            match facts.mite_trend(later) {
                Trend::Same => self.words.mites_as_many,
                Trend::More(why) => self.words.mites_more[why as usize],
                Trend::Fewer(why) => self.words.mites_fewer[why as usize],
            }
        };
        let count = self.forms().mites.of(&self.decimal(today));
        let then = self.decimal(facts.at(later).mites_per_100_bees);
        let time = self.forms().weeks.number(weeks);
        let all = |index: usize| {
            let mites = Facts::all_mites(facts.at(index));
            part(self.speech.language.about(mites), Emphasis::Plain)
        };
        let parts = [
            ("mites", part(count, emphasis)),
            ("later", part(then, Emphasis::Plain)),
            ("time", part(time, Emphasis::When)),
            ("all", all(facts.today)),
            ("all_later", all(later)),
        ];
        Some(fill(pattern, &parts))
    }

    /// The mark from which mites are treated, where they are over it or come to it within some weeks.
    fn mark(&self) -> Option<Sentence> {
        let facts = &self.facts;
        if facts.day().mites_per_100_bees < FEW_MITES {
            return None;
        }
        let day = facts.over_the_mark()?;
        let mark = self.speech.language.plain(facts.mite_mark(day));
        let mark = ("mark", part(mark, Emphasis::Plain));
        Some(if day == facts.today {
            let over = part(self.words.mites_over_word, Emphasis::Caution);
            fill(self.words.mites_over, &[("over", over), mark])
        } else {
            fill(self.words.mites_mark, &[mark, ("when", self.about(day))])
        })
    }

    fn day_name(&self, index: usize) -> String {
        let date = self.facts.date(index);
        self.speech
            .language
            .day_and_month(date, self.facts.over_years())
    }

    fn forms(&self) -> &'static Forms {
        &self.speech.words().forms
    }

    fn decimal(&self, value: f64) -> String {
        self.speech.language.decimal(value, 1)
    }

    fn time(&self, days: f64) -> String {
        amounts::time(days, self.speech.language)
    }

    /// "about 24 May" as a part.
    fn about(&self, index: usize) -> Vec<Span> {
        self.when(self.forms().about_date, index)
    }

    /// "on 24 May" as a part.
    fn on(&self, index: usize) -> Vec<Span> {
        self.when(self.forms().on_date, index)
    }

    fn when(&self, pattern: &str, index: usize) -> Vec<Span> {
        part(
            text(pattern, &[("date", &self.day_name(index))]),
            Emphasis::When,
        )
    }

    fn bees(&self, index: usize) -> Vec<Span> {
        let count = self.speech.language.about(self.facts.at(index).adult_bees);
        part(self.forms().bees.of(&count), Emphasis::Bees)
    }

    fn brood(&self, index: usize) -> Vec<Span> {
        let day = self.facts.at(index);
        let none = if Facts::has_patch(day) {
            self.words.a_patch_of_brood
        } else if Facts::has_brood(day) && !Facts::has_drone_brood(day) {
            self.words.few_cells_of_brood
        } else if Facts::has_drone_brood(day) {
            self.words.only_drone_brood
        } else {
            self.words.no_brood
        };
        let words = if self.facts.brood_in_mediums() {
            &self.words.deep_frames_of_brood
        } else {
            &self.words.frames_of_brood
        };
        let frames = frames(day.frames_of_brood, none, words);
        part(frames, Emphasis::Brood)
    }

    fn comb(&self, index: usize) -> Vec<Span> {
        let day = self.facts.at(index);
        let none = if day.drawn_cells >= 1.0 {
            self.words.comb_begun
        } else {
            self.words.no_comb
        };
        let frames = frames(day.drawn_frames, none, &self.words.frames_drawn);
        part(frames, Emphasis::Comb)
    }

    fn stores(&self, index: usize) -> Vec<Span> {
        let kg = facts::stores_kg(self.facts.at(index));
        part(self.speech.weight_text(kg), Emphasis::Food)
    }

    fn today(&self) -> Vec<Span> {
        let date = self.facts.date(self.facts.today);
        let years = self.facts.over_years();
        part(
            self.speech.language.short_weekday(date, years),
            Emphasis::Date,
        )
    }

    fn day_number(&self) -> Vec<Span> {
        part((self.facts.today + 1).to_string(), Emphasis::Plain)
    }

    fn opening(&self) -> Sentence {
        let today = self.facts.today;
        fill(
            self.words.opening,
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
            self.words.lost,
            &[
                ("date", self.today()),
                ("day", self.day_number()),
                ("when", self.on(lost)),
            ],
        )
    }

    /// What happened today.
    fn of_today(&self) -> Option<Sentence> {
        if self.facts.another_queen() {
            return None;
        }
        let what = self.facts.of_today()?;
        Some(self.today_was(what, Emphasis::Plain))
    }

    fn today_was(&self, what: &Saying, emphasis: Emphasis) -> Sentence {
        let what = part(what.in_brief().told(self.speech), emphasis);
        fill(self.words.today, &[("what", what)])
    }

    /// What has held the queen back, since when, and why; on a day that ends with another queen or none, what happened.
    fn brake(&self) -> Sentence {
        if self.facts.another_queen()
            && let Some(what) = self.facts.of_today()
        {
            return self.today_was(what, Emphasis::Brake);
        }
        let since = self.facts.pace_since();
        let brake = match self.facts.pace(self.facts.today) {
            Pace::Held(brake) => brake,
            pace => return self.free(pace, since),
        };
        let held = part(self.words.held_by[brake as usize], Emphasis::Brake);
        match brake {
            Brake::Caged => match self.facts.queen_out() {
                Some(out) if out == self.facts.today => {
                    fill(self.words.caged_today, &[("brake", held)])
                }
                Some(out) => fill(
                    self.words.caged_until,
                    &[("brake", held), ("when", self.about(out))],
                ),
                None => fill(self.words.caged, &[("brake", held)]),
            },
            Brake::NoQueen => {
                let template = match self.facts.day().queen {
                    QueenState::LayingWorkers => self.words.workers_lay,
                    QueenState::DroneLayer => self.words.drone_layer,
                    _ => self.words.no_queen,
                };
                fill(template, &[("brake", held)])
            }
            _ => {
                let (since, only_today) = self.since(since);
                let why = reasons::why(&self.facts, brake, self.speech);
                let template = match (only_today, why.is_empty()) {
                    (true, true) => self.words.held_today,
                    (true, false) => self.words.held_today_why,
                    (false, true) => self.words.held,
                    (false, false) => self.words.held_why,
                };
                let mut parts = vec![("since", since), ("brake", held)];
                if !why.is_empty() {
                    parts.push(("why", why));
                }
                fill(template, &parts)
            }
        }
    }

    fn free(&self, pace: Pace, since: usize) -> Sentence {
        let eggs = self.facts.day().eggs_laid;
        let count = match self.speech.language.about(eggs) {
            none if none == "0" => self.words.no_eggs.to_owned(),
            count => self.words.eggs_a_day.of(&count),
        };
        let count = part(count, Emphasis::Eggs);
        let template = match pace {
            Pace::Rest if eggs < 0.5 => self.words.rests,
            Pace::Rest => self.words.hardly_lays,
            Pace::Season => self.words.out_of_season,
            Pace::Free | Pace::Held(_) => {
                let (since, only_today) = self.since(since);
                let free = [self.words.free, self.words.free_today];
                let parts = [("since", since), ("eggs", count)];
                return fill(free[usize::from(only_today)], &parts);
            }
        };
        fill(template, &[("eggs", count)])
    }

    /// "Since Friday", and whether it is no more than today.
    fn since(&self, since: usize) -> (Vec<Span>, bool) {
        let today = self.facts.today;
        let in_week = self.facts.pace_in_week();
        let week = self.facts.week().len();
        let run = today - since + 1;
        let plain = |text: &str| part(text, Emphasis::Plain);
        let span = if since == 0 && today > 0 {
            plain(self.words.since_start)
        } else if run < 3 && in_week > run + 1 {
            // A brake that comes and goes is told by how often, not since when.
            fill(
                self.words.most_days,
                &[
                    ("count", plain(&in_week.to_string())),
                    ("days", plain(&week.to_string())),
                ],
            )
        } else if run == 1 {
            return (plain(self.words.since_today), true);
        } else if run == 2 {
            plain(self.words.since_yesterday)
        } else {
            let (pattern, when) = if run <= 7 {
                let weekday = self.speech.language.weekday(self.facts.date(since));
                (self.words.since_weekday, weekday.to_owned())
            } else {
                (self.words.since_date, self.day_name(since))
            };
            fill(pattern, &[("when", part(when, Emphasis::When))])
        };
        (span, false)
    }

    /// The low point, while it is near.
    fn lowest(&self) -> Option<Sentence> {
        let low = self.facts.low_point()?;
        let today = self.facts.today;
        if let Some(leave) = self.facts.leave_before(low) {
            let (bees, when) = (("bees", self.bees(low)), ("when", self.about(low)));
            return Some(match self.facts.what_left(leave) {
                Some(what) => {
                    let date = ("date", self.when(self.forms().on_date_first, leave));
                    let what = ("what", part(what.told(self.speech), Emphasis::Plain));
                    if low == leave {
                        fill(self.words.lowest_left, &[date, what, bees])
                    } else {
                        fill(self.words.lowest_after, &[date, what, bees, when])
                    }
                }
                None => {
                    let date = ("date", self.on(leave));
                    fill(self.words.lowest_later, &[date, bees, when])
                }
            });
        }
        // The last bees of a package's first brood can lift numbers for some days before they fall again.
        if low > today
            && low - today <= LOW_AHEAD
            && let Some(most) = self.facts.rise_before(low)
        {
            let parts = [
                ("most", self.bees(most)),
                ("until", self.about(most)),
                ("bees", self.bees(low)),
                ("when", self.about(low)),
            ];
            return Some(fill(self.words.lowest_after_rise, &parts));
        }
        let (template, when) = if today.abs_diff(low) <= 3 {
            (self.words.lowest, self.on(low))
        } else if low > today && low - today <= LOW_AHEAD {
            (self.words.lowest_ahead, self.about(low))
        } else if low < today && today - low <= 14 {
            (self.words.lowest_past, self.on(low))
        } else {
            return None;
        };
        Some(fill(template, &[("bees", self.bees(low)), ("when", when)]))
    }

    /// What comes next: trouble first, then the next turning point.
    fn next(&self) -> Option<Sentence> {
        let facts = &self.facts;
        let today = facts.today;
        if let Some(lost) = facts.lost_ahead() {
            let word = part(self.forms().lost, Emphasis::Caution);
            let parts = [("lost", word), ("when", self.about(lost))];
            return Some(fill(self.words.next_lost, &parts));
        }
        if let Some(hungry) = facts.hungry_ahead() {
            let word = part(self.words.next_hungry_word, Emphasis::Caution);
            let parts = [("runs_out", word), ("when", self.about(hungry))];
            return Some(fill(self.words.next_hungry, &parts));
        }
        let young = facts.first_emergence();
        if facts.bare_start()
            && let Some(young) = young
            && young > today
        {
            return Some(fill(
                self.words.next_first_bees,
                &[("when", self.about(young))],
            ));
        }
        if let (Some(low), Some(back)) = (facts.low_point(), facts.back_to_start())
            && low <= today
            && back > today
        {
            let parts = [("bees", self.bees(0)), ("when", self.about(back))];
            return Some(fill(self.words.next_back, &parts));
        }
        if let Some(brood) = facts.brood_ahead() {
            return Some(fill(self.words.next_brood, &[("when", self.about(brood))]));
        }
        if facts.bare_start() && young.is_none() {
            let end = part(self.day_name(facts.last()), Emphasis::When);
            return Some(fill(self.words.next_no_bees, &[("when", end)]));
        }
        // While numbers still fall, the far peak would raise false hopes.
        if facts.low_point().is_some_and(|low| low > today) {
            return None;
        }
        let peak = facts.peak_ahead()?;
        let parts = [("when", self.about(peak)), ("bees", self.bees(peak))];
        Some(fill(self.words.next_most, &parts))
    }
}
