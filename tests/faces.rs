//! The picture of the combs holds exactly what the model counts, and every cell keeps its place.

use std::path::Path;

use combcast_core::Scenario;
use combcast_core::brood::Brood;
use combcast_core::colony::Colony;
use combcast_core::faces::{Album, CONTENTS, Faces, HONEY};
use combcast_core::nest;
use combcast_core::season::{Prepared, prepare};
use combcast_core::weather::{BuiltIn, resolve};

use crate::scenario_files::shipped;

fn prepared(name: &str, scenario: &Scenario) -> Prepared {
    let record = scenario.weather.record.as_deref().map(|record| {
        let built_in = BuiltIn::named(record).expect("shipped scenarios use shipped records");
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/weather");
        std::fs::read(folder.join(built_in.file)).expect("shipped record")
    });
    let (weather, _) =
        resolve(scenario, record.as_deref()).unwrap_or_else(|error| panic!("{name}: {error}"));
    prepare(scenario, &weather).unwrap_or_else(|error| panic!("{name}: {error}"))
}

fn wet_spring() -> (Scenario, Prepared) {
    let text = include_str!("../scenarios/wet-spring.toml");
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let prepared = prepared("wet-spring.toml", &scenario);
    (scenario, prepared)
}

/// How many cells of all frames hold each content.
fn counted(faces: &Faces) -> Vec<usize> {
    let mut counts = vec![0; CONTENTS.len() + 1];
    for frame in 0..faces.frames().len() {
        for content in faces.contents(frame) {
            counts[usize::from(content)] += 1;
        }
    }
    counts
}

fn whole(cells: &[f64]) -> usize {
    cells.iter().map(|cells| cells.round() as usize).sum()
}

/// Eggs, larvae, capped cells of the model, age by age in whole cells.
fn stages(brood: &Brood) -> [usize; 3] {
    let (egg, open) = (brood.stages.egg, brood.stages.open());
    [
        whole(&brood.cells[..egg]),
        whole(&brood.cells[egg..open]),
        whole(&brood.cells[open..]),
    ]
}

fn drawn_as_counted(name: &str, day: usize, faces: &Faces, colony: &Colony, prepared: &Prepared) {
    let counts = counted(faces);
    let sum = |from: usize, to: usize| counts[from..=to].iter().sum::<usize>();
    let at = |what: &str| format!("{name}, day {}: {what}", day + 1);
    assert_eq!(faces.without_place, 0, "{}", at("cells without a place"));
    let workers = [counts[6], sum(7, 12), counts[13]];
    assert_eq!(
        workers,
        stages(&colony.worker_brood),
        "{}",
        at("worker brood")
    );
    let mut drones = [0; 3];
    for nest in &colony.drone_brood {
        for (sum, more) in drones.iter_mut().zip(stages(&nest.brood)) {
            *sum += more;
        }
    }
    assert_eq!(
        [counts[14], sum(15, 20), counts[21]],
        drones,
        "{}",
        at("drone brood")
    );
    let (p, stores) = (&prepared.parameters.stores, &colony.stores);
    let unripe = stores.unripe_in_cells_g(colony.stock.adults.adults(), p);
    let of = |grams: f64, a_cell: f64| whole(&[grams / a_cell]);
    assert_eq!(
        counts[22],
        of(stores.pollen_g, p.pollen_per_cell_g),
        "{}",
        at("pollen")
    );
    assert_eq!(
        counts[23],
        of(p.unripe_room * unripe, p.honey_per_cell_g),
        "{}",
        at("nectar")
    );
    assert_eq!(
        counts[usize::from(HONEY)],
        of(stores.honey_g, p.honey_per_cell_g),
        "{}",
        at("honey")
    );
    // Drawn comb: to a cell on each frame.
    let drawn: usize = counts[4..].iter().sum();
    let model: f64 = faces
        .frames()
        .iter()
        .zip(&colony.frames.frames)
        .map(|(lattice, frame)| (frame.drawn / frame.room * 2.0 * lattice.cells as f64).round())
        .sum();
    assert_eq!(drawn, model as usize, "{}", at("drawn comb"));
}

#[test]
fn the_combs_hold_what_the_model_counts() {
    // Foundation; drawn comb over two winters; luck; frames that come and go.
    const SEASONS: [&str; 5] = [
        "wet-spring.toml",
        "overwintered.toml",
        "random-luck.toml",
        "drone-frames-swapped.toml",
        "every-move.toml",
    ];
    let chosen = shipped()
        .into_iter()
        .filter(|(name, _)| SEASONS.contains(&name.as_str()));
    for (name, text) in chosen {
        let scenario = Scenario::from_toml(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        let prepared = prepared(&name, &scenario);
        let mut album =
            Album::new(&prepared, None).unwrap_or_else(|error| panic!("{name}: {error}"));
        for day in (0..prepared.conditions.len()).step_by(8) {
            let faces = album.on(day);
            drawn_as_counted(&name, day, &faces, &album.evenings()[day], &prepared);
        }
    }
}

#[test]
fn an_evening_looks_the_same_whichever_way_it_is_reached() {
    let (_, prepared) = wet_spring();
    let mut straight = Album::new(&prepared, None).expect("it runs");
    let mut about = Album::new(&prepared, None).expect("it runs");
    for day in [70, 12, 44, 43] {
        about.on(day);
    }
    let (one, other) = (straight.on(50), about.on(50));
    for frame in 0..one.frames().len() {
        assert_eq!(one.contents(frame), other.contents(frame), "frame {frame}");
    }
    assert_eq!(one.queen(), other.queen());
}

#[test]
fn a_cell_with_an_egg_is_capped_and_hatches_where_it_was_laid() {
    let (_, prepared) = wet_spring();
    let mut album = Album::new(&prepared, None).expect("it runs");
    let mut on = |day: usize| -> Vec<u8> {
        let faces = album.on(day);
        (0..faces.frames().len())
            .flat_map(|frame| faces.contents(frame))
            .collect()
    };
    let before = on(40);
    let laid: Vec<usize> = (0..before.len())
        .filter(|&cell| before[cell] == 6)
        .collect();
    assert!(laid.len() > 1000, "{} eggs", laid.len());
    let mut share = |day: usize, wanted: std::ops::RangeInclusive<u8>| {
        let then = on(day);
        laid.iter()
            .filter(|&&cell| wanted.contains(&then[cell]))
            .count() as f64
            / laid.len() as f64
    };
    // What is lost on the way is brood that the model lets die.
    assert!(share(46, 7..=12) > 0.8, "open larvae after six days");
    assert!(share(54, 13..=13) > 0.75, "capped after two weeks");
    // A few died young and were laid in again at once.
    assert!(share(62, 13..=13) < 0.02, "all are out after three weeks");
}

#[test]
fn brood_is_a_ball_and_honey_lies_outside() {
    let (_, prepared) = wet_spring();
    let faces = Album::new(&prepared, None).expect("it runs").on(60);
    // How far from the middle of the box frames with brood and with honey are, in the mean.
    let mean_place = |wanted: std::ops::RangeInclusive<u8>| {
        let (mut sum, mut count) = (0.0, 0.0);
        for (frame, lattice) in faces.frames().iter().enumerate() {
            let held = faces.contents(frame);
            let cells = held
                .iter()
                .filter(|content| wanted.contains(content))
                .count() as f64;
            sum += cells * (lattice.place() as f64 - 4.5).abs();
            count += cells;
        }
        assert!(count > 0.0);
        sum / count
    };
    assert!(mean_place(6..=13) < mean_place(HONEY..=HONEY));
}

#[test]
fn the_queen_stands_where_she_laid() {
    let (_, prepared) = wet_spring();
    let faces = Album::new(&prepared, None).expect("it runs").on(60);
    let (frame, cell) = faces.queen().expect("she is laying");
    assert_eq!(faces.contents(frame)[cell], 6);
}

/// Both lay out the same numbers by one rule; the picture remembers where things lay before.
#[test]
fn a_frame_that_is_taken_holds_what_the_picture_shows() {
    let (_, prepared) = wet_spring();
    let mut album = Album::new(&prepared, None).expect("a season");
    let p = &prepared.parameters;
    let mut stores_off = Vec::new();
    for day in (10..180).step_by(10) {
        let faces = album.on(day);
        let colony = &album.evenings()[day];
        let (stock, stores) = (&colony.stock, &colony.stores);
        let brood = stock.worker_brood() + stock.drone_brood_in_corners * p.comb.drone_cell_area;
        let pollen = stores.pollen_g / p.stores.pollen_per_cell_g;
        let sugar = stores.cells(stock.adults.adults(), &p.stores) - pollen;
        let held = nest::contents(&colony.frames, brood, pollen, sugar);
        let (mut brood_off, mut sugar_off) = (0.0, 0.0);
        for (frame, held) in held.iter().enumerate() {
            let codes = faces.contents(frame);
            let seen = |from: u8, to: u8| {
                let these = codes.iter().filter(|code| (from..=to).contains(code));
                these.count() as f64
            };
            brood_off += (seen(6, 21) - held.brood).abs();
            sugar_off += (seen(23, HONEY) - held.sugar).abs();
        }
        // What lies in another frame counts in both. A patch of brood in autumn may stay a frame aside of where the rule has it.
        let off = 0.5 * brood_off;
        assert!(
            off < (0.12 * brood).max(250.0),
            "day {day}: {off:.0} of {brood:.0} cells of brood lie elsewhere"
        );
        stores_off.push(0.5 * sugar_off / sugar);
    }
    let off = stores_off.iter().sum::<f64>() / stores_off.len() as f64;
    assert!(off < 0.2, "{stores_off:.3?}");
}
