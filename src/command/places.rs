//! `combcast places`: what a scenario can name for its weather and what grows around.

use combcast_core::forage::built_in;
use combcast_core::scenario::ForageType;
use combcast_core::weather::{BUILT_IN, BuiltIn, PLACE_TYPES, PlaceType};
use serde::Serialize;

use crate::args;
use crate::output::{self, BOLD, Failure};

/// What `--json` prints.
#[derive(Serialize)]
struct Places {
    records: &'static [BuiltIn],
    place_types: &'static [PlaceType],
    forage_types: Vec<Forage>,
}

/// What grows around, with what blooms.
#[derive(Serialize)]
struct Forage {
    name: &'static str,
    plants: Vec<String>,
}

pub fn run(given: &args::Places) -> Result<(), Failure> {
    let forage_types: Vec<Forage> = ForageType::ALL.map(forage).into();
    if given.json {
        return output::write(&output::json(&Places {
            records: BUILT_IN,
            place_types: PLACE_TYPES,
            forage_types,
        })?);
    }
    let mut text = titled("Weather records", "for weather.record");
    text.push_str(&output::table(
        &[],
        &[],
        BUILT_IN
            .iter()
            .map(|record| [format!("  {}", record.name), record.provenance.to_owned()]),
    ));
    text.push('\n');
    text.push_str(&titled(
        "Place types",
        "for weather.place_type: weather drawn by chance",
    ));
    text.push_str(&output::table(
        &[],
        &[],
        PLACE_TYPES.iter().map(|place| {
            let told = format!("{} ({})", place.description, place.provenance);
            [format!("  {}", place.name), told]
        }),
    ));
    text.push('\n');
    text.push_str(&titled("Forage types", "for place.forage: what blooms"));
    text.push_str(&output::table(
        &[],
        &[],
        forage_types.iter().map(|forage| {
            let told = if forage.plants.is_empty() {
                "nothing at all, for trials".to_owned()
            } else {
                forage.plants.join(", ")
            };
            [format!("  {}", forage.name), told]
        }),
    ));
    output::write(&text)
}

fn titled(title: &str, of_what: &str) -> String {
    let told = output::wrapped(&format!("{title}, {of_what}"), 0);
    told.replacen(title, &format!("{BOLD}{title}{BOLD:#}"), 1) + "\n"
}

fn forage(forage: ForageType) -> Forage {
    Forage {
        name: forage.name(),
        plants: built_in(forage)
            .into_iter()
            .map(|bloom| bloom.plant)
            .collect(),
    }
}
