//! Stub.
params! {
    /// Stub.
    CombParameters {
        /// Stub.
        stub = 1.0, "-", 0.0..=1.0, Assumed, "stub";
    }
}
