//! Integration tests: one module for each promise.

mod bad_input;
mod scenario_files;
