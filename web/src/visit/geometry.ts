/**
 * Where things stand in the drawing of a box: the same for what was expected and for what was found.
 */
export const WIDTH = 372;
export const WALL = 9;

export interface BoxPlaces {
  /** Width of a frame's column. */
  wide: number;
  /** Half the thickness of a drawn comb. */
  half: number;
  /** Width of a top bar. */
  bar: number;
  /** The middle of each frame. */
  x: (place: number) => number;
}

/** The columns of a box of so many frames; a nuc stands in a box of eight. */
export function places(frames: number): BoxPlaces {
  const count = Math.max(8, frames);
  const wide = (WIDTH - 2 * WALL) / count;
  return { wide, half: Math.min(11.5, wide * 0.32), bar: Math.min(22, wide * 0.6), x: (place) => WALL + (place + 0.5) * wide };
}
