// Die Pläne, die mit der Seite kommen. Ihre Dateien nennen sie auf Englisch.

import type { Catalogue } from '../en';

const NAMES: Record<string, string> = {
  'A colony after its swarm': 'Ein Volk nach dem Schwärmen',
  'A drone frame pulled late': 'Ein Drohnenrahmen, zu spät herausgenommen',
  'A drone frame pulled on time': 'Ein Drohnenrahmen, rechtzeitig herausgenommen',
  'A foundationless frame in a wet spring': 'Ein leeres Rähmchen im nassen Frühling',
  'A package and its luck': 'Ein Kunstschwarm und sein Glück',
  'A package in a desert spring': 'Ein Kunstschwarm im Frühling der Wüste',
  'A package in a southern spring': 'Ein Kunstschwarm im Frühling der Südhalbkugel',
  'A package in a wet spring, fed': 'Ein Kunstschwarm im nassen Frühling, gefüttert',
  'A package in a wet spring, unfed': 'Ein Kunstschwarm im nassen Frühling, nicht gefüttert',
  'A package in spring': 'Ein Kunstschwarm im Frühling',
  'A package on drawn comb in a wet spring': 'Ein Kunstschwarm auf ausgebauten Waben im nassen Frühling',
  'A pair of drone frames, swapped all season': 'Ein Paar Drohnenrahmen, die ganze Saison getauscht',
  'A queenless colony': 'Ein weiselloses Volk',
  'A small nucleus colony': 'Ein kleiner Ableger',
  'A spring split': 'Ein Volk, im Frühling geteilt',
  'A swarm on foundation': 'Ein Schwarm auf Mittelwänden',
  'An established colony over two winters': 'Ein bestehendes Volk über zwei Winter',
  'Every move': 'Jeder Handgriff',
  'Never treated': 'Nie behandelt',
  'One mite in April': 'Eine Milbe im April',
  'Treated every year': 'Jedes Jahr behandelt',
  'Treated in August': 'Im August behandelt',
  'Treated in October': 'Im Oktober behandelt',
};

export const plans: Catalogue['plans'] = {
  called: (name) => {
    const [number = ''] = / \(\d+\)$/.exec(name) ?? [];
    const german = NAMES[name.slice(0, name.length - number.length)];
    return german ? german + number : name;
  },
};

export const twin: Catalogue['twin'] = {
  withoutFeed: 'ohne Futter',
  withFeed: 'mit Futter',
  withoutRain: 'ohne den Regen',
  withRain: 'mit drei nassen Wochen',
  kept: 'gemerkter Plan',
  withoutMove: (move) => `ohne „${move}“`,
  ofHive: (name) => `im Volk „${name}“`,
};
