//! Integration tests: one module for each promise.

mod bad_input;
mod cli;
mod forage;
mod scenario_files;
mod sky;
mod story;
mod weather;
