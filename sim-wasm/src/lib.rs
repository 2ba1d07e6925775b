//! The door between the Combcast model and the page: scenarios and weather records go in, columns
//! of numbers and sentences come out. No biology lives here.
//!
//! Scenarios cross as JSON text, because the strict reader (`deny_unknown_fields`) works on text and
//! not on JavaScript objects. Faults are thrown as plain objects `{ kind, place, message, language, excerpt }`.

mod agenda;
mod cells;
mod crowd;
mod outcome;
mod problem;
mod search;
mod trials;

use std::collections::BTreeMap;

use combcast_core::calendar::parse_date;
use combcast_core::ensemble::Peers;
use combcast_core::faces::Album;
use combcast_core::observe::{COLUMNS, ColumnInfo};
use combcast_core::queen::{Brake, QueenState};
use combcast_core::scenario::{RecordUnits, read_form};
use combcast_core::story::{self, Names, Units};
use combcast_core::treatments::{TREATMENTS, TreatmentInfo, label};
use combcast_core::visits::{VisitBook, books_from_bytes};
use combcast_core::weather::{self, BUILT_IN, BuiltIn, PLACE_TYPES, PlaceType, Report, Weather};
use combcast_core::words::{Language, Speech};
use combcast_core::{Scenario, Season, season};
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crowd::{Crowd, date_of};
use problem::thrown;
use search::{Kept, Wishes};
use trials::{Sided, Trial};

#[wasm_bindgen]
extern "C" {
    /// Whoever loads the module's first part alone says here how the rest is brought; it must be there when this returns.
    #[wasm_bindgen(js_name = combcastBringRest)]
    fn rest_of_module();
}

/// Brings what the module's first part does without (`cargo xtask wasm` parts it in two). Calls of what is not there do so by themselves.
#[wasm_bindgen(js_name = bringRest)]
pub fn bring_rest() {
    rest_of_module();
}

/// Plain data as a JavaScript object, by way of JSON: what writes and reads it is in the module and in the browser anyhow.
fn to_js<T: Serialize + ?Sized>(value: &T) -> JsValue {
    // Names, numbers and lists always have a JavaScript counterpart.
    serde_json::to_string(value)
        .ok()
        .and_then(|text| js_sys::JSON::parse(&text).ok())
        .unwrap_or(JsValue::NULL)
}

/// What the model offers, the same for every season: columns, brakes, built-in weather, treatments; brakes, climates
/// and treatments in a language, `en` or `de`, otherwise in English.
#[wasm_bindgen(unchecked_return_type = "Catalogue")]
pub fn catalogue(language: Option<String>) -> JsValue {
    let language = language_of(language.as_deref());
    #[derive(Serialize)]
    #[serde(rename_all = "camelCase")]
    struct Catalogue {
        version: &'static str,
        columns: &'static [ColumnInfo],
        brakes: [Named; Brake::ALL.len()],
        origins: [weather::Origin; outcome::ORIGINS.len()],
        records: &'static [BuiltIn],
        place_types: Vec<PlaceType>,
        queen_states: [QueenState; outcome::QUEENS.len()],
        treatments: [TreatmentInfo; TREATMENTS.len()],
        label: &'static str,
    }
    /// A brake and how it is called.
    #[derive(Serialize)]
    struct Named {
        name: Brake,
        words: &'static str,
    }
    to_js(&Catalogue {
        version: env!("CARGO_PKG_VERSION"),
        columns: COLUMNS,
        brakes: Brake::ALL.map(|name| Named {
            name,
            words: name.words(language),
        }),
        origins: outcome::ORIGINS,
        records: BUILT_IN,
        place_types: PLACE_TYPES
            .iter()
            .map(|place| place.told(language))
            .collect(),
        queen_states: outcome::QUEENS,
        treatments: TREATMENTS.map(|row| row.told(language)),
        label: label(language),
    })
}

/// Reads a scenario file. Throws the fault with its place in the text.
#[wasm_bindgen(unchecked_return_type = "Scenario")]
pub fn open(file: &[u8]) -> Result<JsValue, JsValue> {
    Scenario::from_bytes(file, "")
        .map(|scenario| to_js(&scenario))
        .map_err(thrown)
}

/// The scenario as the text of a file.
#[wasm_bindgen]
pub fn save(scenario: &str) -> Result<String, JsValue> {
    Scenario::from_json(scenario)
        .and_then(|scenario| scenario.to_toml())
        .map_err(thrown)
}

/// Reads a file of visits: a CSV table by its name, otherwise TOML. Throws the fault with its place in the text.
#[wasm_bindgen(js_name = openVisits, unchecked_return_type = "VisitBook[]")]
pub fn open_visits(file: &[u8], name: &str) -> Result<JsValue, JsValue> {
    books_from_bytes(file, name)
        .map(|books| to_js(&books))
        .map_err(thrown)
}

/// The visits to a hive as the text of a file.
#[wasm_bindgen(js_name = saveVisits)]
pub fn save_visits(book: &str) -> Result<String, JsValue> {
    read_form::<VisitBook>(book)
        .and_then(|book| book.to_toml())
        .map_err(thrown)
}

/// A weather record as it was read, with what decides how it is read.
#[derive(Debug)]
struct Read {
    wanted: Wanted,
    days: (Weather, Report),
}

#[derive(Debug, PartialEq)]
struct Wanted {
    record: String,
    station: Option<String>,
    units: Option<RecordUnits>,
}

/// Runs seasons and keeps the last one of each name, to tell its story.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Explorer {
    /// Weather files by name.
    files: BTreeMap<String, Vec<u8>>,
    /// The record read last: reading it takes far longer than running a season.
    read: Option<Read>,
    seasons: BTreeMap<String, Season>,
    /// The combs of the scenario that was looked at last, with the scenario's text.
    album: Option<(String, Album)>,
    trial: Option<Trial>,
    /// What words are told in.
    language: Language,
    /// The colonies that were asked for last, with the scenario's text and the days between looks.
    crowd: Option<(String, u32, Crowd)>,
    /// The search that was asked for last, on its way or over.
    search: Option<Kept>,
}

#[wasm_bindgen]
impl Explorer {
    /// An explorer without weather files and seasons.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// From now on words are told in this language, those of faults included, `en` or `de`; before, in English.
    pub fn speak(&mut self, language: &str) {
        self.language = language_of(Some(language));
        problem::speak(self.language);
    }

    /// Keeps a weather file under the name that scenarios call it by.
    #[wasm_bindgen(js_name = keepFile)]
    pub fn keep_file(&mut self, name: String, bytes: Vec<u8>) {
        self.files.insert(name, bytes);
        self.read = None;
        self.crowd = None;
        self.search = None;
    }

    /// Runs the season called `name`, and tells its events in `metric` (also where none are given) or `us` units; the files of its record must have
    /// been kept before.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn run(
        &mut self,
        name: String,
        scenario: &str,
        units: Option<String>,
    ) -> Result<JsValue, JsValue> {
        let scenario = Scenario::from_json(scenario).map_err(thrown)?;
        let record = self.record_of(&scenario).map_err(thrown)?;
        let (weather, report) = weather::lay(&scenario, record, 0).map_err(thrown)?;
        let prepared = season::prepare(&scenario, &weather).map_err(thrown)?;
        let mut season = prepared.run().map_err(thrown)?;
        let outcome = outcome::of(
            &mut season,
            &prepared,
            &weather,
            &report,
            self.speech(units.as_deref().unwrap_or_default()),
        )?;
        self.seasons.insert(name, season);
        Ok(outcome)
    }

    /// Runs a season `count` times, each as another member of an ensemble, writes no day down, and
    /// returns the sum of the bees at the end of each: for measuring speed.
    #[wasm_bindgen(js_name = bareSeasons)]
    pub fn bare_seasons(&mut self, scenario: &str, count: u32) -> Result<f64, JsValue> {
        let scenario = Scenario::from_json(scenario).map_err(thrown)?;
        let record = self.record_of(&scenario).map_err(thrown)?;
        let (weather, _) = weather::lay(&scenario, record, 0).map_err(thrown)?;
        let prepared = season::prepare(&scenario, &weather).map_err(thrown)?;
        (0..count)
            .map(|member| Ok(prepared.end_of(member)?.stock.adults.adults()))
            .sum::<Result<f64, combcast_core::Error>>()
            .map_err(thrown)
    }

    /// What each cell of each comb holds on a date; before the season: on its first day, after it: on its last.
    ///
    /// The first look at a scenario runs its season; further dates of the same scenario are quick.
    #[wasm_bindgen(unchecked_return_type = "HiveCells")]
    pub fn cells(&mut self, scenario: &str, date: &str) -> Result<JsValue, JsValue> {
        let read = Scenario::from_json(scenario).map_err(thrown)?;
        if self.album.as_ref().is_none_or(|(text, _)| text != scenario) {
            let record = self.record_of(&read).map_err(thrown)?;
            let (weather, _) = weather::lay(&read, record, 0).map_err(thrown)?;
            let prepared = season::prepare(&read, &weather).map_err(thrown)?;
            let before = self.album.take().map(|(_, album)| album);
            let album = Album::new(&prepared, before).map_err(thrown)?;
            self.album = Some((scenario.to_owned(), album));
        }
        let Some((_, album)) = &mut self.album else {
            return Ok(JsValue::NULL);
        };
        let day = parse_date(date).map_or(0, |date| date.days_since(read.start.date));
        cells::of(&album.on(usize::try_from(day).unwrap_or(0)))
    }

    /// Tries a plan against its twin in so many members of an ensemble, and keeps what came of it.
    #[wasm_bindgen(unchecked_return_type = "Trial")]
    pub fn compare(&mut self, plan: &str, twin: &str, members: u32) -> Result<JsValue, JsValue> {
        let plan = self.sided(plan).map_err(thrown)?;
        let twin = self.sided(twin).map_err(thrown)?;
        let trial = Trial::run(&plan, &twin, members).map_err(thrown)?;
        self.trial.insert(trial).to_js()
    }

    /// One date of the last trial: in words, with the two called by these names, and member by member.
    #[wasm_bindgen(js_name = trialOn, unchecked_return_type = "TrialDay | null")]
    pub fn trial_on(&self, date: &str, plan: String, twin: String, units: &str) -> JsValue {
        match (&self.trial, parse_date(date)) {
            (Some(trial), Ok(date)) => trial.on(date, &Names { plan, twin }, self.speech(units)),
            _ => JsValue::NULL,
        }
    }

    /// On which day a drone frame should come out that is put in on `date` (none: the plan's first), in so many
    /// members of an ensemble; of 0: in expected values.
    #[wasm_bindgen(unchecked_return_type = "FrameWindow")]
    pub fn window(
        &mut self,
        scenario: &str,
        date: Option<String>,
        members: u32,
    ) -> Result<JsValue, JsValue> {
        let plan = self.sided(scenario).map_err(thrown)?;
        let date = date.and_then(|date| parse_date(&date).ok());
        trials::window(&plan, date, members, self.language).map_err(thrown)
    }

    /// The lives of the members `from` up to `to`, looked at every so many days, as numbers for [`Explorer::bands`].
    pub fn share(
        &mut self,
        scenario: &str,
        every: u32,
        from: u32,
        to: u32,
    ) -> Result<js_sys::Float64Array, JsValue> {
        let crowd = self.crowd_of(scenario, every).map_err(thrown)?;
        crowd.share(from, to).map_err(thrown)
    }

    /// The bands of all members' shares, in the order of the members.
    #[wasm_bindgen(unchecked_return_type = "Bands")]
    pub fn bands(
        &mut self,
        scenario: &str,
        every: u32,
        shares: &[f64],
    ) -> Result<JsValue, JsValue> {
        let crowd = self.crowd_of(scenario, every).map_err(thrown)?;
        crowd.bands(shares)
    }

    /// Where a hive stands after its visits; `today`: the date in Greenwich.
    #[wasm_bindgen(unchecked_return_type = "Verdict")]
    pub fn verdict(
        &mut self,
        scenario: &str,
        book: &str,
        today: Option<String>,
        members: u32,
        progress: &js_sys::Function,
    ) -> Result<JsValue, JsValue> {
        let book: VisitBook = read_form(book).map_err(thrown)?;
        let language = self.language;
        let crowd = self.crowd_of(scenario, 1).map_err(thrown)?;
        let mut verdict = crowd
            .verdict(&book, today.as_deref(), members, progress)
            .map_err(thrown)?;
        verdict.spoken(language);
        Ok(to_js(&verdict))
    }

    /// What to do next, after a hive's visits or, in an empty book, with a colony of this start: from `on` (none: the last
    /// visit) for some weeks, in words and as calendar files that say that they were made on `today`, the date in Greenwich.
    #[wasm_bindgen(js_name = whatNext, unchecked_return_type = "WhatNext")]
    pub fn what_next(
        &mut self,
        scenario: &str,
        book: &str,
        on: Option<String>,
        today: &str,
        members: u32,
        progress: &js_sys::Function,
    ) -> Result<JsValue, JsValue> {
        let book: VisitBook = read_form(book).map_err(thrown)?;
        let language = self.language;
        let crowd = self.crowd_of(scenario, 1).map_err(thrown)?;
        let on = on.map(|on| date_of("on", &on)).transpose();
        let on = on.map_err(thrown)?;
        let today = date_of("today", today).map_err(thrown)?;
        let list = crowd
            .next(&book, on, today, members, progress)
            .map_err(thrown)?;
        Ok(agenda::of(list, today, language))
    }

    /// The best of many plans for `wishes` (JSON: `goals`, `what`, `visitsPerWeek`, `noChemicals`, `jars`), after a hive's visits
    /// or, in an empty book, with a colony of this start: from `on` (none: the last visit). It goes on until `more`, which is
    /// asked after each piece of work, says no, and gives the best so far; the same question again goes on from there, another begins anew.
    /// Calendar files say that they were made on `today`, the date in Greenwich.
    #[expect(clippy::too_many_arguments, reason = "a door takes plain values")]
    #[wasm_bindgen(unchecked_return_type = "SearchSoFar")]
    pub fn search(
        &mut self,
        scenario: &str,
        book: &str,
        wishes: &str,
        on: Option<String>,
        today: &str,
        members: u32,
        more: &js_sys::Function,
    ) -> Result<JsValue, JsValue> {
        let day = on.as_deref().unwrap_or_default();
        let question = [scenario, book, wishes, day, today, &members.to_string()].join("\n");
        let today = date_of("today", today).map_err(thrown)?;
        let kept = self.search.take().filter(|kept| kept.is_for(&question));
        let mut kept = match kept {
            Some(kept) => kept,
            None => {
                let book: VisitBook = read_form(book).map_err(thrown)?;
                let wishes = Wishes::from_json(wishes).map_err(thrown)?;
                let on = on.map(|on| date_of("on", &on)).transpose();
                let on = on.map_err(thrown)?;
                let crowd = self.crowd_of(scenario, 1).map_err(thrown)?;
                let begun = crowd.begin_search(&book, &wishes, (on, today), members);
                Kept::new(question, begun.map_err(thrown)?)
            }
        };
        kept.go_on(more).map_err(thrown)?;
        Ok(self.search.insert(kept).so_far(today))
    }

    /// The sentences of one day of the season called `name`, in `metric` or `us` units; `null` where there are none.
    #[wasm_bindgen(unchecked_return_type = "Story | null")]
    pub fn story(&self, name: &str, date: &str, units: &str) -> JsValue {
        let speech = self.speech(units);
        let told = self
            .seasons
            .get(name)
            .zip(parse_date(date).ok())
            .and_then(|(season, date)| story::on(season, date.0, speech));
        to_js(&told)
    }
}

/// A language by its code; English for any other.
fn language_of(code: Option<&str>) -> Language {
    let known = Language::ALL
        .into_iter()
        .find(|language| Some(language.code()) == code);
    known.unwrap_or_default()
}

/// Units by their name; metric for any other.
fn units_of(name: &str) -> Units {
    if name == "us" {
        Units::Us
    } else {
        Units::Metric
    }
}

impl Explorer {
    fn speech(&self, units: &str) -> Speech {
        Speech {
            language: self.language,
            units: units_of(units),
        }
    }

    /// The colonies of a scenario, made ready where it is not the last one's.
    fn crowd_of(&mut self, scenario: &str, every: u32) -> Result<&Crowd, combcast_core::Error> {
        let ready = match self.crowd.take() {
            Some(ready) if ready.0 == scenario && ready.1 == every => ready,
            _ => {
                let read = Scenario::from_json(scenario)?;
                let peers = Peers::new(&read, self.record_of(&read)?)?;
                (scenario.to_owned(), every, Crowd::new(read, peers, every))
            }
        };
        Ok(&self.crowd.insert(ready).2)
    }

    /// A scenario with the record that it names.
    fn sided(&mut self, scenario: &str) -> Result<Sided, combcast_core::Error> {
        let scenario = Scenario::from_json(scenario)?;
        let record = self
            .record_of(&scenario)?
            .map(|(weather, report)| (weather.clone(), report.clone()));
        Ok(Sided { scenario, record })
    }

    /// The record that a scenario names, where it names one whose file is here.
    fn record_of(
        &mut self,
        scenario: &Scenario,
    ) -> Result<Option<(&Weather, &Report)>, combcast_core::Error> {
        let source = &scenario.weather;
        let Some(record) = &source.record else {
            return Ok(None);
        };
        let wanted = Wanted {
            record: record.clone(),
            station: source.station.clone(),
            units: source.units,
        };
        if self.read.as_ref().is_none_or(|read| read.wanted != wanted) {
            let file = BuiltIn::named(record).map_or(record.as_str(), |built_in| built_in.file);
            let Some(bytes) = self.files.get(file) else {
                return Ok(None);
            };
            let days = weather::read_for(scenario, bytes)?;
            self.read = Some(Read { wanted, days });
        }
        Ok(self.read.as_ref().map(|read| (&read.days.0, &read.days.1)))
    }
}

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = "import type { Bands, Catalogue, FrameWindow, HiveCells, Outcome, SearchSoFar, Story, Trial, TrialDay, Verdict, WhatNext } from '../types';
import type { Scenario } from '../scenario';
import type { VisitBook } from '../visits';";
