//! Every command that tells of a season says how much of its weather was measured, and where the rest comes from.

use std::fs;
use std::path::PathBuf;

use super::common::{bad, good};

/// A scenario that is gone when the test is.
struct Plan(PathBuf);

impl Plan {
    /// The wet spring, with some of its text changed.
    fn changed(name: &str, from: &str, to: &str) -> Self {
        let text = fs::read_to_string("scenarios/wet-spring.toml").expect("a shipped scenario");
        assert!(text.contains(from), "{from}");
        let file = format!("combcast-{}-{name}.toml", std::process::id());
        let path = std::env::temp_dir().join(file);
        fs::write(&path, text.replacen(from, to, 1)).expect("a temporary file can be written");
        Self(path)
    }

    fn path(&self) -> &str {
        self.0.to_str().expect("a plain path")
    }
}

impl Drop for Plan {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.0);
    }
}

/// Words without their line breaks.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn days_outside_of_the_record_are_told_by_every_command() {
    // The record ends with 2015: 2016 to 5 April 2016 are never measured.
    let plan = Plan::changed("outside", "until = 2012-10-31", "until = 2016-04-05");
    let drawn = "96 days outside of the record, never measured: drawn by chance from its climate";
    for arguments in [
        &["run"][..],
        &["check"],
        &["twin", "--without", "feed", "--mode", "mean"],
        &["window", "--date", "2012-05-20"],
        &["bands", "--members", "10", "--every", "300"],
        &["next", "--members", "50"],
    ] {
        let (command, options) = arguments.split_at(1);
        let all: Vec<&str> = [command, &[plan.path()], options].concat();
        let told = plain(&good(&all));
        assert!(told.contains(drawn), "{arguments:?}: {told}");
        assert!(told.contains("days measured,"), "{arguments:?}: {told}");
    }
}

#[test]
fn a_season_on_a_record_with_a_mistyped_number_tells_of_it() {
    let mut record = String::from("date,high,low,rain\n");
    for (index, date) in combcast_core::calendar::dates_from(jiff::civil::date(2012, 1, 1))
        .take(366)
        .enumerate()
    {
        let warm = 14.5 - (index as f64 - 200.0).abs() / 12.0;
        let high = if index == 200 { 915.0 } else { warm + 10.0 };
        let rain = if index % 4 == 0 { 4.5 } else { 0.0 };
        record += &format!("{date},{high:.1},{warm:.1},{rain}\n");
    }
    let file = format!("combcast-{}-yard.csv", std::process::id());
    let path = std::env::temp_dir().join(&file);
    fs::write(&path, record).expect("a temporary file can be written");
    let plan = Plan::changed(
        "mistyped",
        "record = \"seattle\"",
        &format!("record = \"{file}\""),
    );
    let told = plain(&good(&["run", plan.path()]));
    let _ = fs::remove_file(&path);
    assert!(
        told.contains("1 day filled where the record has gaps"),
        "{told}"
    );
    assert!(
        told.contains("2012-07-19 (line 202): high of 915 °C cannot be"),
        "{told}"
    );
}

#[test]
fn a_search_and_a_verdict_tell_of_their_weather() {
    let plan = "scenarios/wet-spring.toml";
    let visits = "scenarios/visits/alder-row-3.toml";
    let few = ["--members", "50", "--rounds", "0"];
    let spell = "days changed by a rain spell";
    let verdict = good(&[&["verdict", plan, visits], &few[..]].concat());
    assert!(plain(&verdict).contains(spell), "{verdict}");
    let search = good(&["search", plan, "--what", "box", "--members", "50"]);
    assert!(plain(&search).contains(spell), "{search}");
}

#[test]
fn weather_of_a_type_says_that_nothing_was_measured() {
    let plan = Plan::changed(
        "type",
        "record = \"seattle\"",
        "place_type = \"mild-wet-spring\"",
    );
    let known = good(&["places"]);
    let name = combcast_core::weather::PLACE_TYPES[0].name;
    assert!(known.contains(name));
    let text = fs::read_to_string(plan.path())
        .unwrap()
        .replace("mild-wet-spring", name);
    fs::write(plan.path(), text).unwrap();
    let told = plain(&good(&["run", plan.path()]));
    assert!(
        told.contains("never measured: drawn by chance from this type of climate"),
        "{told}"
    );
    let german = plain(&good(&["run", plan.path(), "--language", "de"]));
    assert!(
        german.contains("nie gemessen: aus dieser Art von Klima gezogen"),
        "{german}"
    );
}

#[test]
fn dates_on_the_command_line_are_read_as_people_type_them() {
    let run = |date: &str| good(&["run", "scenarios/wet-spring.toml", "--on", date]);
    assert_eq!(run("10.6.2012"), run("2012-06-10"));
    let errors = plain(&bad(
        &["run", "scenarios/wet-spring.toml", "--on", "06/10/2012"],
        2,
    ));
    assert!(
        errors.contains("year-month-day") && errors.contains("may mean two days"),
        "{errors}"
    );
}

#[test]
fn bands_keep_to_eighty_columns_and_to_the_units_asked_for() {
    let bands = |more: &[&str]| {
        good(
            &[
                &["bands", "scenarios/wet-spring.toml", "--every", "100"],
                more,
            ]
            .concat(),
        )
    };
    let metric = bands(&[]);
    for line in metric.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    assert!(
        metric.contains("1,000 colonies") && !metric.contains("1000"),
        "{metric}"
    );
    let few = ["--members", "10"];
    let (metric, us) = (bands(&few), bands(&[&few[..], &["--units", "us"]].concat()));
    assert!(us.contains("lb") && !us.contains("kg"), "{us}");
    assert!(metric.contains("kg") && !metric.contains("lb"), "{metric}");
}
