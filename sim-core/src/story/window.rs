//! The window of a drone frame in words.

use super::{Emphasis, Sentence, Span, Story, part};
use crate::calendar::CalendarDate;
use crate::ensemble::Spread;
use crate::window::{DayOut, Window};
use crate::words::{Language, Speech, WindowWords, fill, text};

/// How many days late are told.
pub const LATE: [i32; 3] = [1, 3, 6];

/// The sentences of a window: the last safe day, what it removes then, until when it is worth as much, what being late does.
pub fn window(window: &Window, speech: Speech) -> Story {
    let language = speech.language;
    let words = &speech.words().window;
    let teller = Teller {
        window,
        language,
        words,
    };
    let mut sentences = Vec::new();
    if let (Some(safe), Some(emerges)) = (window.last_safe, window.emerges) {
        sentences.push(fill(words.by, &[("when", teller.date(safe))]));
        sentences.push(teller.emerge(emerges));
    } else if let Some(last) = window.days.last() {
        sentences.push(fill(words.no_brood, &[("when", teller.date(last.date))]));
    }
    if window.has_no_mites() {
        sentences.push(fill(words.no_mites, &[]));
    } else {
        sentences.extend(window.late(0).map(|day| teller.out(day)));
        sentences.extend(window.as_good_until.map(|until| teller.as_good(until)));
        let worse = |day: &&DayOut| window.as_good_until.is_none_or(|until| day.date > until);
        sentences.extend(
            LATE.iter()
                .filter_map(|late| window.late(*late))
                .filter(worse)
                .map(|day| teller.late(day)),
        );
        sentences.extend(teller.harm());
        sentences.push(teller.left_in());
    }
    sentences.extend(teller.lost());
    if !window.set_aside.is_empty() {
        let list: Vec<String> = window
            .set_aside
            .iter()
            .map(|one| one.told(speech))
            .collect();
        let list = part(list.join(", "), Emphasis::Plain);
        sentences.push(fill(words.set_aside, &[("list", list)]));
    }
    Story { sentences }
}

struct Teller<'a> {
    window: &'a Window,
    language: Language,
    words: &'static WindowWords,
}

impl Teller<'_> {
    fn date(&self, date: CalendarDate) -> Vec<Span> {
        part(self.language.short_weekday(date.0, false), Emphasis::Date)
    }

    fn on(&self, date: CalendarDate) -> Vec<Span> {
        let date = self.language.day_and_month(date.0, false);
        let pattern = self.language.words().forms.on_date;
        part(text(pattern, &[("date", &date)]), Emphasis::When)
    }

    fn mites(&self, count: f64) -> String {
        self.language
            .words()
            .forms
            .mites
            .of(&self.language.grouped(count))
    }

    fn emerge(&self, emerges: CalendarDate) -> Sentence {
        let laid = self.window.first_egg;
        let laid = laid.map_or_else(Vec::new, |laid| self.on(laid));
        fill(
            self.words.emerge,
            &[("laid", laid), ("when", self.date(emerges))],
        )
    }

    fn out(&self, day: &DayOut) -> Sentence {
        let share = self.language.percent(day.share_of_mites);
        fill(
            self.words.out,
            &[
                ("when", self.date(day.date)),
                ("mites", self.amount(&day.mites_removed)),
                ("share", part(share, Emphasis::Plain)),
                ("counted", self.counted()),
                ("gain", self.gain(&day.gain)),
            ],
        )
    }

    fn as_good(&self, until: CalendarDate) -> Sentence {
        fill(self.words.as_good, &[("when", self.date(until))])
    }

    fn late(&self, day: &DayOut) -> Sentence {
        let days = day.days_late.unwrap_or(0) as usize;
        let late = match self.words.days_late.get(days.wrapping_sub(1)) {
            Some(late) => (*late).to_owned(),
            None => text(self.words.many_days_late, &[("days", &days.to_string())]),
        };
        let late = part(late, Emphasis::When);
        let let_out = part(self.language.grouped(day.mites_let_out), Emphasis::Caution);
        let template = if day.mites_let_out < 0.5 {
            self.words.late_but_safe
        } else {
            self.words.late
        };
        fill(
            template,
            &[
                ("late", late),
                ("mites", self.amount(&day.mites_removed)),
                ("let_out", let_out),
                ("counted", self.counted()),
                ("gain", self.gain(&day.gain)),
            ],
        )
    }

    fn harm(&self) -> Option<Sentence> {
        let (from, to) = self.window.harmful()?;
        let template = if from.date == to.date {
            self.words.harm_one_day
        } else {
            self.words.harm
        };
        let dates = [("from", self.date(from.date)), ("to", self.date(to.date))];
        Some(fill(template, &dates))
    }

    fn left_in(&self) -> Sentence {
        fill(
            self.words.left_in,
            &[
                ("gain", self.gain(&self.window.gain_left_in)),
                ("counted", self.counted()),
            ],
        )
    }

    fn lost(&self) -> Option<Sentence> {
        let lost = self.window.days.iter().map(|day| day.lost).max()?;
        let count = part(self.language.grouped(lost as f64), Emphasis::Caution);
        let seasons = part(
            self.language.grouped(self.window.members as f64),
            Emphasis::Plain,
        );
        (lost > 0).then(|| fill(self.words.lost, &[("lost", count), ("seasons", seasons)]))
    }

    fn counted(&self) -> Vec<Span> {
        self.on(self.window.counted_on)
    }

    /// "81 mites (44 to 139)".
    fn amount(&self, mites: &Spread) -> Vec<Span> {
        let mut spans = part(self.mites(mites.mean), Emphasis::Caution);
        let count = |count: f64| self.language.grouped(count);
        let range = self.language.range(&count(mites.q05), &count(mites.q95));
        spans.extend(self.in_brackets(&range));
        spans
    }

    /// "95 mites fewer (20 to 170)", "30 mites more".
    fn gain(&self, gain: &Spread) -> Vec<Span> {
        let kind = if gain.mean >= 0.0 {
            Emphasis::Bees
        } else {
            Emphasis::Caution
        };
        let mites = self.mites(gain.mean.abs());
        let parts = [("mites", &*mites), ("more", self.side(gain.mean))];
        let mut spans = part(text(self.words.gain, &parts), kind);
        spans.extend(self.in_brackets(&self.range(gain)));
        spans
    }

    /// What lies between the members, where there are several.
    fn in_brackets(&self, range: &str) -> Vec<Span> {
        if self.window.members > 1 {
            let range = text(self.words.in_brackets, &[("range", range)]);
            part(range, Emphasis::Plain)
        } else {
            Vec::new()
        }
    }

    fn side(&self, gain: f64) -> &'static str {
        let forms = &self.language.words().forms;
        if gain >= 0.0 { forms.fewer } else { forms.more }
    }

    /// "20 to 170 fewer", "30 more to 60 fewer".
    fn range(&self, gain: &Spread) -> String {
        let count = |value: f64| self.language.grouped(value.abs());
        let (low, high) = (gain.q05, gain.q95);
        let sided = |value: f64| format!("{} {}", count(value), self.side(value));
        if self.side(low) == self.side(high) {
            let (near, far) = if low >= 0.0 { (low, high) } else { (high, low) };
            self.language.range(&count(near), &sided(far))
        } else {
            self.language.range(&sided(low), &sided(high))
        }
    }
}
