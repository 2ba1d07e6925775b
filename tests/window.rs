//! The window of a drone frame: taken out in time it removes mites, taken out late it has bred them.

use combcast_core::calendar::CalendarDate;
use combcast_core::moves::Task;
use combcast_core::scenario::moves::{NewFrame, Which};
use combcast_core::scenario::{Action, Comb, Mode, Move, Scenario};
use combcast_core::twin::Side;
use combcast_core::weather::{self, Report, Weather};
use combcast_core::window::{Frame, Question, Ready, Window};
use combcast_core::words::Speech;
use combcast_core::{Parameters, Season, story};
use jiff::civil::{Date, date};
use serde_json::Value;

use super::common::output;

const SEATTLE: &[u8] = include_bytes!("../scenarios/weather/seattle-2012-2015.csv");
/// An established colony with mites, in May.
const HIVE: &str = r#"
name = "A colony with mites"
until = 2012-08-31
seed = 7

[place]
name = "Alder Row"
latitude = 47.6

[weather]
record = "seattle"

[start]
date = 2012-04-01
mites_per_100_bees = 1.0

[start.established]
frames_of_bees = 8
frames_of_brood = 4
honey_kg = 10
pollen_kg = 1

[hive]
[[hive.box]]
comb = "drawn"
[[hive.box]]
comb = "drawn"
"#;
const GIVEN: Date = date(2012, 5, 10);

fn scenario(text: &str) -> (Scenario, (Weather, Report)) {
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let record = weather::read_for(&scenario, SEATTLE).expect("a sound record");
    (scenario, record)
}

fn side<'a>(scenario: &'a Scenario, (weather, report): &'a (Weather, Report)) -> Side<'a> {
    Side {
        scenario,
        record: Some((weather, report)),
    }
}

fn drawn_frame() -> Question {
    Question {
        frame: Frame {
            date: Some(GIVEN),
            at: None,
            drawn: true,
        },
        counted_on: None,
    }
}

/// A hive with room for a frame from the day before on: a drawn one of the upper box is taken out.
fn with_room() -> String {
    format!("{HIVE}\n[[move]]\ndate = 2012-05-09\ntake_frame = {{ box = 2, place = 10 }}\n")
}

fn expected(text: &str, question: Question) -> Window {
    let (scenario, record) = scenario(text);
    let ready = Ready::new(side(&scenario, &record), question).expect("a window");
    Window::of(&ready, Mode::Mean, [ready.mean()]).expect("a sound season")
}

fn run(scenario: &Scenario, record: &(Weather, Report)) -> Season {
    let (weather, _) = weather::lay(scenario, Some((&record.0, &record.1)), 0).expect("weather");
    combcast_core::run(scenario, &weather).expect("a sound season")
}

#[test]
fn gain_turns_to_loss() {
    let window = expected(&with_room(), drawn_frame());
    let gain = |late: i32| window.late(late).expect("a day of the window").gain.mean;
    let safe = gain(0);
    assert!(safe > 0.0, "{safe}");
    // Nothing is gained before the first cells are capped; from then on it rises.
    let brood = Parameters::default().brood;
    let capped_from = (brood.drone_egg_d + brood.drone_larva_d) as i32;
    for day in &window.days {
        let early = day.days_since_first_egg.is_some_and(|d| d <= capped_from);
        assert!(!early || day.gain.mean.abs() < 0.1 * safe, "{day:?}");
    }
    // A day late it is out just before its first drones are; then the gain is lost, and more.
    assert!(gain(1) > 0.8 * safe);
    assert!(gain(3) < 0.5 * safe);
    let (from, to) = window.harmful().expect("late is worse than never");
    assert!(from.date > window.last_safe.unwrap() && from.date <= to.date);
    assert!(from.gain.mean < 0.0);
    // And left in for good it is worse than any day.
    let worst = window.days.iter().map(|day| day.gain.mean);
    assert!(window.gain_left_in.mean < worst.fold(f64::INFINITY, f64::min));
}

/// The window of eight members.
fn tried_eightfold() -> Window {
    let (scenario, record) = scenario(&with_room());
    let ready = Ready::new(side(&scenario, &record), drawn_frame()).expect("a window");
    let members = (0..8).map(|member| ready.member(member));
    Window::of(&ready, Mode::Random, members).expect("sound seasons")
}

#[test]
fn days_that_are_worth_as_much_are_not_told_as_late() {
    for window in [expected(&with_room(), drawn_frame()), tried_eightfold()] {
        let told = story::window(&window, Speech::default()).plain();
        let safe = window.late(0).expect("the last safe day").gain.mean.round();
        let late: Vec<_> = (1..=6).filter_map(|late| window.late(late)).collect();
        let worth: Vec<_> = (late.iter())
            .take_while(|day| day.gain.mean.round() >= safe)
            .collect();
        assert_eq!(window.as_good_until, worth.last().map(|day| day.date));
        assert_eq!(
            told.contains("look first whether one has"),
            !worth.is_empty()
        );
        for (late, word) in [
            (1, "One day late"),
            (3, "Three days late"),
            (6, "Six days late"),
        ] {
            assert_eq!(told.contains(word), late > worth.len(), "{word}: {told}");
        }
    }
}

#[test]
fn the_last_safe_day_is_the_day_before_the_first_drone_emerges() {
    let window = expected(&with_room(), drawn_frame());
    let brood = Parameters::default().brood;
    let days = brood.drone_egg_d + brood.drone_larva_d + brood.drone_capped_d;
    assert_eq!(days, 24.0);
    let egg = window.first_egg.expect("she lays in drawn drone comb");
    let emerges = window.emerges.expect("its drones emerge");
    assert_eq!(emerges.days_since(egg), 24);
    assert_eq!(emerges.days_since(window.last_safe.unwrap()), 1);
    for day in &window.days {
        let out = day.drones_emerged;
        assert!((out > 0.5) == (day.days_late.unwrap() > 1), "{day:?}");
        assert_eq!(day.mites_let_out > 0.5, out > 0.5, "{day:?}");
    }
    // It follows the model's state, not a number of days.
    let longer = with_room() + "\n[parameters]\n\"brood.drone_capped_d\" = 15.0\n";
    let longer = expected(&longer, drawn_frame());
    assert_eq!(longer.emerges.unwrap().days_since(egg), 25);
    // A season that ends before says it all the same.
    let short = with_room().replace("until = 2012-08-31", "until = 2012-05-25");
    let short = expected(&short, drawn_frame());
    assert_eq!(short.last_safe, window.last_safe);
}

#[test]
fn a_row_is_what_the_season_says() {
    let (mut plan, record) = scenario(&with_room());
    let question = drawn_frame();
    let ready = Ready::new(side(&plan, &record), question).unwrap();
    let window = Window::of(&ready, Mode::Mean, [ready.mean()]).unwrap();
    let never = run(&plan, &record);
    let give = NewFrame {
        comb: Comb::DrawnDroneFrame,
        at: None,
        replace: false,
    };
    plan.moves
        .push(Move::on(CalendarDate(GIVEN), Action::GiveFrame(give)));
    let mites = |season: &Season| {
        let day = CalendarDate(window.counted_on.0).days_since(plan.start.date) as usize;
        let day = &season.days[day];
        day.mites_on_bees + day.mites_in_cells
    };
    for late in [-12, 0, 3] {
        let row = window.late(late).unwrap();
        let mut plan = plan.clone();
        let take = Action::TakeDroneFrame(Which::default());
        plan.moves.push(Move::on(row.date, take));
        let season = run(&plan, &record);
        let event = season
            .events
            .iter()
            .find(|event| event.figures.contains_key("mites_removed"))
            .expect("the frame came out");
        assert_eq!(event.date, row.date.to_string());
        assert_eq!(event.figures["mites_removed"], row.mites_removed.mean);
        assert_eq!(event.figures["drone_cells_capped"], row.drone_cells_capped);
        let gain = mites(&never) - mites(&season);
        assert!((gain - row.gain.mean).abs() < 1e-9, "{gain} {row:?}");
    }
}

#[test]
fn mites_are_conserved_between_the_frame_and_the_hive() {
    // A branch goes through the same audit as a season; a removal takes exactly what is in the cells.
    let (mut plan, record) = scenario(&with_room());
    let give = NewFrame {
        comb: Comb::DrawnDroneFrame,
        at: None,
        replace: false,
    };
    plan.moves
        .push(Move::on(CalendarDate(GIVEN), Action::GiveFrame(give)));
    let (weather, _) = weather::lay(&plan, Some((&record.0, &record.1)), 0).unwrap();
    let prepared = combcast_core::season::prepare(&plan, &weather).unwrap();
    let mut draw = combcast_core::draw::Random::new(plan.seed, 0);
    let mut course = prepared.begin();
    while course.day < 62 {
        course.live_a_day(None, &mut draw).unwrap();
    }
    let nest = course
        .colony
        .drone_brood
        .iter()
        .find(|nest| nest.frame.is_some())
        .expect("a drone frame")
        .brood;
    let task = std::sync::Arc::new(Task {
        number: 99,
        when: None,
        every_days: None,
        action: Action::TakeDroneFrame(Which::default()),
    });
    let mut branch = course.clone();
    let outcome = branch
        .live_a_day(Some(&task), &mut draw.clone())
        .expect("the books close");
    assert_eq!(outcome.ledger.mites_given, -nest.mites());
    assert!(nest.mites() > 10.0);
    // The branch has left the trunk alone.
    assert_eq!(course.day, 62);
    assert_ne!(branch.colony, course.colony);
}

#[test]
fn an_ensemble_has_its_bands_around_the_expected_curve() {
    let (plan, record) = scenario(&with_room());
    let ready = Ready::new(side(&plan, &record), drawn_frame()).unwrap();
    let members = (0..40).map(|member| ready.member(member));
    let random = Window::of(&ready, Mode::Random, members).unwrap();
    let mean = Window::of(&ready, Mode::Mean, [ready.mean()]).unwrap();
    let (random, mean) = (random.late(0).unwrap(), mean.late(0).unwrap());
    let removed = random.mites_removed;
    assert!(removed.q05 < removed.mean && removed.mean < removed.q95);
    assert!(
        (removed.mean / mean.mites_removed.mean - 1.0).abs() < 0.25,
        "{removed:?} {mean:?}"
    );
    assert!(random.probability > 0.6);
    // Whole mites.
    assert_eq!(removed.median.fract() % 0.5, 0.0);
}

#[test]
fn moves_that_would_take_the_frame_out_are_set_aside() {
    let moves = r#"
[[move]]
date = 2012-05-10
give_frame = { comb = "drawn-drone-frame", at = { box = 2, place = 10 } }
[[move]]
date = 2012-05-30
take_drone_frame = {}
"#;
    let with_moves = with_room() + moves;
    let window = expected(&with_moves, Question::default());
    assert_eq!(window.given.0, GIVEN);
    assert_eq!(
        window.set_aside[0].to_string(),
        "take drone frame on 30 May"
    );
    let text = story::window(&window, Speech::default()).plain();
    assert!(text.contains("take drone frame on 30 May"), "{text}");
    // The same as if the plan had neither and the question puts it in.
    let at = combcast_core::scenario::moves::At {
        in_box: 2,
        place: 10,
    };
    let mut question = drawn_frame();
    question.frame.at = Some(at);
    let asked = expected(&with_room(), question);
    assert_eq!(window.days, asked.days);
}

#[test]
fn what_cannot_be_asked_is_refused_with_the_reason() {
    let refused = |text: &str, question: Question| {
        let (scenario, record) = scenario(text);
        Ready::new(side(&scenario, &record), question)
            .expect_err("it cannot be asked")
            .to_string()
    };
    let none = refused(HIVE, Question::default());
    assert!(
        none.contains("there is no drone frame in this plan"),
        "{none}"
    );
    let full = refused(HIVE, drawn_frame());
    assert!(full.contains("every other frame is drawn"), "{full}");
    let mut outside = drawn_frame();
    outside.frame.date = Some(date(2013, 1, 1));
    let outside = refused(&with_room(), outside);
    assert!(outside.contains("2013-01-01"), "{outside}");
    let mut counted = drawn_frame();
    counted.counted_on = Some(date(2012, 5, 1));
    let counted = refused(&with_room(), counted);
    assert!(
        counted.contains("expected a date from 2012-05-11"),
        "{counted}"
    );
}

#[test]
fn the_command_line_tells_draws_and_writes_it() {
    let file = std::env::temp_dir().join(format!("combcast-window-{}.toml", std::process::id()));
    std::fs::write(&file, with_room()).unwrap();
    let file = file.to_str().unwrap();
    let base = ["window", file, "--date", "2012-05-10", "--drawn"];
    let good = |more: &[&str]| {
        let output = output(&[&base[..], more].concat());
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).unwrap()
    };
    let text = good(&[]);
    for part in [
        "Take the drone frame out by",
        "Three days late",
        "Six days late",
        "does more harm than good",
        "█",
        "░",
    ] {
        assert!(text.contains(part), "no {part} in {text}");
    }
    assert!(
        text.lines().all(|line| line.chars().count() <= 80),
        "{text}"
    );
    let json: Value = serde_json::from_str(&good(&["--json"])).unwrap();
    let rows = json["days"].as_array().unwrap();
    let csv = good(&["--csv"]);
    let table: Vec<&str> = csv.lines().filter(|line| !line.starts_with('#')).collect();
    assert_eq!(table.len(), rows.len() + 1);
    assert!(csv.contains(&format!(
        "# last safe day: {}\n",
        json["last_safe"].as_str().unwrap()
    )));
    let one = good(&["--members", "8", "--threads", "1", "--csv"]);
    assert_eq!(one, good(&["--members", "8", "--threads", "2", "--csv"]));
    let missing = output(&["window", file]);
    assert_eq!(missing.status.code(), Some(2));
    let words = String::from_utf8_lossy(&missing.stderr);
    assert!(words.contains("--date"), "{words}");
}

#[test]
fn a_plan_without_mites_is_said_to_have_none() {
    let window = [
        "window",
        "scenarios/wet-spring.toml",
        "--date",
        "2012-05-20",
        "--drawn",
    ];
    for (language, said) in [
        ("en", "There are no mites in this plan"),
        ("de", "In diesem Plan gibt es keine Milben"),
    ] {
        let output = output(&[&window[..], &["--language", language]].concat());
        assert!(output.status.success(), "{output:?}");
        let text = String::from_utf8(output.stdout).unwrap();
        let told = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(said), "{told}");
        assert!(!told.contains("0 mites"), "{told}");
    }
}
