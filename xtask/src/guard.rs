//! The guard on determinism: random numbers must not go through the platform's maths.
//!
//! rand_distr does its maths through num-traits. When any crate of the same build turns on
//! num-traits' feature `std`, Cargo turns it on for all, and a draw in some thousands then differs
//! between machines and WebAssembly: too rarely for a short test to notice.

use anyhow::{Result, bail};

use crate::{shell, wasm};

/// Fails when any crate that is tested or shipped turns on `num-traits/std`.
pub fn check() -> Result<()> {
    // As it is built on this machine, and as it is built for the page.
    check_tree("features", &["--workspace"])?;
    check_tree(
        "features",
        &["--package=sim-wasm", "--target", wasm::TARGET],
    )?;
    // The program that compares speeds stands beside Criterion, which turns the feature on, but is
    // built without it: only so are its random numbers those that are shipped.
    check_tree("no-dev,features", &["--manifest-path=benches/Cargo.toml"])
}

fn check_tree(edges: &str, of: &[&str]) -> Result<()> {
    let tree = shell::output(
        shell::cargo(&["tree", "--locked", "--invert=num-traits", "--edges", edges]).args(of),
    )?;
    if let Err(error) = read(&tree) {
        print!("{tree}");
        bail!("cargo tree {}: {error}", of.join(" "));
    }
    Ok(())
}

/// Reads the tree of those who turn on num-traits' features.
fn read(tree: &str) -> Result<()> {
    let turned_on = |feature: &str| tree.contains(&format!("num-traits feature \"{feature}\""));
    if !turned_on("libm") {
        bail!("there is no num-traits with libm: this guard no longer sees what it guards");
    }
    for feature in ["std", "default"] {
        if turned_on(feature) {
            bail!(
                "a crate turns on num-traits' feature `{feature}` (see the tree above): \
                 random numbers would then differ between machines and WebAssembly"
            );
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::read;

    // What cargo 1.95 printed for small packages that had rand_distr and one thing more.

    const ALONE: &str = "\
num-traits v0.2.19
└── num-traits feature \"libm\"
    └── rand_distr v0.6.0
        └── yard v0.1.0 (/yard)
            └── yard feature \"default\" (command-line)
";

    const WITH_CRITERION: &str = "\
num-traits v0.2.19
├── num-traits feature \"libm\"
│   └── rand_distr v0.6.0
│       └── yard v0.1.0 (/yard)
│           └── yard feature \"default\" (command-line)
└── num-traits feature \"std\"
    └── criterion v0.8.2
        └── criterion feature \"cargo_bench_support\"
            [dev-dependencies]
            └── yard v0.1.0 (/yard) (*)
";

    const WITH_PLAIN_NUM_TRAITS: &str = "\
num-traits v0.2.19
├── num-traits feature \"default\"
│   └── yard v0.1.0 (/yard)
│       └── yard feature \"default\" (command-line)
├── num-traits feature \"libm\"
│   └── rand_distr v0.6.0
│       └── yard v0.1.0 (/yard) (*)
└── num-traits feature \"std\"
    └── num-traits feature \"default\" (*)
";

    const WITHOUT_LIBM: &str = "\
num-traits v0.2.19
└── yard v0.1.0 (/yard)
    └── yard feature \"default\" (command-line)
";

    #[test]
    fn a_build_without_the_platforms_maths_passes() {
        read(ALONE).unwrap();
    }

    #[test]
    fn whoever_turns_on_the_platforms_maths_is_caught() {
        for tree in [WITH_CRITERION, WITH_PLAIN_NUM_TRAITS] {
            let error = read(tree).unwrap_err().to_string();
            assert!(
                error.contains("random numbers would then differ"),
                "{error}"
            );
        }
    }

    #[test]
    fn a_tree_that_shows_no_random_numbers_is_no_proof() {
        assert!(read(WITHOUT_LIBM).is_err());
        assert!(read("").is_err());
    }
}
