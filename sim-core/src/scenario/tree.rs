//! A document as a tree: what TOML and JSON have in common, and where each part stands in the text.
//!
//! Both formats become this tree, and [`reader`](super::reader) makes the types of a file from it. So these types are
//! read by one code, which keeps the page's module small, and every fault has its place.

use crate::order;
use std::ops::Range;

use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::value::RawValue;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::reader::Fault;

/// How deep lists and tables lie in one another at most; files of this program have five.
const DEEPEST: usize = 64;

/// A part of a document, and where it stands.
#[derive(Debug)]
pub struct Node {
    pub span: Range<usize>,
    pub value: Value,
}

#[derive(Debug)]
pub enum Value {
    /// JSON's `null`.
    Nothing,
    Flag(bool),
    Whole(i128),
    Number(f64),
    Text(String),
    /// TOML's date without quotes, as it was written.
    Date(String),
    List(Vec<Node>),
    Table(Vec<Entry>),
}

/// A name in a table, and what it stands for.
#[derive(Debug)]
pub struct Entry {
    pub name: String,
    /// Where the name stands.
    pub span: Range<usize>,
    pub node: Node,
}

impl Node {
    /// The tree of a TOML document.
    pub fn of_toml(document: &Spanned<DeTable<'_>>) -> Self {
        Self {
            span: 0..0,
            value: table(document.get_ref()),
        }
    }

    /// The tree of a JSON text.
    ///
    /// # Errors
    /// What is no JSON, a name given twice in one table, and lists in lists without end.
    pub fn of_json(text: &str) -> Result<Self, Fault> {
        let raw: &RawValue = serde_json::from_str(text).map_err(|error| {
            let before: usize = text
                .split_inclusive('\n')
                .take(error.line().saturating_sub(1))
                .map(str::len)
                .sum();
            // The reader stops behind what it refuses.
            let mut at = (before + error.column().saturating_sub(1)).min(text.len());
            while !text.is_char_boundary(at) {
                at -= 1;
            }
            Fault::at(told(&error), at..at)
        })?;
        of_raw(raw.get(), text, DEEPEST)
    }

    /// Where the value at `path` stands; where it is absent, what would hold it.
    pub fn find(&self, path: &str) -> Option<Range<usize>> {
        let mut here = self;
        for (depth, step) in steps_of(path).iter().enumerate() {
            let next = match &here.value {
                Value::Table(entries) => entries
                    .iter()
                    .find(|entry| entry.name == *step)
                    .map(|entry| &entry.node),
                Value::List(items) => step.parse().ok().and_then(|at: usize| items.get(at)),
                _ => None,
            };
            match next {
                Some(next) => here = next,
                None if depth == 0 => return None,
                None => break,
            }
        }
        Some(here.span.clone())
    }

    /// The path of the innermost value that stands at `span`.
    pub fn path_to(&self, span: &Range<usize>) -> Option<String> {
        let deeper = match &self.value {
            Value::Table(entries) => entries.iter().find_map(|entry| {
                let path = entry.node.path_to(span)?;
                Some(joined(&entry.name, &path))
            }),
            Value::List(items) => items.iter().enumerate().find_map(|(index, item)| {
                let path = item.path_to(span)?;
                Some(joined(&format!("[{index}]"), &path))
            }),
            _ => None,
        };
        deeper.or_else(|| (self.span == *span).then(String::new))
    }
}

/// A step and the path behind it.
pub fn joined(step: &str, rest: &str) -> String {
    if rest.is_empty() || rest.starts_with('[') {
        format!("{step}{rest}")
    } else {
        format!("{step}.{rest}")
    }
}

fn table(table: &DeTable<'_>) -> Value {
    let mut entries: Vec<Entry> = table
        .iter()
        .map(|(name, value)| Entry {
            name: name.get_ref().to_string(),
            span: name.span(),
            node: of_spanned(value),
        })
        .collect();
    // The reader sorts by name; the first fault should be the first in the file.
    order::by_key(&mut entries, |entry| entry.span.start as i64);
    Value::Table(entries)
}

fn of_spanned(value: &Spanned<DeValue<'_>>) -> Node {
    let span = value.span();
    let value = match value.get_ref() {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(digits) => i128::from_str_radix(digits.as_str(), digits.radix())
            .map_or_else(
                |_| Value::Number(digits.as_str().parse().unwrap_or(f64::INFINITY)),
                Value::Whole,
            ),
        // The reader has seen that it is a number.
        DeValue::Float(digits) => Value::Number(digits.as_str().parse().unwrap_or(f64::NAN)),
        DeValue::Boolean(flag) => Value::Flag(*flag),
        DeValue::Datetime(date) => Value::Date(date.to_string()),
        DeValue::Array(items) => Value::List(items.iter().map(of_spanned).collect()),
        DeValue::Table(inner) => table(inner),
    };
    Node { span, value }
}

/// A value of JSON that is sound; `part` is a part of `text`.
fn of_raw(part: &str, text: &str, depth: usize) -> Result<Node, Fault> {
    let part = part.trim();
    let start = part.as_ptr() as usize - text.as_ptr() as usize;
    let span = start..start + part.len();
    let refused = |error: serde_json::Error| Fault::at(told(&error), span.clone());
    let Some(depth) = depth.checked_sub(1) else {
        return Err(Fault::at(
            "lists and tables lie too deep in one another".to_owned(),
            span,
        ));
    };
    let value = match part.as_bytes().first() {
        Some(b'{') => {
            let Entries(raw) = serde_json::from_str(part).map_err(refused)?;
            let mut entries: Vec<Entry> = Vec::with_capacity(raw.len());
            for (name, value) in raw {
                let Node { span, value: name } = of_raw(name.get(), text, depth)?;
                let Value::Text(name) = name else { continue };
                if entries.iter().any(|entry| entry.name == name) {
                    return Err(Fault::at("duplicate field".to_owned(), span).within(&name, None));
                }
                let node =
                    of_raw(value.get(), text, depth).map_err(|fault| fault.within(&name, None))?;
                entries.push(Entry { name, span, node });
            }
            Value::Table(entries)
        }
        Some(b'[') => {
            let raw: Vec<&RawValue> = serde_json::from_str(part).map_err(refused)?;
            let items = raw.iter().enumerate().map(|(index, item)| {
                of_raw(item.get(), text, depth)
                    .map_err(|fault| fault.within(&format!("[{index}]"), None))
            });
            Value::List(items.collect::<Result<_, _>>()?)
        }
        Some(b'"') => Value::Text(serde_json::from_str(part).map_err(refused)?),
        Some(b't') => Value::Flag(true),
        Some(b'f') => Value::Flag(false),
        Some(b'n') => Value::Nothing,
        _ => match part.parse() {
            Ok(whole) => Value::Whole(whole),
            Err(_) => Value::Number(part.parse().unwrap_or(f64::INFINITY)),
        },
    };
    Ok(Node { span, value })
}

/// The reader's message without its line and column.
fn told(error: &serde_json::Error) -> String {
    let message = error.to_string();
    match message.rsplit_once(" at line ") {
        Some((message, _)) => message.to_owned(),
        None => message,
    }
}

/// Names and values of a JSON object as they stand in the text, in their order.
struct Entries<'a>(Vec<(&'a RawValue, &'a RawValue)>);

impl<'de> Deserialize<'de> for Entries<'de> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct InOrder;
        impl<'de> Visitor<'de> for InOrder {
            type Value = Entries<'de>;

            fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str("a table")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries<'de>, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = map.next_entry()? {
                    entries.push(entry);
                }
                Ok(Entries(entries))
            }
        }
        deserializer.deserialize_map(InOrder)
    }
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
