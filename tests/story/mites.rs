//! What is told of mites is of the figure that is told: mites on 100 bees, now and some weeks on, and the mark.

use combcast_core::Season;
use combcast_core::observe::DayRecord;
use combcast_core::story::{Emphasis, Units};
use combcast_core::words::Language;
use jiff::civil::date;

use super::{is_silent_about, on, place, says, season, shipped, told};

#[test]
fn mites_on_the_bees_of_autumn_are_told_ahead_though_few_are_born() {
    let untreated = shipped("untreated.toml");
    let september = place(&untreated, date(2012, 9, 3));
    let count = |index: i32| {
        let mites = untreated.days[index as usize].mites_per_100_bees;
        Language::English.decimal(mites, 1)
    };
    let (now, then) = (count(september), count(september + 21));
    let autumn = told(&untreated, september);
    says(
        &autumn,
        &format!(
            "There are {now} mites on 100 bees, and about {then} in 3 weeks, as there are fewer bees."
        ),
    );
    says(
        &autumn,
        "Colonies are treated from 3 on: that is reached about ",
    );
    let german = on(&untreated, september, Language::German).plain();
    says(
        &german,
        &format!(
            "Auf 100 Bienen kommen {} Milben, und in 3 Wochen etwa {}, weil es weniger Bienen werden.",
            now.replace('.', ","),
            then.replace('.', ",")
        ),
    );
    let over = told(&untreated, place(&untreated, date(2012, 10, 15)));
    says(
        &over,
        "That is over the mark: colonies are treated from 3 on.",
    );
    // A young colony's first brood takes its mites in.
    says(
        &told(&untreated, place(&untreated, date(2012, 5, 8))),
        "as brood grows and mites are in its cells: in all ",
    );
}

/// Day by day the words of a season go where its figure goes.
#[test]
fn the_rate_told_is_that_of_the_figure_told() {
    let untreated = shipped("untreated.toml");
    let mut told_of = [0; 2];
    for (index, day) in untreated.days[..500].iter().enumerate() {
        let story = told(&untreated, index as i32);
        is_silent_about(&story, "double");
        let later = untreated.days[index + 21].mites_per_100_bees;
        if later > 1.1 * day.mites_per_100_bees {
            for wrong in ["brood grows", "more bees", "fewer mites", "as many in"] {
                is_silent_about(&story, wrong);
            }
            told_of[0] += usize::from(story.contains("in 3 weeks"));
        } else if later < 0.9 * day.mites_per_100_bees {
            for wrong in ["multiply", "gather", "fewer bees", "as many in"] {
                is_silent_about(&story, wrong);
            }
            told_of[1] += usize::from(story.contains("in 3 weeks"));
        }
    }
    assert!(told_of[0] > 100 && told_of[1] > 20, "{told_of:?}");
}

fn with_mites(change: impl Fn(f64, &mut DayRecord)) -> Season {
    season(60, |index, day| {
        (day.mites_on_bees, day.mites_in_cells) = (100.0, 200.0);
        change(index as f64, day);
        day.mites_per_100_bees = 100.0 * day.mites_on_bees / day.adult_bees;
    })
}

#[test]
fn what_moves_the_count_most_is_its_reason() {
    let reason = |change: fn(f64, &mut DayRecord)| told(&with_mites(change), 10);
    says(
        &reason(|_, _| {}),
        "There are 1.0 mites on 100 bees, and about as many in 3 weeks.",
    );
    says(
        &reason(|t, day| {
            day.mites_on_bees *= 1.0 + t / 20.0;
            day.mites_in_cells *= 1.0 + t / 20.0;
        }),
        "as mites multiply.",
    );
    says(
        &reason(|t, day| day.adult_bees -= 100.0 * t),
        "as there are fewer bees.",
    );
    says(
        &reason(|t, day| day.adult_bees += 300.0 * t),
        "as there are more bees: in all 300 now, 300 then.",
    );
    let gather = |t: f64, day: &mut DayRecord| {
        day.mites_on_bees += 3.0 * t;
        day.mites_in_cells -= 3.0 * t;
        day.capped_worker -= 100.0 * t;
    };
    says(
        &reason(gather),
        "as brood shrinks and mites gather on the bees.",
    );
    // Mites that go into cells are not gone.
    let spread = reason(|t, day| {
        day.mites_on_bees -= 2.5 * t;
        day.mites_in_cells += 7.0 * t;
        day.capped_worker += 100.0 * t;
    });
    says(
        &spread,
        "as brood grows and mites are in its cells: in all 350 now, 450 then.",
    );
    // Mites leave cells while brood stays as it is: no reason is made up.
    let unsaid = reason(|t, day| {
        day.mites_on_bees += 3.0 * t;
        day.mites_in_cells -= 3.0 * t;
    });
    says(
        &unsaid,
        "There are 1.3 mites on 100 bees, and about 1.9 in 3 weeks.",
    );
    // Near the end of the season as far as it goes.
    let still = with_mites(|_, _| {});
    says(&told(&still, 59 - 15), "about as many in 2 weeks.");
    says(&told(&still, 59 - 6), "There are 1.0 mites on 100 bees.");
}

#[test]
fn few_mites_are_no_caution_and_many_are() {
    let cautions = |mites: f64| {
        let season = with_mites(|_, day| day.mites_on_bees = mites);
        let story = on(&season, 10, Units::Metric);
        let spans = story.sentences.into_iter().flatten();
        spans
            .filter(|span| span.kind == Emphasis::Caution)
            .map(|span| span.text)
            .collect::<Vec<String>>()
    };
    // The made-up days are all of one length: the mark is that of spring.
    assert!(cautions(199.0).is_empty());
    assert_eq!(cautions(200.0), ["2.0 mites", "over the mark"]);
}
