//! Queens and swarms: what is set going by hand runs on published dates, and everything adds up.

use std::path::Path;

use combcast_core::colony::Colony;
use combcast_core::day::{Diary, Fixed, Plan, step};
use combcast_core::draw::{Draw, Mean, Random};
use combcast_core::mites::Neighbours;
use combcast_core::observe::{DayRecord, record};
use combcast_core::queen::QueenState;
use combcast_core::season::{Prepared, prepare};
use combcast_core::succession::{
    cage_queen, force_swarm, give_queen_cell, release_queen, remove_queen, remove_queen_cells,
    requeen,
};
use combcast_core::weather::{BuiltIn, resolve};
use combcast_core::{Parameters, Scenario};

use crate::scenario_files::shipped;

/// A colony that came through the winter, on its recorded weather, ready to be stepped by hand.
struct Yard {
    prepared: Prepared,
    colony: Colony,
}

impl Yard {
    fn new() -> Self {
        let (_, text) = shipped()
            .into_iter()
            .find(|(file, _)| file == "overwintered.toml")
            .expect("a shipped scenario");
        let scenario = Scenario::from_toml(&text).expect("a sound scenario");
        let bytes = scenario.weather.record.as_deref().map(|record| {
            let built_in = BuiltIn::named(record).expect("a shipped record");
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("scenarios/weather");
            std::fs::read(folder.join(built_in.file)).expect("a shipped record")
        });
        let (weather, _) = resolve(&scenario, bytes.as_deref()).expect("weather");
        let prepared = prepare(&scenario, &weather).expect("a season");
        let colony = Colony::new(&scenario, &prepared.conditions[0], &prepared.parameters)
            .expect("a colony");
        Self { prepared, colony }
    }

    /// Runs to the end; `hands` may change the colony in the morning of each day.
    fn run<D: Draw>(
        mut self,
        draw: &mut D,
        mut hands: impl FnMut(usize, &mut Colony, &Parameters),
    ) -> Vec<DayRecord> {
        let p = &self.prepared.parameters;
        let fixed = Fixed::new(p, Neighbours::None);
        let plan = Plan::default();
        let mut diary = Diary::new(&self.colony);
        let mut days = Vec::new();
        for (day, conditions) in self.prepared.conditions.iter().enumerate() {
            hands(day, &mut self.colony, p);
            step(
                &mut self.colony,
                conditions,
                &plan,
                &fixed,
                draw,
                day as u32,
                &mut diary,
            )
            .unwrap_or_else(|error| panic!("day {day}: {error}"));
            days.push(record(day, &self.colony, conditions, &diary.outcome, p));
        }
        days
    }
}

/// The first day from `from` on with this state of the queen.
fn first(days: &[DayRecord], from: usize, state: QueenState) -> usize {
    (from..days.len())
        .find(|&day| days[day].queen == state)
        .unwrap_or_else(|| panic!("never {state:?}"))
}

/// A day late in spring, with brood of all ages and weather to mate.
const DAY: usize = 40;

#[test]
fn an_emergency_queen_comes_on_the_published_days() {
    let days = Yard::new().run(&mut Mean, |day, colony, _| {
        if day == DAY {
            remove_queen(colony).expect("a queen");
        }
    });
    assert_eq!(days[DAY].queen, QueenState::None);
    assert_eq!(days[DAY].charged_cells, 0.0);
    assert!(days[DAY + 2].charged_cells > 1.0, "cells within two days");
    let emerged = first(&days, DAY, QueenState::Virgin) - DAY;
    assert!((12..=15).contains(&emerged), "emerges on day {emerged}");
    let eggs = (DAY + 1..days.len())
        .find(|&day| days[day].eggs_laid >= 1.0)
        .expect("eggs again");
    assert!(
        (24..=30).contains(&(eggs - DAY)),
        "eggs on day {}",
        eggs - DAY
    );
    let workers = (eggs..days.len())
        .find(|&day| days[day].emerged >= 1.0)
        .expect("young workers again");
    assert!(
        (45..=51).contains(&(workers - DAY)),
        "workers on day {}",
        workers - DAY
    );
}

#[test]
fn a_swarm_takes_three_quarters_of_the_workers() {
    let days = Yard::new().run(&mut Mean, |day, colony, p| {
        if day == DAY {
            force_swarm(colony, &p.succession).expect("a laying queen");
        }
    });
    let left = days[DAY].adult_bees;
    let share = days[DAY].swarmed / (days[DAY].swarmed + left);
    assert!((share - 0.75).abs() < 1e-6, "{share}");
    assert_eq!(days[DAY].queen, QueenState::None);
    let lays = first(&days, DAY, QueenState::Laying);
    // The cells were nine days old.
    assert!(
        lays + 1 - DAY + 9 >= 28,
        "lays after {} days",
        lays + 1 - DAY + 9
    );
    assert!(days[lays + 5].eggs_laid > 100.0);
}

#[test]
fn without_young_larvae_workers_lay_in_the_end() {
    let days = Yard::new().run(&mut Mean, |day, colony, p| {
        if day == DAY {
            remove_queen(colony).expect("a queen");
        }
        if day > DAY {
            remove_queen_cells(colony, &p.succession);
        }
    });
    let lays = first(&days, DAY, QueenState::LayingWorkers) - DAY;
    // Open brood lasts nine days, then two to four weeks pass.
    assert!((9 + 14..=9 + 28).contains(&lays), "day {lays}");
    let later = days.last().expect("a last day");
    assert_eq!(later.eggs, 0.0, "no worker eggs");
    assert!(days[DAY + lays + 5].drone_eggs > 0.0);
}

#[test]
fn a_mean_colony_never_swarms_but_records_the_chance() {
    let days = Yard::new().run(&mut Mean, |_, _, _| {});
    assert!(days.iter().all(|day| day.swarmed == 0.0));
    assert!(
        days.windows(2)
            .all(|pair| pair[1].chance_of_swarm >= pair[0].chance_of_swarm)
    );
    let chance = days.last().expect("a last day").chance_of_swarm;
    assert!(chance > 0.0 && chance < 1.0, "{chance}");
}

#[test]
fn random_colonies_swarm_as_often_as_the_mean_says() {
    let chance = Yard::new()
        .run(&mut Mean, |_, _, _| {})
        .last()
        .expect("days")
        .chance_of_swarm;
    let members = 60;
    let mut prepared = 0.0;
    for member in 0..members {
        let days = Yard::new().run(&mut Random::new(5, member), |_, _, _| {});
        if days.iter().any(|day| day.charged_cells >= 6.0) {
            prepared += 1.0;
        }
        for day in &days {
            assert_eq!(day.swarmed.fract(), 0.0, "whole bees");
        }
    }
    let share = prepared / f64::from(members);
    let error = (chance * (1.0 - chance) / f64::from(members)).sqrt();
    assert!(
        (share - chance).abs() < 4.0 * error + 0.05,
        "{share} of them, expected {chance}"
    );
}

#[test]
fn hands_that_find_nothing_are_refused() {
    let mut yard = Yard::new();
    let p = yard.prepared.parameters.clone();
    let colony = &mut yard.colony;
    assert!(release_queen(colony).is_err());
    assert!(give_queen_cell(colony, &p.succession).is_err());
    assert!(requeen(colony, 0.1, 1.0, 3.0).is_err());
    cage_queen(colony, f64::INFINITY).expect("a laying queen");
    assert!(cage_queen(colony, 5.0).is_err());
    assert!(force_swarm(colony, &p.succession).is_err());
    remove_queen(colony).expect("a queen");
    assert!(remove_queen(colony).is_err());
    give_queen_cell(colony, &p.succession).expect("no queen");
    requeen(colony, 0.1, 1.0, 3.0).expect("no queen");
    assert_eq!(colony.queen.state, QueenState::Caged);
}
