//! Integration tests: one module for each promise.

mod cli;
mod story;
mod weather;
