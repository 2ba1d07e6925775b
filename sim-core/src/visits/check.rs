//! Setting aside what cannot be: each with its reason, and the rest is used.

use jiff::civil::Date;
use serde::Serialize;

use super::merge::merge;
use super::{Visit, VisitBook};
use crate::calendar::{CalendarDate, plus_days};
use crate::order;
use crate::words::{Entry, Saying};

/// Something that was set aside. It stays in the file; it is only not counted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Aside {
    /// Which visit, counted from 1 as they stand in the file.
    pub visit: usize,
    /// Its line in the table that it stands in, if it is of a table.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub line: Option<usize>,
    /// Its date.
    pub date: CalendarDate,
    /// What was set aside: a field's name, or `visit` for all of it.
    pub what: &'static str,
    /// Why.
    pub reason: Saying,
}

impl Aside {
    /// Why, after the field and, of a table, the line.
    pub fn placed(&self) -> Saying {
        let why = self.reason.clone();
        let field = match self.what {
            "visit" => why,
            what => Saying::new(|words| words.aside.field)
                .text("field", what)
                .said("why", why),
        };
        match self.line {
            Some(line) => Saying::new(|words| words.aside.line)
                .count("line", line)
                .said("why", field),
            None => field,
        }
    }
}

/// The season that visits are held against.
#[derive(Clone, Copy)]
struct Frame<'a> {
    first: Date,
    last: Date,
    today: Option<Date>,
    frames_in_hive: &'a dyn Fn(Date) -> f64,
}

/// The visits that can be used, in order of date, and what was set aside.
///
/// `today` is the date in Greenwich: a visit can be of the day after, since it can be tomorrow already where the
/// hive stands; `frames_in_hive` says how many frames the hive holds
/// on the morning of a day of the season.
pub fn sift(
    book: &VisitBook,
    (first, last): (Date, Date),
    today: Option<Date>,
    frames_in_hive: &dyn Fn(Date) -> f64,
) -> (Vec<Visit>, Vec<Aside>) {
    let frame = Frame {
        first,
        last,
        today,
        frames_in_hive,
    };
    let mut aside = Vec::new();
    let mut kept: Vec<(usize, Visit)> = Vec::new();
    for (index, visit) in book.visits.iter().enumerate() {
        let number = index + 1;
        let mut put = |what: &'static str, reason: Saying| {
            aside.push(Aside {
                visit: number,
                line: book.lines.get(index).copied(),
                date: visit.date,
                what,
                reason,
            });
        };
        if let Some(reason) = out_of_time(visit, frame) {
            put("visit", reason);
            continue;
        }
        let mut visit = visit.clone();
        drop_impossible(&mut visit, frame, &mut put);
        if let Some((before, same)) = kept.iter_mut().find(|(_, other)| other.date == visit.date) {
            if *same == visit {
                put(
                    "visit",
                    Saying::new(|words| words.aside.same_visit).count("visit", *before),
                );
            } else {
                merge(same, *before, &visit, &mut put);
            }
            continue;
        }
        kept.push((number, visit));
    }
    order::by_key(&mut kept, |(_, visit)| visit.date.number());
    (kept.into_iter().map(|(_, visit)| visit).collect(), aside)
}

fn out_of_time(visit: &Visit, frame: Frame) -> Option<Saying> {
    let date = visit.date.0;
    let (first, last) = (frame.first, frame.last);
    match frame.today {
        Some(today) if date > plus_days(today, 1) => {
            Some(Saying::new(|words| words.aside.future).date("today", today))
        }
        _ if date < first => {
            Some(Saying::new(|words| words.aside.before_season).date("first", first))
        }
        _ if date > last => Some(Saying::new(|words| words.aside.after_season).date("last", last)),
        _ => None,
    }
}

fn sum(boxes: &[f64]) -> f64 {
    boxes.iter().sum()
}

fn drop_impossible(visit: &mut Visit, frame: Frame, put: &mut impl FnMut(&'static str, Saying)) {
    let hive = (frame.frames_in_hive)(visit.date.0);
    let slack = 0.5;
    for (what, boxes) in [
        ("frames_of_bees", &mut visit.frames_of_bees),
        ("frames_of_brood", &mut visit.frames_of_brood),
        ("frames_drawn", &mut visit.frames_drawn),
    ] {
        if let Some(wrong) = boxes.iter().find(|frames| !(0.0..=20.0).contains(*frames)) {
            put(
                what,
                Saying::new(|words| words.aside.frames_in_a_box).plain("got", *wrong),
            );
            boxes.clear();
        } else if sum(boxes) > hive + slack {
            let reason = Saying::new(|words| words.aside.frames_in_the_hive)
                .plain("frames", sum(boxes))
                .plain("hive", hive);
            put(what, reason);
            boxes.clear();
        }
    }
    let (brood, drawn) = (sum(&visit.frames_of_brood), sum(&visit.frames_drawn));
    if !visit.frames_drawn.is_empty() && brood > drawn + slack {
        let reason = Saying::new(|words| words.aside.brood_needs_comb)
            .plain("brood", brood)
            .plain("drawn", drawn);
        put("frames_of_brood", reason.clone());
        put("frames_drawn", reason);
        visit.frames_of_brood.clear();
        visit.frames_drawn.clear();
    }
    if visit.frames_of_stores.is_some() && visit.stores_kg.is_some() {
        let reason = Saying::new(|words| words.aside.stores_twice);
        put("frames_of_stores", reason);
        visit.frames_of_stores = None;
    }
    limit(
        &mut visit.frames_of_stores,
        "frames_of_stores",
        0.0,
        hive,
        |words| words.aside.not_frames,
        put,
    );
    let kilograms: Entry = |words| words.aside.not_kilograms;
    limit(
        &mut visit.stores_kg,
        "stores_kg",
        0.0,
        150.0,
        kilograms,
        put,
    );
    limit(
        &mut visit.weight_kg,
        "weight_kg",
        1.0,
        300.0,
        kilograms,
        put,
    );
    if let Some(wash) = visit.wash
        && (wash.bees < 10 || wash.bees > 2000 || wash.mites > wash.bees)
    {
        let reason = Saying::new(|words| words.aside.wash)
            .plain("mites", wash.mites)
            .plain("bees", wash.bees);
        put("wash", reason);
        visit.wash = None;
    }
    if let Some(fall) = visit.mite_fall
        && !(0.25..=60.0).contains(&fall.days)
    {
        put(
            "mite_fall",
            Saying::new(|words| words.aside.mite_fall).plain("days", fall.days),
        );
        visit.mite_fall = None;
    }
    if let Some(taken) = visit.syrup_taken {
        let amount = taken.litres.unwrap_or(0.0) + taken.jars.unwrap_or(0.0);
        let one = taken.litres.is_some() != taken.jars.is_some();
        let later = taken.since.is_some_and(|since| since >= visit.date);
        let reason = if !one {
            Some(Saying::new(|words| words.aside.litres_or_jars))
        } else if !(0.0..=100.0).contains(&amount) {
            Some(Saying::new(|words| words.aside.syrup).plain("got", amount))
        } else if later {
            Some(Saying::new(|words| words.aside.syrup_since))
        } else {
            None
        };
        if let Some(reason) = reason {
            put("syrup_taken", reason);
            visit.syrup_taken = None;
        }
    }
}

fn limit(
    value: &mut Option<f64>,
    what: &'static str,
    least: f64,
    most: f64,
    expected: Entry,
    put: &mut impl FnMut(&'static str, Saying),
) {
    if let Some(got) = *value
        && !(least..=most).contains(&got)
    {
        put(
            what,
            Saying::new(expected)
                .plain("least", least)
                .plain("most", most)
                .plain("got", got),
        );
        *value = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::visits::book_from_toml;
    use crate::words::Language;
    use jiff::civil::date;

    fn sifted(text: &str) -> (Vec<Visit>, Vec<Aside>) {
        let book = book_from_toml(text).expect("a visit book");
        let season = (date(2012, 4, 30), date(2012, 10, 31));
        sift(&book, season, Some(date(2012, 7, 1)), &|_| 10.0)
    }

    #[test]
    fn what_cannot_be_is_named_and_the_rest_is_used() {
        let (visits, aside) = sifted(
            "hive = \"3\"
            visit = [
                { date = 2012-05-21, frames_of_bees = [4], frames_of_brood = [6], frames_drawn = [3] },
                { date = 2012-08-01, frames_of_bees = [9] },
                { date = 2012-04-01, frames_of_bees = [9] },
                { date = 2012-05-14, frames_of_bees = [12] },
                { date = 2012-05-28, wash = { mites = 400 }, eggs_seen = true },
            ]",
        );
        let whats: Vec<_> = aside
            .iter()
            .map(|aside| (aside.visit, aside.what))
            .collect();
        assert_eq!(
            whats,
            [
                (1, "frames_of_brood"),
                (1, "frames_drawn"),
                (2, "visit"),
                (3, "visit"),
                (4, "frames_of_bees"),
                (5, "wash"),
            ]
        );
        assert!(
            aside[0].reason.to_string().contains("brood needs comb"),
            "{aside:?}"
        );
        assert!(aside[2].reason.to_string().contains("future"), "{aside:?}");
        let dates: Vec<_> = visits.iter().map(|visit| visit.date.to_string()).collect();
        assert_eq!(dates, ["2012-05-14", "2012-05-21", "2012-05-28"]);
        assert_eq!(visits[1].frames_of_bees, [4.0]);
        assert_eq!(visits[2].eggs_seen, Some(true));
    }

    #[test]
    fn what_is_set_aside_of_a_table_has_its_line_and_column() {
        let text = "# a comment\nhive,date,frames_of_bees,stores_kg\n\
                    A,2012-05-14,4,900\nA,2012-05-21,90,2\nA,2019-05-21,3,\n";
        let books = crate::visits::books_from_csv(text).unwrap();
        let season = (date(2012, 4, 30), date(2012, 10, 31));
        let (_, aside) = sift(&books[0], season, None, &|_| 10.0);
        let told = |language: Language| -> Vec<String> {
            let told = |aside: &Aside| aside.placed().told(language.into());
            aside.iter().map(told).collect()
        };
        assert_eq!(
            told(Language::English),
            [
                "line 3, stores_kg: expected 0 to 150 kg, got 900",
                "line 4, frames_of_bees: expected 0 to 20 frames in a box, got 90",
                "line 5, lies after the season, which ends on 31 October 2012",
            ]
        );
        let german = told(Language::German);
        assert!(german[0].starts_with("Zeile 3, stores_kg: "), "{german:?}");
    }

    #[test]
    fn a_visit_of_tomorrow_is_let_in_and_the_date_that_is_told_is_todays() {
        let (visits, aside) = sifted(
            "hive = \"3\"
            visit = [
                { date = 2012-07-02, frames_of_bees = [4] },
                { date = 2012-07-03, frames_of_bees = [4] },
            ]",
        );
        assert_eq!(visits.len(), 1);
        assert_eq!(aside[0].reason, "lies in the future: today is 1 July 2012");
    }

    #[test]
    fn two_visits_of_one_day_count_where_they_agree() {
        let (visits, aside) = sifted(
            "visit = [
                { date = 2012-05-21, frames_of_bees = [4], queen_seen = true },
                { date = 2012-05-21, frames_of_bees = [4], queen_seen = true },
                { date = 2012-05-21, frames_of_bees = [6], stores_kg = 2.5 },
            ]",
        );
        assert_eq!(visits.len(), 1);
        assert_eq!(visits[0].stores_kg, Some(2.5));
        assert_eq!(visits[0].queen_seen, Some(true));
        assert!(visits[0].frames_of_bees.is_empty());
        assert_eq!(aside.len(), 2, "{aside:?}");
        assert!(aside[0].reason.to_string().contains("the same as visit 1"));
        assert_eq!(
            aside[1].reason,
            "visit 1 of the same day says 4, this one 6: neither is used"
        );
    }
}
