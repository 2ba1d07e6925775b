//! The command line does what its help says: words, files, exit codes, errors with their place.

mod faults;
mod help;
mod people;
mod season;

use std::process::Stdio;

use combcast_core::Parameters;
use combcast_core::observe::COLUMNS;
use serde_json::Value;

use super::common::{bad, combcast, good, json, output_of, scenario_file};

const WET_SPRING: &str = "scenarios/wet-spring.toml";

/// Fields of a day that files may rely on.
const CONTRACT: [&str; 24] = [
    "date",
    "day",
    "adult_bees",
    "house_bees",
    "foragers",
    "drones",
    "eggs",
    "open_larvae",
    "capped_worker",
    "drone_brood",
    "eggs_laid",
    "brake",
    "drawn_frames",
    "frames_of_bees",
    "frames_of_brood",
    "honey_kg",
    "pollen_kg",
    "syrup_kg",
    "flight_hours",
    "mites_on_bees",
    "mites_in_cells",
    "mites_per_100_bees",
    "queen",
    "rain_mm",
];

#[test]
fn a_refused_move_is_told_as_refused_with_its_name() {
    let path = scenario_file(
        "refused.toml",
        "[[move]]\ndate = 2012-05-10\ntake_drone_frame = {}\n",
    );
    let path = path.to_str().expect("plain");
    let flat = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = flat(good(&["run", path]));
    let refused = "refused: take drone frame: no drone frame is in the hive";
    assert!(told.contains(refused), "{told}");
    let german = flat(good(&["run", path, "--language", "de"]));
    assert!(german.contains("geht nicht: Drohnenrahmen"), "{german}");
}

#[test]
fn what_a_colony_began_with_is_no_first() {
    let texts = |file: &str| -> Vec<String> {
        let document = json(&["run", file, "--json"]);
        let events = document["events"].as_array().expect("events");
        let text = |event: &Value| event["text"].as_str().expect("text").to_owned();
        events.iter().map(text).collect()
    };
    let overwintered = texts("scenarios/overwintered.toml");
    assert!(
        !overwintered.contains(&"eight tenths of box 2 are drawn".to_owned()),
        "{overwintered:?}"
    );
    let firsts = [
        "first eggs",
        "first brood is capped",
        "first young bees emerge",
    ];
    for file in ["scenarios/overwintered.toml", "scenarios/small-nuc.toml"] {
        let events = texts(file);
        assert!(
            !events.iter().any(|text| firsts.contains(&text.as_str())),
            "{events:?}"
        );
    }
    let package = texts(WET_SPRING);
    for first in firsts {
        assert!(
            package.iter().any(|text| text == first),
            "{first}: {package:?}"
        );
    }
}

#[test]
fn a_season_in_words_fits_80_columns() {
    for units in ["metric", "us"] {
        let text = good(&["run", WET_SPRING, "--units", units]);
        for line in text.lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
        for part in ["What set the pace of laying", "Week of", "What happened"] {
            assert!(text.contains(part), "no \"{part}\" in\n{text}");
        }
        assert!(text.lines().any(|line| line.starts_with("Bees ")));
        assert_eq!(text.contains("kg"), units == "metric", "{text}");
    }
}

#[test]
fn the_story_of_a_date_opens_with_that_date() {
    let text = good(&["run", WET_SPRING, "--on", "2012-05-20"]);
    assert!(text.contains("Sun 20 May, day "), "{text}");
    assert!(
        text.lines().any(|line| line.starts_with('›')),
        "the week is marked"
    );
}

#[test]
fn json_has_the_fields_of_the_contract() {
    let document = json(&["run", WET_SPRING, "--json"]);
    let days = document["days"].as_array().expect("days");
    assert_eq!(document["version"], env!("CARGO_PKG_VERSION"));
    assert!(document["seed"].is_u64());
    assert_eq!(document["first"], days[0]["date"]);
    assert_eq!(document["last"], days[days.len() - 1]["date"]);
    for (index, day) in days.iter().enumerate() {
        for field in CONTRACT {
            let value = &day[field];
            let text = ["date", "brake", "queen"].contains(&field);
            assert!(
                if text {
                    value.is_string()
                } else {
                    value.is_number()
                },
                "day {index}: {field} is {value}"
            );
        }
        for column in COLUMNS {
            assert!(day[column.name].is_number(), "{}", column.name);
        }
    }
    let events = document["events"].as_array().expect("events");
    assert!(!events.is_empty());
    for event in events {
        for field in ["date", "kind", "text"] {
            assert!(event[field].is_string(), "{event}");
        }
    }
    let rows: usize = Parameters::INFO.iter().map(|(_, rows)| rows.len()).sum();
    let parameters = document["parameters"].as_object().expect("parameters");
    assert_eq!(parameters.len(), rows);
    assert!(document["weather"].is_object());
}

#[test]
fn csv_and_json_hold_the_same_numbers_to_the_bit() {
    let document = json(&["run", WET_SPRING, "--json"]);
    let text = good(&["run", WET_SPRING, "--csv"]);
    assert!(text.starts_with("# combcast "), "{text}");
    let digest = document["scenario_digest"].as_str().expect("a digest");
    assert!(text.contains(&format!("# scenario digest: {digest}\n")));
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes());
    let header = reader.headers().expect("a header").clone();
    assert_eq!(header.len(), COLUMNS.len() + 3);
    let days = document["days"].as_array().expect("days");
    let mut count = 0;
    for (row, day) in reader.records().zip(days) {
        let row = row.expect("a whole row");
        for (name, cell) in header.iter().zip(&row) {
            match &day[name] {
                Value::String(text) => assert_eq!(cell, text),
                value => {
                    let cell: f64 = cell.parse().expect("a number");
                    let value = value.as_f64().expect("a number");
                    assert_eq!(cell.to_bits(), value.to_bits(), "{name}");
                }
            }
        }
        count += 1;
    }
    assert_eq!(count, days.len());
}

#[test]
fn options_change_seed_mode_and_parameters() {
    let (section, row) = Parameters::INFO
        .iter()
        .flat_map(|(section, rows)| rows.iter().map(move |row| (section, row)))
        .find(|(_, row)| row.name == "best_rate")
        .expect("the queen has a best rate");
    let name = format!("{section}.{}", row.name);
    let set = format!("{name}=900");
    let document = json(&[
        "run",
        WET_SPRING,
        "--json",
        "--seed",
        "4294967295",
        "--mode",
        "random",
        "--set",
        &set,
    ]);
    assert_eq!(document["seed"], 4_294_967_295_u32);
    assert_eq!(document["mode"], "random");
    assert_eq!(document["parameters"][&name], 900.0);
}

#[test]
fn a_scenario_comes_from_standard_input_too() {
    let path = scenario_file("stdin.toml", "");
    let text = std::fs::read(&path).expect("the file was just written");
    let output = output_of(&["run", "-", "--csv"], &text);
    assert!(output.status.success());
    let path = path.to_str().expect("a plain path");
    assert_eq!(
        String::from_utf8_lossy(&output.stdout),
        good(&["run", path, "--csv"])
    );
}

#[test]
fn the_digest_is_16_hexadecimal_digits_and_follows_the_season() {
    let one = good(&["digest", WET_SPRING]);
    assert_eq!(one.trim_end().len(), 16);
    assert!(u64::from_str_radix(one.trim_end(), 16).is_ok());
    assert_eq!(one, good(&["digest", WET_SPRING]));
    assert_ne!(
        one,
        good(&["digest", WET_SPRING, "--set", "queen.best_rate=900"])
    );
}

#[test]
fn every_parameter_is_listed_with_its_source() {
    let rows = json(&["params", "--json"]);
    let rows = rows.as_array().expect("a list");
    let text = good(&["params"]);
    for row in rows {
        let name = format!(
            "{}.{}",
            row["section"].as_str().unwrap(),
            row["name"].as_str().unwrap()
        );
        assert!(text.contains(&name), "{name}");
        assert!(!row["source"].as_str().unwrap().is_empty(), "{name}");
    }
    let count: usize = Parameters::INFO.iter().map(|(_, rows)| rows.len()).sum();
    assert_eq!(rows.len(), count);
    let queen = good(&["params", "queen"]);
    assert!(queen.lines().all(|line| line.chars().count() <= 88));
    assert!(!queen.contains("forage."));
}

#[test]
fn evidence_has_a_row_for_each_check_and_hides_no_failure() {
    let rows = json(&["evidence", "--json"]);
    let rows = rows.as_array().expect("a list");
    assert!(rows.len() >= 20, "{} rows", rows.len());
    let text = good(&["evidence"]);
    for row in rows {
        let (low, high) = (row["low"].as_f64(), row["high"].as_f64());
        let value = row["value"].as_f64().expect("a number");
        let inside = low.is_none_or(|low| low <= value) && high.is_none_or(|high| value <= high);
        assert_eq!(row["inside"], inside, "{row}");
        assert!(
            !row["source"].as_str().expect("a source").is_empty(),
            "{row}"
        );
        assert!(text.contains(row["id"].as_str().expect("an id")), "{row}");
    }
    let outside = json(&["evidence", "--json", "--outside"]);
    let failing = rows.iter().filter(|row| row["inside"] == false).count();
    assert_eq!(outside.as_array().expect("a list").len(), failing);
    // What could not fail is not counted among what passed.
    let tested: Vec<_> = rows.iter().filter(|row| row["tested"] == true).collect();
    for row in rows {
        let note = row["note"].as_str().expect("a note");
        let given = note.starts_with("an input") || note.contains("not the model");
        assert_eq!(row["tested"], !given, "{row}");
    }
    let passed = tested.iter().filter(|row| row["inside"] == true).count();
    let counted = format!("{passed} of {} inside the published range", tested.len());
    assert!(text.contains(&counted), "no \"{counted}\"");
    let given = format!("{} rows besides test nothing", rows.len() - tested.len());
    assert!(text.contains(&given), "no \"{given}\"");
    assert!(text.lines().all(|line| line.chars().count() <= 80));
}

#[test]
fn every_built_in_record_can_be_looked_into() {
    for record in combcast_core::weather::BUILT_IN {
        let text = good(&["weather", record.name]);
        for part in ["The mean year", "January", "Bloom"] {
            assert!(text.contains(part), "no \"{part}\" in {text}");
        }
        assert!(
            text.lines().all(|line| line.chars().count() <= 80),
            "{text}"
        );
        let inspection = json(&["weather", record.name, "--json"]);
        let days = inspection["report"]["days"].as_u64().expect("a number");
        let months = inspection["months"].as_array().expect("months");
        let counted: u64 = months
            .iter()
            .filter_map(|month| month["days"].as_u64())
            .sum();
        assert_eq!(counted, days);
        assert!(good(&["places"]).contains(record.name));
    }
    let errors = bad(&["weather", "no-such-record"], 2);
    assert!(errors.contains("seattle"), "{errors}");
    let errors = bad(&["weather", "seattle", "--year", "1999"], 2);
    assert!(errors.contains("2012 to 2015"), "{errors}");
}

#[test]
fn the_schema_is_json_and_describes_the_start() {
    let schema = json(&["schema"]);
    assert!(schema["properties"]["start"].is_object());
}

#[test]
fn a_reader_that_stops_early_is_no_fault() {
    let mut child = combcast()
        .args(["run", WET_SPRING, "--json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("the program ends");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn colour_is_for_terminals_that_want_it() {
    let text = |name: &str, value: &str| {
        let output = combcast()
            .args(["run", WET_SPRING])
            .env(name, value)
            .output()
            .expect("the program starts");
        String::from_utf8(output.stdout).expect("output is UTF-8")
    };
    assert!(!good(&["run", WET_SPRING]).contains('\u{1b}'));
    assert!(!text("NO_COLOR", "1").contains('\u{1b}'));
    assert!(text("CLICOLOR_FORCE", "1").contains('\u{1b}'));
}

#[test]
fn treatments_stand_under_the_label_with_their_cautions() {
    let told = good(&["treatments"])
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(told.contains("Follow the label: it is the law."), "{told}");
    for row in combcast_core::treatments::TREATMENTS {
        assert!(told.to_lowercase().contains(row.name), "{}", row.name);
        assert!(told.contains(row.caution), "{}", row.name);
    }
}
