//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod docs;
mod filter;
mod forage;
mod golden;
mod linear;
mod random_scenarios;
mod scenario_files;
mod scenarios;
mod sky;
mod story;
mod succession;
mod twin;
mod verdict;
mod weather;
