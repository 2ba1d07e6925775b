//! What a visit found that cannot wait, what it means, and what to do about it.

use super::{Counted, Pattern};

part! {
    /// What a visit found that cannot wait. Where there are four, by what queen cells mean: the queen is gone, a swarm
    /// is about to leave, cells are being raised, nobody looked for eggs or queen.
    AlarmWords {
        /// Each in a few words.
        names: [Pattern; 6],
        cells_found: Pattern,
        cells_charged: Counted,
        cells_capped: Counted,
        cells_both: Pattern,
        cells_mean: [Pattern; 4],
        cells_do: [Pattern; 4],
        cells_tell: Pattern,
        cells_title: Pattern,
        cells_why: Pattern,
        no_stores: Pattern,
        low_stores: Pattern,
        feed_now: Pattern,
        mites: Pattern,
        fallen: Pattern,
        treat_now: Pattern,
        no_bees: Pattern,
        all_lost: Pattern,
        starved: Pattern,
        lost_title: Pattern,
        lost_do: [Pattern; 3],
        lost_why: Pattern,
        at_odds: Pattern,
        at_odds_title: Pattern,
        at_odds_do: Pattern,
        at_odds_why: Pattern,
        disease: Pattern,
    }
}
