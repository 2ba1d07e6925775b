/**
 * What was found, in another hand than what is expected: flat fills in an ink outline that wobbles a little, the same
 * way every time.
 */
import { noise } from '../hive/comb';
import { type Band, bands, BLANK, type Content, NO_BROOD, PARTS } from './sheet';

/** How far the pen strays, in units of the drawing. */
const STRAY = 0.9;

const f = (value: number) => value.toFixed(1);

/** A line from one point to another as a hand draws it. */
function line(x1: number, y1: number, x2: number, y2: number, seed: number): string {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const length = Math.hypot(dx, dy) || 1;
  const steps = Math.max(1, Math.round(length / 26));
  let path = '';
  let [px, py] = [x1, y1];
  for (let step = 1; step <= steps; step += 1) {
    const at = step / steps;
    const off = step === steps ? 0 : (noise(seed * 31 + step) - 0.5) * 2 * STRAY;
    const bend = (noise(seed * 57 + step) - 0.5) * 2 * STRAY;
    const [x, y] = [x1 + dx * at - (dy / length) * off, y1 + dy * at + (dx / length) * off];
    path += `Q${f((px + x) / 2 - (dy / length) * bend)} ${f((py + y) / 2 + (dx / length) * bend)} ${f(x)} ${f(y)}`;
    [px, py] = [x, y];
  }
  return path;
}

export interface Shape {
  content: Content;
  /** An area to fill; a line alone where nothing is drawn. */
  path: string;
  /** Specks in it. */
  dots: string;
}

export interface FoundComb {
  shapes: Shape[];
  /** Around what nothing is drawn in. */
  blanks: string;
  /** Struck through: no brood there. */
  struck: string;
  bees: string;
}

interface Place {
  x: number;
  top: number;
  bottom: number;
  half: number;
  /** Tells one frame's hand from the next one's. */
  seed: number;
}

export function foundComb(comb: string, bees: number | null, { x, top, bottom, half, seed }: Place): FoundComb {
  const part = (bottom - top) / PARTS;
  const shapes = bands(comb).map((band, i): Shape => {
    const [y1, y2] = [top + band.from * part, top + band.to * part];
    const hand = seed * 100 + i * 7;
    if (band.content === 'undrawn') return { content: band.content, path: `M${f(x)} ${f(y1)}${line(x, y1, x, y2, hand)}`, dots: '' };
    const corner = (n: number) => (noise(hand + n) - 0.5) * 1.6;
    const [left, right] = [x - half + corner(1), x + half + corner(2)];
    const path =
      `M${f(left)} ${f(y1)}${line(left, y1, right, y1 + corner(3), hand + 1)}${line(right, y1 + corner(3), x + half, y2, hand + 2)}` +
      `${line(x + half, y2, x - half, y2 + corner(4), hand + 3)}${line(x - half, y2 + corner(4), left, y1, hand + 4)}Z`;
    return { content: band.content, path, dots: dots(band, x, y1, y2, half, hand) };
  });
  const lines = stretches(comb, NO_BROOD).map(({ from, to }, i) => {
    const [x1, x2, y1, y2] = [x - half * 0.6, x + half * 0.6, top + to * part - 2, top + from * part + 2];
    return `M${f(x1)} ${f(y1)}${line(x1, y1, x2, y2, seed * 100 + 60 + i)}`;
  });
  return { shapes, blanks: blanks(comb, x, top, part, half), struck: lines.join(''), bees: specks(bees ?? 0, { x, top, bottom, half, seed }) };
}

/** Pollen has specks, drone brood domes. */
function dots({ content }: Band, x: number, y1: number, y2: number, half: number, seed: number): string {
  if (content !== 'pollen' && content !== 'drone') return '';
  let path = '';
  const rows = Math.max(1, Math.floor((y2 - y1) / 7));
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < 3; column += 1) {
      const n = seed + row * 3 + column;
      const stray = content === 'pollen' ? 3 : 0.5;
      const px = x + (column - 1) * half * 0.6 + (noise(n) - 0.5) * stray;
      const py = y1 + ((row + 0.5) / rows) * (y2 - y1) + (noise(n + 500) - 0.5) * stray;
      path += `M${f(px)} ${f(py)}h0`;
    }
  }
  return path;
}

/** Where a letter stands in a comb. */
function stretches(comb: string, letter: string): { from: number; to: number }[] {
  const found: { from: number; to: number }[] = [];
  for (let part = 0; part < PARTS; part += 1) {
    if (comb[part] !== letter) continue;
    const last = found.at(-1);
    if (last?.to === part) last.to = part + 1;
    else found.push({ from: part, to: part + 1 });
  }
  return found;
}

const blanks = (comb: string, x: number, top: number, part: number, half: number): string =>
  [BLANK, NO_BROOD]
    .flatMap((letter) => stretches(comb, letter))
    .map(({ from, to }) => `M${f(x - half)} ${f(top + from * part)}h${f(2 * half)}v${f((to - from) * part)}h${f(-2 * half)}z`)
    .join('');

/** Bees on both sides of a comb, as far down as they were seen. */
function specks(bees: number, { x, top, bottom, half, seed }: Place): string {
  let path = '';
  const reach = (bees / PARTS) * (bottom - top);
  const count = Math.round(reach / 3.2);
  for (let bee = 0; bee < count * 2; bee += 1) {
    const n = seed * 1000 + bee * 3;
    const side = bee % 2 ? 1 : -1;
    const px = x + side * (half + 2.6 + (noise(n) - 0.5) * 3);
    const py = top + ((Math.floor(bee / 2) + noise(n + 1)) / count) * reach;
    path += `M${f(px)} ${f(py)}l${f((noise(n + 2) - 0.5) * 2.4)} 2.6`;
  }
  return path;
}
