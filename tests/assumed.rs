//! What is assumed of a colony because the plan does not say it is said aloud, in every output and language.

use std::path::PathBuf;

use serde_json::Value;

use super::common::good;

const DEMO: &str = "scenarios/visits/alder-row-3.toml";
/// How the sentence begins in each language.
const SAID: [(&str, &str); 2] = [
    ("en", "The plan does not say how many mites"),
    ("de", "Der Plan sagt nicht, mit wie vielen Milben"),
];

/// A plan that is gone when the test is.
struct Plan(PathBuf);

impl Plan {
    /// The demo plan, cut short, with a line more in its start.
    fn with(name: &str, line: &str) -> Self {
        let text = include_str!("../scenarios/wet-spring.toml")
            .replace("until = 2012-10-31", "until = 2012-07-31")
            .replace("package.pounds = 3", &format!("package.pounds = 3\n{line}"));
        let (text, _) = text
            .split_once("[[expect]]")
            .expect("expectations come last");
        let file = format!("combcast-assumed-{}-{name}.toml", std::process::id());
        let path = std::env::temp_dir().join(file);
        std::fs::write(&path, text).expect("the temporary folder can be written");
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().expect("plain")
    }
}

impl Drop for Plan {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0);
    }
}

/// Each command that lives many colonies, and where its JSON has what was assumed.
fn commands(plan: &str) -> [(Vec<&str>, &'static str); 4] {
    [
        (vec!["bands", plan, "--members", "20"], "/assumed_mites"),
        (
            vec!["verdict", plan, DEMO, "--members", "100"],
            "/0/forecast/assumed_mites",
        ),
        (vec!["next", plan, "--members", "50"], "/0/assumed_mites"),
        (
            vec!["search", plan, "--members", "50", "--what", "box"],
            "/assumed_mites",
        ),
    ]
}

fn at(text: &str, place: &str) -> Value {
    let document: Value = serde_json::from_str(text).expect("JSON");
    let value = document.pointer(place);
    value
        .unwrap_or_else(|| panic!("there is no {place}"))
        .clone()
}

/// On one line, whatever the width of the table that it was wrapped to.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn mites_of_which_the_plan_does_not_speak_are_assumed_aloud() {
    let silent = Plan::with("silent", "");
    for (command, place) in commands(silent.path()) {
        let document = good(&[&command[..], &["--json"]].concat());
        let assumed = at(&document, place);
        assert_eq!(assumed["per_100_bees"], 0.8, "{command:?}");
        for (language, begins) in SAID {
            let told = flat(&good(&[&command[..], &["--language", language]].concat()));
            assert!(told.contains(begins), "{command:?} {language}: {told}");
            assert!(told.contains("start.mites_per_100_bees"), "{told}");
        }
    }
    let csv = good(&["bands", silent.path(), "--members", "20", "--csv"]);
    assert!(csv.contains("# assumed mites on 100 bees at the start: 0.8\n"));
}

#[test]
fn mites_of_which_it_speaks_are_not_assumed_and_none_is_none() {
    let none = Plan::with("none", "mites_per_100_bees = 0");
    let some = Plan::with("some", "mites_per_100_bees = 1.5");
    for plan in [&none, &some] {
        for (command, place) in commands(plan.path()) {
            let document = good(&[&command[..], &["--json"]].concat());
            assert_eq!(at(&document, place), Value::Null, "{command:?}");
            let told = flat(&good(&command));
            assert!(!told.contains(SAID[0].1), "{command:?}: {told}");
        }
    }
    let most_mites = |plan: &Plan| {
        let document = good(&["bands", plan.path(), "--members", "20", "--json"]);
        let dates = at(&document, "/dates");
        let dates = dates.as_array().expect("dates").clone();
        let mites = dates.iter().flat_map(|there| {
            let measures = there["measures"].as_array().expect("measures");
            let mites = measures.iter().filter(|known| known["name"] == "mites");
            mites.filter_map(|known| known["q95"].as_f64())
        });
        mites.fold(0.0, f64::max)
    };
    assert_eq!(most_mites(&none), 0.0);
    assert!(most_mites(&some) > 50.0);
    // A wash that finds some all the same does not make "far more mites than was thought" of it.
    let verdict = good(&["verdict", none.path(), DEMO, "--members", "100", "--json"]);
    let causes = at(&verdict, "/0/causes");
    let causes = causes.as_array().expect("causes");
    let mites = causes.iter().find(|cause| cause["cause"] == "mites");
    assert_eq!(mites.expect("of the causes")["before"], 0.0);
}
