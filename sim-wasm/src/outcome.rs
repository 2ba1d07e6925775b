//! One season as the page draws it.

use combcast_core::calendar::{days_between, plus_days};
use combcast_core::forage::plant_in;
use combcast_core::instruments::{Reading, Wash, wash_on};
use combcast_core::observe::COLUMNS;
use combcast_core::queen::{Brake, QueenState};
use combcast_core::season::Prepared;
use combcast_core::weather::{Origin, Report, Weather};
use combcast_core::words::Speech;
use combcast_core::{Event, Season, digest};
use js_sys::{Float64Array, Reflect, Uint8Array};
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::to_js;

/// Where a day's weather came from; its place is its code in `origins`.
pub const ORIGINS: [Origin; 5] = [
    Origin::Measured,
    Origin::Filled,
    Origin::Typed,
    Origin::Spell,
    Origin::Generated,
];

/// Every state of the queen; its place is its code in `queens`.
pub const QUEENS: [QueenState; 7] = [
    QueenState::Caged,
    QueenState::Laying,
    QueenState::Virgin,
    QueenState::Mated,
    QueenState::DroneLayer,
    QueenState::LayingWorkers,
    QueenState::None,
];

/// The parts that are not columns of numbers.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Facts<'a> {
    first: String,
    days: usize,
    events: &'a [Event],
    bloom: Vec<Bloom<'a>>,
    weather_notes: Vec<String>,
    digest: String,
}

#[derive(Serialize)]
struct Bloom<'a> {
    plant: &'a str,
    from: String,
    to: String,
    nectar: f64,
    pollen: f64,
}

/// A season as an object: facts, and arrays with one entry a day (columns one after the other).
pub fn of(
    season: &mut Season,
    prepared: &Prepared,
    weather: &Weather,
    report: &Report,
    speech: Speech,
) -> Result<JsValue, JsValue> {
    let language = speech.language;
    let outlook = &prepared.outlook;
    let date = |day: usize| plus_days(outlook.first, day as i32).to_string();
    let bloom = outlook
        .blooms
        .iter()
        .filter(|span| span.end > prepared.offset)
        .map(|span| Bloom {
            plant: plant_in(&span.plant, language),
            from: date(span.first),
            to: date(span.end - 1),
            nectar: span.nectar,
            pollen: span.pollen,
        })
        .collect();
    for event in &mut season.events {
        event.text.spoken(speech);
    }
    let season = &*season;
    let object = to_js(&Facts {
        first: season.first.to_string(),
        days: season.days.len(),
        events: &season.events,
        bloom,
        weather_notes: report.told(language),
        digest: format!("{:016x}", digest::of(season)),
    });

    let length = season.days.len();
    let mut values = vec![0.0; COLUMNS.len() * length];
    for (day, record) in season.days.iter().enumerate() {
        for (column, value) in record.values().into_iter().enumerate() {
            values[column * length + day] = value;
        }
    }
    let brakes: Vec<u8> = season
        .days
        .iter()
        .map(|day| code(&Brake::ALL, &day.brake))
        .collect();
    let queens: Vec<u8> = season
        .days
        .iter()
        .map(|day| code(&QUEENS, &day.queen))
        .collect();
    // What a wash of half a cup would find, for 100 bees.
    let per_100 = 100.0 / f64::from(Wash::HALF_A_CUP.bees);
    let wash: Vec<Reading> = season.days.iter().map(wash_on).collect();
    let low: Vec<f64> = wash.iter().map(|found| found.low * per_100).collect();
    let high: Vec<f64> = wash.iter().map(|found| found.high * per_100).collect();
    let before = usize::try_from(days_between(weather.first, season.first)).unwrap_or(0);
    let origins: Vec<u8> = weather.days[before..]
        .iter()
        .take(length)
        .map(|day| code(&ORIGINS, &day.origin))
        .collect();
    set(&object, "values", &Float64Array::from(&values[..]))?;
    set(&object, "washLow", &Float64Array::from(&low[..]))?;
    set(&object, "washHigh", &Float64Array::from(&high[..]))?;
    set(&object, "queens", &Uint8Array::from(&queens[..]))?;
    set(&object, "brakes", &Uint8Array::from(&brakes[..]))?;
    set(&object, "origins", &Uint8Array::from(&origins[..]))?;
    Ok(object)
}

pub(crate) fn set(object: &JsValue, name: &str, value: &JsValue) -> Result<(), JsValue> {
    Reflect::set(object, &name.into(), value).map(|_| ())
}

/// The place of a value in the list of all there are.
fn code<T: PartialEq>(all: &[T], value: &T) -> u8 {
    all.iter().position(|one| one == value).unwrap_or(all.len()) as u8
}
