//! `combcast run`: a season in words and weeks, or as a file.

use combcast_core::Season;
use combcast_core::calendar::{days_between, plus_days};
use combcast_core::document::{self, SeasonDocument};
use combcast_core::growth::doubling_d;
use combcast_core::instruments::wash_on;
use combcast_core::observe::DayRecord;
use combcast_core::priors::AssumedMites;
use combcast_core::scenario::Mode;
use combcast_core::season::Event;
use combcast_core::story::{self, Units, WeekRow};
use combcast_core::words::Speech;
use combcast_core::{Error, Scenario};
use jiff::civil::Date;

use crate::args;
use crate::load::{self, Run};
use crate::output::{self, BOLD, DIM, Failure};
use crate::words;

/// Longer lists of events are cut here; the JSON document has all of them.
const MOST_EVENTS: usize = 24;

pub fn run(given: &args::Run) -> Result<(), Failure> {
    let run = load::run(&given.scenario)?;
    let text = if given.json {
        json(&run)?
    } else if given.csv {
        document::csv(&run.scenario, &run.season)
    } else {
        told(&run, given.on, given.speech.get())?
    };
    output::write(&text)
}

fn json(run: &Run) -> Result<String, Failure> {
    let document = SeasonDocument::new(&run.scenario, &run.season, &run.report);
    serde_json::to_string_pretty(&document)
        .map(|text| text + "\n")
        .map_err(|error| Failure::File(error.to_string()))
}

fn told(run: &Run, on: Option<Date>, speech: Speech) -> Result<String, Failure> {
    let season = &run.season;
    let told = match on {
        None => output::list(&story::overview(season, speech)),
        Some(date) => {
            let told = story::on(season, date, speech).ok_or_else(|| outside(season, date))?;
            output::story(&told)
        }
    };
    let mut text = heading(&run.scenario, season, speech);
    text.push_str(&load::sky_of(&run.report, speech.language));
    text.push('\n');
    text.push_str(&told);
    text.push_str("\n\n");
    text.push_str(&weeks(season, on, speech));
    text.push('\n');
    text.push_str(&bees(season, speech));
    text.push_str(&mites(season, speech));
    text.push_str(&mites_unsaid(&run.scenario, season, speech));
    if !season.events.is_empty() {
        text.push('\n');
        text.push_str(&events(&run.scenario, season, speech));
    }
    Ok(text)
}

fn outside(season: &Season, date: Date) -> Error {
    let last = plus_days(season.first, season.days.len() as i32 - 1);
    Error::scenario(
        "--on",
        format!(
            "{date} lies outside of the season; expected a date from {} to {last}",
            season.first
        ),
    )
}

fn heading(scenario: &Scenario, season: &Season, speech: Speech) -> String {
    let mut text = format!("{BOLD}{}{BOLD:#}\n", scenario.name);
    if !scenario.question.is_empty() {
        text.push_str(&output::wrapped(&scenario.question, 0));
        text.push('\n');
    }
    let last = plus_days(season.first, season.days.len() as i32 - 1);
    let words = &words::of(speech.language).run;
    let mode = match season.mode {
        Mode::Mean => words.mean,
        Mode::Random => words.random,
    };
    let parts = [
        ("place", &*scenario.place.name),
        ("from", &speech.language.day_and_month(season.first, true)),
        ("to", &speech.language.day_and_month(last, true)),
        (
            "mode",
            &words::text(mode, &[("seed", &season.seed.to_string())]),
        ),
    ];
    let line = words::text(words.season, &parts);
    for line in output::wrapped(&line, 0).lines() {
        text.push_str(&format!("{DIM}{line}{DIM:#}\n"));
    }
    text
}

fn weeks(season: &Season, on: Option<Date>, speech: Speech) -> String {
    let words = &words::of(speech.language).run;
    let years = over_years(season);
    let weeks = story::week_table(season);
    // Up to the week in which no bees are left: after it there is nothing to be told but rain.
    let lost = weeks.iter().position(|week| week.adult_bees < 1.0);
    let told = lost.map_or(weeks.len(), |lost| lost + 1);
    let rows = weeks.iter().take(told);
    let mut text = output::table(
        &[
            story::week_headings(speech.language),
            story::week_units(speech),
        ],
        &[1, 2, 3, 4, 5, 6, 7],
        rows.map(|week| row(week, on, speech, years)),
    );
    text.push_str(&output::dim(words.weeks, 2));
    if told < weeks.len() {
        text.push_str(&output::dim(words.weeks_after, 2));
    }
    text
}

fn over_years(season: &Season) -> bool {
    season.first.year() != plus_days(season.first, season.days.len() as i32 - 1).year()
}

fn row(week: &WeekRow, on: Option<Date>, speech: Speech, years: bool) -> [String; 9] {
    let chosen = on.is_some_and(|date| {
        let day = days_between(week.from, date);
        0 <= day && day < week.days as i32
    });
    let mark = if chosen { "› " } else { "  " };
    let rain = speech.units.rain(week.rain_mm);
    [
        format!("{mark}{}", speech.language.short_date(week.from, years)),
        speech.language.grouped(week.adult_bees),
        speech.language.decimal(week.frames_of_brood, 1),
        speech.language.decimal(week.drawn_frames, 1),
        speech.language.grouped(week.eggs_a_day),
        speech
            .language
            .decimal(speech.units.weight(week.stores_kg), 1),
        match speech.units {
            Units::Metric => speech.language.decimal(rain, 0),
            Units::Us => speech.language.decimal(rain, 1),
        },
        speech.language.decimal(week.flight_hours, 1),
        week.brake.words(speech.language).to_owned(),
    ]
}

/// A line of bars over the season, each the mean of as many days as it takes to fit.
fn bars(season: &Season, value: impl Fn(&DayRecord) -> f64) -> String {
    let room = output::width().min(80) - 26;
    let values: Vec<f64> = season.days.iter().map(value).collect();
    let days = values.len().div_ceil(room).max(1);
    let means: Vec<f64> = values
        .chunks(days)
        .map(|chunk| chunk.iter().sum::<f64>() / chunk.len() as f64)
        .collect();
    story::sparkline(&means)
}

/// The number of bees over the season as one line of bars.
fn bees(season: &Season, speech: Speech) -> String {
    let most = season
        .days
        .iter()
        .map(|day| day.adult_bees)
        .fold(0.0, f64::max);
    let parts = [
        ("bars", &*bars(season, |day| day.adult_bees)),
        ("most", &speech.language.about(most)),
    ];
    words::text(words::of(speech.language).run.bees, &parts) + "\n"
}

/// Mites over the season, and what a wash would find when they are most; nothing where there are none.
fn mites(season: &Season, speech: Speech) -> String {
    let (day, worst) = season
        .days
        .iter()
        .enumerate()
        .max_by(|a, b| a.1.mites_per_100_bees.total_cmp(&b.1.mites_per_100_bees))
        .expect("a season has at least one day");
    if worst.mites_per_100_bees <= 0.0 {
        return String::new();
    }
    let wash = wash_on(worst);
    let date = plus_days(season.first, day as i32);
    let words = &words::of(speech.language).run;
    let decimal = |value: f64, places: usize| speech.language.decimal(value, places);
    let parts = [
        (
            "date",
            &*speech.language.day_and_month(date, over_years(season)),
        ),
        ("mites", &decimal(worst.mites_per_100_bees, 1)),
        ("mean", &decimal(wash.mean, 0)),
        ("low", &decimal(wash.low, 0)),
        ("high", &decimal(wash.high, 0)),
    ];
    let mut told = words::text(words.most_mites, &parts);
    if let Some(days) = doubling_d(worst.mite_growth) {
        told += &words::text(words.doubling, &[("days", &decimal(days, 0))]);
    }
    let bars = bars(season, |day| day.mites_per_100_bees);
    format!(
        "{}\n{}\n",
        words::text(words.mites, &[("bars", &bars)]),
        output::wrapped(&told, 0)
    )
}

/// That the plan says nothing of mites, and who assumes what of them then.
fn mites_unsaid(scenario: &Scenario, season: &Season, speech: Speech) -> String {
    let Some(assumed) = AssumedMites::of(&scenario.start, &season.parameters.priors) else {
        return String::new();
    };
    let mites = speech.language.decimal(assumed.per_100_bees, 1);
    let unsaid = words::of(speech.language).run.mites_unsaid;
    output::wrapped(&words::text(unsaid, &[("mites", &mites)]), 0) + "\n"
}

/// An event in words; a move that was refused with its name.
fn what(event: &Event, scenario: &Scenario, speech: Speech) -> String {
    let text = event.text.told(speech);
    if event.kind != "refused" {
        return text;
    }
    let words = &words::of(speech.language).run;
    let action = event
        .step
        .and_then(|number| scenario.moves.get(number)?.action());
    match action {
        Some(action) => {
            let name = speech.language.action(action.name());
            words::text(words.refused, &[("move", name), ("why", &text)])
        }
        None => words::text(words.refused_follow_up, &[("why", &text)]),
    }
}

fn events(scenario: &Scenario, season: &Season, speech: Speech) -> String {
    let words = &words::of(speech.language).run;
    let mut text = format!("{BOLD}{}{BOLD:#}\n", words.happened);
    let years = over_years(season);
    let mut before = "";
    for event in season.events.iter().take(MOST_EVENTS) {
        // A date that is the same as the one above is left out.
        let date = match event.date.parse::<Date>() {
            _ if event.date == before => String::new(),
            Ok(date) => speech.language.short_date(date, years),
            Err(_) => event.date.clone(),
        };
        before = &event.date;
        let indent = if years { 15 } else { 10 };
        let told = output::wrapped(&what(event, scenario, speech), indent);
        text.push_str(&format!("  {date:<0$}{1}\n", indent - 2, told.trim_start()));
    }
    let more = season.events.len().saturating_sub(MOST_EVENTS);
    if more > 0 {
        text.push_str(&words::text(words.more, &[("count", &more.to_string())]));
        text.push('\n');
    }
    text
}
