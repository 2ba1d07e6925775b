//! What a moved slider costs: make a year's weather and bloom, prepare the season, run it, write down every day.
//!
//! Budget: 16 ms in the page, one frame of its screen. WebAssembly may take 1.6 times the native
//! time, so 10 ms here.

use std::hint::black_box;
use std::time::Duration;

use colonies::{COLONIES, Timed, read};
use combcast_core::season::prepare;
use combcast_core::weather;
use criterion::{Criterion, criterion_group, criterion_main};

fn season(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("season");
    group
        .measurement_time(Duration::from_secs(3))
        .sample_size(50);
    for Timed { name, scenario, .. } in COLONIES {
        let scenario = read(scenario);
        group.bench_function(format!("slider/{name}"), |bencher| {
            bencher.iter(|| {
                let scenario = black_box(&scenario);
                let (weather, _) = weather::resolve(scenario, None)?;
                prepare(scenario, &weather)?.run()
            });
        });
    }
    group.finish();
}

criterion_group!(benches, season);
criterion_main!(benches);
