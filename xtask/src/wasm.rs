//! The WebAssembly module and its glue, into `web/src/wasm`.

use std::path::PathBuf;

use anyhow::{Context, Result, bail};
use wasm_bindgen_cli_support::Bindgen;

use crate::shell;

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
    let size = folder.join("sim_wasm_bg.wasm").metadata()?.len();
    println!("web/src/wasm/sim_wasm_bg.wasm, {} kB", size / 1000);
    Ok(())
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

fn remap(from: &std::path::Path, to: &str) -> Result<String> {
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
    std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")))
}
