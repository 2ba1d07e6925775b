//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod docs;
mod golden;
mod scenario_files;
mod story;
mod weather;
