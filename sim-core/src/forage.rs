//! Stub.
params! {
    /// Stub.
    ForageParameters {
        /// Stub.
        stub = 1.0, "-", 0.0..=1.0, Assumed, "stub";
    }
}
