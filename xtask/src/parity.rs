//! The same bits natively and in WebAssembly: every shipped scenario, the bands of many colonies, and a verdict, in both modes; a German story.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use serde_json::Value;

use crate::report::Counts;
use crate::{page, shell, wasm};

/// Builds both sides and compares them.
pub fn parity() -> Result<()> {
    page::check_node()?;
    wasm::build()?;
    let counts = check()?;
    if counts.failed > 0 {
        bail!(
            "{} of {} differ",
            counts.failed,
            counts.failed + counts.passed
        );
    }
    println!(
        "{} seasons, bands, verdicts and stories are the same",
        counts.passed
    );
    Ok(())
}

/// Compares the command line with the module that was built before; one check for each scenario and mode.
pub fn check() -> Result<Counts> {
    let combcast = shell::build(
        &mut shell::cargo(&["build", "--locked", "--package=combcast", "--bin=combcast"]),
        &format!("combcast{}", std::env::consts::EXE_SUFFIX),
    )?;
    let scenarios = scenarios()?;
    let mut node = shell::program("node", &["xtask/node/parity.mjs"]);
    let lines = shell::output(node.args(&scenarios))?;
    let mut counts = Counts::default();
    for line in lines.lines() {
        let there: Value = serde_json::from_str(line).context("xtask/node/parity.mjs")?;
        let (file, mode) = (text(&there, "file")?, text(&there, "mode")?);
        match compare(&combcast, file, mode, &there)? {
            None => counts.passed += 1,
            Some(difference) => {
                println!("{file}, {mode}: {difference}");
                counts.failed += 1;
            }
        }
    }
    if counts.passed + counts.failed != 2 * scenarios.len() as u64 {
        bail!("WebAssembly did not answer for every scenario in both modes");
    }
    for mode in ["mean", "random"] {
        match compare_crowd(&combcast, mode)? {
            None => counts.passed += 1,
            Some(difference) => {
                println!("{CROWD}, {mode}: {difference}");
                counts.failed += 1;
            }
        }
    }
    match compare_story(&combcast)? {
        None => counts.passed += 1,
        Some(difference) => {
            println!("{CROWD}, German story: {difference}");
            counts.failed += 1;
        }
    }
    Ok(counts)
}

/// The scenario whose bands, verdict and search are compared, and its visits.
const CROWD: &str = "scenarios/wet-spring.toml";
const VISITS: &str = "scenarios/visits/alder-row-3.toml";

/// Lives many colonies natively and in WebAssembly; the first difference in words.
fn compare_crowd(combcast: &Path, mode: &str) -> Result<Option<String>> {
    const MEMBERS: &str = "60";
    const EVERY: &str = "9";
    const JUDGED: &str = "150";
    const SEARCHED: &str = "50";
    let combcast = |command: &str, arguments: &[&str]| -> Result<Value> {
        let program = combcast
            .to_str()
            .context("the target folder's name is not UTF-8")?;
        let mut program = shell::program(program, &[command, CROWD]);
        let text = shell::output(program.args(arguments).args(["--mode", mode, "--json"]))?;
        Ok(serde_json::from_str(&text)?)
    };
    let bands = combcast("bands", &["--members", MEMBERS, "--every", EVERY])?;
    let verdicts = combcast("verdict", &[VISITS, "--members", JUDGED])?;
    // What xtask/node/crowd.mjs wishes for.
    let wishes = [
        "--goal=few-mites",
        "--what=drone-frames,feed",
        "--no-chemicals",
    ];
    let found = [VISITS, "--members", SEARCHED];
    let found = combcast("search", &[&found[..], &wishes].concat())?;
    let mut node = shell::program("node", &["xtask/node/crowd.mjs"]);
    let there = shell::output(node.args([CROWD, mode, MEMBERS, EVERY, VISITS, JUDGED, SEARCHED]))?;
    let there: Value = serde_json::from_str(&there).context("xtask/node/crowd.mjs")?;
    Ok(differs(&bands, &there["bands"], "bands")
        .or_else(|| differs(&verdicts[0], &there["verdict"], "verdict"))
        .or_else(|| differs(&found, &there["found"], "found")))
}

/// A day whose story is told in German on both sides.
const TOLD_ON: &str = "2012-06-10";

/// Tells a German story natively and in WebAssembly; the difference in words. The command line breaks its lines.
fn compare_story(combcast: &Path) -> Result<Option<String>> {
    let program = combcast
        .to_str()
        .context("the target folder's name is not UTF-8")?;
    let mut program = shell::program(program, &["run", CROWD]);
    let here = shell::output(program.args(["--on", TOLD_ON, "--language", "de"]))?;
    let mut node = shell::program("node", &["xtask/node/story.mjs"]);
    let there = shell::output(node.args([CROWD, TOLD_ON, "de"]))?;
    let words = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (here, there) = (words(&here), words(&there));
    let told = there.contains("Bienen") && here.contains(&there);
    Ok((!told).then(|| format!("natively \"{here}\", in WebAssembly \"{there}\"")))
}

/// Where `here` does not have what `there` has: the path and both values. Numbers are compared exactly; JSON written
/// by JavaScript has no -0, so zeros count as one.
fn differs(here: &Value, there: &Value, path: &str) -> Option<String> {
    let same = match (here, there) {
        (Value::Object(here), Value::Object(there)) => {
            return there.iter().find_map(|(name, value)| {
                let mine = here.get(name).unwrap_or(&Value::Null);
                differs(mine, value, &format!("{path}.{name}"))
            });
        }
        (Value::Array(here), Value::Array(there)) if here.len() == there.len() => {
            let pairs = here.iter().zip(there).enumerate();
            return pairs
                .into_iter()
                .find_map(|(k, (here, there))| differs(here, there, &format!("{path}[{k}]")));
        }
        (Value::Number(here), Value::Number(there)) => here.as_f64() == there.as_f64(),
        _ => here == there,
    };
    (!same).then(|| format!("{path} is {here} natively, {there} in WebAssembly"))
}

/// The shipped scenario files, from the root of the repository.
fn scenarios() -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in shell::root().join("scenarios").read_dir()? {
        let name = PathBuf::from("scenarios").join(entry?.file_name());
        if name.extension().is_some_and(|ending| ending == "toml") {
            files.push(name);
        }
    }
    files.sort();
    if files.is_empty() {
        bail!("scenarios/ holds no scenario");
    }
    Ok(files)
}

/// Runs a scenario natively; the first difference in words.
fn compare(combcast: &Path, file: &str, mode: &str, there: &Value) -> Result<Option<String>> {
    let combcast = |arguments: &[&str]| {
        let program = combcast
            .to_str()
            .context("the target folder's name is not UTF-8")?;
        shell::output(&mut shell::program(program, arguments))
    };
    let season: Value = serde_json::from_str(&combcast(&["run", file, "--mode", mode, "--json"])?)?;
    if let Some(difference) = difference(&season, there)? {
        return Ok(Some(difference));
    }
    let (here, there) = (
        combcast(&["digest", file, "--mode", mode])?,
        text(there, "digest")?,
    );
    if here.trim() != there {
        return Ok(Some(format!(
            "digest {} natively, {there} in WebAssembly",
            here.trim()
        )));
    }
    Ok(None)
}

/// Compares a season's document with WebAssembly's columns, bit by bit; the first difference in words.
fn difference(season: &Value, there: &Value) -> Result<Option<String>> {
    let days = season["days"]
        .as_array()
        .context("the document has no days")?;
    let columns = there["values"]
        .as_object()
        .context("there are no columns")?;
    let brakes = there["brake"].as_array().context("there are no brakes")?;
    if columns.is_empty() || days.is_empty() {
        bail!("there is nothing to compare");
    }
    for (number, day) in days.iter().enumerate() {
        let date = &day["date"];
        for (name, bits) in columns {
            let here = day[name]
                .as_f64()
                .with_context(|| format!("{date}: {name} is no number"))?;
            let there = bits[number].as_str().unwrap_or_default();
            if format!("{:x}", here.to_bits()) != there {
                return Ok(Some(format!(
                    "{date}: {name} has the bits {:x} ({here}) natively, {there} in WebAssembly",
                    here.to_bits()
                )));
            }
        }
        if brakes.get(number) != Some(&day["brake"]) {
            return Ok(Some(format!("{date}: the brakes differ")));
        }
    }
    if brakes.len() != days.len() {
        return Ok(Some(format!(
            "{} days natively, {} in WebAssembly",
            days.len(),
            brakes.len()
        )));
    }
    Ok(None)
}

fn text<'a>(value: &'a Value, name: &str) -> Result<&'a str> {
    value[name]
        .as_str()
        .with_context(|| format!("there is no {name}"))
}

#[cfg(test)]
mod tests {
    use super::{difference, differs};
    use serde_json::json;

    #[test]
    fn the_smallest_difference_of_bands_has_a_path() {
        let here =
            json!({ "dates": [{ "date": "2012-05-01", "q05": 0.1, "more": 3 }], "none": null });
        let there =
            |low: f64| json!({ "dates": [{ "date": "2012-05-01", "q05": low }], "none": null });
        assert_eq!(differs(&here, &there(0.1), "bands"), None);
        let off = differs(&here, &there(0.1_f64.next_up()), "bands").unwrap();
        assert!(off.starts_with("bands.dates[0].q05 is 0.1"), "{off}");
        assert!(differs(&here, &json!({ "missing": 1 }), "bands").is_some());
        assert!(differs(&here, &json!({ "dates": [] }), "bands").is_some());
    }

    #[test]
    fn one_bit_of_one_number_is_a_difference() {
        let bees = 9900.1_f64;
        let season =
            json!({ "days": [{ "date": "2012-04-30", "adult_bees": bees, "brake": "caged" }] });
        let there = |bees: f64, brake: &str| json!({ "values": { "adult_bees": [format!("{:x}", bees.to_bits())] }, "brake": [brake] });
        assert_eq!(difference(&season, &there(bees, "caged")).unwrap(), None);
        let off = difference(&season, &there(bees.next_up(), "caged"))
            .unwrap()
            .unwrap();
        assert!(off.contains("adult_bees"), "{off}");
        assert!(difference(&season, &there(bees, "food")).unwrap().is_some());
        assert!(difference(&json!({ "days": [] }), &there(bees, "caged")).is_err());
    }
}
