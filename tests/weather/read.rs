//! Every layout that is read, and every way in which holes are mended, on records of a few days.

use combcast_core::scenario::RecordUnits;
use combcast_core::weather::{self, Field, Filling, Format, Gap, Origin, Report, Weather};
use jiff::civil::{Date, date};

use super::dly_line;

fn read_as(text: &str, station: Option<&str>, units: Option<RecordUnits>) -> (Weather, Report) {
    weather::read(text.as_bytes(), "yard.csv", station, units).expect(text)
}

fn read(text: &str) -> (Weather, Report) {
    read_as(text, None, None)
}

/// High, low and rain of each day, to a thousandth.
fn days(weather: &Weather) -> Vec<(f64, f64, f64)> {
    let round = |value: f64| (value * 1000.0).round() / 1000.0;
    weather
        .days
        .iter()
        .map(|day| (round(day.high_c), round(day.low_c), round(day.rain_mm)))
        .collect()
}

/// Two days, 30 April and 1 May 2026, in every layout and unit.
const TWO_DAYS: [(f64, f64, f64); 2] = [(18.5, 7.0, 0.0), (12.0, 4.5, 12.7)];

fn assert_two_days(text: &str, units: Option<RecordUnits>, format: Format) -> Report {
    let (weather, report) = read_as(text, None, units);
    assert_eq!(days(&weather), TWO_DAYS, "{text}");
    assert_eq!(weather.first, date(2026, 4, 30));
    assert_eq!(report.format, Some(format));
    assert_eq!(report.gaps, []);
    report
}

#[test]
fn dates_in_every_layout() {
    for (heading, first, second) in [
        ("date", "2026-04-30", "2026-05-01"),
        ("Date", "2026/04/30", "2026/5/1"),
        ("DATE", "20260430", "20260501"),
        ("Date", "30.04.2026", "1.5.2026"),
        ("date", "2026-04-30T00:00:00", "2026-05-01 06:00"),
        ("year,month,day", "2026,4,30", "2026,05,01"),
        ("day,month,year", "30,4,2026", "1,5,2026"),
        ("year,doy", "2026,120", "2026,121"),
        ("Year-DOY", "2026-120", "2026-121"),
    ] {
        let text =
            format!("{heading},high_c,low_c,rain_mm\n{first},18.5,7,0\n{second},12,4.5,12.7\n");
        assert_two_days(&text, None, Format::Csv);
    }
}

#[test]
fn units_that_the_headings_state() {
    for (headings, first, second) in [
        ("high_c,low_c,rain_mm", "18.5,7,0", "12,4.5,12.7"),
        ("Tmax (°C),Tmin (°C),Rain (mm)", "18.5,7,0", "12,4.5,12.7"),
        ("rain_in,high_f,low_f", "0,65.3,44.6", "0.5,53.6,40.1"),
        (
            "low_f,precipitation_mm,high_c",
            "44.6,0,18.5",
            "40.1,12.7,12",
        ),
    ] {
        let text = format!("date,{headings}\n2026-04-30,{first}\n2026-05-01,{second}\n");
        let report = assert_two_days(&text, None, Format::Csv);
        assert_eq!(report.notes, [""; 0]);
    }
}

#[test]
fn units_that_the_scenario_gives() {
    for (units, first, second) in [
        (RecordUnits::Metric, "18.5,7,0", "12,4.5,12.7"),
        (RecordUnits::Tenths, "185,70,0", "120,45,127"),
        (RecordUnits::Us, "65.3,44.6,0", "53.6,40.1,0.5"),
    ] {
        let text = format!("date,tmax,tmin,prcp\n2026-04-30,{first}\n2026-05-01,{second}\n");
        let report = assert_two_days(&text, Some(units), Format::Csv);
        assert!(
            report.notes[0].to_string().starts_with("units as given"),
            "{report}"
        );
    }
}

#[test]
fn separators_decimal_commas_marks_and_comments() {
    for text in [
        "date;high_c;low_c;rain_mm\n2026-04-30;18,5;7;0\n2026-05-01;12;4,5;12,7\n",
        "date\thigh_c\tlow_c\train_mm\n2026-04-30\t18.5\t7\t0\n2026-05-01\t12\t4.5\t12.7\n",
        "\u{feff}date,high_c,low_c,rain_mm\r\n2026-04-30,18.5,7,0\r\n2026-05-01,12,4.5,12.7\r\n",
        "# my yard; by the lane; since 2025; shade\n\ndate,high_c,low_c,rain_mm\n2026-04-30, 18.5 ,7,0\n\n2026-05-01,12,4.5,12.7",
        "\"date\",\"high_c\",\"low_c\",\"rain_mm\"\n\"2026-04-30\",\"18.5\",\"7\",\"0\"\n\"2026-05-01\",\"12\",\"4.5\",\"12.7\"\n",
        "date,high_c,low_c,rain_mm,,\n2026-04-30,18.5,7,0,,\n2026-05-01,12,4.5,12.7,,\n",
    ] {
        assert_two_days(text, None, Format::Csv);
    }
    let blanks = "Day Month Year Tmin(C) Tmax(C) Prcp(mm) Et0(mm)\n30 4 2026 7.0 18.5 0.0 2.1\n1 5 2026 4.5 12.0 12.7 1.0\n";
    let report = assert_two_days(blanks, None, Format::Table);
    assert_eq!(report.notes, ["columns not used: Et0(mm)"]);
}

/// NOAA's file of one station: tenths, quoted, a comma in the name, three flags beside each reading.
#[test]
fn noaa_csv_in_tenths_with_flags() {
    let heading = "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\",\"TMIN_ATTRIBUTES\",\"TSUN\"";
    let row = |date: &str, values: &str| {
        format!(
            "\"USC00000001\",\"{date}\",\"45.5\",\"-70.25\",\"120.0\",\"ALDER ROW, ME US\",{values},\"\"\n"
        )
    };
    let text = format!(
        "{heading}\n{}{}{}{}",
        row("2026-07-01", r#""12",",,W","267",",,W","150",",,W""#),
        row("2026-07-02", r#""0","T,,W","281",",,W","161",",,W""#),
        row("2026-07-03", r#""0","P,,W","999",",X,W","155",",,W""#),
        row("2026-07-04", r#""","","255",",,W","139",",,W""#),
    );
    let (weather, report) = read(&text);
    assert_eq!(
        days(&weather),
        [
            (26.7, 15.0, 1.2),
            (28.1, 16.1, 0.0),
            (26.8, 15.5, 0.0),
            (25.5, 13.9, 0.0)
        ]
    );
    assert_eq!(report.format, Some(Format::NoaaCsv));
    assert_eq!(report.station, "USC00000001");
    assert_eq!(
        (report.latitude, report.elevation_m),
        (Some(45.5), Some(120.0))
    );
    assert_eq!(
        (
            report.flags.traces,
            report.flags.presumed_zeros,
            report.flags.failed_highs
        ),
        (1, 1, 1)
    );
    assert!(
        report
            .notes
            .iter()
            .any(|note| *note == "columns not used: LONGITUDE, TSUN"),
        "{report}"
    );
}

/// NOAA's ordered export: whole °F and inches, or decimals in °C and mm; told apart by exclusion.
#[test]
fn noaa_csv_in_the_units_of_an_order() {
    // A day of each month, so that a whole year shows.
    let year = |line: fn(u32) -> String| -> String {
        (1..=12)
            .map(|month| {
                format!(
                    "\"X1\",\"ALDER ROW, ME US\",\"2025-{month:02}-15\",{}\n",
                    line(month)
                )
            })
            .collect()
    };
    let heading = "\"STATION\",\"NAME\",\"DATE\",\"PRCP\",\"TMAX\",\"TMIN\"\n";
    let july = |text: &str| *read(text).0.on(date(2025, 7, 15)).unwrap();
    let us = july(&format!(
        "{heading}{}",
        year(|month| format!("\"0.50\",\"{}\",\"{}\"", 28 + 5 * month, 10 + 5 * month))
    ));
    assert!((us.high_c - (63.0 - 32.0) / 1.8).abs() < 1e-9, "{us:?}");
    assert!((us.rain_mm - 12.7).abs() < 1e-9);
    let metric = july(&format!(
        "{heading}{}",
        year(|month| format!("\"12.7\",\"{}.5\",\"{}.0\"", 4 * month, month))
    ));
    assert_eq!((metric.high_c, metric.rain_mm), (28.5, 12.7));
}

/// A cell left empty between tabs is a missing reading, not a row cut short.
#[test]
fn tabs_keep_empty_cells() {
    let (weather, report) = read(
        "date\thigh_c\tlow_c\train_mm\n2026-04-30\t18\t7\t1\n2026-05-01\t\t8\t\n2026-05-02\t20\t9\t1\n",
    );
    assert_eq!(days(&weather)[1], (19.0, 8.0, 0.0));
    assert_eq!(report.gaps.len(), 2);
}

#[test]
fn wind_and_sun_where_the_units_are_stated() {
    for (headings, values) in [
        ("wind_m_s,sun_mj_m2", "5,20"),
        ("wind_km_h,sun_w_m2", "18,231.48148148148147"),
        ("wind_mph,srad (MJ/m²)", "11.184681460272012,20"),
    ] {
        let (weather, _) = read(&format!(
            "date,high_c,low_c,rain_mm,{headings}\n2026-05-01,20,10,0,{values}\n"
        ));
        let day = weather.days[0];
        assert!((day.wind_m_s.unwrap() - 5.0).abs() < 1e-9, "{headings}");
        assert!((day.sun_mj_m2.unwrap() - 20.0).abs() < 1e-9, "{headings}");
    }
    let (weather, report) = read("date,high_c,low_c,rain_mm,sun\n2026-05-01,20,10,0,9.5\n");
    assert_eq!(weather.days[0].sun_mj_m2, None);
    assert_eq!(report.notes, ["columns not used: sun"]);
}

#[test]
fn one_station_of_several() {
    let text = "station,name,date,high_c,low_c,rain_mm\nA1,Upper yard,2026-05-01,20,10,0\nB2,Lower yard,2026-05-01,22,12,3\n";
    for (station, high) in [("a1", 20.0), ("B2", 22.0), ("lower YARD", 22.0)] {
        assert_eq!(read_as(text, Some(station), None).0.days[0].high_c, high);
    }
    // In a fixed-width file by identifier.
    let text: String = ["USC00000001", "USC00000002"]
        .iter()
        .zip([200, 220])
        .flat_map(|(station, high)| {
            ["TMAX", "TMIN", "PRCP"].map(|element| {
                dly_line(
                    station,
                    2026,
                    5,
                    element,
                    &[(1, if element == "TMAX" { high } else { 50 }, "   ")],
                )
            })
        })
        .collect();
    assert_eq!(
        read_as(&text, Some("usc00000002"), None).0.days[0].high_c,
        22.0
    );
}

/// GHCN-Daily: values in tenths; flags T and P; a failed check; the calendar made where a month is absent.
#[test]
fn dly_flags_gaps_and_trimmed_lines() {
    let ten = |value: i32| (1..=10).map(|day| (day, value, "   ")).collect::<Vec<_>>();
    let mut high = ten(205);
    high[4] = (5, 999, " X0");
    let mut rain = ten(31);
    rain[1] = (2, 0, "T 0");
    rain[2] = (3, 0, "P 0");
    rain.remove(6);
    let whole: String = [
        ("TMAX", high),
        ("TMIN", ten(98)),
        ("PRCP", rain),
        ("WT01", ten(1)),
    ]
    .iter()
    .map(|(element, values)| dly_line("USC00000001", 2024, 2, element, values))
    .collect();
    assert!(whole.lines().all(|line| line.len() == 269));
    let trimmed: String = whole
        .lines()
        .map(|line| format!("{}\r\n", line.trim_end()))
        .collect();
    assert_ne!(whole.len(), trimmed.len());
    for text in [&whole, &trimmed] {
        let (weather, report) = read(text);
        assert_eq!(
            (report.first, report.last),
            (date(2024, 2, 1), date(2024, 2, 10))
        );
        assert_eq!(report.station, "USC00000001");
        assert_eq!(
            (
                report.flags.failed_highs,
                report.flags.traces,
                report.flags.presumed_zeros
            ),
            (1, 1, 1)
        );
        let rain: Vec<f64> = weather.days.iter().map(|day| day.rain_mm).collect();
        assert_eq!(rain, [3.1, 0.0, 0.0, 3.1, 3.1, 3.1, 0.0, 3.1, 3.1, 3.1]);
        assert!(
            weather
                .days
                .iter()
                .all(|day| (day.high_c - 20.5).abs() < 1e-9 && day.low_c == 9.8)
        );
        let filled: Vec<usize> = (0..10)
            .filter(|&i| weather.days[i].origin == Origin::Filled)
            .collect();
        assert_eq!(filled, [4, 6]);
        assert_eq!(
            report
                .gaps
                .iter()
                .map(|gap| (gap.first, gap.field, gap.how))
                .collect::<Vec<_>>(),
            [
                (date(2024, 2, 5), Field::High, Filling::Interpolated),
                (date(2024, 2, 7), Field::Rain, Filling::AssumedDry),
            ]
        );
        assert_eq!(report.notes, ["elements not used: WT01"]);
    }
}

/// Rain read after several days (MDPR, over DAPR days) is shared out; no drop is lost.
#[test]
fn dly_totals_of_several_days_are_shared_out() {
    let all = |value: i32| (1..=9).map(|day| (day, value, "   ")).collect::<Vec<_>>();
    let rain: Vec<_> = [1, 2, 6, 9].map(|day| (day, 10, "   ")).to_vec();
    let text: String = [
        ("TMAX", all(200)),
        ("TMIN", all(100)),
        ("PRCP", rain),
        ("MDPR", vec![(5, 90, "   "), (8, 40, "   ")]),
        ("DAPR", vec![(5, 3, "   ")]),
    ]
    .iter()
    .map(|(element, values)| dly_line("USC00000001", 2026, 5, element, values))
    .collect();
    let (weather, report) = read(&text);
    let rain: Vec<f64> = weather.days.iter().map(|day| day.rain_mm).collect();
    // The second total states no days: back to the last reading.
    assert_eq!(rain, [1.0, 1.0, 3.0, 3.0, 3.0, 1.0, 2.0, 2.0, 1.0]);
    assert_eq!(report.flags.multi_day_totals, 2);
    assert!(
        report
            .gaps
            .iter()
            .all(|gap| gap.how == Filling::SharedTotal)
    );
}

fn without(first: Date, gaps: &[(usize, usize)], field: Field) -> String {
    let mut text = "date,high_c,low_c,rain_mm\n".to_owned();
    for (index, day) in first
        .series(jiff::Span::new().days(1))
        .take(400)
        .enumerate()
    {
        let gone = gaps.iter().any(|&(from, to)| (from..=to).contains(&index));
        let cell = |of: Field, value: String| {
            if gone && of == field {
                String::new()
            } else {
                value
            }
        };
        let season = 15.0 - 10.0 * (index as f64 / 365.0 * std::f64::consts::TAU).cos();
        text += &format!(
            "{day},{},{},{}\n",
            cell(Field::High, format!("{:.1}", season + 5.0)),
            cell(Field::Low, format!("{:.1}", season - 5.0)),
            cell(
                Field::Rain,
                if index % 3 == 0 {
                    (1 + index % 7).to_string()
                } else {
                    "0".to_owned()
                }
            ),
        );
    }
    text
}

/// Three days are filled without drawing, four are drawn; what was measured beside the hole stays.
#[test]
fn short_holes_are_bridged_and_long_ones_drawn() {
    let first = date(2025, 1, 1);
    let (whole, _) = read(&without(first, &[], Field::High));
    for field in [Field::High, Field::Low, Field::Rain] {
        let (weather, report) = read(&without(first, &[(20, 20), (101, 103), (201, 204)], field));
        let short = if field == Field::Rain {
            Filling::AssumedDry
        } else {
            Filling::Interpolated
        };
        let gap = |from: i64, to: i64, how| Gap {
            first: first + jiff::Span::new().days(from),
            last: first + jiff::Span::new().days(to),
            days: (to - from + 1) as usize,
            field,
            how,
        };
        assert_eq!(
            report.gaps,
            [
                gap(20, 20, short),
                gap(101, 103, short),
                gap(201, 204, Filling::Drawn)
            ]
        );
        for (index, (is, was)) in weather.days.iter().zip(&whole.days).enumerate() {
            let hole = index == 20 || (101..=103).contains(&index) || (201..=204).contains(&index);
            assert_eq!(is.origin == Origin::Filled, hole, "day {index}");
            assert!(is.low_c <= is.high_c && is.rain_mm >= 0.0, "{is:?}");
            assert!(field == Field::High || is.high_c == was.high_c);
            assert!(field == Field::Low || is.low_c == was.low_c);
            assert!(field == Field::Rain || is.rain_mm == was.rain_mm);
        }
        let day = |index: usize| weather.days[index];
        match field {
            Field::High => {
                let step = (day(104).high_c - day(100).high_c) / 4.0;
                for index in 101..=103 {
                    let line = day(100).high_c + step * (index - 100) as f64;
                    assert!((day(index).high_c - line).abs() < 1e-9);
                }
            }
            Field::Rain => assert!((101..=103).all(|index| day(index).rain_mm == 0.0)),
            _ => {}
        }
    }
}

/// Days that a record leaves out altogether are holes in all three.
#[test]
fn the_calendar_is_made_where_days_are_left_out() {
    let (weather, report) = read(
        "date,high_c,low_c,rain_mm\n2024-02-27,10,0,1\n2024-02-28,12,2,1\n2024-03-01,16,6,1\n",
    );
    assert_eq!(
        days(&weather),
        [
            (10.0, 0.0, 1.0),
            (12.0, 2.0, 1.0),
            (14.0, 4.0, 0.0),
            (16.0, 6.0, 1.0)
        ]
    );
    assert_eq!(report.gaps.len(), 3);
    assert_eq!(report.gaps[0].first, date(2024, 2, 29));
}

#[test]
fn days_without_temperatures_at_the_ends_are_left_out_and_said() {
    let (weather, report) = read(
        "date,high_c,low_c,rain_mm\n2026-05-01,,,4\n2026-05-02,20,10,0\n2026-05-03,21,11,0\n2026-05-04,21,,0\n",
    );
    assert_eq!((weather.first, weather.days.len()), (date(2026, 5, 2), 2));
    assert!(
        report.notes[0]
            .to_string()
            .starts_with("2 days before 2026-05-02 or after"),
        "{report}"
    );
}
