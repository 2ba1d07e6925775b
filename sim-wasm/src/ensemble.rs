//! Ensembles in slices: a worker runs some members, looks whether it is still wanted, and goes on.
//!
//! Who asks holds the object and may drop it at any time; nothing runs between calls.

use combcast_core::calendar::{CalendarDate, parse_date};
use combcast_core::scenario::{Mode, Without};
use combcast_core::story::{self, Names};
use combcast_core::twin::{self, Comparison, Pair, Side};
use combcast_core::weather::{Report, Weather};
use combcast_core::window::{self, Question, Ready, Window};
use combcast_core::{Error, Scenario};
use serde::Deserialize;
use wasm_bindgen::prelude::*;

use crate::problem::thrown;
use crate::{to_js, units_of};

/// A weather record of its own.
pub type Record = Option<(Weather, Report)>;

fn side<'a>(scenario: &'a Scenario, record: &'a Record) -> Side<'a> {
    Side {
        scenario,
        record: record.as_ref().map(|(weather, report)| (weather, report)),
    }
}

fn read<'a, T: Deserialize<'a>>(question: &'a str) -> Result<T, Error> {
    serde_json::from_str(question).map_err(|error| Error::scenario("question", error.to_string()))
}

fn date(place: &str, text: &str) -> Result<CalendarDate, Error> {
    parse_date(text).map_err(|message| Error::scenario(place, message))
}

/// Members that are still to run, at most `count` of them.
fn next(done: usize, members: u32, count: u32) -> std::ops::Range<u32> {
    let done = done as u32;
    done..members.min(done.saturating_add(count.max(1)))
}

/// What is asked of a twin.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct TwinQuestion {
    /// The twin as JSON text of a scenario; in place of it, `without`.
    twin: Option<String>,
    /// What the twin does without, as in `move:2`.
    without: Option<String>,
    /// Seasons to live twice; 0: one in expected values.
    members: u32,
    /// Look every so many days.
    #[serde(default = "weekly")]
    every: usize,
    /// And on these dates.
    #[serde(default)]
    on: Vec<String>,
}

fn weekly() -> usize {
    7
}

impl TwinQuestion {
    pub fn read(question: &str) -> Result<Self, Error> {
        read(question)
    }

    /// The twin of a plan, and what the two are called.
    pub fn twin_of(&self, plan: &Scenario) -> Result<(Scenario, Names), Error> {
        match (&self.twin, &self.without) {
            (Some(text), None) => {
                let mut twin =
                    Scenario::from_json(text).map_err(|error| error.within(twin::TWIN))?;
                twin.seed = plan.seed;
                let names = Names::of(plan, &twin);
                Ok((twin, names))
            }
            (None, Some(what)) => {
                let without: Without = what
                    .parse()
                    .map_err(|message: String| Error::scenario("without", message))?;
                Ok((plan.without(without)?, Names::without(plan, without)))
            }
            _ => Err(Error::scenario("question", "expected twin or without")),
        }
    }
}

/// A plan and its twin, member by member.
#[wasm_bindgen]
#[derive(Debug)]
pub struct TwinRun {
    plan: Scenario,
    twin: Scenario,
    records: [Record; 2],
    names: Names,
    members: u32,
    every: usize,
    on: Vec<CalendarDate>,
    done: Vec<twin::Member>,
}

impl TwinRun {
    pub fn new(
        plan: Scenario,
        twin: Scenario,
        names: Names,
        records: [Record; 2],
        question: &TwinQuestion,
    ) -> Result<Self, Error> {
        let on = question.on.iter().map(|text| date("on", text));
        let run = Self {
            on: on.collect::<Result<_, _>>()?,
            plan,
            twin,
            records,
            names,
            members: question.members,
            every: question.every,
            done: Vec::new(),
        };
        let pair = run.pair()?;
        if run.members > 0 {
            pair.check_size(run.members)?;
        }
        Ok(run)
    }

    fn pair(&self) -> Result<Pair<'_>, Error> {
        let on: Vec<_> = self.on.iter().map(|date| date.0).collect();
        Pair::new(
            side(&self.plan, &self.records[0]),
            side(&self.twin, &self.records[1]),
            self.every,
            &on,
        )
    }

    fn compared(&self) -> Result<Comparison, Error> {
        let mode = if self.members == 0 {
            Mode::Mean
        } else {
            Mode::Random
        };
        Comparison::of(&self.pair()?, mode, self.done.iter().cloned().map(Ok))
    }
}

#[wasm_bindgen]
impl TwinRun {
    /// Runs at most `count` more members; returns how many are still to run.
    #[wasm_bindgen(js_name = goOn)]
    pub fn go_on(&mut self, count: u32) -> Result<u32, JsValue> {
        let pair = self.pair().map_err(thrown)?;
        let mut more = Vec::new();
        if self.members == 0 && self.done.is_empty() {
            more.push(pair.mean().map_err(thrown)?);
        }
        for member in next(self.done.len(), self.members, count) {
            more.push(pair.member(member).map_err(thrown)?);
        }
        self.done.append(&mut more);
        Ok(self.members.saturating_sub(self.done.len() as u32))
    }

    /// The comparison of the members that have run.
    #[wasm_bindgen(js_name = soFar, unchecked_return_type = "Comparison")]
    pub fn so_far(&self) -> Result<JsValue, JsValue> {
        self.compared()
            .map(|compared| to_js(&compared))
            .map_err(thrown)
    }

    /// The sentences of a date that is looked at, in `metric` or `us` units; `null` for another date.
    #[wasm_bindgen(unchecked_return_type = "Story | null")]
    pub fn story(&self, on: &str, units: &str) -> Result<JsValue, JsValue> {
        let compared = self.compared().map_err(thrown)?;
        let told = date("date", on)
            .ok()
            .and_then(|on| compared.on(on.0))
            .map(|there| story::twin(&compared, there, &self.names, units_of(units)));
        Ok(to_js(&told))
    }
}

/// What is asked of a window.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct WindowQuestion {
    /// The day on which a drone frame is put in; left out: the one of the plan.
    date: Option<String>,
    /// Where it is put in.
    at: Option<combcast_core::scenario::moves::At>,
    /// Drawn already.
    #[serde(default)]
    drawn: bool,
    /// The day on which mites are counted.
    counted_on: Option<String>,
    /// Seasons of whole animals; 0: one in expected values.
    #[serde(default)]
    members: u32,
}

/// The window of a drone frame, member by member.
#[wasm_bindgen]
#[derive(Debug)]
pub struct WindowRun {
    plan: Scenario,
    record: Record,
    question: Question,
    members: u32,
    done: Vec<window::Member>,
}

impl WindowRun {
    pub fn new(plan: Scenario, record: Record, question: &str) -> Result<Self, Error> {
        let asked: WindowQuestion = read(question)?;
        let optional = |place: &str, text: &Option<String>| {
            let read = text.as_ref().map(|text| date(place, text)).transpose()?;
            Ok::<_, Error>(read.map(|date| date.0))
        };
        let run = Self {
            question: Question {
                frame: window::Frame {
                    date: optional("date", &asked.date)?,
                    at: asked.at,
                    drawn: asked.drawn,
                },
                counted_on: optional("counted_on", &asked.counted_on)?,
            },
            plan,
            record,
            members: asked.members,
            done: Vec::new(),
        };
        run.ready()?;
        Ok(run)
    }

    fn ready(&self) -> Result<Ready<'_>, Error> {
        Ready::new(side(&self.plan, &self.record), self.question)
    }

    fn window(&self) -> Result<Window, Error> {
        let mode = if self.members == 0 {
            Mode::Mean
        } else {
            Mode::Random
        };
        Window::of(&self.ready()?, mode, self.done.iter().cloned().map(Ok))
    }
}

#[wasm_bindgen]
impl WindowRun {
    /// Runs at most `count` more members; returns how many are still to run.
    #[wasm_bindgen(js_name = goOn)]
    pub fn go_on(&mut self, count: u32) -> Result<u32, JsValue> {
        let ready = self.ready().map_err(thrown)?;
        let mut more = Vec::new();
        if self.members == 0 && self.done.is_empty() {
            more.push(ready.mean().map_err(thrown)?);
        }
        for member in next(self.done.len(), self.members, count) {
            more.push(ready.member(member).map_err(thrown)?);
        }
        self.done.append(&mut more);
        Ok(self.members.saturating_sub(self.done.len() as u32))
    }

    /// The window over the members that have run.
    #[wasm_bindgen(js_name = soFar, unchecked_return_type = "DroneWindow")]
    pub fn so_far(&self) -> Result<JsValue, JsValue> {
        self.window().map(|window| to_js(&window)).map_err(thrown)
    }

    /// Its sentences.
    #[wasm_bindgen(unchecked_return_type = "Story")]
    pub fn story(&self) -> Result<JsValue, JsValue> {
        let window = self.window().map_err(thrown)?;
        Ok(to_js(&story::window(&window)))
    }
}

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = "
export interface Spread {
  mean: number; standard_error: number;
  q05: number; q25: number; median: number; q75: number; q95: number;
}
export interface TwinQuestion {
  /** JSON text of a scenario; in place of it, `without`. */
  twin?: string;
  /** As in `move:2`, `move:add_box`, `feed`, `rain`. */
  without?: string;
  /** Seasons to live twice; 0: one in expected values. */
  members: number;
  /** Look every so many days; 7 where nothing is said. */
  every?: number;
  /** And on these dates. */
  on?: string[];
}
export interface Compared {
  name: string; unit: string;
  plan: Spread; twin: Spread;
  /** Plan less twin, member by member. */
  difference: Spread;
  better: { ahead: number; level: number; behind: number };
  /** That the plan is the better one. */
  probability: number; probability_error: number;
}
export interface Comparison {
  version: string; plan: string; plan_digest: string; twin: string; twin_digest: string;
  seed: number; mode: 'mean' | 'random'; members: number; drawn_weather: boolean;
  dates: { date: string; plan_lost: number; twin_lost: number; measures: Compared[] }[];
}
export interface WindowQuestion {
  /** The day on which a drone frame is put in; left out: the one of the plan. */
  date?: string;
  at?: { box: number; place: number };
  /** Drawn already. */
  drawn?: boolean;
  countedOn?: string;
  /** Seasons of whole animals; 0 or left out: one in expected values. */
  members?: number;
}
export interface DayOut {
  date: string; days_in: number; days_late: number | null; days_since_first_egg: number | null;
  drone_cells_open: number; drone_cells_capped: number; drones_emerged: number;
  mites_let_out: number; mites_removed: Spread; share_of_mites: number;
  /** Mites fewer (negative: more) than without the frame on the day of the count. */
  gain: Spread;
  probability: number; lost: number;
}
export interface DroneWindow {
  version: string; plan: string; plan_digest: string; seed: number; mode: 'mean' | 'random'; members: number;
  given: string; at: { box: number; place: number }; set_aside: string[];
  first_egg: string | null; emerges: string | null; last_safe: string | null;
  counted_on: string; mites_without: Spread; gain_left_in: Spread;
  days: DayOut[];
}
";

#[cfg(test)]
mod tests {
    use super::{TwinQuestion, TwinRun, WindowRun};
    use combcast_core::Scenario;
    use combcast_core::scenario::Mode;
    use combcast_core::twin::{Comparison, Pair};

    /// Its weather is drawn, so that it needs no file.
    fn plan() -> Scenario {
        let text = include_str!("../../scenarios/southern-spring.toml");
        let mut plan = Scenario::from_toml(text).expect("a sound scenario");
        plan.start.mites_per_100_bees = 1.0;
        plan
    }

    #[test]
    fn slices_come_to_what_the_whole_comes_to() {
        let plan = plan();
        let asked = r#"{ "without": "move:1", "members": 7, "every": 30, "on": ["2014-12-24"] }"#;
        let asked = TwinQuestion::read(asked).unwrap();
        let (twin, names) = asked.twin_of(&plan).unwrap();
        let mut run =
            TwinRun::new(plan.clone(), twin.clone(), names, [None, None], &asked).unwrap();
        let left: Vec<u32> = std::iter::repeat_with(|| run.go_on(3).unwrap())
            .take(4)
            .collect();
        assert_eq!(left, [4, 1, 0, 0]);
        let on = [run.on[0].0];
        let pair = Pair::new(
            super::side(&plan, &None),
            super::side(&twin, &None),
            30,
            &on,
        )
        .unwrap();
        let whole = Comparison::of(
            &pair,
            Mode::Random,
            (0..7).map(|member| pair.member(member)),
        );
        assert_eq!(run.compared().unwrap(), whole.unwrap());
    }

    #[test]
    fn a_window_is_asked_in_the_words_of_the_page() {
        let asked = r#"{ "date": "2014-11-20", "at": { "box": 1, "place": 1 }, "drawn": true }"#;
        let mut run = WindowRun::new(plan(), None, asked).unwrap();
        assert_eq!(run.go_on(1).unwrap(), 0);
        let window = run.window().unwrap();
        assert_eq!((window.members, window.mode), (1, Mode::Mean));
        assert!(window.last_safe.is_some());
        let typo = WindowRun::new(plan(), None, r#"{ "dat": "2014-11-20" }"#).unwrap_err();
        assert!(typo.message.contains("dat"), "{typo}");
    }
}
