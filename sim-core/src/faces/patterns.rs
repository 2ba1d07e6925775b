//! Orders of cells that have been worked out once, for every season that has the same frames in the same boxes.

use std::sync::Arc;

use super::lattice::Lattice;
use super::orders::Orders;
use crate::comb::{CombParameters, Frame, Storey};

/// Most frames, and most hives of them, that are kept.
const MOST_FRAMES: usize = 80;
const MOST_HIVES: usize = 6;

/// What has been worked out of frames and of hives; the oldest goes first.
#[derive(Debug, Default)]
pub(super) struct Patterns {
    frames: Vec<Lattice>,
    hives: Vec<Pattern>,
}

#[derive(Debug)]
struct Pattern {
    frames: Vec<Lattice>,
    boxes: Vec<Storey>,
    orders: Arc<Orders>,
}

impl Patterns {
    /// A frame of which nothing is drawn; its first cell stands at `start` among all.
    pub fn lattice(&mut self, frame: &Frame, start: usize, p: &CombParameters) -> Lattice {
        let bare = Lattice::new(frame, start, p);
        if let Some(known) = self.frames.iter().find(|known| known.is_like(&bare)) {
            return Lattice {
                start,
                ..known.clone()
            };
        }
        let lattice = bare.with_orders();
        make_room(&mut self.frames, MOST_FRAMES);
        self.frames.push(lattice.clone());
        lattice
    }

    pub fn orders(&mut self, frames: &[Lattice], boxes: &[Storey]) -> Arc<Orders> {
        let like = |known: &Pattern| {
            known.boxes == boxes
                && known.frames.len() == frames.len()
                && known.frames.iter().zip(frames).all(|(a, b)| a.is_like(b))
        };
        if let Some(known) = self.hives.iter().find(|known| like(known)) {
            return Arc::clone(&known.orders);
        }
        let orders = Arc::new(Orders::new(frames, boxes));
        make_room(&mut self.hives, MOST_HIVES);
        self.hives.push(Pattern {
            frames: frames.to_vec(),
            boxes: boxes.to_vec(),
            orders: Arc::clone(&orders),
        });
        orders
    }
}

fn make_room<T>(list: &mut Vec<T>, most: usize) {
    if list.len() >= most {
        list.remove(0);
    }
}
