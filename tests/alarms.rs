//! What a visit found counts, whatever the colonies of the model hold: lists and verdicts never wave away queen cells, empty
//! stores, mites over the mark, a dead hive, or a hive that lives where its plan's colonies do not.

mod food;
mod treatments;
mod verdicts;

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

/// A plan with another move before its expectations.
fn with(text: &str, step: &str) -> Yard {
    Yard::new(&text.replacen("[[expect]]", &format!("{step}\n\n[[expect]]"), 1))
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
