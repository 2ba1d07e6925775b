//! Integration tests: one module for each promise.

mod bad_input;
mod random_scenarios;
mod scenario_files;
