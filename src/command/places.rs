//! `combcast places`: what a scenario can name for its weather and what grows around.

use combcast_core::forage::built_in;
use combcast_core::scenario::ForageType;
use combcast_core::weather::{BUILT_IN, PLACE_TYPES};

use crate::output::{self, BOLD, Failure};

pub fn run() -> Result<(), Failure> {
    let mut text = format!("{BOLD}Weather records{BOLD:#}, for weather.record\n");
    text.push_str(&output::table(
        &[],
        &[],
        BUILT_IN
            .iter()
            .map(|record| [format!("  {}", record.name), record.provenance.to_owned()]),
    ));
    text.push_str(&format!(
        "\n{BOLD}Place types{BOLD:#}, for weather.place_type: weather drawn by chance\n"
    ));
    text.push_str(&output::table(
        &[],
        &[],
        PLACE_TYPES.iter().map(|place| {
            let told = format!("{} ({})", place.description, place.provenance);
            [format!("  {}", place.name), told]
        }),
    ));
    text.push_str(&format!(
        "\n{BOLD}Forage types{BOLD:#}, for place.forage: what blooms\n"
    ));
    text.push_str(&output::table(
        &[],
        &[],
        FORAGE_TYPES.iter().map(|&forage| {
            let plants: Vec<String> = built_in(forage)
                .into_iter()
                .map(|bloom| bloom.plant)
                .collect();
            let told = if plants.is_empty() {
                "nothing at all, for trials".to_owned()
            } else {
                plants.join(", ")
            };
            [format!("  {}", name(forage)), told]
        }),
    ));
    output::write(&text)
}

const FORAGE_TYPES: [ForageType; 6] = [
    ForageType::Mixed,
    ForageType::Orchard,
    ForageType::Meadow,
    ForageType::Woodland,
    ForageType::Dryland,
    ForageType::Bare,
];

/// The name that scenario files use.
fn name(forage: ForageType) -> String {
    match serde_json::to_value(forage) {
        Ok(serde_json::Value::String(name)) => name,
        _ => unreachable!("a forage type is written as its name"),
    }
}
