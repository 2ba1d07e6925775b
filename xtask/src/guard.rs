//! The guard on determinism: random numbers must not go through the platform's maths.
//!
//! rand_distr does its maths through num-traits. When any crate of the same build turns on
//! num-traits' feature `std`, Cargo turns it on for all, and a draw in some thousands then differs
//! between machines and WebAssembly: too rarely for a short test to notice.

use anyhow::{Result, bail};

use crate::{shell, wasm};

/// Fails when any crate of the workspace turns on `num-traits/std`.
pub fn check() -> Result<()> {
    // As it is built on this machine, and as it is built for the page.
    check_tree(&["--workspace"])?;
    check_tree(&["--package=sim-wasm", "--target", wasm::TARGET])
}

fn check_tree(of: &[&str]) -> Result<()> {
    let tree = shell::output(
        shell::cargo(&[
            "tree",
            "--locked",
            "--edges=features",
            "--invert=num-traits",
        ])
        .args(of),
    )?;
    if !tree.contains("num-traits feature \"libm\"") {
        bail!("cargo tree shows no num-traits with libm: this guard no longer sees what it guards");
    }
    for feature in ["std", "default"] {
        if tree.contains(&format!("num-traits feature \"{feature}\"")) {
            print!("{tree}");
            bail!(
                "a crate turns on num-traits' feature `{feature}` (see the tree above): \
                 random numbers would then differ between machines and WebAssembly"
            );
        }
    }
    Ok(())
}
