//! What a weather record held, and what was done to it.

use super::{Counted, Pattern};

part! {
    /// What a weather record held, and what was done to it.
    WeatherWords {
        span: Pattern,
        span_of_format: Pattern,
        formats: [Pattern; 4],
        fillings: [Pattern; 4],
        fields: [Pattern; 5],
        gap: Pattern,
        long_gap: Pattern,
        flags: [Pattern; 7],
        season: Pattern,
        /// Measured, filled, typed, changed by a rain spell.
        season_days: [Pattern; 4],
        season_days_drawn: Pattern,
        season_days_of_type: Pattern,
        lines: Counted,
        more_days: Counted,
        leap_years: Counted,
        years: Counted,
        typed_days: Counted,
        lines_twice: Pattern,
        days_twice: Pattern,
        elements_unused: Pattern,
        columns_unused: Pattern,
        total_beside_days: Pattern,
        crossed: Pattern,
        more_crossed: Pattern,
        more_readings: Counted,
        beyond: Pattern,
        more_beyond: Pattern,
        unusual: Pattern,
        more_unusual: Pattern,
        outside: Pattern,
        years_later: Pattern,
        leap_days_out: Pattern,
        leap_days_in: Pattern,
        typed_outside: Pattern,
        spell_outside: Pattern,
        out_of_order: Pattern,
        units_unused: Pattern,
        units_given: Pattern,
        units_told: Pattern,
        units: [Pattern; 3],
        too_short: Pattern,
        /// Built-in kinds of climate, in their order.
        place_types: [Pattern; 7],
        /// Plants of the built-in bloom tables.
        plants: [Pattern; 22],
    }
}
