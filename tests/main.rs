//! Integration tests: one module for each promise.
