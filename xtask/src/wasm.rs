//! The WebAssembly module, in two parts, and its glue, into `web/src/wasm`.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::{env, fs, process};

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::parts::{self, Parts};
use crate::{page, shell};

/// What it is built for.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// Builds the module and generates its glue for a web page.
pub fn build() -> Result<()> {
    add_target()?;
    let module = shell::build(
        shell::cargo(&[
            "build",
            "--locked",
            "--package=sim-wasm",
            "--lib",
            "--profile=wasm-release",
            "--target",
            TARGET,
        ])
        // Set, they would replace the flags of .cargo/config.toml, and with them the vector instructions.
        .env_remove("RUSTFLAGS")
        .env_remove("CARGO_ENCODED_RUSTFLAGS")
        // This one is added to them.
        .env(
            "CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS",
            remapped_paths()?.join(" "),
        ),
        "sim_wasm.wasm",
    )?;
    let folder = shell::root().join("web/src/wasm");
    Bindgen::new()
        .input_path(module)
        .web(true)?
        .typescript(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(&folder)
        .context("wasm-bindgen")?;
    part(&folder)
}

/// Parts the module in `folder` in two; what came in one piece is the first part then.
fn part(folder: &Path) -> Result<()> {
    let file = folder.join("sim_wasm_bg.wasm");
    let whole = fs::read(&file).context("what wasm-bindgen wrote")?;
    let Parts { first, rest } = parts::parted(&whole, &used_at_first(&whole)?)?;
    for (name, part) in [("sim_wasm_bg.wasm", first), ("sim_wasm_rest.wasm", rest)] {
        fs::write(folder.join(name), &part).with_context(|| format!("web/src/wasm/{name}"))?;
        println!("web/src/wasm/{name}, {} kB", part.len() / 1000);
    }
    Ok(())
}

/// Which functions of the module the page's first season and its story need, by their numbers.
fn used_at_first(whole: &[u8]) -> Result<BTreeSet<usize>> {
    page::check_node()?;
    let file = env::temp_dir().join(format!("combcast-watched-{}.wasm", process::id()));
    fs::write(&file, parts::watched(whole)?).with_context(|| file.display().to_string())?;
    let mut node = shell::program("node", &["web/scripts/first-season.mjs"]);
    let used = shell::output(node.arg(&file));
    fs::remove_file(&file).ok();
    serde_json::from_str(&used?).context("what web/scripts/first-season.mjs printed")
}

/// Brings Rust's WebAssembly library where it is missing.
///
/// rustup does so by itself from rust-toolchain.toml, unless it is told not to install anything.
fn add_target() -> Result<()> {
    let library = shell::output(&mut shell::program(
        "rustc",
        &["--print=target-libdir", "--target", TARGET],
    ))?;
    if PathBuf::from(library.trim()).is_dir() {
        return Ok(());
    }
    if shell::find_in_path("rustup").is_none() {
        bail!("Rust's {TARGET} library is missing, and there is no rustup to add it with");
    }
    println!("adding Rust's {TARGET} library");
    shell::run(&mut shell::program("rustup", &["target", "add", TARGET]))
}

/// Flags that keep this machine's folders out of the module, so that it is the same everywhere.
fn remapped_paths() -> Result<Vec<String>> {
    let mut flags = vec![remap(&shell::root(), "/src")?];
    if let Some(cargo) = cargo_home() {
        // One folder for each registry, named after it.
        let registries = cargo.join("registry/src");
        for entry in registries.read_dir().into_iter().flatten() {
            flags.push(remap(&entry?.path(), "/crates")?);
        }
    }
    Ok(flags)
}

fn remap(from: &Path, to: &str) -> Result<String> {
    let from = from
        .to_str()
        .filter(|path| !path.contains(char::is_whitespace))
        .with_context(|| {
            format!(
                "{}: a folder with a space or an odd character in its name cannot be handed to rustc here",
                from.display()
            )
        })?;
    Ok(format!("--remap-path-prefix={from}={to}"))
}

fn cargo_home() -> Option<PathBuf> {
    env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| env::home_dir().map(|home| home.join(".cargo")))
}
