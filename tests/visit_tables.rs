//! Tables of visits: what `combcast verdict --help` says of them is what is read, and one bad hive does not hide the others.

use std::fs;

use combcast_core::visits::{COLUMNS, books_from_bytes};

use super::common::{good, output, output_of};

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

#[test]
fn no_row_of_a_table_vanishes() {
    let judged = |rows: &str| {
        let text = format!("hive,date,frames_of_bees,notes\n{rows}");
        let call = ["verdict", PLAN, "-", "--members", "50", "--rounds", "0"];
        let output = output_of(&call, text.as_bytes());
        let told = [output.stdout, output.stderr];
        let told = told.map(|bytes| String::from_utf8(bytes).expect("text"));
        (output.status.code(), told)
    };
    let (code, [told, errors]) =
        judged("#1,2012-05-21,3.25,\n#10,2012-05-21,3.5,\n#2,2012-05-21,3,\n");
    assert_eq!(code, Some(0), "{errors}");
    let place = |hive: &str| told.find(&format!("{hive} ")).expect(hive);
    assert!(
        place("#1") < place("#2") && place("#2") < place("#10"),
        "{told}"
    );
    let (code, [_, errors]) = judged("A,2012-05-21,3.25,\"calm\nB,2012-05-21,3.5,windy\n");
    assert_eq!(code, Some(2));
    assert!(
        errors.contains("standard input: line 2: a quote"),
        "{errors}"
    );
    // What cannot be has the place of what cannot be read.
    let (code, [_, errors]) = judged("A,2012-05-21,45,\n");
    assert_eq!(code, Some(2));
    let place = "line 2, frames_of_bees: expected 0 to 20 frames in a box, got 45";
    assert!(errors.contains(place), "{errors}");
    let (_, [_, errors]) = judged("A,2012-05-21,NaN,\n");
    assert!(
        errors.contains("line 2: frames_of_bees: expected frames"),
        "{errors}"
    );
}
