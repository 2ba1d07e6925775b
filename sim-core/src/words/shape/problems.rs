//! What is wrong with a scenario or with what is asked.

use super::Pattern;

part! {
    /// What is wrong with a scenario or with what is asked, and what was expected.
    ProblemWords {
        range: Pattern,
        range_of: Pattern,
        units: [Pattern; 15],
        name_missing: Pattern,
        give_one: Pattern,
        give_only_one: Pattern,
        give_only_one_of: Pattern,
        /// Between the last of several.
        and: Pattern,
        give_some: Pattern,
        year: Pattern,
        season_ends_early: Pattern,
        season_too_long: Pattern,
        outside_season: Pattern,
        date: Pattern,
        feed_ends_early: Pattern,
        feed_amounts: Pattern,
        feed_kept_full: Pattern,
        move_not_true: Pattern,
        move_without_date: Pattern,
        move_ends_early: Pattern,
        move_needs_no_until: Pattern,
        of_box_alone: Pattern,
        patty_as_feed: Pattern,
        box_with_itself: Pattern,
        boxes: Pattern,
        entries: Pattern,
        low_above_high: Pattern,
        typed_twice: Pattern,
        spell_ends_early: Pattern,
        record_not_there: Pattern,
        nothing_allowed: Pattern,
        frame_never_in: Pattern,
        frame_in_on_last_day: Pattern,
        no_drone_frame: Pattern,
        name_a_place: Pattern,
        no_common_day: Pattern,
        nothing_fed: Pattern,
        no_move: Pattern,
        no_spell: Pattern,
        no_visit: Pattern,
        no_visit_why: Pattern,
        nothing_read: Pattern,
    }
}
