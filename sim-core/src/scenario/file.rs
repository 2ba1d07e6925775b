//! Reading and writing scenario files, in TOML or JSON, with errors that point at the fault.

use std::ops::Range;

use serde::de::DeserializeOwned;
use toml::de::DeTable;

use super::Scenario;
use super::reader::Fault;
use super::tree::Node;
use super::words::{excerpt, line_and_column, plain};
use super::writer::to_toml;
use crate::Error;
use crate::calendar::parse_date;

/// Largest scenario file that is read, in bytes.
pub const LARGEST_FILE: usize = 4_000_000;

impl Scenario {
    /// Reads a scenario from TOML and checks that it holds together.
    ///
    /// # Errors
    /// The first fault, with its line, column and path in `place`, and the line itself in `excerpt`.
    /// [`problems_in_toml`] finds all of them.
    ///
    /// ```
    /// use combcast_core::Scenario;
    /// let fault = Scenario::from_toml("name = \"Hive 3\"\nuntil = 2013-02-29\n").unwrap_err();
    /// assert_eq!(fault.place, "line 2, column 9: until");
    /// assert_eq!(fault.message, "there is no 29 February 2013: 2013 is not a leap year");
    /// ```
    pub fn from_toml(text: &str) -> Result<Self, Error> {
        read(text, false, true)
    }

    /// Reads a scenario from JSON and checks that it holds together.
    ///
    /// # Errors
    /// As [`Scenario::from_toml`]; but a fault of JSON that has the form of a scenario has its path alone, for such
    /// text is written by programs and seen by nobody.
    pub fn from_json(text: &str) -> Result<Self, Error> {
        read(text, true, false)
    }

    /// Reads a scenario file: JSON where the file name ends in `.json` or the text opens with `{`,
    /// otherwise TOML.
    ///
    /// # Errors
    /// As [`Scenario::from_toml`], with `file_name` put before the place; also for a file that is
    /// empty, is larger than [`LARGEST_FILE`] or is not UTF-8 text.
    pub fn from_bytes(bytes: &[u8], file_name: &str) -> Result<Self, Error> {
        let read = decode(bytes).and_then(|text| read(text, is_json(text, file_name), true));
        read.map_err(|error| error.within(file_name))
    }

    /// Writes the scenario as TOML that [`Scenario::from_toml`] reads back unchanged.
    ///
    /// # Errors
    /// A number of frames beyond what TOML can hold.
    pub fn to_toml(&self) -> Result<String, Error> {
        to_toml(self)
    }

    /// The season that the page opens with: a package in a wet spring at Alder Row.
    #[expect(clippy::missing_panics_doc, reason = "a test reads the same file")]
    pub fn default_package() -> Self {
        Self::from_toml(include_str!("../../../scenarios/wet-spring.toml"))
            .expect("the file is part of the program and tested")
    }
}

/// Every problem in a scenario file, each with its line; empty when there is none.
///
/// A file that cannot be read has one problem: where reading stopped.
pub fn problems_in_file(bytes: &[u8], file_name: &str) -> Vec<Error> {
    let problems = match decode(bytes) {
        Err(error) => vec![error],
        Ok(text) => problems_in(text, is_json(text, file_name)),
    };
    problems
        .into_iter()
        .map(|error| error.within(file_name))
        .collect()
}

/// Every problem in a scenario's TOML, each with its line; empty when there is none.
pub fn problems_in_toml(text: &str) -> Vec<Error> {
    match decode(text.as_bytes()) {
        Err(error) => vec![error],
        Ok(text) => problems_in(text, false),
    }
}

fn problems_in(text: &str, json: bool) -> Vec<Error> {
    match form::<Scenario>(text, json) {
        Err(error) => vec![error],
        Ok((scenario, tree)) => {
            let mut problems = scenario.problems();
            for problem in &mut problems {
                locate_in(&tree, problem, text);
            }
            problems
        }
    }
}

fn read(text: &str, json: bool, located: bool) -> Result<Scenario, Error> {
    let text = decode(text.as_bytes())?;
    let (scenario, tree) = form::<Scenario>(text, json)?;
    match scenario.validate() {
        Ok(()) => Ok(scenario),
        Err(mut error) => {
            if located {
                locate_in(&tree, &mut error, text);
            }
            Err(error)
        }
    }
}

/// Adds line, column and excerpt to an error whose place is a path such as `feed[1].litres`.
///
/// For steps that work on a scenario read from `text` (TOML), such as [`weather`](crate::weather).
/// An error that has an excerpt already, or whose path leads nowhere in the text, stays as it is.
#[must_use]
pub fn locate(mut error: Error, text: &str) -> Error {
    let tree = Node::of_toml(&DeTable::parse_recoverable(text).0);
    locate_in(&tree, &mut error, text);
    error
}

fn locate_in(tree: &Node, error: &mut Error, text: &str) {
    if error.excerpt.is_some() || error.place.is_empty() {
        return;
    }
    if let Some(span) = tree.find(&error.place) {
        point_at(error, text, span);
    }
}

/// The JSON Schema of the scenario format.
#[cfg(feature = "schema")]
pub fn scenario_schema() -> serde_json::Value {
    let schema = schemars::SchemaGenerator::default().into_root_schema_for::<Scenario>();
    schema.to_value()
}

/// The text of a file, without its byte order mark.
fn decode(bytes: &[u8]) -> Result<&str, Error> {
    if bytes.len() > LARGEST_FILE {
        return Err(Error::scenario(
            "",
            format!(
                "the file has {} bytes; a scenario has at most {LARGEST_FILE}. Is this a weather record?",
                bytes.len()
            ),
        ));
    }
    let text = text_of(bytes)?;
    if text.trim().is_empty() {
        return Err(Error::scenario(
            "",
            "the file is empty; a scenario has at least name, until, place, weather, start and hive",
        ));
    }
    Ok(text)
}

/// The text of bytes in UTF-8, without its byte order mark.
pub(crate) fn text_of(bytes: &[u8]) -> Result<&str, Error> {
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return Err(Error::scenario(
            "line 1",
            "the file is UTF-16 text; save it as UTF-8",
        ));
    }
    let text = std::str::from_utf8(bytes).map_err(|error| {
        let good = &bytes[..error.valid_up_to()];
        let line = 1 + good.iter().filter(|&&byte| byte == b'\n').count();
        Error::scenario(
            format!("line {line}"),
            format!(
                "byte 0x{:02x} is not UTF-8 text; save the file as UTF-8",
                bytes[error.valid_up_to()]
            ),
        )
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(text))
}

fn is_json(text: &str, file_name: &str) -> bool {
    let named_json = file_name
        .rsplit_once('.')
        .is_some_and(|(_, extension)| extension.eq_ignore_ascii_case("json"));
    named_json || text.trim_start().starts_with('{')
}

/// The tree of a TOML document.
fn tree_of_toml(text: &str) -> Result<Node, Fault> {
    let fault = match DeTable::parse(text) {
        Ok(document) => return Ok(Node::of_toml(&document)),
        Err(fault) => fault,
    };
    let span = fault.span();
    let written = span.clone().and_then(|span| text.get(span)).unwrap_or("");
    // The reader knows that there is no such day; the calendar can say why.
    if let Err(reason) = parse_date(written)
        && looks_like_date(written)
    {
        let span = span.unwrap_or_default();
        let tree = Node::of_toml(&DeTable::parse_recoverable(text).0);
        let path = tree.path_to(&span).unwrap_or_default();
        return Err(Fault::at(reason, span).within(&path, None));
    }
    Err(Fault {
        message: fault.message().to_owned(),
        path: String::new(),
        span,
    })
}

/// The form of a document alone, and its tree: whether it holds together is for later.
fn form<T: DeserializeOwned>(text: &str, json: bool) -> Result<(T, Node), Error> {
    let tree = if json {
        Node::of_json(text)
    } else {
        tree_of_toml(text)
    };
    tree.and_then(|tree| Ok((T::deserialize(&tree)?, tree)))
        .map_err(|fault| {
            let message = plain(&fault.message, &fault.path);
            let mut error = Error::scenario(fault.path, message);
            // What is missing from the whole is missed at its head.
            point_at(&mut error, text, fault.span.unwrap_or(0..0));
            error
        })
}

/// Reads the form of a document, JSON where the text opens with `{`, otherwise TOML: its names and the types of its
/// values, not whether it holds together.
///
/// # Errors
/// As [`Scenario::from_toml`].
pub fn read_form<T: DeserializeOwned>(text: &str) -> Result<T, Error> {
    let text = decode(text.as_bytes())?;
    form(text, is_json(text, "")).map(|(read, _)| read)
}

fn looks_like_date(written: &str) -> bool {
    written.len() == 10
        && written
            .bytes()
            .enumerate()
            .all(|(index, byte)| match index {
                4 | 7 => byte == b'-',
                _ => byte.is_ascii_digit(),
            })
}

/// Puts line and column before the place, and the line itself into the excerpt.
fn point_at(error: &mut Error, text: &str, span: Range<usize>) {
    let (line, column) = line_and_column(text, span.start);
    let whereabouts = format!("line {line}, column {column}");
    error.place = if error.place.is_empty() {
        whereabouts
    } else {
        format!("{whereabouts}: {}", error.place)
    };
    error.excerpt = Some(excerpt(text, span));
}
