//! What goes to the terminal: colour where it is wanted, width, tables, wrapped words, errors.

use std::io::{self, Write};
use std::process::ExitCode;

use crate::words;
use anstyle::{AnsiColor, Style};
use combcast_core::Error;
use combcast_core::story::{Emphasis, Sentence, Story};
use combcast_core::words::Language;
use comfy_table::{CellAlignment, ColumnConstraint, ContentArrangement, Table, Width};

/// Prose is hard to follow in longer lines.
const WIDEST_PROSE: usize = 88;

/// What A4 and Letter hold in a common type of even width.
const WIDEST_PAPER: usize = 80;

/// A space at which no line ends; a plain one once the lines are made.
const HARD_SPACE: &str = "\u{a0}";

pub const BOLD: Style = Style::new().bold();
pub const DIM: Style = Style::new().dimmed();
pub const GOOD: Style = AnsiColor::Green.on_default();
pub const BAD: Style = AnsiColor::Red.on_default().bold();
const BRAKE: Style = AnsiColor::Yellow.on_default().bold();
const WHEN: Style = AnsiColor::Blue.on_default();

/// Why a command did not end well.
#[derive(Debug)]
pub enum Failure {
    /// Something that was given is wrong; each with its place.
    Input(Vec<Error>),
    /// A file could not be read or written.
    File(String),
    /// An expectation was not met; the command has said which.
    Expectation,
}

impl Failure {
    pub fn exit_code(&self) -> ExitCode {
        match self {
            Self::Expectation => ExitCode::from(1),
            Self::Input(_) | Self::File(_) => ExitCode::from(2),
        }
    }
}

impl Failure {
    /// Its faults, where the hive that they belong to is one of many.
    pub fn of_hive(self, hive: &str) -> Vec<Error> {
        let within = |error: Error| {
            let named = hive.is_empty() || error.place.contains(&format!("hive {hive}"));
            if named {
                error
            } else {
                error.within(&format!("hive {hive}"))
            }
        };
        match self {
            Self::Input(errors) => errors.into_iter().map(within).collect(),
            Self::File(message) => vec![within(Error::scenario("", message))],
            Self::Expectation => Vec::new(),
        }
    }
}

/// All is well, unless some of the hives had faults.
pub fn after_faults(faults: Vec<Error>) -> Result<(), Failure> {
    if faults.is_empty() {
        Ok(())
    } else {
        Err(Failure::Input(faults))
    }
}

impl From<Error> for Failure {
    fn from(error: Error) -> Self {
        Self::Input(vec![error])
    }
}

/// Says on standard error what went wrong.
pub fn report(failure: &Failure) {
    let text = match failure {
        // `check` has told the faults already, file by file.
        Failure::Input(errors) if errors.is_empty() => return,
        Failure::Input(errors) => errors.iter().map(fault).collect::<Vec<_>>().join("\n\n"),
        Failure::File(message) => format!("{BAD}error{BAD:#}: {message}"),
        Failure::Expectation => return,
    };
    // Nothing is left to do when even standard error is closed.
    let _ = writeln!(anstream::stderr(), "{text}");
}

/// One fault: what, then where, then the line with its caret.
pub fn fault(error: &Error) -> String {
    let mut text = format!("{BAD}error{BAD:#}: ");
    if !error.place.is_empty() {
        text.push_str(&format!("{BOLD}{}{BOLD:#}: ", error.place));
    }
    text.push_str(&error.message);
    if let Some(excerpt) = &error.excerpt {
        text.push('\n');
        text.push_str(excerpt.trim_end());
    }
    text
}

/// Writes to standard output, without colour where it is not wanted (a file, a pipe, `NO_COLOR`).
///
/// A reader that has closed its end (`| head`) has seen enough: that is no failure.
pub fn write(text: &str) -> Result<(), Failure> {
    let mut out = anstream::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != io::ErrorKind::BrokenPipe => {
            Err(Failure::File(format!("standard output: {error}")))
        }
        _ => Ok(()),
    }
}

/// "Caution: " in red, and of what.
pub fn caution(of: &str, language: Language) -> String {
    format!("{BAD}{}{BAD:#}: {of}", words::of(language).shared.caution)
}

/// "Alder Row 3: " before something of a hive that has a name; without one it begins with a capital.
pub fn of_hive(hive: &str, what: &str, language: Language) -> String {
    if hive.is_empty() {
        let mut letters = what.chars();
        let first = letters.next().into_iter().flat_map(char::to_uppercase);
        return first.chain(letters).collect();
    }
    let parts = [("hive", hive), ("what", what)];
    words::text(words::of(language).shared.of_hive, &parts)
}

/// A document as JSON.
pub fn json(document: &impl serde::Serialize) -> Result<String, Failure> {
    serde_json::to_string_pretty(document)
        .map(|text| text + "\n")
        .map_err(|error| Failure::File(error.to_string()))
}

/// Columns of the terminal, as `COLUMNS` says or as it does itself; 80 where neither says it.
pub fn width() -> usize {
    let said = std::env::var("COLUMNS").ok();
    said.and_then(|columns| columns.parse().ok())
        .or_else(|| terminal_size::terminal_size().map(|(width, _)| usize::from(width.0)))
        .map_or(80, |width| width.max(40))
}

/// Words wrapped to the terminal, each line after `indent` spaces.
pub fn wrapped(text: &str, indent: usize) -> String {
    let space = " ".repeat(indent);
    wrap(text, &space, &space)
}

/// Words wrapped and set back, each line after `indent` spaces and with its end.
pub fn dim(text: &str, indent: usize) -> String {
    wrapped(text, indent)
        .lines()
        .map(|line| format!("{DIM}{line}{DIM:#}\n"))
        .collect()
}

/// Words wrapped to the terminal, each line but the first after `indent` spaces.
pub fn wrapped_after(text: &str, indent: usize) -> String {
    wrap(text, "", &" ".repeat(indent))
}

/// Words wrapped to a width of their own, for paper.
pub fn wrapped_for_paper(text: &str, first: &str, others: &str) -> String {
    wrap_to(WIDEST_PAPER, text, first, others)
}

fn wrap(text: &str, first: &str, others: &str) -> String {
    wrap_to(width().min(WIDEST_PROSE), text, first, others)
}

fn wrap_to(width: usize, text: &str, first: &str, others: &str) -> String {
    let options = textwrap::Options::new(width)
        .initial_indent(first)
        .subsequent_indent(others)
        .word_splitter(textwrap::WordSplitter::NoHyphenation)
        .word_separator(textwrap::WordSeparator::AsciiSpace);
    textwrap::fill(text, options).replace(HARD_SPACE, " ")
}

/// A story with its emphases as one paragraph.
pub fn story(story: &Story) -> String {
    let sentences: Vec<String> = story.sentences.iter().map(sentence).collect();
    wrapped(&sentences.join(" "), 0)
}

/// A story with its emphases, each sentence on a line of its own.
pub fn list(story: &Story) -> String {
    let lines: Vec<String> = story
        .sentences
        .iter()
        .map(|spans| wrapped(&sentence(spans), 0))
        .collect();
    lines.join("\n")
}

fn sentence(spans: &Sentence) -> String {
    spans
        .iter()
        .map(|span| {
            let style = match span.kind {
                Emphasis::Plain => return span.text.clone(),
                Emphasis::Brake => BRAKE,
                Emphasis::Caution => BAD,
                Emphasis::When => WHEN,
                Emphasis::Date => WHEN.bold(),
                _ => BOLD,
            };
            // Styled word by word, so that a line break does not fall inside of a style; a figure
            // stays with the word after it.
            let mut text = String::new();
            for word in span.text.split_inclusive(' ') {
                let figure = word.starts_with(|first: char| first.is_ascii_digit());
                let (word, space) = match word.strip_suffix(' ') {
                    Some(word) if figure => (word, HARD_SPACE),
                    Some(word) => (word, " "),
                    None => (word, ""),
                };
                text.push_str(&format!("{style}{word}{style:#}{space}"));
            }
            text
        })
        .collect()
}

/// A table in columns without rules; the columns named in `right` (by index) are aligned to the right. Where not even
/// its longest words have room beside each other, each row is a paragraph.
pub fn table<const N: usize>(
    headings: &[[&str; N]],
    right: &[usize],
    rows: impl IntoIterator<Item = [String; N]>,
) -> String {
    let rows: Vec<[String; N]> = rows.into_iter().collect();
    let longest: [usize; N] = std::array::from_fn(|k| {
        let cells = headings.iter().map(|row| row[k]);
        let cells = cells.chain(rows.iter().map(|row| &*row[k]));
        let words = cells.flat_map(str::split_whitespace);
        words.map(|word| word.chars().count()).max().unwrap_or(0)
    });
    if longest.iter().sum::<usize>() + N - 1 > width() {
        return paragraphs(headings, &rows);
    }
    let mut table = Table::new();
    table
        .load_style(comfy_table::TableStyle::new())
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(u16::try_from(width()).unwrap_or(u16::MAX));
    for heading in headings {
        table.add_row(heading.iter().map(|&text| text.to_owned()));
    }
    for row in rows {
        table.add_row(row);
    }
    // Two spaces between columns; one where the terminal is too narrow for that.
    let widths: u16 = table.column_max_content_widths().iter().sum();
    let space = if usize::from(widths) + 2 * (N - 1) <= width() {
        2
    } else {
        1
    };
    for (index, column) in table.column_iter_mut().enumerate() {
        column.set_padding((0, if index + 1 == N { 0 } else { space }));
        let least = u16::try_from(longest[index]).unwrap_or(u16::MAX);
        column.set_constraint(ColumnConstraint::LowerBoundary(Width::Fixed(
            least.saturating_add(space),
        )));
        if right.contains(&index) {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    let text = table.to_string();
    let mut lines = String::new();
    for (index, line) in text.lines().enumerate() {
        let line = line.trim_end();
        if index < headings.len() {
            lines.push_str(&format!("{DIM}{line}{DIM:#}\n"));
        } else {
            lines.push_str(line);
            lines.push('\n');
        }
    }
    lines
}

/// The rows of a table as paragraphs: the first cell, then the others after their headings.
fn paragraphs<const N: usize>(headings: &[[&str; N]], rows: &[[String; N]]) -> String {
    let mut text = String::new();
    for row in rows {
        let mut cells = Vec::new();
        for (k, cell) in row
            .iter()
            .enumerate()
            .skip(1)
            .filter(|(_, cell)| !cell.is_empty())
        {
            let mut words: Vec<&str> = headings.iter().map(|row| row[k]).collect();
            words.push(cell);
            words.retain(|word| !word.is_empty());
            cells.push(words.join(" "));
        }
        let told = format!("{}: {}", row[0].trim(), cells.join("; "));
        text.push_str(&wrapped_after(&told, 2));
        text.push('\n');
    }
    text
}

/// A number with as many decimals as it can use.
pub fn figure(value: f64) -> String {
    let decimals = match value.abs() {
        size if size >= 100.0 => return combcast_core::story::grouped(value),
        size if size >= 1.0 || size == 0.0 => 2,
        _ => 4,
    };
    let text = format!("{value:.decimals$}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    text.to_owned()
}

/// A whole number with its sign; 0 without.
pub fn signed_count(value: f64, language: Language) -> String {
    let text = language.grouped(value);
    if value.round() > 0.0 {
        format!("+{text}")
    } else {
        text
    }
}
