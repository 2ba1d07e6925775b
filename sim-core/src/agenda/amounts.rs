//! Frames and counts as a beekeeper says them.

use crate::ensemble::Spread;

/// "5 to 7 frames", in halves.
pub(super) fn frames(spread: &Spread) -> String {
    frames_between(spread.q05, spread.q95)
}

pub(super) fn frames_between(low: f64, high: f64) -> String {
    let (low, high) = (halves(low), halves(high));
    if low == high {
        match high {
            0 => "hardly a frame".to_owned(),
            1 => "about half a frame".to_owned(),
            2 => "about 1 frame".to_owned(),
            _ => format!("about {} frames", written(high)),
        }
    } else if high <= 2 {
        format!("{} to {} frame", written(low), written(high))
    } else {
        format!("{} to {} frames", written(low), written(high))
    }
}

/// "1½ frames", for one number.
pub(super) fn frame(frames: f64) -> String {
    match halves(frames) {
        0 | 1 => "half a frame".to_owned(),
        2 => "1 frame".to_owned(),
        many => format!("{} frames", written(many)),
    }
}

fn halves(frames: f64) -> u32 {
    (frames * 2.0).round() as u32
}

fn written(halves: u32) -> String {
    match (halves / 2, halves % 2) {
        (0, 1) => "½".to_owned(),
        (whole, 1) => format!("{whole}½"),
        (whole, _) => whole.to_string(),
    }
}

/// "0 to 4 mites", "about 1 mite".
pub(super) fn range_of(low: u32, high: u32, one: &str, many: &str) -> String {
    match (low, high) {
        (0, 0) => format!("no {one}"),
        (1, 1) => format!("1 {one}"),
        (low, high) if low == high => format!("{low} {many}"),
        (low, high) => format!("{low} to {high} {many}"),
    }
}

pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}
