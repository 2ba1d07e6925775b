//! Integration tests: one module for each promise.

mod cli;
mod story;
mod weather;
mod bad_input;
mod scenario_files;
