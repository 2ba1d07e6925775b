//! The combs of one evening as the page draws them.

use combcast_core::faces::{Faces, Lattice};
use js_sys::{Array, Uint8Array};
use serde::Serialize;
use wasm_bindgen::prelude::*;

use crate::outcome::set;
use crate::to_js;

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Hive {
    /// Frame, and cell of its two faces.
    queen: Option<(usize, usize)>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Frame {
    /// Box from the bottom, place in it from left to right, both from 0.
    in_box: usize,
    place: usize,
    columns: usize,
    rows: usize,
    for_drones: bool,
    medium: bool,
}

impl From<&Lattice> for Frame {
    fn from(lattice: &Lattice) -> Self {
        Self {
            in_box: lattice.in_box(),
            place: lattice.place(),
            columns: lattice.columns,
            rows: lattice.rows,
            for_drones: lattice.is_for_drones(),
            medium: lattice.is_medium(),
        }
    }
}

/// The hive as an object: frames, each with the content of every cell of its first and second face.
pub fn of(faces: &Faces) -> Result<JsValue, JsValue> {
    let object = to_js(&Hive {
        queen: faces.queen(),
    });
    let frames = Array::new();
    for (index, lattice) in faces.frames().iter().enumerate() {
        let frame = to_js(&Frame::from(lattice));
        set(
            &frame,
            "contents",
            &Uint8Array::from(&faces.contents(index)[..]),
        )?;
        frames.push(&frame);
    }
    set(&object, "frames", &frames)?;
    Ok(object)
}
