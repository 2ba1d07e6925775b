//! The weather of a scenario: record or place type, typed days, rain spells, generated days.

use combcast_core::Scenario;
use combcast_core::weather::{self, Origin, Report, Weather};
use jiff::civil::{Date, date};
use serde_json::{Value, json};

use super::shipped;

/// A scenario with this weather and these first and last days.
fn scenario(latitude: f64, weather: Value, start: &str, until: &str) -> Scenario {
    serde_json::from_value(json!({
        "name": "test",
        "until": until,
        "seed": 7,
        "place": { "name": "Alder Row", "latitude": latitude },
        "weather": weather,
        "start": { "date": start, "package": { "pounds": 3.0 } },
        "hive": { "box": [{}] },
    }))
    .expect("scenario")
}

fn resolved(scenario: &Scenario) -> (Weather, Report) {
    let bytes = scenario
        .weather
        .record
        .as_deref()
        .and_then(weather::BuiltIn::named)
        .map(|record| shipped(record.name));
    weather::resolve(scenario, bytes.as_deref()).expect("weather")
}

#[test]
fn a_season_inside_the_record_is_the_record() {
    let scenario = scenario(
        47.45,
        json!({ "record": "seattle" }),
        "2012-04-20",
        "2012-10-31",
    );
    let (weather, report) = resolved(&scenario);
    assert_eq!(weather.first, date(2012, 1, 1));
    assert_eq!(weather.last(), date(2012, 10, 31));
    let season = report.season.unwrap();
    assert_eq!((season.measured, season.generated), (305, 0));
    // First two lines of the file.
    let second = weather.days[1];
    assert_eq!(
        (second.high_c, second.low_c, second.rain_mm),
        (10.6, 2.8, 10.9)
    );
    assert_eq!(second.wind_m_s, Some(4.5));
}

#[test]
fn the_generator_goes_on_after_the_last_real_day() {
    let scenario = scenario(
        47.45,
        json!({ "record": "seattle" }),
        "2015-04-20",
        "2016-10-31",
    );
    let (weather, report) = resolved(&scenario);
    let season = report.season.unwrap();
    assert_eq!((season.measured, season.generated), (365, 305));
    assert_eq!(
        weather.on(date(2015, 12, 31)).unwrap().origin,
        Origin::Measured
    );
    assert_eq!(
        weather.on(date(2016, 1, 1)).unwrap().origin,
        Origin::Generated
    );
    assert!(weather.on(date(2016, 7, 1)).unwrap().wind_m_s.is_some());
}

#[test]
fn one_date_has_one_weather_whenever_the_season_starts() {
    let long = scenario(
        47.45,
        json!({ "record": "seattle" }),
        "2015-04-20",
        "2018-10-31",
    );
    let late = scenario(
        47.45,
        json!({ "record": "seattle" }),
        "2018-03-01",
        "2018-06-30",
    );
    let (long, _) = resolved(&long);
    let (late, _) = resolved(&late);
    for (day, weather) in late.dated() {
        assert_eq!(long.on(day), Some(weather), "{day}");
    }
    for place_type in weather::PLACE_TYPES {
        let weather = json!({ "place_type": place_type.name });
        let (long, _) = resolved(&scenario(40.0, weather.clone(), "2025-04-20", "2027-12-31"));
        let (late, _) = resolved(&scenario(40.0, weather, "2027-03-01", "2027-12-31"));
        for (day, weather) in late.dated() {
            assert_eq!(long.on(day), Some(weather), "{} {day}", place_type.name);
        }
    }
}

#[test]
fn days_before_the_record_are_drawn() {
    let record =
        "date,high_c,low_c,rain_mm\n2026-04-01,12,3,0\n2026-04-02,14,4,2\n2026-04-03,13,5,0\n";
    let scenario = scenario(
        45.0,
        json!({ "record": "yard.csv" }),
        "2026-04-01",
        "2026-04-10",
    );
    let (weather, report) = weather::resolve(&scenario, Some(record.as_bytes())).unwrap();
    let season = report.season.unwrap();
    assert_eq!((season.measured, season.generated), (3, 90 + 7));
    assert_eq!(weather.on(date(2026, 4, 2)).unwrap().rain_mm, 2.0);
    assert!(
        report
            .notes
            .iter()
            .any(|note| note.to_string().contains("too short")),
        "{report}"
    );
}

#[test]
fn south_of_the_equator_the_year_starts_in_july_and_january_is_warm() {
    let weather = json!({ "place_type": "snowy-hills" });
    let (weather, _) = resolved(&scenario(-40.0, weather, "2026-04-20", "2027-06-30"));
    assert_eq!(weather.first, date(2025, 7, 1));
    let mean = |month: i8| {
        let days: Vec<f64> = weather
            .dated()
            .filter(|(day, _)| day.month() == month)
            .map(|(_, day)| day.high_c)
            .collect();
        days.iter().sum::<f64>() / days.len() as f64
    };
    assert!(mean(1) > mean(7) + 15.0, "{} {}", mean(1), mean(7));
}

#[test]
fn a_shifted_record_keeps_its_days_and_mends_29_february() {
    // 2013 is used as 2016, a leap year: 29 February has to be made.
    let weather = json!({ "record": "seattle", "shift_years": 3 });
    let (weather, report) = resolved(&scenario(47.45, weather, "2016-01-01", "2017-12-31"));
    let (original, _) = weather::read(&shipped("seattle"), "s.csv", Some("seattle"), None).unwrap();
    let (before, day, after) = (
        weather.on(date(2016, 2, 28)).unwrap(),
        weather.on(date(2016, 2, 29)).unwrap(),
        weather.on(date(2016, 3, 1)).unwrap(),
    );
    assert_eq!(day.origin, Origin::Filled);
    assert!((day.high_c - (before.high_c + after.high_c) / 2.0).abs() < 1e-12);
    assert_eq!(after, original.on(date(2013, 3, 1)).unwrap());
    // 2012 had a 29 February that 2015 has no place for.
    assert!(
        report
            .notes
            .iter()
            .any(|note| note.to_string().contains("left out of 1 leap year")),
        "{report}"
    );
    assert_eq!(report.season.unwrap().filled, 1);
}

#[test]
fn typed_days_and_rain_are_laid_over_the_record() {
    let plain = scenario(
        47.45,
        json!({ "record": "seattle" }),
        "2012-04-20",
        "2012-08-31",
    );
    let (plain, _) = resolved(&plain);
    let laid = json!({
        "record": "seattle",
        "typed": [{ "date": "2012-07-10", "high_c": 5.0, "low_c": 4.5 }],
        "rain": [{ "from": "2012-07-01", "to": "2012-07-21", "mm_a_day": 10.0, "cooler_c": 5.0 }],
    });
    let (laid, _) = resolved(&scenario(47.45, laid, "2012-04-20", "2012-08-31"));
    let mut turned = 0;
    for ((day, was), (_, is)) in plain.dated().zip(laid.dated()) {
        let in_spell = (date(2012, 7, 1)..=date(2012, 7, 21)).contains(&day);
        if day == date(2012, 7, 10) {
            // Typed, then rained on: 1 °C above the low would be warmer than it was.
            assert_eq!((is.high_c, is.low_c, is.rain_mm), (5.0, 4.5, 10.0));
        } else if !in_spell || was.rain_mm >= 10.0 {
            assert_eq!(was, is, "{day}");
        } else {
            assert_eq!((is.rain_mm, is.origin), (10.0, Origin::Spell));
            let cooler = if was.is_wet() { 0.0 } else { 5.0 };
            assert!((was.high_c - is.high_c - cooler).abs() < 1e-12 || is.high_c == is.low_c + 1.0);
            turned += usize::from(!was.is_wet());
        }
    }
    assert!(turned > 10, "{turned}");
}

#[test]
fn faults_are_told_with_their_place() {
    let spell = |from: &str, to: &str, mm: f64, cooler: f64| json!({ "place_type": "oceanic", "rain": [{ "from": from, "to": to, "mm_a_day": mm, "cooler_c": cooler }] });
    let typed = |days: Value| json!({ "place_type": "oceanic", "typed": days });
    let day = |date: &str, high: f64, low: f64, rain: f64| json!({ "date": date, "high_c": high, "low_c": low, "rain_mm": rain });
    for (weather, place, words) in [
        (json!({}), "weather", "place_type"),
        (
            json!({ "record": "seattle", "place_type": "oceanic" }),
            "weather",
            "either",
        ),
        (
            json!({ "record": "lost.csv" }),
            "weather.record",
            "not there",
        ),
        (
            json!({ "place_type": "moon" }),
            "weather.place_type",
            "hot-desert",
        ),
        (
            json!({ "place_type": "oceanic", "shift_years": 300 }),
            "weather.shift_years",
            "-200",
        ),
        (
            spell("2026-05-10", "2026-05-01", 5.0, 4.0),
            "weather.rain[0].to",
            "before",
        ),
        (
            spell("2026-05-01", "2026-05-10", -5.0, 4.0),
            "weather.rain[0].mm_a_day",
            "0 to 200",
        ),
        (
            spell("2026-05-01", "2026-05-10", 5.0, 40.0),
            "weather.rain[0].cooler_c",
            "0 to 20",
        ),
        (
            typed(json!([day("2026-05-01", 5.0, 9.0, 0.0)])),
            "weather.typed[0].low_c",
            "above",
        ),
        (
            typed(json!([day("2026-05-01", 75.0, 9.0, 0.0)])),
            "weather.typed[0].high_c",
            "-60 to 60",
        ),
        (
            typed(json!([
                day("2026-05-01", 15.0, 9.0, 0.0),
                day("2026-05-01", 16.0, 9.0, 0.0)
            ])),
            "weather.typed[1].date",
            "twice",
        ),
    ] {
        let scenario = scenario(50.0, weather.clone(), "2026-04-20", "2026-10-01");
        let error = weather::resolve(&scenario, None).expect_err(&weather.to_string());
        assert_eq!(error.place, place, "{error}");
        assert!(error.message.contains(words), "{error}");
    }
    let mut nan = scenario(
        50.0,
        typed(json!([day("2026-05-01", 15.0, 9.0, 0.0)])),
        "2026-04-20",
        "2026-10-01",
    );
    nan.weather.typed[0].rain_mm = f64::NAN;
    assert_eq!(
        weather::resolve(&nan, None).unwrap_err().place,
        "weather.typed[0].rain_mm"
    );
    let backwards = scenario(
        50.0,
        json!({ "place_type": "oceanic" }),
        "2026-04-20",
        "2026-04-01",
    );
    assert_eq!(
        weather::resolve(&backwards, None).unwrap_err().place,
        "until"
    );
    let endless = scenario(
        50.0,
        json!({ "place_type": "oceanic" }),
        "1801-04-20",
        "2199-04-01",
    );
    assert_eq!(weather::resolve(&endless, None).unwrap_err().place, "until");
}

#[test]
fn days_outside_the_season_are_kept_and_said() {
    let weather = json!({
        "place_type": "oceanic",
        "typed": [{ "date": "2030-05-01", "high_c": 5.0, "low_c": 4.5 }],
        "rain": [{ "from": "2031-05-01", "to": "2031-05-10" }],
    });
    let (_, report) = resolved(&scenario(50.0, weather, "2026-04-20", "2026-10-01"));
    assert!(
        report
            .notes
            .iter()
            .any(|note| note.to_string().contains("1 typed day outside")),
        "{report}"
    );
    assert!(
        report
            .notes
            .iter()
            .any(|note| note.to_string().contains("weather.rain[0]")),
        "{report}"
    );
}

#[test]
fn leap_days_and_year_ends_stand_where_they_should() {
    let (weather, _) = resolved(&scenario(
        50.0,
        json!({ "place_type": "oceanic" }),
        "2024-02-29",
        "2025-03-01",
    ));
    let days: Vec<Date> = weather.dated().map(|(day, _)| day).collect();
    assert_eq!(days.len(), 366 + 31 + 28 + 1);
    assert_eq!(days[59], date(2024, 2, 29));
    assert_eq!(*days.last().unwrap(), weather.last());
}

#[test]
fn a_southern_season_starts_in_the_july_before_it() {
    for (start, first) in [
        ("2026-06-30", date(2025, 7, 1)),
        ("2026-07-01", date(2026, 7, 1)),
        ("2026-09-20", date(2026, 7, 1)),
        ("2027-02-01", date(2026, 7, 1)),
    ] {
        let weather = json!({ "place_type": "oceanic" });
        let (weather, report) = resolved(&scenario(-38.0, weather, start, "2027-06-30"));
        assert_eq!(weather.first, first);
        assert_eq!(report.season.unwrap().generated, weather.days.len());
        assert_eq!(weather.last(), date(2027, 6, 30));
    }
}
