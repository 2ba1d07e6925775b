//! The search: what is wished for comes in, the best of many plans go out, in words and the best one as calendar files.

use core::ops::ControlFlow;

use combcast_core::Error;
use combcast_core::calendar::CalendarDate;
use combcast_core::ensemble::Hands;
use combcast_core::search::{Asked, Family, Found, Goal, Limits, Progress, search};
use combcast_core::words::Language;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

use crate::agenda::Both;
use crate::to_js;

/// What is wished for, as the page writes it.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Wishes {
    /// Names of goals, the most important first.
    goals: Vec<String>,
    /// Names of the kinds of moves that may be added.
    what: Vec<String>,
    visits_per_week: u8,
    no_chemicals: bool,
    jars: f64,
}

impl Wishes {
    pub fn from_json(text: &str) -> Result<Self, Error> {
        serde_json::from_str(text).map_err(|error| Error::scenario("wishes", error.to_string()))
    }

    pub fn goals(&self) -> Result<Vec<Goal>, Error> {
        known("goals", &self.goals, &Goal::ALL, |goal| goal.name())
    }

    pub fn limits(&self) -> Result<Limits, Error> {
        Ok(Limits {
            families: known("what", &self.what, &Family::ALL, |family| family.name())?,
            visits_per_week: self.visits_per_week,
            no_chemicals: self.no_chemicals,
            jars: self.jars,
        })
    }
}

fn known<T: Copy>(
    place: &str,
    names: &[String],
    all: &[T],
    name_of: fn(T) -> &'static str,
) -> Result<Vec<T>, Error> {
    let find = |name: &String| {
        let one = all.iter().find(|one| name_of(**one) == name);
        one.copied().ok_or_else(|| {
            let names: Vec<&str> = all.iter().map(|one| name_of(*one)).collect();
            let message = format!("expected one of {}, got \"{name}\"", names.join(", "));
            Error::scenario(place, message)
        })
    };
    names.iter().map(find).collect()
}

/// Searches for at most so many lives; 0: to the end.
pub fn within(asked: Asked, lives: u32, hands: &impl Hands) -> Result<Found, Error> {
    let (mut before, mut stage, mut last) = (0, 0, 0);
    search(asked, hands, |now: Progress| {
        if now.stage != stage {
            before += last;
            stage = now.stage;
        }
        last = now.done;
        if lives > 0 && before + last >= lives as usize {
            ControlFlow::Break(())
        } else {
            ControlFlow::Continue(())
        }
    })
}

#[derive(Serialize)]
struct ForThePage<'a> {
    #[serde(flatten)]
    found: &'a Found,
    /// The best plan as a calendar file.
    ics: Both<String>,
}

/// What was found, for the page; its calendar files say that they were made on `stamp`.
pub fn of(mut found: Found, stamp: CalendarDate, language: Language) -> JsValue {
    let ics = Both::of(language, |speech| found.icalendar(speech, stamp.0));
    for warning in &mut found.warnings {
        warning.spoken(language.into());
    }
    for dated in found.best.iter_mut().flat_map(|best| &mut best.calendar) {
        dated.text.spoken(language.into());
    }
    found.cautions = found.cautions_in(language);
    to_js(&ForThePage { found: &found, ics })
}
