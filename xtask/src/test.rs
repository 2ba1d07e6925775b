//! `cargo xtask test`: every check there is, in one list.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, ExitCode};

use anyhow::{Context, Result, bail};

use crate::report::{Counts, Report};
use crate::{chromium, guard, page, parity, shell, wasm};

const FORMAT: &str = "Format";
const GUARD: &str = "Random numbers keep off the platform's maths";
const CLIPPY: &str = "Clippy";
const BENCHES: &str = "The benches compile";
const DOCUMENTATION: &str = "Documentation";
const RUST: &str = "Rust tests";
const MODULE: &str = "WebAssembly module";
const TABLES: &str = "The page's tables of evidence";
const NODE: &str = "Node.js";
const PARITY: &str = "The same bits natively and in WebAssembly";
const PACKAGES: &str = "The page's packages";
const TYPES: &str = "The page's types";
const UNIT: &str = "The page's unit tests";
const BUILD: &str = "The page's build";
const CHROMIUM: &str = "Chromium";
const BROWSER: &str = "The page in Chromium";

/// Runs everything; what does not hang on a failed step goes on.
pub fn test() -> ExitCode {
    let mut report = Report::new();
    report.step(FORMAT, &[], || {
        check(&mut shell::cargo(&["fmt", "--all", "--check"]))?;
        check(&mut shell::cargo(&[
            "fmt",
            "--manifest-path=benches/Cargo.toml",
            "--check",
        ]))
    });
    report.step(GUARD, &[], || guard::check().map(|()| Counts::ONE));
    report.step(CLIPPY, &[], || {
        check(&mut shell::cargo(&[
            "clippy",
            "--locked",
            "--workspace",
            "--all-targets",
            "--",
            "--deny=warnings",
        ]))
    });
    report.step(BENCHES, &[], || {
        check(&mut shell::cargo(&[
            "clippy",
            "--locked",
            "--manifest-path=benches/Cargo.toml",
            "--all-targets",
            "--",
            "--deny=warnings",
        ]))
    });
    report.step(DOCUMENTATION, &[], || {
        check(
            shell::cargo(&[
                "doc",
                "--locked",
                "--no-deps",
                "--workspace",
                "--exclude=xtask",
            ])
            .env("RUSTDOCFLAGS", "--deny=warnings"),
        )
    });
    report.step(RUST, &[], rust_tests);
    report.step(NODE, &[], || page::check_node().map(|()| Counts::ONE));
    report.step(MODULE, &[NODE], || wasm::build().map(|()| Counts::ONE));
    report.step(TABLES, &[], || page::tables().map(|()| Counts::ONE));
    report.step(PARITY, &[MODULE, NODE], parity::check);
    report.step(PACKAGES, &[NODE], || page::install().map(|()| Counts::ONE));
    report.step(TYPES, &[PACKAGES, MODULE], || {
        check(&mut page::npm(&["run", "check"]))
    });
    report.step(UNIT, &[PACKAGES, MODULE, TABLES], unit_tests);
    report.step(BUILD, &[PACKAGES, MODULE, TABLES], || {
        page::build().map(|()| Counts::ONE)
    });
    let mut browser = None;
    report.step(CHROMIUM, &[], || {
        let found = chromium::find_or_install()?;
        println!("{}", found.display());
        browser = Some(found);
        Ok(Counts::ONE)
    });
    report.step(BROWSER, &[BUILD, CHROMIUM], || {
        browser_tests(&browser.expect("the step before found it"))
    });
    if report.close() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    }
}

/// A command that passes or fails as one check.
fn check(command: &mut Command) -> Result<Counts> {
    shell::run(command).map(|()| Counts::ONE)
}

fn rust_tests() -> Result<Counts> {
    let mut counts = Counts::default();
    let succeeded = shell::watch(
        &mut shell::cargo(&["test", "--locked", "--workspace", "--no-fail-fast"]),
        |line| {
            if let Some(more) = counts_of_cargo(line) {
                counts.add(more);
            }
        },
    )?;
    settle(counts, succeeded)
}

/// Reads a closing line of cargo test, such as `test result: ok. 3 passed; 0 failed; 1 ignored; …`.
fn counts_of_cargo(line: &str) -> Option<Counts> {
    let (_, parts) = line.strip_prefix("test result: ")?.split_once(". ")?;
    let mut counts = Counts::default();
    for part in parts.split("; ") {
        match part.split_once(' ')? {
            (number, "passed") => counts.passed = number.parse().ok()?,
            (number, "failed") => counts.failed = number.parse().ok()?,
            (number, "ignored") => counts.skipped = number.parse().ok()?,
            _ => {}
        }
    }
    Some(counts)
}

fn unit_tests() -> Result<Counts> {
    let list = list_of_results("vitest");
    let succeeded = shell::watch(
        &mut page::npm(&[
            "run",
            "test",
            "--",
            "--reporter=default",
            "--reporter=json",
            &format!("--outputFile.json={}", list.display()),
        ]),
        |_| {},
    )?;
    let result = read_results(&list)?;
    let number = |name: &str| result[name].as_u64().unwrap_or(0);
    let counts = Counts {
        passed: number("numPassedTests"),
        failed: number("numFailedTests"),
        skipped: number("numPendingTests") + number("numTodoTests"),
    };
    settle(counts, succeeded)
}

fn browser_tests(browser: &std::path::Path) -> Result<Counts> {
    let list = list_of_results("playwright");
    let succeeded = shell::watch(
        page::npm(&["run", "e2e", "--", "--reporter=list,json"])
            .env("CHROMIUM", browser)
            .env("PLAYWRIGHT_JSON_OUTPUT_FILE", &list),
        |_| {},
    )?;
    let result = read_results(&list)?;
    let number = |name: &str| result["stats"][name].as_u64().unwrap_or(0);
    let counts = Counts {
        passed: number("expected"),
        // A test that passes only now and then is a failure.
        failed: number("unexpected") + number("flaky"),
        skipped: number("skipped"),
    };
    settle(counts, succeeded)
}

/// Counts that agree with how the program ended: a crash is a failure, and no test is none passed.
fn settle(mut counts: Counts, succeeded: bool) -> Result<Counts> {
    if succeeded && counts.passed + counts.failed == 0 {
        bail!("no test was run");
    }
    if !succeeded && counts.failed == 0 {
        println!("it ended with an error although no test is counted as failed");
        counts.failed = 1;
    }
    Ok(counts)
}

/// Where a test runner is told to write its list of results.
fn list_of_results(runner: &str) -> PathBuf {
    std::env::temp_dir().join(format!("combcast-{runner}-{}.json", std::process::id()))
}

fn read_results(list: &PathBuf) -> Result<serde_json::Value> {
    let text = fs::read(list).context("the test runner wrote no list of results")?;
    fs::remove_file(list).ok();
    serde_json::from_slice(&text).context("the test runner's list of results")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn closing_lines_of_cargo_are_read() {
        let line = "test result: FAILED. 3 passed; 2 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.00s";
        let counts = Counts {
            passed: 3,
            failed: 2,
            skipped: 1,
        };
        assert_eq!(counts_of_cargo(line), Some(counts));
        assert_eq!(counts_of_cargo("test brood ... ok"), None);
        assert_eq!(counts_of_cargo("test result: ok. many passed"), None);
    }

    #[test]
    fn a_crash_counts_as_a_failure_and_no_test_as_an_error() {
        let none = Counts::default();
        assert!(settle(none, true).is_err());
        assert_eq!(settle(none, false).unwrap().failed, 1);
        assert_eq!(settle(Counts::ONE, true).unwrap(), Counts::ONE);
    }
}
