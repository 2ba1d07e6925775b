//! `combcast run`: what the table of weeks holds, where it ends, and what of mites is not said.

use crate::common::{good, scenario_file};

/// Words with single blanks between them, wherever lines ended.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn the_table_of_weeks_says_what_its_figures_are() {
    let told = flat(&good(&["run", super::WET_SPRING]));
    for part in [
        "stores on the last day of the week",
        "eggs and flight in the mean of its days",
        "rain of all of them",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert!(!told.contains("No bees are left"), "{told}");
    let german = flat(&good(&["run", super::WET_SPRING, "--language", "de"]));
    assert!(german.contains("am letzten Tag der Woche"), "{german}");
}

#[test]
fn after_a_loss_there_are_no_weeks_of_nothing() {
    // Without food the package starves in days; its season goes on for three months.
    let path = scenario_file("starved.toml", "[parameters]\n\"forage.best_day_g\" = 1\n");
    let text = std::fs::read_to_string(&path).expect("written before");
    let text = text
        .replace("[parameters]\n\"forage.best_day_g\" = 1\n", "")
        .replace("latitude = 47.4 }", "latitude = 47.4, forage = \"bare\" }");
    std::fs::write(&path, text).expect("it can be written again");
    let path = path.to_str().expect("a plain path");
    let told = good(&["run", path]);
    assert!(told.contains("the colony is lost"), "{told}");
    let without_bees = |line: &&str| line.split_whitespace().nth(2) == Some("0");
    let weeks = told.lines().skip_while(|line| !line.contains("Week of"));
    let weeks = weeks
        .skip(2)
        .take_while(|line| line.starts_with("  ") && line.contains("  "));
    assert_eq!(weeks.filter(without_bees).count(), 1, "{told}");
    assert!(
        flat(&told).contains("No bees are left: the weeks after that are left out"),
        "{told}"
    );
    let german = flat(&good(&["run", path, "--language", "de"]));
    assert!(
        german.contains("Die Wochen danach sind weggelassen"),
        "{german}"
    );
}

#[test]
fn a_plan_that_says_nothing_of_mites_is_told_so() {
    let unsaid = scenario_file("mites-unsaid.toml", "");
    let unsaid = unsaid.to_str().expect("a plain path");
    let said = scenario_file("mites-said.toml", "");
    let text = std::fs::read_to_string(&said).expect("written before");
    let text = text.replace("start = {", "start = { mites_per_100_bees = 0,");
    std::fs::write(&said, text).expect("it can be written again");
    let said = said.to_str().expect("a plain path");
    for (language, part) in [
        ("en", "here it starts with none, but `combcast bands`"),
        ("de", "Hier beginnt es ohne, aber `combcast bands`"),
    ] {
        let of = |path: &str| flat(&good(&["run", path, "--language", language]));
        assert!(of(unsaid).contains(part), "{}", of(unsaid));
        assert!(!of(said).contains(part), "{}", of(said));
    }
    // The figure is the one that the others assume.
    let bands = flat(&good(&["bands", unsaid, "--members", "10"]));
    let (_, assumed) = bands
        .split_once("starts with: about ")
        .expect("assumed mites");
    let figure = assumed.split(' ').next().expect("a figure");
    let told = flat(&good(&["run", unsaid]));
    assert!(
        told.contains(&format!("assume about {figure} on 100 bees")),
        "{told}"
    );
}
