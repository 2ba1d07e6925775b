//! The whole season in a few sentences.

use super::facts::Facts;
use super::{Emphasis, Sentence, Span, Story, Teller, part};
use crate::order;
use crate::queen::Brake;
use crate::season::Season;
use crate::words::{Speech, fill};

/// The season at a glance: how it starts, its turning points, how it ends, what held the queen back.
///
/// A season without days has no sentences.
pub fn overview(season: &Season, speech: Speech) -> Story {
    let sentences = match season.days.len() {
        0 => Vec::new(),
        days => sentences(season, days - 1, speech),
    };
    Story { sentences }
}

fn sentences(season: &Season, last: usize, speech: Speech) -> Vec<Sentence> {
    let at = |today| {
        let facts = Facts::new(season, today).expect("the day is one of the season's");
        Teller::new(facts, speech)
    };
    let (first, end) = (at(0), at(last));
    let facts = &first.facts;
    let words = first.words;
    // Each sentence with its day, to be told in the order of dates.
    let mut told = vec![(
        0,
        fill(
            words.over_start,
            &[
                ("date", first.today()),
                ("bees", first.bees(0)),
                ("brood", first.brood(0)),
                ("comb", first.comb(0)),
            ],
        ),
    )];
    if let Some(low) = facts.low_point() {
        let day = part((low + 1).to_string(), Emphasis::Plain);
        let parts = [
            ("when", first.on(low)),
            ("day", day),
            ("bees", first.bees(low)),
        ];
        told.push((low, fill(words.over_low, &parts)));
    }
    if facts.bare_start()
        && let Some(young) = facts.first_emergence()
    {
        told.push((young, fill(words.over_first, &[("when", first.on(young))])));
    }
    if let Some(back) = facts.back_to_start() {
        told.push((back, fill(words.over_back, &[("when", first.on(back))])));
    }
    if let Some(most) = facts
        .most_bees(0, last)
        .filter(|&most| 0 < most && most < last)
    {
        let parts = [
            ("when", first.on(most)),
            ("bees", first.bees(most)),
            ("brood", first.brood(most)),
        ];
        told.push((most, fill(words.over_most, &parts)));
    }
    told.extend(hungry_days(&first));
    told.push(match facts.lost() {
        Some(lost) => {
            let word = part(first.forms().lost, Emphasis::Caution);
            let parts = [("lost", word), ("when", first.on(lost))];
            (lost, fill(words.over_lost, &parts))
        }
        None => {
            let parts = [
                ("date", end.today()),
                ("bees", end.bees(last)),
                ("brood", end.brood(last)),
                ("comb", end.comb(last)),
                ("stores", end.stores(last)),
            ];
            (last, fill(words.over_end, &parts))
        }
    });
    order::by_key(&mut told, |&(day, _)| day as i64);
    let mut sentences: Vec<Sentence> = told.into_iter().map(|(_, sentence)| sentence).collect();
    sentences.push(brakes(&first));
    sentences
}

/// How many days, and from when, a colony had too little to eat.
fn hungry_days(teller: &Teller<'_>) -> Option<(usize, Sentence)> {
    let (facts, words) = (&teller.facts, teller.words);
    let hungry: Vec<usize> = (0..=facts.last())
        .filter(|&day| facts.hungry(day))
        .collect();
    let &first = hungry.first()?;
    let parts = [
        ("hungry", part(words.over_hungry_word, Emphasis::Caution)),
        (
            "days",
            part(teller.forms().days.number(hungry.len()), Emphasis::Food),
        ),
        ("when", teller.on(first)),
    ];
    Some((first, fill(words.over_hungry, &parts)))
}

/// Each brake with the number of days on which it bound, the commonest first.
fn brakes(teller: &Teller<'_>) -> Sentence {
    let (facts, words) = (&teller.facts, teller.words);
    let language = teller.speech.language;
    let lost = facts.lost().unwrap_or(facts.last() + 1);
    let days = &facts.days()[..lost];
    let mut counts: Vec<(Brake, usize)> = Brake::ALL
        .iter()
        .map(|&brake| (brake, days.iter().filter(|day| day.brake == brake).count()))
        .filter(|&(_, count)| count > 0)
        .collect();
    order::by_key(&mut counts, |&(_, count)| -(count as i64));
    let mut list = Vec::new();
    for (index, (brake, count)) in counts.into_iter().enumerate() {
        if index > 0 {
            list.push(Span::new(words.why_join, Emphasis::Plain));
        }
        list.push(Span::new(brake.words(language), Emphasis::Brake));
        list.push(Span::new(
            format!(" {}", language.grouped(count as f64)),
            Emphasis::Plain,
        ));
    }
    fill(words.over_brakes, &[("list", list)])
}
