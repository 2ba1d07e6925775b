//! Integration tests: one module for each promise.

mod agenda;
mod bad_input;
mod calendar;
mod cli;
mod docs;
mod faces;
mod filter;
mod forage;
mod golden;
mod linear;
mod measured;
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
mod visit_tables;
mod weather;
mod window;
mod yard;
