//! Integration tests: one module for each promise.

mod weather;
