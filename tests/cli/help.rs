//! Help names what exists, and completions know it.

use std::path::Path;

use crate::common::good;

/// The subcommands as `--help` lists them.
fn subcommands() -> Vec<String> {
    let help = good(&["--help"]);
    let (_, list) = help.split_once("Commands:").expect("a list of commands");
    let names: Vec<String> = list
        .lines()
        .skip(1)
        .take_while(|line| !line.trim().is_empty())
        .filter_map(|line| line.strip_prefix("  "))
        // A long description goes on in lines that are indented further.
        .filter(|line| !line.starts_with(' '))
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help")
        .map(str::to_owned)
        .collect();
    assert!(names.len() >= 6, "{names:?}");
    names
}

#[test]
fn every_subcommand_has_help_with_an_example_of_itself() {
    for name in subcommands() {
        let help = good(&[&name, "--help"]);
        let (_, examples) = help.split_once("Example").expect("an example");
        assert!(examples.contains(&format!("combcast {name}")), "{help}");
    }
}

/// Every help there is, that of the program first.
fn helps() -> Vec<String> {
    let of_each = subcommands();
    let of_each = of_each.iter().map(|name| good(&[name, "--help"]));
    [good(&["--help"])].into_iter().chain(of_each).collect()
}

#[test]
fn examples_of_help_name_subcommands_files_and_options_that_exist() {
    let known = subcommands();
    let mut files = 0;
    for help in helps() {
        let (_, after) = help.split_once("Example").expect("an example");
        let examples = after
            .lines()
            .filter_map(|line| line.strip_prefix("  combcast "));
        for example in examples {
            let mut words = example.split_whitespace();
            let name = words.next().expect("a subcommand");
            assert!(known.iter().any(|one| one == name), "there is no {name}");
            let of_it = good(&[name, "--help"]);
            let (options, _) = of_it.split_once("Example").expect("an example");
            for word in words {
                if word.starts_with("--") {
                    assert!(options.contains(word), "{example}: there is no {word}");
                } else if word.starts_with("scenarios/") && !word.contains('*') {
                    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(word);
                    assert!(path.exists(), "{example}: there is no {word}");
                    files += 1;
                }
            }
        }
    }
    assert!(files > 20, "only {files} files were found");
}

#[test]
fn help_breaks_lines_at_its_margin_alone() {
    for help in helps() {
        let (_, after) = help.split_once("Example").expect("an example");
        let lines: Vec<&str> = after.lines().skip(1).collect();
        for pair in lines.windows(2) {
            let [line, next] = pair else { continue };
            assert!(line.chars().count() <= 80, "{line}");
            let word = next.split(' ').next().unwrap_or_default();
            // An example is its own line, broken or not.
            let prose = !line.starts_with("  ") && !line.is_empty() && !word.is_empty();
            let fits = line.chars().count() + 1 + word.chars().count() <= 80;
            assert!(!prose || !fits, "a line breaks early: {line} | {next}");
        }
    }
}

#[test]
fn completions_know_the_subcommands() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = good(&["completions", shell]);
        for name in subcommands() {
            assert!(script.contains(&name), "{shell} does not know {name}");
        }
    }
}
