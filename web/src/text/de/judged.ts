// Wie Völker sich streuen, und wo eines steht: was auf dem ersten Bild davon gesagt wird.

import type { Catalogue } from '../en';

export const bands: Catalogue['bands'] = {
  range: (low, high) => ` (${low} bis ${high})`,
  others: (low, high, mites, fewer) => ` (${fewer ? 'weniger' : 'mehr'} als die meisten Völker wie dieses, ${mites ? 'mit den Milben, die solche Völker haben' : 'die sich in Königin, Fehlern und Glück unterscheiden'}: ${low} bis ${high})`,
  othersLost: (mites) => ` (fast alle Völker wie dieses, ${mites ? 'mit den Milben, die solche Völker haben' : 'die sich in Königin, Fehlern und Glück unterscheiden'}, sind bis dahin verloren)`,
  fitting: (low, high, inside) => ` (${inside ? '' : 'im Plan; '}9 von 10 Völkern, die zum Gefundenen passen: ${low} bis ${high})`,
  fittingLost: ' (im Plan; fast alle Völker, die zum Gefundenen passen, sind bis dahin verloren)',
  fittingMeaning: 'Die Zahl ist die des Plans, der von keiner Durchsicht weiß. Die Spanne ist die der Völker, die zu dem passen, was bei den Durchsichten gefunden wurde; das Urteil unten sagt mehr von ihnen.',
  title: (members) => `Von ${members} Völkern wie diesem`,
  oneWeather: 'gleicher Beginn und gleiches Wetter; sie unterscheiden sich in dem, was niemand von einem Volk weiß, und durch Zufall',
  plan: 'Der Plan ist ein Volk mit guter Königin und ohne Fehler; diese hier unterscheiden sich, wie Völker es tun, und manche haben einen Fehler. Darum ist der Plan nicht ihre Mitte.',
  weathers: (runs) => `gleicher Beginn, und ${runs} Läufe von Wetter für die Tage, die nicht aus einer Messreihe sind`,
  assumedMites: (mites) => `Der Plan sagt nicht, mit wie vielen Milben das Volk beginnt: Angenommen sind etwa ${mites} auf 100 Bienen, in manchen Völkern viel mehr. Einstellen lässt es sich bei den Reglern unter „Beginn“; 0 heißt keine.`,
  when: 'Wann, in neun von zehn',
  howOften: 'Wie oft',
  between: (early, late) => (early === late ? early : `${early} bis ${late}`),
  fromStart: (late) => (late === null ? 'von Anfang an' : `von Anfang an bis ${late}`),
  inSome: (dates, of100) => `${dates}, in ${of100} von 100`,
  never: 'nicht in dieser Saison',
  ofMembers: (count, members) => `${count} von ${members}`,
  threshold: {
    young_bees: 'erste junge Bienen',
    as_at_start: 'nach weniger Bienen wieder so viele wie am Anfang',
    next_box: 'nächste Zarge nötig: acht Zehntel der ersten ausgebaut',
    drones: 'Drohnen fliegen',
    mites_2: '2 Milben auf 100 Bienen',
    mites_3: '3 Milben auf 100 Bienen',
  },
  risk: {
    swarm: 'ein Schwarm geht ab',
    hunger: 'ein Tag ohne genug Futter',
    mites_3: '3 Milben auf 100 Bienen oder mehr',
    lost: 'das Volk ist verloren',
    no_queen: 'am letzten Tag am Leben, aber ohne legende Königin',
  },
  meaning: (members) =>
    `Neun von zehn aus ${members} Völkern mit gleichem Beginn und gleichem Wetter. Der Plan ist ein Volk mit guter Königin und ohne Fehler; diese unterscheiden sich, und manche haben einen Fehler: Er ist nicht ihre Mitte.`,
};

export const standing: Catalogue['standing'] = {
  inStepAtTop: 'Im Takt mit seinem Wetter',
  atTop: (words, after) => `Nach dem Gefundenen: ${words}, ${after}`,
  judging: 'Das Gefundene wird beurteilt …',
  word: {
    ahead: 'Voraus',
    in_step: 'Im Takt',
    behind: 'Im Rückstand',
    far_behind: 'Weit im Rückstand',
    lost: 'Keine Biene ist mehr da',
    at_odds: 'Im Widerspruch zum Plan',
    untold: 'Wie es steht, ist nicht zu erkennen',
  },
  alarm: {
    queen_cells: 'Weiselzellen wurden gefunden',
    low_stores: 'kaum Vorrat wurde gefunden',
    many_mites: 'die Milben sind über der Grenze',
    many_fallen: 'zu viele Milben fallen',
    lost: 'das Volk ist verloren',
    at_odds: 'Plan und Volk widersprechen sich',
  },
  alarmed: (words, alarm) => `${words}; ${alarm}`,
  byDays: (days) => `, um etwa ${days === 1 ? 'einen Tag' : `${days} Tage`}`,
  daysRange: (from, to) => `(${from} bis ${to})`,
  daysBehind: (from, to) => `(${from} bis ${to} Tage im Rückstand)`,
  daysAhead: (from, to) => `(${from} bis ${to} Tage voraus)`,
  perhaps: (words) => `Vielleicht ${words.charAt(0).toLowerCase()}${words.slice(1)}`,
  daysEitherSide: (behind, ahead) => `(${behind === 1 ? 'ein Tag' : `${behind} Tage`} im Rückstand bis ${ahead} voraus)`,
  after: (visits, date) => `nach ${visits === 1 ? 'einer Durchsicht' : `${visits} Durchsichten`}, am ${date}`,
};
