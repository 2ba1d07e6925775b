//! Writing down what the shipped scenarios come to, after a change that is meant to change it.

use anyhow::Result;

use crate::shell;

/// Tells the test that compares to write instead.
const BLESS: &str = "COMBCAST_BLESS";

/// Writes tests/golden; the test that compares is also what writes, so that the two cannot differ.
pub fn bless() -> Result<()> {
    shell::run(
        shell::cargo(&[
            "test",
            "--locked",
            "--package=combcast",
            "--test=main",
            "golden::",
        ])
        .env(BLESS, "1"),
    )?;
    println!(
        "tests/golden is written: look at the difference, and say in the commit why numbers changed"
    );
    Ok(())
}
