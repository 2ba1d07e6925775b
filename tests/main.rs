//! Integration tests: one module for each promise.

mod cli;
mod story;
mod weather;
mod bad_input;
mod random_scenarios;
mod scenario_files;
