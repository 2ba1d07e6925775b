//! The swarm leaves: which bees go, and what they take along.

use super::SuccessionParameters;
use crate::adults::CLASSES;
use crate::colony::Colony;
use crate::draw::Draw;
use crate::ledger::Ledger;
use crate::math::{least, most, sum};
use crate::rng::Topic;

/// `share` of the workers leave with full crops; the youngest stay behind.
pub(super) fn depart<D: Draw>(
    colony: &mut Colony,
    share: f64,
    crop_g: f64,
    draw: &mut D,
    ledger: &mut Ledger,
    p: &SuccessionParameters,
) {
    const NONE: [f64; CLASSES] = [0.0; CLASSES];
    let adults = &mut colony.adults;
    let flies = |k: usize| adults.age[k] >= p.stays_under_d;
    let all = sum(&adults.house) + sum(&adults.foragers);
    let able: f64 = (0..CLASSES)
        .filter(|&k| flies(k))
        .map(|k| adults.house[k])
        .sum::<f64>()
        + sum(&adults.foragers);
    let part = least(0.95, share * all / most(able, 1.0));
    let mut house = [0.0; CLASSES];
    let mut foragers = [0.0; CLASSES];
    for k in 0..CLASSES {
        house[k] = if flies(k) {
            part * adults.house[k]
        } else {
            0.0
        };
        foragers[k] = part * adults.foragers[k];
    }
    let gone = draw.from_groups(Topic::Queen, &adults.house, &NONE, &mut house)
        + draw.from_groups(Topic::Queen, &adults.foragers, &NONE, &mut foragers);
    for k in 0..CLASSES {
        adults.house[k] -= house[k];
        adults.foragers[k] -= foragers[k];
    }
    ledger.swarmed += gone;
    ledger.swarm_sugar_g += colony.stores.eat_sugar(crop_g * gone);
}
