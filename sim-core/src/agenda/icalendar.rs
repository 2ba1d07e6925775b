//! The list as a calendar file: iCalendar (RFC 5545).
//!
//! Written here, since crates that write it read the clock and draw random identifiers, which neither a
//! model nor its WebAssembly may. A parser of another make reads it in the tests.

use jiff::civil::Date;

use super::{Agenda, Item, Job};
use crate::calendar::plus_days;
use crate::digest;
use crate::document::VERSION;
use crate::story::Units;

/// Most octets of a line, its ending left out (RFC 5545, 3.1).
const LINE: usize = 75;

/// Lists as one iCalendar file, all of its events for whole days.
///
/// `stamp` is the day on which the file says that it was made. An event keeps its identifier as long as
/// hive, kind and date are the same, so that a list read in again takes the place of the one before.
pub fn icalendar(agendas: &[Agenda], units: Units, stamp: Date) -> String {
    let mut file = File::default();
    file.line("BEGIN", "VCALENDAR");
    file.line("VERSION", "2.0");
    file.line("PRODID", &format!("-//Combcast//Combcast {VERSION}//EN"));
    file.line("CALSCALE", "GREGORIAN");
    let name = match agendas {
        [one] if !one.hive.is_empty() => one.hive.as_str(),
        some => some.first().map_or("", |one| one.scenario.as_str()),
    };
    file.text("NAME", name);
    for agenda in agendas {
        let mut seen: Vec<(&str, Date)> = Vec::new();
        for item in &agenda.items {
            let place = (kind(&item.job), item.from.0);
            let number = seen.iter().filter(|known| **known == place).count();
            seen.push(place);
            event(&mut file, agenda, item, number, units, stamp);
        }
    }
    file.line("END", "VCALENDAR");
    file.0
}

fn event(file: &mut File, agenda: &Agenda, item: &Item, number: usize, units: Units, stamp: Date) {
    let told = item.told(agenda, units);
    let of = digest::bytes(format!("{}\n{}", agenda.hive, agenda.scenario).bytes());
    let uid = format!(
        "{}-{}-{number}-{of:016x}@combcast.invalid",
        kind(&item.job),
        day(item.from.0)
    );
    file.line("BEGIN", "VEVENT");
    file.line("UID", &uid);
    file.line("DTSTAMP", &format!("{}T000000Z", day(stamp)));
    file.line("DTSTART;VALUE=DATE", &day(item.from.0));
    // The end of an event is the first day after it.
    file.line("DTEND;VALUE=DATE", &day(plus_days(item.to.0, 1)));
    let title = if agenda.hive.is_empty() {
        told.title
    } else {
        format!("{}: {}", agenda.hive, told.title)
    };
    file.text("SUMMARY", &title);
    let mut lines = told.details;
    lines.push(format!("Why: {}", told.why));
    lines.extend(
        told.cautions
            .iter()
            .map(|caution| format!("Caution: {caution}")),
    );
    file.text("DESCRIPTION", &lines.join("\n"));
    file.line("CATEGORIES", &kind(&item.job).to_uppercase());
    // A day with something to do in it is not a busy day.
    file.line("TRANSP", "TRANSPARENT");
    file.line("END", "VEVENT");
}

fn kind(job: &Job) -> &'static str {
    match job {
        Job::Planned { .. } => "planned",
        Job::Check { .. } => "check",
        Job::Visit { .. } => "visit",
        Job::Feed { .. } => "feed",
        Job::AddBox { .. } => "box",
        Job::DroneFrameIn { .. } => "drone-frame-in",
        Job::DroneFrameOut { .. } => "drone-frame-out",
        Job::Wash { .. } => "wash",
        Job::Treat { .. } => "treat",
        Job::Broodless { .. } => "broodless",
    }
}

fn day(date: Date) -> String {
    format!("{:04}{:02}{:02}", date.year(), date.month(), date.day())
}

#[derive(Default)]
struct File(String);

impl File {
    /// A property whose value is text: escaped (RFC 5545, 3.3.11).
    fn text(&mut self, name: &str, value: &str) {
        let mut escaped = String::with_capacity(value.len());
        for letter in value.chars() {
            match letter {
                '\\' => escaped.push_str("\\\\"),
                ';' => escaped.push_str("\\;"),
                ',' => escaped.push_str("\\,"),
                '\n' => escaped.push_str("\\n"),
                // No control has a place in a text; names come from files.
                letter if letter.is_control() => escaped.push(' '),
                letter => escaped.push(letter),
            }
        }
        self.line(name, &escaped);
    }

    /// One line, folded between characters.
    fn line(&mut self, name: &str, value: &str) {
        let mut length = 0;
        for letter in name.chars().chain([':']).chain(value.chars()) {
            let octets = letter.len_utf8();
            if length + octets > LINE {
                self.0.push_str("\r\n ");
                length = 1;
            }
            self.0.push(letter);
            length += octets;
        }
        self.0.push_str("\r\n");
    }
}
