//! The verdict, and what is set aside of visits.

use super::Pattern;

part! {
    /// Where a colony stands, what does not fit, what is to come.
    VerdictWords {
        standings: [Pattern; 7],
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
        cells_unknown: Pattern,
        left_out: Pattern,
        assumed_mites: Pattern,
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
        /// Before why: which field of a visit, in which line of a table.
        field: Pattern,
        line: Pattern,
        /// What two visits can say differently: box by box, no and yes, a drone frame's state, mites, syrup.
        another_box: Pattern,
        no_yes: [Pattern; 2],
        drone_frames: [Pattern; 6],
        washed: Pattern,
        sugar_rolled: Pattern,
        fallen: Pattern,
        taken_since: Pattern,
    }
}
