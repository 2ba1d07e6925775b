//! What the compiler cannot see: that the languages' patterns have the same names in them, and differ.

use super::fill::names;
use super::shape::Counted;
use super::{Language, text};

/// Something that has patterns.
pub(super) trait Patterns {
    fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>);
}

impl Patterns for &'static str {
    fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>) {
        found.push((place.to_owned(), self));
    }
}

impl<const N: usize> Patterns for [&'static str; N] {
    fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>) {
        for (number, pattern) in self.iter().enumerate() {
            found.push((format!("{place}[{number}]"), pattern));
        }
    }
}

impl Patterns for Counted {
    fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>) {
        found.push((format!("{place}.one"), self.one));
        found.push((format!("{place}.many"), self.many));
    }
}

fn patterns(language: Language) -> Vec<(String, &'static str)> {
    let mut found = Vec::new();
    language.words().list("", &mut found);
    found
}

#[test]
fn all_languages_fill_the_same_names() {
    let english = patterns(Language::English);
    assert!(english.len() > 200, "{} patterns", english.len());
    for language in Language::ALL {
        for ((place, pattern), (_, in_english)) in patterns(language).iter().zip(&english) {
            // "One day" need not have the number in it.
            if place.ends_with(".one") {
                assert!(
                    names(pattern).iter().all(|name| *name == "count"),
                    "{place}"
                );
                continue;
            }
            assert_eq!(
                names(pattern),
                names(in_english),
                "{place} in {language:?}: {pattern}"
            );
            assert_eq!(
                pattern.matches('{').count(),
                pattern.matches('}').count(),
                "{place}"
            );
        }
    }
}

#[test]
fn german_is_not_english() {
    // Units and short forms of months have up to three letters.
    let has_words = |pattern: &str| {
        let own = names(pattern)
            .iter()
            .fold(pattern.to_owned(), |own, name| own.replace(name, ""));
        own.chars().filter(|letter| letter.is_alphabetic()).count() > 3
    };
    let english = patterns(Language::English);
    let german = patterns(Language::German);
    let same: Vec<&str> = german
        .iter()
        .zip(&english)
        .filter(|((_, one), (_, other))| one == other && has_words(one))
        .map(|((_, pattern), _)| *pattern)
        .collect();
    assert_eq!(same, SAME);
}

/// Words that are the same in both languages.
const SAME: &[&str] = &["April", "August", "September", "November"];

#[test]
fn a_move_is_called_by_its_name() {
    let names: Vec<String> = crate::scenario::Move::default()
        .choices()
        .iter()
        .map(|(name, _)| name.replace('_', " "))
        .collect();
    assert_eq!(names, Language::English.words().actions);
}

#[test]
fn every_built_in_plant_and_climate_has_words() {
    use crate::scenario::ForageType::{Dryland, Meadow, Mixed, Orchard, Woodland};
    use crate::weather::PLACE_TYPES;
    let words = &Language::English.words().weather;
    let descriptions: Vec<&str> = PLACE_TYPES.iter().map(|one| one.description).collect();
    assert_eq!(descriptions, words.place_types);
    let mut told = Vec::new();
    for forage in [Mixed, Orchard, Meadow, Woodland, Dryland] {
        for bloom in crate::forage::built_in(forage) {
            let german = crate::forage::plant_in(&bloom.plant, Language::German);
            assert_ne!(german, bloom.plant);
            told.push(bloom.plant);
        }
    }
    assert!(
        words
            .plants
            .iter()
            .all(|plant| told.iter().any(|one| one == plant))
    );
}

#[test]
fn one_is_told_from_many() {
    let days = Language::German.words().forms.days;
    assert_eq!([days.of("1"), days.of("2")], ["1 Tag", "2 Tage"]);
    assert_eq!(
        text("{b}, {a}, {b}", &[("a", "one"), ("b", "two")]),
        "two, one, two"
    );
}

#[test]
fn what_would_tell_has_no_stop_of_its_own() {
    // It stands within sentences, and before their full stops.
    for language in Language::ALL {
        for tell in language.words().causes.tell {
            assert!(!tell.ends_with(['.', '?', '!']), "{tell}");
        }
    }
}

#[test]
fn a_drone_frame_goes_beside_the_brood_nest_whoever_says_it() {
    for (language, beside) in [
        (Language::English, "beside the brood nest"),
        (Language::German, "Brutnest"),
    ] {
        let (agenda, search) = (&language.words().agenda, &language.words().search);
        for words in [
            agenda.drone_frame_in_where,
            search.drone_frame_in,
            search.drone_frame_in_place_of,
        ] {
            assert!(words.contains(beside), "{words}");
        }
    }
}

#[test]
fn the_weather_of_a_treatment_is_told_in_the_units_of_whoever_reads_it() {
    use super::{Saying, Speech};
    use crate::story::Units;
    let said = Saying::new(|words| words.moves.treated_in_heat)
        .celsius("now", 19.0)
        .celsius("high", 16.0);
    for language in Language::ALL {
        let told = |units| said.told(Speech { language, units });
        let (metric, us) = (told(Units::Metric), told(Units::Us));
        assert!(
            metric.contains("19 °C") && metric.contains("16 °C"),
            "{metric}"
        );
        assert!(us.contains("66 °F") && us.contains("61 °F"), "{us}");
    }
}
