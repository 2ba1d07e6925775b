//! Every move is refused when it cannot be made, says why, and then changes nothing; MOVES.md lists the
//! moves, what each does, and every refusal in the program's own words.

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;

use combcast_core::scenario::{Move, scenario_schema};

use crate::yard::{DAY, Yard};

/// What has been done before, and a move that cannot be made then.
const REFUSALS: &[(Yard, &str, &str)] = &[
    (Yard::Dead, "", "feed = { kind = \"1:1\", litres = 2 }"),
    (Yard::Strong, "", "stop_feeding = true"),
    (Yard::Dead, "", "patty = { kilograms = 0.5 }"),
    (
        Yard::Strong,
        UNITED,
        "add_box = { frames = 10, comb = \"drawn\" }",
    ),
    (Yard::Strong, "", "remove_box = 3"),
    (Yard::Strong, "04-20 remove_box = 2", "remove_box = 1"),
    (Yard::Strong, "04-20 remove_box = 2", "reverse_boxes = true"),
    (Yard::Strong, "", "swap_boxes = { one = 1, other = 3 }"),
    (
        Yard::Strong,
        "",
        "give_frame = { comb = \"drawn\", at = { box = 1, place = 3 } }",
    ),
    (
        Yard::Strong,
        "",
        "give_frame = { comb = \"drawn\", at = { box = 1, place = 11 } }",
    ),
    (
        Yard::Strong,
        "",
        "give_frame = { comb = \"drawn\", at = { box = 4, place = 1 } }",
    ),
    (
        Yard::Strong,
        "04-20 remove_box = 2",
        "give_frame = { comb = \"foundation\" }",
    ),
    (
        Yard::Strong,
        "06-08 take_frame = { box = 1, place = 1 }",
        "move_frame = { from = { box = 1, place = 1 }, to = { box = 1, place = 4 } }",
    ),
    (
        Yard::Strong,
        "04-20 add_box = { size = \"medium\", frames = 10, comb = \"drawn\" }",
        "move_frame = { from = { box = 1, place = 1 }, to = { box = 3, place = 4 } }",
    ),
    (
        Yard::Strong,
        "06-08 take_frame = { box = 1, place = 1 }",
        "take_frame = { box = 1, place = 1 }",
    ),
    (Yard::Nuc, "", "take_frame = { box = 1, place = 1 }"),
    (Yard::Strong, "", "put_back_frame = {}"),
    (
        Yard::Strong,
        "06-08 take_frame = { box = 1, place = 1 }; 06-09 give_frame = { comb = \"drawn\", at = { box = 1, place = 1 } }",
        "put_back_frame = {}",
    ),
    (
        Yard::Strong,
        "04-20 add_box = { size = \"medium\", frames = 5, comb = \"drawn\" }; 06-08 take_frame = { box = 1, place = 1 }; \
         06-09 take_frame = { box = 3, place = 1 }; 06-09 give_frame = { comb = \"drawn\", at = { box = 3, place = 1 } }",
        "put_back_frame = { at = { box = 1, place = 1 } }",
    ),
    (Yard::Strong, "", "take_drone_frame = {}"),
    (
        Yard::Strong,
        "",
        "take_drone_frame = { at = { box = 1, place = 3 } }",
    ),
    (Yard::Strong, "", "freeze_drone_frame = {}"),
    (Yard::Strong, "", "swap_drone_frames = {}"),
    (Yard::Strong, "", "cut_out_comb = {}"),
    (
        Yard::Strong,
        "06-10 add_box = { frames = 10, comb = \"foundationless\" }",
        "cut_out_comb = {}",
    ),
    (
        Yard::Strong,
        "04-20 remove_box = 2",
        "give_brood = { frames = 2 }",
    ),
    (Yard::Nuc, "", "take_brood = { frames = 4 }"),
    (
        Yard::Few,
        "",
        "take_brood = { frames = 1, with_bees = true }",
    ),
    (Yard::Dead, "", "give_bees = 2"),
    (Yard::Few, "", "take_bees = 5"),
    (Yard::Few, "", "take_bees = 0.35"),
    (Yard::Strong, "04-20 remove_box = 2", "give_stores = 3"),
    (Yard::Nuc, "", "take_stores = 5"),
    (Yard::Strong, "", "take_honey_leaving_kg = 90"),
    (
        Yard::Strong,
        "06-08 cage_queen = {}",
        "cage_queen = { days = 10 }",
    ),
    (Yard::Strong, "06-08 remove_queen = true", "cage_queen = {}"),
    (Yard::Strong, "", "release_queen = true"),
    (
        Yard::Strong,
        "06-08 remove_queen = true",
        "remove_queen = true",
    ),
    (Yard::Strong, "", "give_queen = {}"),
    (Yard::LayingWorkers, "", "give_queen = {}"),
    (Yard::Strong, "05-25 remove_queen = true", "give_queen = {}"),
    (
        Yard::Strong,
        "06-08 remove_queen = true",
        "replace_queen = {}",
    ),
    (Yard::Strong, "", "give_queen_cell = true"),
    (Yard::LayingWorkers, "", "give_queen_cell = true"),
    (Yard::Few, "", "remove_queen_cells = true"),
    (Yard::Strong, "06-08 cage_queen = {}", "let_swarm = true"),
    (
        Yard::Strong,
        "06-08 remove_queen = true",
        "split = { share = 0.5, queen = \"leaves\" }",
    ),
    (Yard::Few, "", "split = { share = 0.9 }"),
    (Yard::Foundation, "", "split = { share = 0.5 }"),
    (
        Yard::Strong,
        "06-08 remove_queen = true",
        "take_nuc = { frames_of_brood = 2, queen = \"leaves\" }",
    ),
    (Yard::Nuc, "", "take_nuc = { frames_of_brood = 4 }"),
    (
        Yard::Nuc,
        "",
        "take_nuc = { frames_of_brood = 1, frames_of_stores = 2 }",
    ),
    (
        Yard::Few,
        "",
        "take_nuc = { frames_of_brood = 1, further_bees = 4 }",
    ),
    (
        Yard::Strong,
        "",
        "unite = { frames_of_bees = 4, box = { frames = 5, comb = \"drawn\" }, queen = {} }",
    ),
    (
        Yard::LayingWorkers,
        "",
        "unite = { frames_of_bees = 4, box = { frames = 5, comb = \"drawn\" }, queen = {} }",
    ),
    (
        Yard::Strong,
        "",
        "unite = { frames_of_bees = 4, frames_of_brood = 2, box = { frames = 5, comb = \"foundation\" } }",
    ),
    (
        Yard::Strong,
        UNITED,
        "unite = { frames_of_bees = 4, box = { frames = 5, comb = \"drawn\" } }",
    ),
    (Yard::Few, "", "shake_package = { pounds = 3 }"),
    (
        Yard::Strong,
        "04-20 add_box = { frames = 10, comb = \"drawn\", honey_super = true }",
        "treat = { with = \"thymol\" }",
    ),
    (
        Yard::Strong,
        "06-15 take_honey_leaving_kg = 5",
        "treat = { with = \"thymol\" }",
    ),
    (
        Yard::Strong,
        "06-01 treat = { with = \"amitraz\" }",
        "treat = { with = \"amitraz\" }",
    ),
    (Yard::Strong, "", "end_treatment = true"),
    (
        Yard::Strong,
        "04-16 wrap_for_winter = true",
        "wrap_for_winter = true",
    ),
    (Yard::Strong, "", "unwrap = true"),
];

/// Colonies put on top until there is no room for another box.
const UNITED: &str = "04-16 unite = { frames_of_bees = 1, box = { frames = 5, comb = \"foundation\" } }; \
                      04-17 unite = { frames_of_bees = 1, box = { frames = 5, comb = \"foundation\" } }; \
                      04-18 unite = { frames_of_bees = 1, box = { frames = 5, comb = \"foundation\" } }; \
                      04-19 unite = { frames_of_bees = 1, box = { frames = 5, comb = \"foundation\" } }";

fn action(step: &str) -> &str {
    step.split(" =").next().unwrap_or_default()
}

/// The words of a refusal, after checking that nothing else has changed.
fn refusal(yard: Yard, before: &str, step: &str) -> Result<String, String> {
    let with = yard.season(before, Some(step), 5);
    let without = yard.season(before, None, 5);
    let today = with
        .events
        .iter()
        .rfind(|event| event.date == DAY && matches!(event.kind, "move" | "refused"))
        .ok_or_else(|| format!("{yard:?}: {step}: nothing happened"))?;
    if today.kind != "refused" {
        return Err(format!("{yard:?}: {step} is not refused: {}", today.text));
    }
    if with.days != without.days || with.colony.frames != without.colony.frames {
        return Err(format!("{yard:?}: {step} is refused and changes something"));
    }
    Ok(today.text.to_string())
}

#[test]
fn every_refusal_says_why_and_changes_nothing_and_is_documented() {
    let mut refusals: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    let mut problems = Vec::new();
    for &(yard, before, step) in REFUSALS {
        match refusal(yard, before, step) {
            Ok(text) => refusals.entry(action(step)).or_default().push(text),
            Err(problem) => problems.push(problem),
        }
    }
    assert!(problems.is_empty(), "{}", problems.join("\n"));
    let schema = scenario_schema();
    let properties = &schema["$defs"]["Move"]["properties"];
    let mut table = String::new();
    for (name, _) in Move::default().choices() {
        let what = properties[name]["description"]
            .as_str()
            .unwrap_or_else(|| panic!("{name} is not described"));
        let said = refusals
            .get(name)
            .unwrap_or_else(|| panic!("{name} is never refused"));
        table += &format!("| `{name}` | {what} | {} |\n", said.join("<br>"));
    }
    let current = format!("{HEADING}{table}");
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("MOVES.md");
    if std::env::var_os("COMBCAST_BLESS").is_some() {
        fs::write(&path, &current).expect("the folder can be written to");
    }
    assert!(
        fs::read_to_string(&path).unwrap_or_default() == current,
        "MOVES.md is out of date: run the tests once with COMBCAST_BLESS=1"
    );
}

const HEADING: &str = "\
# Moves

What a beekeeper can do in a season, as `[[move]]` of a scenario file: on a `date`, or on the first day on which all of `when` is so, and again
`every_days` until `until`. Fields, units and ranges are in `scenarios/scenario.schema.json`; `scenarios/every-move.toml` shows moves at work.

An action with fields is a table of them, an empty one where none is given: `take_frame = { box = 1, place = 2 }`,
`take_drone_frame = {}`.

A move is done in full or refused. A refused move says why, as an event of its day, and changes nothing; the rest of the plan goes on.
The last column gives refusals in the program's words, with the figures of an example. Besides these, nothing that needs bees can be
done once \"the colony is dead\".

`tests/refusals.rs` writes this page and holds it to the program.

| move | what it does | refused, for example |
|---|---|---|
";
