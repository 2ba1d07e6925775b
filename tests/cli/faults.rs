//! Faults and missed expectations are told with their place, what is wrong and what was expected.

use combcast_core::Parameters;

use super::WET_SPRING;
use crate::common::{bad, good, output, scenario_file};

fn expecting(range: &str) -> String {
    format!(
        "[[expect]]\ndate = 2012-05-10\ncolumn = \"adult_bees\"\n{range}\nbecause = \"a test\"\n"
    )
}

#[test]
fn faults_are_told_with_file_line_and_caret() {
    let path = scenario_file(
        "unknown-field.toml",
        "[[feed]]\nfrom = 2012-04-30\nto = 2012-05-30\nkind = \"1:1\"\njaars = 2\n",
    );
    let path = path.to_str().expect("a plain path");
    let errors = bad(&["run", path], 2);
    for part in [path, "line 11", "jaars", "^"] {
        assert!(errors.contains(part), "no \"{part}\" in {errors}");
    }
    assert_eq!(output(&["run", path]).stdout, b"");
}

#[test]
fn what_is_wrong_is_told_and_what_was_expected() {
    let none = bad(&["run", "no-such-file.toml"], 2);
    assert!(none.contains("no-such-file.toml: no such file"), "{none}");
    let folder = bad(&["run", "scenarios"], 2);
    assert!(folder.contains("scenarios: is a folder"), "{folder}");
    let range = bad(&["run", WET_SPRING, "--set", "queen.best_rate=1e9"], 2);
    let (_, rows) = Parameters::INFO
        .iter()
        .find(|(section, _)| *section == "queen")
        .expect("the queen has a section");
    let row = rows
        .iter()
        .find(|row| row.name == "best_rate")
        .expect("the queen has a best rate");
    let expected = format!("expected {} to {}", row.min, row.max);
    assert!(range.contains(&expected), "{range}");
    let name = bad(&["run", WET_SPRING, "--set", "queen.beast_rate=1"], 2);
    assert!(
        name.contains("queen has") && name.contains("best_rate"),
        "{name}"
    );
    let nan = bad(&["run", WET_SPRING, "--set", "queen.best_rate=nan"], 2);
    assert!(nan.contains(&expected), "{nan}");
    let date = bad(&["run", WET_SPRING, "--on", "1999-01-01"], 2);
    assert!(date.contains("expected a date from 2012-"), "{date}");
    let section = bad(&["params", "quen"], 2);
    assert!(
        section.contains("expected one of") && section.contains("queen"),
        "{section}"
    );
    let seed = bad(&["run", WET_SPRING, "--seed", "-1"], 2);
    assert!(seed.contains("--seed"), "{seed}");
}

#[test]
fn check_tells_met_missed_and_faulty_apart() {
    let met = scenario_file("met.toml", &expecting("at_least = 1.0\nat_most = 100000.0"));
    let missed = scenario_file("missed.toml", &expecting("at_most = 1.0"));
    let faulty = scenario_file("faulty.toml", "surprise = 1\n");
    let [met, missed, faulty] = [&met, &missed, &faulty].map(|path| path.to_str().expect("plain"));
    let text = good(&["check", met]);
    assert!(text.contains("1 of 1 expectations met"), "{text}");
    let output = output(&["check", missed]);
    assert_eq!(output.status.code(), Some(1));
    let text = String::from_utf8_lossy(&output.stdout);
    assert!(text.contains("2012-05-10 adult_bees is "), "{text}");
    assert!(text.contains("expected at most 1\n"), "{text}");
    let errors = bad(&["check", met, missed, faulty], 2);
    assert!(
        errors.contains("faulty.toml") && errors.contains("surprise"),
        "{errors}"
    );
    assert!(!errors.contains("missed.toml"), "{errors}");
}

#[test]
fn check_says_which_differences_are_known_and_where_to_read_of_them() {
    let files = [
        "scenarios/desert-spring.toml",
        "scenarios/southern-spring.toml",
        "scenarios/small-nuc.toml",
    ];
    let output = output(&[&["check"], &files[..]].concat());
    assert_eq!(output.status.code(), Some(1), "an expectation is not met");
    let text = String::from_utf8_lossy(&output.stdout);
    assert_eq!(text.matches("A known difference").count(), 2, "{text}");
    assert!(text.contains("combcast evidence --outside"), "{text}");
    assert!(
        text.contains("1 of 3 in order, 2 with expectations not met (2 of them by known differences alone), 0 faulty"),
        "{text}"
    );
}

#[test]
fn check_names_every_problem_of_a_file() {
    let path = scenario_file(
        "two-problems.toml",
        &expecting("at_least = 5.0\nat_most = 1.0"),
    );
    let text = std::fs::read_to_string(&path).expect("just written");
    std::fs::write(&path, text.replace("pounds = 3.0", "pounds = 0.0")).expect("just written");
    let errors = bad(&["check", path.to_str().expect("plain")], 2);
    assert!(errors.contains("pounds"), "{errors}");
    assert!(errors.contains("expect"), "{errors}");
    assert_eq!(errors.matches("error: ").count(), 2, "{errors}");
}
