//! Integration tests: one module for each promise.

mod sky;
mod weather;
