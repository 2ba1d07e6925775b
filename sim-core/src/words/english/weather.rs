//! Weather records in English.

use crate::words::Counted;
use crate::words::shape::WeatherWords;

pub(super) const WEATHER: WeatherWords = WeatherWords {
    span: "{station}: {first} to {last}, {days}",
    span_of_format: "{station} ({format}): {first} to {last}, {days}",
    formats: [
        "GHCN-Daily, fixed width",
        "NOAA daily CSV",
        "CSV with named columns",
        "table with named columns",
    ],
    fillings: [
        "filled in a straight line",
        "taken as dry",
        "shared out from a total read later",
        "drawn by the weather generator",
    ],
    fields: ["high", "low", "rain", "wind", "sun"],
    gap: "no {field} on {days}, {first}: {how}",
    long_gap: "no {field} on {days}, {first} to {last}: {how}",
    flags: [
        "{days} failed the source's checks: high left out",
        "{days} failed the source's checks: low left out",
        "{days} failed the source's checks: rain left out",
        "{days} failed the source's checks: wind or sun left out",
        "{days} with a trace of rain: 0 mm",
        "{days} without a rain reading, presumed dry by the source",
        "{days} with a rain total of several days",
    ],
    season: "The season uses {first} to {last}: {measured} days measured, {filled} filled, {typed} typed, {spell} changed by a rain spell, {generated} drawn",
    lines: Counted {
        one: "1 line",
        many: "{count} lines",
    },
    more_days: Counted {
        one: "1 more day",
        many: "{count} more days",
    },
    leap_years: Counted {
        one: "1 leap year",
        many: "{count} leap years",
    },
    years: Counted {
        one: "1 year",
        many: "{count} years",
    },
    typed_days: Counted {
        one: "1 typed day",
        many: "{count} typed days",
    },
    lines_twice: "{lines} that stood twice, word for word: read once",
    days_twice: "{days} that stood twice with the same values: read once",
    elements_unused: "elements not used: {list}",
    columns_unused: "columns not used: {list}",
    total_beside_days: "the rain total of several days up to {last} stands beside daily readings: not used",
    crossed: "{date} (line {line}): the low of {low} °C is above the high of {high} °C, both taken as missing",
    more_crossed: "{days} with the low above the high, taken as missing",
    outside: "{days} before {first} or after {last} without both temperatures: left out",
    years_later: "the record is used as if it had happened {years} years later",
    leap_days_out: "29 February left out of {years}",
    leap_days_in: "29 February put into {years}: temperatures between its neighbours', dry",
    typed_outside: "{days} outside the season: not used",
    spell_outside: "weather.rain[{index}] lies outside the season: not used",
    out_of_order: "days out of order (first in line {line}): put in order",
    units_unused: "`units` not used: every column states its own",
    units_given: "units as given: {units}",
    units_told: "units told from the numbers, which fit no others: {units}",
    units: [
        "tenths (0.1 °C, 0.1 mm)",
        "metric (°C, mm, m/s)",
        "US (°F, inches, mph)",
    ],
    too_short: "the record is too short to fit the weather generator: days are drawn as at a place of the type `{name}`, with highs {high} °C and lows {low} °C to agree with the record",
};
