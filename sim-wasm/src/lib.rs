//! The door between the Combcast model and the page: scenarios and weather records go in, columns
//! of numbers and sentences come out. No biology lives here.
//!
//! Scenarios cross as JSON text, because the strict reader (`deny_unknown_fields`) works on text and
//! not on JavaScript objects. Faults are thrown as plain objects `{ kind, place, message, excerpt }`.

use combcast_core::observe::COLUMNS;
use combcast_core::queen::{Brake, QueenState};
use combcast_core::story::{self, Units};
use combcast_core::weather::{self, Origin};
use combcast_core::{Error, ErrorKind, Scenario, Season, digest};
use js_sys::{Float64Array, Reflect, Uint8Array};
use serde::Serialize;
use wasm_bindgen::prelude::*;

/// The order of the codes in [`Explorer::run`]'s `brakes`.
const BRAKES: [Brake; 8] = [
    Brake::HerRate,
    Brake::EmptyCells,
    Brake::Nurses,
    Brake::Pollen,
    Brake::Food,
    Brake::Warmth,
    Brake::Caged,
    Brake::NoQueen,
];
/// The order of the codes in `queen`.
const QUEEN_STATES: [QueenState; 3] = [QueenState::Caged, QueenState::Laying, QueenState::None];
/// The order of the codes in `origins`.
const ORIGINS: [Origin; 5] = [
    Origin::Measured,
    Origin::Filled,
    Origin::Typed,
    Origin::Spell,
    Origin::Generated,
];

/// Keeps the words of a panic: by itself it reaches JavaScript as `unreachable` and nothing else.
#[wasm_bindgen(start)]
pub fn keep_panic_message() {
    std::panic::set_hook(Box::new(|panic| {
        let words = JsValue::from_str(&panic.to_string());
        web_sys::console::error_1(&words);
        let _ = Reflect::set(&js_sys::global(), &"combcastPanic".into(), &words);
    }));
}

/// A fault as the page shows it.
#[derive(Serialize)]
struct Problem {
    kind: &'static str,
    place: String,
    message: String,
    excerpt: Option<String>,
}

impl From<Error> for Problem {
    fn from(error: Error) -> Self {
        let kind = match error.kind {
            ErrorKind::Scenario => "scenario",
            ErrorKind::Weather => "weather",
            ErrorKind::Parameter => "parameter",
            ErrorKind::Invariant => "invariant",
        };
        Self {
            kind,
            place: error.place,
            message: error.message,
            excerpt: error.excerpt,
        }
    }
}

fn thrown(error: Error) -> JsValue {
    to_js(&Problem::from(error))
}

/// Plain data as a JavaScript object.
fn to_js<T: Serialize + ?Sized>(value: &T) -> JsValue {
    let serializer = serde_wasm_bindgen::Serializer::new()
        .serialize_maps_as_objects(true)
        .serialize_missing_as_null(true);
    // Names, numbers and lists always have a JavaScript counterpart.
    value.serialize(&serializer).unwrap_or(JsValue::NULL)
}

fn from_json(scenario: &str) -> Result<Scenario, JsValue> {
    serde_json::from_str(scenario).map_err(|fault| thrown(Error::scenario("", fault.to_string())))
}

fn code_of<T: PartialEq>(list: &[T], value: &T) -> u8 {
    list.iter().position(|one| one == value).unwrap_or(list.len()) as u8
}

/// What the model offers, the same for every season: columns, brakes, built-in weather.
#[wasm_bindgen(unchecked_return_type = "Catalogue")]
pub fn catalogue() -> JsValue {
    #[derive(Serialize)]
    struct Catalogue {
        version: &'static str,
        columns: &'static [combcast_core::observe::ColumnInfo],
        brakes: [Brake; 8],
        #[serde(rename = "queenStates")]
        queen_states: [QueenState; 3],
        origins: [Origin; 5],
    }
    to_js(&Catalogue {
        version: env!("CARGO_PKG_VERSION"),
        columns: COLUMNS,
        brakes: BRAKES,
        queen_states: QUEEN_STATES,
        origins: ORIGINS,
    })
}

/// The JSON Schema of a scenario, as text.
#[wasm_bindgen(js_name = scenarioSchema)]
pub fn scenario_schema() -> String {
    serde_json::to_string(&schemars::schema_for!(Scenario)).unwrap_or_default()
}

/// Reads a scenario file. Throws the fault with its place in the text.
#[wasm_bindgen(unchecked_return_type = "Scenario")]
pub fn open(#[wasm_bindgen(unchecked_param_type = "Uint8Array")] file: &[u8]) -> Result<JsValue, JsValue> {
    Scenario::from_bytes(file)
        .map(|scenario| to_js(&scenario))
        .map_err(thrown)
}

/// The scenario as the text of a file.
#[wasm_bindgen]
pub fn save(scenario: &str) -> Result<String, JsValue> {
    Ok(from_json(scenario)?.to_toml())
}

/// Everything that does not hold together in a scenario.
#[wasm_bindgen(unchecked_return_type = "Problem[]")]
pub fn problems(scenario: &str) -> Result<JsValue, JsValue> {
    let found: Vec<Problem> = from_json(scenario)?
        .problems()
        .into_iter()
        .map(Problem::from)
        .collect();
    Ok(to_js(&found))
}

/// Runs seasons and keeps the last one, to tell its story.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Explorer {
    last: Option<Season>,
}

#[wasm_bindgen]
impl Explorer {
    /// An explorer that has run nothing yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// Runs a season. `record` is the weather file that the scenario names, where it is not a built-in one.
    #[wasm_bindgen(unchecked_return_type = "Outcome")]
    pub fn run(&mut self, scenario: &str, record: Option<Box<[u8]>>) -> Result<JsValue, JsValue> {
        let scenario = from_json(scenario)?;
        let (weather, report) = weather::resolve(&scenario, record.as_deref()).map_err(thrown)?;
        let season = combcast_core::run(&scenario, &weather).map_err(thrown)?;
        #[derive(Serialize)]
        struct Facts<'a> {
            first: String,
            days: usize,
            events: &'a [combcast_core::Event],
            bloom: [(); 0],
            #[serde(rename = "weatherNotes")]
            weather_notes: Vec<String>,
            digest: String,
        }
        let outcome = to_js(&Facts {
            first: season.first.to_string(),
            days: season.days.len(),
            events: &season.events,
            bloom: [],
            weather_notes: report.notes,
            digest: format!("{:016x}", digest::of(&season)),
        });
        let mut columns = vec![0.0; COLUMNS.len() * season.days.len()];
        for (day, record) in season.days.iter().enumerate() {
            for (column, value) in record.values().into_iter().enumerate() {
                columns[column * season.days.len() + day] = value;
            }
        }
        let brakes: Vec<u8> = season.days.iter().map(|day| code_of(&BRAKES, &day.brake)).collect();
        let queen: Vec<u8> = season
            .days
            .iter()
            .map(|day| code_of(&QUEEN_STATES, &day.queen))
            .collect();
        let skip = combcast_core::calendar::days_between(weather.first, season.first).max(0);
        let origins: Vec<u8> = weather
            .days
            .iter()
            .skip(usize::try_from(skip).unwrap_or(0))
            .take(season.days.len())
            .map(|day| code_of(&ORIGINS, &day.origin))
            .collect();
        Reflect::set(&outcome, &"values".into(), &Float64Array::from(&columns[..]))?;
        Reflect::set(&outcome, &"brakes".into(), &Uint8Array::from(&brakes[..]))?;
        Reflect::set(&outcome, &"queen".into(), &Uint8Array::from(&queen[..]))?;
        Reflect::set(&outcome, &"origins".into(), &Uint8Array::from(&origins[..]))?;
        self.last = Some(season);
        Ok(outcome)
    }

    /// The sentences of one day of the last season, in `metric` or `us` units; `null` outside of it.
    #[wasm_bindgen(unchecked_return_type = "Story | null")]
    pub fn story(&self, date: &str, units: &str) -> JsValue {
        let units = if units == "us" { Units::Us } else { Units::Metric };
        let told = self
            .last
            .as_ref()
            .zip(date.parse().ok())
            .and_then(|(season, date)| story::on(season, date, units));
        to_js(&told)
    }
}

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = "import type { Catalogue, Outcome, Problem, Story } from '../types';\nimport type { Scenario } from '../scenario';";
