//! In which language and units words are told.

use clap::{Args, ValueEnum};
use combcast_core::story::Units;
use combcast_core::words as model;

/// How words and tables are told.
#[derive(Debug, Clone, Copy, Args)]
pub struct Speech {
    /// Units of words and tables (files are always metric)
    #[arg(long, value_enum, default_value_t)]
    pub units: UnitChoice,
    #[command(flatten)]
    pub language: Language,
}

impl Speech {
    /// As the model wants it.
    pub fn get(self) -> model::Speech {
        model::Speech {
            language: self.language.get(),
            units: self.units.into(),
        }
    }
}

/// In which language words are told.
#[derive(Debug, Clone, Copy, Args)]
pub struct Language {
    /// Language of the words (JSON and CSV are always English)
    #[arg(long, value_enum, default_value_t)]
    pub language: LanguageChoice,
}

impl Language {
    /// As the model wants it.
    pub fn get(self) -> model::Language {
        match self.language {
            LanguageChoice::En => model::Language::English,
            LanguageChoice::De => model::Language::German,
        }
    }
}

#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub enum LanguageChoice {
    /// English
    #[default]
    En,
    /// German
    De,
}

#[derive(Debug, Clone, Copy, Default, ValueEnum)]
pub enum UnitChoice {
    /// Kilograms, millimetres, °C
    #[default]
    Metric,
    /// Pounds, inches, °F
    Us,
}

impl From<UnitChoice> for Units {
    fn from(choice: UnitChoice) -> Self {
        match choice {
            UnitChoice::Metric => Self::Metric,
            UnitChoice::Us => Self::Us,
        }
    }
}
