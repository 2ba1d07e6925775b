//! Every move does what it says: each is made in a colony, and the same colony is looked at without it.

use std::cell::RefCell;

use combcast_core::queen::QueenState;
use combcast_core::scenario::{Comb, Move};
use combcast_core::weather::resolve;
use combcast_core::{Event, Scenario, Season, run};
use jiff::civil::date;

use crate::yard::{DAY, Yard};

/// A move and its twin.
struct Tried {
    step: &'static str,
    /// To the evening of the day.
    with: Season,
    without: Season,
    /// To 25 days later.
    later: Season,
    later_without: Season,
    report: Event,
    failures: RefCell<Vec<String>>,
}

impl Tried {
    fn new(before: &str, step: &'static str) -> Self {
        let yard = Yard::Strong;
        let with = yard.season(before, Some(step), 0);
        let report = with
            .events
            .iter()
            .rfind(|event| event.date == DAY && matches!(event.kind, "move" | "refused"))
            .unwrap_or_else(|| panic!("{step}: no report"))
            .clone();
        assert_eq!(report.kind, "move", "{step}: {}", report.text);
        Self {
            step,
            with,
            without: yard.season(before, None, 0),
            later: yard.season(before, Some(step), 25),
            later_without: yard.season(before, None, 25),
            report,
            failures: RefCell::default(),
        }
    }

    fn figure(&self, name: &str) -> f64 {
        *self
            .report
            .figures
            .get(name)
            .unwrap_or_else(|| panic!("{}: no figure {name}", self.step))
    }

    /// By how much a column differs on the evening of the day.
    fn change(&self, column: &str) -> f64 {
        let value = |season: &Season| {
            season.days[season.days.len() - 1]
                .value(column)
                .expect(column)
        };
        value(&self.with) - value(&self.without)
    }

    /// By how much the sum of a column differs over the 26 days.
    fn later(&self, column: &str) -> f64 {
        let sum = |season: &Season| -> f64 {
            let days = &season.days[season.days.len() - 26..];
            days.iter()
                .map(|day| day.value(column).expect(column))
                .sum()
        };
        sum(&self.later) - sum(&self.later_without)
    }

    #[track_caller]
    fn about(&self, value: f64, expected: f64, part: f64) {
        if (value - expected).abs() > part * expected.abs() + 1e-9 {
            self.fails(&format!("{value}, expected {expected}"));
        }
    }

    #[track_caller]
    fn holds(&self, fact: bool) {
        if !fact {
            self.fails("a fact does not hold");
        }
    }

    #[track_caller]
    fn fails(&self, why: &str) {
        let line = std::panic::Location::caller().line();
        let failure = format!("line {line}: {}: {why}; {}", self.step, self.report.text);
        self.failures.borrow_mut().push(failure);
    }

    fn mites(&self) -> f64 {
        self.change("mites_on_bees") + self.change("mites_in_cells")
    }
}

const DRONE_FRAME: &str = "05-18 give_frame = { comb = \"drawn-drone-frame\", at = { box = 1, place = 3 }, replace = true }";
const QUEENLESS: &str = "06-08 remove_queen = true";

type Check = fn(&Tried);

/// What was done before, a move, and what it must have done.
const EFFECTS: &[(&str, &str, Check)] = &[
    ("", "feed = { kind = \"1:1\", litres = 2 }", |t| {
        // Two litres of 1:1 hold 1.2 kg of sugar.
        t.about(t.later("syrup_kg"), 1.2, 0.1);
    }),
    (
        "06-09 feed = { kind = \"1:1\" }",
        "stop_feeding = true",
        |t| {
            t.holds(t.later("syrup_kg") < -1.0);
            t.about(t.with.days[t.with.days.len() - 1].syrup_kg, 0.0, 0.0);
        },
    ),
    ("", "patty = { kilograms = 0.5 }", |t| {
        // They eat of it what the day's pollen leaves wanting, in June next to nothing.
        t.holds((250.0..=500.0).contains(&t.with.colony.feeder.patty_g));
        t.holds(t.later.colony.feeder.patty_g <= t.with.colony.feeder.patty_g);
    }),
    ("", "add_box = { frames = 10, comb = \"drawn\" }", |t| {
        t.about(t.change("drawn_frames"), 10.0, 1e-9);
        t.about(t.with.colony.frames.boxes.len() as f64, 3.0, 0.0);
    }),
    ("", "remove_box = 2", |t| {
        t.about(t.change("drawn_frames"), -10.0, 1e-9);
        t.about(
            t.change("honey_kg") + t.change("unripe_kg"),
            -t.figure("honey_taken_kg"),
            0.1,
        );
        t.about(t.with.colony.frames.boxes.len() as f64, 1.0, 0.0);
    }),
    (MARKED, "reverse_boxes = true", |t| {
        t.about(t.place_of_drone_frame(), 2.03, 1e-9);
        t.about(t.change("drawn_cells"), 0.0, 0.0);
    }),
    (MARKED, "swap_boxes = { one = 2, other = 1 }", |t| {
        t.about(t.place_of_drone_frame(), 2.03, 1e-9)
    }),
    (
        "06-09 take_frame = { box = 2, place = 1 }",
        "give_frame = { comb = \"drawn\" }",
        |t| {
            t.about(t.change("drawn_frames"), 1.0, 1e-9);
        },
    ),
    (
        MARKED,
        "move_frame = { from = { box = 1, place = 3 }, to = { box = 1, place = 7 } }",
        |t| {
            t.about(t.place_of_drone_frame(), 1.07, 1e-9);
            t.about(t.change("drawn_frames"), 0.0, 0.0);
        },
    ),
    ("", "take_frame = { box = 1, place = 5 }", |t| {
        t.about(t.change("drawn_frames"), -1.0, 1e-9);
        t.holds(t.figure("worker_brood_taken") > 1000.0);
        t.about(t.mites(), -t.figure("mites_taken"), 0.1);
        t.about(t.with.colony.beekeeping.shed.len() as f64, 1.0, 0.0);
    }),
    (
        "06-09 take_frame = { box = 2, place = 1 }",
        "put_back_frame = {}",
        |t| {
            t.about(t.change("drawn_frames"), 1.0, 1e-9);
            t.about(t.with.colony.beekeeping.shed.len() as f64, 0.0, 0.0);
        },
    ),
    (DRONE_FRAME, "take_drone_frame = {}", |t| {
        t.holds(t.figure("drone_cells_capped") > 500.0 && t.figure("drones_emerged") == 0.0);
        t.about(t.mites(), -t.figure("mites_removed"), 0.1);
        t.about(
            t.change("drone_brood"),
            -t.figure("drone_cells_open") - t.figure("drone_cells_capped"),
            0.1,
        );
    }),
    (DRONE_FRAME, "freeze_drone_frame = { hours = 48 }", |t| {
        t.about(t.mites(), -t.figure("mites_removed"), 0.1);
        let back = t.later.events.iter().find(|event| {
            event
                .text
                .to_string()
                .starts_with("the frozen drone frame goes back")
        });
        t.holds(back.is_some_and(|event| event.date == "2013-06-12"));
    }),
    (DRONE_FRAME, "swap_drone_frames = {}", |t| {
        t.about(t.mites(), -t.figure("mites_removed"), 0.1);
        t.about(t.place_of_drone_frame(), 1.03, 1e-9);
        t.about(t.with.colony.beekeeping.shed.len() as f64, 1.0, 0.0);
    }),
    (
        "04-20 give_frame = { comb = \"foundationless\", at = { box = 1, place = 5 }, replace = true }",
        "cut_out_comb = {}",
        |t| {
            t.holds(t.figure("drone_cells_open") + t.figure("drone_cells_capped") > 100.0);
            t.about(t.mites(), -t.figure("mites_removed"), 0.15);
            // In a flow a strong colony has built it anew by nightfall, of honey.
            t.holds(t.change("drawn_frames") < -0.2 || t.change("wax_honey_kg") > 0.2);
            t.about(t.with.colony.frames.frames.len() as f64, 20.0, 0.0);
        },
    ),
    (
        "06-08 take_frame = { box = 2, place = 1 }; 06-08 take_frame = { box = 2, place = 10 }",
        "give_brood = { frames = 2 }",
        |t| {
            t.holds(t.figure("worker_brood_given") > 8000.0);
            t.about(t.change("frames_of_brood"), 2.0, 0.15);
            t.about(t.mites(), t.figure("mites_given"), 0.15);
        },
    ),
    (
        "",
        "take_brood = { frames = 2, with_bees = true, in_their_place = \"drawn\" }",
        |t| {
            t.about(t.change("adult_bees"), -t.figure("bees_taken"), 0.15);
            t.holds(t.figure("worker_brood_taken") > 5000.0);
            t.about(t.change("drawn_frames"), 0.0, 0.0);
            t.about(t.mites(), -t.figure("mites_taken"), 0.1);
        },
    ),
    ("", "give_bees = 2", |t| {
        t.about(t.figure("bees_given"), 4860.0, 0.01);
        t.about(t.change("adult_bees"), 4860.0, 0.05);
    }),
    ("", "take_bees = 2", |t| {
        t.about(t.figure("bees_taken"), 4860.0, 0.01);
        t.about(t.change("adult_bees"), -4860.0, 0.05);
        t.holds(t.figure("mites_taken") > 0.0);
    }),
    (
        "06-09 take_frame = { box = 2, place = 1 }",
        "give_stores = 1",
        |t| {
            t.about(t.change("honey_kg"), t.figure("honey_given_kg"), 0.05);
            t.holds(t.figure("honey_given_kg") > 2.0);
        },
    ),
    ("", "take_stores = 2", |t| {
        t.about(
            t.change("honey_kg") + t.change("unripe_kg"),
            -t.figure("honey_taken_kg"),
            0.1,
        );
        t.about(t.change("drawn_frames"), -2.0, 1e-9);
    }),
    ("", "take_honey_leaving_kg = 5", |t| {
        t.holds(t.with.days[t.with.days.len() - 1].honey_kg < 8.0);
        t.about(t.change("honey_kg"), -t.figure("honey_taken_kg"), 0.1);
    }),
    ("", "cage_queen = { days = 20 }", |t| {
        t.holds(t.with.colony.queen.state == QueenState::Caged);
        t.holds(t.later("eggs_laid") < -10_000.0);
        t.holds(t.later.colony.queen.state == QueenState::Laying);
    }),
    ("06-01 cage_queen = {}", "release_queen = true", |t| {
        t.holds(t.with.colony.queen.state == QueenState::Laying);
        t.holds(t.later("eggs_laid") > 10_000.0);
    }),
    ("", "remove_queen = true", |t| {
        t.holds(t.with.colony.queen.state == QueenState::None);
        t.holds(t.later("charged_cells") > 1.0);
    }),
    (QUEENLESS, "give_queen = { caged_days = 3 }", |t| {
        t.holds(t.with.colony.queen.state == QueenState::Caged);
        t.holds(t.later.colony.queen.state == QueenState::Laying);
        t.holds(t.later("eggs_laid") > 10_000.0);
    }),
    ("", "replace_queen = { caged_days = 3 }", |t| {
        t.holds(t.with.colony.queen.state == QueenState::Caged);
        t.holds(t.later.colony.queen.state == QueenState::Laying);
        t.holds(t.later.colony.queen.age_d < 30.0);
    }),
    (
        "06-01 remove_queen = true; 06-04 remove_queen_cells = true; 06-07 remove_queen_cells = true",
        "give_queen_cell = true",
        |t| t.holds(t.later.colony.queen.state == QueenState::Mated || t.later("eggs_laid") > 0.0),
    ),
    (
        "06-03 remove_queen = true",
        "remove_queen_cells = true",
        |t| {
            t.holds(t.figure("charged_queen_cells") + t.figure("capped_queen_cells") > 5.0);
            t.holds(t.change("charged_cells") + t.change("capped_queen_cells") < -5.0);
        },
    ),
    ("", "let_swarm = true", |t| {
        t.about(t.change("swarmed"), -t.change("adult_bees"), 0.05);
        t.holds(
            t.with.colony.queen.state == QueenState::None && t.change("capped_queen_cells") > 1.0,
        );
    }),
    (
        "",
        "split = { share = 0.5, queen = \"leaves\", in_their_place = \"foundation\" }",
        |t| {
            t.about(t.figure("frames_taken"), 10.0, 0.0);
            t.about(t.change("adult_bees"), -t.figure("bees_taken"), 0.05);
            t.about(t.mites(), -t.figure("mites_taken"), 0.1);
            t.holds(t.with.colony.queen.state == QueenState::None);
        },
    ),
    (
        "",
        "take_nuc = { frames_of_brood = 2, frames_of_stores = 1, further_bees = 1 }",
        |t| {
            t.about(t.figure("bees_taken"), 3.0 * 2430.0, 0.01);
            t.about(t.change("drawn_frames"), -3.0, 1e-9);
            t.about(t.mites(), -t.figure("mites_taken"), 0.1);
            t.holds(t.with.colony.queen.state == QueenState::Laying);
        },
    ),
    (
        "",
        "unite = { frames_of_bees = 4, frames_of_brood = 2, honey_kg = 4, box = { frames = 5, comb = \"drawn\" } }",
        |t| {
            t.about(t.change("adult_bees"), t.figure("bees_given"), 0.05);
            t.about(t.change("honey_kg"), 4.0, 0.1);
            t.about(t.change("drawn_frames"), 5.0, 1e-9);
            t.about(t.mites(), t.figure("mites_given"), 0.15);
        },
    ),
    ("", "shake_package = { pounds = 3 }", |t| {
        t.about(t.figure("bees_taken"), 9900.0, 1e-3);
        t.about(t.change("adult_bees"), -9900.0, 0.05);
    }),
    ("", "treat = { with = \"oxalic-dribble\" }", |t| {
        t.holds(t.report.text.to_string().contains("it is the law"));
        t.holds(t.change("mite_fall") > 0.0);
        t.about(t.mites(), -t.change("mite_fall"), 0.25);
    }),
    (
        "06-01 treat = { with = \"amitraz\" }",
        "end_treatment = true",
        |t| {
            t.about(t.with.colony.beekeeping.treatments.len() as f64, 0.0, 0.0);
            t.holds(t.later("mites_on_bees") > 0.0);
        },
    ),
    ("", "wrap_for_winter = true", |t| {
        t.holds(t.with.colony.beekeeping.wrapped)
    }),
    ("06-09 wrap_for_winter = true", "unwrap = true", |t| {
        t.holds(!t.with.colony.beekeeping.wrapped)
    }),
];

const MARKED: &str = "06-09 give_frame = { comb = \"drawn-drone-frame\", at = { box = 1, place = 3 }, replace = true }";

impl Tried {
    /// Box and place of the drone frame as 1.03 for box 1, place 3.
    fn place_of_drone_frame(&self) -> f64 {
        let frames = &self.with.colony.frames.frames;
        let marked = frames
            .iter()
            .find(|frame| matches!(frame.kind, Comb::DrawnDroneFrame | Comb::DroneFrame))
            .expect("a drone frame");
        (marked.in_box + 1) as f64 + (marked.position + 1) as f64 / 100.0
    }
}

#[test]
fn every_move_does_what_it_says() {
    let mut failures = Vec::new();
    for (before, step, check) in EFFECTS {
        let tried = Tried::new(before, step);
        check(&tried);
        failures.extend(tried.failures.into_inner());
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    for (name, _) in Move::default().choices() {
        assert!(
            EFFECTS
                .iter()
                .any(|(_, step, _)| step.starts_with(&format!("{name} = "))),
            "{name} is not tried"
        );
    }
}

/// A wrapped hive eats less through a cold winter.
#[test]
fn a_wrap_saves_honey() {
    let (_, text) = crate::scenario_files::shipped()
        .into_iter()
        .find(|(file, _)| file == "overwintered.toml")
        .expect("it ships");
    let eaten = |text: &str| -> f64 {
        let scenario = Scenario::from_toml(text).expect("it is sound");
        let record = crate::common::record(&scenario);
        let (weather, _) = resolve(&scenario, Some(record)).expect("weather");
        let season = run(&scenario, &weather).expect("it runs");
        let day = |date| combcast_core::calendar::days_between(season.first, date) as usize;
        season.days[day(date(2013, 11, 15))..day(date(2014, 2, 15))]
            .iter()
            .map(|day| day.honey_eaten_kg)
            .sum()
    };
    let wrapped = format!("{text}\n[[move]]\ndate = 2013-11-01\nwrap_for_winter = true\n");
    let (bare, wrapped) = (eaten(&text), eaten(&wrapped));
    assert!(wrapped < 0.98 * bare, "wrapped {wrapped}, bare {bare}");
}
