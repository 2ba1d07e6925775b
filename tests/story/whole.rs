//! Every day of every season is told in whole sentences, in every language and system of units.

use std::path::Path;

use combcast_core::Scenario;
use combcast_core::queen::Brake;
use combcast_core::story::{Story, Units, overview};
use combcast_core::weather::{BuiltIn, resolve};
use combcast_core::words::{Language, Speech};

use super::{on, season};

#[test]
fn every_day_of_every_brake_is_told_in_whole_sentences() {
    for brake in Brake::ALL {
        // From nothing to more than any colony holds.
        let season = season(90, |index, day| {
            let scale = [0.0, 1e-9, 1.0, 3.7, 1e3][index % 5];
            day.brake = brake;
            day.adult_bees = 2.0 + 3_000.0 * scale;
            day.honey_kg = scale;
            day.unripe_kg = 0.0;
            day.rain_mm = scale;
            day.flight_hours = scale.min(14.0);
            day.pollen_in_kg = scale / 100.0;
            day.frames_of_brood = scale.min(30.0);
            day.honey_eaten_kg = scale / 50.0;
            day.low_c = -10.0 * scale.min(5.0);
        });
        for speech in speeches() {
            for index in 0..90 {
                are_whole_sentences(&on(&season, index, speech));
            }
        }
    }
}

/// Every language in every system of units.
fn speeches() -> impl Iterator<Item = Speech> {
    Language::ALL
        .into_iter()
        .flat_map(|language| [Units::Metric, Units::Us].map(|units| Speech { language, units }))
}

#[track_caller]
fn are_whole_sentences(story: &Story) {
    for sentence in &story.sentences {
        let text: String = sentence.iter().map(|span| span.text.as_str()).collect();
        assert!(text.ends_with('.'), "{text}");
        for fault in [
            "{",
            "}",
            "  ",
            "..",
            " .",
            " ,",
            "NaN",
            "inf ",
            "days days",
            "-0 ",
        ] {
            assert!(!text.contains(fault), "\"{fault}\" in: {text}");
        }
        for verdict in ["in step", "ahead", "behind", "on course"] {
            assert!(!text.contains(verdict), "a verdict in: {text}");
        }
    }
}

#[test]
fn every_day_of_every_shipped_season_is_told_in_whole_sentences() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios");
    let mut told = 0;
    for entry in std::fs::read_dir(&folder).expect("there is a folder of scenarios") {
        let path = entry.expect("its entries can be read").path();
        if path.extension().is_none_or(|kind| kind != "toml") {
            continue;
        }
        let bytes = std::fs::read(&path).expect("a scenario can be read");
        let scenario = Scenario::from_bytes(&bytes, "").expect("a shipped scenario is in order");
        let record = scenario.weather.record.as_deref().map(|name| {
            let file = BuiltIn::named(name).map_or(name, |record| record.file);
            std::fs::read(folder.join("weather").join(file)).expect("its record is shipped")
        });
        let (weather, _) = resolve(&scenario, record.as_deref()).expect("its weather is there");
        let season = combcast_core::run(&scenario, &weather).expect("it runs");
        for speech in speeches() {
            are_whole_sentences(&overview(&season, speech));
            for index in 0..season.days.len() {
                are_whole_sentences(&on(&season, index as i32, speech));
                told += 1;
            }
            for event in &season.events {
                let text = event.text.told(speech);
                assert!(
                    !text.is_empty() && !text.contains(['{', '}', '_']),
                    "{text}"
                );
            }
        }
    }
    assert!(told > 0, "there is a scenario");
}
