//! Moves tried on the colony: a plan against its twin over an ensemble, and the window of a drone frame.

use combcast_core::calendar::CalendarDate;
use combcast_core::scenario::Mode;
use combcast_core::story::{self, Names, Story};
use combcast_core::twin::{Comparison, MEASURES, Member, OnDate, Pair, Side};
use combcast_core::weather::{Report, Weather};
use combcast_core::window::{Frame, Question, Ready, Window};
use combcast_core::words::{Language, Speech};
use combcast_core::{Error, Scenario};
use js_sys::Float64Array;
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::outcome::set;
use crate::to_js;

/// A scenario and the record that it names, where that is here.
#[derive(Debug)]
pub struct Sided {
    /// The plan.
    pub scenario: Scenario,
    /// Its weather record.
    pub record: Option<(Weather, Report)>,
}

impl Sided {
    fn side(&self) -> Side<'_> {
        Side {
            scenario: &self.scenario,
            record: self
                .record
                .as_ref()
                .map(|(weather, report)| (weather, report)),
        }
    }
}

/// A plan and its twin, compared on every day that both have.
#[derive(Debug)]
pub struct Trial {
    comparison: Comparison,
    members: Vec<Member>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Facts {
    first: String,
    days: usize,
    members: usize,
    drawn_weather: bool,
    measures: Vec<MeasureInfo>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct MeasureInfo {
    name: &'static str,
    unit: &'static str,
    more_is_better: bool,
}

#[derive(Serialize)]
struct Told {
    story: Story,
    /// Plan less twin, for each measure a number for each member.
    differences: Vec<Vec<f64>>,
    /// Members in which the plan is the better, by measure.
    probabilities: Vec<f64>,
}

impl Trial {
    /// Runs both seasons of so many members, in whole animals.
    pub fn run(plan: &Sided, twin: &Sided, members: u32) -> Result<Self, Error> {
        let pair = Pair::new(plan.side(), twin.side(), 1, &[])?;
        pair.check_size(members)?;
        let members = (0..members)
            .map(|member| pair.member(member))
            .collect::<Result<Vec<_>, _>>()?;
        let comparison = Comparison::of(&pair, Mode::Random, members.iter().cloned().map(Ok))?;
        Ok(Self {
            comparison,
            members,
        })
    }

    /// The trial as an object: facts, and `values`, for each measure the 5 % line of the difference over the days,
    /// its median, its 95 % line, and the probability that the plan is the better.
    pub fn to_js(&self) -> Result<JsValue, JsValue> {
        let dates = &self.comparison.dates;
        let object = to_js(&Facts {
            first: dates
                .first()
                .map_or_else(String::new, |there| there.date.to_string()),
            days: dates.len(),
            members: self.comparison.members,
            drawn_weather: self.comparison.drawn_weather,
            measures: MEASURES
                .iter()
                .map(|measure| MeasureInfo {
                    name: measure.name,
                    unit: measure.unit,
                    more_is_better: measure.more_is_better,
                })
                .collect(),
        });
        let mut values = Vec::new();
        for measure in 0..MEASURES.len() {
            let mut add = |of: &dyn Fn(&OnDate) -> f64| values.extend(dates.iter().map(of));
            add(&|there| there.measures[measure].difference.q05);
            add(&|there| there.measures[measure].difference.median);
            add(&|there| there.measures[measure].difference.q95);
            add(&|there| there.measures[measure].probability);
        }
        set(&object, "values", &Float64Array::from(&values[..]))?;
        Ok(object)
    }

    /// One date in words, and what it came to in each member; `null` where the trial has no such date.
    pub fn on(&self, date: CalendarDate, names: &Names, speech: Speech) -> JsValue {
        let dates = &self.comparison.dates;
        let Some(k) = dates.iter().position(|there| there.date == date) else {
            return JsValue::NULL;
        };
        to_js(&Told {
            story: story::twin(&self.comparison, &dates[k], names, speech),
            differences: (0..MEASURES.len())
                .map(|m| {
                    self.members
                        .iter()
                        .map(|member| member.plan[k][m] - member.twin[k][m])
                        .collect()
                })
                .collect(),
            probabilities: dates[k]
                .measures
                .iter()
                .map(|compared| compared.probability)
                .collect(),
        })
    }
}

#[derive(Serialize)]
struct Shown {
    window: Window,
    story: Story,
}

/// The window of the drone frame that is put in on `date` (none: the plan's first); `members` of 0: in
/// expected values.
pub fn window(
    plan: &Sided,
    date: Option<CalendarDate>,
    members: u32,
    language: Language,
) -> Result<JsValue, Error> {
    let question = Question {
        frame: Frame {
            date: date.map(|date| date.0),
            ..Frame::default()
        },
        counted_on: None,
    };
    let ready = Ready::new(plan.side(), question)?;
    let window = if members == 0 {
        Window::of(&ready, Mode::Mean, [ready.mean()])?
    } else {
        let seasons = (0..members).map(|member| ready.member(member));
        Window::of(&ready, Mode::Random, seasons)?
    };
    let story = story::window(&window, language.into());
    Ok(to_js(&Shown { window, story }))
}
