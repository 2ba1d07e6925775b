//! The scenario format: its published schema, and writing what was read.

use std::fs;
use std::path::Path;

use combcast_core::Scenario;
use combcast_core::scenario::{problems_in_file, read_form, scenario_schema};
use serde_json::Value;

use super::common::repository;

/// A scenario that uses every field of the format (and is therefore not sound: it starts in four ways).
pub const EVERY_FIELD: &str = include_str!("data/every-field.toml");

/// The scenario files that ship with the program.
pub fn shipped() -> Vec<(String, String)> {
    let mut files: Vec<_> = fs::read_dir(repository().join("scenarios"))
        .expect("the folder is part of the repository")
        .map(|entry| entry.expect("the folder can be read").path())
        .filter(|path| {
            path.extension()
                .is_some_and(|extension| extension == "toml")
        })
        .map(|path| {
            (
                name_of(&path),
                fs::read_to_string(&path).expect("the file is UTF-8 text"),
            )
        })
        .collect();
    files.sort();
    assert!(files.len() >= 8, "only {} scenario files", files.len());
    files
}

fn name_of(path: &Path) -> String {
    path.file_name()
        .expect("it is a file")
        .to_string_lossy()
        .into_owned()
}

#[test]
fn published_schema_is_the_codes_schema() {
    let path = repository().join("scenarios/scenario.schema.json");
    let mut current = serde_json::to_string_pretty(&scenario_schema()).expect("it is JSON");
    current.push('\n');
    if std::env::var_os("COMBCAST_BLESS").is_some() {
        fs::write(&path, &current).expect("the folder can be written to");
    }
    let published = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        published == current,
        "scenarios/scenario.schema.json is out of date: run the tests once with COMBCAST_BLESS=1"
    );
}

/// Every object of the schema that describes one property: path in the schema, and the property.
fn properties(schema: &Value) -> Vec<(String, &Value)> {
    let definitions = schema["$defs"].as_object().expect("it has definitions");
    let types = definitions
        .iter()
        .map(|(name, definition)| (name.as_str(), definition))
        .chain([("Scenario", schema)]);
    types
        .flat_map(|(name, definition)| {
            let fields = definition["properties"].as_object().into_iter().flatten();
            fields.map(move |(field, property)| (format!("{name}.{field}"), property))
        })
        .collect()
}

#[test]
fn every_property_and_choice_is_described() {
    let schema = scenario_schema();
    let all = properties(&schema);
    assert!(all.len() > 60, "only {} properties", all.len());
    for (place, property) in all {
        let text = property["description"].as_str().unwrap_or_default();
        assert!(text.len() > 8, "{place} has no description");
    }
    for (name, definition) in schema["$defs"].as_object().expect("it has definitions") {
        assert!(
            definition["description"].is_string(),
            "{name} has no description"
        );
        for choice in definition["oneOf"].as_array().into_iter().flatten() {
            assert!(
                choice["description"].is_string(),
                "{name}: {choice} has no description"
            );
        }
    }
}

/// The range that people read is the range that editors check.
#[test]
fn descriptions_give_the_ranges() {
    let schema = scenario_schema();
    let mut ranges = 0;
    for (place, property) in properties(&schema) {
        let (Some(low), Some(high)) = (property["minimum"].as_f64(), property["maximum"].as_f64())
        else {
            assert!(
                property.get("maximum").is_none(),
                "{place} has half a range"
            );
            continue;
        };
        ranges += 1;
        let text = property["description"]
            .as_str()
            .unwrap_or_default()
            .replace(',', "");
        for bound in [low, high] {
            let written = text
                .split(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-'))
                .any(|word| word.trim_end_matches('.').parse() == Ok(bound));
            assert!(written, "{place} does not say {bound}: {text}");
        }
    }
    assert!(ranges > 30, "only {ranges} ranges");
}

/// Walks a scenario and the schema together; calls `found` with the path and range of each number.
fn ranges_in(
    value: &Value,
    schema: &Value,
    root: &Value,
    path: &str,
    found: &mut Vec<(String, f64, f64)>,
) {
    let schema = match schema["$ref"]
        .as_str()
        .or_else(|| schema["anyOf"][0]["$ref"].as_str())
    {
        Some(reference) => &root["$defs"][reference.rsplit('/').next().expect("a name")],
        None => schema,
    };
    if let (Some(low), Some(high)) = (schema["minimum"].as_f64(), schema["maximum"].as_f64()) {
        found.push((path.to_owned(), low, high));
    }
    for (name, property) in schema["properties"].as_object().into_iter().flatten() {
        let inner = if path.is_empty() {
            name.clone()
        } else {
            format!("{path}.{name}")
        };
        assert!(
            !value[name].is_null(),
            "tests/data/every-field.toml lacks {inner}"
        );
        ranges_in(&value[name], property, root, &inner, found);
    }
    if let Some(items) = schema.get("items") {
        ranges_in(&value[0], items, root, &format!("{path}[0]"), found);
    }
}

/// A number outside the schema's range is refused by the reader as well, in the same words.
#[test]
fn reader_keeps_to_the_schemas_ranges() {
    let schema = scenario_schema();
    let good = read_form::<Scenario>(EVERY_FIELD).expect("it has the form of a scenario");
    let good = serde_json::to_value(&good).expect("it can be written");
    let mut ranges = Vec::new();
    ranges_in(&good, &schema, &schema, "", &mut ranges);
    assert!(ranges.len() > 35, "only {} ranges", ranges.len());
    // The weather's own ranges are checked where weather is resolved.
    ranges.retain(|(path, ..)| !path.starts_with("weather."));
    for (path, low, high) in ranges {
        for value in [low - 1.0, high + 1.0] {
            let mut changed = good.clone();
            let pointer = format!("/{}", path.replace(['.', '['], "/").replace(']', ""));
            let whole = changed.pointer(&pointer).is_some_and(Value::is_u64);
            *changed
                .pointer_mut(&pointer)
                .expect("the path leads somewhere") = if whole {
                Value::from(value as i64)
            } else {
                Value::from(value)
            };
            let problems = problems_in_file(changed.to_string().as_bytes(), "changed.json");
            assert!(
                problems.iter().any(|problem| {
                    let place = problem.place.rsplit(": ").next().unwrap_or_default();
                    place == path && problem.message.starts_with("expected ")
                }),
                "{path} = {value} passes"
            );
        }
    }
}

#[test]
fn what_is_written_reads_back_unchanged() {
    let every = read_form::<Scenario>(EVERY_FIELD).expect("it has the form of a scenario");
    let again = read_form::<Scenario>(&every.to_toml().expect("it can be written"));
    assert_eq!(again.as_ref(), Ok(&every));
    for (name, text) in shipped() {
        let scenario =
            Scenario::from_bytes(text.as_bytes(), &name).unwrap_or_else(|error| panic!("{error}"));
        let toml = scenario.to_toml().expect("it can be written");
        assert_eq!(Scenario::from_toml(&toml).as_ref(), Ok(&scenario), "{name}");
        let json = serde_json::to_string(&scenario).expect("it can be written");
        assert_eq!(Scenario::from_json(&json).as_ref(), Ok(&scenario), "{name}");
    }
}

#[test]
fn dates_may_stand_in_quotes_or_not() {
    let (_, text) = shipped().remove(0);
    let quoted: String = text
        .lines()
        .map(|line| match line.split_once("= 20") {
            Some((head, date)) if !line.starts_with('#') => {
                format!("{head}= \"20{}\"\n", date.trim_end())
            }
            _ => format!("{line}\n"),
        })
        .collect();
    assert_ne!(text, quoted);
    assert_eq!(Scenario::from_toml(&text), Scenario::from_toml(&quoted));
}

#[test]
fn the_demo_is_a_package_in_a_wet_spring() {
    let demo = Scenario::default_package();
    assert!(demo.start.package.is_some());
    assert_eq!(demo.place.name, "Alder Row");
    assert!(!demo.weather.rain.is_empty());
}

#[test]
fn frames_of_other_dimensions_have_cells_by_their_area() {
    let text = |hive: &str, more: &str| {
        format!(
            "name = \"Test\"\nuntil = 2012-05-31\nplace = {{ name = \"Alder Row\", latitude = 47.4 }}\n\
             weather.place_type = \"oceanic\"\nstart = {{ date = 2012-04-30, package = {{ pounds = 3.0 }} }}\n\
             [hive]\n{hive}\n[[hive.box]]\nframes = 8\ncomb = \"drawn\"\n[[hive.box]]\nsize = \"medium\"\nframes = 8\ncomb = \"drawn\"\n{more}"
        )
    };
    let drawn = |hive: &str, more: &str| {
        let scenario = Scenario::from_toml(&text(hive, more)).expect("a sound scenario");
        let (weather, _) = combcast_core::weather::resolve(&scenario, None).expect("drawn weather");
        let season = combcast_core::run(&scenario, &weather).expect("a sound season");
        season.days[0].drawn_cells
    };
    let common = drawn("", "");
    let the_same = "deep_frame = { comb_width_mm = 430, comb_height_mm = 205 }\nmedium_frame = { comb_width_mm = 430, comb_height_mm = 130 }";
    assert_eq!(drawn(the_same, ""), common);
    let half_as_wide = "deep_frame = { comb_width_mm = 215, comb_height_mm = 205 }\nmedium_frame = { comb_width_mm = 215, comb_height_mm = 130 }";
    assert_eq!(drawn(half_as_wide, ""), common / 2.0);
    // A parameter that is named wins.
    let named = "[parameters]\n\"comb.deep_cells\" = 7000\n\"comb.medium_cells\" = 4450\n";
    assert_eq!(drawn(half_as_wide, named), common);
    let error = Scenario::from_toml(&text(
        "deep_frame = { comb_width_mm = 34, comb_height_mm = 205 }",
        "",
    ))
    .and_then(|scenario| scenario.validate())
    .expect_err("centimetres are not meant");
    assert!(error.to_string().contains("200 to 500 mm"), "{error}");
}
