//! Where brood and stores lie on the combs: one rule for the picture of the cells and for what goes with a
//! frame that is taken out.
//!
//! The model counts brood and stores for the hive as a whole. They are laid out as nests grow (common
//! practice, no source): brood is a ball around the middle of the lowest box, drawn out along the combs,
//! which are twice as wide as high, and cut by combs and boxes; pollen is a shell around it, and honey and
//! nectar arch over both, fill the boxes above, and hang beside.

use crate::comb::{Frame, Frames, Storey};
use crate::math::{least, most};
use crate::scenario::BoxSize;

/// Inside width of a frame, cm.
pub const WIDTH_CM: f64 = 42.5;
/// From comb to comb, cm.
const COMB_TO_COMB_CM: f64 = 3.5;
/// From the top of a box's combs to the bottom of the next box's, cm.
const BETWEEN_BOXES_CM: f64 = 4.0;
/// Height of the nest's middle above the lowest bottom bar, cm.
const MIDDLE_CM: f64 = 11.0;
/// How far the nest reaches along a comb for each cm that it reaches up, or from comb to comb.
const ALONG: f64 = 1.6;
/// Stripes that a comb is cut into from top to bottom.
const STRIPES: usize = 8;
/// Halvings of a distance of some metres: to less than a hair.
const HALVINGS: usize = 40;

/// Height of the comb in a frame, cm.
pub fn height_cm(size: BoxSize) -> f64 {
    match size {
        BoxSize::Deep => 20.5,
        BoxSize::Medium => 13.0,
    }
}

/// Height of each box's bottom bars above those of the lowest, cm.
pub fn floors_cm(boxes: &[Storey]) -> Vec<f64> {
    let mut floor = 0.0;
    boxes
        .iter()
        .map(|storey| {
            let here = floor;
            floor += height_cm(storey.size) + BETWEEN_BOXES_CM;
            here
        })
        .collect()
}

/// How far behind the middle of its box the comb at a place hangs, cm; before it: below zero.
pub fn behind_cm(position: usize, places: usize) -> f64 {
    (position as f64 - (places as f64 - 1.0) / 2.0) * COMB_TO_COMB_CM
}

/// Height above the nest's middle of what lies so high above the lowest bottom bars, cm.
pub fn above_middle_cm(up: f64) -> f64 {
    up - MIDDLE_CM
}

/// How far out in the nest a place lies, cm: the same all over an egg-shaped shell, which reaches farther along the combs.
///
/// Cm along the comb from the middle of the nest, above it, and from comb to comb.
pub fn out_cm(across: f64, high: f64, behind: f64) -> f64 {
    let along = across / ALONG;
    f64::sqrt(along * along + high * high + behind * behind)
}

/// What stores put up with to lie so high above the nest's middle, as cm that they would lie farther
/// from it: they go above the brood rather than beside it, and hardly below.
pub fn pull_cm(high: f64) -> f64 {
    if high < 0.0 { -1.6 * high } else { -0.7 * high }
}

/// What lies in a frame, in worker cells.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Contents {
    /// Worker brood, and drone brood at corners and edges by the room that it takes.
    pub brood: f64,
    /// Pollen.
    pub pollen: f64,
    /// Honey, nectar and syrup.
    pub sugar: f64,
}

/// A stripe across a comb, all at one height.
struct Stripe {
    frame: usize,
    /// Above the middle of the nest, and behind it, cm.
    high: f64,
    away_squared: f64,
    /// Worker cells on a cm of its width, both faces.
    cells_per_cm: f64,
}

impl Stripe {
    /// Cells of the stripe within a distance of the nest's middle.
    fn within(&self, radius: f64) -> f64 {
        let half = ALONG * f64::sqrt(most(0.0, radius * radius - self.away_squared));
        2.0 * least(half, WIDTH_CM / 2.0) * self.cells_per_cm
    }

    /// Cells of the stripe that stores reach when they go so far.
    fn stored(&self, far: f64) -> f64 {
        self.within(most(0.0, far - pull_cm(self.high)))
    }
}

fn stripes(frames: &Frames) -> Vec<Stripe> {
    let floors = floors_cm(&frames.boxes);
    let of_frame = |(index, frame): (usize, &Frame)| {
        let height = height_cm(frame.size);
        let behind = behind_cm(frame.position, frames.boxes[frame.in_box].places);
        let floor = floors[frame.in_box];
        let cells_per_cm = frame.worker_cells() / (STRIPES as f64 * WIDTH_CM);
        std::array::from_fn::<Stripe, STRIPES, _>(|stripe| {
            let up = floor + (stripe as f64 + 0.5) / STRIPES as f64 * height;
            let high = above_middle_cm(up);
            Stripe {
                frame: index,
                high,
                away_squared: high * high + behind * behind,
                cells_per_cm,
            }
        })
    };
    frames
        .frames
        .iter()
        .enumerate()
        .flat_map(of_frame)
        .collect()
}

/// The distance up to which there are so many cells, cm.
fn distance(wanted: f64, cells: impl Fn(f64) -> f64) -> f64 {
    let (mut near, mut far) = (0.0, 400.0);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (near + far);
        if cells(middle) < wanted {
            near = middle;
        } else {
            far = middle;
        }
    }
    far
}

/// What lies in each frame where brood, pollen and sugar fill so many worker cells of the hive.
pub fn contents(frames: &Frames, brood: f64, pollen: f64, sugar: f64) -> Vec<Contents> {
    let stripes = stripes(frames);
    let sum = |cells: &dyn Fn(&Stripe) -> f64| stripes.iter().map(cells).sum::<f64>();
    let nest = distance(brood, |radius| sum(&|it| it.within(radius)));
    let shell = distance(brood + pollen, |radius| sum(&|it| it.within(radius)));
    let left = |it: &Stripe, far: f64| most(0.0, it.stored(far) - it.within(shell));
    let arch = distance(sugar, |far| sum(&|it| left(it, far)));
    let mut contents = vec![Contents::default(); frames.frames.len()];
    for stripe in &stripes {
        let here = &mut contents[stripe.frame];
        here.brood += stripe.within(nest);
        here.pollen += stripe.within(shell) - stripe.within(nest);
        here.sugar += left(stripe, arch);
    }
    contents
}
