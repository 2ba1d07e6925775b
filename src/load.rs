//! Reading files: scenarios with their weather records.

use std::borrow::Cow;
use std::fs;
use std::io::{self, Read};
use std::path::Path;

use combcast_core::calendar::CalendarDate;
use combcast_core::ensemble::Peers;
use combcast_core::scenario::locate;
use combcast_core::visits::VisitBook;
use combcast_core::weather::{self, BUILT_IN, BuiltIn, Report, Weather};
use combcast_core::words::Language;
use combcast_core::{Error, Scenario, Season};
use jiff::civil::Date;

use crate::args;
use crate::output::{self, Failure};
use crate::records;

/// A scenario as it is to be run, and its season.
#[derive(Debug)]
pub struct Run {
    pub scenario: Scenario,
    pub report: Report,
    pub season: Season,
}

/// Reads a scenario, applies the changes given on the command line, and runs it.
pub fn run(given: &args::Scenario) -> Result<Run, Failure> {
    let (scenario, bytes) = scenario(given)?;
    season(scenario, &given.file, &bytes)
}

/// Reads a scenario and applies the changes given on the command line; also the bytes of the file.
pub fn scenario(given: &args::Scenario) -> Result<(Scenario, Vec<u8>), Failure> {
    let bytes = read(&given.file)?;
    let mut scenario = Scenario::from_bytes(&bytes, &name(&given.file))?;
    if let Some(seed) = given.seed {
        scenario.seed = seed;
    }
    if let Some(mode) = given.mode {
        scenario.mode = mode.into();
    }
    for (path, value) in &given.set {
        // Checked here, where the message can name the option, not a line of the file.
        combcast_core::Parameters::default()
            .set(path, *value)
            .map_err(|error| error.within("--set"))?;
        scenario.parameters.insert(path.clone(), *value);
    }
    Ok((scenario, bytes))
}

/// Reads a scenario with its weather, and makes ready the colonies that share them.
pub fn peers(given: &args::Scenario) -> Result<(Scenario, Peers), Failure> {
    peers_until(given, None)
}

/// As [`peers`], with another last day of the season, `--until`.
pub fn peers_until(
    given: &args::Scenario,
    until: Option<Date>,
) -> Result<(Scenario, Peers), Failure> {
    let (mut scenario, bytes) = scenario(given)?;
    if let Some(until) = until {
        end(&mut scenario, CalendarDate(until));
    }
    let record = record(&scenario, &given.file)?;
    let record = record.as_ref().map(|(weather, report)| (weather, report));
    let peers = Peers::new(&scenario, record).map_err(|error| {
        if until.is_some() && error.place == "until" {
            return Error::scenario("--until", error.message);
        }
        let text = std::str::from_utf8(&bytes).unwrap_or("");
        locate(error, text).within(&name(&given.file))
    })?;
    Ok((scenario, peers))
}

/// Lets a season end on another day; what the plan does later is left out.
fn end(scenario: &mut Scenario, until: CalendarDate) {
    scenario.until = until;
    scenario.feed.retain(|feed| feed.from <= until);
    for feed in &mut scenario.feed {
        feed.to = feed.to.min(until);
    }
    let moves = &mut scenario.moves;
    moves.retain(|step| step.date.is_none_or(|date| date <= until));
    for step in moves {
        step.until = step.until.map(|last| last.min(until));
    }
    scenario.expect.retain(|expected| expected.date <= until);
}

/// The scenario of a hive: the one that its visits name, beside their file, or else the one that is given.
pub fn of_hive(given: &args::Scenario, visits: &Path, book: &VisitBook) -> args::Scenario {
    let mut own = given.clone();
    if !book.scenario.is_empty() {
        own.file = visits.with_file_name(&book.scenario);
    }
    own
}

/// Reads the record that a scenario read from `file` names, if it names one.
pub fn record(scenario: &Scenario, file: &Path) -> Result<Option<(Weather, Report)>, Failure> {
    let name = name(file);
    let within = |error: Error| error.within(&name);
    let Some(bytes) = record_bytes(scenario, file).map_err(within)? else {
        return Ok(None);
    };
    let read = weather::read_for(scenario, &bytes).map_err(within)?;
    Ok(Some(read))
}

/// How much of a season's weather was measured and what was mended, for the end of what is told.
pub fn sky(scenario: &Scenario, file: &Path, language: Language) -> Result<String, Failure> {
    let record = record(scenario, file)?;
    let record = record.as_ref().map(|(weather, report)| (weather, report));
    let within = |error: Error| error.within(&name(file));
    let (_, report) = weather::lay(scenario, record, 0).map_err(within)?;
    Ok(format!("\n{}", sky_of(&report, language)))
}

/// As [`sky`], of a report that is there.
pub fn sky_of(report: &Report, language: Language) -> String {
    let told = report.season_told(language).unwrap_or_default();
    let mut lines = output::dim(&told, 0);
    for repair in &report.repairs {
        lines.push_str(&output::dim(&repair.told(language.into()), 2));
    }
    lines
}

/// Finds the weather of a scenario that was read from `file`, and runs it.
pub fn season(scenario: Scenario, file: &Path, bytes: &[u8]) -> Result<Run, Failure> {
    let name = name(file);
    let within = |error: Error| {
        let error = match std::str::from_utf8(bytes) {
            Ok(text) => locate(error, text),
            Err(_) => error,
        };
        Failure::from(error.within(&name))
    };
    let (weather, report) = weather(&scenario, file, &within)?;
    let season = combcast_core::run(&scenario, &weather).map_err(within)?;
    Ok(Run {
        scenario,
        report,
        season,
    })
}

fn weather(
    scenario: &Scenario,
    file: &Path,
    within: &impl Fn(Error) -> Failure,
) -> Result<(Weather, Report), Failure> {
    let record = record_bytes(scenario, file).map_err(within)?;
    weather::resolve(scenario, record.as_deref()).map_err(within)
}

/// The bytes of the record that a scenario names, if it names one.
fn record_bytes<'a>(scenario: &Scenario, file: &Path) -> Result<Option<Cow<'a, [u8]>>, Error> {
    let Some(record) = &scenario.weather.record else {
        return Ok(None);
    };
    if let Some(built_in) = BuiltIn::named(record) {
        return Ok(Some(records::bytes(built_in.file).into()));
    }
    // A path is meant from the scenario's folder, so that the two files can be moved together.
    let path = file.parent().unwrap_or(Path::new("")).join(record);
    match fs::read(&path) {
        Ok(bytes) => Ok(Some(bytes.into())),
        Err(error) => Err(Error::scenario(
            "weather.record",
            format!(
                "{}; expected a weather file beside the scenario, or one of the built-in records {}",
                told(&path, &error),
                built_in_names()
            ),
        )),
    }
}

/// The names of the built-in records.
pub fn built_in_names() -> String {
    let names: Vec<&str> = BUILT_IN.iter().map(|record| record.name).collect();
    names.join(", ")
}

/// A file as faults name it.
pub fn name(file: &Path) -> String {
    if file == Path::new("-") {
        "standard input".to_owned()
    } else {
        file.display().to_string()
    }
}

/// The bytes of a file, or of standard input for `-`.
pub fn read(file: &Path) -> Result<Vec<u8>, Failure> {
    let read = if file == Path::new("-") {
        let mut bytes = Vec::new();
        io::stdin().read_to_end(&mut bytes).map(|_| bytes)
    } else {
        fs::read(file)
    };
    read.map_err(|error| Failure::File(told(file, &error)))
}

/// What went wrong with a file, in plain words.
fn told(file: &Path, error: &io::Error) -> String {
    let why = match error.kind() {
        io::ErrorKind::NotFound => "no such file".to_owned(),
        io::ErrorKind::IsADirectory => "is a folder; expected a file".to_owned(),
        _ => error.to_string(),
    };
    format!("{}: {why}", name(file))
}
