//! Integration tests: one module for each promise.

mod cli;
mod story;
mod weather;
mod bad_input;
mod docs;
mod golden;
mod scenario_files;
