/**
 * Cells on a canvas. Every kind of cell is drawn once for a size and a scheme, a few times with small
 * differences, and stamped from then on.
 */
import type { FrameCells } from '../types';
import { noise } from './comb';

/** Height of a row against the width of a cell: hexagons with points up and down. */
const ROW = Math.sqrt(3) / 2;
/** Height of a hexagon against its width. */
const TALL = 2 / Math.sqrt(3);
const VARIANTS = 4;
/** Numbers of `CONTENTS`, with three colours of pollen at the end. */
const EGG = [6, 14];
const FIRST_LARVA = [7, 15];
const CAPPED = 13;
const DRONE = 21;
const POLLEN = 22;
const NECTAR = 23;
const HONEY = 24;
const OTHER_POLLEN = 25;
const STAMPS = 27;

interface Colours {
  wax: string;
  waxLine: string;
  wall: string;
  floor: string;
  depth: string;
  grain: string;
  jelly: string;
  lid: string;
  lidEdge: string;
  lidLight: string;
  torn: string;
  dome: [string, string, string];
  pollen: [string, string, string];
  speck: string;
  nectar: string;
  glint: string;
  honey: string;
  honeyLine: string;
}

const LIGHT: Colours = {
  wax: '#f5eedd',
  waxLine: '#e2d7be',
  wall: '#efe6cf',
  floor: '#7d725d',
  depth: '#665c49',
  grain: '#ffffff',
  jelly: '#b9b09c',
  lid: '#a66b39',
  lidEdge: '#8a5629',
  lidLight: '#b57c4a',
  torn: '#9c6335',
  dome: ['#f0d79c', '#bb8f45', '#86632a'],
  pollen: ['#d9951f', '#c96f1c', '#a5a35f'],
  speck: '#7c4a10',
  nectar: '#c18429',
  glint: '#fdf0d2',
  honey: '#e8d8ab',
  honeyLine: '#cdb67e',
};

const DARK: Colours = {
  wax: '#4a4333',
  waxLine: '#5e5643',
  wall: '#7f765f',
  floor: '#2f2b23',
  depth: '#1d1b16',
  grain: '#f6efdf',
  jelly: '#6f6754',
  lid: '#a4693a',
  lidEdge: '#6f4522',
  lidLight: '#b47b4a',
  torn: '#96602f',
  dome: ['#e9cd8d', '#b0863f', '#6f5220'],
  pollen: ['#d29426', '#c4711f', '#989658'],
  speck: '#3d2a0a',
  nectar: '#b97f2a',
  glint: '#f6deaa',
  honey: '#c9bd99',
  honeyLine: '#9f9068',
};

export type Scheme = 'light' | 'dark';

/** The size of a face on a canvas whose cells are `cell` wide. */
export function sizeOf({ columns, rows }: FrameCells, cell: number): { width: number; height: number } {
  return { width: (columns + 0.5) * cell, height: ((rows - 1) * ROW + TALL) * cell };
}

/** The middle of a cell. */
export function middleOf({ columns }: FrameCells, index: number, cell: number): { x: number; y: number } {
  const row = Math.floor(index / columns);
  return { x: ((index % columns) + 0.5 + 0.5 * (row % 2)) * cell, y: (row * ROW + TALL / 2) * cell };
}

/** The cell at a point, or the nearest to it. */
export function cellAt({ columns, rows }: FrameCells, x: number, y: number, cell: number): number {
  const row = Math.min(rows - 1, Math.max(0, Math.round((y / cell - TALL / 2) / ROW)));
  const column = Math.min(columns - 1, Math.max(0, Math.floor(x / cell - 0.5 * (row % 2))));
  return row * columns + column;
}

const variantOf = (index: number): number => Math.floor(noise(index + 1) * VARIANTS);

/** Beyond the last cell. */
const NO_CELL = 0xffff;

/** The pixels of a face at one size. */
interface FacePixels {
  columns: number;
  image: ImageData;
  /** The cell of each, or none. */
  cells: Uint16Array;
  /** Where in that cell's stamp. */
  spots: Uint16Array;
  /** Where on the sheet the row of each cell's variant begins, and which pollen it would hold. */
  variants: Uint32Array;
  pollen: Uint8Array;
}

/** Every kind of cell at one size. */
export class Stamps {
  readonly #sheet: HTMLCanvasElement;
  readonly #width: number;
  readonly #height: number;
  #pixels = new Uint32Array();
  #face: FacePixels | null = null;

  /** `cell`: width of a cell in device pixels. */
  constructor(
    readonly cell: number,
    scheme: Scheme,
  ) {
    this.#width = Math.ceil(cell) + 2;
    this.#height = Math.ceil(cell * TALL) + 2;
    this.#sheet = document.createElement('canvas');
    this.#sheet.width = this.#width * STAMPS;
    this.#sheet.height = this.#height * VARIANTS;
    const context = this.#sheet.getContext('2d');
    if (!context) return;
    const colours = scheme === 'dark' ? DARK : LIGHT;
    for (let content = 0; content < STAMPS; content += 1) {
      for (let variant = 0; variant < VARIANTS; variant += 1) {
        context.save();
        context.translate(content * this.#width + this.#width / 2, variant * this.#height + this.#height / 2);
        context.scale(cell, cell);
        stamp(context, content, noise(content * 37 + variant * 11 + 3), cell, colours);
        context.restore();
      }
    }
    this.#pixels = new Uint32Array(context.getImageData(0, 0, this.#sheet.width, this.#sheet.height).data.buffer);
  }

  /** Draws a whole face, pixel by pixel from the stamps: thousands of cells, and each pixel is of one of them. */
  draw(context: CanvasRenderingContext2D, frame: FrameCells, contents: Uint8Array): void {
    const { width, height } = context.canvas;
    if (this.#face?.columns !== frame.columns || this.#face.image.width !== width || this.#face.image.height !== height) {
      this.#face = this.#lay(frame, context.createImageData(width, height));
    }
    const { image, cells, spots, variants, pollen } = this.#face;
    const stamps = new Uint32Array(contents.length);
    for (let cell = 0; cell < stamps.length; cell += 1) {
      const content = contents[cell]!;
      stamps[cell] = variants[cell]! + (content === POLLEN ? pollen[cell]! : content) * this.#width;
    }
    const pixels = new Uint32Array(image.data.buffer);
    for (let pixel = 0; pixel < pixels.length; pixel += 1) {
      const cell = cells[pixel]!;
      if (cell !== NO_CELL) pixels[pixel] = this.#pixels[stamps[cell]! + spots[pixel]!]!;
    }
    context.putImageData(image, 0, 0);
  }

  /** To which cell each pixel of a face belongs, the nearest, and where in that cell's stamp it lies. */
  #lay(frame: FrameCells, image: ImageData): FacePixels {
    const { columns, rows } = frame;
    const cells = new Uint16Array(image.width * image.height).fill(NO_CELL);
    const spots = new Uint16Array(cells.length);
    for (let y = 0; y < image.height; y += 1) {
      const upper = Math.floor(((y + 0.5) / this.cell - TALL / 2) / ROW);
      for (let x = 0; x < image.width; x += 1) {
        let nearest = (0.5 + 0.6 / this.cell) ** 2 * TALL ** 2;
        for (let row = Math.max(0, upper); row <= Math.min(rows - 1, upper + 1); row += 1) {
          const column = Math.floor((x + 0.5) / this.cell - 0.5 * (row % 2));
          if (column < 0 || column >= columns) continue;
          const index = row * columns + column;
          const middle = middleOf(frame, index, this.cell);
          const away = ((x + 0.5 - middle.x) / this.cell) ** 2 + ((y + 0.5 - middle.y) / this.cell) ** 2;
          if (away >= nearest) continue;
          nearest = away;
          const [left, top] = [Math.round(middle.x - this.#width / 2), Math.round(middle.y - this.#height / 2)];
          const pixel = y * image.width + x;
          cells[pixel] = index;
          spots[pixel] = (y - top) * this.#sheet.width + (x - left);
        }
      }
    }
    const all = Array.from({ length: columns * rows }, (_, index) => index);
    return {
      columns,
      image,
      cells,
      spots,
      variants: Uint32Array.from(all, (index) => variantOf(index) * this.#height * this.#sheet.width),
      pollen: Uint8Array.from(all, (index) => pollenOf(index, columns)),
    };
  }

  /** Draws what lies around a cell, that cell in the middle of the canvas. */
  drawAround(context: CanvasRenderingContext2D, frame: FrameCells, contents: Uint8Array, looked: number): void {
    const half = context.canvas.width / 2;
    const middle = middleOf(frame, looked, this.cell);
    for (let index = 0; index < contents.length; index += 1) {
      const { x, y } = middleOf(frame, index, this.cell);
      const off = { x: x - middle.x, y: y - middle.y };
      if (Math.hypot(off.x, off.y) <= half + this.cell) this.#stamp(context, frame, contents, index, { x: half + off.x, y: half + off.y });
    }
  }

  #stamp(context: CanvasRenderingContext2D, frame: FrameCells, contents: Uint8Array, index: number, at: { x: number; y: number }): void {
    const content = contents[index] ?? 0;
    const stampOf = content === POLLEN ? pollenOf(index, frame.columns) : content;
    const [width, height] = [this.#width, this.#height];
    context.drawImage(this.#sheet, stampOf * width, variantOf(index) * height, width, height, Math.round(at.x - width / 2), Math.round(at.y - height / 2), width, height);
  }
}

/** Pollen of one colour lies in patches. */
function pollenOf(index: number, columns: number): number {
  const [column, row] = [index % columns, Math.floor(index / columns)];
  const patch = noise(Math.floor(column / 9) * 53 + Math.floor(row / 5) * 7 + 1);
  return patch < 0.5 ? POLLEN : patch < 0.8 ? OTHER_POLLEN : OTHER_POLLEN + 1;
}

function hexagon(context: CanvasRenderingContext2D, radius: number): void {
  context.beginPath();
  for (let corner = 0; corner < 6; corner += 1) {
    const angle = Math.PI / 6 + (corner * Math.PI) / 3;
    context.lineTo(radius * Math.cos(angle), radius * Math.sin(angle));
  }
  context.closePath();
}

/** One cell, a unit wide, its middle at the origin. */
function stamp(context: CanvasRenderingContext2D, content: number, luck: number, pixels: number, colours: Colours): void {
  const full = TALL / 2 + 0.6 / pixels;
  const large = pixels > 12;
  const fill = (colour: string, radius: number) => {
    context.fillStyle = colour;
    hexagon(context, radius);
    context.fill();
  };
  const open = () => {
    fill(colours.wall, full);
    fill(colours.floor, full * 0.8);
    context.fillStyle = colours.depth;
    hexagon(context, full * 0.55);
    context.fill();
  };

  if (content === 0) {
    fill(colours.wax, full);
    context.strokeStyle = colours.waxLine;
    context.lineWidth = Math.max(0.06, 0.5 / pixels);
    hexagon(context, full * 0.94);
    context.stroke();
  } else if (content < 4) {
    fill(colours.wall, full);
    context.globalAlpha = content / 5;
    fill(colours.floor, full * (1 - 0.05 * content));
    context.globalAlpha = 1;
  } else if (content === 5) {
    open();
    context.strokeStyle = colours.torn;
    context.lineWidth = 0.12;
    hexagon(context, full * 0.84);
    context.stroke();
  } else if (EGG.includes(content)) {
    open();
    context.save();
    context.translate((luck - 0.5) * 0.16, (noise(luck * 1000) - 0.5) * 0.12);
    context.rotate((luck - 0.5) * 1.1);
    context.fillStyle = colours.grain;
    context.beginPath();
    context.ellipse(0, 0, large ? 0.075 : 0.1, large ? 0.23 : 0.25, 0, 0, 2 * Math.PI);
    context.fill();
    context.restore();
  } else if (content >= FIRST_LARVA[0]! && content < CAPPED) {
    open();
    larva(context, content - FIRST_LARVA[0]!, luck, colours);
  } else if (content >= FIRST_LARVA[1]! && content < DRONE) {
    open();
    larva(context, content - FIRST_LARVA[1]!, luck, colours);
  } else if (content === CAPPED) {
    fill(colours.lidEdge, full);
    fill(colours.lid, full * 0.92);
    context.globalAlpha = 0.35 + 0.65 * luck;
    fill(colours.lidLight, full * (0.45 + 0.2 * luck));
    context.globalAlpha = 1;
    if (large) {
      context.fillStyle = colours.lidEdge;
      for (let pit = 0; pit < 5; pit += 1) {
        const angle = noise(pit + luck * 100) * 2 * Math.PI;
        const away = 0.32 * noise(pit * 3 + luck * 77);
        context.fillRect(away * Math.cos(angle), away * Math.sin(angle), 0.03, 0.03);
      }
    }
  } else if (content === DRONE) {
    const [light, middle, rim] = colours.dome;
    fill(rim, full);
    const dome = context.createRadialGradient(-0.16, -0.2, 0.02, 0, 0, 0.56);
    dome.addColorStop(0, light);
    dome.addColorStop(0.65, middle);
    dome.addColorStop(1, rim);
    context.fillStyle = dome;
    context.beginPath();
    context.arc(0, 0, 0.52, 0, 2 * Math.PI);
    context.fill();
  } else if (content === POLLEN || content >= OTHER_POLLEN) {
    fill(colours.wall, full);
    fill(colours.floor, full * 0.84);
    context.fillStyle = colours.pollen[content === POLLEN ? 0 : content === OTHER_POLLEN ? 1 : 2];
    context.beginPath();
    context.arc(0, 0, 0.41, 0, 2 * Math.PI);
    context.fill();
    context.fillStyle = colours.speck;
    context.globalAlpha = 0.7;
    const specks = large ? 7 : 2;
    for (let speck = 0; speck < specks; speck += 1) {
      const angle = noise(speck + luck * 50) * 2 * Math.PI;
      const away = 0.3 * Math.sqrt(noise(speck * 5 + luck * 91));
      context.beginPath();
      context.arc(away * Math.cos(angle), away * Math.sin(angle), large ? 0.04 : 0.07, 0, 2 * Math.PI);
      context.fill();
    }
    context.globalAlpha = 1;
  } else if (content === NECTAR) {
    fill(colours.wall, full);
    fill(colours.nectar, full * 0.86);
    context.strokeStyle = colours.glint;
    context.lineWidth = 0.1;
    context.lineCap = 'round';
    context.beginPath();
    context.arc(0, 0, 0.28, Math.PI * 1.05, Math.PI * 1.45);
    context.stroke();
  } else if (content === HONEY) {
    fill(colours.honey, full);
    context.globalAlpha = 0.25 + 0.5 * luck;
    context.strokeStyle = colours.honeyLine;
    context.lineWidth = Math.max(0.05, 0.4 / pixels);
    hexagon(context, full * 0.98);
    context.stroke();
    context.lineWidth = 0.07;
    context.beginPath();
    context.moveTo(-0.22, 0.04 * (luck - 0.5));
    context.quadraticCurveTo(0, -0.1 * luck, 0.22, 0.06 * (luck - 0.5));
    context.stroke();
    context.globalAlpha = 1;
  } else {
    open();
  }
}

/** A curl that grows from a comma to a disc. */
function larva(context: CanvasRenderingContext2D, sixth: number, luck: number, colours: Colours): void {
  const size = sixth / 5;
  if (size < 0.5) {
    context.fillStyle = colours.jelly;
    context.beginPath();
    context.arc(0, 0, 0.2 + 0.2 * size, 0, 2 * Math.PI);
    context.fill();
  }
  context.fillStyle = colours.grain;
  context.strokeStyle = colours.grain;
  if (sixth === 5) {
    context.beginPath();
    context.arc(0, 0, 0.43, 0, 2 * Math.PI);
    context.fill();
    return;
  }
  const turn = luck * 2 * Math.PI;
  context.lineWidth = 0.09 + 0.15 * size;
  context.lineCap = 'round';
  context.beginPath();
  context.arc(0, 0, 0.12 + 0.14 * size, turn, turn + Math.PI * (1.1 + 0.5 * size));
  context.stroke();
}
