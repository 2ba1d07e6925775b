//! Colony-days per second of the code as it is shipped, as one JSON object for `cargo xtask bench`.
//!
//! Unlike the Criterion benches this program is built without `num-traits/std`: its random mode draws
//! the shipped numbers, and its checksum is the one that WebAssembly has to give too.

use std::time::Instant;

use colonies::{COLONIES, DAYS, Timed, prepared, read};
use combcast_core::draw::{Draw, Mean, Random};
use combcast_core::season::Prepared;
use combcast_core::weather;

/// Seasons in one timed batch.
const SEASONS: u32 = 100;
/// Short batches, of which the fastest counts: other programs can only slow one down.
const BATCHES: usize = 50;

fn main() {
    let lines: Vec<String> = COLONIES
        .iter()
        .map(|colony| {
            let Timed {
                name,
                scenario,
                mean_ns,
                random_ns,
            } = colony;
            let season = prepared(scenario);
            let (mean, mean_sum) = rate(&season, |_| Mean);
            let (random, random_sum) = rate(&season, |member| Random::new(0, member));
            let slider = slider(scenario);
            format!(
                "\"{name}\": {{ \"mean_budget_ns\": {mean_ns}, \"random_budget_ns\": {random_ns}, \
                 \"mean\": {mean}, \"random\": {random}, \"mean_checksum\": {mean_sum}, \
                 \"random_checksum\": {random_sum}, \"slider_ms\": {slider} }}"
            )
        })
        .collect();
    println!("{{ {} }}", lines.join(", "));
}

/// Colony-days per second, and the sum over the seasons of the bees at the end.
fn rate<D: Draw>(season: &Prepared, draw: impl Fn(u32) -> D) -> (f64, f64) {
    let mut best = 0.0_f64;
    let mut checksum = 0.0;
    for _ in 0..BATCHES {
        checksum = 0.0;
        let started = Instant::now();
        for member in 0..SEASONS {
            let end = season
                .run_bare(&mut draw(member), |_, _| {})
                .expect("every day adds up");
            checksum += end.stock.adults.adults();
        }
        let days = f64::from(SEASONS) * DAYS as f64;
        best = best.max(days / started.elapsed().as_secs_f64());
    }
    (best, checksum)
}

/// Milliseconds from a changed scenario to its season in mean mode.
fn slider(scenario: &str) -> f64 {
    let scenario = read(scenario);
    let mut best = f64::INFINITY;
    for _ in 0..50 {
        let started = Instant::now();
        let (weather, _) = weather::resolve(&scenario, None).expect("the weather is drawn");
        let season = combcast_core::run(&scenario, &weather).expect("every day adds up");
        let took = started.elapsed().as_secs_f64() * 1000.0;
        assert_eq!(season.days.len(), DAYS);
        best = best.min(took);
    }
    best
}
