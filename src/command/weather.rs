//! `combcast weather`: what a weather record holds, and what its days allow bees to do.

use std::collections::BTreeMap;
use std::path::Path;

use combcast_core::forage::{self, Outlook};
use combcast_core::scenario::Place;
use combcast_core::story::Units;
use combcast_core::weather::{self, BuiltIn, Report, Weather};
use combcast_core::words::Language;
use combcast_core::{Error, Parameters};
use jiff::civil::Date;
use serde::Serialize;

use crate::args;
use crate::load;
use crate::output::{self, BOLD, Failure};
use crate::records;

/// Longer lists of gaps are cut here; `--json` has all of them.
const MOST_GAPS: usize = 12;

/// What `--json` prints.
#[derive(Serialize)]
struct Inspection {
    report: Report,
    latitude: Option<f64>,
    months: Vec<Month>,
    blooms: Vec<Bloom>,
}

/// A calendar month of one year, or its mean over the years of the record.
#[derive(Debug, Clone, Default, Serialize)]
struct Month {
    month: i8,
    days: usize,
    /// Days as a part of whole months.
    years: f64,
    high_c: f64,
    low_c: f64,
    lowest_c: f64,
    /// Of a whole month; of the days that there are, where they come to less than one.
    rain_mm: f64,
    /// As rain.
    wet_days: f64,
    not_measured: usize,
    /// Hours fit for flight a day; none without a latitude.
    flight_hours: Option<f64>,
}

impl Month {
    /// Whether its days come to less than one whole month.
    fn is_part(&self) -> bool {
        self.years < 1.0 - 1e-9
    }

    fn name(&self) -> &'static str {
        let date = Date::new(2001, self.month, 1).expect("every month has a first day");
        Language::English.month_name(date)
    }
}

/// One plant's bloom in one year.
#[derive(Debug, Clone, Serialize)]
struct Bloom {
    plant: String,
    first: String,
    last: String,
    #[serde(skip)]
    days: (Date, Date),
    nectar: f64,
    pollen: f64,
}

pub fn run(given: &args::Weather) -> Result<(), Failure> {
    let (weather, report, latitude) = read(given)?;
    let outlook = match latitude {
        Some(latitude) => Some(outlook(&weather, &report, latitude, given)?),
        None => None,
    };
    if let Some(year) = given.year
        && !weather.dated().any(|(date, _)| date.year() == year)
    {
        let message = format!(
            "{year} is not in the record; expected a year from {} to {}",
            weather.first.year(),
            weather.last().year()
        );
        return Err(Error::weather("--year", message).into());
    }
    let inspection = Inspection {
        months: months(&weather, outlook.as_ref(), given.year),
        blooms: outlook
            .as_ref()
            .map_or_else(Vec::new, |outlook| blooms(outlook, given.year)),
        report,
        latitude,
    };
    if given.json {
        let text = serde_json::to_string_pretty(&inspection)
            .map_err(|error| Failure::File(error.to_string()))?;
        return output::write(&(text + "\n"));
    }
    output::write(&words(&inspection, given.year, given.units.into()))
}

/// The record with its report, and its latitude as far as it is known.
fn read(given: &args::Weather) -> Result<(Weather, Report, Option<f64>), Failure> {
    let units = given.units_of_file.map(Into::into);
    let station = given.station.as_deref();
    if let Some(record) = BuiltIn::named(&given.record) {
        let bytes = records::bytes(record.file);
        let (weather, report) =
            weather::read(bytes, record.file, station.or(record.station), units)?;
        return Ok((weather, report, given.latitude.or(Some(record.latitude))));
    }
    let path = Path::new(&given.record);
    let bytes = load::read(path).map_err(|failure| match failure {
        Failure::File(message) => Failure::File(format!(
            "{message}; expected a weather file, or one of the built-in records {}",
            load::built_in_names()
        )),
        other => other,
    })?;
    let (weather, report) = weather::read(&bytes, &load::name(path), station, units)?;
    let latitude = given.latitude.or(report.latitude);
    Ok((weather, report, latitude))
}

fn outlook(
    weather: &Weather,
    report: &Report,
    latitude: f64,
    given: &args::Weather,
) -> Result<Outlook, Error> {
    let place = Place {
        name: report.station.clone(),
        latitude,
        elevation_m: report.elevation_m.unwrap_or(0.0),
        forage: given.forage,
        neighbours: combcast_core::mites::Neighbours::None,
    };
    forage::outlook(weather, &place, &[], &Parameters::default())
}

/// The calendar months that the record has, or those of one year.
fn months(weather: &Weather, outlook: Option<&Outlook>, year: Option<i16>) -> Vec<Month> {
    let mut months: BTreeMap<i8, Month> = BTreeMap::new();
    for (index, (date, day)) in weather.dated().enumerate() {
        if year.is_some_and(|year| year != date.year()) {
            continue;
        }
        let month = months.entry(date.month()).or_insert_with(|| Month {
            month: date.month(),
            lowest_c: f64::INFINITY,
            flight_hours: outlook.map(|_| 0.0),
            ..Month::default()
        });
        month.days += 1;
        month.years += 1.0 / f64::from(date.days_in_month());
        month.high_c += day.high_c;
        month.low_c += day.low_c;
        month.lowest_c = month.lowest_c.min(day.low_c);
        month.rain_mm += day.rain_mm;
        month.wet_days += if day.is_wet() { 1.0 } else { 0.0 };
        month.not_measured += usize::from(day.origin != weather::Origin::Measured);
        if let (Some(hours), Some(outlook)) = (&mut month.flight_hours, outlook) {
            *hours += outlook.days[index].flight_hours;
        }
    }
    let mut months: Vec<Month> = months.into_values().collect();
    for month in &mut months {
        let days = month.days as f64;
        month.high_c /= days;
        month.low_c /= days;
        // In a mean of years, a month that the record has in part counts for its part. A part alone is not made a whole.
        if !month.is_part() {
            month.rain_mm /= month.years;
            month.wet_days /= month.years;
        }
        if let Some(hours) = &mut month.flight_hours {
            *hours /= days;
        }
    }
    months
}

/// The blooms of every year, or of one.
fn blooms(outlook: &Outlook, year: Option<i16>) -> Vec<Bloom> {
    let date = |index: usize| combcast_core::calendar::plus_days(outlook.first, index as i32);
    outlook
        .blooms
        .iter()
        .map(|span| {
            let days = (date(span.first), date(span.end.max(span.first + 1) - 1));
            Bloom {
                plant: span.plant.clone(),
                first: days.0.to_string(),
                last: days.1.to_string(),
                days,
                nectar: span.nectar,
                pollen: span.pollen,
            }
        })
        .filter(|bloom| year.is_none_or(|year| bloom.days.0.year() == year))
        .collect()
}

fn words(inspection: &Inspection, year: Option<i16>, units: Units) -> String {
    let mut text = report(&inspection.report);
    let title = match year {
        Some(year) => format!("{year} by month"),
        None => "The mean year".to_owned(),
    };
    text.push_str(&format!("\n{BOLD}{title}{BOLD:#}\n"));
    text.push_str(&month_table(&inspection.months, units));
    text.push_str(&parts(&inspection.months));
    if inspection.latitude.is_none() {
        text.push_str(&output::wrapped(
            "Without a latitude there are no flight hours and no bloom dates: give --latitude.",
            0,
        ));
        text.push('\n');
    } else if !inspection.blooms.is_empty() {
        text.push_str(&format!("\n{BOLD}Bloom{BOLD:#}\n"));
        text.push_str(&bloom_table(&inspection.blooms, year.is_some()));
    }
    text
}

/// The report's own lines, each wrapped, a long list of gaps cut.
fn report(report: &Report) -> String {
    let told = report.to_string();
    let mut text = String::new();
    let gaps = report.gaps.len();
    for (index, line) in told.lines().enumerate() {
        if index == 0 {
            text.push_str(&format!("{BOLD}{}{BOLD:#}\n", output::wrapped(line, 0)));
        } else if index <= gaps && index > MOST_GAPS {
            if index == MOST_GAPS + 1 {
                text.push_str(&format!(
                    "- and {} more gaps: --json lists all of them\n",
                    gaps - MOST_GAPS
                ));
            }
        } else {
            text.push_str(&output::wrapped_after(line, 2));
            text.push('\n');
        }
    }
    text
}

fn month_table(months: &[Month], units: Units) -> String {
    let (degrees, rain) = match units {
        Units::Metric => ("°C", "mm"),
        Units::Us => ("°F", "inch"),
    };
    let rows = months.iter().map(|month| {
        let amount = units.rain(month.rain_mm);
        [
            month.name().to_owned(),
            format!("{:.1}", units.degrees(month.high_c)),
            format!("{:.1}", units.degrees(month.low_c)),
            format!("{:.1}", units.degrees(month.lowest_c)),
            match units {
                Units::Metric => format!("{amount:.0}"),
                Units::Us => format!("{amount:.1}"),
            },
            format!("{:.0}", month.wet_days),
            month
                .flight_hours
                .map_or_else(|| "-".to_owned(), |hours| format!("{hours:.1}")),
            match month.not_measured {
                0 => String::new(),
                days => days.to_string(),
            },
        ]
    });
    output::table(
        &[
            ["", "High", "Low", "Lowest", "Rain", "Wet", "Flight", "Not"],
            [
                "", degrees, degrees, degrees, rain, "days", "h/day", "measured",
            ],
        ],
        &[1, 2, 3, 4, 5, 6, 7],
        rows,
    )
}

/// Which months the record has in part only.
fn parts(months: &[Month]) -> String {
    let parts: Vec<String> = months
        .iter()
        .filter(|month| month.is_part())
        .map(|month| {
            let whole = (month.days as f64 / month.years).round();
            format!("{} {} of {whole} days", month.name(), month.days)
        })
        .collect();
    if parts.is_empty() {
        return String::new();
    }
    let said = format!(
        "In part only, with the rain and the wet days of that part: {}.",
        parts.join(", ")
    );
    output::wrapped(&said, 0) + "\n"
}

/// Each plant with its days in one year, or with its earliest and latest start over the years.
fn bloom_table(blooms: &[Bloom], one_year: bool) -> String {
    let index = |figure: f64| format!("{figure:.2}");
    if one_year {
        let rows = blooms.iter().map(|bloom| {
            [
                bloom.plant.clone(),
                Language::English.short_date(bloom.days.0, false),
                Language::English.short_date(bloom.days.1, false),
                index(bloom.nectar),
                index(bloom.pollen),
            ]
        });
        return output::table(
            &[["", "First", "Last", "Nectar", "Pollen"]],
            &[1, 2, 3, 4],
            rows,
        );
    }
    let mut plants: Vec<(&Bloom, Date, Date)> = Vec::new();
    for bloom in blooms {
        // Starts are compared by their day of the year.
        let start = bloom.days.0;
        match plants.iter_mut().find(|(one, ..)| one.plant == bloom.plant) {
            Some((_, earliest, latest)) => {
                if start.day_of_year() < earliest.day_of_year() {
                    *earliest = start;
                }
                if start.day_of_year() > latest.day_of_year() {
                    *latest = start;
                }
            }
            None => plants.push((bloom, start, start)),
        }
    }
    plants.sort_by_key(|(_, earliest, _)| earliest.day_of_year());
    let rows = plants.into_iter().map(|(bloom, earliest, latest)| {
        [
            bloom.plant.clone(),
            Language::English.short_date(earliest, false),
            Language::English.short_date(latest, false),
            index(bloom.nectar),
            index(bloom.pollen),
        ]
    });
    output::table(
        &[
            ["", "Earliest", "Latest", "Nectar", "Pollen"],
            ["", "start", "start", "", ""],
        ],
        &[1, 2, 3, 4],
        rows,
    )
}
