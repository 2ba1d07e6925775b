//! Something to be said, kept until it is known in which language and units.

use std::fmt;

use jiff::civil::Date;
use serde::{Serialize, Serializer};

use super::{Counted, Speech, Words, text};
use crate::calendar::CalendarDate;
use crate::scenario::Move;
use crate::scenario::moves::At;

/// An entry of the catalogue, whichever language it is.
pub(crate) type Entry<T = &'static str> = fn(&'static Words) -> T;

/// Words of the model that wait to be told: patterns of the catalogue, and what fills them.
///
/// Written out ([`fmt::Display`], JSON) it is told in the speech that it was given by [`Saying::spoken`], otherwise in
/// English with metric weights.
#[derive(Debug, Clone, Default)]
pub struct Saying {
    clauses: Vec<Clause>,
    speech: Speech,
}

#[derive(Debug, Clone)]
struct Clause {
    pattern: Entry,
    parts: Vec<(&'static str, Part)>,
}

#[derive(Debug, Clone)]
enum Part {
    /// A number with the decimals that it has.
    Plain(f64),
    /// A number as it is typed, thousands parted.
    Figure(f64),
    /// A number with so many decimals.
    Decimal(f64, usize),
    /// A whole number.
    Grouped(f64),
    /// A head count as it can be judged.
    About(f64),
    /// A weight, kg.
    Weight(f64),
    /// A temperature, °C.
    Temperature(f64),
    /// A count with its noun.
    Counted(Entry<Counted>, f64),
    /// One of several entries.
    Choice(Entry<&'static [&'static str]>, usize),
    /// A day, as people say it.
    Day(CalendarDate),
    /// A day with its year.
    Date(Date),
    /// Another saying.
    Said(Saying),
    /// Names, with an entry between them.
    Joined(Vec<&'static str>, Entry),
    /// Text that is the same in all languages: names, dates as in files.
    Text(String),
}

// Cold code: inlined, it would stand in the page's module a hundred times.
impl Saying {
    /// Begins with a pattern; what fills it comes next.
    #[inline(never)]
    pub(crate) fn new(pattern: Entry) -> Self {
        Self::default().and(pattern)
    }

    /// Goes on with another pattern.
    #[inline(never)]
    pub(crate) fn and(mut self, pattern: Entry) -> Self {
        self.clauses.push(Clause {
            pattern,
            parts: Vec::new(),
        });
        self
    }

    #[inline(never)]
    fn part(mut self, name: &'static str, part: Part) -> Self {
        if let Some(clause) = self.clauses.last_mut() {
            clause.parts.push((name, part));
        }
        self
    }

    /// A number with the decimals that it has.
    pub(crate) fn plain(self, name: &'static str, number: impl Into<f64>) -> Self {
        self.part(name, Part::Plain(number.into()))
    }

    /// A whole number of few digits.
    pub(crate) fn count(self, name: &'static str, count: usize) -> Self {
        self.part(name, Part::Plain(count as f64))
    }

    /// A place of a box.
    pub(crate) fn at(self, at: At) -> Self {
        self.plain("place", at.place).plain("box", at.in_box)
    }

    /// A number as it is typed, thousands parted.
    pub(crate) fn figure(self, name: &'static str, number: f64) -> Self {
        self.part(name, Part::Figure(number))
    }

    /// A number with so many decimals.
    pub(crate) fn decimal(self, name: &'static str, number: f64, places: usize) -> Self {
        self.part(name, Part::Decimal(number, places))
    }

    /// A whole number, thousands parted.
    pub(crate) fn grouped(self, name: &'static str, number: f64) -> Self {
        self.part(name, Part::Grouped(number))
    }

    /// A head count as it can be judged by eye.
    pub(crate) fn about(self, name: &'static str, count: f64) -> Self {
        self.part(name, Part::About(count))
    }

    /// A weight of so many grams.
    pub(crate) fn grams(self, name: &'static str, grams: f64) -> Self {
        self.part(name, Part::Weight(grams / 1000.0))
    }

    /// A temperature of so many degrees, °C.
    pub(crate) fn celsius(self, name: &'static str, degrees: f64) -> Self {
        self.part(name, Part::Temperature(degrees))
    }

    /// A count with its noun.
    pub(crate) fn counted(
        self,
        name: &'static str,
        noun: Entry<Counted>,
        count: impl Into<f64>,
    ) -> Self {
        self.part(name, Part::Counted(noun, count.into()))
    }

    /// One of several entries of the catalogue.
    pub(crate) fn choice(
        self,
        name: &'static str,
        entries: Entry<&'static [&'static str]>,
        place: usize,
    ) -> Self {
        self.part(name, Part::Choice(entries, place))
    }

    /// What a move is called.
    pub(crate) fn action(self, name: &'static str, action: &str) -> Self {
        let choices = Move::default().choices();
        let place = choices.iter().position(|(known, _)| *known == action);
        self.choice(name, |words| &words.actions, place.unwrap_or(choices.len()))
    }

    /// A day, as people say it.
    pub(crate) fn day(self, name: &'static str, day: CalendarDate) -> Self {
        self.part(name, Part::Day(day))
    }

    /// A day with its year.
    pub(crate) fn date(self, name: &'static str, date: Date) -> Self {
        self.part(name, Part::Date(date))
    }

    /// Names, with an entry between them.
    pub(crate) fn joined(
        self,
        name: &'static str,
        names: Vec<&'static str>,
        between: Entry,
    ) -> Self {
        self.part(name, Part::Joined(names, between))
    }

    /// Text that is the same in all languages.
    pub(crate) fn text(self, name: &'static str, text: impl fmt::Display) -> Self {
        self.part(name, Part::Text(text.to_string()))
    }

    /// Another saying.
    pub(crate) fn said(self, name: &'static str, said: Self) -> Self {
        self.part(name, Part::Said(said))
    }

    /// The words in a speech.
    #[inline(never)]
    pub fn told(&self, speech: Speech) -> String {
        let mut told = String::new();
        for clause in &self.clauses {
            let parts: Vec<(&str, String)> = clause
                .parts
                .iter()
                .map(|(name, part)| (*name, part.told(speech)))
                .collect();
            let parts: Vec<(&str, &str)> =
                parts.iter().map(|(name, part)| (*name, &**part)).collect();
            told.push_str(&text((clause.pattern)(speech.words()), &parts));
        }
        told
    }

    /// What is said first, without what is added to it.
    pub(crate) fn in_brief(&self) -> Self {
        Self {
            clauses: self.clauses.first().cloned().into_iter().collect(),
            speech: self.speech,
        }
    }

    /// From now on it is written out in this speech.
    pub fn spoken(&mut self, speech: Speech) {
        self.speech = speech;
    }
}

impl Part {
    #[inline(never)]
    fn told(&self, speech: Speech) -> String {
        let language = speech.language;
        match self {
            Self::Plain(number) => language.plain(*number),
            Self::Figure(number) => language.figure(*number),
            Self::Decimal(number, places) => language.decimal(*number, *places),
            Self::Grouped(number) => language.grouped(*number),
            Self::About(count) => language.about(*count),
            Self::Weight(kg) => speech.weight_text(*kg),
            Self::Temperature(celsius) => speech.degrees_text(*celsius),
            Self::Counted(noun, count) => noun(speech.words()).of(&language.plain(*count)),
            Self::Choice(entries, place) => {
                let entries = entries(speech.words());
                entries.get(*place).copied().unwrap_or_default().to_owned()
            }
            Self::Day(day) => language.day_and_month(day.0, false),
            Self::Date(day) => language.day_and_month(*day, true),
            Self::Said(said) => said.told(speech),
            Self::Joined(names, between) => names.join(between(speech.words())),
            Self::Text(text) => text.clone(),
        }
    }
}

impl fmt::Display for Saying {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told(self.speech))
    }
}

impl Serialize for Saying {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// Text that is the same in all languages.
impl From<String> for Saying {
    fn from(text: String) -> Self {
        Self::new(|words| words.forms.as_it_is).text("text", text)
    }
}

/// Text that is the same in all languages.
impl From<&str> for Saying {
    fn from(text: &str) -> Self {
        text.to_owned().into()
    }
}

/// Two sayings are equal that are told alike.
impl PartialEq for Saying {
    fn eq(&self, other: &Self) -> bool {
        self.told(Speech::default()) == other.told(Speech::default())
    }
}

impl Eq for Saying {}

/// Against what is told in English with metric weights.
impl PartialEq<&str> for Saying {
    fn eq(&self, other: &&str) -> bool {
        self.told(Speech::default()) == *other
    }
}
