//! Two visits of one day put together, and what they say differently told as a person would.

use super::{DroneFrame, MiteFall, MiteWash, SyrupTaken, Visit};
use crate::words::Saying;

/// What somebody wrote down, in words.
trait InWords {
    fn said(&self) -> Saying;
}

impl InWords for f64 {
    fn said(&self) -> Saying {
        Saying::new(|words| words.forms.as_it_is).plain("text", *self)
    }
}

impl InWords for u32 {
    fn said(&self) -> Saying {
        f64::from(*self).said()
    }
}

/// Box by box from the bottom up.
impl InWords for Vec<f64> {
    fn said(&self) -> Saying {
        let mut boxes = self.iter();
        let lowest = boxes.next().map(InWords::said).unwrap_or_default();
        boxes.fold(lowest, |said, frames| {
            said.and(|words| words.aside.another_box)
                .plain("frames", *frames)
        })
    }
}

impl InWords for bool {
    fn said(&self) -> Saying {
        let one = usize::from(*self);
        Saying::new(|words| words.forms.as_it_is).choice("text", |words| &words.aside.no_yes, one)
    }
}

impl InWords for DroneFrame {
    fn said(&self) -> Saying {
        Saying::new(|words| words.forms.as_it_is).choice(
            "text",
            |words| &words.aside.drone_frames,
            *self as usize,
        )
    }
}

impl InWords for MiteWash {
    fn said(&self) -> Saying {
        let method = if self.sugar {
            Saying::new(|words| words.aside.sugar_rolled)
        } else {
            Saying::new(|words| words.aside.washed)
        };
        method
            .counted("mites", |words| words.forms.mites, self.mites)
            .counted("bees", |words| words.forms.bees, self.bees)
    }
}

impl InWords for MiteFall {
    fn said(&self) -> Saying {
        Saying::new(|words| words.aside.fallen)
            .counted("mites", |words| words.forms.mites, self.mites)
            .counted("days", |words| words.forms.days, self.days)
    }
}

impl InWords for SyrupTaken {
    fn said(&self) -> Saying {
        let said = Saying::new(|words| words.agenda.feed_amount);
        let said = match (self.litres, self.jars) {
            (Some(litres), _) => said.counted("volume", |words| words.agenda.litres, litres),
            (None, jars) => said.counted(
                "volume",
                |words| words.agenda.quarts,
                jars.unwrap_or_default(),
            ),
        };
        let said = said.choice("feed", |words| &words.agenda.feeds, self.kind as usize);
        match self.since {
            Some(since) => said
                .and(|words| words.aside.taken_since)
                .day("since", since),
            None => said,
        }
    }
}

impl<T: InWords> InWords for Option<T> {
    fn said(&self) -> Saying {
        self.as_ref().map(InWords::said).unwrap_or_default()
    }
}

/// Puts two visits of one day together: what only one has is used, what they say differently is not.
pub(super) fn merge(
    kept: &mut Visit,
    number: usize,
    other: &Visit,
    put: &mut impl FnMut(&'static str, Saying),
) {
    macro_rules! fields {
        ($($field:ident, $is_empty:ident, $nothing:expr;)+) => { $(
            if kept.$field.$is_empty() {
                kept.$field = other.$field.clone();
            } else if !other.$field.$is_empty() && kept.$field != other.$field {
                put(
                    stringify!($field),
                    Saying::new(|words| words.aside.differ)
                        .count("visit", number)
                        .said("one", kept.$field.said())
                        .said("other", other.$field.said()),
                );
                kept.$field = $nothing;
            }
        )+ };
    }
    fields! {
        frames_of_bees, is_empty, Vec::new();
        frames_of_brood, is_empty, Vec::new();
        frames_drawn, is_empty, Vec::new();
        frames_of_stores, is_none, None;
        stores_kg, is_none, None;
        eggs_seen, is_none, None;
        queen_seen, is_none, None;
        cups, is_none, None;
        charged_cells, is_none, None;
        capped_cells, is_none, None;
        drone_frame, is_none, None;
        wash, is_none, None;
        mite_fall, is_none, None;
        syrup_taken, is_none, None;
        weight_kg, is_none, None;
    }
    if kept.notes != other.notes {
        if !kept.notes.is_empty() && !other.notes.is_empty() {
            kept.notes.push('\n');
        }
        kept.notes.push_str(&other.notes);
    }
}

#[cfg(test)]
mod tests {
    use crate::visits::{book_from_toml, sift};
    use crate::words::Language;
    use jiff::civil::date;

    /// What is told where two visits of one day write these.
    fn told(one: &str, other: &str) -> [String; 2] {
        let text =
            format!("visit = [{{ date = 2012-05-21, {one} }}, {{ date = 2012-05-21, {other} }}]");
        let book = book_from_toml(&text).expect("a visit book");
        let season = (date(2012, 4, 30), date(2012, 10, 31));
        let (_, mut aside) = sift(&book, season, None, &|_| 20.0);
        assert_eq!(aside.len(), 1, "{aside:?}");
        let reason = &mut aside[0].reason;
        Language::ALL.map(|language| {
            reason.spoken(language.into());
            reason.to_string()
        })
    }

    #[test]
    fn what_differs_is_told_as_a_person_would() {
        for (one, other, english, german) in [
            (
                "frames_of_bees = [4]",
                "frames_of_bees = [6, 2.5]",
                "says 4, this one 6 + 2.5",
                "sagt 4, diese 6 + 2,5",
            ),
            (
                "eggs_seen = true",
                "eggs_seen = false",
                "says yes, this one no",
                "sagt ja, diese nein",
            ),
            (
                "drone_frame = \"not-drawn\"",
                "drone_frame = \"capped\"",
                "says hardly drawn, this one capped",
                "sagt kaum ausgebaut, diese verdeckelt",
            ),
            (
                "wash = { mites = 1 }",
                "wash = { mites = 3, bees = 200, sugar = true }",
                "says 1 mite of 300 bees, this one 3 mites of 200 bees (sugar roll)",
                "sagt 1 Milbe von 300 Bienen, diese 3 Milben von 200 Bienen (Puderzucker)",
            ),
            (
                "mite_fall = { mites = 12, days = 3 }",
                "mite_fall = { mites = 20, days = 3 }",
                "says 12 mites over 3 days, this one 20 mites over 3 days",
                "sagt 12 Milben über 3 Tage, diese 20 Milben über 3 Tage",
            ),
            (
                "syrup_taken = { litres = 1.5, since = 2012-05-14 }",
                "syrup_taken = { jars = 1, kind = \"2:1\" }",
                "says 1.5 litres of 1:1 syrup (since 14 May), this one 1 quart of 2:1 syrup",
                "sagt 1,5 Liter Zuckersirup 1:1 (seit 14. Mai), diese 1 Quart Zuckersirup 2:1",
            ),
        ] {
            let [in_english, in_german] = told(one, other);
            assert!(in_english.contains(english), "{in_english}");
            assert!(in_german.contains(german), "{in_german}");
        }
    }
}
