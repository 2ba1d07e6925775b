//! `combcast window`: on which day a drone frame should come out.

use combcast_core::Error;
use combcast_core::calendar::CalendarDate;
use combcast_core::ensemble::Hands;
use combcast_core::scenario::{Mode, locate};
use combcast_core::story;
use combcast_core::twin::Side;
use combcast_core::window::{DayOut, Frame, Question, Ready, Window};
use combcast_core::words::Speech;

use crate::args;
use crate::hands::Threads;
use crate::load;
use crate::output::{self, BOLD, DIM, Failure};
use crate::words;

/// Members in random mode where nothing is said of them.
const MEMBERS: u32 = 200;

/// Characters of the curve on each side of its zero.
const HALF: usize = 9;

pub fn run(given: &args::Window) -> Result<(), Failure> {
    let file = &given.scenario.file;
    let (plan, bytes) = load::scenario(&given.scenario)?;
    let within = |error: Error| {
        let option = match error.place.as_str() {
            "date" => "--date",
            "at" => "--at",
            "counted_on" => "--counted-on",
            // The plan has been read, so that this is no place of its own.
            place if given.at.is_some() && place.contains("give_frame.at") => "--at",
            _ => {
                let error = locate(error, std::str::from_utf8(&bytes).unwrap_or(""));
                return Failure::from(error.within(&load::name(file)));
            }
        };
        Error::scenario(option, error.message).into()
    };
    let record = load::record(&plan, file)?;
    let side = Side {
        scenario: &plan,
        record: record.as_ref().map(|(weather, report)| (weather, report)),
    };
    let question = Question {
        frame: Frame {
            date: given.date,
            at: given.at,
            drawn: given.drawn,
        },
        counted_on: given.counted_on,
    };
    let ready = Ready::new(side, question).map_err(within)?;
    let window = work_out(&ready, given)?;
    let text = if given.json {
        serde_json::to_string_pretty(&window)
            .map(|text| text + "\n")
            .map_err(|error| Failure::File(error.to_string()))?
    } else if given.csv {
        csv(&window)
    } else {
        let speech = given.speech.get();
        told(&window, speech) + &load::sky(&plan, file, speech.language)?
    };
    output::write(&text)
}

fn work_out(ready: &Ready, given: &args::Window) -> Result<Window, Failure> {
    let random = matches!(given.scenario.mode, Some(args::ModeChoice::Random));
    let members = match (given.members, given.scenario.mode) {
        (Some(_), Some(args::ModeChoice::Mean)) => {
            return Err(Error::scenario(
                "--members",
                "expected values are one season: leave out --members, or --mode mean",
            )
            .into());
        }
        (Some(members), _) => members,
        (None, _) if random => MEMBERS,
        (None, _) => return Ok(Window::of(ready, Mode::Mean, [ready.mean()])?),
    };
    // In the order of the members, whichever thread had them.
    let seasons =
        Threads::new(given.threads)?.make(members as usize, |member| ready.member(member as u32));
    Ok(Window::of(ready, Mode::Random, seasons)?)
}

fn csv(window: &Window) -> String {
    let one_line = |name: &str| name.lines().collect::<Vec<_>>().join(" ");
    let mode = match window.mode {
        Mode::Mean => "mean",
        Mode::Random => "random",
    };
    let date = |date: Option<_>| match date {
        Some(combcast_core::calendar::CalendarDate(date)) => date.to_string(),
        None => "none".to_owned(),
    };
    let mut text = format!(
        "# combcast {}\n# plan: {}\n# plan digest: {}\n# seed: {}\n# mode: {mode}\n# members: {}\n# frame given: {}\n# first egg: {}\n# drones emerge: {}\n# last safe day: {}\n# mites counted: {}\n",
        window.version,
        one_line(&window.plan),
        window.plan_digest,
        window.seed,
        window.members,
        window.given,
        date(window.first_egg),
        date(window.emerges),
        date(window.last_safe),
        window.counted_on,
    );
    text.push_str("date,days_in,days_late,days_since_first_egg,drone_cells_open,drone_cells_capped,drones_emerged,mites_let_out,share_of_mites");
    for of in ["mites_removed", "gain"] {
        for what in ["mean", "q05", "median", "q95"] {
            text.push_str(&format!(",{of}_{what}"));
        }
    }
    text.push_str(",probability,lost\n");
    for day in &window.days {
        let number = |days: Option<i32>| days.map_or(String::new(), |days| days.to_string());
        text.push_str(&format!(
            "{},{},{},{},{},{},{},{},{}",
            day.date,
            day.days_in,
            number(day.days_late),
            number(day.days_since_first_egg),
            day.drone_cells_open,
            day.drone_cells_capped,
            day.drones_emerged,
            day.mites_let_out,
            day.share_of_mites,
        ));
        for spread in [&day.mites_removed, &day.gain] {
            text.push_str(&format!(
                ",{},{},{},{}",
                spread.mean, spread.q05, spread.median, spread.q95
            ));
        }
        text.push_str(&format!(",{},{}\n", day.probability, day.lost));
    }
    text
}

fn told(window: &Window, speech: Speech) -> String {
    let mut text = format!("{BOLD}{}{BOLD:#}\n", window.plan);
    let words = words::of(speech.language);
    let how = match window.mode {
        Mode::Mean => words.shared.expected_values,
        Mode::Random => words.window.random,
    };
    let members = speech.language.grouped(window.members as f64);
    let seed = window.seed.to_string();
    let date = |date: CalendarDate| speech.language.day_and_month(date.0, true);
    let parts = [
        ("place", &*window.at.place.to_string()),
        ("box", &window.at.in_box.to_string()),
        ("given", &date(window.given)),
        (
            "how",
            &words::text(how, &[("members", &members), ("seed", &seed)]),
        ),
        ("counted", &date(window.counted_on)),
    ];
    let place = words::text(words.window.frame, &parts);
    for line in output::wrapped(&place, 0).lines() {
        text.push_str(&format!("{DIM}{line}{DIM:#}\n"));
    }
    text.push('\n');
    text.push_str(&output::story(&story::window(window, speech)));
    text.push_str("\n\n");
    text.push_str(&table(window, speech));
    text
}

/// The table by day out, with the gain as a curve: to the right of the line fewer mites than without the
/// frame, to the left more.
fn table(window: &Window, speech: Speech) -> String {
    let words = &words::of(speech.language).window;
    let most = window
        .days
        .iter()
        .map(|day| day.gain.mean.abs())
        .fold(1.0, f64::max);
    let rows = window.days.iter().map(|day| row(day, window, most, speech));
    output::table(&[words.headings, words.units], &[1, 2, 3, 4, 5, 6, 7], rows)
        .replace('\u{a0}', " ")
}

fn row(day: &DayOut, window: &Window, most: f64, speech: Speech) -> [String; 9] {
    let mark = if window.last_safe == Some(day.date) {
        "› "
    } else {
        "  "
    };
    // Hard spaces, so that a narrow table does not break dates.
    let date = speech
        .language
        .short_date(day.date.0, false)
        .replace(' ', "\u{a0}");
    [
        format!("{mark}{date}"),
        match day.days_late {
            Some(late) if late > 0 => late.to_string(),
            _ => String::new(),
        },
        speech.language.grouped(day.drone_cells_open),
        speech.language.grouped(day.drone_cells_capped),
        speech.language.grouped(day.drones_emerged),
        speech.language.grouped(day.mites_removed.mean),
        format!("{:.0}\u{a0}%", 100.0 * day.share_of_mites),
        output::signed_count(day.gain.mean, speech.language),
        bar(day.gain.mean, most),
    ]
}

/// A bar from the zero in the middle, as long as its part of the greatest.
fn bar(gain: f64, most: f64) -> String {
    let length = (gain.abs() / most * HALF as f64).round() as usize;
    let (left, right) = if gain < 0.0 { (length, 0) } else { (0, length) };
    format!(
        "{}{}|{}",
        "\u{a0}".repeat(HALF - left),
        "░".repeat(left),
        "█".repeat(right)
    )
}
