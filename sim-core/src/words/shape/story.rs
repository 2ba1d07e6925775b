//! The season in words: its story, its twin, the window of a drone frame.

use super::{Counted, Pattern};

part! {
    /// The story of a day, the season at a glance, the table of weeks.
    StoryWords {
        opening: Pattern,
        lost: Pattern,
        since_start: Pattern,
        since_today: Pattern,
        since_yesterday: Pattern,
        since_weekday: Pattern,
        since_date: Pattern,
        most_days: Pattern,
        held: Pattern,
        held_why: Pattern,
        held_today: Pattern,
        held_today_why: Pattern,
        /// What holds her back, by brake; her cage where she is in it or comes out of it.
        held_by: [Pattern; 8],
        free: Pattern,
        free_today: Pattern,
        rests: Pattern,
        caged: Pattern,
        caged_until: Pattern,
        caged_today: Pattern,
        no_queen: Pattern,
        why_join: Pattern,
        why_full: Pattern,
        why_little_comb: Pattern,
        why_comb_grows: Pattern,
        why_brood_fills: Pattern,
        why_no_young: Pattern,
        why_fewer: Pattern,
        why_enough_larvae: Pattern,
        why_pollen_in: Pattern,
        why_no_pollen_in: Pattern,
        why_nothing_in_bloom: Pattern,
        why_rain: Pattern,
        why_no_flight: Pattern,
        why_little_flight: Pattern,
        why_little_nectar: Pattern,
        why_cold: Pattern,
        lowest: Pattern,
        lowest_past: Pattern,
        lowest_ahead: Pattern,
        hungry: Pattern,
        hungry_word: Pattern,
        food_short: Pattern,
        food_short_word: Pattern,
        food: Pattern,
        food_only: Pattern,
        food_fed: Pattern,
        mites_double: Pattern,
        mites_fall: Pattern,
        next_lost: Pattern,
        next_hungry: Pattern,
        next_hungry_word: Pattern,
        next_first_bees: Pattern,
        next_no_bees: Pattern,
        next_back: Pattern,
        next_most: Pattern,
        next_brood: Pattern,
        over_start: Pattern,
        over_low: Pattern,
        over_first: Pattern,
        over_back: Pattern,
        over_most: Pattern,
        over_lost: Pattern,
        over_end: Pattern,
        over_brakes: Pattern,
        over_hungry: Pattern,
        over_hungry_word: Pattern,
        larvae: Counted,
        eggs_a_day: Counted,
        no_eggs: Pattern,
        /// Half a frame, one, several.
        frames_of_brood: [Pattern; 3],
        a_patch_of_brood: Pattern,
        no_brood: Pattern,
        frames_drawn: [Pattern; 3],
        comb_begun: Pattern,
        no_comb: Pattern,
        frames: [Pattern; 3],
        little_comb: Pattern,
        /// From a quarter to nearly all.
        shares: [Pattern; 6],
        week_headings: [Pattern; 9],
        week_units: [Pattern; 9],
        week_units_us: [Pattern; 9],
    }
}

part! {
    /// A plan and its twin.
    TwinWords {
        bees: Pattern,
        bees_of_many: Pattern,
        same: Pattern,
        besides: Pattern,
        with_range: Pattern,
        join: Pattern,
        lost_of_many: Pattern,
        lost_both: Pattern,
        lost_plan: Pattern,
        lost_twin: Pattern,
        one_without: Pattern,
        colony_with: Pattern,
        colony_of: Pattern,
        that_of: Pattern,
        gain: Pattern,
        /// Less of what is weighed.
        less: Pattern,
        /// What is compared, in the order of the measures.
        measures: [Pattern; 6],
        range: Pattern,
        range_across: Pattern,
    }
}

part! {
    /// The window of a drone frame.
    WindowWords {
        by: Pattern,
        no_mites: Pattern,
        emerge: Pattern,
        no_brood: Pattern,
        out: Pattern,
        late: Pattern,
        left_in: Pattern,
        late_but_safe: Pattern,
        harm: Pattern,
        harm_one_day: Pattern,
        set_aside: Pattern,
        move_on: Pattern,
        lost: Pattern,
        /// One day late to six, where a sentence begins.
        days_late: [Pattern; 6],
        many_days_late: Pattern,
        in_brackets: Pattern,
        gain: Pattern,
    }
}

part! {
    /// What a twin is without, to follow "with" (in German in the dative).
    WithoutWords {
        feed: Pattern,
        syrup_1: Pattern,
        syrup_2: Pattern,
        patty: Pattern,
        rain: Pattern,
        all_rain: Pattern,
        number: Pattern,
        any_move: Pattern,
        any_such_move: Pattern,
        box_given: Pattern,
        box_given_on: Pattern,
        honey: Pattern,
        honey_on: Pattern,
        move_named: Pattern,
        move_named_on: Pattern,
        some_move: Pattern,
        some_move_on: Pattern,
    }
}
