//! Running other programs from the root of the repository.

use std::io::{BufRead, BufReader, ErrorKind};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use anyhow::{Context, Result, bail};

/// The root of the repository.
///
/// Cargo names the package's folder when it runs this program; the folder that it was compiled in
/// may be another clone that shares the target directory.
pub fn root() -> PathBuf {
    let package = std::env::var_os("CARGO_MANIFEST_DIR")
        .map_or_else(|| PathBuf::from(env!("CARGO_MANIFEST_DIR")), PathBuf::from);
    package
        .parent()
        .expect("xtask lies in the root of the repository")
        .to_owned()
}

/// A program to be run from the root of the repository.
pub fn program(name: &str, arguments: &[&str]) -> Command {
    let mut command = Command::new(name);
    command.args(arguments).current_dir(root());
    command
}

/// The cargo that runs this program.
pub fn cargo(arguments: &[&str]) -> Command {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    program(&cargo, arguments)
}

/// Runs a program to its end, its output going to the terminal.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().map_err(|e| cannot_start(command, &e))?;
    if !status.success() {
        bail!("`{}` failed ({status})", words(command));
    }
    Ok(())
}

/// Runs a program to its end and returns what it wrote; its error output goes to the terminal.
pub fn output(command: &mut Command) -> Result<String> {
    let output = command
        .stderr(Stdio::inherit())
        .output()
        .map_err(|e| cannot_start(command, &e))?;
    if !output.status.success() {
        bail!("`{}` failed ({})", words(command), output.status);
    }
    String::from_utf8(output.stdout)
        .with_context(|| format!("`{}` wrote what is not UTF-8", words(command)))
}

/// Runs a program to its end, shows each line of its output as it comes and hands it to `look`.
///
/// Returns whether the program succeeded.
pub fn watch(command: &mut Command, mut look: impl FnMut(&str)) -> Result<bool> {
    let mut child = command
        .stdout(Stdio::piped())
        .spawn()
        .map_err(|e| cannot_start(command, &e))?;
    let lines = BufReader::new(child.stdout.take().expect("the output is piped"));
    for line in lines.split(b'\n') {
        let line = line.with_context(|| format!("`{}`", words(command)))?;
        let line = String::from_utf8_lossy(&line);
        println!("{line}");
        look(&line);
    }
    Ok(child.wait()?.success())
}

/// Builds a package with the given words after `cargo build` and returns the file that it made
/// whose name ends as asked.
pub fn build(command: &mut Command, ending: &str) -> Result<PathBuf> {
    command.arg("--message-format=json-render-diagnostics");
    let messages = output(command)?;
    messages
        .lines()
        .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
        .filter(|message| message["reason"] == "compiler-artifact")
        .flat_map(|message| message["filenames"].as_array().cloned().unwrap_or_default())
        .filter_map(|name| name.as_str().map(PathBuf::from))
        .find(|path| path.file_name().is_some_and(|name| name == ending))
        .with_context(|| format!("`{}` made no {ending}", words(command)))
}

/// The first program of that name in the folders of `PATH`.
pub fn find_in_path(name: &str) -> Option<PathBuf> {
    let folders = std::env::var_os("PATH")?;
    std::env::split_paths(&folders)
        .map(|folder| folder.join(name))
        .find(|path| is_program(path))
}

/// Whether a file exists and may be run.
pub fn is_program(path: &Path) -> bool {
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        path.metadata()
            .is_ok_and(|file| file.is_file() && file.permissions().mode() & 0o111 != 0)
    }
    #[cfg(not(unix))]
    {
        path.is_file()
    }
}

fn cannot_start(command: &Command, error: &std::io::Error) -> anyhow::Error {
    let name = command.get_program().to_string_lossy();
    if let Some(folder) = command.get_current_dir().filter(|folder| !folder.is_dir()) {
        return anyhow::anyhow!("{} is missing", folder.display());
    }
    match error.kind() {
        ErrorKind::NotFound => anyhow::anyhow!("{name} is not installed, or not on the PATH"),
        _ => anyhow::anyhow!("{name} could not be started: {error}"),
    }
}

fn words(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_name().unwrap_or(command.get_program());
    let mut words = vec![name.to_string_lossy()];
    words.extend(command.get_args().map(|word| word.to_string_lossy()));
    words.join(" ")
}
