//! Patterns, filled.

use crate::story::{Emphasis, Span};

/// A pattern cut at its `{names}`: its own words, then the name that follows them, if any does.
fn pieces(pattern: &str) -> impl Iterator<Item = (&str, Option<&str>)> {
    let mut rest = Some(pattern);
    std::iter::from_fn(move || {
        let left = rest?;
        let Some((before, tail)) = left.split_once('{') else {
            rest = None;
            return Some((left, None));
        };
        let (name, after) = tail.split_once('}').unwrap_or((tail, ""));
        rest = Some(after);
        Some((before, Some(name)))
    })
}

/// Fills a pattern with spans: its own words stay plain, each `{name}` takes the spans given for it.
#[inline(never)]
pub(crate) fn fill(pattern: &str, parts: &[(&str, Vec<Span>)]) -> Vec<Span> {
    let mut spans = Vec::new();
    for (words, name) in pieces(pattern) {
        push(&mut spans, Span::new(words, Emphasis::Plain));
        let Some(name) = name else { continue };
        let part = parts.iter().find(|(known, _)| *known == name);
        debug_assert!(part.is_some(), "no part for {{{name}}} in \"{pattern}\"");
        for span in part.into_iter().flat_map(|(_, part)| part) {
            push(&mut spans, span.clone());
        }
    }
    spans
}

/// Fills a pattern with text.
#[inline(never)]
pub fn text(pattern: &str, parts: &[(&str, &str)]) -> String {
    let mut text = String::new();
    for (words, name) in pieces(pattern) {
        text.push_str(words);
        let Some(name) = name else { continue };
        let part = parts.iter().find(|(known, _)| *known == name);
        debug_assert!(part.is_some(), "no part for {{{name}}} in \"{pattern}\"");
        text.push_str(part.map_or("", |(_, part)| part));
    }
    text
}

/// Appends a span, joining it to the last one where both have the same emphasis.
#[inline(never)]
fn push(spans: &mut Vec<Span>, span: Span) {
    if span.text.is_empty() {
        return;
    }
    match spans.last_mut() {
        Some(last) if last.kind == span.kind => last.text.push_str(&span.text),
        _ => spans.push(span),
    }
}

/// The `{names}` of a pattern, sorted, each once.
#[cfg(test)]
pub(super) fn names(pattern: &str) -> Vec<&str> {
    let mut names: Vec<&str> = pieces(pattern).filter_map(|(_, name)| name).collect();
    names.sort_unstable();
    names.dedup();
    names
}
