//! The shape of a catalogue: what every language has to have words for.

use super::fill::text;

/// Words for one and for several; `{count}` is the number.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Counted {
    pub one: &'static str,
    pub many: &'static str,
}

impl Counted {
    /// With a number as it is written.
    pub(crate) fn of(self, count: &str) -> String {
        let pattern = if count == "1" { self.one } else { self.many };
        text(pattern, &[("count", count)])
    }

    /// With a whole number.
    pub(crate) fn number(self, count: usize) -> String {
        self.of(&count.to_string())
    }
}

/// Declares a part of the catalogue, and, for the tests, how to list its patterns.
macro_rules! part {
    ($(#[$about:meta])* $name:ident { $($(#[$what:meta])* $field:ident: $kind:ty,)* }) => {
        $(#[$about])*
        #[derive(Debug)]
        pub(crate) struct $name {
            $($(#[$what])* pub $field: $kind,)*
        }

        #[cfg(test)]
        impl super::tests::Patterns for $name {
            fn list(&self, place: &str, found: &mut Vec<(String, &'static str)>) {
                $(self.$field.list(&format!("{place}.{}", stringify!($field)), found);)*
            }
        }
    };
}

type Pattern = &'static str;

part! {
    /// A language's catalogue.
    Words {
        forms: Forms,
        brakes: [Pattern; 8],
        story: StoryWords,
        twin: TwinWords,
        window: WindowWords,
        agenda: AgendaWords,
        causes: CauseWords,
        treatments: [Pattern; 10],
        cautions: CautionWords,
        search: SearchWords,
        moves: MoveWords,
        refusals: RefusalWords,
        events: EventWords,
        without: WithoutWords,
        verdict: VerdictWords,
        aside: AsideWords,
        /// What a move is called, in the order of the choices of [`Move`](crate::scenario::Move).
        actions: [Pattern; 38],
    }
}

part! {
    /// How dates, numbers and counts are written.
    Forms {
        /// Between whole number and decimals.
        decimal: Pattern,
        /// Between thousands.
        thousands: Pattern,
        inches: Pattern,
        percent: Pattern,
        date: Pattern,
        date_with_year: Pattern,
        /// For tables: the day takes two places.
        short_date: Pattern,
        short_date_with_year: Pattern,
        weekday_and_date: Pattern,
        weekday_names: [Pattern; 7],
        weekday_names_short: [Pattern; 7],
        month_names: [Pattern; 12],
        month_names_short: [Pattern; 12],
        days: Counted,
        weeks: Counted,
        months: Counted,
        hours: Counted,
        bees: Counted,
        mites: Counted,
        /// A stretch of time, to follow a verb (accusative).
        about_time: Pattern,
        less_than_a_day: Pattern,
        more_than_a_year: Pattern,
        about_date: Pattern,
        on_date: Pattern,
        on_date_first: Pattern,
        more: Pattern,
        fewer: Pattern,
        lost: Pattern,
        range: Pattern,
        /// Text of the user's own, or of a file.
        as_it_is: Pattern,
    }
}

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
        visit: Pattern,
        visit_why: Pattern,
        add_box: Pattern,
        add_box_how: Pattern,
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
        broodless: Pattern,
        broodless_why: Pattern,
        feed: Pattern,
        feed_for_winter: Pattern,
        feed_amount: Pattern,
        feed_nothing: Pattern,
        feed_enough: Pattern,
        feed_enough_for: Pattern,
        feed_why: Pattern,
        feed_winter_how: Pattern,
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
        treatment_out_of_window: Pattern,
        treatment_suits_later: Pattern,
        too_cold_or_hot: Pattern,
        brood_in_the_way: Pattern,
        not_with_supers: Pattern,
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
        names: [Pattern; 5],
        tell: [Pattern; 5],
        remedy: [Pattern; 5],
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

part! {
    /// What a move did; what feed of the plan asks for.
    MoveWords {
        syrup_litres: Pattern,
        syrup_jars: Pattern,
        syrup_kept_full: Pattern,
        feed_off: Pattern,
        patty: Pattern,
        treated: Pattern,
        treated_in_cold: Pattern,
        treated_in_heat: Pattern,
        treat_cautions: Pattern,
        treatments_out: Pattern,
        wrapped: Pattern,
        unwrapped: Pattern,
        caged_for: Pattern,
        caged: Pattern,
        let_out: Pattern,
        queen_away: Pattern,
        queen_given: Pattern,
        queen_replaced: Pattern,
        queen_cell_given: Pattern,
        queen_cells_broken: Pattern,
        made_to_swarm: Pattern,
        lost_in_treatment: Pattern,
        bees_shaken_out: Pattern,
        bees_packaged: Pattern,
        bees_given: Pattern,
        brood_given: Pattern,
        brood_taken: Pattern,
        honey_frames_given: Pattern,
        stores_taken: Pattern,
        honey_taken: Pattern,
        frames_of_brood: Counted,
        frames_of_honey: Counted,
        frames_of_stores: Counted,
        split: Pattern,
        nuc_taken: Pattern,
        with_the_queen: Pattern,
        united: Pattern,
        drone_frame_out: Pattern,
        drone_frame_frozen: Pattern,
        drone_frames_swapped: Pattern,
        comb_cut_out: Pattern,
        drone_cells: Pattern,
        mites_removed: Pattern,
        days_bought: Pattern,
        drones_cost: Pattern,
        box_given: Pattern,
        box_away: Pattern,
        boxes_swapped: Pattern,
        frame_given: Pattern,
        instead_of_frame: Pattern,
        frame_moved: Pattern,
        frame_out: Pattern,
        frame_back: Pattern,
        frozen_frame_back: Pattern,
        combs: [Pattern; 6],
        feed_patty: Pattern,
        feed_patty_kept: Pattern,
        feed_fill: Pattern,
        feed_kept_full: Pattern,
    }
}

part! {
    /// Why a move is refused.
    RefusalWords {
        dead: Pattern,
        too_few_left: Pattern,
        too_few_to_shake: Pattern,
        too_few_to_take: Pattern,
        no_honey: Pattern,
        too_little_brood: Pattern,
        too_few_stores: Pattern,
        too_few_stores_beside: Pattern,
        no_queen_to_leave: Pattern,
        split_needs_comb: Pattern,
        most_boxes: Pattern,
        both_have_a_queen: Pattern,
        workers_lay_here: Pattern,
        workers_lay: Pattern,
        workers_would_tear: Pattern,
        bees_would_tear: Pattern,
        no_room_in_its_box: Pattern,
        not_a_drone_frame: Pattern,
        not_foundationless: Pattern,
        no_drone_frame: Pattern,
        no_foundationless: Pattern,
        nothing_built: Pattern,
        no_feed: Pattern,
        not_with_supers: Pattern,
        in_already: Pattern,
        no_treatment: Pattern,
        wrapped_already: Pattern,
        not_wrapped: Pattern,
        no_box: Pattern,
        only_box: Pattern,
        no_frame_left: Pattern,
        no_free_place: Pattern,
        no_free_places: Pattern,
        drawn_frame_there: Pattern,
        does_not_fit: Pattern,
        no_frame_out: Pattern,
        frame_there: Pattern,
        empty_place: Pattern,
        no_place: Pattern,
        no_queen_cells: Pattern,
        no_queen: Pattern,
        caged_already: Pattern,
        lays_only_drones: Pattern,
        no_laying_queen: Pattern,
        no_caged_queen: Pattern,
        young_queen_there: Pattern,
        queen_there: Pattern,
        no_queen_to_swarm: Pattern,
    }
}

part! {
    /// What happened.
    EventWords {
        start: Pattern,
        queen_out: Pattern,
        first_eggs: Pattern,
        first_capped: Pattern,
        first_young: Pattern,
        drones_fly: Pattern,
        starving: Pattern,
        lost: Pattern,
        box_drawn: Pattern,
        fewest_bees: Pattern,
        swarm: Pattern,
        after_swarm: Pattern,
        no_queen: Pattern,
        supersedure_cells: Pattern,
        emergency_cells: Pattern,
        swarm_cells: Pattern,
        first_cell_capped: Pattern,
        cells_gone: Pattern,
        young_queen_beside: Pattern,
        young_queen: Pattern,
        another_young_queen: Pattern,
        young_queen_mated: Pattern,
        not_mated_in_time: Pattern,
        young_queen_lays_old_gone: Pattern,
        young_queen_lays: Pattern,
        young_queen_lost: Pattern,
        workers_begin_to_lay: Pattern,
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

part! {
    /// Where a colony stands, what does not fit, what is to come.
    VerdictWords {
        standings: [Pattern; 5],
        unknowns: [Pattern; 10],
        readings: [Pattern; 13],
        thresholds: [Pattern; 6],
        risks: [Pattern; 5],
        no_eggs: Pattern,
        eggs: Pattern,
        queen: Pattern,
        cells: Pattern,
        no_cells: Pattern,
        drone_frame: Pattern,
        fewer_than_expected: Pattern,
        more_than_expected: Pattern,
        eggs_without_brood: Pattern,
        queen_without_eggs: Pattern,
        few_carry: Pattern,
        few_carry_check: Pattern,
        alike: Pattern,
    }
}

part! {
    /// Why something of a visit is set aside.
    AsideWords {
        future: Pattern,
        before_season: Pattern,
        after_season: Pattern,
        same_visit: Pattern,
        frames_in_a_box: Pattern,
        frames_in_the_hive: Pattern,
        brood_needs_comb: Pattern,
        stores_twice: Pattern,
        not_frames: Pattern,
        not_kilograms: Pattern,
        wash: Pattern,
        mite_fall: Pattern,
        litres_or_jars: Pattern,
        syrup: Pattern,
        syrup_since: Pattern,
        differ: Pattern,
    }
}
