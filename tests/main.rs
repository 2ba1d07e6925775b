//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod scenario_files;
mod story;
mod weather;
