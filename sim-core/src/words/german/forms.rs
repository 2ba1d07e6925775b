//! How dates, numbers and counts are written in German.

use crate::words::Counted;
use crate::words::shape::Forms;

pub(super) const FORMS: Forms = Forms {
    decimal: ",",
    thousands: ".",
    inches: "{number} Zoll",
    percent: "{number} %",
    date: "{day}. {month}",
    date_with_year: "{day}. {month} {year}",
    short_date: "{day}. {month}",
    short_date_with_year: "{day}. {month} {year}",
    weekday_and_date: "{weekday} {date}",
    weekday_names: [
        "Montag",
        "Dienstag",
        "Mittwoch",
        "Donnerstag",
        "Freitag",
        "Samstag",
        "Sonntag",
    ],
    weekday_names_short: ["Mo", "Di", "Mi", "Do", "Fr", "Sa", "So"],
    month_names: [
        "Januar",
        "Februar",
        "März",
        "April",
        "Mai",
        "Juni",
        "Juli",
        "August",
        "September",
        "Oktober",
        "November",
        "Dezember",
    ],
    month_names_short: [
        "Jan", "Feb", "Mär", "Apr", "Mai", "Jun", "Jul", "Aug", "Sep", "Okt", "Nov", "Dez",
    ],
    days: Counted {
        one: "1 Tag",
        many: "{count} Tage",
    },
    days_later: Counted {
        one: "einen Tag später",
        many: "{count} Tage später",
    },
    weeks: Counted {
        one: "1 Woche",
        many: "{count} Wochen",
    },
    months: Counted {
        one: "1 Monat",
        many: "{count} Monate",
    },
    hours: Counted {
        one: "1 Stunde",
        many: "{count} Stunden",
    },
    bees: Counted {
        one: "1 Biene",
        many: "{count} Bienen",
    },
    mites: Counted {
        one: "1 Milbe",
        many: "{count} Milben",
    },
    about_time: "etwa {time}",
    less_than_a_day: "weniger als einen Tag",
    more_than_a_year: "mehr als ein Jahr",
    about_date: "um den {date}",
    on_date: "am {date}",
    on_date_first: "Am {date}",
    more: "mehr",
    fewer: "weniger",
    lost: "verloren",
    range: "{low} bis {high}",
    as_it_is: "{text}",
};
