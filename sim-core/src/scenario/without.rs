//! The same plan with something left out of it: the twin of a scenario.

use std::fmt;
use std::str::FromStr;

use super::{Action, Feed, FeedKind, Move, RainSpell, Scenario, shorten};
use crate::Error;
use crate::words::Saying;

/// What a scenario can do without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Feed.
    Feed,
    /// Rain spells laid over the weather; measured rain stays.
    Rain,
    /// What the beekeeper does on a date.
    Move,
}

/// What is left out: all entries of a list, or one of them.
///
/// Written as people count: `feed`, `rain`, `move` for all, `move:2` for the second in the file,
/// `move:take_drone_frame` for every move of that action.
///
/// ```
/// use combcast_core::scenario::{Part, Without};
/// let without: Without = "move:2".parse().unwrap();
/// assert_eq!(without, Without { part: Part::Move, number: Some(2), action: None });
/// assert!("move:add_box".parse::<Without>().is_ok());
/// assert!("move:0".parse::<Without>().is_err());
/// assert!("queen".parse::<Without>().unwrap_err().contains("feed, rain or move"));
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Without {
    /// From which list.
    pub part: Part,
    /// Which entry, the first being 1; `None` for all of them.
    pub number: Option<usize>,
    /// Of moves, only those with this action.
    pub action: Option<&'static str>,
}

impl FromStr for Without {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (name, number) = match text.split_once(':') {
            Some((name, number)) => (name, Some(number)),
            None => (text, None),
        };
        let part = match name.trim() {
            "feed" => Part::Feed,
            "rain" => Part::Rain,
            "move" => Part::Move,
            _ => {
                return Err(format!(
                    "expected feed, rain or move, or one of them by its number as in move:2, got \"{}\"",
                    shorten(text)
                ));
            }
        };
        let Some(which) = number.map(str::trim) else {
            return Ok(Self {
                part,
                number: None,
                action: None,
            });
        };
        let action = match part {
            Part::Move => actions().find(|name| *name == which),
            Part::Feed | Part::Rain => None,
        };
        match (which.parse(), action) {
            (Ok(1usize..), _) | (_, Some(_)) => Ok(Self {
                part,
                number: which.parse().ok(),
                action,
            }),
            _ => Err(format!(
                "expected a number from 1 after the colon, as in move:2, or a move's action, as in move:add_box, got \"{}\"",
                shorten(text)
            )),
        }
    }
}

impl fmt::Display for Without {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self.part {
            Part::Feed => "feed",
            Part::Rain => "rain",
            Part::Move => "move",
        })?;
        match (self.number, self.action) {
            (Some(number), _) => write!(f, ":{number}"),
            (None, Some(action)) => write!(f, ":{action}"),
            (None, None) => Ok(()),
        }
    }
}

impl Scenario {
    /// The same scenario without something, and nothing else changed but its name.
    ///
    /// Expectations and the question belong to the whole plan and are left out as well.
    ///
    /// # Errors
    /// When there is nothing of the kind to leave out, or not so many, with what there is.
    ///
    /// A plan can be impossible without one of its moves; running it says so.
    pub fn without(&self, without: Without) -> Result<Self, Error> {
        let mut twin = self.clone();
        let number = without.number;
        if let Some(action) = without.action {
            leave_out_action(&mut twin.moves, action)?;
            twin.name = format!("{} without {}", self.name, self.words_of(without));
            twin.question.clear();
            twin.expect.clear();
            return Ok(twin);
        }
        match without.part {
            Part::Feed => leave_out(&mut twin.feed, number, "feed", feed_words),
            Part::Rain => leave_out(&mut twin.weather.rain, number, "weather.rain", rain_words),
            Part::Move => leave_out(&mut twin.moves, number, "move", move_words),
        }?;
        twin.name = format!("{} without {}", self.name, self.words_of(without));
        twin.question.clear();
        twin.expect.clear();
        Ok(twin)
    }

    /// What is left out, in words that can follow "with" or "without": "feed", "the rain of 7 May to
    /// 27 May", "the box given on 4 June".
    ///
    /// In German it stands in the dative. Where there is no such entry, its number stands for it.
    pub fn words_of(&self, without: Without) -> Saying {
        fn one<T>(
            list: &[T],
            number: Option<usize>,
            words: fn(&T) -> Saying,
            all: Saying,
        ) -> Saying {
            match (number, list) {
                (None, [only]) => words(only),
                (None, _) => all,
                (Some(number), _) => match list.get(number - 1) {
                    Some(entry) => words(entry),
                    None => Saying::new(|words| words.without.number).count("number", number),
                },
            }
        }
        let feed = || Saying::new(|words| words.without.feed);
        match without.part {
            // All feed is "feed", however many times it is given.
            Part::Feed if without.number.is_none() => feed(),
            Part::Feed => one(&self.feed, without.number, feed_words, feed()),
            Part::Rain => {
                let all = Saying::new(|words| words.without.all_rain);
                one(&self.weather.rain, without.number, rain_words, all)
            }
            Part::Move => match without.action {
                None => {
                    let any = Saying::new(|words| words.without.any_move);
                    one(&self.moves, without.number, move_words, any)
                }
                Some(name) => {
                    let such: Vec<&Move> =
                        self.moves.iter().filter(|step| is(step, name)).collect();
                    let any = Saying::new(|words| words.without.any_such_move).action("name", name);
                    one(&such, None, |step| move_words(step), any)
                }
            },
        }
    }
}

/// Every action's name.
fn actions() -> impl Iterator<Item = &'static str> {
    Move::default().choices().into_iter().map(|(name, _)| name)
}

fn is(step: &Move, action: &str) -> bool {
    step.action().is_some_and(|given| given.name() == action)
}

/// Takes every move of one action out.
fn leave_out_action(moves: &mut Vec<Move>, action: &str) -> Result<(), Error> {
    let before = moves.len();
    let mut there: Vec<&str> = Vec::new();
    for step in moves.iter() {
        if let Some(given) = step.action()
            && !there.contains(&given.name())
        {
            there.push(given.name());
        }
    }
    let there = there.join(", ");
    moves.retain(|step| !is(step, action));
    if moves.len() < before {
        return Ok(());
    }
    Err(Error::scenario(
        "move",
        if there.is_empty() {
            "there is no move in this plan: nothing to leave out".to_owned()
        } else {
            format!("there is no {action} in this plan; there is {there}")
        },
    ))
}

/// Takes one entry out of a list, or all.
fn leave_out<T>(
    list: &mut Vec<T>,
    number: Option<usize>,
    place: &str,
    words: fn(&T) -> Saying,
) -> Result<(), Error> {
    if list.is_empty() {
        let said = match place {
            "feed" => Saying::new(|words| words.problems.nothing_fed),
            "move" => Saying::new(|words| words.problems.no_move),
            _ => Saying::new(|words| words.problems.no_spell),
        };
        return Err(Error::said(place, said));
    }
    let Some(number) = number else {
        list.clear();
        return Ok(());
    };
    if (1..=list.len()).contains(&number) {
        list.remove(number - 1);
        return Ok(());
    }
    let there: Vec<String> = list
        .iter()
        .enumerate()
        .map(|(index, entry)| format!("{} ({})", index + 1, words(entry)))
        .collect();
    Err(Error::scenario(
        place,
        format!(
            "there is no number {number} to leave out; there is {}",
            there.join(", ")
        ),
    ))
}

fn feed_words(feed: &Feed) -> Saying {
    let said = match feed.kind {
        FeedKind::OneToOne => Saying::new(|words| words.without.syrup_1),
        FeedKind::TwoToOne => Saying::new(|words| words.without.syrup_2),
        FeedKind::Patty => Saying::new(|words| words.without.patty),
    };
    said.day("from", feed.from).day("to", feed.to)
}

fn rain_words(spell: &RainSpell) -> Saying {
    Saying::new(|words| words.without.rain)
        .day("from", spell.from)
        .day("to", spell.to)
}

fn move_words(what: &Move) -> Saying {
    let action = what.action();
    let said = match (&action, what.date.is_some()) {
        (Some(Action::AddBox(_)), false) => Saying::new(|words| words.without.box_given),
        (Some(Action::AddBox(_)), true) => Saying::new(|words| words.without.box_given_on),
        (Some(Action::TakeHoney(_)), false) => Saying::new(|words| words.without.honey),
        (Some(Action::TakeHoney(_)), true) => Saying::new(|words| words.without.honey_on),
        (Some(_), false) => Saying::new(|words| words.without.move_named),
        (Some(_), true) => Saying::new(|words| words.without.move_named_on),
        (None, false) => Saying::new(|words| words.without.some_move),
        (None, true) => Saying::new(|words| words.without.some_move_on),
    };
    let name = action.map_or("", |action| action.name());
    let said = said.action("name", name);
    match what.date {
        Some(date) => said.day("date", date),
        None => said,
    }
}
