//! The calendar file of what next is iCalendar (RFC 5545), as a parser of another make reads it.

use icalendar::{Calendar, CalendarComponent, Component, DatePerhapsTime};
use serde_json::Value;

use super::common::good;

const WET_SPRING: &str = "scenarios/wet-spring.toml";
const DEMO: &str = "scenarios/visits/alder-row-3.toml";

fn next(arguments: &[&str]) -> String {
    combcast("next", arguments)
}

fn combcast(command: &str, arguments: &[&str]) -> String {
    let before = [command, WET_SPRING];
    good(&[&before[..], arguments, &["--members", "150"]].concat())
}

fn day(date: Option<DatePerhapsTime>) -> String {
    match date {
        Some(DatePerhapsTime::Date(date)) => date.to_string(),
        other => panic!("expected a whole day, got {other:?}"),
    }
}

#[test]
fn lines_end_and_fold_as_the_standard_says() {
    let file = next(&[DEMO, "--calendar"]);
    assert_eq!(file.matches('\n').count(), file.matches("\r\n").count());
    assert!(file.ends_with("END:VCALENDAR\r\n"));
    let mut folded = 0;
    for line in file.split_terminator("\r\n") {
        assert!(line.len() <= 75, "{} octets: {line}", line.len());
        assert!(!line.trim().is_empty());
        folded += usize::from(line.starts_with(' '));
    }
    assert!(folded > 10, "{folded}");
}

#[test]
fn another_parser_reads_what_the_list_says() {
    let calendar: Calendar = next(&[DEMO, "--calendar"]).parse().expect("iCalendar");
    assert_eq!(calendar.property_value("VERSION"), Some("2.0"));
    let lists: Value = serde_json::from_str(&next(&[DEMO, "--json"])).expect("JSON");
    let items = lists[0]["items"].as_array().expect("items");
    assert_eq!(calendar.components.len(), items.len());
    let mut ids = Vec::new();
    for (component, item) in calendar.components.iter().zip(items) {
        let CalendarComponent::Event(event) = component else {
            panic!("expected an event, got {component:?}");
        };
        assert_eq!(day(event.get_start()), item["from"].as_str().unwrap());
        // The end is the first day after it.
        let last: jiff::civil::Date = item["to"].as_str().unwrap().parse().unwrap();
        let after = last.tomorrow().unwrap().to_string();
        assert_eq!(day(event.get_end()), after);
        let summary = event.get_summary().expect("a summary");
        assert!(summary.starts_with("Alder Row 3: "), "{summary}");
        let description = event.get_description().expect("a description");
        assert!(description.contains("Why: ") && description.contains("Caution: "));
        assert_eq!(event.property_value("DTSTAMP"), Some("20120618T000000Z"));
        ids.push(event.get_uid().expect("an identifier").to_owned());
    }
    let all = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), all, "identifiers are unique");
}

#[test]
fn the_file_depends_on_nothing_but_what_is_given() {
    let once = next(&[DEMO, "--calendar"]);
    assert_eq!(once, next(&[DEMO, "--calendar"]));
    let later = next(&[DEMO, "--calendar", "--stamp", "2012-06-20"]);
    assert_eq!(once.replace("DTSTAMP:20120618", "DTSTAMP:20120620"), later);
    // A visit of the same day keeps its identifier when the list is made anew.
    let id = |file: &str| {
        let calendar: Calendar = file.parse().expect("iCalendar");
        let visit = calendar
            .components
            .iter()
            .find_map(|component| match component {
                CalendarComponent::Event(event) => {
                    let uid = event.get_uid()?.to_owned();
                    uid.starts_with("visit-20120702").then_some(uid)
                }
                _ => None,
            });
        visit.expect("a visit on 2 July")
    };
    let again = next(&[DEMO, "--calendar", "--on", "2012-06-21", "--units", "us"]);
    assert_eq!(id(&once), id(&again));
}

#[test]
fn names_with_signs_of_the_format_come_through() {
    let name = "Row 3; the \\ tall, \u{fc}ppige one";
    let book = format!("hive = {name:?}\n\n[[visit]]\ndate = \"2012-05-14\"\neggs_seen = true\n");
    let file = format!("combcast-{}-calendar.toml", std::process::id());
    let path = std::env::temp_dir().join(file);
    std::fs::write(&path, book).expect("a temporary file can be written");
    let text = next(&[path.to_str().expect("a plain path"), "--calendar"]);
    let _ = std::fs::remove_file(&path);
    let calendar: Calendar = text.parse().expect("iCalendar");
    let Some(CalendarComponent::Event(event)) = calendar.components.first() else {
        panic!("expected an event");
    };
    let summary = event.get_summary().expect("a summary");
    assert!(summary.starts_with(&format!("{name}: ")), "{summary}");
}

#[test]
fn the_calendar_of_drone_frames_has_a_day_for_each_move() {
    let with = |option: &str| combcast("search", &["--what", "drone-frames", option]);
    let calendar: Calendar = with("--calendar").parse().expect("iCalendar");
    let found: Value = serde_json::from_str(&with("--json")).expect("JSON");
    let moves = found["best"][0]["calendar"].as_array().expect("moves");
    assert!(moves.len() >= 2);
    assert_eq!(calendar.components.len(), moves.len());
    for (component, dated) in calendar.components.iter().zip(moves) {
        let CalendarComponent::Event(event) = component else {
            panic!("expected an event, got {component:?}");
        };
        assert_eq!(day(event.get_start()), dated["date"].as_str().unwrap());
        let summary = event.get_summary().expect("a summary");
        let text = dated["text"].as_str().unwrap();
        assert_eq!(summary.to_lowercase(), text.to_lowercase());
    }
}
