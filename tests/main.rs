//! Integration tests: one module for each promise.

mod weather;
mod bad_input;
mod scenario_files;
