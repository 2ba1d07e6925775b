//! What one colony costs for one day, averaged over a year that is ready to run.
//!
//! The budgets are in `COLONIES`. Criterion shows the time of a whole year of 365 days and, as elements,
//! colony-days per second: 250 ns are 4 million a second, 1500 ns are 667 thousand.

use std::hint::black_box;
use std::time::Duration;

use colonies::{COLONIES, DAYS, Timed, prepared};
use combcast_core::draw::{Mean, Random};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};

fn day(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("day");
    group
        .throughput(Throughput::Elements(DAYS as u64))
        .measurement_time(Duration::from_secs(3))
        .sample_size(50);
    for Timed { name, scenario, .. } in COLONIES {
        let season = prepared(scenario);
        group.bench_function(format!("mean/{name}"), |bencher| {
            bencher.iter(|| {
                season.run_bare(&mut Mean, |colony, _| {
                    black_box(colony);
                })
            });
        });
        let mut member = 0;
        group.bench_function(format!("random/{name}"), |bencher| {
            bencher.iter(|| {
                // Another member each time: the luck of one year is not the cost of all.
                member += 1;
                season.run_bare(&mut Random::new(1, member), |colony, _| {
                    black_box(colony);
                })
            });
        });
    }
    group.finish();
}

criterion_group!(benches, day);
criterion_main!(benches);
