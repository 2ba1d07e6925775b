//! What a visit found counts, whatever the colonies of the model hold: lists and verdicts never wave away queen cells, empty
//! stores, mites over the mark, a dead hive, or a hive that lives where its plan's colonies do not.

use super::common::{self, overwintered};
use combcast_core::agenda::{Agenda, Asked, Item, Job, Way, agenda};
use combcast_core::calendar::plus_days;
use combcast_core::ensemble::{Alone, Peers};
use combcast_core::scenario::{FeedKind, Scenario};
use combcast_core::story;
use combcast_core::verdict::{Alarming, Effort, Sign, Verdict, Word, judge};
use combcast_core::visits::{Visit, book_from_toml, books_from_csv};
use combcast_core::weather::{Report, Weather};
use combcast_core::words::Language;
use jiff::civil::{Date, date};

const HEADING: &str = "date,frames_of_bees,frames_of_brood,frames_drawn,stores_kg,eggs_seen,\
queen_seen,charged_cells,capped_cells,wash_mites";
const EFFORT: Effort = Effort {
    members: 100,
    rounds: 1,
};

fn wet_spring() -> String {
    include_str!("../scenarios/wet-spring.toml").to_owned()
}

/// A package on drawn comb that nobody feeds: nearly all starve by autumn.
fn unfed() -> String {
    let text = include_str!("../scenarios/drawn-comb.toml");
    let (before, after) = text.split_once("[[feed]]").expect("a feed");
    let (_, after) = after.split_once("[[move]]").expect("a box");
    let (after, _) = after.split_once("[[expect]]").expect("expectations");
    format!("{before}[[move]]{after}").replace("2012-10-31", "2012-12-31")
}

struct Yard {
    scenario: Scenario,
    record: (Weather, Report),
}

impl Yard {
    fn new(text: &str) -> Self {
        let (scenario, record) = common::scenario(text);
        Self { scenario, record }
    }

    fn peers(&self) -> Peers {
        let record = Some((&self.record.0, &self.record.1));
        Peers::new(&self.scenario, record).expect("a season that can be run")
    }

    fn list(&self, visits: &[Visit], on: Option<Date>) -> Agenda {
        let asked = Asked {
            scenario: &self.scenario,
            peers: &self.peers(),
            hive: "",
            visits,
            on,
            weeks: 4,
            effort: EFFORT,
        };
        agenda(asked, &Alone).expect("a list")
    }

    fn verdict(&self, visits: &[Visit]) -> Verdict {
        let peers = self.peers();
        let all = (visits, Vec::new());
        judge(&self.scenario, &peers, "", all, EFFORT, &Alone).expect("a verdict")
    }
}

fn visits(rows: &[&str]) -> Vec<Visit> {
    let table = format!("{HEADING}\n{}\n", rows.join("\n"));
    let mut books = books_from_csv(&table).expect("a table");
    books.remove(0).visits
}

/// The kinds of a list's items; those that a visit called for end in "!".
fn kinds(list: &Agenda) -> Vec<String> {
    let kind = |item: &Item| {
        let name = match &item.job {
            Job::Found { alarm } => match alarm.what {
                Alarming::QueenCells { .. } => "cells",
                Alarming::Lost { .. } => "lost",
                _ => "at odds",
            },
            Job::Planned { .. } => "planned",
            Job::Check { .. } => "check",
            Job::FirstLook { .. } => "first look",
            Job::Visit { look_for } if look_for.winter => "winter look",
            Job::Visit { .. } => "visit",
            Job::Feed {
                for_winter: true, ..
            } => "winter feed",
            Job::Feed { .. } => "feed",
            Job::AddBox { .. } => "box",
            Job::DroneFrameIn { .. } => "drone frame",
            Job::DroneFrameOut { .. } => "drone frame out",
            Job::Wash { .. } => "wash",
            Job::Treat { .. } => "treat",
            Job::Broodless { .. } => "broodless",
        };
        format!("{name}{}", if item.job.is_found() { "!" } else { "" })
    };
    list.items.iter().map(kind).collect()
}

/// A visit, what has to be on the list of that day, and what must not be on the list at all.
struct Row<'a> {
    plan: String,
    visits: &'a [&'a str],
    on: Option<Date>,
    today: &'a [&'a str],
    never: &'a [&'a str],
}

#[test]
fn what_was_found_is_on_the_list_of_that_day_and_what_contradicts_it_is_not() {
    let found = |plan, visits, today, never| Row {
        plan,
        visits,
        on: None,
        today,
        never,
    };
    let on = |plan, day, today, never| Row {
        plan,
        visits: &[],
        on: Some(day),
        today,
        never,
    };
    let rows = [
        // Capped cells and eggs: a swarm is about to leave.
        found(
            overwintered(),
            &["2013-05-10,9,4,,,yes,,,12,"],
            &["cells!"],
            &["drone frame"],
        ),
        // Cells and no eggs: she is gone. A box is of no use, and a young queen is left alone.
        found(
            wet_spring(),
            &["2012-07-10,7,4,20,,no,no,8,10,"],
            &["cells!"],
            &["drone frame", "box"],
        ),
        // No cells: nothing of the kind.
        found(
            wet_spring(),
            &["2012-07-10,7,4,20,15,yes,,0,0,"],
            &[],
            &["cells!", "feed!", "treat!", "lost!", "at odds!"],
        ),
        // Empty combs, where the model's colonies have 20 kg.
        found(
            wet_spring(),
            &["2012-07-10,7,4,20,0,yes,,,,"],
            &["feed!"],
            &["drone frame", "box"],
        ),
        // A package has nothing in its combs while there is syrup in its feeder.
        found(
            wet_spring(),
            &["2012-05-10,3.5,0.5,1,0.2,yes,,,,"],
            &[],
            &["feed!"],
        ),
        // 13 mites on 100 bees.
        found(
            overwintered(),
            &["2013-07-10,14,5,,,yes,,,,40"],
            &["treat!"],
            &["wash", "drone frame", "treat"],
        ),
        found(
            overwintered(),
            &["2013-07-10,14,5,,,yes,,,,2"],
            &[],
            &["treat!"],
        ),
        // Dead.
        found(
            unfed(),
            &["2012-10-22,2,,,,,,,,", "2012-11-05,0,,,,,,,,"],
            &["lost!"],
            &[
                "visit",
                "winter look",
                "feed",
                "winter feed",
                "wash",
                "treat",
                "broodless",
            ],
        ),
        // Alive, where three in four colonies of its plan are not.
        found(
            unfed(),
            &["2012-10-22,5,1,,,yes,,,,"],
            &["at odds!"],
            &["lost!", "visit", "wash", "broodless"],
        ),
        // Death by mites is no hunger, and a cluster is not opened or washed.
        on(
            overwintered(),
            date(2014, 2, 20),
            &[],
            &["feed", "visit", "wash"],
        ),
        on(
            overwintered(),
            date(2013, 12, 10),
            &["broodless"],
            &["visit", "wash"],
        ),
        // The last day of the season has a list of its own.
        on(wet_spring(), date(2012, 10, 31), &[], &["wash"]),
    ];
    for (number, row) in rows.iter().enumerate() {
        let yard = Yard::new(&row.plan);
        let visits = if row.visits.is_empty() {
            Vec::new()
        } else {
            visits(row.visits)
        };
        let list = yard.list(&visits, row.on);
        let all = kinds(&list);
        let today = list.items.iter().filter(|item| item.from == list.from);
        let today = today.count();
        for kind in row.today {
            assert!(
                all[..today].iter().any(|one| one == kind),
                "row {number}: no {kind} today in {all:?}"
            );
        }
        for kind in row.never {
            assert!(
                !all.iter().any(|one| one == kind),
                "row {number}: {kind} in {all:?}"
            );
        }
        for item in &list.items {
            assert!(item.sure.count <= item.sure.of && item.sure.of > 0);
            let told = Language::ALL.map(|language| item.told(&list, language.into()));
            for told in &told {
                assert!(
                    !told.why.is_empty() && !told.cautions.is_empty(),
                    "{told:?}"
                );
                for said in told.details.iter().chain([&told.title, &told.why]) {
                    for wrong in ["NaN", "inf ", "Some(", "None", "  ", "{", "_"] {
                        assert!(!said.contains(wrong), "\"{wrong}\" in {said}");
                    }
                }
            }
            assert_ne!(told[0].why, told[1].why);
        }
    }
}

#[test]
fn queen_cells_are_told_apart_by_what_else_was_seen() {
    for (row, sign, said) in [
        ("2013-05-10,9,4,,,yes,,,12,", Sign::Leaving, "split today"),
        ("2013-05-10,9,4,,,no,no,3,12,", Sign::Gone, "three weeks"),
        (
            "2013-05-10,9,4,,,,yes,5,0,",
            Sign::Raising,
            "before the first cell is capped",
        ),
        (
            "2013-05-10,9,4,,,,,5,1,",
            Sign::Unknown,
            "If there are eggs",
        ),
    ] {
        let list = Yard::new(&overwintered()).list(&visits(&[row]), None);
        let item = list
            .items
            .iter()
            .find(|item| matches!(item.job, Job::Found { .. }));
        let item = item.expect("cells");
        let Job::Found { alarm } = &item.job else {
            unreachable!("just found")
        };
        let Alarming::QueenCells { sign: read, .. } = alarm.what else {
            panic!("{alarm:?}")
        };
        assert_eq!(read, sign, "{row}");
        let told = item.told(&list, Language::English.into());
        assert!(told.details.join(" ").contains(said), "{told:?}");
        assert!(told.title.contains("cut none before you know"), "{told:?}");
        let look = |item: &&Item| matches!(item.job, Job::Visit { .. });
        let young = list.items.iter().find(look).expect("a visit");
        let young = young.told(&list, Language::English.into());
        let mentioned = young.details[0].starts_with("Look for eggs: a young queen");
        assert_eq!(mentioned, sign == Sign::Gone, "{young:?}");
        // A hive whose young queen is to mate is not opened for three weeks.
        let next = list
            .items
            .iter()
            .find(|item| matches!(item.job, Job::Visit { .. }));
        let days = next.map_or(28, |next| next.from.days_since(list.from));
        assert_eq!(days >= 21, sign == Sign::Gone, "{row}: {days}");
    }
}

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
fn sugar_is_given_as_the_season_wants_it() {
    let feed = |rows: &[&str]| {
        let list = Yard::new(&overwintered()).list(&visits(rows), None);
        let feed = |item: &Item| match &item.job {
            Job::Feed {
                found: Some(_),
                way,
                mix,
                ..
            } => Some((*way, mix.kind)),
            _ => None,
        };
        list.items.iter().find_map(feed).expect("feed")
    };
    assert_eq!(
        feed(&["2013-05-10,9,4,,0.3,yes,,,,"]),
        (Way::Syrup, FeedKind::OneToOne)
    );
    assert_eq!(
        feed(&["2013-08-28,9,3,,0.3,yes,,,,"]),
        (Way::Syrup, FeedKind::TwoToOne)
    );
    let (way, _) = feed(&["2013-12-03,6,0,,1,,,,,"]);
    assert_eq!(way, Way::OnTheBars);
}

#[test]
fn a_colony_whose_food_does_not_last_until_spring_is_told_while_it_can_be_helped() {
    // In October, with so much honey, in the weather of New York.
    let with = |honey_kg: f64| {
        Yard::new(&format!(
            "name = \"In autumn\"
until = 2014-05-31
place = {{ name = \"Quarry Gate\", latitude = 40.78, elevation_m = 40, forage = \"mixed\" }}
weather = {{ record = \"new-york\" }}
start = {{ date = 2013-10-20, established = {{ frames_of_bees = 8, frames_of_brood = 1, honey_kg = {honey_kg}, pollen_kg = 1 }} }}
hive = {{ box = [{{ frames = 10, comb = \"drawn\" }}, {{ frames = 10, comb = \"drawn\" }}] }}
"
        ))
    };
    let on_the_bars = |list: &Agenda| {
        let mut items = list.items.iter();
        let is = |item: &&Item| {
            matches!(
                item.job,
                Job::Feed {
                    way: Way::OnTheBars,
                    ..
                }
            )
        };
        items.find(is).cloned()
    };
    for day in [date(2013, 11, 20), date(2013, 12, 20), date(2014, 1, 20)] {
        let list = with(9.0).list(&[], Some(day));
        let item = on_the_bars(&list).unwrap_or_else(|| panic!("{day}: {:?}", kinds(&list)));
        let Job::Feed {
            mix,
            short_with_it,
            of,
            ..
        } = &item.job
        else {
            unreachable!("just found")
        };
        assert!(item.from.0 == day && item.to.0 >= day, "{item:?}");
        assert!(
            10 * item.sure.count >= *of && 10 * short_with_it <= *of,
            "{item:?}"
        );
        assert!(mix.sugar_kg > 0.5 && mix.sugar_kg < 25.0, "{item:?}");
        for (language, spring) in [
            (Language::English, "before spring"),
            (Language::German, "vor dem Frühling"),
        ] {
            let why = item.told(&list, language.into()).why;
            assert!(why.contains(spring), "{why}");
        }
        // Who has enough is left in peace.
        assert_eq!(on_the_bars(&with(32.0).list(&[], Some(day))), None, "{day}");
    }
    // While syrup is still taken, it is syrup.
    assert_eq!(
        on_the_bars(&with(9.0).list(&[], Some(date(2013, 10, 21)))),
        None
    );
}

#[test]
fn winter_feed_does_not_wait_when_it_is_time() {
    let list = Yard::new(&wet_spring()).list(&visits(&["2012-10-10,7,1,20,5,yes,,,,"]), None);
    let winter = |item: &&Item| {
        matches!(
            item.job,
            Job::Feed {
                for_winter: true,
                ..
            }
        )
    };
    let item = list.items.iter().find(winter).expect("feed for winter");
    assert_eq!(item.from.0, date(2012, 10, 10));
}

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

/// A plan with another move before its expectations.
fn with(text: &str, step: &str) -> Yard {
    Yard::new(&text.replacen("[[expect]]", &format!("{step}\n\n[[expect]]"), 1))
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
fn a_fall_over_the_mark_calls_for_a_treatment_as_a_wash_does() {
    let book = |rows: &str| book_from_toml(rows).expect("visits").visits;
    let fall = |date: &str, mites: u32, more: &str| {
        format!("[[visit]]\ndate = {date}\nmite_fall = {{ mites = {mites}, days = 3 }}\n{more}\n")
    };
    let calls = |yard: &Yard, rows: &str| {
        let list = yard.list(&book(rows), None);
        let kinds = kinds(&list);
        // Who is to treat need not wash, nor breed drones.
        let treat = kinds.iter().any(|kind| kind == "treat!");
        assert!(
            !treat || !kinds.iter().any(|kind| kind == "wash"),
            "{kinds:?}"
        );
        treat
    };
    let yard = Yard::new(&overwintered());
    // 30 a day in summer, 15 from autumn on.
    assert!(calls(&yard, &fall("2013-07-10", 90, "")));
    assert!(!calls(&yard, &fall("2013-07-10", 89, "")));
    assert!(calls(&yard, &fall("2013-10-05", 45, "")));
    assert!(!calls(&yard, &fall("2013-10-05", 44, "")));
    // A wash tells more; one that came before does not.
    let wash = "wash = { mites = 1, bees = 300 }";
    assert!(!calls(&yard, &fall("2013-07-10", 300, wash)));
    let before = format!("[[visit]]\ndate = 2013-06-20\n{wash}\n");
    assert!(calls(&yard, &(before + &fall("2013-07-10", 300, ""))));
    // What a treatment kills falls while it works and for some weeks.
    let treat = "[[move]]\ndate = 2013-06-12\ntreat = { with = \"oxalic-vapour\" }";
    let yard = with(&overwintered(), treat);
    assert!(!calls(&yard, &fall("2013-07-04", 300, "")));
    assert!(calls(&yard, &fall("2013-07-10", 300, "")));
    // The verdict says so, in both languages.
    let mut verdict = yard.verdict(&book(&fall("2013-07-10", 3000, "")));
    assert!(
        verdict.alarms[0].text
            == "The board of 10 July caught 3,000 mites in 3 days: 1,000 a day, where 30 a day are the mark. It is time to treat."
    );
    verdict.spoken(Language::German);
    let german = verdict.alarms[0].text.to_string();
    assert!(
        german.starts_with(
            "Auf der Windel lagen am 10. Juli 3.000 Milben, gesammelt über 3 Tage: 1.000 am Tag"
        ),
        "{german}"
    );
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

#[test]
fn a_package_is_looked_into_when_its_queen_should_be_out() {
    let yard = Yard::new(&wet_spring());
    let first = |on: Option<Date>, visits: &[Visit]| {
        let list = yard.list(visits, on);
        let look = list
            .items
            .iter()
            .find(|item| matches!(item.job, Job::FirstLook { .. }));
        look.map(|look| (look.from.0, look.to.0))
    };
    assert_eq!(first(None, &[]), Some((date(2012, 5, 3), date(2012, 5, 5))));
    assert_eq!(first(Some(date(2012, 5, 6)), &[]), None);
    assert_eq!(first(None, &visits(&["2012-05-04,3.5,,,,yes,,,,"])), None);
    // A colony that was not caged needs none.
    let list = Yard::new(&overwintered()).list(&[], None);
    assert!(!kinds(&list).iter().any(|kind| kind == "first look"));
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
