//! Stub.
use serde::Serialize;
/// What holds laying back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Brake {
    /// Nothing but the queen's own rate.
    HerRate,
    /// Empty warm cells.
    EmptyCells,
    /// Nurse bees.
    Nurses,
    /// Pollen.
    Pollen,
    /// Food.
    Food,
    /// Warmth of the cluster.
    Warmth,
    /// She is caged.
    Caged,
    /// There is no laying queen.
    NoQueen,
}
/// The state of the queen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum QueenState {
    /// In her cage.
    Caged,
    /// Loose and mated.
    Laying,
    /// Dead or gone.
    None,
}
params! {
    /// Laying.
    QueenParameters {
        /// Most eggs that a good queen lays in a day.
        best_rate = 1500.0, "eggs/d", 500.0..=3000.0, Tuned, "stub";
    }
}
