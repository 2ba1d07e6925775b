//! What the plan itself has on the days of the list: its moves and its feed.

use super::{Item, Job, Mix, Scene, Sure};
use crate::Error;
use crate::ensemble::Luck;
use crate::priors::COUNT;
use crate::scenario::{Action, Feed, FeedKind};
use crate::syrup::LITRES_PER_JAR;
use crate::words::Saying;

pub(super) fn list(scene: &Scene, items: &mut Vec<Item>) -> Result<(), Error> {
    moves(scene, items)?;
    for feed in &scene.asked.scenario.feed {
        feeds(scene, feed, items);
    }
    Ok(())
}

/// Moves, as the middle colony would have them done: whether one is due can depend on it.
fn moves(scene: &Scene, items: &mut Vec<Item>) -> Result<(), Error> {
    let peers = scene.asked.peers;
    let mut middle = peers.with([0.0; COUNT], Luck::of(0))?;
    let until = scene.today + scene.ahead + 1;
    peers.advance(&mut middle, until, |day, _, outcome, _| {
        let Some(ahead) = day.checked_sub(scene.today) else {
            return;
        };
        for report in &outcome.moves {
            // What follows from an earlier move by itself is no work.
            let Some(number) = report.number else {
                continue;
            };
            let action = scene.asked.scenario.moves[number].action();
            let mix = match &action {
                Some(Action::Feed(syrup)) => Mix::of_filling(
                    syrup.kind,
                    syrup
                        .litres
                        .or(syrup.jars.map(|jars| jars * LITRES_PER_JAR)),
                ),
                _ => None,
            };
            let all = Sure {
                count: scene.lives.len(),
                of: scene.lives.len(),
            };
            let job = Job::Planned {
                text: report.text.clone(),
                mix,
                feeds: matches!(action, Some(Action::Feed(_) | Action::Patty(_))),
                lifts: matches!(
                    action,
                    Some(
                        Action::AddBox(_)
                            | Action::RemoveBox(_)
                            | Action::ReverseBoxes(_)
                            | Action::SwapBoxes(_)
                            | Action::Split(_)
                            | Action::Unite(_)
                            | Action::TakeHoney(_)
                    )
                ),
                adds_box: matches!(action, Some(Action::AddBox(_))),
                refused: report.refused,
            };
            items.push(scene.item(ahead, ahead, all, job));
        }
    })
}

/// Fillings of a feed of the plan.
fn feeds(scene: &Scene, feed: &Feed, items: &mut Vec<Item>) {
    let start = scene.asked.scenario.start.date;
    let (from, to) = (feed.from.days_since(start), feed.to.days_since(start));
    let today = scene.today as i32;
    let horizon = today + scene.ahead as i32;
    let litres = feed.litres.or(feed.jars.map(|jars| jars * LITRES_PER_JAR));
    let mix = Mix::of_filling(feed.kind, litres);
    let text = match (feed.kind, mix, feed.kilograms) {
        (FeedKind::Patty, _, Some(kilograms)) => {
            Saying::new(|words| words.moves.feed_patty).grams("weight", 1000.0 * kilograms)
        }
        (FeedKind::Patty, ..) => Saying::new(|words| words.moves.feed_patty_kept),
        (_, Some(_), _) => Saying::new(|words| words.moves.feed_fill),
        _ => Saying::new(|words| words.moves.feed_kept_full),
    };
    let once = litres.is_some() || feed.kilograms.is_some();
    let days: Vec<(i32, i32)> = match (once, feed.every_days) {
        // Kept full.
        (false, _) => vec![(from.max(today), to.min(horizon))],
        (true, None) => vec![(from, from)],
        (true, Some(every)) => (from..=to)
            .step_by(usize::from(every.max(1)))
            .map(|day| (day, day))
            .collect(),
    };
    let all = Sure {
        count: scene.lives.len(),
        of: scene.lives.len(),
    };
    let job = |text: &Saying, mix, feeds| Job::Planned {
        text: text.clone(),
        mix,
        feeds,
        lifts: false,
        adds_box: false,
        refused: false,
    };
    let ahead = |day: i32| (day - today) as usize;
    for (first, last) in days {
        if first < today || first > horizon || last < first {
            continue;
        }
        items.push(scene.item(ahead(first), ahead(last), all, job(&text, mix, true)));
    }
    // Where no other syrup takes its place, the feeders come off.
    let goes_on = |other: &Feed| {
        other.kind != FeedKind::Patty
            && other.from.days_since(start) <= to + 1
            && other.to.days_since(start) > to
    };
    let feeders = feed.kind != FeedKind::Patty && (feed.every_days.is_some() || !once);
    if feeders && (today..=horizon).contains(&to) && !scene.asked.scenario.feed.iter().any(goes_on)
    {
        let text = Saying::new(|words| words.moves.feeders_off);
        items.push(scene.item(ahead(to), ahead(to), all, job(&text, None, false)));
    }
}
