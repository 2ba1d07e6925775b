//! Frames and counts as a beekeeper says them.

use crate::ensemble::Spread;
use crate::words::{Language, text};

/// "5 to 7 frames", in halves.
pub(super) fn frames(spread: &Spread, language: Language) -> String {
    frames_between(spread.q05, spread.q95, language)
}

pub(super) fn frames_between(low: f64, high: f64, language: Language) -> String {
    let words = &language.words().agenda;
    let (low, high) = (halves(low), halves(high));
    if low == high {
        return match high {
            0 => words.hardly_a_frame.to_owned(),
            _ => counted(high, &words.about_frames),
        };
    }
    let pattern = if high <= 2 {
        words.up_to_a_frame
    } else {
        words.frames_between
    };
    let (low, high) = (written(low), written(high));
    text(pattern, &[("low", &low), ("high", &high)])
}

/// "1½ frames", for one number.
pub(super) fn frame(frames: f64, language: Language) -> String {
    counted(halves(frames).max(1), &language.words().story.frames)
}

/// By the words for half a frame, for one, for several.
fn counted(halves: u32, words: &[&str; 3]) -> String {
    let pattern = words[(halves.clamp(1, 3) - 1) as usize];
    text(pattern, &[("frames", &written(halves))])
}

/// "1½", or "0".
pub(super) fn number(frames: f64) -> String {
    written(halves(frames))
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

/// "0 to 4 mites", "no mite".
pub(super) fn mites(low: u32, high: u32, language: Language) -> String {
    let words = language.words();
    let counted = words.forms.mites;
    match (low, high) {
        (0, 0) => words.agenda.no_mite.to_owned(),
        (low, high) if low == high => counted.number(high as usize),
        (low, high) => language.range(&low.to_string(), &counted.number(high as usize)),
    }
}

/// The text with a large first letter: of the Latin alphabet and its umlauts, which are all that the catalogues have.
/// The library's way knows every script, and its tables would be in the page's module for this alone.
pub(crate) fn capital(text: &str) -> String {
    let large = |letter: char| match letter {
        'à'..='ö' | 'ø'..='þ' => char::from_u32(letter as u32 - 0x20).unwrap_or(letter),
        _ => letter.to_ascii_uppercase(),
    };
    let mut letters = text.chars();
    let first = letters.next().map(large);
    first.into_iter().chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::capital;

    #[test]
    fn the_first_letter_becomes_as_large_as_the_library_makes_it() {
        for text in ["feed", "Öffne", "öffne", "über", "ährig", "3 kg", "÷", ""] {
            let mut letters = text.chars();
            let first: Option<String> = letters.next().map(|first| first.to_uppercase().collect());
            let library = first.unwrap_or_default() + letters.as_str();
            assert_eq!(capital(text), library);
        }
    }
}
