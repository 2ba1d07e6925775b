//! Making the types of a file from its tree; a fault knows its path and its place in the text.

use std::fmt;
use std::ops::Range;

use serde::de::value::StrDeserializer;
use serde::de::{
    self, DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess,
    Unexpected, Visitor,
};
use serde::forward_to_deserialize_any;

use super::tree::{Entry, Node, Value, joined};

/// What does not fit, at which path, and where that stands in the text.
#[derive(Debug)]
pub struct Fault {
    pub message: String,
    pub path: String,
    pub span: Option<Range<usize>>,
}

impl Fault {
    pub fn at(message: String, span: Range<usize>) -> Self {
        Self {
            message,
            path: String::new(),
            span: Some(span),
        }
    }

    /// The fault as seen from what holds it; stands at `span` unless its place is known better.
    #[must_use]
    pub fn within(mut self, step: &str, span: Option<&Range<usize>>) -> Self {
        self.path = joined(step, &self.path);
        self.span = self.span.or_else(|| span.cloned());
        self
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Fault {}

impl de::Error for Fault {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self {
            message: message.to_string(),
            path: String::new(),
            span: None,
        }
    }
}

impl Node {
    fn unexpected(&self) -> Unexpected<'_> {
        match &self.value {
            Value::Nothing => Unexpected::Other("null"),
            Value::Flag(flag) => Unexpected::Bool(*flag),
            Value::Whole(whole) => match (i64::try_from(*whole), u64::try_from(*whole)) {
                (Ok(whole), _) => Unexpected::Signed(whole),
                (_, Ok(whole)) => Unexpected::Unsigned(whole),
                _ => Unexpected::Float(*whole as f64),
            },
            Value::Number(number) => Unexpected::Float(*number),
            Value::Text(text) => Unexpected::Str(text),
            Value::Date(_) => Unexpected::Other("a date without quotes"),
            Value::List(_) => Unexpected::Seq,
            Value::Table(_) => Unexpected::Map,
        }
    }

    fn refused<'de, V: Visitor<'de>>(&self, visitor: &V) -> Fault {
        de::Error::invalid_type(self.unexpected(), visitor)
    }

    fn number<'de, V: Visitor<'de>>(&self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            Value::Whole(whole) => match (i64::try_from(whole), u64::try_from(whole)) {
                (Ok(whole), _) => visitor.visit_i64(whole),
                (_, Ok(whole)) => visitor.visit_u64(whole),
                _ => visitor.visit_f64(whole as f64),
            },
            Value::Number(number) => visitor.visit_f64(number),
            _ => Err(self.refused(&visitor)),
        }
    }
}

macro_rules! numbers {
    ($($method:ident)+) => {
        $(
            fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
                self.number(visitor)
            }
        )+
    };
}

impl<'de> Deserializer<'de> for &'de Node {
    type Error = Fault;

    /// For what has several forms: a date stands in quotes or not.
    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.value {
            Value::Text(text) | Value::Date(text) => visitor.visit_borrowed_str(text),
            Value::Flag(flag) => visitor.visit_bool(*flag),
            Value::Whole(_) | Value::Number(_) => self.number(visitor),
            _ => Err(self.refused(&visitor)),
        }
    }

    numbers! {
        deserialize_u8 deserialize_u16 deserialize_u32 deserialize_u64
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64
        deserialize_f32 deserialize_f64
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            Value::Flag(flag) => visitor.visit_bool(flag),
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.value {
            Value::Text(text) => visitor.visit_borrowed_str(text),
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.value {
            Value::Nothing => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.value {
            Value::List(items) => visitor.visit_seq(Items { items, next: 0 }),
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_tuple<V: Visitor<'de>>(self, _: usize, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_seq(visitor)
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.value {
            Value::Table(entries) => visitor.visit_map(Entries { entries, next: 0 }),
            _ => Err(self.refused(&visitor)),
        }
    }

    /// Serde would take a list for a table with its fields in order; a file of ours has names.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        self.deserialize_map(visitor)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match &self.value {
            Value::Text(text) => visitor.visit_enum(Choice(text)),
            _ => Err(self.refused(&visitor)),
        }
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_str(visitor)
    }

    forward_to_deserialize_any! { i128 u128 char bytes byte_buf unit unit_struct tuple_struct ignored_any }
}

struct Items<'de> {
    items: &'de [Node],
    next: usize,
}

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Fault> {
        let Some(item) = self.items.get(self.next) else {
            return Ok(None);
        };
        self.next += 1;
        match seed.deserialize(item) {
            Ok(value) => Ok(Some(value)),
            Err(fault) => Err(fault.within(&format!("[{}]", self.next - 1), Some(&item.span))),
        }
    }
}

struct Entries<'de> {
    entries: &'de [Entry],
    next: usize,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Fault> {
        let Some(Entry { name, span, .. }) = self.entries.get(self.next) else {
            return Ok(None);
        };
        self.next += 1;
        let name_alone: StrDeserializer<'_, Fault> = name.as_str().into_deserializer();
        match seed.deserialize(name_alone) {
            Ok(key) => Ok(Some(key)),
            Err(fault) => Err(fault.within(name, Some(span))),
        }
    }

    /// Never inlined: what a file does not have is then none of the code that reads it, and the page's first plan has little.
    #[inline(never)]
    fn next_value_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<T::Value, Fault> {
        let Some(Entry { name, node, .. }) = self.entries.get(self.next.wrapping_sub(1)) else {
            return Err(de::Error::custom("a value was asked for before its name"));
        };
        seed.deserialize(node)
            .map_err(|fault| fault.within(name, Some(&node.span)))
    }
}

/// One of the choices, by its name.
struct Choice<'de>(&'de str);

impl<'de> EnumAccess<'de> for Choice<'de> {
    type Error = Fault;
    type Variant = NameAlone;

    fn variant_seed<T: DeserializeSeed<'de>>(
        self,
        seed: T,
    ) -> Result<(T::Value, NameAlone), Fault> {
        let name: StrDeserializer<'_, Fault> = self.0.into_deserializer();
        seed.deserialize(name).map(|choice| (choice, NameAlone))
    }
}

/// Choices of files are names without anything in them.
struct NameAlone;

impl<'de> de::VariantAccess<'de> for NameAlone {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, _: T) -> Result<T::Value, Fault> {
        Err(de::Error::custom("expected a name alone"))
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, Fault> {
        Err(de::Error::custom("expected a name alone"))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _: &'static [&'static str],
        _: V,
    ) -> Result<V::Value, Fault> {
        Err(de::Error::custom("expected a name alone"))
    }
}
