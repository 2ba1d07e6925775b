//! The search: what is wished for comes in, the best of many plans go out, in words and the best one as calendar files.

use core::ops::ControlFlow;

use combcast_core::Error;
use combcast_core::calendar::CalendarDate;
use combcast_core::ensemble::Alone;
use combcast_core::search::{Doing, Family, Found, Goal, Limits, Progress, Search};
use combcast_core::words::Language;
use js_sys::Function;
use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;

use crate::agenda::{Both, Spoken};
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

/// A search that is kept between calls.
#[derive(Debug)]
pub struct Kept {
    question: String,
    search: Search,
}

#[derive(Serialize)]
struct SoFar {
    doing: Doing,
    lived: usize,
    stage: usize,
    plans: usize,
    found: Option<Spoken<ForThePage>>,
}

#[derive(Serialize)]
struct ForThePage {
    #[serde(flatten)]
    found: Found,
    /// The best plan as a calendar file.
    ics: Both<String>,
}

impl Kept {
    /// A search that was begun, with all that it was asked for as one text.
    pub fn new(question: String, search: Search) -> Self {
        Self { question, search }
    }

    /// Whether this is what it was asked for.
    pub fn is_for(&self, question: &str) -> bool {
        self.question == question
    }

    /// Goes on until `more` says no, which is asked after each piece of work.
    pub fn go_on(&mut self, more: &Function) -> Result<(), Error> {
        let _ = self.search.go_on(&Alone, &mut |_: Progress| {
            let more = more.call0(&JsValue::NULL);
            if more.is_ok_and(|more| more.is_truthy()) {
                ControlFlow::Continue(())
            } else {
                ControlFlow::Break(())
            }
        })?;
        Ok(())
    }

    /// How far it is and the best so far, for the page; calendar files say that they were made on `stamp`.
    pub fn so_far(&self, stamp: CalendarDate) -> JsValue {
        let now = self.search.progress();
        to_js(&SoFar {
            doing: now.doing,
            lived: now.lived,
            stage: now.stage,
            plans: now.plans,
            // Without a first stage there is nothing to say.
            found: self
                .search
                .found()
                .ok()
                .map(|found| Spoken::of(|language| told(found.clone(), stamp, language))),
        })
    }
}

fn told(mut found: Found, stamp: CalendarDate, language: Language) -> ForThePage {
    let ics = Both::of(language, |speech| found.icalendar(speech, stamp.0));
    for warning in &mut found.warnings {
        warning.spoken(language.into());
    }
    if let Some(assumed) = &mut found.assumed_mites {
        assumed.text.spoken(language.into());
    }
    for dated in found.best.iter_mut().flat_map(|best| &mut best.calendar) {
        dated.text.spoken(language.into());
    }
    found.cautions = found.cautions_in(language);
    ForThePage { found, ics }
}
