//! How fast the model runs: natively, in WebAssembly in Chromium, and as a NumPy twin, measured in one go.

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::{chromium, page, shell, wasm};

/// Most that WebAssembly may take, native being 1.
const WASM: f64 = 1.6;
/// Most milliseconds from a moved slider to a new season: one frame of a screen.
const SLIDER_MS: f64 = 16.0;

/// Measures and prints the table.
pub fn bench() -> Result<()> {
    page::check_node()?;
    page::install_if_needed()?;
    wasm::build()?;
    let native = shell::output(&mut shell::cargo(&[
        "run",
        "--quiet",
        "--locked",
        "--release",
        "--manifest-path=benches/Cargo.toml",
        "--bin=throughput",
    ]))?;
    let native: Value = serde_json::from_str(&native).context("benches/throughput.rs")?;
    let names = native.as_object().context("benches/throughput.rs")?.keys();
    let files = names.map(|name| format!("benches/{name}.toml"));
    let browser = chromium::find_or_install()?;
    let mut node = shell::program("node", &["web/scripts/bench-module.mjs"]);
    let module = shell::output(node.args(files).env("CHROMIUM", &browser))?;
    let module: Value = serde_json::from_str(&module).context("web/scripts/bench-module.mjs")?;
    println!(
        "WebAssembly ran in {}",
        module["browser"].as_str().unwrap_or("Chromium")
    );
    let module = &module["colonies"];
    let numpy = twin();

    println!("\ncolony-days per second on one core, and what one colony-day takes");
    let mut fastest = 0.0_f64;
    for (colony, native) in native.as_object().context("benches/throughput.rs")? {
        let module = &module[colony];
        for mode in ["mean", "random"] {
            let budget = number(native, &format!("{mode}_budget_ns"))?;
            let (here, there) = (number(native, mode)?, number(module, mode)?);
            fastest = if mode == "mean" {
                fastest.max(here)
            } else {
                fastest
            };
            println!(
                "{colony:12} {mode:7} native      {}  {}",
                rate(here),
                verdict(1e9 / here, budget, "ns")
            );
            let ratio = here / there;
            println!(
                "{colony:12} {mode:7} WebAssembly {}  {}",
                rate(there),
                verdict(ratio, WASM, "x native")
            );
            let sum = format!("{mode}_checksum");
            let (here, there) = (number(native, &sum)?, number(module, &sum)?);
            if here.to_bits() != there.to_bits() {
                bail!("{colony}, {mode}: WebAssembly came to {there} bees, native code to {here}");
            }
        }
    }
    match numpy {
        Ok(numpy) => {
            let there = number(&numpy, "colony_days_per_second")?;
            println!(
                "{:12} {:7} NumPy       {}",
                "simplified",
                "mean",
                rate(there)
            );
            println!(
                "the whole model in mean mode does {:.1} times the colony-days of its simplified NumPy twin ({} colonies side by side)",
                fastest / there,
                numpy["colonies"]
            );
        }
        Err(why) => println!("the NumPy twin was left out: {why:#}"),
    }
    println!("\na moved slider: weather, bloom, a year in mean mode, every day written down");
    for (colony, native) in native.as_object().context("benches/throughput.rs")? {
        println!(
            "{colony:12} native      {:8.2} ms",
            number(native, "slider_ms")?
        );
        let there = number(&module[colony], "slider_ms")?;
        println!(
            "{colony:12} WebAssembly {there:8.2} ms  {}",
            verdict(there, SLIDER_MS, "ms")
        );
    }
    Ok(())
}

/// The NumPy twin's figures, where Python and NumPy are there.
fn twin() -> Result<Value> {
    let python = ["python3", "python"]
        .into_iter()
        .find(|name| {
            shell::find_in_path(&format!("{name}{}", std::env::consts::EXE_SUFFIX)).is_some()
        })
        .context("there is no Python")?;
    shell::output(&mut shell::program(python, &["-c", "import numpy"]))
        .context("there is no NumPy")?;
    let text = shell::output(&mut shell::program(
        python,
        &["benches/numpy_twin/season.py"],
    ))?;
    serde_json::from_str(&text).context("benches/numpy_twin/season.py")
}

fn number(of: &Value, name: &str) -> Result<f64> {
    of[name]
        .as_f64()
        .with_context(|| format!("there is no {name}"))
}

fn rate(per_second: f64) -> String {
    format!(
        "{:>9.0} thousand/s  {:7.0} ns",
        per_second / 1000.0,
        1e9 / per_second
    )
}

/// Whether a figure keeps its budget, in words.
fn verdict(value: f64, budget: f64, unit: &str) -> String {
    let word = if value <= budget { "within" } else { "OVER" };
    format!("{word} the budget of {budget} {unit} ({value:.2})")
}
