//! What the documents say is what the code does.

use std::collections::BTreeSet;
use std::fs;

use combcast_core::Parameters;
use combcast_core::day::PHASES;

use super::common::{output, repository};

/// The documents that are held to it.
const DOCUMENTS: [&str; 3] = ["README.md", "DEVELOPERS.md", "CHANGELOG.md"];

fn read(path: &str) -> String {
    fs::read_to_string(repository().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// Words set as code, in the text and in blocks; comments at the ends of commands left out.
fn code(document: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut in_block = false;
    for line in read(document).lines() {
        if line.starts_with("```") {
            in_block = !in_block;
        } else if in_block {
            found.push(line.split(" #").next().unwrap_or(line).trim().to_owned());
        } else {
            found.extend(line.split('`').skip(1).step_by(2).map(str::to_owned));
        }
    }
    found
}

/// Words after `prefix` in the documents' code, each with the document that has it.
fn words_after(prefix: &str) -> Vec<(&'static str, String)> {
    let mut found = Vec::new();
    for document in DOCUMENTS {
        for code in code(document) {
            if let Some(rest) = code.strip_prefix(prefix)
                && let Some(word) = rest.split_whitespace().next()
            {
                found.push((document, word.to_owned()));
            }
        }
    }
    found
}

#[test]
fn the_readme_shows_the_phases_of_the_day() {
    let readme = read("README.md");
    let (_, table) = readme
        .split_once("| phase | what happens |\n|---|---|\n")
        .expect("the table has its heading");
    let shown: Vec<&str> = table
        .lines()
        .take_while(|line| line.starts_with('|'))
        .collect();
    let phases: Vec<String> = PHASES
        .iter()
        .map(|(name, what)| format!("| {name} | {what} |"))
        .collect();
    assert_eq!(shown, phases);
}

#[test]
fn every_path_that_is_named_exists() {
    let mut paths = 0;
    for document in DOCUMENTS {
        let links = read(document);
        let links = links
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next());
        let links = links
            .filter(|link| !link.starts_with("https://"))
            .map(str::to_owned);
        for code in code(document).into_iter().chain(links) {
            for word in code.split_whitespace().filter(|word| is_path(word)) {
                assert!(
                    repository().join(word).exists(),
                    "{document}: there is no {word}"
                );
                paths += 1;
            }
        }
    }
    assert!(
        paths > 30,
        "only {paths} paths were found: this test no longer sees them"
    );
}

/// Whether a word of code is meant as a path of the repository.
fn is_path(word: &str) -> bool {
    let plain = word
        .chars()
        .all(|letter| letter.is_ascii_alphanumeric() || "/._-".contains(letter));
    let ending = [".rs", ".toml", ".md", ".json", ".csv"]
        .iter()
        .any(|ending| word.ends_with(ending));
    plain && !word.starts_with('-') && (word.contains('/') || ending)
}

#[test]
fn every_file_of_the_model_is_on_the_map() {
    let map = read("DEVELOPERS.md");
    for entry in fs::read_dir(repository().join("sim-core/src")).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let topic = name.strip_suffix(".rs").unwrap_or(&name);
        let (file, folder) = (
            format!("| `sim-core/src/{topic}.rs` |"),
            format!("| `sim-core/src/{topic}/mod.rs` |"),
        );
        assert!(
            map.contains(&file) || map.contains(&folder),
            "DEVELOPERS.md: the map does not show sim-core/src/{name}"
        );
    }
}

#[test]
fn every_chore_that_is_named_exists_and_the_other_way_round() {
    let source = read("xtask/src/main.rs");
    let (_, usage) = source
        .split_once("usage: cargo xtask CHORE\n")
        .expect("the usage has its heading");
    let (usage, _) = usage.split_once("\";").expect("the usage ends");
    let chores: BTreeSet<&str> = usage
        .lines()
        .filter_map(|line| line.strip_prefix("  ")?.split_whitespace().next())
        .collect();
    assert!(
        chores.contains("test"),
        "the usage was not understood: {chores:?}"
    );
    let named = words_after("cargo xtask");
    for (document, chore) in &named {
        assert!(
            chores.contains(chore.as_str()),
            "{document}: there is no `cargo xtask {chore}`"
        );
    }
    for chore in chores {
        assert!(
            named.iter().any(|(_, name)| name == chore),
            "no document names `cargo xtask {chore}`"
        );
        assert!(
            source.contains(&format!("\"{chore}\" =>")),
            "`cargo xtask {chore}` does nothing"
        );
    }
}

#[test]
fn every_subcommand_that_is_named_exists() {
    let mut named = words_after("combcast ");
    named.extend(words_after("cargo run --release -- "));
    assert!(!named.is_empty());
    for (document, subcommand) in named {
        let help = output(&[&subcommand, "--help"]);
        assert!(
            help.status.success(),
            "{document}: there is no `combcast {subcommand}`"
        );
    }
}

#[test]
fn every_parameter_says_what_it_is_and_where_it_comes_from() {
    let map = read("DEVELOPERS.md");
    for (section, rows) in Parameters::INFO {
        let file = format!("| `sim-core/src/{section}.rs` |");
        assert!(
            map.contains(&file),
            "DEVELOPERS.md: the map does not show the section {section}"
        );
        assert!(!rows.is_empty(), "{section} has no parameter");
        for row in *rows {
            let name = format!("{section}.{}", row.name);
            assert!(
                !row.doc.trim().is_empty(),
                "{name} does not say what it means"
            );
            assert!(!row.unit.trim().is_empty(), "{name} has no unit");
            assert!(!row.source.trim().is_empty(), "{name} has no source");
            assert!(
                row.min < row.max && (row.min..=row.max).contains(&row.default),
                "{name}: {} is not within {} to {}",
                row.default,
                row.min,
                row.max
            );
        }
    }
}

#[test]
fn the_version_to_cite_is_the_programs() {
    assert!(read("README.md").contains(&format!("Version {}, ", env!("CARGO_PKG_VERSION"))));
}
