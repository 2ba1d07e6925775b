//! Stub.
params! {
    /// Stub.
    DronesParameters {
        /// Stub.
        stub = 1.0, "-", 0.0..=1.0, Assumed, "stub";
    }
}
