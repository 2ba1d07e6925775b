//! How departures from what is usual carry over from day to day.

/// How departures carry over: `today = kept · yesterday + fresh · draw`, in the order high, low.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct CarryOver {
    pub kept: [[f64; 2]; 2],
    /// Lower triangular.
    pub fresh: [[f64; 2]; 2],
}

/// Upper left part of the matrices published with WGEN, which were fitted to stations of the United States.
pub(super) const PUBLISHED: CarryOver = CarryOver {
    kept: [[0.567, 0.086], [0.253, 0.504]],
    fresh: [[0.781, 0.0], [0.328, 0.637]],
};

impl CarryOver {
    /// `kept` = M₁M₀⁻¹ and `fresh` = the triangular root of M₀ - kept·M₁ᵀ, from the moments of the
    /// departures of a day (M₀) and of a day with the day before (M₁).
    pub fn from_moments(same: [[f64; 2]; 2], lagged: [[f64; 2]; 2]) -> Option<Self> {
        let determinant = same[0][0] * same[1][1] - same[0][1] * same[1][0];
        if determinant <= 1e-6 {
            return None;
        }
        let inverse = [
            [same[1][1] / determinant, -same[0][1] / determinant],
            [-same[1][0] / determinant, same[0][0] / determinant],
        ];
        let entry = |a: &[[f64; 2]; 2], b: &[[f64; 2]; 2], i: usize, j: usize| {
            a[i][0] * b[0][j] + a[i][1] * b[1][j]
        };
        let kept = [0, 1].map(|i| [0, 1].map(|j| entry(&lagged, &inverse, i, j)));
        let rest = |i: usize, j: usize| {
            same[i][j] - (kept[i][0] * lagged[j][0] + kept[i][1] * lagged[j][1])
        };
        let first = rest(0, 0).sqrt();
        let across = rest(1, 0) / first;
        let second = (rest(1, 1) - across * across).sqrt();
        let trace = kept[0][0] + kept[1][1];
        let product = kept[0][0] * kept[1][1] - kept[0][1] * kept[1][0];
        let dies_away = product.abs() < 1.0 && trace.abs() < 1.0 + product;
        (dies_away && first > 0.0 && second > 0.0).then_some(Self {
            kept,
            fresh: [[first, 0.0], [across, second]],
        })
    }
}
