//! What many tests need: the program with its output, the repository, files of a test's own.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

use combcast_core::Scenario;
use combcast_core::weather::{self, Report, Weather};
use serde_json::Value;

/// The folder of the repository.
pub fn repository() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The program, in the folder of the repository, whatever the terminal of the tests is like.
pub fn combcast() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_combcast"));
    command
        .current_dir(repository())
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE")
        .env_remove("COLUMNS");
    command
}

/// What a call came to.
pub fn output(arguments: &[&str]) -> Output {
    combcast()
        .args(arguments)
        .output()
        .expect("the program starts")
}

/// Standard output of a call that must end well.
#[track_caller]
pub fn good(arguments: &[&str]) -> String {
    let output = output(arguments);
    let errors = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(0), "{arguments:?}: {errors}");
    String::from_utf8(output.stdout).expect("output is UTF-8")
}

/// Standard error of a call that must end with an exit code.
#[track_caller]
pub fn bad(arguments: &[&str], code: i32) -> String {
    let output = output(arguments);
    let errors = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(code), "{arguments:?}: {errors}");
    assert!(!errors.contains("panicked"), "{errors}");
    errors
}

/// Standard output of a call that must end well, as JSON.
#[track_caller]
pub fn json(arguments: &[&str]) -> Value {
    serde_json::from_str(&good(arguments)).expect("output is JSON")
}

/// A scenario file of this test, its weather drawn for a place type, so that it needs no other file.
pub fn scenario_file(name: &str, more: &str) -> PathBuf {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let record = repository().join("scenarios");
    assert!(record.is_dir());
    let text = format!(
        "name = \"Test\"\nuntil = 2012-07-31\n\
         place = {{ name = \"Alder Row\", latitude = 47.4 }}\n\
         weather.record = \"seattle\"\n\
         start = {{ date = 2012-04-30, package = {{ pounds = 3.0 }} }}\n\
         hive.box = [{{}}]\n{more}"
    );
    std::fs::write(&path, text).expect("the folder for test files takes a file");
    path
}

/// What a call came to that is given something on standard input.
pub fn output_of(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = combcast()
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut pipe = child.stdin.take().expect("a pipe");
    pipe.write_all(input).expect("the program reads");
    drop(pipe);
    child.wait_with_output().expect("the program ends")
}

/// The shipped record that a scenario names.
pub fn record(scenario: &Scenario) -> &'static [u8] {
    match scenario.weather.record.as_deref() {
        Some("new-york") => include_bytes!("../scenarios/weather/new-york-2012-2015.csv"),
        _ => include_bytes!("../scenarios/weather/seattle-2012-2015.csv"),
    }
}

/// A scenario from its text, and the record that it names.
pub fn scenario(text: &str) -> (Scenario, (Weather, Report)) {
    let scenario = Scenario::from_toml(text).expect("a sound scenario");
    let record = weather::read_for(&scenario, record(&scenario)).expect("a sound record");
    (scenario, record)
}

/// The established colony over two winters, where nothing is said of mites.
pub fn overwintered() -> String {
    include_str!("../scenarios/overwintered.toml").replace("mites_per_100_bees = 0\n", "")
}
