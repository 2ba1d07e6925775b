/**
 * Everything that a beekeeper can do in a plan: under which heading, which entries it needs, how it is said
 * on a pin, and what to look out for. `test/moves.test.ts` holds this table against the scenario file's schema.
 */
import { ACIDS, HEAVY, INSPECTOR } from '../cautions';
import type { Comb, Move } from '../scenario';
import type { Quantity } from '../units';

export type ActionName = Exclude<keyof Move, 'date' | 'when' | 'every_days' | 'until'>;

/** One entry of an action; `path` says where it stands in the move. */
export type Field = { path: string; label: string } & (
  | {
      kind: 'number';
      step: number;
      decimals: number;
      unit?: string;
      quantity?: Quantity;
      /** What the slider goes to, where that is less than the range. */
      reach?: number;
      /** What it means when the entry is left out; then `usual` is what it starts with. */
      absent?: string;
      usual?: number;
    }
  | { kind: 'choice'; options: readonly (readonly [value: string, words: string])[]; absent?: string }
  | { kind: 'yes' }
  | { kind: 'place'; absent?: string }
);

export interface Action {
  name: ActionName;
  group: string;
  label: string;
  fields: readonly Field[];
  /** The action as it is first put into a plan. */
  fresh: Pick<Move, ActionName>;
  /** On a pin. */
  say: (move: Move) => string;
  /** What to look out for. */
  caution?: string;
}

export const COMB_WORDS: Record<Comb, string> = {
  foundation: 'foundation',
  'bare-foundation': 'bare plastic foundation',
  drawn: 'drawn comb',
  foundationless: 'foundationless frame',
  'drone-frame': 'drone frame',
  'drawn-drone-frame': 'drawn drone frame',
};
const COMBS = Object.entries(COMB_WORDS);
const BOX_COMBS = COMBS.filter(([comb]) => !comb.includes('drone'));
const SIZES = [
  ['deep', 'deep'],
  ['medium', 'medium'],
] as const;
const QUEEN_GOES = [
  ['stays', 'stays here'],
  ['leaves', 'goes with those who leave'],
] as const;

const number = (path: string, label: string, step: number, more: Partial<Extract<Field, { kind: 'number' }>> = {}): Field => ({
  kind: 'number',
  path,
  label,
  step,
  decimals: step < 0.1 ? 2 : step < 1 ? 1 : 0,
  ...more,
});
const frames = (path: string, label: string, step: number, more: Partial<Extract<Field, { kind: 'number' }>> = {}) =>
  number(path, label, step, { unit: 'frames', ...more });
const choice = (path: string, label: string, options: readonly (readonly [string, string])[], absent?: string): Field => ({
  kind: 'choice',
  path,
  label,
  options,
  ...(absent ? { absent } : {}),
});
const inTheirPlace = (path: string) => choice(path, 'In their place', COMBS, 'nothing');
const place = (path: string, label: string, absent?: string): Field => ({ kind: 'place', path, label, ...(absent ? { absent } : {}) });
const count = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`;

const MOST_DRONES = 'the drone frame with most brood';
const DRONES_LEAVE = 'Drones leave their cells about 24 days after the egg. A frame that comes out later has bred the mites it was meant to remove.';
const FROM_HIVE_TO_HIVE = `Disease goes from hive to hive with brood, bees and honey: look at the brood first. ${INSPECTOR}`;
const ROBBING = 'Spilled syrup sets bees robbing; feed toward evening.';

const newQueen = (name: 'give_queen' | 'replace_queen'): Field[] => [
  number(`${name}.age_years`, 'Her age', 0.5, { unit: 'years' }),
  number(`${name}.laying_power`, 'Laying, against a good queen', 0.05),
  number(`${name}.caged_days`, 'Caged for', 1, { unit: 'days' }),
];
const QUEEN = { age_years: 0, laying_power: 1, caged_days: 3 };

/** An action without entries. */
const plain = (name: ActionName, group: string, label: string, pin: string, caution?: string): Action => ({
  name,
  group,
  label,
  fields: [],
  fresh: { [name]: true },
  say: () => pin,
  ...(caution ? { caution } : {}),
});

export const ACTIONS: readonly Action[] = [
  {
    name: 'give_frame',
    group: 'Frames',
    label: 'Give a frame',
    fields: [
      choice('give_frame.comb', 'Kind', COMBS),
      place('give_frame.at', 'Where', 'the first place that fits'),
      { kind: 'yes', path: 'give_frame.replace', label: 'take out what is there' },
    ],
    fresh: { give_frame: { comb: 'drone-frame', replace: false } },
    say: ({ give_frame }) => `${COMB_WORDS[give_frame?.comb ?? 'foundation']} in`,
  },
  {
    name: 'take_drone_frame',
    group: 'Drone frames',
    label: 'Take the drone frame out',
    fields: [place('take_drone_frame.at', 'Which', MOST_DRONES)],
    fresh: { take_drone_frame: {} },
    say: () => 'drone frame out',
    caution: DRONES_LEAVE,
  },
  {
    name: 'freeze_drone_frame',
    group: 'Drone frames',
    label: 'Freeze the drone frame and put it back',
    fields: [number('freeze_drone_frame.hours', 'Hours in the freezer', 12, { unit: 'h', reach: 96 }), place('freeze_drone_frame.at', 'Which', MOST_DRONES)],
    fresh: { freeze_drone_frame: { hours: 48 } },
    say: () => 'drone frame frozen',
    caution: DRONES_LEAVE,
  },
  {
    name: 'swap_drone_frames',
    group: 'Drone frames',
    label: 'Swap the pair of drone frames',
    fields: [place('swap_drone_frames.at', 'Which', MOST_DRONES)],
    fresh: { swap_drone_frames: {} },
    say: () => 'drone frames swapped',
    caution: DRONES_LEAVE,
  },
  {
    name: 'cut_out_comb',
    group: 'Drone frames',
    label: 'Cut the comb out of a foundationless frame',
    fields: [place('cut_out_comb.at', 'Which', 'the one with most drone brood')],
    fresh: { cut_out_comb: {} },
    say: () => 'comb cut out',
    caution: DRONES_LEAVE,
  },
  {
    name: 'move_frame',
    group: 'Frames',
    label: 'Move a frame',
    fields: [place('move_frame.from', 'From'), place('move_frame.to', 'To')],
    fresh: { move_frame: { from: { box: 1, place: 1 }, to: { box: 1, place: 5 } } },
    say: () => 'frame moved',
  },
  {
    name: 'take_frame',
    group: 'Frames',
    label: 'Take a frame out',
    fields: [place('take_frame', 'Which')],
    fresh: { take_frame: { box: 1, place: 1 } },
    say: () => 'frame out',
  },
  {
    name: 'put_back_frame',
    group: 'Frames',
    label: 'Put the last frame back',
    fields: [place('put_back_frame.at', 'Where', 'the first place that fits')],
    fresh: { put_back_frame: {} },
    say: () => 'frame back in',
  },
  {
    name: 'add_box',
    group: 'Boxes',
    label: 'Give a box on top',
    fields: [
      choice('add_box.size', 'Size', SIZES),
      number('add_box.frames', 'Frames', 1),
      choice('add_box.comb', 'With', BOX_COMBS),
      { kind: 'yes', path: 'add_box.honey_super', label: 'honey super: its honey is for people' },
    ],
    fresh: { add_box: { size: 'deep', frames: 10, comb: 'foundation', honey_super: false } },
    say: ({ add_box }) => (add_box?.honey_super ? 'honey super on' : `${add_box?.size ?? 'deep'} box on`),
    caution: HEAVY,
  },
  {
    name: 'remove_box',
    group: 'Boxes',
    label: 'Take a box away',
    fields: [number('remove_box', 'Box, from the bottom', 1)],
    fresh: { remove_box: 2 },
    say: ({ remove_box }) => `box ${remove_box} away`,
    caution: HEAVY,
  },
  plain('reverse_boxes', 'Boxes', 'Reverse the two lowest boxes', 'boxes reversed', HEAVY),
  {
    name: 'swap_boxes',
    group: 'Boxes',
    label: 'Change two boxes round',
    fields: [number('swap_boxes.one', 'One box, from the bottom', 1), number('swap_boxes.other', 'The other', 1)],
    fresh: { swap_boxes: { one: 1, other: 2 } },
    say: ({ swap_boxes }) => `boxes ${swap_boxes?.one} and ${swap_boxes?.other} changed round`,
    caution: HEAVY,
  },
  {
    name: 'feed',
    group: 'Feed',
    label: 'Put syrup on',
    fields: [
      choice('feed.kind', 'Syrup', [
        ['1:1', '1:1'],
        ['2:1', '2:1'],
      ]),
      number('feed.litres', 'At each filling', 0.1, { quantity: 'syrup', reach: 12, absent: 'feeder kept full', usual: 3.8 }),
      number('feed.feeders', 'Feeders', 1),
    ],
    fresh: { feed: { kind: '1:1', litres: 3.8, feeders: 1 } },
    say: ({ feed }) => `${feed?.kind} syrup on`,
    caution: ROBBING,
  },
  {
    name: 'patty',
    group: 'Feed',
    label: 'Put a pollen patty on',
    fields: [number('patty.kilograms', 'Weight', 0.05, { quantity: 'stores', reach: 2 })],
    fresh: { patty: { kilograms: 0.45 } },
    say: () => 'pollen patty on',
  },
  plain('stop_feeding', 'Feed', 'Take feeders and patty off', 'feeding stopped'),
  {
    name: 'give_stores',
    group: 'Honey and stores',
    label: 'Give frames of honey',
    fields: [frames('give_stores', 'How many', 1)],
    fresh: { give_stores: 1 },
    say: ({ give_stores }) => `${count(give_stores ?? 1, 'frame')} of honey given`,
    caution: FROM_HIVE_TO_HIVE,
  },
  {
    name: 'take_stores',
    group: 'Honey and stores',
    label: 'Take frames of stores out',
    fields: [frames('take_stores', 'How many', 1)],
    fresh: { take_stores: 1 },
    say: ({ take_stores }) => `${count(take_stores ?? 1, 'frame')} of stores out`,
  },
  {
    name: 'take_honey_leaving_kg',
    group: 'Honey and stores',
    label: 'Take honey off',
    fields: [number('take_honey_leaving_kg', 'Leave in the hive', 1, { quantity: 'stores', reach: 50 })],
    fresh: { take_honey_leaving_kg: 20 },
    say: () => 'honey off',
    caution: HEAVY,
  },
  {
    name: 'cage_queen',
    group: 'Queen',
    label: 'Cage the queen',
    fields: [number('cage_queen.days', 'Let out after', 1, { unit: 'days', absent: 'stays caged until she is released', usual: 21 })],
    fresh: { cage_queen: { days: 21 } },
    say: () => 'queen caged',
  },
  plain('release_queen', 'Queen', 'Let the queen out of her cage', 'queen let out'),
  plain('remove_queen', 'Queen', 'Take the queen away', 'queen away'),
  {
    name: 'replace_queen',
    group: 'Queen',
    label: 'Replace the queen',
    fields: newQueen('replace_queen'),
    fresh: { replace_queen: { ...QUEEN } },
    say: () => 'queen replaced',
  },
  {
    name: 'give_queen',
    group: 'Queen',
    label: 'Give a mated queen',
    fields: newQueen('give_queen'),
    fresh: { give_queen: { ...QUEEN } },
    say: () => 'queen given',
  },
  plain('give_queen_cell', 'Queen', 'Give a ripe queen cell', 'queen cell given'),
  plain('remove_queen_cells', 'Queen', 'Break every queen cell and cup', 'queen cells broken'),
  plain('let_swarm', 'Queen', 'Let the colony swarm (for lessons)', 'swarm'),
  {
    name: 'split',
    group: 'Splits and bees',
    label: 'Split the colony',
    fields: [
      number('split.share', 'Share that leaves', 0.05),
      choice('split.queen', 'The queen', QUEEN_GOES),
      { kind: 'yes', path: 'split.to_another_yard', label: 'the new hive goes to another yard' },
      inTheirPlace('split.in_their_place'),
    ],
    fresh: { split: { share: 0.5, queen: 'stays', to_another_yard: false, in_their_place: 'foundation' } },
    say: () => 'split',
  },
  {
    name: 'take_nuc',
    group: 'Splits and bees',
    label: 'Take a nuc out',
    fields: [
      frames('take_nuc.frames_of_brood', 'Brood, with its bees', 1),
      frames('take_nuc.frames_of_stores', 'Stores', 1),
      frames('take_nuc.further_bees', 'Bees shaken in', 0.5),
      choice('take_nuc.queen', 'The queen', QUEEN_GOES),
      inTheirPlace('take_nuc.in_their_place'),
    ],
    fresh: { take_nuc: { frames_of_brood: 2, frames_of_stores: 1, further_bees: 1, queen: 'stays', in_their_place: 'foundation' } },
    say: () => 'nuc out',
  },
  {
    name: 'unite',
    group: 'Splits and bees',
    label: 'Unite with another colony',
    fields: [
      frames('unite.frames_of_bees', 'Its bees', 0.5),
      frames('unite.frames_of_brood', 'Its brood', 0.5),
      number('unite.honey_kg', 'Its honey', 0.5, { quantity: 'stores' }),
      number('unite.pollen_kg', 'Its pollen', 0.1, { quantity: 'stores' }),
      choice('unite.box.size', 'Its box', SIZES),
    ],
    fresh: {
      unite: {
        frames_of_bees: 4,
        frames_of_brood: 1,
        honey_kg: 3,
        pollen_kg: 0.3,
        box: { size: 'deep', frames: 10, comb: 'drawn', honey_super: false },
      },
    },
    say: () => 'united',
    caution: `${HEAVY} ${FROM_HIVE_TO_HIVE}`,
  },
  {
    name: 'shake_package',
    group: 'Splits and bees',
    label: 'Shake a package out',
    fields: [number('shake_package.kilograms', 'Weight of bees', 0.1, { quantity: 'stores' })],
    fresh: { shake_package: { kilograms: 1.3 } },
    say: () => 'package out',
  },
  {
    name: 'give_brood',
    group: 'Splits and bees',
    label: 'Give frames of brood',
    fields: [frames('give_brood.frames', 'How many', 1), { kind: 'yes', path: 'give_brood.with_bees', label: 'with the bees on them' }],
    fresh: { give_brood: { frames: 1, with_bees: false } },
    say: ({ give_brood }) => `${count(give_brood?.frames ?? 1, 'frame')} of brood given`,
    caution: FROM_HIVE_TO_HIVE,
  },
  {
    name: 'take_brood',
    group: 'Splits and bees',
    label: 'Take frames of brood out',
    fields: [
      frames('take_brood.frames', 'How many', 1),
      { kind: 'yes', path: 'take_brood.with_bees', label: 'with the bees on them' },
      inTheirPlace('take_brood.in_their_place'),
    ],
    fresh: { take_brood: { frames: 1, with_bees: false, in_their_place: 'foundation' } },
    say: ({ take_brood }) => `${count(take_brood?.frames ?? 1, 'frame')} of brood out`,
  },
  {
    name: 'give_bees',
    group: 'Splits and bees',
    label: 'Shake in bees of another hive',
    fields: [frames('give_bees', 'From how many frames', 0.25)],
    fresh: { give_bees: 2 },
    say: () => 'bees shaken in',
    caution: FROM_HIVE_TO_HIVE,
  },
  {
    name: 'take_bees',
    group: 'Splits and bees',
    label: 'Shake bees out',
    fields: [frames('take_bees', 'From how many frames', 0.25)],
    fresh: { take_bees: 2 },
    say: () => 'bees shaken out',
  },
  {
    name: 'treat',
    group: 'Against mites',
    label: 'Treat',
    fields: [
      // The options come with the table of treatments.
      choice('treat.with', 'With', []),
      number('treat.days', 'For', 1, { unit: 'days', absent: 'as long as is usual', usual: 42 }),
      number('treat.resistance', 'Lost to resistance', 0.05, { absent: 'as published', usual: 0.3 }),
    ],
    fresh: { treat: { with: 'oxalic-dribble' } },
    say: ({ treat }) => `${(treat?.with ?? '').replace('-', ' ')}`,
    caution: ACIDS,
  },
  plain('end_treatment', 'Against mites', 'Take the treatment out', 'treatment out'),
  plain('wrap_for_winter', 'Winter', 'Wrap the hive', 'wrapped'),
  plain('unwrap', 'Winter', 'Take the wrap off', 'wrap off'),
];

const BY_NAME = new Map(ACTIONS.map((action) => [action.name, action]));

/** The action of a move; the first, where there is more than one by mistake. */
export function actionOf(move: Move): Action | undefined {
  return ACTIONS.find(({ name }) => move[name] != null);
}

export function actionNamed(name: ActionName): Action | undefined {
  return BY_NAME.get(name);
}
