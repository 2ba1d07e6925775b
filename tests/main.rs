//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod docs;
mod golden;
mod random_scenarios;
mod scenario_files;
mod scenarios;
mod story;
mod weather;
