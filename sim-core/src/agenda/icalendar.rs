//! The list as a calendar file: iCalendar (RFC 5545).
//!
//! Written here, since crates that write it read the clock and draw random identifiers, which neither a
//! model nor its WebAssembly may. A parser of another make reads it in the tests.

use jiff::civil::Date;

use super::{Agenda, Item, Job};
use crate::calendar::plus_days;
use crate::digest;
use crate::document::VERSION;
use crate::verdict::Alarming;
use crate::words::{Language, Speech, text};

/// Most octets of a line, its ending left out (RFC 5545, 3.1).
const LINE: usize = 75;

/// Lists as one iCalendar file, all of its events for whole days.
///
/// `stamp` is the day on which the file says that it was made. An event keeps its identifier as long as
/// hive, kind and date are the same, so that a list read in again takes the place of the one before.
pub fn icalendar(agendas: &[Agenda], speech: Speech, stamp: Date) -> String {
    let name = match agendas {
        [one] if !one.hive.is_empty() => one.hive.as_str(),
        some => some.first().map_or("", |one| one.scenario.as_str()),
    };
    let events = agendas
        .iter()
        .flat_map(|agenda| agenda.items.iter().map(|item| event(agenda, item, speech)));
    calendar(name, events, stamp, speech.language)
}

/// What is to be done on some days.
pub(crate) struct Event<'a> {
    pub hive: &'a str,
    pub scenario: &'a str,
    /// What kind of work, in lower case.
    pub kind: &'static str,
    pub from: Date,
    pub to: Date,
    pub title: String,
    pub lines: Vec<String>,
}

fn event<'a>(agenda: &'a Agenda, item: &Item, speech: Speech) -> Event<'a> {
    let told = item.told(agenda, speech);
    let mut lines = told.details;
    let words = &speech.words().agenda;
    lines.push(text(words.calendar_why, &[("why", &told.why)]));
    let cautions = told.cautions.iter();
    lines.extend(cautions.map(|caution| text(words.calendar_caution, &[("caution", caution)])));
    Event {
        hive: &agenda.hive,
        scenario: &agenda.scenario,
        kind: kind(&item.job),
        from: item.from.0,
        to: item.to.0,
        title: told.title,
        lines,
    }
}

/// Events as an iCalendar file.
pub(crate) fn calendar<'a>(
    name: &str,
    events: impl Iterator<Item = Event<'a>>,
    stamp: Date,
    language: Language,
) -> String {
    let mut file = File::default();
    file.line("BEGIN", "VCALENDAR");
    file.line("VERSION", "2.0");
    let spoken = language.words().agenda.calendar_language;
    file.line(
        "PRODID",
        &format!("-//Combcast//Combcast {VERSION}//{spoken}"),
    );
    file.line("CALSCALE", "GREGORIAN");
    file.text("NAME", name);
    let mut ids: Vec<String> = Vec::new();
    for event in events {
        let of = digest::bytes(format!("{}\n{}", event.hive, event.scenario).bytes());
        let id = |number: usize| {
            let (kind, day) = (event.kind, day(event.from));
            format!("{kind}-{day}-{number}-{of:016x}@combcast.invalid")
        };
        // Of the same kind and day, the first has number 0.
        let id = (0..)
            .map(id)
            .find(|id| !ids.contains(id))
            .unwrap_or_default();
        file.line("BEGIN", "VEVENT");
        file.line("UID", &id);
        ids.push(id);
        file.line("DTSTAMP", &format!("{}T000000Z", day(stamp)));
        file.line("DTSTART;VALUE=DATE", &day(event.from));
        // The end of an event is the first day after it.
        file.line("DTEND;VALUE=DATE", &day(plus_days(event.to, 1)));
        let title = if event.hive.is_empty() {
            event.title
        } else {
            format!("{}: {}", event.hive, event.title)
        };
        file.text("SUMMARY", &title);
        file.text("DESCRIPTION", &event.lines.join("\n"));
        file.line("CATEGORIES", &event.kind.to_ascii_uppercase());
        // A day with something to do in it is not a busy day.
        file.line("TRANSP", "TRANSPARENT");
        file.line("END", "VEVENT");
    }
    file.line("END", "VCALENDAR");
    file.0
}

fn kind(job: &Job) -> &'static str {
    match job {
        Job::Planned { .. } => "planned",
        Job::Check { .. } => "check",
        Job::Found { alarm } => match alarm.what {
            Alarming::QueenCells { .. } => "queen-cells",
            Alarming::LowStores { .. } => "feed",
            Alarming::ManyMites { .. } | Alarming::ManyFallen { .. } => "treat",
            Alarming::Lost { .. } => "lost",
            Alarming::AtOdds { .. } => "plan-at-odds",
        },
        Job::FirstLook { .. } => "first-look",
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
