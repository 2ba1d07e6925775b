//! The catalogue: every sentence that the story says, in one place.
//!
//! A sentence is a template whose `{names}` are filled by [`fill`]; what is filled in carries the
//! emphasis, so a translation is another set of these constants and functions.

use super::{Emphasis, Span, Units};
use crate::observe::DayRecord;
use crate::queen::Brake;

pub(super) const OPENING: &str = "{date}, day {day}. About {bees}, {brood}, {comb}.";
pub(super) const LOST: &str = "{date}, day {day}. No bees are left: the colony was lost {when}.";

pub(super) const SINCE_START: &str = "From the first day";
pub(super) const SINCE_TODAY: &str = "Today";
pub(super) const SINCE_YESTERDAY: &str = "Since yesterday";
pub(super) const SINCE: &str = "Since {when}";
pub(super) const MOST_DAYS: &str = "On {count} of the last {days} days";

pub(super) const HELD: &str = "{since} the queen has been held back by {brake}.";
pub(super) const HELD_WHY: &str = "{since} the queen has been held back by {brake}: {why}.";
pub(super) const HELD_TODAY: &str = "{since} the queen is held back by {brake}.";
pub(super) const HELD_TODAY_WHY: &str = "{since} the queen is held back by {brake}: {why}.";
pub(super) const FREE: &str = "{since} nothing has held the queen back: she lays about {eggs}.";
pub(super) const FREE_TODAY: &str = "{since} nothing holds the queen back: she lays about {eggs}.";
pub(super) const RESTS: &str = "The queen rests: she lays {eggs}.";
pub(super) const CAGED: &str = "The queen is in {brake}.";
pub(super) const CAGED_UNTIL: &str = "The queen is in {brake}, to be out {when}.";
pub(super) const CAGED_TODAY: &str = "The queen came out of {brake} today.";
pub(super) const NO_QUEEN: &str = "The colony has {brake}: no new eggs.";

pub(super) const WHY_JOIN: &str = ", ";
pub(super) const WHY_FULL: &str = "honey and syrup fill {share} of the drawn comb";
pub(super) const WHY_LITTLE_COMB: &str = "little new comb";
pub(super) const WHY_COMB_GROWS: &str =
    "{frames} drawn in the last {days} days, and she fills it as it comes";
pub(super) const WHY_BROOD_FILLS: &str = "brood and stores fill the comb there is";
pub(super) const WHY_NO_YOUNG: &str =
    "the bees she came with grow old and no young ones have come out yet";
pub(super) const WHY_FEWER: &str = "{fewer} fewer than {days} days ago";
pub(super) const WHY_ENOUGH_LARVAE: &str = "those there are have {larvae} to feed";
pub(super) const WHY_POLLEN_IN: &str = "{pollen} came in over {days} days";
pub(super) const WHY_NO_POLLEN_IN: &str = "none came in for {days}";
pub(super) const WHY_NOTHING_IN_BLOOM: &str = "little is in bloom";
pub(super) const WHY_RAIN: &str = "rain on {count} of the last {days} days ({amount})";
pub(super) const WHY_NO_FLIGHT: &str = "no hour fit for flight in {days}";
pub(super) const WHY_LITTLE_FLIGHT: &str = "only {hours} of flight a day";
pub(super) const WHY_LITTLE_NECTAR: &str = "little nectar";
pub(super) const WHY_COLD: &str = "nights down to {low}";

pub(super) const LOWEST: &str = "This is about the lowest point: {bees} {when}.";
pub(super) const LOWEST_PAST: &str = "The lowest point is past: about {bees} {when}.";
pub(super) const LOWEST_AHEAD: &str = "Numbers still fall, to {bees} {when}.";

pub(super) const HUNGRY: &str = "{hungry}: no food is left in the comb.";
pub(super) const HUNGRY_WORD: &str = "Hungry";
pub(super) const FOOD_SHORT: &str =
    "{caution}: {stores} of stores, enough for {time} if nothing comes in.";
pub(super) const FOOD_SHORT_WORD: &str = "Short of food";
pub(super) const FOOD: &str = "There is food for {time} if nothing comes in ({stores} of stores).";
pub(super) const FOOD_ONLY: &str = "There are {stores} of stores.";
pub(super) const FOOD_FED: &str = "They take {sugar} of sugar a day from the feeder.";

pub(super) const NEXT_LOST: &str = "Left like this, the colony is {lost} {when}.";
pub(super) const NEXT_LOST_WORD: &str = "lost";
pub(super) const NEXT_HUNGRY: &str = "Left like this, food {runs_out} {when}.";
pub(super) const NEXT_HUNGRY_WORD: &str = "runs out";
pub(super) const NEXT_FIRST_BEES: &str = "First new bees {when}.";
pub(super) const NEXT_NO_BEES: &str = "No new bees up to {when}, the end of this season.";
pub(super) const NEXT_BACK: &str = "Back to {bees}, as on the first day, {when}.";
pub(super) const NEXT_MOST: &str = "Most bees {when}: about {bees}.";
pub(super) const NEXT_BROOD: &str = "Brood again {when}.";

pub(super) const OVER_START: &str = "{date}: a start with about {bees}, {brood}, {comb}.";
pub(super) const OVER_LOW: &str = "Lowest {when} (day {day}) with about {bees}.";
pub(super) const OVER_FIRST: &str = "First new bees {when}.";
pub(super) const OVER_BACK: &str = "Back to the starting number {when}.";
pub(super) const OVER_MOST: &str = "Most bees {when}: about {bees}, {brood}.";
pub(super) const OVER_LOST: &str = "The colony is {lost} {when}.";
pub(super) const OVER_END: &str =
    "{date}, the last day: about {bees}, {brood}, {comb}, {stores} of stores.";
pub(super) const OVER_BRAKES: &str = "What set the pace of laying, in days: {list}.";
pub(super) const OVER_HUNGRY: &str = "{hungry} on {days}, the first {when}.";
pub(super) const OVER_HUNGRY_WORD: &str = "No food in the comb";

pub(super) const WINDOW_BY: &str = "Take the drone frame out by {when}.";
pub(super) const WINDOW_EMERGE: &str =
    "Its first eggs were laid {laid}; from {when} on its drones leave it, and the mites with them.";
pub(super) const WINDOW_NO_BROOD: &str =
    "The queen lays nothing in the drone frame until {when}: there is no mite in it.";
pub(super) const WINDOW_OUT: &str = "Out on {when}, it takes away {mites}, {share} of all; {counted} there are {gain} than with no drone frame at all.";
pub(super) const WINDOW_LATE: &str =
    "{late} it takes {mites}, and {let_out} have come out of it with its drones: {counted} {gain}.";
pub(super) const WINDOW_LEFT_IN: &str = "Left in, it means {gain} {counted}.";
pub(super) const WINDOW_LATE_BUT_SAFE: &str =
    "{late} it takes {mites}, if it is out before its first drones are: {counted} {gain}.";
pub(super) const WINDOW_HARM: &str = "Out between {from} and {to}, it does more harm than good.";
pub(super) const WINDOW_HARM_ONE_DAY: &str = "Out on {from}, it does more harm than good.";
pub(super) const WINDOW_SET_ASIDE: &str = "Set aside for this, as they could take it out: {list}.";
pub(super) const WINDOW_LOST: &str = "In {lost} of {seasons} seasons the colony is lost by then.";

pub(super) const TWIN_BEES: &str = "{when}, {plan} has {bees} than {twin}.";
pub(super) const TWIN_BEES_OF_MANY: &str = "{when}, {plan} has {bees} than {twin} ({range} in 9 of 10 seasons). It has more bees in {ahead} of {seasons} seasons.";
pub(super) const TWIN_SAME: &str = "{when}, {plan} has as many bees as {twin}.";
pub(super) const TWIN_BESIDES: &str = "Besides: {list}.";
pub(super) const TWIN_WITH_RANGE: &str = "{gain} ({range})";
pub(super) const TWIN_JOIN: &str = "; ";
pub(super) const TWIN_LOST_OF_MANY: &str =
    "By then {plan} is {lost} in {plans} of {seasons} seasons, {twin} in {twins}.";
pub(super) const TWIN_LOST_BOTH: &str = "Both colonies are {lost} by then.";
pub(super) const TWIN_LOST_PLAN: &str = "By then {plan} is {lost}, {twin} is not.";
pub(super) const TWIN_LOST_TWIN: &str = "By then {twin} is {lost}, {plan} is not.";
pub(super) const ONE_WITHOUT: &str = "the one without";

/// "the colony with feed".
pub(super) fn colony_with(what: &str) -> String {
    format!("the colony with {what}")
}

/// "the colony of “A package in spring”".
pub(super) fn colony_of(plan: &str) -> String {
    format!("the colony of “{plan}”")
}

/// "that of “A package in spring”".
pub(super) fn that_of(plan: &str) -> String {
    format!("that of “{plan}”")
}

/// "more", "fewer" for what is counted, "less" for what is weighed.
pub(super) fn more_or_less(measure: &str, more: bool) -> &'static str {
    match (more, measure) {
        (true, _) => "more",
        (false, "honey_kg") => "less",
        (false, _) => "fewer",
    }
}

/// "5,200 more bees", "3 kg less honey".
pub(super) fn twin_gain(measure: &str, amount: &str, more: bool) -> String {
    let what = match measure {
        "bees" => "bees",
        "brood_frames" => "frames of brood",
        "drawn_frames" => "frames drawn",
        "honey_kg" => "honey",
        "mites" => "mites",
        _ => "mites on 100 bees",
    };
    format!("{amount} {} {what}", more_or_less(measure, more))
}

/// "3,900 to 6,400 more", "300 fewer to 2,100 more".
pub(super) fn twin_range(low: &str, low_is: Option<&str>, high: &str, high_is: &str) -> String {
    match low_is {
        Some(low_is) => format!("{low} {low_is} to {high} {high_is}"),
        None => format!("{low} to {high} {high_is}"),
    }
}

/// What a brake is called after "held back by".
pub(super) fn held_back_by(brake: Brake) -> &'static str {
    match brake {
        Brake::HerRate => "nothing but her own rate",
        Brake::EmptyCells => "too few empty cells",
        Brake::Nurses => "too few nurse bees",
        Brake::Pollen => "too little pollen",
        Brake::Food => "too little food",
        Brake::Warmth => "the cold",
        Brake::Caged => "her cage",
        Brake::NoQueen => "no laying queen",
    }
}

/// Column headings of the week-by-week table.
pub fn week_headings() -> [&'static str; 9] {
    [
        "  Week of",
        "Bees",
        "Brood",
        "Drawn",
        "Eggs",
        "Stores",
        "Rain",
        "Flight",
        "Held by",
    ]
}

/// Units under the column headings of the week-by-week table.
pub fn week_units(units: Units) -> [&'static str; 9] {
    match units {
        Units::Metric => ["", "", "frames", "frames", "a day", "kg", "mm", "h/day", ""],
        Units::Us => [
            "", "", "frames", "frames", "a day", "lb", "inch", "h/day", "",
        ],
    }
}

pub(super) const WEEKDAYS_SHORT: [&str; 7] = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
pub(super) const WEEKDAYS: [&str; 7] = [
    "Monday",
    "Tuesday",
    "Wednesday",
    "Thursday",
    "Friday",
    "Saturday",
    "Sunday",
];
pub(super) const MONTHS_SHORT: [&str; 12] = [
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
];
pub(super) const MONTHS: [&str; 12] = [
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

/// "about 24 May".
pub(super) fn about(date: &str) -> String {
    format!("about {date}")
}

/// "on 24 May".
pub(super) fn on(date: &str) -> String {
    format!("on {date}")
}

/// "On 24 May", where a sentence begins.
pub(super) fn at_start_on(date: &str) -> String {
    format!("On {date}")
}

/// "9,800 bees".
pub(super) fn bees(count: &str) -> String {
    if count == "1" {
        "1 bee".to_owned()
    } else {
        format!("{count} bees")
    }
}

pub(super) const FEWER: &str = "fewer";
pub(super) const MORE: &str = "more";

/// "81 mites".
pub(super) fn mites(count: &str) -> String {
    if count == "1" {
        "1 mite".to_owned()
    } else {
        format!("{count} mites")
    }
}

/// "Three days late", where a sentence begins.
pub(super) fn days_late(days: usize) -> String {
    const NUMBERS: [&str; 6] = ["One", "Two", "Three", "Four", "Five", "Six"];
    match days {
        1 => "One day late".to_owned(),
        2..=6 => format!("{} days late", NUMBERS[days - 1]),
        _ => format!("{days} days late"),
    }
}

/// "900 larvae".
pub(super) fn larvae(count: &str) -> String {
    format!("{count} larvae")
}

/// "about 300 eggs a day", without the "about".
pub(super) fn eggs_a_day(count: &str) -> String {
    match count {
        "0" => "no eggs".to_owned(),
        "1" => "1 egg a day".to_owned(),
        _ => format!("{count} eggs a day"),
    }
}

/// Half frames in words: 0 "no …", 0.5 "half a frame …", 1.5 "1½ frames …".
fn frames(halves: u32, none: &str, of: &str) -> String {
    match halves {
        0 => none.to_owned(),
        1 => format!("half a frame {of}"),
        2 => format!("1 frame {of}"),
        _ => {
            let half = if halves % 2 == 1 { "½" } else { "" };
            format!("{}{half} frames {of}", halves / 2)
        }
    }
}

/// "6 frames of brood".
pub(super) fn frames_of_brood(halves: u32, any: bool) -> String {
    frames(
        halves,
        if any { "a patch of brood" } else { "no brood" },
        "of brood",
    )
}

/// "9 frames drawn".
pub(super) fn frames_drawn(halves: u32, any: bool) -> String {
    frames(
        halves,
        if any {
            "the first comb begun"
        } else {
            "no comb drawn"
        },
        "drawn",
    )
}

/// "1½ frames", for comb drawn in a week.
pub(super) fn frames_alone(halves: u32) -> String {
    frames(halves, "little comb", "").trim_end().to_owned()
}

/// "3 days", "2 weeks", "4 months", "more than a year" from a number of days.
pub(super) fn time(days: f64) -> String {
    let count = |number: f64, one: &str, many: &str| {
        if number.round() <= 1.0 {
            format!("1 {one}")
        } else {
            format!("{} {many}", number.round())
        }
    };
    if days < 1.0 {
        "less than a day".to_owned()
    } else if days < 14.0 {
        format!("about {}", count(days, "day", "days"))
    } else if days < 60.0 {
        format!("about {}", count(days / 7.0, "week", "weeks"))
    } else if days < 365.0 {
        format!("about {}", count(days / 30.4, "month", "months"))
    } else {
        "more than a year".to_owned()
    }
}

/// "12 days".
pub(super) fn days(count: usize) -> String {
    if count == 1 {
        "1 day".to_owned()
    } else {
        format!("{count} days")
    }
}

/// "1 hour", "2.5 hours".
pub(super) fn hours(hours: &str) -> String {
    if hours == "1" {
        "1 hour".to_owned()
    } else {
        format!("{hours} hours")
    }
}

/// A share in words, for shares from about a third upwards.
pub(super) fn share(share: f64) -> &'static str {
    if share < 0.29 {
        "a quarter"
    } else if share < 0.42 {
        "a third"
    } else if share < 0.58 {
        "half"
    } else if share < 0.71 {
        "two thirds"
    } else if share < 0.9 {
        "most"
    } else {
        "nearly all"
    }
}

/// The day's record in one line of plain numbers, for those who do not see the picture.
pub fn day_in_numbers(day: &DayRecord) -> String {
    format!(
        "{:.0} bees, {:.1} frames of brood, {:.1} frames drawn",
        day.adult_bees, day.frames_of_brood, day.drawn_frames
    )
}

/// Fills a template: its own words stay plain, each `{name}` takes the spans given for it.
pub(super) fn fill(template: &str, parts: &[(&str, Vec<Span>)]) -> Vec<Span> {
    let mut spans = Vec::new();
    let mut rest = template;
    while let Some((before, tail)) = rest.split_once('{') {
        let (name, after) = tail
            .split_once('}')
            .expect("every brace of the catalogue is closed");
        push(&mut spans, Span::new(before, Emphasis::Plain));
        let part = parts.iter().find(|(known, _)| *known == name);
        debug_assert!(part.is_some(), "no part for {{{name}}} in \"{template}\"");
        for span in part.into_iter().flat_map(|(_, part)| part) {
            push(&mut spans, span.clone());
        }
        rest = after;
    }
    push(&mut spans, Span::new(rest, Emphasis::Plain));
    spans
}

/// Appends a span, joining it to the last one where both have the same emphasis.
fn push(spans: &mut Vec<Span>, span: Span) {
    if span.text.is_empty() {
        return;
    }
    match spans.last_mut() {
        Some(last) if last.kind == span.kind => last.text.push_str(&span.text),
        _ => spans.push(span),
    }
}
