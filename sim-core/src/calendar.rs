//! Dates as a scenario writes them.

use std::fmt;

use jiff::civil::Date;
use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::scenario::shorten;

/// A calendar date: in TOML `2026-04-30` with or without quotes, in JSON `"2026-04-30"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CalendarDate(pub Date);

impl CalendarDate {
    /// Whole days from `start` to this date; negative before it.
    pub fn days_since(self, start: Self) -> i32 {
        days_between(start.0, self.0)
    }

    /// A number that grows from day to day.
    pub fn number(self) -> i64 {
        let date = self.0;
        i64::from(date.year()) * 10_000 + i64::from(date.month()) * 100 + i64::from(date.day())
    }
}

/// Whole days from `from` to `to`; negative when `to` comes first.
pub fn days_between(from: Date, to: Date) -> i32 {
    // A civil day has 24 hours. The calendar's spans can fail, and bring the words of all its errors into the program.
    (to.duration_since(from).as_hours() / 24) as i32
}

/// The date `days` after `from`.
///
/// Dates of this program lie between the years 1800 and 2200, far inside what the calendar holds.
pub fn plus_days(from: Date, days: i32) -> Date {
    let hours = jiff::SignedDuration::from_hours(24 * i64::from(days));
    from.checked_add(hours).unwrap_or(from)
}

/// Every date from `first` on.
pub fn dates_from(first: Date) -> impl Iterator<Item = Date> {
    (0..).map(move |days| plus_days(first, days))
}

/// First and last year that a date may have.
pub const YEARS: std::ops::RangeInclusive<i16> = 1800..=2200;

/// Reads a date written as year-month-day.
///
/// # Errors
/// In words: not of that form, no such day (with the reason for 29 February), or outside [`YEARS`].
///
/// ```
/// use combcast_core::calendar::parse_date;
/// assert!(parse_date("2012-02-29").is_ok());
/// assert_eq!(
///     parse_date("2013-02-29").unwrap_err(),
///     "there is no 29 February 2013: 2013 is not a leap year"
/// );
/// ```
pub fn parse_date(text: &str) -> Result<CalendarDate, String> {
    let form = || {
        format!(
            "expected a date such as 2026-04-30, got \"{}\"",
            shorten(text)
        )
    };
    let Some((year, month_day)) = text.split_once('-') else {
        return Err(form());
    };
    if year.len() != 4 || !year.bytes().all(|b| b.is_ascii_digit()) {
        return Err(form());
    }
    let year: i16 = year.parse().map_err(|_| form())?;
    let (month, day) = two_and_two(month_day).ok_or_else(form)?;
    if !YEARS.contains(&year) {
        return Err(format!(
            "expected a year from {} to {}, got {year}",
            YEARS.start(),
            YEARS.end()
        ));
    }
    if (month, day) == (2, 29) && Date::new(year, month, day).is_err() {
        return Err(format!(
            "there is no 29 February {year}: {year} is not a leap year"
        ));
    }
    check_month_and_day(year, month, day)?;
    Date::new(year, month, day)
        .map(CalendarDate)
        .map_err(|_| form())
}

/// Reads a date as people type it in a table or a command: 2026-04-30, 2026/04/30, 20260430 or 30.4.2026.
///
/// # Errors
/// In words, as [`parse_date`]; 30/04/2026 and 04/30/2026 are refused, since many dates so written mean two days.
///
/// ```
/// use combcast_core::calendar::{parse_date, typed_date};
/// assert_eq!(typed_date("30.4.2026"), parse_date("2026-04-30"));
/// assert!(typed_date("01/05/2026").unwrap_err().contains("two days"));
/// ```
pub fn typed_date(text: &str) -> Result<CalendarDate, String> {
    let (year, month, day) = parts_of_date(text)?;
    parse_date(&format!("{year:04}-{month:02}-{day:02}"))
}

/// Year, month and day as tables and people write them; whether there is such a day is not asked.
pub(crate) fn parts_of_date(text: &str) -> Result<(i32, i32, i32), String> {
    let digits = |part: &&str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    let parts: Vec<&str> = if text.len() == 8 && digits(&text) {
        vec![&text[..4], &text[4..6], &text[6..]]
    } else if text.contains('.') {
        text.split('.').rev().collect()
    } else {
        text.split(['-', '/']).collect()
    };
    if let [year, month, day] = parts[..]
        && parts.iter().all(digits)
        && year.len() == 4
        && let (Ok(year), Ok(month), Ok(day)) = (year.parse(), month.parse(), day.parse())
    {
        return Ok((year, month, day));
    }
    let why = if text.contains('/') && parts.len() == 3 {
        "; with slashes and the year last it may mean two days"
    } else {
        ""
    };
    Err(format!(
        "expected a date as year-month-day (2026-04-30) or day.month.year (30.4.2026), not \"{}\"{why}",
        shorten(text)
    ))
}

/// A day of any year, as month and day; 29 February counts.
///
/// # Errors
/// In words: not of the form month-day, or no such day.
///
/// ```
/// use combcast_core::calendar::parse_month_day;
/// assert_eq!(parse_month_day("08-25"), Ok((8, 25)));
/// assert_eq!(parse_month_day("02-29"), Ok((2, 29)));
/// assert!(parse_month_day("04-31").unwrap_err().contains("April has 30 days"));
/// ```
pub fn parse_month_day(text: &str) -> Result<(i8, i8), String> {
    let Some((month, day)) = two_and_two(text) else {
        return Err(format!(
            "expected a day of the year as month-day, such as \"08-25\", got \"{}\"",
            shorten(text)
        ));
    };
    // Any leap year will do: it has every day that a year can have.
    check_month_and_day(2000, month, day)?;
    Ok((month, day))
}

/// The date of month and day in `year`; 29 February becomes 28 February in a year without it.
pub fn day_in_year(year: i16, (month, day): (i8, i8)) -> Option<Date> {
    Date::new(year, month, day)
        .or_else(|_| Date::new(year, month, day - 1))
        .ok()
}

fn two_and_two(text: &str) -> Option<(i8, i8)> {
    let (month, day) = text.split_once('-')?;
    let two = |part: &str| {
        (part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit()))
            .then(|| part.parse::<i8>().ok())
            .flatten()
    };
    Some((two(month)?, two(day)?))
}

fn check_month_and_day(year: i16, month: i8, day: i8) -> Result<(), String> {
    const NAMES: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let Ok(first) = Date::new(year, month, 1) else {
        return Err(format!("expected a month from 01 to 12, got {month:02}"));
    };
    let last = first.days_in_month();
    if (1..=last).contains(&day) {
        return Ok(());
    }
    let name = usize::try_from(month - 1).map_or("the month", |index| NAMES[index]);
    Err(format!("{name} has {last} days, got day {day:02}"))
}

impl fmt::Display for CalendarDate {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl Serialize for CalendarDate {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

impl<'de> Deserialize<'de> for CalendarDate {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct DateVisitor;

        impl<'de> Visitor<'de> for DateVisitor {
            type Value = CalendarDate;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a date such as 2026-04-30")
            }

            fn visit_str<E: de::Error>(self, text: &str) -> Result<CalendarDate, E> {
                parse_date(text).map_err(E::custom)
            }
        }

        deserializer.deserialize_any(DateVisitor)
    }
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for CalendarDate {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "CalendarDate".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "format": "date",
            "description": "A calendar date, year-month-day."
        })
    }
}
