//! Door.
