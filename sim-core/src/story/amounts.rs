//! Amounts as people say them: rounded to what can be judged by eye, in either system of units.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::words;

/// Units that amounts are shown in.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Kilograms, millimetres, °C.
    #[default]
    Metric,
    /// Pounds, inches, °F.
    Us,
}

const POUNDS_PER_KG: f64 = 1.0 / 0.453_592_37;
const MM_PER_INCH: f64 = 25.4;
const OUNCES_PER_KG: f64 = 16.0 * POUNDS_PER_KG;

impl Units {
    /// Kilograms, or pounds.
    pub fn weight(self, kg: f64) -> f64 {
        match self {
            Self::Metric => kg,
            Self::Us => kg * POUNDS_PER_KG,
        }
    }

    /// Millimetres of rain, or inches.
    pub fn rain(self, mm: f64) -> f64 {
        match self {
            Self::Metric => mm,
            Self::Us => mm / MM_PER_INCH,
        }
    }

    /// Degrees Celsius, or Fahrenheit.
    pub fn degrees(self, celsius: f64) -> f64 {
        match self {
            Self::Metric => celsius,
            Self::Us => celsius * 1.8 + 32.0,
        }
    }

    /// A weight in words: "3.1 kg", "250 g", "7 lb", "9 oz".
    pub fn weight_text(self, kg: f64) -> String {
        match self {
            Self::Metric if kg < 0.995 => format!("{} g", to_step(kg * 1000.0, 10.0)),
            Self::Metric => format!("{} kg", few_digits(kg)),
            Self::Us if self.weight(kg) < 0.995 => format!("{} oz", few_digits(kg * OUNCES_PER_KG)),
            Self::Us => format!("{} lb", few_digits(self.weight(kg))),
        }
    }

    /// Rain in words: "42 mm", "1.7 inch".
    pub fn rain_text(self, mm: f64) -> String {
        match self {
            Self::Metric => format!("{} mm", few_digits(mm)),
            Self::Us => format!("{} inch", few_digits(self.rain(mm))),
        }
    }

    /// A temperature in words: "4 °C", "39 °F".
    pub fn degrees_text(self, celsius: f64) -> String {
        let unit = match self {
            Self::Metric => "°C",
            Self::Us => "°F",
        };
        // Adding zero turns "-0" into "0".
        format!("{} {unit}", self.degrees(celsius).round() + 0.0)
    }
}

/// Characters for private use, around a weight in kg inside of a text.
const MARKS: [char; 2] = ['\u{e000}', '\u{e001}'];

/// A weight of so many grams inside of a text that is told in either system of units; see [`in_units`].
pub(crate) fn weight(grams: f64) -> String {
    format!("{}{}{}", MARKS[0], grams / 1000.0, MARKS[1])
}

/// A text with the weights that are marked in it told in these units.
pub fn in_units(text: &str, units: Units) -> String {
    let mut told = String::new();
    let mut rest = text;
    while let Some((before, marked)) = rest.split_once(MARKS[0]) {
        told.push_str(before);
        let (kg, after) = marked.split_once(MARKS[1]).unwrap_or((marked, ""));
        match kg.parse() {
            Ok(kg) => told.push_str(&units.weight_text(kg)),
            Err(_) => told.push_str(kg),
        }
        rest = after;
    }
    told + rest
}

/// A number rounded to one decimal below 10, to whole numbers from there.
fn few_digits(value: f64) -> String {
    if value < 9.95 {
        let text = format!("{value:.1}");
        text.strip_suffix(".0").unwrap_or(&text).to_owned()
    } else {
        grouped(value)
    }
}

/// A number of hours: one decimal below 10.
pub(super) fn hours(value: f64) -> String {
    few_digits(value)
}

fn to_step(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// A head count rounded to what a beekeeper can judge: 6,130 becomes "6,100".
pub fn about(count: f64) -> String {
    let step = match count {
        c if c < 20.0 => 1.0,
        c if c < 100.0 => 10.0,
        c if c < 1_000.0 => 50.0,
        c if c < 20_000.0 => 100.0,
        _ => 500.0,
    };
    grouped(to_step(count, step))
}

/// A whole number with commas between the thousands.
pub fn grouped(value: f64) -> String {
    let digits = format!("{:.0}", value.abs());
    let mut text = String::new();
    for (index, digit) in digits.chars().enumerate() {
        if index > 0 && (digits.len() - index).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if value.round() < 0.0 {
        text.insert(0, '-');
    }
    text
}

/// Frames to the nearest half, as a number of halves.
pub(super) fn halves(frames: f64) -> u32 {
    // A float to integer conversion keeps within the target's range, and frames are few.
    (frames * 2.0).round() as u32
}

/// "24 May"; with the year where the season runs over several.
pub fn day_and_month(date: Date, with_year: bool) -> String {
    let month = month_name(date);
    if with_year {
        format!("{} {month} {}", date.day(), date.year())
    } else {
        format!("{} {month}", date.day())
    }
}

/// "June".
pub fn month_name(date: Date) -> &'static str {
    words::MONTHS[(date.month() - 1) as usize]
}

/// "10 Jun", for tables; with the year where the season runs over several.
pub fn short_date(date: Date, with_year: bool) -> String {
    let month = words::MONTHS_SHORT[(date.month() - 1) as usize];
    if with_year {
        format!("{:>2} {month} {}", date.day(), date.year())
    } else {
        format!("{:>2} {month}", date.day())
    }
}

/// "Wed 10 June".
pub fn short_weekday(date: Date, with_year: bool) -> String {
    let weekday = words::WEEKDAYS_SHORT[weekday_index(date)];
    format!("{weekday} {}", day_and_month(date, with_year))
}

/// "Friday".
pub(super) fn weekday(date: Date) -> &'static str {
    words::WEEKDAYS[weekday_index(date)]
}

fn weekday_index(date: Date) -> usize {
    date.weekday().to_monday_zero_offset() as usize
}
