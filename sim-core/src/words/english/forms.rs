//! How dates, numbers and counts are written in English.

use crate::words::Counted;
use crate::words::shape::Forms;

pub(super) const FORMS: Forms = Forms {
    decimal: ".",
    thousands: ",",
    inches: "{number} inch",
    percent: "{number} %",
    date: "{day} {month}",
    date_with_year: "{day} {month} {year}",
    short_date: "{day} {month}",
    short_date_with_year: "{day} {month} {year}",
    weekday_and_date: "{weekday} {date}",
    weekday_names: [
        "Monday",
        "Tuesday",
        "Wednesday",
        "Thursday",
        "Friday",
        "Saturday",
        "Sunday",
    ],
    weekday_names_short: ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"],
    month_names: [
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
    ],
    month_names_short: [
        "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
    ],
    days: Counted {
        one: "1 day",
        many: "{count} days",
    },
    days_later: Counted {
        one: "a day later",
        many: "{count} days later",
    },
    weeks: Counted {
        one: "1 week",
        many: "{count} weeks",
    },
    months: Counted {
        one: "1 month",
        many: "{count} months",
    },
    hours: Counted {
        one: "1 hour",
        many: "{count} hours",
    },
    bees: Counted {
        one: "1 bee",
        many: "{count} bees",
    },
    mites: Counted {
        one: "1 mite",
        many: "{count} mites",
    },
    about_time: "about {time}",
    less_than_a_day: "less than a day",
    more_than_a_year: "more than a year",
    about_date: "about {date}",
    on_date: "on {date}",
    on_date_first: "On {date}",
    more: "more",
    fewer: "fewer",
    lost: "lost",
    range: "{low} to {high}",
    as_it_is: "{text}",
};
