//! The shipped records, read: what was measured, what was missing, what was done about it.

use combcast_core::weather::{
    Field, Filling, Flags, Format, Gap, Origin, Report, Weather, by_month,
};
use jiff::civil::{Date, date};

use super::read_shipped;

fn gap(first: Date, last: Date, days: usize, field: Field, how: Filling) -> Gap {
    Gap {
        first,
        last,
        days,
        field,
        how,
    }
}

/// Days, rain and wet days; counted from the files with another program.
fn assert_totals(weather: &Weather, days: usize, rain_mm: f64, wet_days: usize) {
    let measured: Vec<_> = weather
        .days
        .iter()
        .filter(|day| day.origin == Origin::Measured)
        .collect();
    assert_eq!(measured.len(), days);
    let rain: f64 = measured.iter().map(|day| day.rain_mm).sum();
    assert!((rain - rain_mm).abs() < 0.005, "{rain}");
    assert_eq!(measured.iter().filter(|day| day.is_wet()).count(), wet_days);
}

fn assert_nothing_mended(report: &Report) {
    assert_eq!(report.gaps, []);
    assert_eq!(report.flags, Flags::default());
    assert_eq!(report.repairs, [""; 0]);
}

#[test]
fn seattle_and_new_york_have_every_day() {
    for (name, rain_mm, wet_days) in [("seattle", 4426.0, 623), ("new-york", 4178.6, 470)] {
        let (weather, report) = read_shipped(name);
        assert_eq!(report.format, Some(Format::Csv));
        assert_eq!(
            (report.first, report.last),
            (date(2012, 1, 1), date(2015, 12, 31))
        );
        assert_eq!(report.days, 1461);
        assert_nothing_mended(&report);
        assert_totals(&weather, 1461, rain_mm, wet_days);
        assert!(weather.days.iter().all(|day| day.wind_m_s.is_some()));
        assert_eq!(
            report.notes,
            [
                "units told from most of the numbers, which fit no others: metric (°C, mm, m/s)",
                "columns not used: weather",
            ]
        );
    }
}

/// May 2000 is absent, 18 February 2006 failed the source's check, 11 June 2006 is missing.
#[test]
fn state_college_has_a_month_and_two_days_to_fill() {
    let (weather, report) = read_shipped("state-college");
    assert_eq!(report.format, Some(Format::GhcnDaily));
    assert_eq!(report.station, "USC00368449");
    assert_eq!(
        (report.first, report.last),
        (date(2000, 1, 1), date(2009, 12, 31))
    );
    assert_eq!(report.days, 3653);
    let may = |field| {
        gap(
            date(2000, 5, 1),
            date(2000, 5, 31),
            31,
            field,
            Filling::Drawn,
        )
    };
    let one = |day| gap(day, day, 1, Field::High, Filling::Interpolated);
    assert_eq!(
        report.gaps,
        [
            may(Field::High),
            may(Field::Low),
            may(Field::Rain),
            one(date(2006, 2, 18)),
            one(date(2006, 6, 11)),
        ]
    );
    assert_eq!(
        report.flags,
        Flags {
            failed_highs: 1,
            traces: 704,
            presumed_zeros: 14,
            ..Flags::default()
        }
    );
    assert_eq!(report.repairs, [""; 0]);
    assert_totals(&weather, 3653 - 33, 10_075.8, 1423);

    // The neighbours of 18 February had 17.8 and -3.9 °C; the low of the day, -10, stands as read.
    let failed = weather.on(date(2006, 2, 18)).unwrap();
    assert!(
        (failed.high_c - (17.8 - 3.9) / 2.0).abs() < 1e-9,
        "{failed:?}"
    );
    assert_eq!(failed.origin, Origin::Filled);
    // 23.9 on the 10th, 21.1 on the 12th.
    let missing = weather.on(date(2006, 6, 11)).unwrap();
    assert!((missing.high_c - 22.5).abs() < 1e-9, "{missing:?}");
}

/// The drawn May lies among the other Mays: its means within four standard errors of a month's mean
/// (nine Mays; a month's mean high varies by about 2 °C between years), its rain possible.
#[test]
fn the_drawn_may_of_state_college_is_a_may() {
    let (weather, _) = read_shipped("state-college");
    let (again, _) = read_shipped("state-college");
    assert_eq!(weather, again);
    let mays: Vec<_> = by_month(&weather)
        .into_iter()
        .filter(|month| month.first.month() == 5)
        .collect();
    let (drawn, measured) = mays.split_first().unwrap();
    assert_eq!((drawn.not_measured, measured.len()), (31, 9));
    let highs = measured.iter().map(|may| may.high_c);
    let mean = highs.clone().sum::<f64>() / 9.0;
    let sd = (highs.map(|high| (high - mean) * (high - mean)).sum::<f64>() / 8.0).sqrt();
    assert!(
        (drawn.high_c - mean).abs() < 4.0 * sd,
        "{drawn:?} {mean} {sd}"
    );
    assert!(drawn.high_c > drawn.low_c + 5.0);
    assert!((1..=31).contains(&drawn.wet_days), "{drawn:?}");
}

#[test]
fn maricopa_has_every_day_with_sun_and_wind() {
    let (weather, report) = read_shipped("maricopa");
    assert_eq!(report.format, Some(Format::Table));
    assert_eq!(
        (report.first, report.last),
        (date(2003, 1, 1), date(2020, 12, 31))
    );
    assert_eq!(report.days, 6575);
    assert_nothing_mended(&report);
    assert_totals(&weather, 6575, 2805.71, 458);
    assert_eq!(
        (report.latitude, report.elevation_m),
        (Some(33.069), Some(361.0))
    );
    assert!(
        weather
            .days
            .iter()
            .all(|day| day.wind_m_s.is_some() && day.sun_mj_m2.is_some())
    );
    // First line of the file.
    let first = weather.days[0];
    assert_eq!(
        (first.high_c, first.low_c, first.rain_mm),
        (17.5, -0.5, 0.0)
    );
    assert_eq!((first.sun_mj_m2, first.wind_m_s), (Some(12.48), Some(1.0)));
    assert_eq!(report.notes, [""; 0]);
}

/// No day of the shipped records is measured with its low above its high, and none is NaN.
#[test]
fn every_day_is_sound() {
    for record in combcast_core::weather::BUILT_IN {
        let (weather, report) = read_shipped(record.name);
        assert_eq!(report.first, date(record.first_year, 1, 1));
        assert_eq!(report.last, date(record.last_year, 12, 31));
        for (date, day) in weather.dated() {
            assert!(day.low_c <= day.high_c, "{} {date} {day:?}", record.name);
            assert!(day.rain_mm >= 0.0, "{} {date} {day:?}", record.name);
        }
    }
}

/// The report says in words what it holds.
#[test]
fn the_report_reads_as_sentences() {
    let report = read_shipped("state-college").1.to_string();
    for line in [
        "USC00368449 (GHCN-Daily, fixed width): 2000-01-01 to 2009-12-31, 3653 days",
        "- no rain on 31 days, 2000-05-01 to 2000-05-31: drawn by the weather generator",
        "- no high on 1 day, 2006-02-18: filled in a straight line",
        "- 1 day failed the source's checks: high left out",
        "- 704 days with a trace of rain: 0 mm",
        "- 14 days without a rain reading, presumed dry by the source",
    ] {
        assert!(
            report.lines().any(|found| found == line),
            "{line}\n{report}"
        );
    }
}
