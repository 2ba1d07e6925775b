//! Mites over the mark call for a treatment, and what taints honey waits until that is taken.

use super::*;

#[test]
fn what_taints_honey_waits_until_that_is_taken() {
    let list = Yard::new(&overwintered()).list(&[], Some(date(2013, 7, 15)));
    let treat = list
        .items
        .iter()
        .find(|item| matches!(item.job, Job::Treat { .. }));
    let Job::Treat { choices, over, .. } = &treat.expect("a treatment").job else {
        unreachable!("just found")
    };
    let taken = date(2013, 8, 11);
    for name in [
        "thymol",
        "amitraz strips",
        "fluvalinate strips",
        "coumaphos strips",
    ] {
        let choice = choices.iter().find(|one| one.name == name).expect(name);
        assert!(
            !choice.fits && choice.honey.map(|day| day.0) == Some(taken),
            "{choice:?}"
        );
    }
    let told = treat
        .expect("a treatment")
        .told(&list, Language::English.into());
    let details = told.details.join(" ");
    assert!(
        details.contains("Not before the honey is taken (11 August 2013)"),
        "{details}"
    );
    // Who is over the mark does not come to it.
    assert!(
        *over > 0 && told.why.starts_with(&format!("{over} of ")),
        "{told:?}"
    );
    // After it was taken nothing of that stands in the way.
    let list = Yard::new(&overwintered()).list(&[], Some(date(2013, 8, 12)));
    let choices = list.items.iter().find_map(|item| match &item.job {
        Job::Treat { choices, .. } => Some(choices),
        _ => None,
    });
    assert!(choices.is_none_or(|all| all.iter().all(|one| one.honey.is_none())));
}

/// The first day on which a move of a season has a figure.
fn first_with(yard: &Yard, figure: &str) -> Date {
    let season = yard.peers().season().run().expect("a season");
    let mut events = season.events.iter();
    let event = events.find(|event| event.figures.contains_key(figure));
    event.expect(figure).date.parse().expect("a date")
}

/// The day of the harvest for which thymol has to wait, where a wash of the day calls for a treatment.
fn thymol_waits(yard: &Yard, washed: Date) -> Option<Date> {
    let list = yard.list(&visits(&[&format!("{washed},14,5,,,yes,,,,40")]), None);
    let choices = list.items.iter().find_map(|item| match &item.job {
        Job::Treat { choices, .. } => Some(choices),
        _ => None,
    });
    let mut choices = choices.expect("a treatment").iter();
    let thymol = choices.find(|choice| choice.name == "thymol");
    thymol.expect("thymol").honey.map(|day| day.0)
}

#[test]
fn honey_that_is_taken_when_there_is_enough_counts_on_the_day_it_is_taken() {
    let dated = "date = 2013-08-11\ntake";
    let text = overwintered().replace(dated, "when = { honey_kg_at_least = 30 }\ntake");
    let yard = Yard::new(&text);
    let taken = first_with(&yard, "honey_taken_kg");
    let day = |days: i32| plus_days(taken, days);
    assert!(
        taken > date(2013, 5, 20) && taken != date(2013, 8, 11),
        "{taken}"
    );
    assert_eq!(thymol_waits(&yard, day(-10)), Some(taken));
    assert_ne!(thymol_waits(&yard, day(0)), Some(taken));
    // So it is in the season.
    let refused = |days: i32| {
        let step = format!(
            "[[move]]\ndate = {}\ntreat = {{ with = \"thymol\" }}",
            day(days)
        );
        let yard = with(&text, &step);
        let season = yard.peers().season().run().expect("a season");
        let mut events = season.events.iter();
        events.any(|event| event.kind == "refused" && event.text.to_string().contains("thymol"))
    };
    assert!(refused(-10) && !refused(0));
}

#[test]
fn a_treatment_that_waits_for_something_answers_a_wash_once_it_is_given() {
    let step = "[[move]]\nwhen = { bees_at_least = 30000 }\ntreat = { with = \"formic-slow\" }\n";
    let yard = with(&overwintered(), step);
    let given = first_with(&yard, "days");
    let washed = format!("{},14,5,,,yes,,,,40", plus_days(given, -5));
    let calls = |days: i32| {
        let list = yard.list(&visits(&[&washed]), Some(plus_days(given, days)));
        kinds(&list).iter().any(|kind| kind == "treat!")
    };
    assert!(calls(-1) && !calls(0));
}

#[test]
fn the_story_worries_about_as_many_mites_as_call_for_a_treatment() {
    let yard = Yard::new(&overwintered().replace(
        "date = 2013-04-01",
        "date = 2013-04-01\nmites_per_100_bees = 1.5",
    ));
    let peers = yard.peers();
    let season = peers.season().run().expect("a season");
    let p = &season.parameters.agenda;
    let mut marks = [[0; 2]; 2];
    for (day, (record, sky)) in season
        .days
        .iter()
        .zip(&peers.season().conditions)
        .enumerate()
    {
        let today = plus_days(season.first, day as i32);
        let story = story::on(&season, today, Language::English.into()).expect("a story");
        let worry = |span: &story::Span| {
            span.kind == story::Emphasis::Caution && span.text.contains("mite")
        };
        let worries = story.sentences.iter().flatten().any(worry);
        let later = sky.day_length_change_h < 0.0;
        let mark = if later {
            p.act_in_autumn
        } else {
            p.act_in_spring
        };
        assert_eq!(worries, record.mites_per_100_bees >= mark, "{today}");
        marks[usize::from(later)][usize::from(worries)] += 1;
    }
    assert!(marks.iter().flatten().all(|days| *days > 0), "{marks:?}");
}

#[test]
fn a_window_without_brood_is_tried_on_each_of_its_days() {
    let list = Yard::new(&overwintered()).list(&[], Some(date(2013, 12, 1)));
    let item = list
        .items
        .iter()
        .find(|item| matches!(item.job, Job::Broodless { .. }));
    let item = item.expect("days without brood");
    let Job::Broodless { choices } = &item.job else {
        unreachable!("just found")
    };
    assert!(choices.iter().any(|choice| choice.fits), "{choices:?}");
    let in_it = |choice: &combcast_core::agenda::Choice| {
        choice
            .suits_from
            .is_none_or(|day| day >= item.from && day <= item.to)
    };
    assert!(choices.iter().all(in_it), "{choices:?}");
}
