// The hive cut through, and a frame taken out.

const size = { deep: 'deep', medium: 'medium' };
type Size = keyof typeof size;

export const hive = {
  box: {
    single: (kind: Size) => `${size[kind]} box`,
    lower: (kind: Size) => `lower ${size[kind]}`,
    middle: (kind: Size) => `middle ${size[kind]}`,
    upper: (kind: Size) => `upper ${size[kind]}`,
    numbered: (box: number) => `box ${box}`,
  },
  lower: 'lower',
  upper: 'upper',
  frameOf: (box: string, frame: number) => `${box}, frame ${frame}`,
  holds: (frame: string, inside: string) => `${frame}: ${inside}`,
  onCombs: (count: number) => ` (on ${count})`,
  cutThrough: (date: string, drawn: string, bees: string, brood: string, honey: string) =>
    `The hive cut through on ${date}: ${drawn} frames drawn, ${bees} frames of bees, ${brood} frames of brood, ${honey} of honey and nectar.`,
  caption: 'Cut through the middle, from the entrance. Specks: bees.',
  besideFound: 'Expected, each content as high as its share. Specks: bees.',
  tapFrame: 'Tap a frame to see its face.',

  towardFrame: (frame: number) => `the face toward frame ${frame}`,
  towardRight: 'the face toward the right wall',
  towardLeft: 'the face toward the left wall',
  faceLabel: (frame: string, toward: string, inside: string) => `${frame}, ${toward}: ${inside}. Space opens a glass, arrows move it.`,
  before: 'The frame before',
  turn: 'Turn it over',
  next: 'The next frame',
  droneFrame: (frame: string) => `${frame}, the drone frame`,
  /** A day's work is done in the morning, and a face is that of the evening. */
  putInCaption: (frame: string, toward: string, date: string, queen: boolean) =>
    `${frame}, ${toward}: put in on the morning of ${date}, and by evening it should look like this${queen ? '; the queen is on it' : ''}.`,
  faceCaption: (frame: string, toward: string, date: string, queen: boolean) =>
    `${frame}, ${toward}, as it should look on ${date}${queen ? '; the queen is on it' : ''}.`,

  kind: {
    honey: 'capped honey',
    nectar: 'nectar or syrup',
    pollen: 'pollen',
    egg: 'eggs',
    larva: 'larvae',
    capped: 'capped brood',
    drone: 'drone brood, domed',
    hatched: 'hatched today',
    empty: 'empty, drawn',
    drawing: 'being drawn',
    foundation: 'not drawn',
  },
  on: (kind: string, share: string) => `${kind} on ${share}`,
  drawnOn: (share: string) => `drawn on ${share}`,
  notDrawn: 'not drawn',
  fewCells: 'a few cells',
  /** A tenth, a quarter, a third, half, two thirds, three quarters, all. */
  shares: ['a tenth', 'a quarter', 'a third', 'half', 'two thirds', 'three quarters', 'all of it'],
  emptyComb: 'empty comb',
};
