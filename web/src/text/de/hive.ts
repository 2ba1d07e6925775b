// Das Volk im Schnitt, und eine herausgenommene Wabe.

import type { Catalogue } from '../en';

const name = { deep: 'Zarge', medium: 'Flachzarge' };

export const hive: Catalogue['hive'] = {
  box: {
    single: (kind) => name[kind],
    lower: (kind) => `untere ${name[kind]}`,
    middle: (kind) => `mittlere ${name[kind]}`,
    upper: (kind) => `obere ${name[kind]}`,
    numbered: (box) => `Zarge ${box}`,
  },
  lower: 'untere',
  upper: 'obere',
  frameOf: (box, frame) => `${box}, Wabe ${frame}`,
  holds: (frame, inside) => `${frame}: ${inside}`,
  onCombs: (count) => ` (auf ${count})`,
  cutThrough: (date, drawn, bees, brood, honey) =>
    `Das Volk im Schnitt am ${date}: ausgebaute Waben ${drawn}, Waben mit Bienen ${bees}, Brutwaben ${brood}, ${honey} Honig und Nektar.`,
  caption: 'Schnitt durch die Mitte, vom Flugloch aus. Punkte: Bienen.',
  besideFound: 'Erwartet, jeder Inhalt so hoch wie sein Anteil. Punkte: Bienen.',
  tapFrame: 'Tipp auf eine Wabe, um sie zu sehen.',

  towardFrame: (frame) => `Seite zu Wabe ${frame}`,
  towardRight: 'Seite zur rechten Wand',
  towardLeft: 'Seite zur linken Wand',
  faceLabel: (frame, toward, inside) => `${frame}, ${toward}: ${inside}. Leertaste öffnet ein Glas, Pfeile bewegen es.`,
  before: 'Die Wabe davor',
  turn: 'Umdrehen',
  next: 'Die nächste Wabe',
  droneFrame: (frame) => `${frame}, der Drohnenrahmen`,
  putInCaption: (frame, toward, date, queen) => `${frame}, ${toward}: am Morgen des ${date} eingehängt, und so sollte er am Abend aussehen${queen ? '; die Königin sitzt darauf' : ''}.`,
  faceCaption: (frame, toward, date, queen) => `${frame}, ${toward}: zu erwarten am ${date}${queen ? '; die Königin sitzt darauf' : ''}.`,

  kind: {
    honey: 'verdeckelter Honig',
    nectar: 'Nektar oder Sirup',
    pollen: 'Pollen',
    egg: 'Stifte',
    larva: 'Maden',
    capped: 'verdeckelte Brut',
    drone: 'Drohnenbrut, gewölbt',
    hatched: 'heute geschlüpft',
    empty: 'leer, ausgebaut',
    drawing: 'im Bau',
    foundation: 'nicht ausgebaut',
  },
  on: (kind, share) => `${kind} auf ${share}`,
  drawnOn: (share) => `ausgebaut auf ${share}`,
  notDrawn: 'nicht ausgebaut',
  fewCells: 'wenigen Zellen',
  shares: ['einem Zehntel', 'einem Viertel', 'einem Drittel', 'der Hälfte', 'zwei Dritteln', 'drei Vierteln', 'der ganzen Wabe'],
  emptyComb: 'leere Wabe',
};
