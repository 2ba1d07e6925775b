//! Reading and writing scenario files, in TOML or JSON, with errors that point at the fault.

use std::ops::Range;

use toml::de::{DeTable, DeValue};

use super::Scenario;
use super::words::{excerpt, line_and_column, plain};
use crate::Error;

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
        let scenario: Self = parse_toml(text, &LISTS)?;
        match scenario.validate() {
            Ok(()) => Ok(scenario),
            Err(error) => Err(locate(error, text)),
        }
    }

    /// Reads a scenario from JSON and checks that it holds together.
    ///
    /// # Errors
    /// The first fault; its path in `place`, and line and column too where the JSON does not fit the
    /// format.
    pub fn from_json(text: &str) -> Result<Self, Error> {
        let scenario = parse_json(text)?;
        scenario.validate()?;
        Ok(scenario)
    }

    /// Reads a scenario file: JSON where the file name ends in `.json` or the text opens with `{`,
    /// otherwise TOML.
    ///
    /// # Errors
    /// As [`Scenario::from_toml`], with `file_name` put before the place; also for a file that is
    /// empty, is larger than [`LARGEST_FILE`] or is not UTF-8 text.
    pub fn from_bytes(bytes: &[u8], file_name: &str) -> Result<Self, Error> {
        let read = decode(bytes).and_then(|text| {
            if is_json(text, file_name) {
                Self::from_json(text)
            } else {
                Self::from_toml(text)
            }
        });
        read.map_err(|error| error.within(file_name))
    }

    /// Writes the scenario as TOML that [`Scenario::from_toml`] reads back unchanged.
    ///
    /// # Errors
    /// A number of frames beyond what TOML can hold.
    pub fn to_toml(&self) -> Result<String, Error> {
        toml::to_string_pretty(self).map_err(|error| Error::scenario("", error.to_string()))
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
        Ok(text) if is_json(text, file_name) => match parse_json(text) {
            Err(error) => vec![error],
            Ok(scenario) => scenario.problems(),
        },
        Ok(text) => problems_in_toml(text),
    };
    problems
        .into_iter()
        .map(|error| error.within(file_name))
        .collect()
}

/// Every problem in a scenario's TOML, each with its line; empty when there is none.
pub fn problems_in_toml(text: &str) -> Vec<Error> {
    match parse_toml::<Scenario>(text, &LISTS) {
        Err(error) => vec![error],
        Ok(scenario) => {
            let mut problems = scenario.problems();
            locate_all(&mut problems, text);
            problems
        }
    }
}

/// Adds line, column and excerpt to an error whose place is a path such as `feed[1].litres`.
///
/// For steps that work on a scenario read from `text` (TOML), such as [`weather`](crate::weather).
/// An error that has an excerpt already, or whose path leads nowhere in the text, stays as it is.
#[must_use]
pub fn locate(mut error: Error, text: &str) -> Error {
    locate_all(std::slice::from_mut(&mut error), text);
    error
}

fn locate_all(errors: &mut [Error], text: &str) {
    let mut document = None;
    for error in errors {
        if error.excerpt.is_some() || error.place.is_empty() {
            continue;
        }
        let document = document.get_or_insert_with(|| DeTable::parse_recoverable(text).0);
        if let Some(span) = find(document.get_ref(), &error.place) {
            point_at(error, text, span);
        }
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
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    if text.trim().is_empty() {
        return Err(Error::scenario(
            "",
            "the file is empty; a scenario has at least name, until, place, weather, start and hive",
        ));
    }
    Ok(text)
}

fn is_json(text: &str, file_name: &str) -> bool {
    let named_json = file_name
        .rsplit_once('.')
        .is_some_and(|(_, extension)| extension.eq_ignore_ascii_case("json"));
    named_json || text.trim_start().starts_with('{')
}

/// Reads a document whose `lists` are the only names that hold lists.
pub(crate) fn parse_toml<T: serde::de::DeserializeOwned>(
    text: &str,
    lists: &[&str],
) -> Result<T, Error> {
    let text = decode(text.as_bytes())?;
    let fail = |path: &str, fault: &toml::de::Error| {
        let mut error = Error::scenario(path, plain(fault.message(), path));
        if let Some(span) = fault.span() {
            point_at(&mut error, text, span);
        }
        error
    };
    let document = match DeTable::parse(text) {
        Ok(document) => document,
        Err(fault) => {
            let written = fault.span().and_then(|span| text.get(span)).unwrap_or("");
            // The reader knows that there is no such day; the calendar can say why.
            if let Err(reason) = crate::calendar::parse_date(written)
                && looks_like_date(written)
            {
                let (document, _) = DeTable::parse_recoverable(text);
                let span = fault.span().unwrap_or_default();
                let path = path_to(document.get_ref(), &span).unwrap_or_default();
                let mut error = Error::scenario(path, reason);
                point_at(&mut error, text, span);
                return Err(error);
            }
            return Err(fail("", &fault));
        }
    };
    let misplaced = misplaced_list(document.get_ref(), "", lists);
    let read = serde_path_to_error::deserialize(toml::Deserializer::from(document));
    let fault = match (read, misplaced) {
        (Ok(read), None) => return Ok(read),
        (Err(fault), None) => fault,
        (Err(fault), Some((list, _)))
            if !path_of(fault.path()).starts_with(&format!("{list}[")) =>
        {
            fault
        }
        (_, Some((list, span))) => {
            let message =
                format!("expected one table, got a list; write [{list}] with one pair of brackets");
            let mut error = Error::scenario(list, message);
            point_at(&mut error, text, span);
            return Err(error);
        }
    };
    Err(fail(&path_of(fault.path()), fault.inner()))
}

/// Names of the format that hold lists; a test holds them against the schema.
const LISTS: [&str; 8] = [
    "bloom", "box", "contents", "expect", "feed", "move", "rain", "typed",
];

/// The first name that holds a list of tables and should not.
///
/// The reader takes a list for a table with its fields in order, and would complain about an entry.
fn misplaced_list(
    table: &DeTable<'_>,
    path: &str,
    lists: &[&str],
) -> Option<(String, Range<usize>)> {
    table.iter().find_map(|(key, value)| {
        let path = if path.is_empty() {
            key.get_ref().to_string()
        } else {
            format!("{path}.{}", key.get_ref())
        };
        match value.get_ref() {
            DeValue::Array(_) if !lists.contains(&key.get_ref().as_ref()) => {
                Some((path, value.span()))
            }
            DeValue::Table(table) => misplaced_list(table, &path, lists),
            _ => None,
        }
    })
}

fn parse_json(text: &str) -> Result<Scenario, Error> {
    let text = decode(text.as_bytes())?;
    let fail = |path: &str, fault: &serde_json::Error| {
        let message = fault.to_string();
        let message = message
            .rsplit_once(" at line ")
            .map_or(message.as_str(), |(message, _)| message);
        let mut error = Error::scenario(path, plain(message, path));
        if fault.line() > 0 {
            let before: usize = text
                .split_inclusive('\n')
                .take(fault.line() - 1)
                .map(str::len)
                .sum();
            // The reader stops behind the value that it refuses.
            let mut at = (before + fault.column().saturating_sub(1)).min(text.len());
            while !text.is_char_boundary(at) {
                at -= 1;
            }
            point_at(&mut error, text, at..at);
        }
        error
    };
    let mut reader = serde_json::Deserializer::from_str(text);
    let scenario = serde_path_to_error::deserialize(&mut reader)
        .map_err(|fault| fail(&path_of(fault.path()), fault.inner()))?;
    reader.end().map_err(|fault| fail("", &fault))?;
    Ok(scenario)
}

/// The path as this crate writes it: nothing for the whole file.
fn path_of(path: &serde_path_to_error::Path) -> String {
    let path = path.to_string();
    if path == "." { String::new() } else { path }
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

/// Where the value at `path` stands; where it is absent, what would hold it.
fn find(document: &DeTable<'_>, path: &str) -> Option<Range<usize>> {
    let mut steps = steps_of(path).into_iter();
    let value = document.get(steps.next()?.as_str())?;
    let mut span = value.span();
    let mut here = value;
    for step in steps {
        let next = match here.get_ref() {
            DeValue::Table(table) => table.get(step.as_str()),
            DeValue::Array(array) => step.parse().ok().and_then(|index: usize| array.get(index)),
            _ => None,
        };
        let Some(next) = next else { break };
        span = next.span();
        here = next;
    }
    Some(span)
}

/// The path of the innermost value that stands at `span`.
fn path_to(table: &DeTable<'_>, span: &Range<usize>) -> Option<String> {
    fn inside(value: &DeValue<'_>, at: Range<usize>, span: &Range<usize>) -> Option<String> {
        let deeper = match value {
            DeValue::Table(table) => path_to(table, span).map(|path| format!(".{path}")),
            DeValue::Array(array) => array.iter().enumerate().find_map(|(index, item)| {
                inside(item.get_ref(), item.span(), span).map(|path| format!("[{index}]{path}"))
            }),
            _ => None,
        };
        deeper.or_else(|| (at == *span).then(String::new))
    }
    table.iter().find_map(|(key, value)| {
        inside(value.get_ref(), value.span(), span).map(|path| format!("{}{path}", key.get_ref()))
    })
}

/// Splits `parameters."queen.best_rate"` or `feed[1].litres` into names and indices.
fn steps_of(path: &str) -> Vec<String> {
    let mut steps = Vec::new();
    let mut step = String::new();
    let mut quoted = false;
    for c in path.chars() {
        match c {
            '"' => quoted = !quoted,
            '.' | '[' | ']' if !quoted => {
                if !step.is_empty() {
                    steps.push(std::mem::take(&mut step));
                }
            }
            _ => step.push(c),
        }
    }
    if !step.is_empty() {
        steps.push(step);
    }
    steps
}

#[cfg(all(test, feature = "schema"))]
mod tests {
    use super::*;

    #[test]
    fn lists_are_those_of_the_schema() {
        fn gather(schema: &serde_json::Value, names: &mut Vec<String>) {
            for (name, property) in schema["properties"].as_object().into_iter().flatten() {
                if property["type"] == "array" {
                    names.push(name.clone());
                }
            }
        }
        let schema = scenario_schema();
        let mut names = Vec::new();
        gather(&schema, &mut names);
        for definition in schema["$defs"].as_object().into_iter().flatten() {
            gather(definition.1, &mut names);
        }
        names.sort();
        assert_eq!(names, LISTS);
    }
}
