//! A plan and its twin share their luck and their weather, and nothing but the plan lies between them.

use combcast_core::draw::{Draw, Random};
use combcast_core::rng::Topic;
use combcast_core::scenario::{Mode, Scenario, Without};
use combcast_core::twin::{Comparison, MEASURES, Pair, Side};
use combcast_core::weather::{self, Report, Weather};
use jiff::civil::date;
use serde_json::Value;

use super::common::output;

const SEATTLE: &[u8] = include_bytes!("../scenarios/weather/seattle-2012-2015.csv");
const WET_SPRING: &str = include_str!("../scenarios/wet-spring.toml");
/// Its weather is drawn.
const SOUTHERN: &str = include_str!("../scenarios/southern-spring.toml");

fn scenario(text: &str) -> (Scenario, Option<(Weather, Report)>) {
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let record = scenario
        .weather
        .record
        .as_ref()
        .map(|_| weather::read_for(&scenario, SEATTLE).expect("a sound record"));
    (scenario, record)
}

fn side<'a>(scenario: &'a Scenario, record: &'a Option<(Weather, Report)>) -> Side<'a> {
    Side {
        scenario,
        record: record.as_ref().map(|(weather, report)| (weather, report)),
    }
}

fn without(text: &str) -> Without {
    text.parse().expect("it can be left out")
}

#[test]
fn a_twin_with_itself_is_exactly_zero() {
    for text in [WET_SPRING, SOUTHERN] {
        let (plan, record) = scenario(text);
        let pair = Pair::new(side(&plan, &record), side(&plan, &record), 7, &[]).unwrap();
        let members = (0..5).map(|member| pair.member(member));
        let comparison = Comparison::of(&pair, Mode::Random, members).unwrap();
        for there in &comparison.dates {
            for measure in &there.measures {
                let spread = measure.difference;
                assert_eq!(measure.better.level, 5, "{} {}", there.date, measure.name);
                assert_eq!((spread.q05, spread.mean, spread.q95), (0.0, 0.0, 0.0));
            }
        }
        // The members themselves do differ.
        let last = comparison.dates.last().unwrap();
        assert!(last.measures[0].plan.q05 < last.measures[0].plan.q95);
    }
}

#[test]
fn both_are_the_same_until_they_are_not() {
    let (plan, record) = scenario(WET_SPRING);
    let twin = plan.without(without("move:1")).unwrap();
    let pair = Pair::new(side(&plan, &record), side(&twin, &record), 1, &[]).unwrap();
    let given = plan.moves[0].date.expect("it has a date").0;
    for member in 0..3 {
        let seasons = pair.member(member).unwrap();
        for (k, day) in pair.dates().iter().enumerate() {
            if *day < given {
                assert_eq!(seasons.plan[k], seasons.twin[k], "{day}");
            }
        }
        assert_ne!(seasons.plan.last(), seasons.twin.last());
    }
}

#[test]
fn weather_that_is_drawn_differs_from_member_to_member() {
    let (plan, record) = scenario(SOUTHERN);
    let pair = Pair::new(side(&plan, &record), side(&plan, &record), 7, &[]).unwrap();
    assert!(pair.drawn_weather());
    let laid = |member| weather::lay(&plan, None, member).unwrap().0;
    assert_ne!(laid(0), laid(1));
    let (plan, record) = scenario(WET_SPRING);
    let pair = Pair::new(side(&plan, &record), side(&plan, &record), 7, &[]).unwrap();
    assert!(!pair.drawn_weather());
}

#[test]
fn the_plan_of_a_pair_is_the_season_of_its_scenario() {
    let (mut plan, record) = scenario(WET_SPRING);
    plan.mode = Mode::Random;
    let weather = weather::resolve(&plan, Some(SEATTLE)).unwrap().0;
    let season = combcast_core::run(&plan, &weather).unwrap();
    let twin = plan.without(without("feed")).unwrap();
    let pair = Pair::new(side(&plan, &record), side(&twin, &record), 1, &[]).unwrap();
    let member = pair.member(0).unwrap();
    assert_eq!(member.plan.len(), season.days.len());
    for (seen, day) in member.plan.iter().zip(&season.days) {
        assert_eq!(
            (seen[0], seen[2], seen[3]),
            (day.adult_bees, day.drawn_frames, day.honey_kg)
        );
    }
}

#[test]
fn an_extra_draw_in_one_topic_changes_nothing_in_another() {
    let (mut one, mut other) = (Random::new(7, 3), Random::new(7, 3));
    let mut differ = 0;
    for day in 0..50 {
        one.begin_day(day);
        other.begin_day(day);
        other.how_many(Topic::Laying, 1000.0, 0.5);
        for topic in [Topic::Brood, Topic::Adults, Topic::Mites, Topic::Forage] {
            assert_eq!(
                one.how_many(topic, 5000.0, 0.1),
                other.how_many(topic, 5000.0, 0.1)
            );
        }
        let laid = [&mut one, &mut other].map(|draw| draw.how_many(Topic::Laying, 1000.0, 0.5));
        differ += usize::from(laid[0] != laid[1]);
    }
    assert!(differ > 25, "{differ}");
}

#[test]
fn seasons_that_start_apart_have_one_luck_on_one_date() {
    for later in [-40_i32, 0, 12] {
        let mut plan = Random::new(7, 3);
        let mut twin = Random::new(7, 3).starting_on(later);
        for day in 50..60_u32 {
            plan.begin_day(day);
            twin.begin_day(day.checked_add_signed(-later).unwrap());
            assert_eq!(
                plan.how_many(Topic::Brood, 5000.0, 0.1),
                twin.how_many(Topic::Brood, 5000.0, 0.1)
            );
        }
    }
}

#[test]
fn without_equals_the_file_edited_by_hand() {
    let (plan, _) = scenario(WET_SPRING);
    let cut = |from: &str, to: &str| {
        let start = WET_SPRING.find(from).expect("it begins so");
        let end = start + WET_SPRING[start..].find(to).expect("it ends so");
        let text = format!("{}{}", &WET_SPRING[..start], &WET_SPRING[end..]);
        let mut edited = scenario(&text).0;
        edited.expect.clear();
        edited
    };
    let compare = |what: &str, edited: Scenario| {
        let mut twin = plan.without(without(what)).unwrap();
        assert_ne!(twin, plan);
        twin.name.clone_from(&edited.name);
        twin.question.clone_from(&edited.question);
        assert_eq!(twin, edited, "{what}");
    };
    compare("feed", cut("[[feed]]", "# The second deep"));
    compare("feed:1", cut("[[feed]]", "# The second deep"));
    compare("rain", cut("[[weather.rain]]", "[start]"));
    compare("move:1", cut("[[move]]", "[[expect]]"));
}

#[test]
fn what_is_not_there_cannot_be_left_out() {
    let (plan, _) = scenario(WET_SPRING);
    let bare = plan.without(without("feed")).unwrap();
    let bare = bare.without(without("rain")).unwrap();
    let bare = bare.without(without("move")).unwrap();
    let refusal = |plan: &Scenario, what: &str| {
        let error = plan.without(without(what)).unwrap_err();
        (error.place, error.message)
    };
    for (what, place, words) in [
        ("feed", "feed", "nothing is fed"),
        ("rain:1", "weather.rain", "measured rain cannot"),
        ("move", "move", "no move in this plan"),
    ] {
        let (at, message) = refusal(&bare, what);
        assert_eq!(at, place);
        assert!(message.contains(words), "{message}");
    }
    let (_, message) = refusal(&plan, "move:3");
    assert!(message.contains("1 (the box given on 4 June)"), "{message}");
}

#[test]
fn seasons_without_a_common_day_and_dates_outside_are_refused() {
    let (plan, record) = scenario(WET_SPRING);
    let (later, none) = scenario(SOUTHERN);
    let error = Pair::new(side(&plan, &record), side(&later, &none), 7, &[]).unwrap_err();
    assert!(error.message.contains("no day in common"), "{error}");
    let outside = [date(2013, 1, 1)];
    let error = Pair::new(side(&plan, &record), side(&plan, &record), 7, &outside).unwrap_err();
    assert!(
        error.message.contains("2012-04-30 to 2012-10-31"),
        "{error}"
    );
    let pair = Pair::new(side(&plan, &record), side(&plan, &record), 7, &[]).unwrap();
    assert!(pair.check_size(0).is_err());
    assert!(pair.check_size(1000).is_ok());
    assert!(pair.check_size(u32::MAX).is_err());
}

fn combcast(arguments: &[&str]) -> (i32, String, String) {
    let output = output(arguments);
    let text = |bytes| String::from_utf8(bytes).expect("output is UTF-8");
    let code = output.status.code().expect("it ended by itself");
    (code, text(output.stdout), text(output.stderr))
}

#[test]
fn any_number_of_threads_gives_the_same_bits() {
    for file in [
        "scenarios/wet-spring.toml",
        "scenarios/southern-spring.toml",
    ] {
        let run = |threads| {
            let (code, out, errors) = combcast(&[
                "twin",
                file,
                "--without",
                "feed",
                "--members",
                "24",
                "--threads",
                threads,
                "--json",
            ]);
            assert_eq!(code, 0, "{errors}");
            out
        };
        let one = run("1");
        assert_eq!(one, run("2"));
        assert_eq!(one, run("4"));
    }
}

#[test]
fn the_command_tells_the_difference_in_words_and_files() {
    let plan = "scenarios/wet-spring.toml";
    let few = [
        "twin",
        plan,
        "--without",
        "feed",
        "--members",
        "20",
        "--on",
        "2012-06-10",
    ];
    let (_, told, _) = combcast(&few);
    assert!(
        told.contains("On 10 June, the colony with feed has "),
        "{told}"
    );
    assert!(told.contains("of 20 seasons."), "{told}");

    let (_, json, _) = combcast(&[&few[..], &["--json"]].concat());
    let json: Value = serde_json::from_str(&json).unwrap();
    assert_eq!(json["members"], 20);
    let (_, csv, _) = combcast(&[&few[..], &["--csv"]].concat());
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(csv.as_bytes());
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let dates = json["dates"].as_array().unwrap();
    assert_eq!(rows.len(), dates.len() * MEASURES.len());
    // The same numbers in both.
    for (there, rows) in dates.iter().zip(rows.chunks(MEASURES.len())) {
        assert_eq!(rows[0][0], *there["date"].as_str().unwrap());
        let gain: f64 = rows[0][17].parse().unwrap();
        assert_eq!(
            gain,
            there["measures"][0]["difference"]["mean"].as_f64().unwrap()
        );
    }

    let against = "scenarios/drawn-comb.toml";
    let (code, told, _) = combcast(&["twin", plan, against, "--mode", "mean"]);
    assert_eq!(code, 0);
    assert!(
        told.contains("that of “A package on drawn comb in a wet"),
        "{told}"
    );
    let (code, _, error) = combcast(&["twin", plan, "--without", "move:2"]);
    assert_eq!(code, 2);
    assert!(error.contains("--without move:2"), "{error}");
    assert_eq!(combcast(&["twin", plan]).0, 2);
    assert_eq!(combcast(&["twin", plan, "--without", "queen"]).0, 2);
}

#[test]
fn twins_of_one_name_are_told_apart_and_one_pair_has_no_quantiles() {
    let plan = "scenarios/wet-spring.toml";
    let text = std::fs::read_to_string(plan).expect("the plan");
    let other = std::env::temp_dir().join(format!("combcast-{}-half-fed.toml", std::process::id()));
    std::fs::write(&other, text.replace("jars = 4", "jars = 1")).expect("a temporary file");
    let path = other.to_str().expect("a plain path");
    let (code, told, error) = combcast(&["twin", plan, path, "--mode", "mean"]);
    let _ = std::fs::remove_file(&other);
    assert_eq!(code, 0, "{error}");
    let flat = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for file in ["fed (scenarios/wet-spring.toml)”", "half-fed.toml)”"] {
        assert!(flat.contains(file), "no \"{file}\" in {told}");
    }
    assert!(!told.contains("95 %") && !told.contains("Ahead"), "{told}");
    let random = combcast(&["twin", plan, "--without", "feed", "--members", "4"]).1;
    assert!(
        random.contains("95 %") && random.contains("Ahead"),
        "{random}"
    );

    let left_out = ["twin", plan, "--without", "move:add_box", "--mode", "mean"];
    let german = combcast(&[&left_out[..], &["--language", "de"]].concat()).1;
    let against = german.lines().nth(1).expect("a second line");
    assert!(!against.contains("without"), "{against}");
}

#[test]
fn every_move_can_be_left_out_by_its_number_and_its_action() {
    let (plan, record) = scenario(include_str!("../scenarios/every-move.toml"));
    for (index, step) in plan.moves.iter().enumerate() {
        let action = step.action().expect("it does something").name();
        for what in [format!("move:{}", index + 1), format!("move:{action}")] {
            let left_out = without(&what);
            assert_eq!(left_out.to_string(), what);
            let twin = plan.without(left_out).unwrap();
            assert!(twin.moves.len() < plan.moves.len(), "{what}");
            let pair = Pair::new(side(&plan, &record), side(&twin, &record), 30, &[]).unwrap();
            let seasons = pair
                .mean()
                .unwrap_or_else(|error| panic!("{what}: {error}"));
            assert_eq!(seasons.plan.len(), seasons.twin.len());
        }
    }
    let error = plan.without(without("move:let_swarm"));
    match error {
        Ok(_) => assert!(plan.moves.iter().any(|step| step.let_swarm.is_some())),
        Err(error) => assert!(error.message.contains("there is no let_swarm"), "{error}"),
    }
    assert!("move:dance".parse::<Without>().is_err());
    assert!("feed:add_box".parse::<Without>().is_err());
}

#[test]
fn a_second_file_that_cannot_be_run_is_the_one_that_is_named() {
    let folder = std::env::temp_dir();
    let file = folder.join(format!("combcast-twin-{}.toml", std::process::id()));
    let broken = WET_SPRING.replace("until = 2012-10-31", "until = 2019-10-31");
    assert_ne!(broken, WET_SPRING);
    std::fs::write(&file, broken.replace("pounds = 3", "pounds = 0")).unwrap();
    let (code, _, error) = combcast(&["twin", "scenarios/wet-spring.toml", file.to_str().unwrap()]);
    assert_eq!(code, 2);
    assert!(
        error.contains("combcast-twin-") && !error.contains("wet-spring"),
        "{error}"
    );
    std::fs::write(
        &file,
        SOUTHERN
            .replace("2014-10-05", "1804-10-05")
            .replace("2015-05-31", "1805-05-31"),
    )
    .unwrap();
    let (code, _, error) = combcast(&["twin", "scenarios/wet-spring.toml", file.to_str().unwrap()]);
    assert_eq!(code, 2);
    assert!(!error.contains("the twin"), "{error}");
}

#[test]
fn the_table_keeps_to_eighty_columns_and_its_heading_to_one_line() {
    // Gains of five digits, in a thousand seasons.
    let file = "scenarios/drawn-comb.toml";
    let (_, told, _) = combcast(&["twin", file, "--without", "feed", "--members", "1000"]);
    assert!(
        told.lines().all(|line| line.chars().count() <= 80),
        "{told}"
    );
    let headings = told.lines().skip_while(|line| !line.starts_with("Date"));
    let units = headings.clone().nth(1).expect("a line of units");
    assert!(units.contains("of 1,000"), "{told}");
    assert!(
        headings
            .clone()
            .nth(2)
            .is_some_and(|line| line.contains(|c: char| c.is_ascii_digit()))
    );
}
