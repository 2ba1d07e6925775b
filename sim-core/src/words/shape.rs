//! The shape of a catalogue: what every language has to have words for.

/// Declares a part of the catalogue, and, for the tests, how to list its patterns.
macro_rules! part {
    ($(#[$about:meta])* $name:ident { $($(#[$what:meta])* $field:ident: $kind:ty,)* }) => {
        $(#[$about])*
        #[derive(Debug)]
        pub(crate) struct $name {
            $($(#[$what])* pub $field: $kind,)*
        }

        #[cfg(test)]
        impl crate::words::tests::Patterns for $name {
            fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>) {
                $(self.$field.list(&format!("{place}.{}", stringify!($field)), found);)*
            }
        }
    };
}

mod agenda;
mod alarms;
mod moves;
mod problems;
mod story;
mod verdict;
mod weather;

use super::fill::text;

pub(crate) use agenda::{AgendaWords, CauseWords, CautionWords, SearchWords};
pub(crate) use alarms::AlarmWords;
pub(crate) use moves::{EventWords, MoveWords, RefusalWords};
pub(crate) use problems::ProblemWords;
pub(crate) use story::{StoryWords, TwinWords, WindowWords, WithoutWords};
pub(crate) use verdict::{AsideWords, VerdictWords};
pub(crate) use weather::WeatherWords;

/// Words for one and for several; `{count}` is the number.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Counted {
    pub one: &'static str,
    pub many: &'static str,
}

impl Counted {
    /// With a number as it is written.
    pub(crate) fn of(self, count: &str) -> String {
        let pattern = if count == "1" { self.one } else { self.many };
        text(pattern, &[("count", count)])
    }

    /// With a whole number.
    pub(crate) fn number(self, count: usize) -> String {
        self.of(&count.to_string())
    }
}

pub(crate) type Pattern = &'static str;

part! {
    /// A language's catalogue.
    Words {
        forms: Forms,
        brakes: [Pattern; 8],
        story: StoryWords,
        twin: TwinWords,
        window: WindowWords,
        agenda: AgendaWords,
        alarms: AlarmWords,
        causes: CauseWords,
        treatments: [Pattern; 10],
        cautions: CautionWords,
        search: SearchWords,
        moves: MoveWords,
        refusals: RefusalWords,
        events: EventWords,
        without: WithoutWords,
        verdict: VerdictWords,
        aside: AsideWords,
        weather: WeatherWords,
        problems: ProblemWords,
        /// What a move is called, in the order of the choices of [`Move`](crate::scenario::Move).
        actions: [Pattern; 38],
    }
}

part! {
    /// How dates, numbers and counts are written.
    Forms {
        /// Between whole number and decimals.
        decimal: Pattern,
        /// Between thousands.
        thousands: Pattern,
        inches: Pattern,
        percent: Pattern,
        date: Pattern,
        date_with_year: Pattern,
        /// For tables: the day takes two places.
        short_date: Pattern,
        short_date_with_year: Pattern,
        weekday_and_date: Pattern,
        weekday_names: [Pattern; 7],
        weekday_names_short: [Pattern; 7],
        month_names: [Pattern; 12],
        month_names_short: [Pattern; 12],
        days: Counted,
        days_later: Counted,
        weeks: Counted,
        months: Counted,
        hours: Counted,
        bees: Counted,
        mites: Counted,
        /// A stretch of time, to follow a verb (accusative).
        about_time: Pattern,
        less_than_a_day: Pattern,
        more_than_a_year: Pattern,
        about_date: Pattern,
        on_date: Pattern,
        on_date_first: Pattern,
        more: Pattern,
        fewer: Pattern,
        lost: Pattern,
        range: Pattern,
        /// Text of the user's own, or of a file.
        as_it_is: Pattern,
    }
}
