//! The words that the model speaks: one catalogue for each language, and the one way to fill its patterns.
//!
//! A catalogue is static data: patterns with `{names}`, tables of words, and, where a language needs grammar, a function.
//! `words/shape.rs` has its shape, so that a language with a missing or a superfluous entry does not compile;
//! `words/english/` and `words/german/` have the words. Who speaks takes a [`Speech`], fills a pattern with `fill`
//! (spans with an emphasis) or [`text`] (text alone), and knows nothing of any language.

mod english;
mod fill;
mod german;
mod saying;
mod shape;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

pub use fill::text;
pub use saying::Saying;

pub(crate) use fill::fill;
pub(crate) use saying::Entry;
pub(crate) use shape::{AgendaWords, Counted, Forms, StoryWords, TwinWords, WindowWords, Words};

use crate::scenario::Move;
use crate::story::Units;

/// A language that the model speaks.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Language {
    /// English.
    #[default]
    #[serde(rename = "en")]
    English,
    /// German.
    #[serde(rename = "de")]
    German,
}

impl Language {
    /// Every language.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its code (ISO 639-1): `en`, `de`.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// What a move is called, by its name in files.
    pub fn action(self, name: &str) -> &'static str {
        let choices = Move::default().choices();
        let place = choices.iter().position(|(known, _)| *known == name);
        place.map_or("", |place| self.words().actions[place])
    }

    /// Its catalogue.
    pub(crate) fn words(self) -> &'static Words {
        match self {
            Self::English => &english::WORDS,
            Self::German => &german::WORDS,
        }
    }
}

/// How things are told: in which language, in which units.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Speech {
    /// The language.
    pub language: Language,
    /// The units of weights, rain and temperatures.
    pub units: Units,
}

impl Speech {
    /// Its catalogue.
    pub(crate) fn words(self) -> &'static Words {
        self.language.words()
    }
}

/// In English.
impl From<Units> for Speech {
    fn from(units: Units) -> Self {
        Self {
            language: Language::English,
            units,
        }
    }
}

/// With metric units.
impl From<Language> for Speech {
    fn from(language: Language) -> Self {
        Self {
            language,
            units: Units::Metric,
        }
    }
}
