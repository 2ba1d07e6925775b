//! Linear theory (check 20): in a colony that does not change, mites grow by the largest eigenvalue of
//! their transition matrix.

use combcast_core::Parameters;
use combcast_core::brood::{Brood, MOST_DAYS, Stages};
use combcast_core::draw::Mean;
use combcast_core::forage::Conditions;
use combcast_core::growth::Still;
use combcast_core::mites::{MitesParameters, come_out, hazard, maturing};
use nalgebra::{DMatrix, DVector};
use serde_json::Value;

struct Frozen {
    bees_g: f64,
    worker_capped: f64,
    drone_capped: f64,
    death: f64,
    parameters: MitesParameters,
}

fn cases() -> Vec<(Frozen, f64)> {
    let text = include_str!("reference/mite_growth.json");
    let read: Value = serde_json::from_str(text).expect("the committed reference is JSON");
    let cases = read["cases"].as_array().expect("a list of cases");
    let number = |case: &Value, name: &str| case[name].as_f64().expect("a number");
    cases
        .iter()
        .map(|case| {
            let parameters = MitesParameters {
                daughters_worker: number(case, "daughters_worker"),
                daughters_drone: number(case, "daughters_drone"),
                survive_worker: number(case, "survive_worker"),
                survive_drone: number(case, "survive_drone"),
                ..MitesParameters::default()
            };
            let frozen = Frozen {
                bees_g: number(case, "bees_g"),
                worker_capped: number(case, "worker_capped"),
                drone_capped: number(case, "drone_capped"),
                death: number(case, "death"),
                parameters,
            };
            (frozen, number(case, "growth_factor"))
        })
        .collect()
}

impl Frozen {
    fn still(&self) -> Still {
        let p = &self.parameters;
        let maturing = maturing(0.0, 20.0, p);
        Still {
            bees_g: self.bees_g,
            worker_capped: self.worker_capped,
            drone_capped: self.drone_capped,
            worker_d: 12,
            drone_d: 14,
            death: self.death,
            out_of_worker: (1.0 + p.daughters_worker * maturing) * p.survive_worker,
            out_of_drone: (1.0 + p.daughters_drone * maturing) * p.survive_drone,
        }
    }
}

/// The largest eigenvalue, by power iteration: the matrix has no negative entry, so that it is real and
/// its vector positive. (The decomposition of nalgebra does not end on this nearly cyclic matrix.)
fn growth_by_theory(frozen: &Frozen) -> f64 {
    let rows = frozen.still().matrix(&frozen.parameters);
    let size = rows.len();
    let matrix = DMatrix::from_fn(size, size, |row, column| rows[row][column]);
    let mut mites = DVector::from_element(size, 1.0);
    let mut factor = 0.0;
    for _ in 0..5000 {
        mites = &matrix * &mites;
        factor = mites.sum();
        mites /= factor;
    }
    factor
}

/// The daily growth factor after 1,000 days of the program's own steps with the colony held still.
fn growth_by_simulation(frozen: &Frozen) -> f64 {
    let p = Parameters::default();
    let mut worker = Brood::none(Stages::worker(&p.brood));
    let mut drone = Brood::none(Stages::drone(&p.brood));
    let summer = Conditions {
        day_length_h: 15.0,
        day_length_change_h: 0.0,
        high_c: 25.0,
        low_c: 15.0,
        mean_c: 20.0,
        nights_c: 15.0,
        ten_days_c: 20.0,
        rain_mm: 0.0,
        flight_hours: 8.0,
        nectar: 0.5,
        pollen: 0.5,
        laying_season: 1.0,
    };
    let mut on_bees = 1e-9;
    let mut last_total = 0.0;
    let mut factor = 0.0;
    for _ in 0..1000 {
        let none = [0.0; MOST_DAYS];
        let (mut from_worker, mut from_drone) =
            (worker.age_one_day(&none), drone.age_one_day(&none));
        // As many cells emerge each day as are capped: enough that no cell is crowded.
        from_worker.cells = frozen.worker_capped;
        from_drone.cells = frozen.drone_capped;
        let (into_worker, into_drone) = hazard(
            frozen.worker_capped,
            frozen.drone_capped,
            frozen.bees_g,
            &frozen.parameters,
        );
        let entered = on_bees * (1.0 - (-into_worker - into_drone).exp());
        worker.take_in(entered * into_worker / (into_worker + into_drone));
        drone.take_in(entered * into_drone / (into_worker + into_drone));
        let out = come_out(&from_worker, false, &summer, &mut Mean, &frozen.parameters).came_out
            + come_out(&from_drone, true, &summer, &mut Mean, &frozen.parameters).came_out;
        on_bees = (on_bees - entered) * (1.0 - frozen.death) + out;
        let total = on_bees + worker.mites() + drone.mites();
        factor = total / last_total;
        last_total = total;
        // Keep the load far from crowding; the equations are linear there.
        if total > 1e-6 {
            let shrink = 1e-9 / total;
            on_bees *= shrink;
            worker
                .mothers
                .iter_mut()
                .for_each(|mothers| *mothers *= shrink);
            drone
                .mothers
                .iter_mut()
                .for_each(|mothers| *mothers *= shrink);
            last_total = 1e-9;
        }
    }
    factor
}

#[test]
fn theory_agrees_with_scipy() {
    for (frozen, scipy) in cases() {
        let ours = growth_by_theory(&frozen);
        assert!((ours - scipy).abs() < 1e-9, "{ours} against {scipy}");
    }
}

#[test]
fn the_short_equation_has_the_eigenvalue_as_its_root() {
    for (frozen, scipy) in cases() {
        let rate = frozen.still().growth(&frozen.parameters);
        assert!((rate.exp() - scipy).abs() < 1e-11, "{rate} against {scipy}");
    }
    // Without brood mites only die; all of them in cells is no fault either.
    let (mut frozen, _) = cases().swap_remove(0);
    frozen.worker_capped = 0.0;
    let rate = frozen.still().growth(&frozen.parameters);
    assert!((rate - (1.0 - frozen.death).ln()).abs() < 1e-12, "{rate}");
    frozen.worker_capped = 1e9;
    let all_in = frozen.still().growth(&frozen.parameters);
    let p = &frozen.parameters;
    let through = ((1.0 + p.daughters_worker) * p.survive_worker).ln() / 13.0;
    assert!(
        (all_in - through).abs() < 1e-9,
        "{all_in} against {through}"
    );
}

#[test]
fn simulation_grows_as_theory_says() {
    for (frozen, scipy) in cases() {
        let ours = growth_by_simulation(&frozen);
        assert!((ours - scipy).abs() < 1e-6, "{ours} against {scipy}");
        assert!(ours > 1.0, "mites grow in a colony with brood: {ours}");
    }
}

/// The growth that is told of a day is that of the season around it, where the colony changes little.
#[test]
fn a_season_grows_as_its_days_say() {
    let text = include_str!("../scenarios/untreated.toml");
    let scenario = combcast_core::Scenario::from_toml(text).expect("a sound scenario");
    let record = include_bytes!("../scenarios/weather/seattle-2012-2015.csv");
    let (weather, _) =
        combcast_core::weather::resolve(&scenario, Some(record)).expect("a sound record");
    let season = combcast_core::run(&scenario, &weather).expect("a sound season");
    let mites = |day: usize| season.days[day].mites_on_bees + season.days[day].mites_in_cells;
    let first = season.first;
    let june = combcast_core::calendar::days_between(first, jiff::civil::date(first.year(), 6, 15));
    let (from, to) = (june as usize, june as usize + 45);
    let seen = (mites(to) / mites(from)).ln() / 45.0;
    let told: f64 = season.days[from..to]
        .iter()
        .map(|day| day.mite_growth)
        .sum::<f64>()
        / 45.0;
    assert!(
        (told - seen).abs() < 0.15 * seen,
        "told {told}, seen {seen}"
    );
}
