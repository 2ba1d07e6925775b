//! Verdicts say what cannot wait, what is not known, and never that nothing need be wrong.

use super::*;

#[test]
fn verdicts_say_what_cannot_wait_and_never_that_nothing_need_be_wrong() {
    type Expected<'a> = (fn(&Alarming) -> bool, &'a str, Option<Word>);
    let rows: [(String, &[&str], Expected); 6] = [
        (
            overwintered(),
            &["2013-05-10,9,4,,,yes,,,12,"],
            (
                |what| matches!(what, Alarming::QueenCells { capped: 12, .. }),
                "12 capped queen cells",
                None,
            ),
        ),
        (
            wet_spring(),
            &["2012-07-10,7,4,20,,no,no,8,10,"],
            (
                |what| {
                    matches!(
                        what,
                        Alarming::QueenCells {
                            sign: Sign::Gone,
                            ..
                        }
                    )
                },
                "left with a swarm",
                None,
            ),
        ),
        (
            wet_spring(),
            &["2012-07-10,7,4,20,0,yes,,,,"],
            (
                |what| matches!(what, Alarming::LowStores { .. }),
                "feed today",
                None,
            ),
        ),
        (
            overwintered(),
            &["2013-07-10,14,5,,,yes,,,,40"],
            (
                |what| matches!(what, Alarming::ManyMites { mites: 40, .. }),
                "13.3 on 100",
                None,
            ),
        ),
        (
            unfed(),
            &["2012-10-22,2,,,,,,,,", "2012-11-05,0,,,,,,,,"],
            (
                |what| matches!(what, Alarming::Lost { starved, of, .. } if 2 * starved > *of),
                "had starved",
                Some(Word::Lost),
            ),
        ),
        (
            unfed(),
            &["2012-10-22,5,1,,,yes,,,,"],
            (
                |what| matches!(what, Alarming::AtOdds { lost } if *lost > 75),
                "contradict each other",
                Some(Word::AtOdds),
            ),
        ),
    ];
    for (plan, rows, (is, said, word)) in rows {
        let mut verdict = Yard::new(&plan).verdict(&visits(rows));
        let alarm = verdict.alarms.iter().find(|alarm| is(&alarm.what));
        let text = alarm.expect(said).text.to_string();
        assert!(text.contains(said), "{text}");
        if let Some(word) = word {
            assert_eq!(verdict.standing.word, word);
        }
        verdict.spoken(Language::German);
        assert!(
            verdict
                .alarms
                .iter()
                .all(|alarm| alarm.text.to_string() != text)
        );
    }
    let verdict = Yard::new(&wet_spring()).verdict(&visits(&["2012-07-10,7,4,20,15,yes,,0,0,2"]));
    assert_eq!(verdict.alarms, []);
}

#[test]
fn empty_combs_are_among_what_does_not_fit() {
    let verdict = Yard::new(&wet_spring()).verdict(&visits(&["2012-07-10,7,4,20,0,yes,,,,"]));
    let told: Vec<String> = verdict
        .unfit
        .iter()
        .map(|unfit| unfit.text.to_string())
        .collect();
    assert!(
        told.iter()
            .any(|text| text.starts_with("stores (kg): 0.0 found")),
        "{told:?}"
    );
}

#[test]
fn no_cause_is_sought_for_a_colony_that_is_not_held_back() {
    // More bees than nearly all of its peers, on little comb.
    let verdict = Yard::new(&wet_spring()).verdict(&visits(&["2012-05-28,12,6,8,,yes,,,,"]));
    assert_eq!(verdict.standing.word, Word::Ahead, "{:?}", verdict.standing);
    assert_eq!(verdict.leading(), None);
}

#[test]
fn a_visit_that_saw_nothing_of_strength_leaves_the_standing_untold() {
    let yard = Yard::new(&overwintered());
    let judged = |rows: &[&str]| yard.verdict(&visits(rows));
    // Eggs alone; eggs and a wash.
    let eggs = judged(&["2013-07-10,,,,,yes,,,,"]);
    assert_eq!(eggs.standing.word, Word::Untold);
    assert_eq!(eggs.standing.days_ahead, None);
    assert!(eggs.alarms.is_empty());
    let washed = judged(&["2013-07-10,,,,,yes,,,,40"]);
    assert_eq!(washed.standing.word, Word::Untold);
    assert!(matches!(
        washed.alarms[0].what,
        Alarming::ManyMites { mites: 40, .. }
    ));
    // One look at bees or brood is enough, whenever it was.
    for rows in [
        &["2013-07-10,14,,,,yes,,,,"][..],
        &["2013-07-10,,5,,,,,,,"],
        &["2013-06-20,,,,15,,,,,", "2013-07-10,,,,,yes,,,,"],
    ] {
        assert_ne!(judged(rows).standing.word, Word::Untold, "{rows:?}");
    }
    // Who found no bee knows how strong it is.
    let dead = judged(&["2013-07-10,0,,,,,,,,"]);
    assert_eq!(dead.standing.word, Word::Lost);
    let words = [Language::English, Language::German].map(|language| Word::Untold.words(language));
    assert_eq!(
        words,
        ["standing cannot be told", "Stand nicht zu erkennen"]
    );
}

/// Hardly a package raises queen cells in its first summer: what the colonies of the model come to then says nothing of a hive in which
/// some were found, and is not set against what they mean.
#[test]
fn a_verdict_says_that_its_colonies_do_not_have_the_queen_cells_that_were_found() {
    for row in ["2012-06-25,,,,,no,no,,3,", "2012-06-25,,,,,,,,3,"] {
        let yard = Yard::new(&wet_spring());
        let mut verdict = yard.verdict(&visits(&[row]));
        assert_eq!(verdict.standing.word, Word::Untold, "{row}");
        let risks: Vec<&str> = verdict
            .forecast
            .risks
            .iter()
            .map(|risk| risk.name)
            .collect();
        assert_eq!(risks, ["hunger", "mites_3"], "{row}");
        for (language, said) in [
            (Language::English, "do not know of the queen cells"),
            (Language::German, "wissen nichts von den Weiselzellen"),
        ] {
            verdict.spoken(language);
            let unknown = verdict.cells_unknown.as_ref().expect("it says so");
            assert!(unknown.to_string().contains(said), "{unknown}");
            let told: Vec<&str> = verdict
                .forecast
                .risks
                .iter()
                .map(|risk| risk.what)
                .collect();
            assert!(told[1].starts_with("3 "), "{told:?}");
        }
    }
    // Without cells there is nothing that they would not know of.
    let none = Yard::new(&wet_spring()).verdict(&visits(&["2012-06-25,6,3,,,yes,,0,0,"]));
    assert_eq!(none.cells_unknown, None);
    assert_eq!(none.forecast.risks.len(), 5);
}
