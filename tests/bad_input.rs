//! Bad scenario files: each gets a message that says where, what, and what was expected; none a panic.

use combcast_core::Scenario;
use combcast_core::scenario::{LARGEST_FILE, locate, problems_in_file, problems_in_toml};
use rand::{Rng, RngExt, SeedableRng};
use rand_pcg::Pcg64;

use crate::scenario_files::shipped;

/// A sound scenario that the table below spoils.
const GOOD: &str = r#"name = "Hive 3"
until = 2012-08-31

[place]
name = "Alder Row"
latitude = 47.45

[weather]
record = "seattle"

[start]
date = 2012-04-30
package = { pounds = 3 }

[hive]
[[hive.box]]
frames = 10

[[feed]]
from = 2012-05-01
to = 2012-06-01
kind = "1:1"
litres = 2.0
every_days = 7

[[move]]
date = 2012-06-03
add_box = { frames = 10 }

[[bloom]]
plant = "clover"
days = 30
starts = { each_year = "06-01" }

[parameters]
"queen.best_rate" = 1400

[[expect]]
date = 2012-06-01
column = "adult_bees"
at_least = 1
because = "an example"
"#;

/// What is replaced, by what, the place of the error, and words of its message.
type Case = (
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
);

#[rustfmt::skip]
const CASES: &[Case] = &[
    // Form.
    ("[place]", "[place", "line 4, column 7", &["expected `]`"]),
    ("\"Hive 3\"", "\"Hive 3", "line 1, column 15", &["invalid"]),
    ("name = \"Hive 3\"", "name = \"Hive 3\"\nname = \"Hive 4\"", "line 2, column 1", &["given twice"]),
    ("latitude = 47.45", "latitude = 47.45\nlattitude = 47", "line 7, column 1: place.lattitude",
        &["no field \"lattitude\"", "did you mean latitude?", "name, latitude, elevation_m, forage"]),
    ("{ pounds = 3 }", "{ pouns = 3 }", "line 13, column 13: start.package.pouns",
        &["did you mean pounds?", "kilograms"]),
    ("latitude = 47.45", "", "line 4, column 1: place", &["latitude is missing"]),
    ("[weather]\nrecord = \"seattle\"", "", "line 1, column 1", &["weather is missing"]),
    ("pounds = 3", "pounds = \"three\"", "line 13, column 22: start.package.pounds",
        &["expected a number, got the text \"three\""]),
    ("frames = 10\n\n", "frames = -1\n\n", "hive.box[0].frames", &["a whole number, not negative", "got -1"]),
    ("frames = 10\n\n", "frames = 9.5\n\n", "hive.box[0].frames", &["a whole number", "got 9.5"]),
    ("frames = 10\n\n", "frames = 99999999999999999999999\n\n", "hive.box[0].frames", &["a whole number"]),
    ("add_box = { frames = 10 }", "take_drone_frame = true", "move[0].take_drone_frame", &["expected a table, got true", "write take_drone_frame = {}"]),
    ("add_box = { frames = 10 }", "take_frame = 3", "move[0].take_frame", &["expected a table, got 3", "write take_frame = {}, with its fields"]),
    ("[[feed]]", "[feed]", "feed", &["expected a list, got a table", "[[feed]]"]),
    ("[place]", "[[place]]", "place", &["expected one table, got a list", "[place]"]),
    ("[weather]", "[[weather]]", "line 8, column 1: weather", &["expected one table, got a list"]),
    ("[[feed]]", "[[feeds]]", "feeds", &["did you mean feed?"]),
    ("pounds = 3", "pounds = [3]", "start.package.pounds", &["expected a number, got a list"]),
    ("\"1:1\"", "\"1:3\"", "feed[0].kind", &["no choice \"1:3\"", "1:1, 2:1, patty"]),
    ("until = 2012-08-31", "until = 2012-08-31\nmode = \"randm\"", "mode", &["did you mean random?"]),
    ("until = 2012-08-31", "until = 2012-08-31\nseed = -1", "seed", &["whole number, not negative"]),
    ("until = 2012-08-31", "until = 2012-08-31\nseed = 4294967296", "seed", &["whole number"]),
    ("\"queen.best_rate\" = 1400", "queen.best_rate = 1400", "parameters.queen", &["in quotes"]),
    // Dates.
    ("until = 2012-08-31", "until = 2013-02-29", "line 2, column 9: until", &["2013 is not a leap year"]),
    ("until = 2012-08-31", "until = \"2013-02-29\"", "line 2, column 9: until", &["2013 is not a leap year"]),
    ("until = 2012-08-31", "until = 2012-06-31", "line 2, column 9: until", &["June has 30 days"]),
    ("until = 2012-08-31", "until = 2012-13-01", "line 2, column 9: until", &["month from 01 to 12"]),
    ("until = 2012-08-31", "until = \"31.8.2012\"", "until", &["such as 2026-04-30", "31.8.2012"]),
    ("until = 2012-08-31", "until = 2012-08-31T10:00:00", "until", &["such as 2026-04-30"]),
    ("until = 2012-08-31", "until = 20120831", "until", &["such as 2026-04-30"]),
    ("until = 2012-08-31", "until = 1066-08-31", "until", &["1800 to 2200"]),
    ("until = 2012-08-31", "until = 2012-04-29", "line 2, column 9: until",
        &["ends on 2012-04-29, before it starts on 2012-04-30"]),
    ("until = 2012-08-31", "until = 2032-05-01", "until", &["at most 20 years", "2032-04-30"]),
    ("from = 2012-05-01", "from = 2012-04-29", "line 20, column 8: feed[0].from", &["outside the season"]),
    ("to = 2012-06-01", "to = 2012-09-01", "feed[0].to", &["outside the season, 2012-04-30 to 2012-08-31"]),
    ("to = 2012-06-01", "to = 2012-04-30", "feed[0].to", &["before it starts"]),
    ("date = 2012-06-03", "date = 2013-06-03", "move[0].date", &["outside the season"]),
    ("date = 2012-06-01", "date = 2011-06-01", "expect[0].date", &["outside the season"]),
    ("\"06-01\"", "\"04-31\"", "bloom[0].starts.each_year", &["April has 30 days"]),
    ("\"06-01\"", "\"June 1\"", "bloom[0].starts.each_year", &["month-day"]),
    // Exactly one of several.
    ("package = { pounds = 3 }", "", "line 11, column 1: start",
        &["give one of package, swarm, nuc, established"]),
    ("package = { pounds = 3 }", "package = { pounds = 3 }\nswarm = { pounds = 3 }", "start",
        &["only one of", "package and swarm"]),
    ("pounds = 3", "", "start.package", &["give one of pounds, kilograms, bees"]),
    ("pounds = 3", "pounds = 3, bees = 10000", "start.package", &["only one of", "pounds and bees"]),
    ("litres = 2.0", "litres = 2.0\njars = 2", "feed[0]", &["only one of litres, jars, kilograms"]),
    ("litres = 2.0", "kilograms = 2.0", "feed[0].kilograms", &["syrup is given in litres or jars"]),
    ("\"1:1\"", "\"patty\"", "feed[0].litres", &["patty in kilograms"]),
    ("litres = 2.0", "", "feed[0].every_days", &["kept full"]),
    ("add_box = { frames = 10 }", "", "move[0]", &["give one of feed, stop_feeding, patty, add_box"]),
    ("add_box = { frames = 10 }", "add_box = { frames = 10 }\ntake_honey_leaving_kg = 3", "move[0]",
        &["only one of"]),
    ("each_year = \"06-01\"", "", "bloom[0].starts", &["give one of warmth_sum"]),
    ("each_year = \"06-01\"", "each_year = \"06-01\", warmth_sum = 500", "bloom[0].starts", &["only one of"]),
    // Numbers.
    ("pounds = 3", "bees = 0", "start.package.bees", &["expected 500 to 40,000 bees, got 0"]),
    ("pounds = 3", "pounds = nan", "start.package.pounds", &["expected 0.5 to 10 pounds, got NaN"]),
    ("pounds = 3", "pounds = -3", "start.package.pounds", &["got -3"]),
    ("pounds = 3", "pounds = inf", "start.package.pounds", &["got inf"]),
    ("frames = 10\n\n", "frames = 1000000\n\n", "line 17, column 10: hive.box[0].frames",
        &["expected 1 to 12 frames, got 1,000,000"]),
    ("{ frames = 10 }", "{ frames = 1000000 }", "move[0].add_box.frames", &["got 1,000,000"]),
    ("[[hive.box]]\nframes = 10", "box = []", "hive.box", &["expected 1 to 6 boxes, got 0"]),
    ("[[hive.box]]\nframes = 10", "box = [{}, {}, {}, {}, {}, {}]", "move[0].add_box",
        &["at most 6 boxes; 6 at the start and 1 added"]),
    ("frames = 10\n\n", "contents = [\"drawn\"]\n\n", "hive.box[0].contents",
        &["each of the 10 frames, got 1"]),
    ("latitude = 47.45", "latitude = 78.2", "line 6, column 12: place.latitude",
        &["expected -66 to 66 degrees"]),
    ("litres = 2.0", "litres = 200", "feed[0].litres", &["expected 0.1 to 50 litres"]),
    ("every_days = 7", "every_days = 0", "feed[0].every_days", &["expected 1 to 60 days"]),
    // A colony that does not fit its comb.
    ("package = { pounds = 3 }", "nuc = { frames_of_bees = 4, honey_kg = 2 }", "start.nuc",
        &["no frame of the hive is drawn"]),
    ("package = { pounds = 3 }\n\n[hive]\n[[hive.box]]", "established = { frames_of_bees = 9, frames_of_brood = 6, honey_kg = 20 }\n\n[hive]\n[[hive.box]]\ncomb = \"drawn\"", "start.established",
        &["brood (30,000 cells), honey (47,619) and pollen (2,500) need 80,119 cells", "has 70,000"]),
    // Names of the program.
    ("\"queen.best_rate\"", "\"queen.best_rat\"", "line 36, column 20: parameters.\"queen.best_rat\"",
        &["did you mean \"queen.best_rate\"?"]),
    ("= 1400", "= 1e9", "line 36, column 21: parameters.\"queen.best_rate\"", &["expected"]),
    ("\"adult_bees\"", "\"adult_bee\"", "expect[0].column", &["did you mean adult_bees?", "foragers"]),
    ("at_least = 1\n", "", "expect[0]", &["at_least, at_most or both"]),
    ("at_least = 1\n", "at_least = 2\nat_most = 1\n", "expect[0].at_most", &["below at_least"]),
    ("at_least = 1\n", "at_least = nan\n", "expect[0].at_least", &["finite"]),
    ("\"an example\"", "\"\"", "expect[0].because", &["the reason or the source"]),
    ("\"Hive 3\"", "\" \"", "line 1, column 8: name", &["expected a name"]),
];

#[test]
fn every_fault_is_placed_and_explained() {
    assert_eq!(problems_in_toml(GOOD), []);
    for (old, new, place, words) in CASES {
        assert!(GOOD.contains(old), "the sound scenario has no {old:?}");
        let text = GOOD.replacen(old, new, 1);
        let error = Scenario::from_toml(&text).expect_err(new);
        let shown = format!("{new:?} gives\n{error}\n");
        assert!(
            error.place == *place || error.place.ends_with(&format!(": {place}")),
            "{shown}expected the place {place}"
        );
        for word in *words {
            assert!(
                error.message.contains(word),
                "{shown}expected the words {word:?}"
            );
        }
        // Every error shows its line, with a caret below it.
        let excerpt = error
            .excerpt
            .as_deref()
            .unwrap_or_else(|| panic!("{shown}has no excerpt"));
        let mut lines = excerpt.lines();
        let (number, line) = lines
            .next()
            .and_then(|line| line.split_once(" | "))
            .expect("number and line");
        assert!(
            error.place.starts_with(&format!("line {number}, column ")),
            "{shown}"
        );
        assert_eq!(
            text.lines()
                .nth(number.parse::<usize>().expect("a number") - 1),
            Some(line)
        );
        assert!(
            lines.next().is_some_and(|carets| carets.ends_with('^')),
            "{shown}"
        );
    }
}

#[test]
fn json_is_placed_and_explained_too() {
    let good = Scenario::from_toml(GOOD).expect("it is sound");
    let good = serde_json::to_string_pretty(&good).expect("it can be written");
    assert_eq!(Scenario::from_json(&good), Scenario::from_toml(GOOD));
    for (old, new, place, words) in [
        (
            "\"pounds\"",
            "\"pouns\"",
            "start.package.pouns",
            "did you mean pounds?",
        ),
        (
            "\"pounds\": 3.0",
            "\"pounds\": \"three\"",
            "start.package.pounds",
            "expected a number",
        ),
        (
            "\"pounds\": 3.0",
            "\"pounds\": null",
            "start.package",
            "give one of",
        ),
        (
            "\"pounds\": 3.0",
            "\"pounds\": 30",
            "start.package.pounds",
            "expected 0.5 to 10 pounds, got 30",
        ),
        (
            "\"2012-08-31\"",
            "\"2013-02-29\"",
            "until",
            "not a leap year",
        ),
        ("\"until\"", "until", "", "key must be a string"),
    ] {
        let text = good.replacen(old, new, 1);
        let error = Scenario::from_json(&text).expect_err(new);
        assert!(
            error.place.ends_with(place),
            "{error}\nexpected the place {place}"
        );
        assert!(
            error.message.contains(words),
            "{error}\nexpected the words {words:?}"
        );
    }
}

#[test]
fn all_problems_are_found_at_once() {
    let text = GOOD
        .replace("latitude = 47.45", "latitude = 98")
        .replace("to = 2012-06-01", "to = 2014-06-01")
        .replace("pounds = 3", "bees = 0");
    let problems = problems_in_file(text.as_bytes(), "hive-3.toml");
    let places: Vec<_> = problems
        .iter()
        .map(|problem| problem.place.as_str())
        .collect();
    assert_eq!(
        places,
        [
            "hive-3.toml: line 6, column 12: place.latitude",
            "hive-3.toml: line 13, column 20: start.package.bees",
            "hive-3.toml: line 21, column 6: feed[0].to",
        ]
    );
}

#[test]
fn files_that_are_no_scenario() {
    let huge = vec![b'#'; LARGEST_FILE + 1];
    let cases: [(&[u8], &str); 8] = [
        (b"", "the file is empty"),
        (b" \n\t\n", "the file is empty"),
        (b"\xef\xbb\xbf", "the file is empty"),
        (b"name = \"H\xfctte\"", "is not UTF-8"),
        (b"\xff\xfen\0a\0m\0e\0", "UTF-16"),
        (b"\x89PNG\r\n\x1a\n", "is not UTF-8"),
        (b"Seattle,2012-01-01,0.0,12.8,5.0", "expected"),
        (&huge, "a scenario has at most"),
    ];
    for (bytes, words) in cases {
        let error = Scenario::from_bytes(bytes, "hive-3.toml").expect_err(words);
        assert!(error.place.starts_with("hive-3.toml"), "{error}");
        assert!(
            error.message.contains(words),
            "{error}\nexpected the words {words:?}"
        );
    }
    let marked = format!("\u{feff}{GOOD}");
    assert_eq!(
        Scenario::from_bytes(marked.as_bytes(), "hive-3.toml"),
        Scenario::from_toml(GOOD)
    );
}

#[test]
fn an_error_of_a_later_step_finds_its_line() {
    let error = combcast_core::Error::weather("weather.record", "no such record");
    let error = locate(error, GOOD);
    assert_eq!(error.place, "line 9, column 10: weather.record");
    assert_eq!(
        error.excerpt.as_deref(),
        Some("9 | record = \"seattle\"\n  |          ^^^^^^^^^")
    );
}

/// Hostile size: many faults, deep nesting and long lines take neither long nor much room.
#[test]
fn large_faults_stay_small() {
    let feeds = "[[feed]]\nfrom = 2030-01-01\nto = 2029-01-01\nkind = \"1:1\"\n".repeat(20_000);
    let problems = problems_in_toml(&format!("{GOOD}\n{feeds}"));
    assert!(
        problems.len() > 1000 && problems.len() < 10_000,
        "{}",
        problems.len()
    );
    assert!(
        problems[0].message.contains("at most 1,000 entries"),
        "{}",
        problems[0]
    );

    let nested = format!(
        "{}{}",
        "a = ".to_owned() + &"[".repeat(100_000),
        "]".repeat(100_000)
    );
    let error = Scenario::from_toml(&nested).expect_err("it is nested too deeply");
    assert!(error.to_string().len() < 1000);

    let long = GOOD.replace("\"Hive 3\"", &format!("3{}", "0".repeat(100_000)));
    let error = Scenario::from_toml(&long).expect_err("it is no name");
    assert!(error.to_string().len() < 1000);
}

/// Truncated and damaged files: an error or a sound scenario, never a panic.
#[test]
fn damaged_files_never_panic() {
    let mut random = Pcg64::seed_from_u64(20_120_430);
    let (mut refused, mut accepted) = (0, 0);
    let mut try_bytes = |bytes: &[u8]| match Scenario::from_bytes(bytes, "damaged.toml") {
        Ok(scenario) => {
            assert_eq!(scenario.problems(), []);
            accepted += 1;
        }
        Err(error) => {
            assert!(
                !error.message.is_empty() && error.place.starts_with("damaged.toml"),
                "{error}"
            );
            refused += 1;
        }
    };
    for (_, text) in shipped() {
        let bytes = text.as_bytes();
        for end in (0..bytes.len()).step_by(37) {
            try_bytes(&bytes[..end]);
        }
        for _ in 0..100 {
            let mut flipped = bytes.to_vec();
            for _ in 0..random.random_range(1..4) {
                let at = random.random_range(0..flipped.len());
                flipped[at] ^= 1 << random.random_range(0..8);
            }
            try_bytes(&flipped);
        }
        let lines: Vec<_> = text.lines().collect();
        for _ in 0..200 {
            let line = random.random_range(0..lines.len());
            let mut changed: Vec<_> = lines.iter().map(|line| (*line).to_owned()).collect();
            let Some((name, _)) = lines[line].split_once(" = ") else {
                continue;
            };
            changed[line] = format!("{name} = {}", odd_value(&mut random));
            try_bytes(changed.join("\n").as_bytes());
        }
    }
    assert!(
        refused > 1000 && accepted > 50,
        "{refused} refused, {accepted} accepted"
    );
}

fn odd_value(random: &mut impl Rng) -> &'static str {
    const VALUES: &[&str] = &[
        "0",
        "-1",
        "1e308",
        "-0.0",
        "nan",
        "inf",
        "-inf",
        "9223372036854775807",
        "18446744073709551616",
        "\"\"",
        "\"\\u0000\"",
        "\"🐝\"",
        "[]",
        "[[]]",
        "{}",
        "[{}]",
        "true",
        "2012-02-30",
        "0000-01-01",
        "9999-12-31",
        "2012-05-01",
        "10:00:00",
        "2012-05-01T00:00:00+23:59",
        "\"2012-05-01\"",
        "'",
        "\"\"\"",
        "{ a = { b = { c = 1 } } }",
        "[1, \"a\"]",
        "3",
        "10",
    ];
    VALUES[random.random_range(0..VALUES.len())]
}
