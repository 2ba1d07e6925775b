//! What next: jobs, causes, cautions, what a search adds.

use super::{Counted, Pattern};

part! {
    /// What next.
    AgendaWords {
        /// So many of so many, and so many of so many colonies.
        of: Pattern,
        of_colonies: Pattern,
        planned_refused: Pattern,
        planned_why: Pattern,
        check: Pattern,
        check_tell: Pattern,
        check_why: Pattern,
        first_look: Pattern,
        first_look_how: Pattern,
        first_look_why: Pattern,
        winter_look: Pattern,
        winter_look_how: Pattern,
        winter_look_shows: Pattern,
        winter_look_why: Pattern,
        young_queen: Pattern,
        young_queen_why: Pattern,
        visit: Pattern,
        visit_why: Pattern,
        visit_why_food: Pattern,
        visit_why_room: Pattern,
        visit_why_middle: Pattern,
        add_box: Pattern,
        add_box_how: Pattern,
        add_box_planned: Pattern,
        add_box_why: Pattern,
        drone_frame_in: Pattern,
        drone_frame_in_where: Pattern,
        drone_frame_in_dates: Pattern,
        drone_frame_in_why: Pattern,
        drone_frame_out: Pattern,
        that_drone_frame_out: Pattern,
        drone_frame_out_how: Pattern,
        drone_frame_out_why: Pattern,
        wash: Pattern,
        wash_how: Pattern,
        wash_before: Pattern,
        wash_none_before: Pattern,
        wash_why: Pattern,
        treat: Pattern,
        treat_why: Pattern,
        treat_why_over: Pattern,
        honey_first: Pattern,
        wash_after: Pattern,
        broodless: Pattern,
        broodless_why: Pattern,
        feed: Pattern,
        feed_for_winter: Pattern,
        feed_amount: Pattern,
        feed_now_how: Pattern,
        feed_bars: Pattern,
        feed_bars_how: Pattern,
        feed_bars_in_parts: Pattern,
        feed_bars_why: Pattern,
        feed_bars_until_spring: Pattern,
        feed_nothing: Pattern,
        feed_enough: Pattern,
        feed_enough_for: Pattern,
        feed_why: Pattern,
        feed_winter_how: Pattern,
        feed_winter_all_taken: Pattern,
        feed_winter_unite: Pattern,
        feed_winter_why: Pattern,
        mix: Pattern,
        litres: Counted,
        quarts: Counted,
        /// 1:1, 2:1, patty.
        feeds: [Pattern; 3],
        all_lost: Pattern,
        see_brood: Pattern,
        see_brood_and_eggs: Pattern,
        see_brood_of_her: Pattern,
        see_brood_and_eggs_of_her: Pattern,
        no_queen_lays: Pattern,
        in_step: Pattern,
        covered: Pattern,
        less_brood: Pattern,
        swarming: Pattern,
        some_lost: Pattern,
        hardly_a_frame: Pattern,
        about_frames: [Pattern; 3],
        up_to_a_frame: Pattern,
        frames_between: Pattern,
        no_mite: Pattern,
        hardly_any_stores: Pattern,
        about_stores: Pattern,
        stores_between: Pattern,
        suits: Pattern,
        nothing_suits: Pattern,
        treatment_in_window: Pattern,
        treatment_in_window_from: Pattern,
        treatment_out_of_window: Pattern,
        treatment_suits_later: Pattern,
        too_cold_or_hot: Pattern,
        brood_in_the_way: Pattern,
        not_with_supers: Pattern,
        not_before_honey: Pattern,
        supers_by_label: Pattern,
        calendar_why: Pattern,
        calendar_caution: Pattern,
        /// The language in the name of what made a calendar file.
        calendar_language: Pattern,
    }
}

part! {
    /// What can be wrong, by cause.
    CauseWords {
        names: [Pattern; 6],
        tell: [Pattern; 6],
        remedy: [Pattern; 6],
    }
}

part! {
    /// What to beware of.
    CautionWords {
        stings: Pattern,
        lifting: Pattern,
        robbing: Pattern,
        washed: Pattern,
        label: Pattern,
        /// By treatment.
        treatments: [Pattern; 10],
    }
}

part! {
    /// What a search adds to a plan, as something to do.
    SearchWords {
        drone_frame_in: Pattern,
        drone_frame_in_place_of: Pattern,
        drone_frames_swapped: Pattern,
        drone_frame_out: Pattern,
        treat: Pattern,
        feed: Pattern,
        add_box: Pattern,
        queen_cells: Pattern,
    }
}
