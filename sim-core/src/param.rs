//! One row for each parameter: its documentation, default, unit, range and source, written once.
//!
//! A topic declares its parameters with [`params!`](crate::params) in its own file, and
//! [`Parameters`] lists the topics. Range checks, the command line's table, the page's evidence
//! table and the overrides of a scenario all read the rows.

use crate::Error;
use crate::error::ErrorKind;

/// One parameter as a row of the table.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct ParamInfo {
    /// Name within its section.
    pub name: &'static str,
    /// What it means, in a sentence.
    #[cfg(feature = "schema")]
    pub doc: &'static str,
    /// Value unless a scenario sets another.
    pub default: f64,
    /// Unit.
    pub unit: &'static str,
    /// Smallest value allowed.
    pub min: f64,
    /// Largest value allowed.
    pub max: f64,
    /// Key into [`sources`](crate::sources), followed by a remark where one is needed.
    #[cfg(feature = "schema")]
    pub source: &'static str,
    /// How the value was come by.
    pub basis: Basis,
}

/// How a parameter's value was come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Basis {
    /// Published; the source gives the value.
    Published,
    /// Plausible, not published and not fitted.
    Assumed,
    /// Chosen so that the model meets the check named in the source column.
    Tuned,
}

/// Declares a struct of `f64` parameters together with its table of [`ParamInfo`] rows.
///
/// Each row reads `/// meaning` then `name = default, "unit", min..=max, Basis, "source";`.
#[macro_export]
macro_rules! params {
    (
        $(#[doc = $struct_doc:literal])*
        $name:ident {
            $( $(#[doc = $doc:literal])+ $field:ident = $default:expr, $unit:literal, $min:literal ..= $max:literal, $basis:ident, $source:literal; )+
        }
    ) => {
        $(#[doc = $struct_doc])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $name {
            $( $(#[doc = $doc])+ #[doc = concat!("Unit: ", $unit, ". Source: ", $source, ".")] pub $field: f64, )+
        }

        impl Default for $name {
            fn default() -> Self {
                Self { $( $field: $default, )+ }
            }
        }

        impl $name {
            /// The rows of this section.
            pub const INFO: &'static [$crate::param::ParamInfo] = &[
                $( $crate::param::ParamInfo {
                    name: stringify!($field),
                    #[cfg(feature = "schema")]
                    doc: concat!($($doc),+).trim_ascii(),
                    default: $default,
                    unit: $unit,
                    min: $min,
                    max: $max,
                    #[cfg(feature = "schema")]
                    source: $source,
                    basis: $crate::param::Basis::$basis,
                }, )+
            ];

            /// The value called `name`, to read or to set.
            pub fn field_mut(&mut self, name: &str) -> Option<&mut f64> {
                match name {
                    $( stringify!($field) => Some(&mut self.$field), )+
                    _ => None,
                }
            }
        }
    };
}

/// Declares [`Parameters`]: one field for each section.
macro_rules! sections {
    ($( $(#[doc = $doc:literal])+ $section:ident: $type:ty, )+) => {
        /// Every parameter of the model, in sections. Frozen while a season runs.
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct Parameters {
            $( $(#[doc = $doc])+ pub $section: $type, )+
        }

        impl Parameters {
            /// Every section's name with its rows, in the order of the day.
            pub const INFO: &'static [(&'static str, &'static [ParamInfo])] =
                &[ $( (stringify!($section), <$type>::INFO), )+ ];

            pub(crate) fn field_mut(&mut self, section: &str, name: &str) -> Option<&mut f64> {
                match section {
                    $( stringify!($section) => self.$section.field_mut(name), )+
                    _ => None,
                }
            }
        }
    };
}

sections! {
    /// Flight weather and what bloom gives.
    forage: crate::forage::ForageParameters,
    /// Sugar and pollen: stores and feed.
    stores: crate::stores::StoresParameters,
    /// Comb building.
    comb: crate::comb::CombParameters,
    /// Laying and its brakes.
    queen: crate::queen::QueenParameters,
    /// Eggs, larvae and pupae.
    brood: crate::brood::BroodParameters,
    /// House bees and foragers.
    adults: crate::adults::AdultsParameters,
    /// Drones.
    drones: crate::drones::DronesParameters,
    /// What the beekeeper's hand does.
    moves: crate::moves::MovesParameters,
    /// Mites and the damage that they do.
    mites: crate::mites::MitesParameters,
    /// Queens and swarms.
    succession: crate::succession::SuccessionParameters,
    /// What nobody knows of a colony.
    priors: crate::priors::PriorsParameters,
    /// How far off what is seen at a visit can be.
    visits: crate::visits::VisitsParameters,
    /// From when on something is on the list of what to do next.
    agenda: crate::agenda::AgendaParameters,
}

impl Parameters {
    /// Sets `section.name` after checking the name and the range.
    ///
    /// # Errors
    /// An unknown name (the message lists the nearest section's names) or a value outside the
    /// parameter's range, NaN included.
    pub fn set(&mut self, path: &str, value: f64) -> Result<(), Error> {
        let fail = |message: String| {
            Err(Error::new(
                ErrorKind::Parameter,
                format!("parameters.\"{path}\""),
                message,
            ))
        };
        let (section, name) = path.split_once('.').unwrap_or((path, ""));
        let Some((_, rows)) = Self::INFO.iter().find(|(known, _)| *known == section) else {
            let known: Vec<_> = Self::INFO.iter().map(|(known, _)| *known).collect();
            return fail(format!(
                "no such section; expected section.name with one of the sections {}",
                known.join(", ")
            ));
        };
        let Some(row) = rows.iter().find(|row| row.name == name) else {
            let known: Vec<_> = rows.iter().map(|row| row.name).collect();
            return fail(format!(
                "no such parameter; {section} has {}",
                known.join(", ")
            ));
        };
        if !(row.min..=row.max).contains(&value) {
            return fail(format!(
                "expected {} to {} {}, got {value}",
                row.min, row.max, row.unit
            ));
        }
        *self
            .field_mut(section, name)
            .expect("the row stands in the table, so the field exists") = value;
        Ok(())
    }
}
