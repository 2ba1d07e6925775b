//! Dates as a scenario writes them.

use std::fmt;

use jiff::civil::Date;
use serde::de::{self, MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A calendar date: in TOML `2026-04-30` with or without quotes, in JSON `"2026-04-30"`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CalendarDate(pub Date);

impl CalendarDate {
    /// Whole days from `start` to this date; negative before it.
    pub fn days_since(self, start: Self) -> i32 {
        days_between(start.0, self.0)
    }
}

/// Whole days from `from` to `to`; negative when `to` comes first.
pub fn days_between(from: Date, to: Date) -> i32 {
    (to - from).get_days()
}

/// The date `days` after `from`.
///
/// Dates of this program lie between the years 1800 and 2200, far inside what the calendar holds.
pub fn plus_days(from: Date, days: i32) -> Date {
    from.saturating_add(jiff::Span::new().days(days))
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
                text.parse::<Date>().map(CalendarDate).map_err(|_| {
                    E::custom(format!(
                        "expected a date such as 2026-04-30, got \"{text}\""
                    ))
                })
            }

            // The TOML reader hands over an unquoted date as a map with one private key.
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<CalendarDate, A::Error> {
                match map.next_entry::<String, String>()? {
                    Some((_, text)) => self.visit_str(&text),
                    None => Err(de::Error::custom("expected a date such as 2026-04-30")),
                }
            }
        }

        deserializer.deserialize_any(DateVisitor)
    }
}

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
