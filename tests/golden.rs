//! Numbers stay as they are unless somebody means to change them.
//!
//! `tests/golden` holds, for a few of the shipped scenarios and both modes, the digest of the season,
//! a dozen readings that a person can judge, and the digest of each column, which names the culprit.
//! `cargo xtask bless` writes the files anew; the commit says why, and the changelog calls it
//! value-breaking.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use combcast_core::observe::COLUMNS;
use combcast_core::scenario::Mode;
use combcast_core::weather::{self, BuiltIn};
use combcast_core::{Scenario, Season, digest};
use serde::{Deserialize, Serialize};

/// One scenario for each way to start, and both hemispheres.
const SCENARIOS: [&str; 5] = [
    "wet-spring",
    "small-nuc",
    "state-college-swarm",
    "overwintered",
    "southern-spring",
];

/// What a season came to.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Golden {
    /// Of every number of every day, and the brakes.
    digest: String,
    /// For people: enough to see what kind of change it was.
    readings: BTreeMap<String, f64>,
    /// The digest of each column.
    columns: BTreeMap<String, String>,
}

impl Golden {
    fn of(season: &Season) -> Self {
        let days = &season.days;
        let last = days.len() - 1;
        let mut readings = BTreeMap::new();
        for quarter in 1..=4 {
            let day = &days[last * quarter / 4];
            readings.insert(format!("adult_bees on day {:03}", day.day), day.adult_bees);
        }
        for name in [
            "eggs_laid",
            "died",
            "nectar_kg",
            "syrup_kg",
            "honey_eaten_kg",
        ] {
            let sum = days.iter().filter_map(|day| day.value(name)).sum();
            readings.insert(format!("{name} in all"), sum);
        }
        for name in ["drawn_frames", "honey_kg", "drones"] {
            let most = days
                .iter()
                .filter_map(|day| day.value(name))
                .fold(0.0, f64::max);
            readings.insert(format!("{name} at most"), most);
        }
        let mut columns: BTreeMap<String, String> = COLUMNS
            .iter()
            .map(|column| {
                let bits = days
                    .iter()
                    .filter_map(|day| day.value(column.name))
                    .flat_map(|value| value.to_bits().to_le_bytes());
                (
                    column.name.to_owned(),
                    format!("{:016x}", digest::bytes(bits)),
                )
            })
            .collect();
        let brakes = days.iter().map(|day| day.brake as u8);
        columns.insert(
            "brake".to_owned(),
            format!("{:016x}", digest::bytes(brakes)),
        );
        Self {
            digest: format!("{:016x}", digest::of(season)),
            readings,
            columns,
        }
    }

    /// What differs from `kept`, line by line; empty where nothing does.
    fn differences(&self, kept: &Self) -> Vec<String> {
        let mut lines = Vec::new();
        let culprits: Vec<&str> = self
            .columns
            .keys()
            .chain(
                kept.columns
                    .keys()
                    .filter(|name| !self.columns.contains_key(*name)),
            )
            .filter(|name| self.columns.get(*name) != kept.columns.get(*name))
            .map(String::as_str)
            .collect();
        if !culprits.is_empty() {
            lines.push(format!("columns that changed: {}", culprits.join(", ")));
        }
        for (name, now) in &self.readings {
            match kept.readings.get(name) {
                Some(before) if before == now => {}
                Some(before) => lines.push(format!("{name}: {before} before, {now} now")),
                None => lines.push(format!("{name}: not there before, {now} now")),
            }
        }
        if lines.is_empty() && self.digest != kept.digest {
            lines.push(format!(
                "digest: {} before, {} now",
                kept.digest, self.digest
            ));
        }
        lines
    }
}

fn season(name: &str, mode: Mode) -> Season {
    let repository = PathBuf::from(env!("CARGO_MANIFEST_DIR"));
    let read = |path: String| {
        fs::read(repository.join(&path)).unwrap_or_else(|error| panic!("{path}: {error}"))
    };
    let file = format!("scenarios/{name}.toml");
    let scenario = Scenario::from_bytes(&read(file.clone()), &file).unwrap();
    let scenario = Scenario { mode, ..scenario };
    let record = scenario.weather.record.as_deref().map(|record| {
        let built_in = BuiltIn::named(record).expect("shipped scenarios use shipped records");
        read(format!("scenarios/weather/{}", built_in.file))
    });
    let (weather, _) = weather::resolve(&scenario, record.as_deref()).unwrap();
    combcast_core::run(&scenario, &weather).unwrap()
}

#[test]
fn shipped_scenarios_give_the_numbers_that_were_kept() {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/golden");
    let bless = std::env::var_os("COMBCAST_BLESS").is_some();
    let mut faults = String::new();
    for name in SCENARIOS {
        let now: BTreeMap<&str, Golden> = [("mean", Mode::Mean), ("random", Mode::Random)]
            .into_iter()
            .map(|(mode, choice)| (mode, Golden::of(&season(name, choice))))
            .collect();
        let file = folder.join(format!("{name}.json"));
        if bless {
            fs::create_dir_all(&folder).unwrap();
            fs::write(&file, serde_json::to_string_pretty(&now).unwrap() + "\n").unwrap();
            continue;
        }
        let kept =
            fs::read_to_string(&file).unwrap_or_else(|error| panic!("{}: {error}", file.display()));
        let kept: BTreeMap<String, Golden> = serde_json::from_str(&kept).unwrap();
        for (mode, now) in now {
            for line in now.differences(&kept[mode]) {
                faults.push_str(&format!("{name}, {mode}: {line}\n"));
            }
        }
    }
    assert!(
        faults.is_empty(),
        "seasons changed. If that is meant, run `cargo xtask bless` and say why in the commit.\n{faults}"
    );
}

#[test]
fn a_change_of_one_bit_is_told_with_its_column() {
    let season = season("small-nuc", Mode::Mean);
    let kept = Golden::of(&season);
    assert_eq!(kept.differences(&kept), Vec::<String>::new());
    let mut changed = season;
    changed.days[40].pollen_kg = changed.days[40].pollen_kg.next_up();
    let lines = Golden::of(&changed).differences(&kept);
    assert_eq!(lines, ["columns that changed: pollen_kg"]);
    changed.days[40].drones += 1e6;
    let lines = Golden::of(&changed).differences(&kept);
    assert_eq!(lines[0], "columns that changed: drones, pollen_kg");
    assert!(lines[1].starts_with("drones at most: "), "{lines:?}");
}
