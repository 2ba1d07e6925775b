// Die Belege, und was allen Teilen der Seite gemeinsam ist.

import type { Catalogue } from '../en';

export const care: Catalogue['care'] = {
  ways: 'Teile der Seite',
  largeType: 'Große Schrift',
  newer: 'Ein neueres Combcast ist da. Was du eingegeben hast, bleibt.',
  takeNewer: 'Laden',
  later: 'Später',
};

export const evidence: Catalogue['evidence'] = {
  link: 'Belege',
  heading: 'Belege',
  intro: 'Was veröffentlicht ist, neben dem, was das Modell gibt; jede Zahl, auf der es ruht; und was es weglässt. Die Tabellen sind englisch.',
  checks: 'Veröffentlichte Messungen',
  inside: (inside, all) => `${inside} von ${all} im Bereich`,
  outsideCount: (outside) => `${outside} außerhalb: Dort weicht das Modell bekanntermaßen ab.`,
  show: 'Zeigen',
  all: (count) => `alle (${count})`,
  outside: (count) => `außerhalb (${count})`,
  id: 'Nummer',
  compared: 'Was verglichen wird',
  published: 'Veröffentlicht',
  value: 'Modell',
  range: 'Bereich',
  verdict: 'Im Bereich?',
  isInside: '✓ im Bereich',
  isOutside: '✕ außerhalb',
  between: (low, high) => `${low} bis ${high}`,
  source: 'Quelle',
  note: 'Anmerkung',
  parameters: 'Parameter',
  shown: (shown, all) => (shown === all ? `alle ${all}` : `${shown} von ${all}`),
  filter: 'In den Parametern suchen',
  basis: 'Grundlage',
  anyBasis: 'jede',
  bases: {
    published: 'veröffentlicht',
    tuned: 'an einer Messung eingestellt',
    assumed: 'angenommen',
  },
  parameter: 'Parameter',
  unit: 'Einheit',
  preset: 'Vorgabe',
  nothing: 'Kein Parameter passt.',
  loading: 'Die Tabellen werden gelesen …',
  failed: 'Die Tabellen konnten nicht gelesen werden.',
};
