//! Ten thousand seasons that nobody would think of: each runs, and every bee, cell and gram is
//! accounted for on every day.
//!
//! The model checks its own sums (and returns an error where one fails); these tests check the
//! record that it hands out.

use combcast_core::calendar::{CalendarDate, plus_days};
use combcast_core::mites::Neighbours;
use combcast_core::observe::{COLUMNS, DayRecord};
use combcast_core::scenario::moves::{
    At, BeesTaken, BoxPair, BroodFrames, Cage, Freeze, FromTo, NewFrame, NewQueen, NucTaken, Patty,
    QueenGoes, Split, Syrup, Treat, Unite, When, Which,
};
use combcast_core::scenario::{
    Action, Bloom, BloomStart, BoxSize, Comb, Established, Feed, FeedKind, ForageType, Hive,
    HiveBox, Mode, Move, Package, Place, Queen, Scenario, Start, Swarm, WeatherSource,
};
use combcast_core::treatments::TREATMENTS;
use combcast_core::weather::{Origin, Weather, WeatherDay};
use combcast_core::{Event, Parameters, run};
use rand::{RngExt, SeedableRng};
use rand_pcg::Pcg64;

const SCENARIOS: u64 = 10_000;

/// Draws the parts of a scenario, over the whole range that each may have.
struct Dice(Pcg64);

impl Dice {
    fn whole(&mut self, low: usize, high: usize) -> usize {
        self.0.random_range(low..=high)
    }

    fn real(&mut self, low: f64, high: f64) -> f64 {
        // A tenth of all numbers sit on an end of their range.
        match self.whole(0, 19) {
            0 => low,
            1 => high,
            _ => self.0.random_range(low..=high),
        }
    }

    fn chance(&mut self, percent: usize) -> bool {
        self.whole(1, 100) <= percent
    }

    fn one<T: Copy>(&mut self, choices: &[T]) -> T {
        choices[self.whole(0, choices.len() - 1)]
    }

    fn maybe(&mut self, percent: usize, low: f64, high: f64) -> Option<f64> {
        self.chance(percent).then(|| self.real(low, high))
    }

    fn hive_box(&mut self) -> HiveBox {
        const COMBS: [Comb; 6] = [
            Comb::Foundation,
            Comb::BareFoundation,
            Comb::Drawn,
            Comb::Foundationless,
            Comb::DroneFrame,
            Comb::DrawnDroneFrame,
        ];
        let frames = self.whole(1, 12);
        HiveBox {
            honey_super: self.chance(20),
            size: self.one(&[BoxSize::Deep, BoxSize::Medium]),
            frames,
            comb: self.one(&COMBS),
            contents: if self.chance(30) {
                (0..frames).map(|_| self.one(&COMBS)).collect()
            } else {
                Vec::new()
            },
        }
    }

    fn at(&mut self) -> At {
        At {
            in_box: self.whole(1, 3) as u8,
            place: self.whole(1, 12) as u8,
        }
    }

    fn which(&mut self) -> Which {
        Which {
            at: self.chance(30).then(|| self.at()),
        }
    }

    fn in_their_place(&mut self) -> Option<Comb> {
        let combs = [Comb::Foundation, Comb::Drawn, Comb::DroneFrame];
        self.chance(50).then(|| self.one(&combs))
    }

    fn brood_frames(&mut self) -> BroodFrames {
        BroodFrames {
            frames: self.whole(1, 8) as u8,
            with_bees: self.chance(50),
            in_their_place: self.in_their_place(),
        }
    }

    fn new_queen(&mut self) -> NewQueen {
        NewQueen {
            age_years: self.real(0.0, 5.0),
            laying_power: self.real(0.0, 1.5),
            caged_days: self.real(0.0, 10.0),
        }
    }

    fn when(&mut self) -> When {
        When {
            frames_drawn_at_least: Some(self.real(0.0, 12.0)),
            bees_at_least: self.maybe(20, 0.0, 20_000.0),
            brood_frames_at_most: self.maybe(20, 0.0, 5.0),
            honey_kg_at_least: self.maybe(20, 0.0, 5.0),
            ..When::default()
        }
    }

    /// Any of the actions that a beekeeper can plan.
    fn action(&mut self) -> Action {
        let goes = [QueenGoes::Stays, QueenGoes::Leaves];
        match self.whole(0, 38) {
            0 => Action::Feed(Syrup {
                kind: FeedKind::TwoToOne,
                litres: self.maybe(50, 0.1, 50.0),
                jars: None,
                feeders: self.whole(1, 8) as u8,
            }),
            1 => Action::StopFeeding(true),
            2 => Action::Patty(Patty {
                kilograms: self.real(0.05, 5.0),
            }),
            3 => Action::AddBox(self.hive_box()),
            4 => Action::RemoveBox(self.whole(1, 6) as u8),
            5 => Action::ReverseBoxes(true),
            6 => Action::SwapBoxes(BoxPair { one: 1, other: 3 }),
            7 | 8 => Action::GiveFrame(NewFrame {
                comb: self.hive_box().comb,
                at: self.chance(60).then(|| self.at()),
                replace: self.chance(50),
            }),
            9 => Action::MoveFrame(FromTo {
                from: self.at(),
                to: self.at(),
            }),
            10 => Action::TakeFrame(self.at()),
            11 => Action::PutBackFrame(self.which()),
            12 => Action::TakeDroneFrame(self.which()),
            13 => Action::FreezeDroneFrame(Freeze {
                hours: self.real(24.0, 336.0),
                at: None,
            }),
            14 => Action::SwapDroneFrames(self.which()),
            15 => Action::CutOutComb(self.which()),
            16 => Action::GiveBrood(self.brood_frames()),
            17 => Action::TakeBrood(self.brood_frames()),
            18 => Action::GiveBees(self.real(0.25, 10.0)),
            19 => Action::TakeBees(self.real(0.25, 10.0)),
            20 => Action::GiveStores(self.whole(1, 8) as u8),
            21 => Action::TakeStores(self.whole(1, 8) as u8),
            22 => Action::TakeHoney(self.real(0.0, 40.0)),
            23 => Action::CageQueen(Cage {
                days: self.maybe(50, 1.0, 60.0),
            }),
            24 => Action::ReleaseQueen(true),
            25 => Action::RemoveQueen(true),
            26 => Action::GiveQueen(self.new_queen()),
            27 => Action::ReplaceQueen(self.new_queen()),
            28 => Action::GiveQueenCell(true),
            29 => Action::RemoveQueenCells(true),
            30 => Action::LetSwarm(true),
            31 => Action::Split(Split {
                share: self.real(0.1, 0.9),
                queen: self.one(&goes),
                to_another_yard: self.chance(50),
                in_their_place: self.in_their_place(),
            }),
            32 => Action::TakeNuc(NucTaken {
                frames_of_brood: self.whole(1, 4) as u8,
                frames_of_stores: self.whole(0, 2) as u8,
                further_bees: self.real(0.0, 4.0),
                queen: self.one(&goes),
                in_their_place: self.in_their_place(),
            }),
            33 => Action::Unite(Unite {
                frames_of_bees: self.real(0.5, 20.0),
                frames_of_brood: self.real(0.0, 4.0),
                honey_kg: self.real(0.0, 5.0),
                pollen_kg: self.real(0.0, 1.0),
                hive_box: HiveBox {
                    comb: Comb::Drawn,
                    contents: Vec::new(),
                    ..self.hive_box()
                },
                queen: self.chance(50).then(Queen::default),
            }),
            34 => {
                let [pounds, kilograms, bees] = self.amount_of_bees();
                Action::ShakePackage(BeesTaken {
                    pounds,
                    kilograms,
                    bees,
                })
            }
            35 => Action::EndTreatment(true),
            36 => Action::WrapForWinter(true),
            37 => Action::Unwrap(true),
            _ => Action::Treat(Treat {
                with: TREATMENTS[self.whole(0, TREATMENTS.len() - 1)].treatment,
                days: None,
                resistance: self.maybe(50, 0.0, 1.0),
            }),
        }
    }

    fn amount_of_bees(&mut self) -> [Option<f64>; 3] {
        match self.whole(0, 2) {
            0 => [Some(self.real(0.5, 10.0)), None, None],
            1 => [None, Some(self.real(0.2, 4.5)), None],
            _ => [None, None, Some(self.real(500.0, 40000.0))],
        }
    }

    fn established(&mut self) -> Established {
        Established {
            frames_of_bees: self.real(0.5, 40.0),
            frames_of_brood: self.real(0.0, 8.0),
            honey_kg: self.real(0.0, 30.0),
            pollen_kg: self.real(0.0, 2.0),
        }
    }

    fn start(&mut self, date: CalendarDate) -> Start {
        let mut start = Start {
            date,
            package: None,
            swarm: None,
            nuc: None,
            established: None,
            queen: Queen {
                age_years: self.real(0.0, 5.0),
                laying_power: self.real(0.0, 1.5),
            },
            mites_per_100_bees: self.one(&[None, Some(0.0), Some(0.5), Some(3.0), Some(50.0)]),
        };
        match self.whole(0, 3) {
            0 => {
                let [pounds, kilograms, bees] = self.amount_of_bees();
                let queen_caged_days = self.real(0.0, 10.0);
                start.package = Some(Package {
                    pounds,
                    kilograms,
                    bees,
                    queen_caged_days,
                });
            }
            1 => {
                let [pounds, kilograms, bees] = self.amount_of_bees();
                start.swarm = Some(Swarm {
                    pounds,
                    kilograms,
                    bees,
                });
            }
            2 => start.nuc = Some(self.established()),
            _ => start.established = Some(self.established()),
        }
        start
    }

    fn bloom(&mut self) -> Bloom {
        let mut starts = BloomStart::default();
        match self.whole(0, 2) {
            0 => starts.warmth_sum = Some(self.real(1.0, 3000.0)),
            1 => {
                starts.each_year = Some(self.one(&["02-29", "04-15", "07-01", "12-31"]).to_owned())
            }
            _ => starts.day_length_falls_to = Some(self.real(4.0, 20.0)),
        }
        Bloom {
            plant: "clover".to_owned(),
            starts,
            days: self.real(1.0, 200.0),
            nectar: self.real(0.0, 1.0),
            pollen: self.real(0.0, 1.0),
        }
    }

    fn days(&mut self, start: CalendarDate, length: usize) -> (CalendarDate, CalendarDate) {
        let from = self.whole(0, length - 1);
        let to = self.whole(from, length - 1);
        let date = |day: usize| CalendarDate(plus_days(start.0, day as i32));
        (date(from), date(to))
    }

    fn feed(&mut self, start: CalendarDate, length: usize) -> Feed {
        let (from, to) = self.days(start, length);
        let kind = self.one(&[FeedKind::OneToOne, FeedKind::TwoToOne, FeedKind::Patty]);
        let mut feed = Feed {
            from,
            to,
            kind,
            litres: None,
            jars: None,
            kilograms: None,
            every_days: None,
            feeders: self.whole(1, 8) as u8,
        };
        match (kind, self.whole(0, 2)) {
            (_, 0) => return feed,
            (FeedKind::Patty, _) => feed.kilograms = Some(self.real(0.05, 5.0)),
            (_, 1) => feed.litres = Some(self.real(0.1, 50.0)),
            _ => feed.jars = Some(self.real(0.25, 50.0)),
        }
        if self.chance(60) {
            feed.every_days = Some(self.whole(1, 60) as u16);
        }
        feed
    }

    fn scenario(&mut self) -> Scenario {
        let first = CalendarDate(plus_days(
            jiff::civil::date(2011, 1, 1),
            self.whole(0, 1500) as i32,
        ));
        // Mostly a few weeks, now and then more than a year.
        let length = if self.chance(3) {
            self.whole(300, 500)
        } else {
            self.whole(1, 90)
        };
        let mut scenario = Scenario {
            name: "Random".to_owned(),
            question: String::new(),
            until: CalendarDate(plus_days(first.0, length as i32 - 1)),
            seed: self.0.random_range(0..=u32::MAX),
            mode: self.one(&[Mode::Mean, Mode::Random]),
            place: Place {
                name: "Nowhere".to_owned(),
                latitude: self.real(-66.0, 66.0),
                elevation_m: self.real(-430.0, 5000.0),
                forage: self.one(&[
                    ForageType::Mixed,
                    ForageType::Orchard,
                    ForageType::Meadow,
                    ForageType::Woodland,
                    ForageType::Dryland,
                    ForageType::Bare,
                ]),
                neighbours: self.one(&[Neighbours::None, Neighbours::Few, Neighbours::Many]),
            },
            weather: WeatherSource::default(),
            bloom: Vec::new(),
            start: self.start(first),
            hive: Hive {
                boxes: (0..self.whole(1, 3)).map(|_| self.hive_box()).collect(),
                deep_frame: None,
                medium_frame: None,
            },
            feed: Vec::new(),
            moves: Vec::new(),
            parameters: Default::default(),
            expect: Vec::new(),
        };
        // A colony with brood and stores mostly has the comb for them.
        if scenario.start.package.is_none() && self.chance(60) {
            for hive_box in &mut scenario.hive.boxes {
                hive_box.comb = Comb::Drawn;
                hive_box.contents.clear();
            }
        }
        if self.chance(20) {
            scenario.bloom = (0..self.whole(1, 3)).map(|_| self.bloom()).collect();
        }
        for _ in 0..self.whole(0, 3) {
            scenario.feed.push(self.feed(first, length));
        }
        let mut boxes = scenario.hive.boxes.len();
        for _ in 0..self.whole(0, 6) {
            let (date, until) = self.days(first, length);
            let action = self.action();
            // A hive has six boxes at the most.
            if matches!(action, Action::AddBox(_)) {
                if boxes == 6 {
                    continue;
                }
                boxes += 1;
            }
            let mut step = Move::on(date, action);
            if self.chance(25) {
                step.every_days = Some(self.whole(1, 60) as u16);
                step.until = Some(until);
            }
            if self.chance(20) {
                step.when = Some(self.when());
            }
            scenario.moves.push(step);
        }
        if self.chance(25) {
            for _ in 0..self.whole(1, 4) {
                let (section, rows) = self.one(Parameters::INFO);
                let row = self.one(rows);
                let value = self.real(row.min, row.max);
                scenario
                    .parameters
                    .insert(format!("{section}.{}", row.name), value);
            }
        }
        scenario
    }

    /// Weather that follows the year, with the wild days that no station has seen.
    fn weather(&mut self, scenario: &Scenario) -> Weather {
        let before = self.whole(0, 60) as i32;
        let first = plus_days(scenario.start.date.0, -before);
        let length = scenario.until.days_since(CalendarDate(first)) + 1;
        // Two in three of a kind that bees live through.
        let mild = self.chance(67);
        let (mean, swing, wet) = if mild {
            (self.real(8.0, 18.0), self.real(0.0, 8.0), self.whole(0, 40))
        } else {
            (
                self.real(-15.0, 30.0),
                self.real(0.0, 20.0),
                self.whole(0, 100),
            )
        };
        let measured = self.chance(50);
        let days = (0..length)
            .map(|day| {
                let phase = f64::from(day) / 58.0;
                let low_c = (mean + swing * phase.sin() + self.real(-8.0, 8.0)).clamp(-60.0, 50.0);
                WeatherDay {
                    high_c: low_c + self.real(0.0, 10.0),
                    low_c,
                    rain_mm: self.maybe(wet, 0.1, 60.0).unwrap_or(0.0),
                    wind_m_s: measured.then(|| self.real(0.0, 20.0)),
                    sun_mj_m2: measured.then(|| self.real(0.0, 32.0)),
                    origin: Origin::Typed,
                }
            })
            .collect();
        Weather { first, days }
    }
}

/// Columns that may be below zero.
fn may_be_negative(column: &str) -> bool {
    matches!(column, "high_c" | "low_c" | "mite_growth")
}

fn whole(value: f64) -> bool {
    value == value.trunc()
}

/// What one day's record must say after the day before it; the first word of what is wrong.
///
/// `given` are the bees that the day's moves gave, less those that they took; `None`: no move was made.
fn fault(
    before: Option<&DayRecord>,
    today: &DayRecord,
    given: Option<f64>,
    random: bool,
) -> Option<String> {
    for (column, value) in COLUMNS.iter().zip(today.values()) {
        if !value.is_finite() || (value < 0.0 && !may_be_negative(column.name)) {
            return Some(format!("{} is {value}", column.name));
        }
    }
    let near = |a: f64, b: f64| (a - b).abs() <= 1e-6 * (1.0 + a.abs());
    if !near(today.adult_bees, today.house_bees + today.foragers) {
        return Some("house bees and foragers are not all adults".to_owned());
    }
    let brood = today.eggs + today.open_larvae + today.capped_worker;
    if brood > today.drawn_cells + 0.5 {
        return Some(format!("{brood} cells of brood in {}", today.drawn_cells));
    }
    if let Some(before) = before {
        if !near(
            before.adult_bees + given.unwrap_or(0.0) + today.emerged - today.died - today.swarmed,
            today.adult_bees,
        ) {
            return Some("bees appear or vanish".to_owned());
        }
        if given.is_none() && today.drawn_cells + 1e-6 < before.drawn_cells {
            return Some("comb vanishes".to_owned());
        }
        if before.day + 1.0 != today.day {
            return Some("a day is left out".to_owned());
        }
    }
    let counts = [
        ("adult_bees", today.adult_bees),
        ("foragers", today.foragers),
        ("drones", today.drones),
        ("eggs", today.eggs),
        ("open_larvae", today.open_larvae),
        ("capped_worker", today.capped_worker),
        ("drone_brood", today.drone_brood),
        ("eggs_laid", today.eggs_laid),
        ("emerged", today.emerged),
        ("died", today.died),
    ];
    if random && let Some((name, count)) = counts.iter().find(|(_, count)| !whole(*count)) {
        return Some(format!("{name} is {count}, part of an animal"));
    }
    None
}

#[test]
fn every_bee_cell_and_gram_is_accounted_for() {
    let mut failures = Vec::new();
    let (mut done, mut refused) = (0, 0);
    let (mut seasons, mut days, mut unsound, mut lost, mut grown, mut settled) = (0, 0, 0, 0, 0, 0);
    let mut number = 0;
    while seasons < SCENARIOS {
        let mut dice = Dice(Pcg64::seed_from_u64(number));
        number += 1;
        let scenario = dice.scenario();
        // Brood and stores that do not fit into the comb: told, not run.
        if let Err(error) = scenario.validate() {
            assert!(error.place.starts_with("start."), "{error}");
            unsound += 1;
            continue;
        }
        seasons += 1;
        let weather = dice.weather(&scenario);
        let mut fail = |what: String| {
            if failures.len() < 5 {
                let toml = scenario.to_toml().unwrap_or_default();
                failures.push(format!("scenario {}: {what}\n{toml}", number - 1));
            }
        };
        let season = match run(&scenario, &weather) {
            Ok(season) => season,
            Err(error) => {
                fail(error.to_string());
                continue;
            }
        };
        let random = scenario.mode == Mode::Random;
        let mut before = None;
        for today in &season.days {
            let moved = season
                .events
                .iter()
                .filter(|event| f64::from(event.day) == today.day && event.kind == "move");
            let given = moved.clone().next().is_some().then(|| {
                let figure = |event: &Event, name| event.figures.get(name).copied().unwrap_or(0.0);
                moved
                    .map(|event| figure(event, "bees_given") - figure(event, "bees_taken"))
                    .sum()
            });
            if let Some(what) = fault(before, today, given, random) {
                fail(format!("day {}: {what}", today.day));
                break;
            }
            before = Some(today);
        }
        assert_eq!(
            season.days.len() as i32,
            scenario.until.days_since(scenario.start.date) + 1
        );
        for event in &season.events {
            done += u32::from(event.kind == "move");
            refused += u32::from(event.kind == "refused");
        }
        days += season.days.len();
        let (first, last) = (&season.days[0], &season.days[season.days.len() - 1]);
        settled += u32::from(scenario.start.nuc.is_some() || scenario.start.established.is_some());
        lost += u32::from(last.adult_bees == 0.0);
        grown += u32::from(last.adult_bees > first.adult_bees);
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
    // The dice fall widely: colonies die and thrive, and most scenarios are sound.
    assert!(
        lost > 500 && grown > 500 && settled > 2000 && unsound < 10_000 && days > 300_000,
        "{lost} lost, {grown} grown, {settled} settled, {unsound} unsound, {days} days"
    );
    assert!(
        done > 5000 && refused > 5000,
        "{done} moves done, {refused} refused"
    );
}
