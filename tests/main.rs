//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod docs;
mod golden;
mod forage;
mod random_scenarios;
mod scenario_files;
mod scenarios;
mod sky;
mod story;
mod succession;
mod weather;
