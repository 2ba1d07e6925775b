//! A plan and its twin in words.

use super::{Emphasis, Sentence, Span, Story, part};
use crate::ensemble::Spread;
use crate::scenario::{Mode, Scenario, Without};
use crate::twin::{Compared, Comparison, MEASURES, OnDate};
use crate::words::{Language, Speech, TwinWords, fill, text};

/// What the two are called in a sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Names {
    /// The plan: "the colony with feed".
    pub plan: String,
    /// The twin: "the one without".
    pub twin: String,
}

impl Names {
    /// For a plan against the same without something.
    pub fn without(plan: &Scenario, without: Without, language: Language) -> Self {
        let words = &language.words().twin;
        let what = plan.words_of(without).told(language.into());
        Self {
            plan: text(words.colony_with, &[("what", &what)]),
            twin: words.one_without.to_owned(),
        }
    }

    /// For two plans against each other.
    pub fn of(plan: &Scenario, twin: &Scenario, language: Language) -> Self {
        let words = &language.words().twin;
        Self {
            plan: text(words.colony_of, &[("plan", &plan.name)]),
            twin: text(words.that_of, &[("plan", &twin.name)]),
        }
    }
}

/// The sentences of one date.
pub fn twin(comparison: &Comparison, there: &OnDate, names: &Names, speech: Speech) -> Story {
    let teller = Teller {
        comparison,
        there,
        names,
        speech,
        words: &speech.words().twin,
    };
    let mut sentences = vec![teller.bees()];
    sentences.extend(teller.besides());
    sentences.extend(teller.lost());
    Story { sentences }
}

struct Teller<'a> {
    comparison: &'a Comparison,
    there: &'a OnDate,
    names: &'a Names,
    speech: Speech,
    words: &'static TwinWords,
}

impl Teller<'_> {
    fn date(&self) -> Vec<Span> {
        let dates = &self.comparison.dates;
        let years = dates.first().map(|there| there.date.0.year())
            != dates.last().map(|there| there.date.0.year());
        let date = self.speech.language.day_and_month(self.there.date.0, years);
        let pattern = self.speech.words().forms.on_date_first;
        part(text(pattern, &[("date", &date)]), Emphasis::Date)
    }

    fn random(&self) -> bool {
        self.comparison.mode == Mode::Random && self.comparison.members > 1
    }

    fn bees(&self) -> Sentence {
        let bees = &self.there.measures[0];
        let nothing = self.trifling(0, bees);
        let template = match (nothing, self.random()) {
            (true, _) => self.words.same,
            (false, true) => self.words.bees_of_many,
            (false, false) => self.words.bees,
        };
        let plain = |text: String| part(text, Emphasis::Plain);
        fill(
            template,
            &[
                ("when", self.date()),
                ("plan", plain(self.names.plan.clone())),
                ("twin", plain(self.names.twin.clone())),
                (
                    "bees",
                    part(self.gain(0, bees.difference.mean), Emphasis::Bees),
                ),
                ("range", plain(self.range(0, &bees.difference))),
                ("ahead", part(self.count(bees.better.ahead), Emphasis::Bees)),
                ("seasons", plain(self.count(self.comparison.members))),
            ],
        )
    }

    /// Brood, comb, honey and mites, where they differ.
    fn besides(&self) -> Option<Sentence> {
        let mut list: Sentence = Vec::new();
        for (m, measure) in self.there.measures.iter().enumerate().skip(1) {
            if self.trifling(m, measure) {
                continue;
            }
            if !list.is_empty() {
                list.extend(part(self.words.join, Emphasis::Plain));
            }
            list.extend(self.one(m, measure));
        }
        (!list.is_empty()).then(|| fill(self.words.besides, &[("list", list)]))
    }

    /// Whether the words could only say that something is 0 more or fewer.
    fn trifling(&self, m: usize, measure: &Compared) -> bool {
        let spread = &measure.difference;
        let least = if m == 0 || MEASURES[m].name == "mites" {
            0.5
        } else {
            0.05
        };
        [spread.mean, spread.q05, spread.q95]
            .iter()
            .all(|difference| difference.abs() < least)
    }

    fn one(&self, m: usize, measure: &Compared) -> Sentence {
        let kind = match MEASURES[m].name {
            "brood_frames" => Emphasis::Brood,
            "drawn_frames" => Emphasis::Comb,
            "honey_kg" => Emphasis::Food,
            _ => Emphasis::Caution,
        };
        let gain = part(self.gain(m, measure.difference.mean), kind);
        if !self.random() {
            return gain;
        }
        let range = part(self.range(m, &measure.difference), Emphasis::Plain);
        fill(self.words.with_range, &[("gain", gain), ("range", range)])
    }

    fn lost(&self) -> Option<Sentence> {
        let (plan, twin) = (self.there.plan_lost, self.there.twin_lost);
        if plan == 0 && twin == 0 {
            return None;
        }
        let template = if self.random() {
            self.words.lost_of_many
        } else {
            match (plan > 0, twin > 0) {
                (true, true) => self.words.lost_both,
                (true, false) => self.words.lost_plan,
                _ => self.words.lost_twin,
            }
        };
        let count = |lost: usize| part(self.count(lost), Emphasis::Caution);
        Some(fill(
            template,
            &[
                ("plan", part(self.names.plan.clone(), Emphasis::Plain)),
                ("twin", part(self.names.twin.clone(), Emphasis::Plain)),
                (
                    "lost",
                    part(self.speech.words().forms.lost, Emphasis::Caution),
                ),
                ("plans", count(plan)),
                ("twins", count(twin)),
                (
                    "seasons",
                    part(self.count(self.comparison.members), Emphasis::Plain),
                ),
            ],
        ))
    }

    /// "5,200 more bees", "1.5 fewer frames of brood".
    fn gain(&self, m: usize, difference: f64) -> String {
        let parts = [
            ("amount", self.amount(m, difference.abs())),
            ("more", self.more(m, difference >= 0.0).to_owned()),
            ("what", self.words.measures[m].to_owned()),
        ];
        told(self.words.gain, &parts)
    }

    /// "3,900 to 6,400 more", "300 fewer to 2,100 more".
    fn range(&self, m: usize, spread: &Spread) -> String {
        let (low, high) = (spread.q05, spread.q95);
        let (pattern, near, far) = if low >= 0.0 {
            (self.words.range, low, high)
        } else if high <= 0.0 {
            (self.words.range, high, low)
        } else {
            (self.words.range_across, low, high)
        };
        let parts = [
            ("low", self.amount(m, near.abs())),
            ("fewer", self.more(m, false).to_owned()),
            ("high", self.amount(m, far.abs())),
            ("more", self.more(m, high > 0.0 || low >= 0.0).to_owned()),
        ];
        told(pattern, &parts)
    }

    /// "more", "fewer" for what is counted, "less" for what is weighed.
    fn more(&self, m: usize, more: bool) -> &'static str {
        let forms = &self.speech.words().forms;
        match (more, MEASURES[m].unit) {
            (true, _) => forms.more,
            (false, "kg") => self.words.less,
            (false, _) => forms.fewer,
        }
    }

    fn count(&self, count: usize) -> String {
        self.speech.language.grouped(count as f64)
    }

    fn amount(&self, m: usize, value: f64) -> String {
        match MEASURES[m].unit {
            "kg" => self.speech.weight_text(value),
            "bees" => self.speech.language.about(value),
            "frames" => self.speech.language.decimal(value, 1),
            _ if value < 9.95 => self.speech.language.decimal(value, 1),
            _ => self.speech.language.about(value),
        }
    }
}

/// A pattern filled with texts of its own making.
fn told(pattern: &str, parts: &[(&str, String)]) -> String {
    let parts: Vec<(&str, &str)> = parts.iter().map(|(name, part)| (*name, &**part)).collect();
    text(pattern, &parts)
}
