//! What the readers of TOML and JSON report, said for people who keep bees.

use std::ops::Range;

/// Line and column of a byte, both counted from 1.
pub(crate) fn line_and_column(text: &str, at: usize) -> (usize, usize) {
    let before = text.get(..at).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = 1 + before.bytes().filter(|&byte| byte == b'\n').count();
    (line, 1 + before[line_start..].chars().count())
}

/// The line at `span`, with carets under the part of the span that stands on it.
///
/// A long line is cut to the neighbourhood of the fault; control characters become spaces.
pub(crate) fn excerpt(text: &str, span: Range<usize>) -> String {
    const BEFORE: usize = 60;
    const WIDTH: usize = 100;
    let (number, column) = line_and_column(text, span.start);
    let start = span.start.min(text.len());
    let line_start = text[..start].rfind('\n').map_or(0, |newline| newline + 1);
    let line = text[line_start..].lines().next().unwrap_or("");
    let offset = column - 1;
    let skipped = offset.saturating_sub(BEFORE);
    let shown: String = line
        .chars()
        .skip(skipped)
        .take(WIDTH)
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    let marked = text
        .get(span)
        .and_then(|marked| marked.lines().next())
        .map_or(0, |marked| marked.chars().count());
    let carets = marked.clamp(1, (WIDTH - (offset - skipped)).max(1));
    let gutter = number.to_string();
    format!(
        "{gutter} | {shown}\n{:width$} | {:indent$}{}",
        "",
        "",
        "^".repeat(carets),
        width = gutter.len(),
        indent = offset - skipped
    )
}

/// A reader's message in plain words; a message of another kind comes back as it is.
pub(crate) fn plain(message: &str, path: &str) -> String {
    if let Some((field, names)) = unknown(message, "unknown field `") {
        return not_among(field, "there is no field", "The fields here are", &names);
    }
    if let Some((value, names)) = unknown(message, "unknown variant `") {
        return not_among(value, "there is no choice", "The choices are", &names);
    }
    if let Some(field) = between(message, "missing field `", "`") {
        return format!("{field} is missing");
    }
    if message.starts_with("duplicate key") || message.starts_with("duplicate field") {
        return "this name is given twice".to_owned();
    }
    if message.starts_with("invalid type: sequence, expected struct ") {
        return format!("expected one table, got a list; write [{path}] with one pair of brackets");
    }
    let mismatch = ["invalid type: ", "invalid value: ", "invalid length "]
        .iter()
        .find_map(|head| message.strip_prefix(head)?.rsplit_once(", expected "));
    if let Some((got, expected)) = mismatch {
        return format!(
            "expected {}, got {}{}",
            thing(expected),
            shorten(&thing(got)),
            hint(got, expected, path)
        );
    }
    message.to_owned()
}

/// What most likely was meant by a mismatch that beginners meet.
fn hint(got: &str, expected: &str, path: &str) -> String {
    match (got, expected) {
        ("map", "a sequence") => format!("; write [[{path}]] with two pairs of brackets"),
        ("map", "f64") if path.starts_with("parameters.") => {
            "; write section and name together in quotes, as \"queen.best_rate\" = 1400".to_owned()
        }
        (got, expected)
            if path.starts_with("move[") && is_bare(got) && expected.starts_with("struct ") =>
        {
            let name = path.rsplit('.').next().unwrap_or(path);
            format!("; write {name} = {{}}, with its fields between the braces where it needs any")
        }
        _ => String::new(),
    }
}

/// Whether a yes or a number stands where a table should.
fn is_bare(got: &str) -> bool {
    ["boolean", "integer", "string", "floating point"]
        .iter()
        .any(|kind| got.starts_with(kind))
}

/// A type or a value as the readers name it, in words.
fn thing(name: &str) -> String {
    let words = match name {
        "f64" => "a number",
        "u8" | "u16" | "u32" | "u64" | "usize" => "a whole number, not negative",
        "i16" | "i32" | "i64" => "a whole number",
        "a string" => "text in quotes",
        "a sequence" | "sequence" => "a list",
        "a map" | "map" => "a table",
        "null" => "nothing",
        _ if name.starts_with("struct ") => "a table",
        _ if name.starts_with("enum ") || name.contains(" enum ") => "one of the choices in quotes",
        _ => {
            let value = ["floating point ", "integer ", "boolean "]
                .iter()
                .find_map(|head| name.strip_prefix(head));
            return match (value, name.strip_prefix("string ")) {
                (Some(value), _) => value.split('`').nth(1).unwrap_or(value).to_owned(),
                (None, Some(text)) => format!("the text {text}"),
                (None, None) => name.to_owned(),
            };
        }
    };
    words.to_owned()
}

fn not_among(given: &str, complaint: &str, list: &str, names: &[&str]) -> String {
    let given = shorten(given);
    let meant = nearest(&given, names.iter().copied())
        .map_or_else(String::new, |name| format!("; did you mean {name}?"));
    if names.is_empty() {
        return format!("{complaint} \"{given}\"");
    }
    format!(
        "{complaint} \"{given}\"{meant}\n{list}: {}",
        names.join(", ")
    )
}

/// The name nearest to what was written, if it is near enough to be meant.
pub(crate) fn nearest<'a>(given: &str, names: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let given = given.to_ascii_lowercase();
    names
        .map(|name| (strsim::damerau_levenshtein(&given, name), name))
        .filter(|(distance, name)| *distance <= 1.max(name.chars().count() / 3))
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

/// Splits "unknown field `x`, expected one of `a`, `b`" into x and the names.
fn unknown<'a>(message: &'a str, head: &str) -> Option<(&'a str, Vec<&'a str>)> {
    let rest = message.strip_prefix(head)?;
    let (given, rest) = rest
        .rsplit_once("`, expected ")
        .or_else(|| rest.rsplit_once("`, there are no "))?;
    Some((given, rest.split('`').skip(1).step_by(2).collect()))
}

fn between<'a>(message: &'a str, head: &str, tail: &str) -> Option<&'a str> {
    message
        .strip_prefix(head)?
        .rsplit_once(tail)
        .map(|(name, _)| name)
}

/// What was written, cut where it is too long to be repeated in a message.
pub(crate) fn shorten(text: &str) -> String {
    const LONGEST: usize = 60;
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    let mut short: String = text.chars().take(LONGEST).collect();
    short.push('…');
    short
}
