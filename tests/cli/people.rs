//! What people do at a terminal: options that are to blame, tables on standard input, narrow windows, lists as JSON.

use serde_json::Value;

use super::WET_SPRING;
use crate::common::{bad, combcast, good, json, output_of};

const CLASS: &str = "scenarios/visits/class.csv";

#[test]
fn an_option_is_blamed_and_not_a_line_of_the_file() {
    let at = ["window", WET_SPRING, "--date", "2012-06-01", "--at", "9:1"];
    let errors = bad(&at, 2);
    assert!(errors.contains("--at: expected 1 to 6, got 9"), "{errors}");
    assert!(!errors.contains("line"), "{errors}");
    let no_such_box = ["window", WET_SPRING, "--date", "2012-06-01", "--at", "6:1"];
    let errors = bad(&no_such_box, 2);
    assert!(errors.contains("--at: there is no box 6"), "{errors}");
    let early = [
        "search",
        WET_SPRING,
        "--until",
        "2012-04-01",
        "--members",
        "50",
    ];
    let errors = bad(&early, 2);
    assert!(errors.contains("--until"), "{errors}");
    assert!(!errors.contains("line"), "{errors}");
}

#[test]
fn a_search_that_ends_early_leaves_out_what_the_plan_does_later() {
    // Its feed goes on to 6 October.
    let found = json(&[
        "search",
        "scenarios/overwintered.toml",
        "--until",
        "2013-05-12",
        "--what",
        "box",
        "--members",
        "50",
        "--json",
    ]);
    assert_eq!(found["until"], "2013-05-12");
}

#[test]
fn standard_input_is_named_and_a_table_on_it_is_known() {
    let table = std::fs::read(CLASS).expect("a shipped table");
    let call = ["verdict", WET_SPRING, "-", "--members", "50", "--json"];
    let output = output_of(&call, &table);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{errors}");
    let verdicts: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(verdicts.as_array().expect("a list").len(), 2);
    for (call, input) in [
        (["verdict", WET_SPRING, "-"], "hive;date\nA;2012-05-32\n"),
        (["next", WET_SPRING, "-"], "[[visit]]\ndate = 2012-05-32\n"),
        (["bands", "-", "--members=10"], "name = 1\n"),
    ] {
        let output = output_of(&call, input.as_bytes());
        let errors = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{call:?}");
        assert!(errors.contains("standard input: line "), "{errors}");
    }
}

#[test]
fn a_search_takes_one_hive_of_a_class() {
    let search = [
        "search",
        WET_SPRING,
        CLASS,
        "--what",
        "box",
        "--members",
        "50",
    ];
    let errors = bad(&search, 2);
    assert!(
        errors.contains("--hive") && errors.contains("Alder Row 3, Alder Row 4"),
        "{errors}"
    );
    let found = json(&[&search[..], &["--hive", "Alder Row 4", "--json"]].concat());
    assert_eq!(found["hive"], "Alder Row 4");
    let errors = bad(&[&search[..], &["--hive", "Alder Row 5"]].concat(), 2);
    assert!(errors.contains("Alder Row 3, Alder Row 4"), "{errors}");
}

#[test]
fn a_narrow_window_is_enough() {
    let told = |call: &[&str]| {
        let output = combcast()
            .args(call)
            .env("COLUMNS", "40")
            .output()
            .expect("the program starts");
        String::from_utf8(output.stdout).expect("output is UTF-8")
    };
    for language in ["en", "de"] {
        for call in [
            &["verdict", WET_SPRING, CLASS, "--members", "50"][..],
            &["run", WET_SPRING],
            &["bands", WET_SPRING, "--members", "20"],
            &["places"],
        ] {
            let more: &[&str] = if call[0] == "places" {
                &[]
            } else {
                &["--language", language]
            };
            let told = told(&[call, more].concat());
            assert!(told.lines().count() > 20, "{told}");
            for line in told.lines() {
                assert!(line.chars().count() <= 40, "{line}");
                // Dates are not broken.
                let last = line.split_whitespace().next_back().unwrap_or("");
                assert!(!last.starts_with("2012-") || last.len() >= 10, "{line}");
            }
        }
    }
}

#[test]
fn a_verdict_says_its_date_in_words_and_what_was_found_as_it_was_written() {
    let visits = b"date,frames_of_bees\n2012-05-21,3.25\n";
    for (language, heading, found, footing) in [
        ("en", " on 21 May 2012", "3.25", "\n1 visit, "),
        ("de", " am 21. Mai 2012", "3,25", "\n1 Durchsicht, "),
    ] {
        let call = [
            "verdict",
            WET_SPRING,
            "-",
            "--members",
            "50",
            "--language",
            language,
        ];
        let output = output_of(&call, visits);
        let told = String::from_utf8(output.stdout).expect("output is UTF-8");
        let first = told.lines().next().expect("a heading");
        assert!(first.contains(heading), "{first}");
        // A hive without a name: its heading begins with a capital all the same.
        assert!(first.starts_with(char::is_uppercase), "{first}");
        assert!(told.contains(found) && told.contains(footing), "{told}");
    }
}

#[test]
fn one_visit_is_not_visits() {
    let visits = b"date,frames_of_bees,stores_kg\n2012-05-21,3.25,900\n";
    for (language, part) in [
        ("en", "set aside, 1 visit is used"),
        ("de", "bleibt beiseite, 1 Durchsicht gilt"),
    ] {
        let call = [
            "next",
            WET_SPRING,
            "-",
            "--members",
            "50",
            "--language",
            language,
        ];
        let output = output_of(&call, visits);
        let told = String::from_utf8(output.stdout).expect("output is UTF-8");
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(part), "{told}");
    }
}

#[test]
fn lists_are_there_as_json() {
    let places = json(&["places", "--json"]);
    let told = good(&["places"]);
    for list in ["records", "place_types", "forage_types"] {
        let rows = places[list].as_array().expect("a list");
        assert!(rows.len() >= 3, "{list}");
        for row in rows {
            let name = row["name"].as_str().expect("a name");
            assert!(told.contains(&format!("  {name} ")), "{name}");
        }
    }
    let treatments = json(&["treatments", "--json"]);
    let rows = treatments.as_array().expect("a list");
    assert_eq!(rows.len(), combcast_core::treatments::TREATMENTS.len());
    assert!(rows.iter().all(|row| row["caution"].is_string()));
    for row in json(&["params", "--json"]).as_array().expect("a list") {
        let doc = row["doc"].as_str().expect("a sentence");
        assert_eq!(doc, doc.trim());
    }
}

#[test]
fn a_part_of_a_month_is_not_made_a_whole() {
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("two-days.csv");
    let two = "sep=;\ndate;high_c;low_c;rain_mm\n2026-03-01;10;2;14\n2026-03-02;9;3;14,5\n";
    std::fs::write(&path, two).expect("the folder for test files takes a file");
    let path = path.to_str().expect("a plain path");
    let march = &json(&["weather", path, "--json"])["months"][0];
    assert_eq!(
        (&march["rain_mm"], &march["wet_days"]),
        (&28.5.into(), &2.0.into())
    );
    let told = good(&["weather", path]);
    assert!(
        told.contains("In part only") && told.contains("March 2 of 31 days"),
        "{told}"
    );
    assert!(!good(&["weather", "seattle"]).contains("In part only"));
}

#[test]
fn help_shows_how_a_twin_is_given() {
    let help = good(&["twin", "--help"]);
    assert!(
        help.contains("Usage: combcast twin [OPTIONS] <FILE> <FILE2|--without <WHAT>>"),
        "{help}"
    );
    let errors = bad(&["twin", WET_SPRING], 2);
    assert!(errors.contains("<FILE2|--without <WHAT>>"), "{errors}");
}

#[test]
fn a_verdict_on_eggs_alone_counts_no_weaker_colonies_and_a_wash_leads_it() {
    let told = |table: &[u8], language: &str| {
        let call = [
            "verdict",
            WET_SPRING,
            "-",
            "--members",
            "50",
            "--language",
            language,
        ];
        let output = output_of(&call, table);
        String::from_utf8(output.stdout)
            .expect("output is UTF-8")
            .split_whitespace()
            .collect::<Vec<&str>>()
            .join(" ")
    };
    let eggs = b"hive,date,eggs_seen\nA,2012-07-20,yes\n";
    let english = told(eggs, "en");
    assert!(
        english.starts_with("A: standing cannot be told on 20 July 2012"),
        "{english}"
    );
    assert!(english.contains("How strong it is cannot be told"));
    for word in ["in step", "are weaker", "days ahead", "days behind"] {
        assert!(!english.contains(word), "{word}: {english}");
    }
    assert!(told(eggs, "de").contains("Wie stark es ist, lässt sich nicht sagen"));
    let washed = b"hive,date,eggs_seen,wash_mites,wash_bees\nA,2012-07-20,yes,14,300\n";
    let english = told(washed, "en");
    assert!(
        english.starts_with("A: mites are over the mark on 20 July 2012"),
        "{english}"
    );
}
