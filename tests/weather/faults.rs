//! Bad records: a clear error with its line, or a repair that the report tells; never a panic.

use combcast_core::scenario::RecordUnits;
use combcast_core::weather::{self, Report, Weather};
use combcast_core::{Error, ErrorKind};

use super::{dly_line, shipped};

fn read(bytes: &[u8]) -> Result<(Weather, Report), Error> {
    weather::read(bytes, "yard.csv", None, None)
}

/// The error of a table with these rows, below a heading with all columns.
fn error_of(rows: &str) -> Error {
    let text = format!("date,high_c,low_c,rain_mm\n{rows}");
    read(text.as_bytes()).expect_err(rows)
}

fn assert_told(error: &Error, place: &str, words: &str) {
    assert_eq!(error.kind, ErrorKind::Weather, "{error}");
    let told = error.to_string();
    assert!(told.contains("yard.csv"), "{told}");
    assert!(error.place.contains(place), "{place} in {:?}", error.place);
    assert!(error.message.contains(words), "{words} in {told}");
}

#[test]
fn files_that_are_no_records() {
    let huge = vec![b' '; weather::LARGEST_FILE + 1];
    let utf16: Vec<u8> = "\u{feff}date,high_c"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    for (bytes, place, words) in [
        (&b""[..], "", "empty"),
        (b" \n\r\n  ", "", "empty"),
        (b"date,high_c,low_c,rain_mm\n", "", "no days"),
        (
            b"date,high_c,low_c,rain_mm\n2026-05-01,20,10,0\n2026-05-02,\xff\xfe,10,0\n",
            "line 3",
            "UTF-8",
        ),
        (
            b"date,high_c\0,low_c,rain_mm\n",
            "line 1",
            "not a text file",
        ),
        (&utf16, "line 1", "UTF-16"),
        (&huge, "", "64 MB"),
        (b"hello", "line 1", "no column with the date"),
        (b"{\"date\": 1}", "line 1", "no column with the date"),
    ] {
        assert_told(&read(bytes).unwrap_err(), place, words);
    }
}

#[test]
fn columns_that_are_missing_doubled_or_of_another_layout() {
    for (text, words) in [
        ("high_c,low_c,rain_mm\n20,10,0\n", "no column with the date"),
        (
            "date,low_c,rain_mm\n2026-05-01,10,0\n",
            "no column with the high",
        ),
        (
            "date,high_c,rain_mm\n2026-05-01,20,0\n",
            "no column with the low",
        ),
        (
            "date,high_c,low_c\n2026-05-01,20,10\n",
            "no column with the rain",
        ),
        (
            "date,high_c,high_f,low_c,rain_mm\n2026-05-01,20,68,10,0\n",
            "more than one column with the high",
        ),
        (
            "STATION,DATE,TEMP,MAX,MIN,PRCP,FRSHTT\nX,2026-05-01,50,60,40,0,000000\n",
            "Global Summary of the Day",
        ),
        (
            "USC00000001,20260501,TMAX,200,,,0\n",
            "one row for each element",
        ),
        (
            "station,date,high_c,low_c,rain_mm\nA,2026-05-01,20,10,0\nB,2026-05-01,20,10,0\n",
            "holds 2 stations",
        ),
    ] {
        let error = read(text.as_bytes()).expect_err(text);
        assert!(error.to_string().contains(words), "{error}");
    }
    let wanted = weather::read(
        b"station,date,high_c,low_c,rain_mm\nA,2026-05-01,20,10,0\n",
        "yard.csv",
        Some("Z"),
        None,
    );
    assert_told(&wanted.unwrap_err(), "", "it has: A");
}

#[test]
fn rows_with_faults() {
    for (rows, place, words) in [
        // Truncated.
        ("2026-05-01,20,10,0\n2026-05-02,21", "line 3", "cut off"),
        (
            "2026-05-01,20,10,0,7\n",
            "line 2",
            "5 values where the headings name 4",
        ),
        // Huge, negative, not a number.
        ("2026-05-01,1e300,10,0\n", "line 2", "high of"),
        ("2026-05-01,75,10,0\n", "line 2", "outside -90 to 60"),
        ("2026-05-01,20,-300,0\n", "line 2", "low of -300"),
        ("2026-05-01,20,10,-3\n", "line 2", "rain of -3"),
        ("2026-05-01,20,10,99999\n", "line 2", "rain of 99999"),
        ("2026-05-01,inf,10,0\n", "line 2", "\"inf\" is not a number"),
        (
            "2026-05-01,warm,10,0\n",
            "line 2",
            "\"warm\" is not a number",
        ),
        // NaN stands for missing; a record of nothing else has no days.
        ("2026-05-01,NaN,10,0\n", "", "no high"),
        // Dates.
        ("2026-02-29,20,10,0\n", "line 2", "2026-02-29"),
        ("2026-13-01,20,10,0\n", "line 2", "no day 2026-13-01"),
        ("0026-05-01,20,10,0\n", "line 2", "1700 to 2300"),
        ("9999999999-05-01,20,10,0\n", "line 2", "expected a date"),
        ("01/05/2026,20,10,0\n", "line 2", "year-month-day"),
        ("01/05/2026,20,10,0\n", "line 2", "may mean two days"),
        (",20,10,0\n", "line 2", "expected a date"),
        // Two different readings for one day.
        (
            "2026-05-01,20,10,0\n2026-05-01,21,10,0\n",
            "line 3",
            "second, different high for 2026-05-01",
        ),
        // Swapped columns: the low above the high on most days.
        (
            "2026-05-01,10,20,0\n2026-05-02,11,21,0\n2026-05-03,12,9,0\n",
            "line 2",
            "swapped",
        ),
    ] {
        assert_told(&error_of(rows), place, words);
    }
}

#[test]
fn a_swapped_rain_column_shows_by_its_range() {
    // Rain under `high`, high under `rain`: frost as rain cannot be.
    let error = error_of("2026-01-01,0,-9,-4\n2026-01-02,3,-8,1\n");
    assert_told(&error, "line 2", "rain of -4");
}

#[test]
fn faults_that_are_repaired_are_told() {
    let days = |text: &str| {
        let text = format!("date,high_c,low_c,rain_mm\n{text}");
        read(text.as_bytes()).expect(&text)
    };
    // Out of order.
    let (weather, report) = days("2026-05-02,22,12,0\n2026-05-01,20,10,1\n2026-05-03,24,14,0\n");
    assert_eq!(weather.days[0].high_c, 20.0);
    assert_eq!(
        report.repairs,
        ["days out of order (first in line 3): put in order"]
    );
    // The same day twice, alike.
    let (weather, report) = days("2026-05-01,20,10,1\n2026-05-01,20,10,1\n2026-05-02,22,12,0\n");
    assert_eq!(weather.days.len(), 2);
    assert_eq!(
        report.repairs,
        ["1 day that stood twice with the same values: read once"]
    );
    // One day with the low above the high: both are taken as missing and filled.
    let (weather, report) = days("2026-05-01,20,10,1\n2026-05-02,9,12,0\n2026-05-03,24,14,0\n");
    assert_eq!(
        (weather.days[1].high_c, weather.days[1].low_c),
        (22.0, 12.0)
    );
    assert_eq!(
        report.repairs,
        ["2026-05-02 (line 3): the low of 12 °C is above the high of 9 °C, both taken as missing"]
    );
    // 29 February where there is one.
    assert_eq!(days("2024-02-28,9,1,0\n2024-02-29,8,2,0\n").0.days.len(), 2);
    // Codes for missing.
    for code in ["", "NA", "nan", "-9999", "9999.9", "-", "."] {
        let (weather, report) = days(&format!(
            "2026-05-01,20,10,1\n2026-05-02,{code},11,{code}\n2026-05-03,24,14,0\n"
        ));
        assert_eq!(
            (weather.days[1].high_c, weather.days[1].rain_mm),
            (22.0, 0.0),
            "{code}"
        );
        assert_eq!(report.gaps.len(), 2);
    }
}

#[test]
fn units_are_never_guessed() {
    for rows in [
        "2026-05-01,20,10,0\n2026-05-02,22,12,0\n",
        "2026-05-01,61,40,0\n2026-05-02,64,41,0\n",
        "2026-05-01,20.5,10,0\n2026-05-02,22,12,0\n",
    ] {
        let text = format!("date,tmax,tmin,prcp\n{rows}");
        let error = read(text.as_bytes()).expect_err(&text);
        assert_told(&error, "", "the units cannot be told");
        assert!(
            error.message.contains("tenths") && error.message.contains("us"),
            "{error}"
        );
    }
}

/// A year of a temperate place in °C and mm, from 1 January 2025, under headings without units; the row that
/// `change` names stands in its place.
fn year_of_celsius(change: (&str, &str)) -> String {
    let mut text = String::from("Date,Tmax,Tmin,Rain\n");
    let mut date = jiff::civil::date(2025, 1, 1);
    for day in 0..365_u32 {
        let warmth =
            12.0 - f64::from((day as i32 - 200).abs()) / 10.0 + f64::from(day * 7 % 11) / 2.0;
        let rain = if day % 3 == 0 {
            f64::from(day % 17) + 0.4
        } else {
            0.0
        };
        let row = if date.to_string() == change.0 {
            change.1.to_owned()
        } else {
            format!("{date},{:.1},{:.1},{rain}", warmth + 9.0, warmth)
        };
        text.push_str(&row);
        text.push('\n');
        date = date.tomorrow().unwrap();
    }
    text
}

/// One number typed wrong is named by its line and taken as missing: it does not turn °C into °F.
#[test]
fn one_mistyped_number_does_not_change_the_units() {
    for (row, told) in [
        (
            "2025-05-10,91.5,8.0,0",
            "2025-05-10 (line 131): high of 91.5 °C cannot be (expected -90 to 60 °C), taken as missing",
        ),
        (
            "2025-05-10,19.5,8.0,3000",
            "2025-05-10 (line 131): rain of 3000 mm cannot be (expected 0 to 2000 mm), taken as missing",
        ),
        (
            "2025-05-10,19.5,8.0,1200",
            "2025-05-10 (line 131): rain of 1200 mm is far from what is usual, and used: is it right?",
        ),
        (
            "2025-05-10,19.5,-195,0",
            "2025-05-10 (line 131): low of -195 °C cannot be (expected -90 to 60 °C), taken as missing",
        ),
    ] {
        let (weather, report) = read(year_of_celsius(("2025-05-10", row)).as_bytes()).expect(row);
        let lines = report.to_string();
        assert!(lines.contains("metric (°C, mm, m/s)"), "{row}: {lines}");
        assert!(lines.contains(told), "{row}: {lines}");
        let may: f64 = weather
            .dated()
            .filter(|(date, _)| date.month() == 5)
            .map(|(_, day)| day.rain_mm)
            .sum();
        assert!(may < 100.0 || row.contains("1200"), "{row}: {may}");
    }
}

/// May alone could be °C or °F if only its temperatures were known; its rain tells.
#[test]
fn a_month_with_a_mistyped_number_is_told_by_its_rain_or_not_at_all() {
    let year = year_of_celsius(("2025-05-10", "2025-05-10,91.5,8.0,0"));
    let may = |rain: bool| -> String {
        year.lines()
            .filter(|line| line.starts_with("Date") || line.starts_with("2025-05"))
            .map(|line| {
                let (rest, last) = line.rsplit_once(',').unwrap();
                let last = if rain || line.starts_with("Date") {
                    last
                } else {
                    "0"
                };
                format!("{rest},{last}\n")
            })
            .collect()
    };
    let (_, report) = read(may(true).as_bytes()).unwrap();
    assert!(
        report.to_string().contains("metric (°C, mm, m/s)"),
        "{report}"
    );
    let error = read(may(false).as_bytes()).unwrap_err();
    assert_told(&error, "", "--units-of-file");
}

#[test]
fn a_mistyped_year_is_refused_by_its_line() {
    for year in ["2205", "1925"] {
        let row = format!("{year}-05-10,19.5,8.0,0");
        let error = read(year_of_celsius(("2025-05-10", &row)).as_bytes()).unwrap_err();
        assert_told(&error, "line 131", "a year mistyped?");
    }
}

#[test]
fn fixed_width_faults() {
    let whole = |element: &str, value: i32| {
        dly_line(
            "USC00000001",
            2023,
            2,
            element,
            &[(1, value, "   "), (2, value, "   ")],
        )
    };
    let sound: String = whole("TMAX", 200) + &whole("TMIN", 100) + &whole("PRCP", 0);
    assert_eq!(read(sound.as_bytes()).unwrap().0.days.len(), 2);
    let changed = |from: &str, to: &str| sound.replacen(from, to, 1);
    for (text, place, words) in [
        (sound[..20 + 8].to_owned(), "line 1", "cut off at day 2"),
        (sound[..sound.len() - 200].to_owned(), "line 3", "cut off"),
        (
            changed("202302TMIN", "202313TMIN"),
            "line 2",
            "no day 2023-13-01",
        ),
        (changed("  200   ", "  2x0   "), "line 1", "whole number"),
        (changed("  200   ", " 9990   "), "line 1", "high of 999 °C"),
        (
            sound.clone() + &whole("TMAX", 210),
            "line 4",
            "stands twice, with different values",
        ),
        (
            dly_line("USC00000001", 2023, 2, "TMAX", &[(29, 200, "   ")]),
            "line 1",
            "day 29 of 2023-02, which has 28 days",
        ),
        (changed("TMIN", "TMÍN"), "line 2", "plain characters"),
        (whole("TMAX", 200) + &whole("TMIN", 100), "", "no rain"),
    ] {
        assert_told(&read(text.as_bytes()).expect_err(&text), place, words);
    }
    let twice = sound.clone() + &sound;
    let (_, report) = read(twice.as_bytes()).unwrap();
    assert_eq!(
        report.repairs,
        ["3 lines that stood twice, word for word: read once"]
    );
}

/// Ten thousand damaged records: cut, bytes changed, pieces taken out or doubled. Each is an error that
/// names the file, or an unbroken run of possible days.
#[test]
fn damaged_records_never_panic() {
    // Numbers from a multiplicative generator (Park & Miller 1988): enough to spread the damage.
    let mut state = 20_260_501_u64;
    let mut below = |limit: usize| {
        state = state * 48_271 % 0x7FFF_FFFF;
        state as usize % limit.max(1)
    };
    let records = ["seattle", "state-college", "maricopa"].map(|name| {
        let mut record = shipped(name);
        record.truncate(4000);
        let whole_lines = record.iter().rposition(|&byte| byte == b'\n').unwrap();
        record.truncate(whole_lines + 1);
        record
    });
    let bytes = b"0123456789-,.;\n\r\t \"eETNF\xff\x00#";
    let (mut read_well, mut refused) = (0, 0);
    for round in 0..10_000 {
        let mut record = records[round % 3].clone();
        for _ in 0..=below(2) {
            let at = below(record.len());
            match below(5) {
                0 => record.truncate(at),
                1 => {
                    let end = (at + below(80)).min(record.len());
                    record.drain(at..end);
                }
                2 => {
                    let end = (at + below(400)).min(record.len());
                    let piece = record[at..end].to_vec();
                    record.splice(at..at, piece);
                }
                _ if at < record.len() => record[at] = bytes[below(bytes.len())],
                _ => {}
            }
        }
        match weather::read(&record, "yard.csv", None, Some(RecordUnits::Metric)) {
            Ok((weather, report)) => {
                read_well += 1;
                assert_eq!(weather.days.len(), report.days);
                for day in &weather.days {
                    assert!(day.low_c <= day.high_c && day.rain_mm >= 0.0, "{day:?}");
                }
                assert!(!report.to_string().contains("NaN"), "{report}");
            }
            Err(error) => {
                refused += 1;
                assert!(error.to_string().contains("yard.csv"), "{error}");
            }
        }
    }
    assert!(read_well > 1000 && refused > 1000, "{read_well} {refused}");
}
