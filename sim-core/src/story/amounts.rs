//! Amounts as people say them: rounded to what can be judged by eye, in either system of units.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::words::{Language, Speech, text};

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
}

/// Amounts with their unit, in words.
impl Speech {
    /// A weight: "3.1 kg", "250 g", "7 lb", "9 oz".
    pub fn weight_text(self, kg: f64) -> String {
        let (number, unit) = match self.units {
            Units::Metric if kg < 0.995 => (to_step(kg * 1000.0, 10.0).to_string(), "g"),
            Units::Metric => (self.few_digits(kg), "kg"),
            Units::Us if self.units.weight(kg) < 0.995 => {
                (self.few_digits(kg * OUNCES_PER_KG), "oz")
            }
            Units::Us => (self.few_digits(self.units.weight(kg)), "lb"),
        };
        format!("{number} {unit}")
    }

    /// Rain: "42 mm", "1.7 inch".
    pub fn rain_text(self, mm: f64) -> String {
        let number = self.few_digits(self.units.rain(mm));
        match self.units {
            Units::Metric => format!("{number} mm"),
            Units::Us => text(self.words().forms.inches, &[("number", &number)]),
        }
    }

    /// A temperature: "4 °C", "39 °F".
    pub fn degrees_text(self, celsius: f64) -> String {
        let unit = match self.units {
            Units::Metric => "°C",
            Units::Us => "°F",
        };
        // Adding zero turns "-0" into "0".
        format!("{} {unit}", self.units.degrees(celsius).round() + 0.0)
    }

    fn few_digits(self, value: f64) -> String {
        self.language.few_digits(value)
    }
}

fn to_step(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}

/// Numbers as they are written.
impl Language {
    /// With so many decimals, and nothing between thousands.
    pub fn decimal(self, value: f64, places: usize) -> String {
        let text = format!("{value:.places$}");
        match self.words().forms.decimal {
            "." => text,
            mark => text.replace('.', mark),
        }
    }

    /// Rounded to one decimal below 10 ("2.5", "3"), to whole numbers from there.
    pub(crate) fn few_digits(self, value: f64) -> String {
        if value < 9.95 {
            let text = format!("{value:.1}");
            match text.strip_suffix(".0") {
                Some(whole) => whole.to_owned(),
                None => self.decimal(value, 1),
            }
        } else {
            self.grouped(value)
        }
    }

    /// As it is typed: with the decimals that it has; a whole number with its thousands parted.
    pub(crate) fn figure(self, value: f64) -> String {
        let plain = value.to_string();
        let digits = plain.strip_prefix('-').unwrap_or(&plain);
        let whole = digits.bytes().all(|byte| byte.is_ascii_digit());
        if whole && (4..=15).contains(&digits.len()) {
            self.grouped(value)
        } else {
            self.plain(value)
        }
    }

    /// With the decimals that it has.
    pub fn plain(self, value: f64) -> String {
        value.to_string().replace('.', self.words().forms.decimal)
    }

    /// A head count rounded to what a beekeeper can judge: 6,130 becomes "6,100".
    pub fn about(self, count: f64) -> String {
        let step = match count {
            c if c < 20.0 => 1.0,
            c if c < 100.0 => 10.0,
            c if c < 1_000.0 => 50.0,
            c if c < 20_000.0 => 100.0,
            _ => 500.0,
        };
        self.grouped(to_step(count, step))
    }

    /// A whole number with its thousands parted.
    pub fn grouped(self, value: f64) -> String {
        let digits = format!("{:.0}", value.abs());
        let mut text = String::new();
        for (index, digit) in digits.chars().enumerate() {
            if index > 0 && (digits.len() - index).is_multiple_of(3) {
                text.push_str(self.words().forms.thousands);
            }
            text.push(digit);
        }
        if value.round() < 0.0 {
            text.insert(0, '-');
        }
        text
    }

    /// A share: "45 %".
    pub fn percent(self, share: f64) -> String {
        let number = self.decimal(100.0 * share, 0);
        text(self.words().forms.percent, &[("number", &number)])
    }

    /// "4 to 9".
    pub fn range(self, low: &str, high: &str) -> String {
        text(self.words().forms.range, &[("low", low), ("high", high)])
    }
}

/// Frames to the nearest half, as a number of halves.
pub(super) fn halves(frames: f64) -> u32 {
    // A float to integer conversion keeps within the target's range, and frames are few.
    (frames * 2.0).round() as u32
}

/// A stretch of days: "about 3 days", "about 2 weeks", "about 4 months", "more than a year".
pub(super) fn time(days: f64, language: Language) -> String {
    let forms = &language.words().forms;
    let about = |counted: crate::words::Counted, number: f64| {
        let count = (number.round() as usize).max(1);
        text(forms.about_time, &[("time", &counted.number(count))])
    };
    match days {
        days if days < 1.0 => forms.less_than_a_day.to_owned(),
        days if days < 14.0 => about(forms.days, days),
        days if days < 60.0 => about(forms.weeks, days / 7.0),
        days if days < 365.0 => about(forms.months, days / 30.4),
        _ => forms.more_than_a_year.to_owned(),
    }
}

/// Dates as they are written.
impl Language {
    /// "24 May"; with the year where the season runs over several.
    pub fn day_and_month(self, date: Date, with_year: bool) -> String {
        let forms = &self.words().forms;
        let pattern = [forms.date, forms.date_with_year][usize::from(with_year)];
        written(
            pattern,
            &date.day().to_string(),
            self.month_name(date),
            date,
        )
    }

    /// "June".
    pub fn month_name(self, date: Date) -> &'static str {
        self.words().forms.month_names[month_index(date)]
    }

    /// "10 Jun", for tables; with the year where the season runs over several.
    pub fn short_date(self, date: Date, with_year: bool) -> String {
        let forms = &self.words().forms;
        let pattern = [forms.short_date, forms.short_date_with_year][usize::from(with_year)];
        let month = forms.month_names_short[month_index(date)];
        written(pattern, &format!("{:>2}", date.day()), month, date)
    }

    /// "Wed 10 June".
    pub fn short_weekday(self, date: Date, with_year: bool) -> String {
        let forms = &self.words().forms;
        let weekday = forms.weekday_names_short[weekday_index(date)];
        let date = self.day_and_month(date, with_year);
        let parts = [("weekday", weekday), ("date", &date)];
        text(forms.weekday_and_date, &parts)
    }

    /// "Friday".
    pub(super) fn weekday(self, date: Date) -> &'static str {
        self.words().forms.weekday_names[weekday_index(date)]
    }
}

fn written(pattern: &str, day: &str, month: &str, date: Date) -> String {
    let year = date.year().to_string();
    text(pattern, &[("day", day), ("month", month), ("year", &year)])
}

fn month_index(date: Date) -> usize {
    (date.month() - 1) as usize
}

fn weekday_index(date: Date) -> usize {
    date.weekday().to_monday_zero_offset() as usize
}

/// A whole number with commas between the thousands.
pub fn grouped(value: f64) -> String {
    Language::English.grouped(value)
}

/// A head count rounded to what a beekeeper can judge, in English.
pub fn about(value: f64) -> String {
    Language::English.about(value)
}

/// "24 May", in English.
pub fn day_and_month(date: Date, with_year: bool) -> String {
    Language::English.day_and_month(date, with_year)
}
