//! A Chromium for the browser tests: found, or installed where that can be done without asking.

use std::path::{Path, PathBuf};

use anyhow::{Result, bail};

use crate::shell;

/// Names under which it is installed.
const NAMES: [&str; 5] = [
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
];

/// Where it lies outside of the PATH.
const PLACES: [&str; 4] = [
    "/usr/bin/chromium",
    "/usr/lib/chromium/chromium",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

const HOW: &str = "Install Chromium (Debian and Ubuntu: sudo apt-get install chromium), \
                   or set CHROMIUM to the path of a Chromium or Chrome";

/// The path of a Chromium; installs one as root on Debian where there is none.
pub fn find_or_install() -> Result<PathBuf> {
    if let Some(named) = std::env::var_os("CHROMIUM") {
        let named = PathBuf::from(named);
        if shell::is_program(&named) {
            return Ok(named);
        }
        bail!(
            "CHROMIUM is set to {}, which is no program",
            named.display()
        );
    }
    if let Some(found) = find() {
        return Ok(found);
    }
    if !is_root() || shell::find_in_path("apt-get").is_none() {
        bail!("no Chromium found, and it cannot be installed from here. {HOW}");
    }
    println!("no Chromium found: installing Debian's");
    let installed = apt(&["update", "--quiet"]).and_then(|()| {
        apt(&[
            "install",
            "--yes",
            "--quiet",
            "--no-install-recommends",
            "chromium",
            // Without any font a page has no letters.
            "fonts-dejavu-core",
        ])
    });
    match (installed, find()) {
        (_, Some(found)) => Ok(found),
        (Err(error), None) => bail!("Chromium could not be installed: {error:#}. {HOW}"),
        (Ok(()), None) => bail!("apt-get installed no Chromium that can be found. {HOW}"),
    }
}

fn find() -> Option<PathBuf> {
    NAMES
        .iter()
        .find_map(|name| shell::find_in_path(name))
        .or_else(|| {
            PLACES
                .iter()
                .map(PathBuf::from)
                .find(|path| shell::is_program(path))
        })
}

fn apt(arguments: &[&str]) -> Result<()> {
    shell::run(shell::program("apt-get", arguments).env("DEBIAN_FRONTEND", "noninteractive"))
}

#[cfg(unix)]
fn is_root() -> bool {
    use std::os::unix::fs::MetadataExt;
    // The owner of a process's own entry in /proc is its effective user.
    Path::new("/proc/self")
        .metadata()
        .is_ok_and(|process| process.uid() == 0)
}

#[cfg(not(unix))]
fn is_root() -> bool {
    false
}
