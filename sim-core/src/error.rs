//! The one public error: what is wrong, where it stands, what was expected.

use std::fmt;

use crate::words::{Language, Saying};

/// Anything that can go wrong in this crate.
///
/// `Display` gives one message for a person: where, what, and what was expected.
#[derive(Debug, Clone, PartialEq)]
pub struct Error {
    /// What kind of input or step failed.
    pub kind: ErrorKind,
    /// Where: a path such as `start.package.pounds`, `line 12`, or `day 112, brood`.
    pub place: String,
    /// What is wrong, and what was expected instead.
    pub message: String,
    /// The source line with a caret under the fault, where there is one.
    pub excerpt: Option<String>,
    /// The message, to be told in another language than English; `None` where it has no words in others.
    said: Option<Saying>,
}

/// What kind of input or step failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ErrorKind {
    /// A scenario file or an object that stands for one.
    Scenario,
    /// A weather record.
    Weather,
    /// A parameter out of its range or with an unknown name.
    Parameter,
    /// The season broke one of its own conservation rules: a fault of the program.
    Invariant,
}

// `cold`: the compiler keeps what makes errors small, and out of the way of what does not fail.
impl Error {
    /// An error without an excerpt.
    #[cold]
    #[inline(never)]
    pub fn new(kind: ErrorKind, place: impl Into<String>, message: impl Into<String>) -> Self {
        Self {
            kind,
            place: place.into(),
            message: message.into(),
            excerpt: None,
            said: None,
        }
    }

    /// A fault in a scenario that is told in the language of whoever is told.
    pub(crate) fn said(place: impl Into<String>, said: Saying) -> Self {
        Self {
            said: Some(said.clone()),
            ..Self::scenario(place, said.to_string())
        }
    }

    /// The same error with its message in a language, as far as it has words there.
    #[must_use]
    pub fn spoken(mut self, language: Language) -> Self {
        if let Some(said) = &self.said
            && language != Language::English
        {
            self.message = said.told(language.into());
        }
        self
    }

    /// Whether its message has words in a language; otherwise they are English.
    pub fn has_words_in(&self, language: Language) -> bool {
        language == Language::English || self.said.is_some()
    }

    /// A fault in a scenario.
    #[cold]
    #[inline(never)]
    pub fn scenario(place: impl Into<String>, message: impl Into<String>) -> Self {
        Self::new(ErrorKind::Scenario, place, message)
    }

    /// A fault in a weather record.
    #[cold]
    #[inline(never)]
    pub fn weather(place: impl Into<String>, message: impl Into<String>) -> Self {
        Self::new(ErrorKind::Weather, place, message)
    }

    /// The same error, with what it concerns (a file name, say) put before its place.
    #[cold]
    #[must_use]
    pub fn within(mut self, outer: &str) -> Self {
        if outer.is_empty() {
            return self;
        }
        self.place = if self.place.is_empty() {
            outer.to_owned()
        } else {
            format!("{outer}: {}", self.place)
        };
        self
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.place.is_empty() {
            write!(f, "{}", self.message)?;
        } else {
            write!(f, "{}: {}", self.place, self.message)?;
        }
        if let Some(excerpt) = &self.excerpt {
            write!(f, "\n{excerpt}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Error {}
