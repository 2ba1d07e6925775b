//! What next: the list says what the members say, in order of date, in either system of units, and changes
//! with the colony.

use combcast_core::agenda::{Agenda, Asked, Item, Job, Mix, agenda};
use combcast_core::calendar::days_between;
use combcast_core::ensemble::{Alone, Peers};
use combcast_core::scenario::{FeedKind, Scenario};
use combcast_core::story::Units;
use combcast_core::verdict::Effort;
use combcast_core::visits::{Visit, book_from_toml};
use combcast_core::weather::{Report, Weather};
use combcast_core::words::{Language, Speech};
use jiff::civil::{Date, date};
use serde_json::Value;

use super::common::{self, good, output as combcast};

const WET_SPRING: &str = "scenarios/wet-spring.toml";
const DEMO: &str = "scenarios/visits/alder-row-3.toml";

struct Yard {
    scenario: Scenario,
    record: (Weather, Report),
}

impl Yard {
    fn new(text: &str) -> Self {
        let (scenario, record) = common::scenario(text);
        Self { scenario, record }
    }

    fn list(&self, visits: &[Visit], on: Option<Date>) -> Agenda {
        let record = Some((&self.record.0, &self.record.1));
        let peers = Peers::new(&self.scenario, record).expect("a season that can be run");
        let asked = Asked {
            scenario: &self.scenario,
            peers: &peers,
            hive: "",
            visits,
            on,
            weeks: 4,
            effort: Effort {
                members: 200,
                rounds: 1,
            },
        };
        agenda(asked, &Alone).expect("a list")
    }
}

fn wet_spring() -> String {
    include_str!("../scenarios/wet-spring.toml").to_owned()
}

fn demo_visits() -> Vec<Visit> {
    let book = book_from_toml(include_str!("../scenarios/visits/alder-row-3.toml"));
    book.expect("visits").visits
}

fn find(list: &Agenda, is: impl Fn(&Job) -> bool) -> Option<&Item> {
    list.items.iter().find(|item| is(&item.job))
}

#[test]
fn the_demo_hive_gets_next_weeks_list() {
    let text = good(&["next", WET_SPRING, DEMO, "--members", "400"]);
    for words in [
        "Alder Row 3: what next, from 18 June 2012",
        "Mon 25 June",
        "Make sure whether this is it: a poor queen",
        "Open the hive",
        "frames of brood",
        "Wash half a cup of bees for mites",
        "Be ready to treat against mites",
        "Follow the label: it is the law.",
        "Stings can kill",
        "of 400 colonies",
    ] {
        assert!(text.contains(words), "no \"{words}\" in\n{text}");
    }
    // Said once, however many visits there are.
    assert_eq!(text.matches("Stings can kill").count(), 1, "{text}");
}

#[test]
fn the_list_is_in_order_and_every_item_is_dated_counted_and_reasoned() {
    for (visits, on) in [
        (demo_visits(), None),
        (Vec::new(), None),
        (Vec::new(), Some(date(2012, 7, 1))),
    ] {
        let list = Yard::new(&wet_spring()).list(&visits, on);
        assert!(list.items.len() > 5, "{:?}", list.items);
        assert!(list.items.is_sorted_by_key(|item| item.from));
        for item in &list.items {
            assert!(item.from >= list.from && item.from <= item.to && item.to <= list.until);
            assert!(item.sure.count <= item.sure.of && item.sure.of > 0);
            for (language, units) in Language::ALL
                .into_iter()
                .flat_map(|language| [Units::Metric, Units::Us].map(|units| (language, units)))
            {
                let told = item.told(&list, Speech { language, units });
                assert!(
                    !told.why.is_empty() && !told.cautions.is_empty(),
                    "{told:?}"
                );
                let whole = format!("{} {} {}", told.title, told.details.join(" "), told.why);
                // Nothing of the program's own spelling is left in a sentence.
                for wrong in ["NaN", "inf", "Some(", "None", "  ", "{", "_"] {
                    assert!(!whole.contains(wrong), "\"{wrong}\" in {whole}");
                }
                let metric = [" kg", " litre", " Liter", " °C"]
                    .iter()
                    .any(|unit| whole.contains(unit));
                assert!(units == Units::Metric || !metric, "{whole}");
            }
        }
    }
}

#[test]
fn colonies_lost_before_the_first_day_are_not_left_out_in_silence() {
    let yard = Yard::new(&wet_spring());
    let early = yard.list(&[], Some(date(2012, 5, 1)));
    assert_eq!((early.members, early.left_out), (200, None));
    let late = yard.list(&[], Some(date(2012, 10, 1)));
    let lost = 200 - late.members;
    assert!(lost > 0);
    let said = late.left_out.expect("a sentence");
    let [english, german] = Language::ALL.map(|language| said.told(language.into()));
    assert_eq!(
        english,
        format!("Lost before this day, and left out: {lost} of 200 colonies.")
    );
    assert!(
        german.contains(&format!("{lost} von 200 Völkern")),
        "{german}"
    );
}

#[test]
fn brood_to_be_seen_is_that_of_the_members_and_a_poor_queen_shows() {
    let yard = Yard::new(&wet_spring());
    let with_visits = yard.list(&demo_visits(), None);
    let without = yard.list(&[], Some(date(2012, 6, 18)));
    let next = |list: &Agenda| {
        list.items.iter().find_map(|item| match &item.job {
            Job::Visit { look_for } if look_for.next => Some((item.from.0, **look_for)),
            _ => None,
        })
    };
    let (day, poor) = next(&with_visits).expect("a next visit");
    assert_eq!(day, date(2012, 6, 25));
    let (_, usual) = next(&without).expect("a next visit");
    assert!(2 * poor.poor_queen > with_visits.members, "{poor:?}");
    assert!(2 * usual.poor_queen < without.members, "{usual:?}");
    assert!(
        poor.brood_frames.q95 < usual.brood_frames.median,
        "{poor:?}"
    );
    let in_step = poor.in_step.expect("colonies to compare with");
    assert!(poor.brood_frames.median < in_step.q25, "{poor:?}");
    assert!(usual.in_step.is_none());
    let check = |list: &Agenda| find(list, |job| matches!(job, Job::Check { .. })).is_some();
    assert!(check(&with_visits) && !check(&without));
}

#[test]
fn a_hungry_colony_is_fed_as_much_as_helps_and_a_fed_one_is_not() {
    let unfed = Yard::new(include_str!("../scenarios/wet-spring-unfed.toml")).list(&[], None);
    let item = find(&unfed, |job| {
        matches!(
            job,
            Job::Feed {
                for_winter: false,
                ..
            }
        )
    });
    let item = item.expect("a package without comb or feed is hungry");
    let Job::Feed {
        mix, short_with_it, ..
    } = &item.job
    else {
        unreachable!("found as a feed");
    };
    assert_eq!(
        item.from.0,
        date(2012, 4, 30),
        "it cannot wait for the visit"
    );
    assert!(item.sure.share() > 0.9, "{item:?}");
    assert!(*short_with_it < item.sure.count / 2, "{item:?}");
    assert!(mix.litres > 0.5 && mix.litres < 20.0, "{mix:?}");
    let fed = Yard::new(&wet_spring()).list(&[], None);
    assert!(
        find(&fed, |job| matches!(
            job,
            Job::Feed {
                for_winter: false,
                ..
            }
        ))
        .is_none()
    );
}

#[test]
fn winter_feed_is_what_living_colonies_take_and_small_ones_are_united() {
    // Too late for a package to grow to the stores of a winter.
    let text = "name = \"A late package\"
until = 2012-10-31
place = { name = \"Alder Row\", latitude = 47.45, elevation_m = 130, forage = \"mixed\" }
weather = { record = \"seattle\" }
start = { date = 2012-07-10, package = { pounds = 2 } }
hive = { box = [{ frames = 10, comb = \"foundation\" }] }
feed = [{ from = 2012-07-10, to = 2012-09-01, kind = \"1:1\", jars = 2, every_days = 5 }]
";
    let list = Yard::new(text).list(&[], Some(date(2012, 9, 3)));
    let winter = |job: &Job| {
        matches!(
            job,
            Job::Feed {
                for_winter: true,
                ..
            }
        )
    };
    let item = find(&list, winter).expect("feed for winter");
    let Job::Feed {
        mix,
        short_with_it,
        of,
        all_they_take,
        ..
    } = &item.job
    else {
        unreachable!("just found")
    };
    assert!(*of <= list.members && item.sure.count <= *of, "{item:?}");
    assert!(2 * short_with_it > *of && *all_they_take, "{item:?}");
    // So few bees do not take the sugar of a winter.
    assert!(mix.sugar_kg < 12.0, "{item:?}");
}

#[test]
fn mixing_is_physics() {
    // A litre of 1:1 weighs 1.2296 kg, half of it sugar; a US gallon of 2:1 holds 7.38 lb of sugar (derived from the
    // density of sucrose solutions, ICUMSA 1990).
    let one = Mix::of(FeedKind::OneToOne, 1.0);
    assert!((one.sugar_kg - 0.6148).abs() < 2e-4, "{one:?}");
    assert!(
        (one.water_litres * 0.998_23 - one.sugar_kg).abs() < 1e-3,
        "{one:?}"
    );
    let gallon = Mix::of(FeedKind::TwoToOne, 3.785_411_784);
    assert!(
        (gallon.sugar_kg / 0.453_592_37 - 7.38).abs() < 0.01,
        "{gallon:?}"
    );
    assert!((gallon.sugar_kg - 2.0 * gallon.water_litres * 0.998_23).abs() < 1e-2);
}

#[test]
fn feeders_come_off_where_the_plan_ends_their_feed_and_no_other_follows() {
    let off = |text: &str| {
        let list = Yard::new(text).list(&[], Some(date(2012, 6, 11)));
        let off = |job: &Job| matches!(job, Job::Planned { text, .. } if text.to_string().contains("feeders off"));
        find(&list, off).map(|item| item.from.0)
    };
    let text = wet_spring();
    assert_eq!(off(&text), Some(date(2012, 6, 17)));
    let second = "[[feed]]\nfrom = 2012-06-18\nto = 2012-07-30\nkind = \"1:1\"\n\n[[move]]";
    assert_eq!(off(&text.replacen("[[move]]", second, 1)), None);
}

#[test]
fn a_box_is_due_about_when_most_of_the_first_is_drawn_and_not_if_the_plan_gives_it() {
    let text = wet_spring();
    let (before, after) = text.split_once("[[move]]").expect("the plan gives a box");
    let (_, after) = after.split_once("[[expect]]").expect("expectations follow");
    let without = Yard::new(&format!("{before}[[expect]]{after}"));
    let list = without.list(&[], Some(date(2012, 5, 21)));
    let item = find(&list, |job| matches!(job, Job::AddBox { .. })).expect("a box is needed");
    let Job::AddBox { middle, .. } = item.job else {
        unreachable!("found as a box");
    };
    // The scenario's own rule of thumb: about five weeks after hiving, later after rain.
    let after_hiving = days_between(date(2012, 4, 30), middle.0);
    assert!((30..=65).contains(&after_hiving), "{middle}");
    let planned = Yard::new(&text).list(&[], Some(date(2012, 5, 21)));
    let second = find(&planned, |job| matches!(job, Job::AddBox { .. }));
    assert!(
        second.is_none_or(|second| second.from > middle),
        "{second:?}"
    );
    let told = find(
        &planned,
        |job| matches!(job, Job::Planned { text, .. } if text.to_string().contains("box")),
    );
    assert_eq!(told.expect("the plan's own box").from.0, date(2012, 6, 4));
}

#[test]
fn a_box_that_the_plan_gives_too_late_is_told_together_with_the_need_of_it() {
    let nuc = Yard::new(include_str!("../scenarios/small-nuc.toml"));
    let list = nuc.list(&[], Some(date(2013, 5, 20)));
    let late = date(2013, 6, 8);
    let item = find(&list, |job| matches!(job, Job::AddBox { .. })).expect("a box is needed");
    let Job::AddBox { planned, middle } = item.job else {
        unreachable!("found as a box");
    };
    assert_eq!(planned.map(|day| day.0), Some(late));
    assert!(middle.0 < late, "{middle}");
    for (language, said) in [
        (Language::English, "Your plan gives one on"),
        (Language::German, "Dein Plan gibt eine am"),
    ] {
        let told = item.told(&list, language.into());
        assert!(told.details[0].starts_with(said), "{told:?}");
        let day = language.day_and_month(late, false);
        assert!(told.details[0].contains(&day), "{told:?}");
    }
    let told = item.told(&list, Language::English.into());
    assert!(told.why.contains("have drawn that much comb"), "{told:?}");
}

#[test]
fn a_drone_frame_goes_in_only_to_come_out_before_its_drones_do() {
    let list = Yard::new(&wet_spring()).list(&[], Some(date(2012, 7, 10)));
    let item = find(&list, |job| matches!(job, Job::DroneFrameIn { .. }));
    let item = item.expect("a colony of July raises drones");
    let Job::DroneFrameIn {
        first_egg,
        out_by,
        fewer,
        ..
    } = &item.job
    else {
        unreachable!("found as a drone frame");
    };
    // 24 days from egg to drone; the earliest of twenty colonies sets both.
    let days = out_by.days_since(*first_egg);
    assert!((20..=24).contains(&days), "{first_egg} to {out_by}");
    assert!(item.from <= *first_egg && fewer.median >= 1.0);
    let out = find(&list, |job| matches!(job, Job::DroneFrameOut { .. })).expect("it comes out");
    assert_eq!(out.to, *out_by);

    // One that the plan leaves in.
    let late = include_str!("../scenarios/drone-frame-late.toml");
    let scenario = Scenario::from_toml(late).expect("a sound scenario");
    let first = scenario.start.date.0;
    let list = Yard::new(late).list(&[], Some(first));
    let out = find(&list, |job| {
        matches!(job, Job::DroneFrameOut { there: true, .. })
    });
    assert!(out.is_some(), "{:?}", list.items);
    let on_time = Yard::new(include_str!("../scenarios/drone-frame-on-time.toml"));
    let list = on_time.list(&[], Some(first));
    let out = find(&list, |job| matches!(job, Job::DroneFrameOut { .. }));
    assert!(out.is_none(), "{out:?}");
}

#[test]
fn treatments_keep_to_their_windows_and_rules() {
    let list = Yard::new(&wet_spring()).list(&[], Some(date(2012, 7, 1)));
    let mut seen = 0;
    for item in &list.items {
        let (Job::Treat { choices, .. } | Job::Broodless { choices }) = &item.job else {
            continue;
        };
        let broodless = matches!(item.job, Job::Broodless { .. });
        for choice in choices {
            assert!(
                !choice.fits || choice.days_in_window == choice.days,
                "{choice:?}"
            );
            assert!(!choice.fits || !choice.brood_in_the_way, "{choice:?}");
            assert!(!(broodless && choice.brood_in_the_way), "{choice:?}");
            seen += 1;
        }
        let told = item.told(&list, Units::Metric.into());
        assert!(told.cautions[0].starts_with("Follow the label"), "{told:?}");
        // Of several treatments each caution says which it is true of.
        for choice in choices.iter().filter(|choice| choice.fits) {
            let cautions = &told.cautions[1..];
            let of_it = |caution: &&String| caution.to_lowercase().contains(choice.name);
            let caution = cautions.iter().find(of_it).expect("named");
            assert!(caution.ends_with(choice.caution), "{caution}");
        }
    }
    assert!(seen > 0);
}

#[test]
fn each_visit_has_a_reason_of_its_own_day() {
    for (plan, on) in [
        (wet_spring(), date(2012, 5, 7)),
        (
            include_str!("../scenarios/august-treatment.toml").to_owned(),
            date(2013, 5, 1),
        ),
    ] {
        let list = Yard::new(&plan).list(&[], Some(on));
        let visits = (list.items.iter()).filter(|item| matches!(item.job, Job::Visit { .. }));
        for language in Language::ALL {
            let whys: Vec<String> = (visits.clone())
                .map(|item| item.told(&list, language.into()).why)
                .collect();
            let different: std::collections::BTreeSet<&String> = whys.iter().collect();
            assert!(whys.len() > 2 && different.len() == whys.len(), "{whys:?}");
        }
    }
    let list = Yard::new(&wet_spring()).list(&[], Some(date(2012, 7, 1)));
    let mut visits = (list.items.iter()).filter_map(|item| match &item.job {
        Job::Visit { look_for } => Some((item.from, look_for)),
        _ => None,
    });
    let (first, today) = visits.next().expect("a visit");
    let (_, second) = visits.next().expect("another");
    assert_eq!(today.before.date, list.from);
    let before = second.before;
    assert_eq!(before.date, first);
    assert_eq!(before.drawn_frames, today.drawn_frames.median);
    assert_eq!(before.stores_kg, today.stores_kg.median);
}

#[test]
fn a_wash_is_due_a_month_after_the_last() {
    let visits = demo_visits();
    let list = Yard::new(&wet_spring()).list(&visits, None);
    let washed = visits.iter().rev().find(|visit| visit.wash.is_some());
    let washed = washed.expect("the demo hive was washed").date;
    let item = find(&list, |job| matches!(job, Job::Wash { .. })).expect("a wash");
    let Job::Wash {
        low, high, last, ..
    } = item.job
    else {
        unreachable!("found as a wash");
    };
    assert_eq!(last, Some(washed));
    assert!((28..35).contains(&item.from.days_since(washed)));
    assert!(low <= high && high < 60);
}

#[test]
fn the_same_list_on_any_number_of_threads() {
    let with = |threads: &str| {
        good(&[
            "next",
            WET_SPRING,
            DEMO,
            "--members",
            "150",
            "--json",
            "--threads",
            threads,
        ])
    };
    let one = with("1");
    assert_eq!(one, with("3"));
    let lists: Value = serde_json::from_str(&one).expect("JSON");
    assert_eq!(lists[0]["hive"], "Alder Row 3");
    assert_eq!(lists[0]["items"][0]["sure"]["of"], 150);
    let kinds: Vec<&str> = lists[0]["items"]
        .as_array()
        .expect("items")
        .iter()
        .filter_map(|item| item["kind"].as_str())
        .collect();
    assert!(
        kinds.contains(&"visit") && kinds.contains(&"wash"),
        "{kinds:?}"
    );
}

#[test]
fn the_sheet_fits_on_paper_and_has_room_to_write() {
    let sheet = good(&["next", WET_SPRING, DEMO, "--members", "150", "--sheet"]);
    assert!(
        sheet.lines().all(|line| line.chars().count() <= 80),
        "{sheet}"
    );
    assert!(sheet.contains("[ ] Mon 25 June: Open the hive"), "{sheet}");
    assert!(sheet.contains("Found: bees ______"), "{sheet}");
    assert!(sheet.contains("Beware\n------\n"), "{sheet}");
}

#[test]
fn a_day_outside_of_the_season_is_refused_with_the_days_that_are_not() {
    let output = combcast(&["next", WET_SPRING, "--on", "2013-01-01"]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("--on"), "{told}");
    assert!(told.contains("from 2012-04-30 to 2012-10-31"), "{told}");
    let output = combcast(&["next", WET_SPRING, DEMO, "--on", "2012-05-01"]);
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).expect("text");
    assert!(told.contains("no visit can be used"), "{told}");
}

#[test]
fn what_a_visit_should_find_is_what_the_bands_say_of_the_night_before() {
    let lists: Value = serde_json::from_str(&good(&[
        "next",
        WET_SPRING,
        "--members",
        "150",
        "--on",
        "2012-05-14",
        "--json",
    ]))
    .expect("JSON");
    let items = lists[0]["items"].as_array().expect("items");
    let visit = items
        .iter()
        .find(|item| item["kind"] == "visit")
        .expect("a visit");
    assert_eq!(visit["from"], "2012-05-14");
    // No colony of this plan is lost by then: both read the same members.
    assert_eq!(visit["look_for"]["lost"], 0);
    assert_eq!(lists[0]["members"], 150);
    let bands: Value = serde_json::from_str(&good(&[
        "bands",
        WET_SPRING,
        "--members",
        "150",
        "--on",
        "2012-05-13",
        "--json",
    ]))
    .expect("JSON");
    let dates = bands["dates"].as_array().expect("dates");
    let there = dates
        .iter()
        .find(|there| there["date"] == "2012-05-13")
        .expect("the date");
    let measures = there["measures"].as_array().expect("measures");
    let drawn = measures
        .iter()
        .find(|known| known["name"] == "drawn_frames")
        .expect("drawn");
    for share in ["q05", "q25", "median", "q75", "q95"] {
        assert_eq!(
            visit["look_for"]["drawn_frames"][share], drawn[share],
            "{share}"
        );
    }
}
