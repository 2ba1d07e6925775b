//! The words of the command line itself: headings, tables, and what stands around the model's sentences.
//!
//! As in `sim-core/src/words.rs`, with which it shares the languages: a catalogue for each, of one shape.

mod english;
mod german;

use combcast_core::words::Language;
pub use combcast_core::words::text;

type Pattern = &'static str;

/// The catalogue of a language.
pub fn of(language: Language) -> &'static Words {
    match language {
        Language::English => &english::WORDS,
        Language::German => &german::WORDS,
    }
}

/// Declares a part of the catalogue, and, for the tests, how to list its patterns.
macro_rules! part {
    ($(#[$about:meta])* $name:ident { $($field:ident: $kind:ty,)* }) => {
        $(#[$about])*
        pub struct $name {
            $(pub $field: $kind,)*
        }

        #[cfg(test)]
        impl tests::Patterns for $name {
            fn list(&self, found: &mut Vec<Pattern>) {
                $(self.$field.list(found);)*
            }
        }
    };
}

part! {
    /// Everything that the command line says.
    Words {
        shared: SharedWords,
        run: RunWords,
        next: NextWords,
        twin: TwinWords,
        window: WindowWords,
        bands: BandsWords,
        verdict: VerdictWords,
        search: SearchWords,
    }
}

part! {
    /// What several commands say.
    SharedWords {
        caution: Pattern,
        of_hive: Pattern,
        expected_values: Pattern,
        ranges: [Pattern; 6],
        ranges_units: [Pattern; 6],
        ranges_units_us: [Pattern; 6],
        not_in_this_season: Pattern,
        // In place of a first day, and of the last where that is the first too.
        from_the_start_to: Pattern,
        from_the_start: Pattern,
        in_some_colonies: Pattern,
        of_100: Pattern,
        over_99: Pattern,
        under_1: Pattern,
    }
}

part! {
    /// A season.
    RunWords {
        season: Pattern,
        mean: Pattern,
        random: Pattern,
        bees: Pattern,
        mites: Pattern,
        most_mites: Pattern,
        doubling: Pattern,
        mites_unsaid: Pattern,
        weeks: Pattern,
        weeks_after: Pattern,
        happened: Pattern,
        refused: Pattern,
        refused_follow_up: Pattern,
        more: Pattern,
    }
}

part! {
    /// What next.
    NextWords {
        title: Pattern,
        of_none: Pattern,
        of_one: Pattern,
        of_many: Pattern,
        days_of_a_month: Pattern,
        aside: Pattern,
        aside_but_one: Pattern,
        later: Pattern,
        as_planned: Pattern,
        sheet_frames: Pattern,
        sheet_queen: Pattern,
        beware: Pattern,
        aid: Pattern,
    }
}

part! {
    /// A plan and its twin.
    TwinWords {
        against: Pattern,
        against_without: Pattern,
        mean: Pattern,
        random: Pattern,
        random_weather: Pattern,
        of: Pattern,
        headings: [Pattern; 10],
        units: [Pattern; 10],
    }
}

part! {
    /// The window of a drone frame.
    WindowWords {
        random: Pattern,
        frame: Pattern,
        headings: [Pattern; 9],
        units: [Pattern; 9],
    }
}

part! {
    /// Bands.
    BandsWords {
        title: Pattern,
        mites_of: Pattern,
        title_weathers: Pattern,
        when: Pattern,
        how_often: Pattern,
        of: Pattern,
    }
}

part! {
    /// Verdicts.
    VerdictWords {
        compared: [Pattern; 7],
        nothing_wrong: Pattern,
        not_held_back: Pattern,
        heading: Pattern,
        middle: Pattern,
        days_ahead: Pattern,
        days_behind: Pattern,
        strength: Pattern,
        no_bees: Pattern,
        untold: Pattern,
        likeliest: Pattern,
        to_make_sure: Pattern,
        lost: Pattern,
        sound: Pattern,
        sound_besides: Pattern,
        no_cause_sought: Pattern,
        causes: Pattern,
        causes_all_the_same: Pattern,
        before: Pattern,
        none: Pattern,
        unfit: Pattern,
        aside: Pattern,
        aside_visit: Pattern,
        found: Pattern,
        found_headings: [Pattern; 4],
        yes: Pattern,
        no: Pattern,
        say_yes: Pattern,
        to_come: Pattern,
        footing: Pattern,
        footing_of_one: Pattern,
    }
}

part! {
    /// The search.
    SearchWords {
        title: Pattern,
        then: Pattern,
        goals: [Pattern; 5],
        intro: Pattern,
        broken_off: Pattern,
        as_it_is: Pattern,
        spread: Pattern,
        spread_some_lost: Pattern,
        spread_half_lost: Pattern,
        spread_all_lost: Pattern,
        lost: Pattern,
        amounts: [Pattern; 5],
        families: [Pattern; 5],
        one_drone_frame: Pattern,
        no_different: Pattern,
        gained: Pattern,
        better_sure: Pattern,
        better_very_sure: Pattern,
        worse_sure: Pattern,
        worse_very_sure: Pattern,
        not_sure: Pattern,
        costs: Pattern,
        one_visit: Pattern,
        visits: Pattern,
        jars: Pattern,
        a_treatment: Pattern,
        drones: Pattern,
        refused: Pattern,
        besides: Pattern,
        beside: [Pattern; 5],
        next_as_good: Pattern,
        order: Pattern,
        against_next: Pattern,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Something that has patterns.
    pub trait Patterns {
        fn list(&self, found: &mut Vec<Pattern>);
    }

    impl Patterns for Pattern {
        fn list(&self, found: &mut Vec<Pattern>) {
            found.push(self);
        }
    }

    impl<const N: usize> Patterns for [Pattern; N] {
        fn list(&self, found: &mut Vec<Pattern>) {
            found.extend(self);
        }
    }

    /// The `{names}` of a pattern, sorted.
    fn names(pattern: &str) -> Vec<&str> {
        let ends = pattern.split('{').skip(1);
        let mut names: Vec<&str> = ends.filter_map(|end| end.split('}').next()).collect();
        names.sort_unstable();
        names
    }

    #[test]
    fn all_languages_fill_the_same_names() {
        let patterns = |language| {
            let mut found = Vec::new();
            of(language).list(&mut found);
            found
        };
        let english = patterns(Language::English);
        let german = patterns(Language::German);
        assert!(english.len() > 100, "{}", english.len());
        for (one, other) in english.iter().zip(german) {
            assert_eq!(names(one), names(other), "{one} | {other}");
            // Sentences, not single words of a table.
            assert!(
                *one != other || !one.contains(' ') || one.len() < 16,
                "{one}"
            );
        }
    }
}
