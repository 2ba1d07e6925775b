//! The window of a drone frame in words.

use super::words::{self, fill};
use super::{Emphasis, Sentence, Span, Story, day_and_month, grouped, part, short_weekday};
use crate::calendar::CalendarDate;
use crate::ensemble::Spread;
use crate::window::{DayOut, Window};

/// How many days late are told.
pub const LATE: [i32; 3] = [1, 3, 6];

/// The sentences of a window: the last safe day, what it removes then, what being late does.
pub fn window(window: &Window) -> Story {
    let teller = Teller { window };
    let mut sentences = Vec::new();
    if let (Some(safe), Some(emerges)) = (window.last_safe, window.emerges) {
        sentences.push(fill(words::WINDOW_BY, &[("when", date(safe))]));
        sentences.push(teller.emerge(emerges));
        sentences.extend(window.late(0).map(|day| teller.out(day)));
        sentences.extend(
            LATE.iter()
                .filter_map(|late| window.late(*late))
                .map(|day| teller.late(day)),
        );
        sentences.extend(teller.harm());
    } else if let Some(last) = window.days.last() {
        sentences.push(fill(words::WINDOW_NO_BROOD, &[("when", date(last.date))]));
    }
    sentences.push(teller.left_in());
    sentences.extend(teller.lost());
    if !window.set_aside.is_empty() {
        let list = part(window.set_aside.join(", "), Emphasis::Plain);
        sentences.push(fill(words::WINDOW_SET_ASIDE, &[("list", list)]));
    }
    Story { sentences }
}

struct Teller<'a> {
    window: &'a Window,
}

fn date(date: CalendarDate) -> Vec<Span> {
    part(short_weekday(date.0, false), Emphasis::Date)
}

impl Teller<'_> {
    fn emerge(&self, emerges: CalendarDate) -> Sentence {
        let laid = self.window.first_egg.map_or_else(Vec::new, |laid| {
            part(words::on(&day_and_month(laid.0, false)), Emphasis::When)
        });
        fill(
            words::WINDOW_EMERGE,
            &[("laid", laid), ("when", date(emerges))],
        )
    }

    fn out(&self, day: &DayOut) -> Sentence {
        let share = format!("{:.0} %", 100.0 * day.share_of_mites);
        fill(
            words::WINDOW_OUT,
            &[
                ("when", date(day.date)),
                ("mites", self.amount(&day.mites_removed)),
                ("share", part(share, Emphasis::Plain)),
                ("counted", self.counted()),
                ("gain", self.gain(&day.gain)),
            ],
        )
    }

    fn late(&self, day: &DayOut) -> Sentence {
        let days = day.days_late.unwrap_or(0) as usize;
        let late = part(words::days_late(days), Emphasis::When);
        let let_out = part(grouped(day.mites_let_out), Emphasis::Caution);
        let template = if day.mites_let_out < 0.5 {
            words::WINDOW_LATE_BUT_SAFE
        } else {
            words::WINDOW_LATE
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
            words::WINDOW_HARM_ONE_DAY
        } else {
            words::WINDOW_HARM
        };
        let dates = [("from", date(from.date)), ("to", date(to.date))];
        Some(fill(template, &dates))
    }

    fn left_in(&self) -> Sentence {
        fill(
            words::WINDOW_LEFT_IN,
            &[
                ("gain", self.gain(&self.window.gain_left_in)),
                ("counted", self.counted()),
            ],
        )
    }

    fn lost(&self) -> Option<Sentence> {
        let lost = self.window.days.iter().map(|day| day.lost).max()?;
        let count = part(grouped(lost as f64), Emphasis::Caution);
        let seasons = part(grouped(self.window.members as f64), Emphasis::Plain);
        (lost > 0).then(|| fill(words::WINDOW_LOST, &[("lost", count), ("seasons", seasons)]))
    }

    fn counted(&self) -> Vec<Span> {
        let when = day_and_month(self.window.counted_on.0, false);
        part(words::on(&when), Emphasis::When)
    }

    /// "81 mites (44 to 139)".
    fn amount(&self, mites: &Spread) -> Vec<Span> {
        let mut text = part(words::mites(&grouped(mites.mean)), Emphasis::Caution);
        if self.window.members > 1 {
            let range = format!(" ({} to {})", grouped(mites.q05), grouped(mites.q95));
            text.extend(part(range, Emphasis::Plain));
        }
        text
    }

    /// "95 mites fewer (20 to 170)", "30 mites more".
    fn gain(&self, gain: &Spread) -> Vec<Span> {
        let fewer = gain.mean >= 0.0;
        let (text, kind) = if fewer {
            (words::FEWER, Emphasis::Bees)
        } else {
            (words::MORE, Emphasis::Caution)
        };
        let count = words::mites(&grouped(gain.mean.abs()));
        let mut spans = part(format!("{count} {text}"), kind);
        if self.window.members > 1 {
            spans.extend(part(format!(" ({})", range(gain)), Emphasis::Plain));
        }
        spans
    }
}

/// "20 to 170 fewer", "30 more to 60 fewer".
fn range(gain: &Spread) -> String {
    let side = |value: f64| {
        if value >= 0.0 {
            words::FEWER
        } else {
            words::MORE
        }
    };
    let count = |value: f64| grouped(value.abs());
    let (low, high) = (gain.q05, gain.q95);
    if side(low) == side(high) {
        let (near, far) = if low >= 0.0 { (low, high) } else { (high, low) };
        format!("{} to {} {}", count(near), count(far), side(low))
    } else {
        format!(
            "{} {} to {} {}",
            count(low),
            side(low),
            count(high),
            side(high)
        )
    }
}
