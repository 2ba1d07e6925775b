//! The swarm leaves: which bees go, and what they take along.

use super::SuccessionParameters;
use crate::adults::{Adults, CLASSES};
use crate::colony::Colony;
use crate::draw::Draw;
use crate::ledger::Ledger;
use crate::math::{least, most, sum};
use crate::rng::Topic;

/// `share` of the workers leave with full crops and the mites on them; the youngest stay behind.
pub(super) fn depart<D: Draw>(
    colony: &mut Colony,
    share: f64,
    crop_g: f64,
    draw: &mut D,
    ledger: &mut Ledger,
    p: &SuccessionParameters,
) {
    let all = workers(&colony.adults) + workers(&colony.damaged);
    let gone =
        leave(&mut colony.adults, share, draw, p) + leave(&mut colony.damaged, share, draw, p);
    ledger.swarmed += gone;
    ledger.swarm_sugar_g += colony.stores.eat_sugar(crop_g * gone);
    let mites = draw.how_many(
        Topic::Queen,
        colony.mites.on_bees,
        least(1.0, gone / most(all, 1.0)),
    );
    colony.mites.on_bees -= mites;
    ledger.mites.left += mites;
}

fn workers(adults: &Adults) -> f64 {
    sum(&adults.house) + sum(&adults.foragers)
}

/// Takes the leavers of one part of the colony; returns how many.
fn leave<D: Draw>(adults: &mut Adults, share: f64, draw: &mut D, p: &SuccessionParameters) -> f64 {
    const NONE: [f64; CLASSES] = [0.0; CLASSES];
    let flies = |age: f64| f64::from(u8::from(age >= p.stays_under_d));
    let mut house = [0.0; CLASSES];
    let mut foragers = [0.0; CLASSES];
    for k in 0..CLASSES {
        house[k] = adults.house[k] * flies(adults.age[k]);
        foragers[k] = adults.foragers[k];
    }
    let able = sum(&house) + sum(&foragers);
    let part = least(0.95, share * workers(adults) / most(able, 1.0));
    for k in 0..CLASSES {
        house[k] *= part;
        foragers[k] *= part;
    }
    let gone = draw.of_groups(Topic::Queen, &adults.house, &NONE, &mut house)
        + draw.of_groups(Topic::Queen, &adults.foragers, &NONE, &mut foragers);
    for k in 0..CLASSES {
        adults.house[k] -= house[k];
        adults.foragers[k] -= foragers[k];
    }
    gone
}
