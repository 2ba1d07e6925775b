//! The Combcast colony model: one honey bee colony, day by day.
//!
//! The model reads no file, no clock and no environment, and starts no thread: text goes in
//! ([`Scenario`], weather records), numbers come out ([`Season`]).

#[macro_use]
mod param;

pub mod adults;
pub mod agenda;
pub mod brood;
pub mod calendar;
pub mod colony;
pub mod comb;
pub mod day;
pub mod digest;
pub mod document;
pub mod draw;
pub mod drones;
pub mod ensemble;
mod error;
pub mod events;
pub mod evidence;
pub mod faces;
pub mod filter;
pub mod forage;
pub mod growth;
pub mod instruments;
pub mod ledger;
pub mod math;
pub mod mites;
pub mod moves;
pub mod nest;
pub mod observe;
pub(crate) mod order;
pub mod priors;
pub mod queen;
pub mod rng;
pub mod scenario;
pub mod search;
pub mod season;
pub mod sky;
pub mod sources;
pub(crate) mod spreadsheet;
pub mod stores;
pub mod story;
pub mod succession;
pub mod syrup;
pub mod treatments;
pub mod twin;
pub mod verdict;
pub mod visits;
pub mod weather;
pub mod window;
pub mod words;

pub use error::{Error, ErrorKind};
pub use param::{Basis, ParamInfo, Parameters};
pub use scenario::Scenario;
pub use season::{Event, Season, run};
