//! Writing the types of a file as TOML.
//!
//! As in reading, a tree stands between the two: the types are written as JSON, which other parts of the program need
//! anyhow, and only the tree is written as TOML. To write each type as TOML directly would double its code.

use serde::ser::{Error as _, Serialize, SerializeMap, Serializer};

use super::tree::{Node, Value};
use crate::Error;

/// A document as TOML.
///
/// # Errors
/// A count beyond what TOML can hold.
pub fn to_toml<T: Serialize>(document: &T) -> Result<String, Error> {
    let json = serde_json::to_string(document).map_err(refused)?;
    let tree = Node::of_json(&json).map_err(|fault| refused(fault.message))?;
    toml::to_string_pretty(&tree).map_err(refused)
}

fn refused(reason: impl ToString) -> Error {
    Error::scenario("", reason.to_string())
}

impl Serialize for Node {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match &self.value {
            Value::Nothing => serializer.serialize_none(),
            Value::Flag(flag) => serializer.serialize_bool(*flag),
            Value::Whole(whole) => match i64::try_from(*whole) {
                Ok(whole) => serializer.serialize_i64(whole),
                Err(_) => Err(S::Error::custom(format!("{whole} is too large for TOML"))),
            },
            Value::Number(number) => serializer.serialize_f64(*number),
            Value::Text(text) | Value::Date(text) => serializer.serialize_str(text),
            Value::List(items) => serializer.collect_seq(items),
            Value::Table(entries) => {
                let mut table = serializer.serialize_map(None)?;
                // TOML has no word for what is absent.
                let present = entries
                    .iter()
                    .filter(|entry| !matches!(entry.node.value, Value::Nothing));
                for entry in present {
                    table.serialize_entry(&entry.name, &entry.node)?;
                }
                table.end()
            }
        }
    }
}
