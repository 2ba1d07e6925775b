//! Visits are read strictly, verdicts name the planted fault, and what they call likely is likely.

use std::fs;
use std::path::PathBuf;

use combcast_core::ensemble::{Hands, Luck, Peers};
use combcast_core::scenario::Scenario;
use combcast_core::verdict::{Effort, Fault, QUANTITIES, Trial, recognised, sheets, trial};
use combcast_core::visits::{book_from_toml, visits_schema};
use combcast_core::weather;
use rayon::prelude::*;

use super::common::{bad, good, json, repository};

const SEATTLE: &[u8] = include_bytes!("../scenarios/weather/seattle-2012-2015.csv");
const WET_SPRING: &str = "scenarios/wet-spring.toml";
const DEMO: &str = "scenarios/visits/alder-row-3.toml";

struct Threads;

impl Hands for Threads {
    fn each<T: Send, F: Fn(usize, &mut T) + Sync + Send>(&self, items: &mut [T], work: F) {
        items
            .par_iter_mut()
            .enumerate()
            .for_each(|(index, item)| work(index, item));
    }
}

/// A file of visits that is gone when the test is.
struct Visits(PathBuf);

impl Visits {
    fn new(name: &str, text: &str) -> Self {
        let file = format!("combcast-{}-{name}", std::process::id());
        let path = std::env::temp_dir().join(file);
        fs::write(&path, text).expect("a temporary file can be written");
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().expect("a plain path")
    }
}

impl Drop for Visits {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.0);
    }
}

fn peers(text: &str) -> Peers {
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let (record, report) = weather::read_for(&scenario, SEATTLE).expect("a sound record");
    Peers::new(&scenario, Some((&record, &report))).expect("a season that can be run")
}

fn wet_spring() -> Peers {
    peers(include_str!("../scenarios/wet-spring.toml"))
}

#[test]
fn the_demo_hive_gets_its_reason_and_its_forecast() {
    let verdicts = json(&["verdict", WET_SPRING, DEMO, "--members", "600", "--json"]);
    let verdict = &verdicts[0];
    assert_eq!(verdict["hive"], "Alder Row 3");
    assert_eq!(verdict["visits"], 6);
    assert_eq!(
        verdict["causes"][0]["cause"], "queen",
        "{}",
        verdict["causes"]
    );
    assert!(verdict["causes"][0]["probability"].as_f64() > verdict["causes"][0]["before"].as_f64());
    assert!(verdict["standing"]["weaker"].as_f64().expect("a share") < 0.5);
    assert_eq!(verdict["steps"].as_array().expect("steps").len(), 6);
    let dates = verdict["forecast"]["dates"].as_array().expect("dates");
    assert_eq!(dates[0]["date"], verdict["date"]);
    assert_eq!(dates.last().expect("a date")["date"], "2012-10-31");
    let text = good(&["verdict", WET_SPRING, DEMO, "--members", "600"]);
    for words in ["Alder Row 3: ", "a poor queen", "What is to come"] {
        assert!(text.contains(words), "{text}");
    }
}

#[test]
fn the_demo_hive_is_as_its_command_makes_it() {
    let text = fs::read_to_string(repository().join(DEMO)).expect("the demo");
    let command = text
        .lines()
        .find_map(|line| line.split_once(": combcast ").map(|(_, command)| command))
        .expect("the command stands at its head");
    // Words with blanks stand in quotes.
    let arguments: Vec<&str> = command
        .split('\'')
        .enumerate()
        .flat_map(|(k, part)| -> Vec<&str> {
            if k % 2 == 1 {
                vec![part]
            } else {
                part.split_whitespace().collect()
            }
        })
        .collect();
    let made = good(&arguments);
    // The values follow the model and are made anew with it; the sheet is the same.
    let shape = |text: &str| -> Vec<(String, bool)> {
        book_from_toml(text)
            .expect("a visit book")
            .visits
            .iter()
            .map(|visit| (visit.date.to_string(), visit.wash.is_some()))
            .collect()
    };
    assert_eq!(shape(&text), shape(&made));
}

#[test]
fn threads_do_not_change_a_bit() {
    for arguments in [
        ["bands", WET_SPRING, "--members", "60", "--json"].as_slice(),
        [
            "bands",
            "scenarios/southern-spring.toml",
            "--members",
            "60",
            "--json",
        ]
        .as_slice(),
        ["verdict", WET_SPRING, DEMO, "--members", "60", "--json"].as_slice(),
        [
            "verdict",
            WET_SPRING,
            DEMO,
            "--members",
            "60",
            "--mode",
            "random",
            "--json",
        ]
        .as_slice(),
    ] {
        let with = |threads| good(&[arguments, &["--threads", threads]].concat());
        assert_eq!(with("1"), with("3"), "{arguments:?}");
    }
}

#[test]
fn members_in_mean_mode_without_chance_are_the_season_itself() {
    let text = include_str!("../scenarios/wet-spring.toml");
    let with_mites = text.replace(
        "package.pounds = 3",
        "package.pounds = 3\nmites_per_100_bees = 0.8",
    );
    let peers = peers(&with_mites);
    let mut member = peers
        .with([0.0; combcast_core::priors::COUNT], Luck::of(0))
        .unwrap();
    // Zeros are medians of all colonies, faulty ones among them; here all are sound.
    let priors = &member.parameters.priors;
    let factor = combcast_core::priors::Unknown::Nursing.value(0.0, priors);
    assert_eq!(factor, 1.0);
    peers.advance(&mut member, 10, |_, _, _, _| {}).unwrap();
    assert_eq!(member.walk.day, 10);
    let mut again = peers
        .with([0.0; combcast_core::priors::COUNT], Luck::of(0))
        .unwrap();
    for day in 1..=10 {
        peers.advance(&mut again, day, |_, _, _, _| {}).unwrap();
    }
    assert_eq!(again.walk.colony, member.walk.colony);
}

#[test]
fn impossible_visits_are_set_aside_and_the_rest_is_used() {
    let visits = Visits::new(
        "aside.toml",
        "hive = \"3\"
[[visit]]
date = 2012-05-21
frames_of_bees = [3]
frames_of_brood = [6]
frames_drawn = [2]
[[visit]]
date = 2012-05-28
frames_of_bees = [3]
notes = \"calm\"
[[visit]]
date = 2012-05-28
frames_of_bees = [5]
[[visit]]
date = 2012-07-28
frames_of_bees = [9]
",
    );
    let arguments = [
        "verdict",
        WET_SPRING,
        visits.path(),
        "--members",
        "100",
        "--today",
        "2012-06-01",
    ];
    let verdict = json(&[&arguments[..], &["--json"]].concat());
    assert_eq!(verdict[0]["visits"], 2);
    let aside = verdict[0]["aside"].as_array().expect("a list");
    let whats: Vec<_> = aside.iter().map(|aside| aside["what"].as_str()).collect();
    let expected = ["frames_of_brood", "frames_drawn", "frames_of_bees", "visit"];
    assert_eq!(whats, expected.map(Some));
    // Visits are counted alike, from 1, in what was seen and in what was set aside.
    let count = |list: &str| -> Vec<u64> {
        let list = verdict[0][list].as_array().expect("a list").iter();
        list.filter_map(|one| one["visit"].as_u64()).collect()
    };
    assert_eq!(count("seen"), [1]);
    assert_eq!(count("aside"), [1, 1, 3, 4]);
    let text = good(&arguments);
    for words in [
        "Set aside",
        "brood needs comb",
        "neither is used",
        "lies in the future",
    ] {
        assert!(text.contains(words), "{text}");
    }
}

#[test]
fn faults_of_a_visit_file_have_line_and_caret() {
    let visits = Visits::new(
        "fault.toml",
        "[[visit]]\ndate = 2012-05-21\nframes_of_bee = [3]\n",
    );
    let told = bad(&["verdict", WET_SPRING, visits.path()], 2);
    assert!(
        told.contains("line 3, column 1: visit[0].frames_of_bee"),
        "{told}"
    );
    assert!(told.contains("frames_of_bees"), "{told}");
    assert!(told.contains("^"), "{told}");
    let none = Visits::new("none.toml", "[[visit]]\ndate = 2010-05-21\n");
    let told = bad(&["verdict", WET_SPRING, none.path()], 2);
    assert!(
        told.contains("no visit can be used") && told.contains("before the season"),
        "{told}"
    );
}

#[test]
fn several_hives_stand_side_by_side() {
    let visits = Visits::new(
        "class.csv",
        "hive,date,frames_of_bees,frames_of_brood\nB,2012-05-28,1.5,0.25\nA,2012-05-28,4+0.5,1.5\n",
    );
    let text = good(&["verdict", WET_SPRING, visits.path(), "--members", "200"]);
    let place = |words: &str| {
        text.find(words)
            .unwrap_or_else(|| panic!("{words}: {text}"))
    };
    assert!(text.starts_with("hive"), "{text}");
    assert!(place("A: ") < place("B: "));
}

#[test]
fn hives_of_a_class_stand_each_in_its_own_weather() {
    let folder = repository().join("scenarios");
    let (wet, drawn) = (
        folder.join("wet-spring.toml"),
        folder.join("drawn-comb.toml"),
    );
    let rows = format!(
        "hive,scenario,date,frames_of_bees\nA,{},2012-05-28,3.5\nB,,2012-05-28,3.5\nA,,2012-06-04,3\n",
        drawn.display()
    );
    let visits = Visits::new("class-in-weather.csv", &rows);
    let wet = wet.to_str().expect("a plain path");
    let verdicts = json(&["verdict", wet, visits.path(), "--members", "200", "--json"]);
    assert_eq!(
        verdicts[0]["scenario"],
        "A package on drawn comb in a wet spring"
    );
    assert_eq!(verdicts[0]["visits"], 2);
    assert_eq!(verdicts[1]["scenario"], "A package in a wet spring, fed");
    let twice = Visits::new(
        "class-twice.csv",
        "hive,scenario,date\nA,a.toml,2012-05-28\nA,b.toml,2012-06-04\n",
    );
    let told = bad(&["verdict", wet, twice.path()], 2);
    assert!(
        told.contains("line 3: scenario") && told.contains("a.toml"),
        "{told}"
    );
}

#[test]
fn the_published_schema_of_visits_is_the_codes() {
    let path = repository().join("scenarios/visits/visits.schema.json");
    let current = format!("{:#}\n", visits_schema());
    if std::env::var_os("COMBCAST_BLESS").is_some() {
        fs::write(&path, &current).expect("the schema can be written");
    }
    let published = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        published == current,
        "scenarios/visits/visits.schema.json is out of date: run the tests once with COMBCAST_BLESS=1"
    );
}

#[test]
fn ranks_of_the_truth_are_even() {
    // A small cousin of `combcast calibrate`: 60 colonies, 3 visits.
    let peers = wet_spring();
    let sheets = sheets(&peers, &[14, 28, 42], true, |place| place == 2);
    let effort = Effort {
        members: 100,
        rounds: 3,
    };
    let count = 60;
    let trials: Vec<Trial> = Threads
        .make(count, |k| {
            trial(&peers, &sheets, 2_000_000 + k as u32, effort)
        })
        .into_iter()
        .collect::<Result<_, _>>()
        .expect("trials run");
    for (k, quantity) in QUANTITIES.iter().enumerate() {
        let mut thirds = [0.0; 3];
        let mut held = 0.0;
        for trial in &trials {
            thirds[(trial.ranks[k] as usize * 3) / 100] += 1.0;
            held += f64::from(u8::from(trial.held[k]));
        }
        let even = count as f64 / 3.0;
        let chi_square: f64 = thirds.iter().map(|n| (n - even) * (n - even) / even).sum();
        // 2 degrees of freedom: 13.8 is exceeded in one fair test of a thousand.
        assert!(chi_square < 13.8, "{quantity}: {thirds:?}");
        // Binomial, n = 60, p = 0.89: under 44 in fewer than one of a thousand.
        assert!(
            held >= 44.0,
            "{quantity}: {held} of {count} bands hold the truth"
        );
    }
}

#[test]
fn a_colony_that_starved_is_lost_by_hunger_not_by_its_queen() {
    let scenario = "scenarios/wet-spring.toml";
    let visits = good(&[
        "rehearse",
        scenario,
        "--fault",
        "hunger",
        "--visits",
        "3",
        "--first",
        "2012-06-11",
        "--every",
        "14",
    ]);
    assert!(
        !visits.contains("wash"),
        "a wash of bees that are not there"
    );
    let visits = Visits::new("starved.toml", &visits);
    let verdicts = json(&[
        "verdict",
        scenario,
        visits.path(),
        "--members",
        "300",
        "--json",
    ]);
    let verdict = &verdicts[0];
    assert_eq!(verdict["standing"]["word"], "lost");
    assert_eq!(verdict["causes"][0]["cause"], "food");
    let queen = verdict["causes"]
        .as_array()
        .and_then(|causes| causes.iter().find(|it| it["cause"] == "queen"));
    let queen = queen
        .and_then(|it| it["probability"].as_f64())
        .expect("a queen");
    assert!(queen < 0.3, "{queen}");
}

/// A package in which nobody saw brood, eggs or a queen at three weekly visits.
const QUEENLESS: &str = "hive = \"9\"
visit = [
    { date = 2012-05-09, frames_of_bees = [3.5], frames_of_brood = [0], eggs_seen = false, queen_seen = false },
    { date = 2012-05-16, frames_of_bees = [3], frames_of_brood = [0], eggs_seen = false, queen_seen = false },
    { date = 2012-05-23, frames_of_bees = [2.5], frames_of_brood = [0], eggs_seen = false, queen_seen = false },
]
";

#[test]
fn a_package_without_brood_eggs_or_queen_has_no_queen() {
    let visits = Visits::new("queenless.toml", QUEENLESS);
    let arguments = ["verdict", WET_SPRING, visits.path(), "--members", "600"];
    let verdict = &json(&[&arguments[..], &["--json"]].concat())[0];
    let first = &verdict["causes"][0];
    assert_eq!(first["cause"], "no_queen", "{}", verdict["causes"]);
    assert!(first["probability"].as_f64() > Some(0.8), "{first}");
    let unfit = verdict["unfit"].as_array().expect("a list");
    for what in ["frames_of_brood", "eggs"] {
        assert!(
            unfit.iter().any(|unfit| unfit["what"] == what),
            "{what}: {unfit:?}"
        );
    }
    // Brood in a week from a queen that is not there would contradict that.
    let brood = &verdict["forecast"]["dates"][1]["measures"][1];
    assert!(brood["median"].as_f64() < Some(0.05), "{brood}");
    let text = good(&arguments);
    for words in [
        "no laying queen",
        "give a frame with",
        "frames of brood: 0.0 found",
        "no eggs, where",
    ] {
        assert!(text.contains(words), "no \"{words}\" in\n{text}");
    }
    let german = good(&[&arguments[..], &["--language", "de"]].concat());
    assert!(german.contains("keine legende Königin"), "{german}");

    let list = good(&["next", WET_SPRING, visits.path(), "--members", "600"]);
    for words in ["no laying queen", "no queen is laying then"] {
        assert!(list.contains(words), "no \"{words}\" in\n{list}");
    }
    let laying = list.split("The queen is laying then in ").nth(1);
    let laying: f64 = laying
        .and_then(|rest| rest.split(' ').next())
        .and_then(|count| count.parse().ok())
        .expect("a count");
    assert!(laying < 120.0, "{list}");
}

/// A visit that no package of that spring would have shown.
const ODD: &str = "hive = \"9\"
visit = [{ date = 2012-05-28, frames_of_bees = [10, 8], frames_of_brood = [0, 0], frames_drawn = [2, 0], stores_kg = 12 }]
";

#[test]
fn warnings_say_numbers_and_dates_as_people_do() {
    let odd = Visits::new("odd-in-words.toml", ODD);
    for (language, warned, listed) in [
        ("en", "what was seen on 28 May: of 1,000,", "28 May 2012"),
        (
            "de",
            "was am 28. Mai gesehen wurde: von 1.000 trugen",
            "28. Mai 2012",
        ),
    ] {
        let text = good(&[
            "verdict",
            WET_SPRING,
            odd.path(),
            "--members",
            "1000",
            "--language",
            language,
        ]);
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains(warned) && text.contains(listed), "{text}");
    }
}

#[test]
fn few_members_that_fit_are_warned_of_and_visits_to_a_usual_colony_are_not() {
    let odd = Visits::new("odd.toml", ODD);
    let warnings = |visits: &str| {
        let verdict = &json(&["verdict", WET_SPRING, visits, "--members", "600", "--json"])[0];
        verdict["warnings"].as_array().expect("a list").len()
    };
    assert!(warnings(odd.path()) > 0);
    assert_eq!(warnings(DEMO), 0);
}

#[test]
fn of_visits_with_nothing_to_judge_there_is_no_verdict() {
    for (name, visit) in [
        ("notes.toml", "{ date = 2012-05-28, notes = \"calm\" }"),
        ("wrong.toml", "{ date = 2012-05-28, frames_of_bees = [90] }"),
        ("scale.toml", "{ date = 2012-05-28, weight_kg = 31.5 }"),
    ] {
        let visits = Visits::new(name, &format!("hive = \"3\"\nvisit = [{visit}]\n"));
        let told = bad(
            &["verdict", WET_SPRING, visits.path(), "--members", "60"],
            2,
        );
        assert!(told.contains("nothing that could be judged"), "{told}");
        assert_eq!(
            told.contains("expected 0 to 20 frames"),
            name == "wrong.toml",
            "{told}"
        );
    }
}

#[test]
fn planted_faults_come_first_among_the_causes() {
    let peers = wet_spring();
    let sheets = sheets(&peers, &[14, 28, 42], true, |place| place == 1);
    let effort = Effort {
        members: 200,
        rounds: 2,
    };
    for (fault, name) in Fault::ALL {
        let Some(cause) = fault.cause() else { continue };
        if fault == Fault::Swarm {
            continue; // No package of this spring swarms.
        }
        let found = Threads
            .make(10, |k| {
                recognised(&peers, &sheets, 3_000_000 + k as u32, fault, effort)
            })
            .into_iter()
            .filter(|said| said.as_ref().expect("a verdict").first == cause)
            .count();
        assert!(found >= 8, "{name}: {found} of 10");
    }
}
