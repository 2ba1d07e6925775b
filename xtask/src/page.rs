//! The page: its packages and its build, with Node.js.

use std::fs;
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::shell;

/// The oldest Node.js that the page's tools run on.
const NODE: u32 = 20;

/// Fails with a plain message where Node.js is missing or too old.
pub fn check_node() -> Result<()> {
    let wanted = format!("Node.js {NODE} or newer with npm is needed for the page");
    for tool in ["node", "npm"] {
        if shell::find_in_path(&executable(tool)).is_none() {
            bail!(
                "{wanted}: {tool} is not on the PATH. Install it (nodejs.org, or your system's package manager)"
            );
        }
    }
    let version = shell::output(&mut shell::program("node", &["--version"]))?;
    let major = version
        .trim()
        .trim_start_matches('v')
        .split('.')
        .next()
        .and_then(|major| major.parse::<u32>().ok());
    if major.is_none_or(|major| major < NODE) {
        bail!("{wanted}, this is {}", version.trim());
    }
    Ok(())
}

/// Installs the page's packages exactly as locked.
pub fn install() -> Result<()> {
    shell::run(&mut npm(&["ci", "--no-audit", "--no-fund"]))?;
    fs::copy(lock(), installed_lock()).context("web/node_modules")?;
    Ok(())
}

/// Installs the page's packages where they are missing or not those of the lock file.
pub fn install_if_needed() -> Result<()> {
    let wanted = fs::read(lock()).context("web/package-lock.json")?;
    if fs::read(installed_lock()).is_ok_and(|installed| installed == wanted) {
        return Ok(());
    }
    install()
}

/// Writes what the program says of its evidence and parameters where the page takes it from.
pub fn tables() -> Result<()> {
    let folder = shell::root().join("web/src/evidence");
    for (command, file) in [("evidence", "checks.json"), ("params", "parameters.json")] {
        let text = shell::output(&mut shell::cargo(&[
            "run",
            "--quiet",
            "--locked",
            "--package=combcast",
            "--",
            command,
            "--json",
        ]))?;
        fs::write(folder.join(file), text).with_context(|| format!("web/src/evidence/{file}"))?;
    }
    Ok(())
}

/// Builds the page into `web/dist`.
pub fn build() -> Result<()> {
    shell::run(&mut npm(&["run", "build"]))
}

/// npm in the page's folder.
pub fn npm(arguments: &[&str]) -> Command {
    let mut command = shell::program(&executable("npm"), arguments);
    command.current_dir(shell::root().join("web"));
    command
}

fn executable(tool: &str) -> String {
    match (tool, cfg!(windows)) {
        ("npm", true) => "npm.cmd".to_owned(),
        (tool, true) => format!("{tool}.exe"),
        (tool, false) => tool.to_owned(),
    }
}

fn lock() -> std::path::PathBuf {
    shell::root().join("web/package-lock.json")
}

/// A copy of the lock file that the installed packages came from.
fn installed_lock() -> std::path::PathBuf {
    shell::root().join("web/node_modules/.installed-lock.json")
}
