//! A plan and its twin in words.

use super::words::{self, fill};
use super::{Emphasis, Sentence, Span, Story, Units, about, day_and_month, grouped, part};
use crate::ensemble::Spread;
use crate::scenario::{Mode, Scenario, Without};
use crate::twin::{Compared, Comparison, MEASURES, OnDate};

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
    pub fn without(plan: &Scenario, without: Without) -> Self {
        Self {
            plan: words::colony_with(&plan.words_of(without)),
            twin: words::ONE_WITHOUT.to_owned(),
        }
    }

    /// For two plans against each other.
    pub fn of(plan: &Scenario, twin: &Scenario) -> Self {
        Self {
            plan: words::colony_of(&plan.name),
            twin: words::that_of(&twin.name),
        }
    }
}

/// The sentences of one date.
pub fn twin(comparison: &Comparison, there: &OnDate, names: &Names, units: Units) -> Story {
    let teller = Teller {
        comparison,
        there,
        names,
        units,
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
    units: Units,
}

impl Teller<'_> {
    fn date(&self) -> Vec<Span> {
        let dates = &self.comparison.dates;
        let years = dates.first().map(|there| there.date.0.year())
            != dates.last().map(|there| there.date.0.year());
        part(
            words::at_start_on(&day_and_month(self.there.date.0, years)),
            Emphasis::Date,
        )
    }

    fn random(&self) -> bool {
        self.comparison.mode == Mode::Random && self.comparison.members > 1
    }

    fn bees(&self) -> Sentence {
        let bees = &self.there.measures[0];
        let nothing = self.trifling(0, bees);
        let template = match (nothing, self.random()) {
            (true, _) => words::TWIN_SAME,
            (false, true) => words::TWIN_BEES_OF_MANY,
            (false, false) => words::TWIN_BEES,
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
                (
                    "ahead",
                    part(grouped(bees.better.ahead as f64), Emphasis::Bees),
                ),
                ("seasons", plain(grouped(self.comparison.members as f64))),
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
                list.extend(part(words::TWIN_JOIN, Emphasis::Plain));
            }
            list.extend(self.one(m, measure));
        }
        (!list.is_empty()).then(|| fill(words::TWIN_BESIDES, &[("list", list)]))
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
        fill(words::TWIN_WITH_RANGE, &[("gain", gain), ("range", range)])
    }

    fn lost(&self) -> Option<Sentence> {
        let (plan, twin) = (self.there.plan_lost, self.there.twin_lost);
        if plan == 0 && twin == 0 {
            return None;
        }
        let template = if self.random() {
            words::TWIN_LOST_OF_MANY
        } else {
            match (plan > 0, twin > 0) {
                (true, true) => words::TWIN_LOST_BOTH,
                (true, false) => words::TWIN_LOST_PLAN,
                _ => words::TWIN_LOST_TWIN,
            }
        };
        let count = |lost: usize| part(grouped(lost as f64), Emphasis::Caution);
        Some(fill(
            template,
            &[
                ("plan", part(self.names.plan.clone(), Emphasis::Plain)),
                ("twin", part(self.names.twin.clone(), Emphasis::Plain)),
                ("lost", part(words::NEXT_LOST_WORD, Emphasis::Caution)),
                ("plans", count(plan)),
                ("twins", count(twin)),
                (
                    "seasons",
                    part(grouped(self.comparison.members as f64), Emphasis::Plain),
                ),
            ],
        ))
    }

    /// "5,200 more bees", "1.5 fewer frames of brood".
    fn gain(&self, m: usize, difference: f64) -> String {
        words::twin_gain(
            MEASURES[m].name,
            &self.amount(m, difference.abs()),
            difference >= 0.0,
        )
    }

    /// "3,900 to 6,400 more", "300 fewer to 2,100 more".
    fn range(&self, m: usize, spread: &Spread) -> String {
        let (low, high) = (spread.q05, spread.q95);
        let text = |value: f64| self.amount(m, value.abs());
        let name = MEASURES[m].name;
        if low >= 0.0 {
            words::twin_range(
                &text(low),
                None,
                &text(high),
                words::more_or_less(name, true),
            )
        } else if high <= 0.0 {
            words::twin_range(
                &text(high),
                None,
                &text(low),
                words::more_or_less(name, false),
            )
        } else {
            words::twin_range(
                &text(low),
                Some(words::more_or_less(name, false)),
                &text(high),
                words::more_or_less(name, true),
            )
        }
    }

    fn amount(&self, m: usize, value: f64) -> String {
        match MEASURES[m].unit {
            "kg" => self.units.weight_text(value),
            "bees" => about(value),
            "frames" => format!("{value:.1}"),
            _ if value < 9.95 => format!("{value:.1}"),
            _ => about(value),
        }
    }
}
