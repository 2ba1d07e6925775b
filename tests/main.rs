//! Integration tests: one module for each promise.

mod agenda;
mod assumed;
mod bad_input;
mod calendar;
mod cli;
mod docs;
mod faces;
mod filter;
mod forage;
mod golden;
mod linear;
mod moves;
mod random_scenarios;
mod refusals;
mod scenario_files;
mod scenarios;
mod search;
mod sky;
mod story;
mod succession;
mod twin;
mod verdict;
mod weather;
mod window;
mod yard;
