//! Weights of the members of a filter, and who goes on by them.

use super::Weighed;
use crate::math::{exp, ln};

/// Weights to the power `part`, the largest being 1.
fn weights<P>(members: &[Weighed<P>], part: f64) -> (Vec<f64>, f64) {
    let most = members
        .iter()
        .map(|member| member.now)
        .fold(f64::NEG_INFINITY, f64::max);
    let weights = members
        .iter()
        .map(|member| exp(part * (member.now - most)))
        .collect();
    (weights, part * most)
}

/// Effective number of members under the weights (Kish 1965).
pub(super) fn effective<P>(members: &[Weighed<P>], part: f64) -> f64 {
    let (weights, _) = weights(members, part);
    let (sum, squares) = weights
        .iter()
        .fold((0.0, 0.0), |(sum, squares), w| (sum + w, squares + w * w));
    sum * sum / squares
}

pub(super) fn log_mean_weight<P>(members: &[Weighed<P>], part: f64) -> f64 {
    let (weights, most) = weights(members, part);
    most + ln(weights.iter().sum::<f64>() / members.len() as f64)
}

/// The largest part of an observation that leaves `wanted` members, at most `rest`.
pub(super) fn part_that_keeps<P>(members: &[Weighed<P>], rest: f64, wanted: f64) -> f64 {
    if effective(members, rest) >= wanted {
        return rest;
    }
    let (mut few, mut many) = (0.0, rest);
    for _ in 0..30 {
        let middle = 0.5 * (few + many);
        if effective(members, middle) >= wanted {
            few = middle;
        } else {
            many = middle;
        }
    }
    // Never nothing at all, or no end would come.
    f64::max(few, 1e-4 * rest)
}

/// Places of the members that go on: each as often as its weight asks for, within one.
pub(super) fn systematic<P>(members: &[Weighed<P>], part: f64, offset: f64) -> Vec<usize> {
    let (weights, _) = weights(members, part);
    let scale = members.len() as f64 / weights.iter().sum::<f64>();
    let mut chosen = Vec::with_capacity(members.len());
    let mut along = 0.0;
    for (place, weight) in weights.iter().enumerate() {
        along += weight * scale;
        while chosen.len() < members.len() && chosen.len() as f64 + offset < along {
            chosen.push(place);
        }
    }
    // Rounding can leave the last places unfilled.
    let last = weights
        .iter()
        .rposition(|weight| *weight > 0.0)
        .unwrap_or(0);
    chosen.resize(members.len(), last);
    chosen
}
