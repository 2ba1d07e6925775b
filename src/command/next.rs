//! `combcast next`: what to do in the coming weeks.

use std::collections::BTreeSet;
use std::path::Path;

use combcast_core::Error;
use combcast_core::agenda::{Agenda, Asked, Item, Job, agenda, icalendar};
use combcast_core::verdict::Effort;
use combcast_core::visits::{Aside, Visit, VisitBook, hives_from_bytes};
use combcast_core::words::{Language, Speech};

use super::verdict::sifted;
use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, DIM, Failure};
use crate::words;

pub fn run(given: &args::Next) -> Result<(), Failure> {
    let hands = Threads::new(given.threads)?;
    let (books, mut faults) = match &given.visits {
        Some(visits) => {
            let hives = hives_from_bytes(&load::read(visits)?, &load::name(visits))?;
            (hives.books, hives.faults)
        }
        None => (vec![VisitBook::default()], Vec::new()),
    };
    let speech = given.speech.get();
    let mut lists = Vec::with_capacity(books.len());
    let mut asides = Vec::with_capacity(books.len());
    for book in &books {
        match list_of(given, book, &hands) {
            Ok((list, aside)) => {
                lists.push(list);
                asides.push(aside);
            }
            Err(failure) => faults.extend(failure.of_hive(&book.hive)),
        }
    }
    if lists.is_empty() {
        return output::after_faults(faults);
    }
    let text = if given.json {
        output::json(&lists)?
    } else if given.calendar {
        let stamp = given
            .stamp
            .or(lists.first().map(|list| list.from.0))
            .unwrap_or_default();
        icalendar(&lists, speech, stamp)
    } else if given.sheet {
        let sheets: Vec<String> = lists.iter().map(|list| sheet(list, speech)).collect();
        // A form feed: the next hive has a sheet of its own.
        sheets.join("\u{c}")
    } else {
        let each = lists.iter().zip(&asides);
        each.map(|(list, (aside, visits, sky))| told(list, speech, aside, visits) + sky)
            .collect::<Vec<_>>()
            .join("\n")
    };
    output::write(&text)?;
    output::after_faults(faults)
}

/// What was set aside, the visits that were used, and how much of the weather was measured.
type Beside = (Vec<Aside>, Vec<Visit>, String);

/// The list of one hive.
fn list_of(
    given: &args::Next,
    book: &VisitBook,
    hands: &Threads,
) -> Result<(Agenda, Beside), Failure> {
    let beside = given.visits.as_deref().unwrap_or(Path::new(""));
    let own = load::of_hive(&given.scenario, beside, book);
    let (scenario, peers) = load::peers(&own)?;
    let of_hive = |error: Error| {
        if error.place == "on" {
            return Error::scenario("--on", error.message);
        }
        match &given.visits {
            Some(visits) => error.within(&load::name(visits)),
            None => error,
        }
    };
    let (visits, aside) =
        sifted(&scenario, &peers, book, given.on, given.today).map_err(of_hive)?;
    if visits.is_empty() && !book.visits.is_empty() {
        return Err(of_hive(none_left(&aside, given)).into());
    }
    let asked = Asked {
        scenario: &scenario,
        peers: &peers,
        hive: &book.hive,
        visits: &visits,
        on: given.on,
        weeks: u32::from(given.weeks),
        effort: Effort {
            members: given.members,
            rounds: given.rounds,
        },
    };
    let list = agenda(asked, hands).map_err(of_hive)?;
    let sky = load::sky(&scenario, &own.file, given.speech.get().language)?;
    Ok((list, (aside, visits, sky)))
}

fn none_left(aside: &[Aside], given: &args::Next) -> Error {
    let why: Vec<String> = aside
        .iter()
        .map(|aside| {
            let date = Language::English.day_and_month(aside.date.0, true);
            let why = aside.placed();
            format!("visit {} ({date}): {why}", aside.visit)
        })
        .collect();
    let why = if why.is_empty() {
        let on = given.on.map_or(String::new(), |on| on.to_string());
        format!("there is none up to {on}")
    } else {
        why.join("; ")
    };
    Error::scenario("", format!("no visit can be used: {why}"))
}

/// What the list is of.
fn title(list: &Agenda, speech: Speech) -> String {
    let date = speech.language.day_and_month(list.from.0, true);
    let title = words::text(words::of(speech.language).next.title, &[("date", &date)]);
    output::of_hive(&list.hive, &title, speech.language)
}

fn footing(list: &Agenda, speech: Speech) -> String {
    let members = speech.language.grouped(list.members as f64);
    let words = &words::of(speech.language).next;
    let pattern = match list.visits {
        0 => words.of_none,
        1 => words.of_one,
        _ => words.of_many,
    };
    let visits = list.visits.to_string();
    let footing = words::text(pattern, &[("members", &members), ("visits", &visits)]);
    let left_out = list.left_out.as_ref();
    let assumed = list.assumed_mites.as_ref().map(|assumed| &assumed.text);
    left_out
        .into_iter()
        .chain(assumed)
        .fold(footing, |text, said| text + " " + &said.told(speech))
}

/// "Mon 25 June", "1 to 14 July".
fn when(list: &Agenda, item: &Item, speech: Speech) -> String {
    let years = list.from.0.year() != list.until.0.year();
    let (from, to) = (item.from.0, item.to.0);
    if from == to {
        speech.language.short_weekday(from, years)
    } else if (from.year(), from.month()) == (to.year(), to.month()) {
        let parts = [
            ("from", &*from.day().to_string()),
            ("to", &speech.language.day_and_month(to, years)),
        ];
        words::text(words::of(speech.language).next.days_of_a_month, &parts)
    } else {
        let date = |date| speech.language.day_and_month(date, years);
        speech.language.range(&date(from), &date(to))
    }
}

fn told(list: &Agenda, speech: Speech, aside: &[Aside], visits: &[Visit]) -> String {
    let words = &words::of(speech.language).next;
    let mut text = format!("{BOLD}{}{BOLD:#}\n", title(list, speech));
    text.push_str(&output::dim(&footing(list, speech), 0));
    if !aside.is_empty() {
        let (count, visits) = (aside.len().to_string(), visits.len().to_string());
        let pattern = match &*visits {
            "1" => words.aside_but_one,
            _ => words.aside,
        };
        let what = words::text(pattern, &[("count", &count), ("visits", &visits)]);
        let what = output::caution(&what, speech.language);
        text.push_str(&output::wrapped_after(&what, 2));
        text.push('\n');
    }
    for warning in &list.warnings {
        let warning = output::caution(&warning.told(speech), speech.language);
        text.push_str(&output::wrapped_after(&warning, 2));
        text.push('\n');
    }
    // A caution is said once, where it is met first.
    let mut said = BTreeSet::new();
    let mut day = String::new();
    let (soon, later): (Vec<&Item>, Vec<&Item>) =
        list.items.iter().partition(|item| item.from <= list.to);
    for (number, item) in soon.iter().chain(&later).enumerate() {
        if number == soon.len() {
            text.push_str(&format!(
                "\n{DIM}{}{DIM:#}\n",
                words::text(
                    words.later,
                    &[("date", &speech.language.day_and_month(list.until.0, true))]
                )
            ));
        }
        let now = when(list, item, speech);
        if now != day {
            text.push_str(&format!("\n{BOLD}{now}{BOLD:#}\n"));
            day = now;
        }
        text.push_str(&one(list, item, speech, &mut said));
    }
    text
}

fn one(list: &Agenda, item: &Item, speech: Speech, said: &mut BTreeSet<String>) -> String {
    let told = item.told(list, speech);
    let planned = matches!(item.job, Job::Planned { .. });
    let title = format!("{BOLD}{}{BOLD:#}", told.title);
    let title = if planned {
        words::text(
            words::of(speech.language).next.as_planned,
            &[("title", &title)],
        )
    } else {
        title
    };
    let mut text = output::wrapped_after(&format!("  {title}"), 2);
    text.push('\n');
    let details = told.details.join(" ");
    // The next filling is mixed like the last.
    if !details.is_empty() && (!planned || said.insert(details.clone())) {
        text.push_str(&output::wrapped(&details, 4));
        text.push('\n');
    }
    if !planned {
        text.push_str(&output::dim(&told.why, 4));
    }
    for caution in told.cautions {
        if said.insert(caution.clone()) {
            let caution = format!("    {}", output::caution(&caution, speech.language));
            text.push_str(&output::wrapped_after(&caution, 4));
            text.push('\n');
        }
    }
    text
}

/// The list to print, tick off and write on.
fn sheet(list: &Agenda, speech: Speech) -> String {
    let words = &words::of(speech.language).next;
    let mut text = format!(
        "{}\n{}\n",
        title(list, speech),
        "=".repeat(title(list, speech).chars().count())
    );
    text.push_str(&output::wrapped_for_paper(&footing(list, speech), "", ""));
    text.push('\n');
    let mut cautions: Vec<String> = Vec::new();
    for item in &list.items {
        let told = item.told(list, speech);
        let head = format!("[ ] {}: {}", when(list, item, speech), told.title);
        text.push('\n');
        text.push_str(&output::wrapped_for_paper(&head, "", "    "));
        text.push('\n');
        for line in &told.details {
            text.push_str(&output::wrapped_for_paper(line, "    ", "    "));
            text.push('\n');
        }
        if matches!(item.job, Job::Visit { .. }) {
            text.push_str(&format!(
                "    {}\n    {}\n",
                words.sheet_frames, words.sheet_queen
            ));
        }
        for caution in told.cautions {
            if !cautions.contains(&caution) {
                cautions.push(caution);
            }
        }
    }
    let under = "-".repeat(words.beware.chars().count());
    text.push_str(&format!("\n{}\n{under}\n", words.beware));
    for caution in &cautions {
        text.push_str(&output::wrapped_for_paper(caution, "", ""));
        text.push('\n');
    }
    text.push_str(&output::wrapped_for_paper(words.aid, "", ""));
    text.push('\n');
    text
}
