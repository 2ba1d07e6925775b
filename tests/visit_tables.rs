//! Tables of visits: what `combcast verdict --help` says of them is what is read, and one bad hive does not hide the others.

use std::fs;

use combcast_core::visits::{COLUMNS, books_from_bytes};

use super::cli::{good, output};

const PLAN: &str = "scenarios/wet-spring.toml";

#[test]
fn the_help_lists_every_column() {
    let help = good(&["verdict", "--help"]);
    for column in COLUMNS {
        let line = help
            .lines()
            .find(|line| line.starts_with(&format!("  {:<16} ", column.name)));
        let line = line.unwrap_or_else(|| panic!("{} is not in {help}", column.name));
        assert!(
            line.contains(column.example) && line.contains(column.what),
            "{line}"
        );
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn the_shipped_table_is_read() {
    let text = fs::read("scenarios/visits/class.csv").expect("a shipped table");
    let books = books_from_bytes(&text, "class.csv").unwrap();
    let hives: Vec<(&str, usize)> = books
        .iter()
        .map(|book| (book.hive.as_str(), book.visits.len()))
        .collect();
    assert_eq!(hives, [("Alder Row 3", 3), ("Alder Row 4", 3)]);
    let readme = fs::read_to_string("README.md").expect("README");
    assert!(readme.contains("scenarios/visits/class.csv"));
}

#[test]
fn one_bad_hive_is_told_and_the_others_are_judged() {
    let path = std::env::temp_dir().join(format!("combcast-{}-class.csv", std::process::id()));
    let text = "Hive;Date;Frames of bees;Eggs seen;Scenario\n\
                Alder Row 1;21.5.2012;3,25;yes;\n\
                Alder Row 2;21.5.2012;3,25;perhaps;\n\
                Alder Row 3;21.5.2012;3,5;yes;\n\
                Alder Row 4;21.5.2012;3,5;yes;no-such-plan.toml\n";
    fs::write(&path, text).expect("a temporary file can be written");
    let file = path.to_str().expect("a plain path");
    for command in ["verdict", "next"] {
        let output = output(&[command, PLAN, file, "--members", "50", "--rounds", "0"]);
        let told = String::from_utf8_lossy(&output.stdout);
        let faults = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{command}: {faults}");
        assert!(
            told.contains("Alder Row 1") && told.contains("Alder Row 3"),
            "{command}: {told}"
        );
        assert!(!told.contains("Alder Row 2"), "{command}: {told}");
        assert!(faults.contains("line 3: eggs_seen"), "{command}: {faults}");
        assert!(
            faults.contains("hive Alder Row 4") && faults.contains("no-such-plan.toml"),
            "{command}: {faults}"
        );
    }
    let _ = fs::remove_file(&path);
}
