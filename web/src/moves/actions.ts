/**
 * Everything that a beekeeper can do in a plan: under which heading, which entries it needs, and what to look out
 * for. Its words stand in the catalogue. `test/moves.test.ts` holds this table against the scenario file's schema.
 */
import type { Comb, Move } from '../scenario';
import type { Catalogue } from '../text/en';
import type { Quantity } from '../units';

export type ActionName = Exclude<keyof Move, 'date' | 'when' | 'every_days' | 'until'>;

type Words = Catalogue['moves'];
export type ActionGroup = keyof Words['group'];
export type ActionCaution = keyof Words['caution'];
export type FieldPath = keyof Words['field'];

/** One entry of an action; `path` says where it stands in the move. An entry that can be left out has words for that in the catalogue. */
export type Field = { path: FieldPath } & (
  | {
      kind: 'number';
      step: number;
      decimals: number;
      unit?: keyof Words['unit'];
      quantity?: Quantity;
      /** What the slider goes to, where that is less than the range. */
      reach?: number;
      /** What it starts with, where it can be left out. */
      usual?: number;
    }
  | { kind: 'choice'; options: readonly string[] }
  | { kind: 'yes' }
  | { kind: 'place' }
);

export interface Action {
  name: ActionName;
  group: ActionGroup;
  fields: readonly Field[];
  /** The action as it is first put into a plan. */
  fresh: Pick<Move, ActionName>;
  /** What to look out for. */
  caution?: ActionCaution;
}

const COMBS = ['foundation', 'bare-foundation', 'drawn', 'foundationless', 'drone-frame', 'drawn-drone-frame'] as const satisfies readonly Comb[];
const BOX_COMBS = COMBS.slice(0, 4);
const SIZES = ['deep', 'medium'];
const QUEEN_GOES = ['stays', 'leaves'];

type NumberField = Extract<Field, { kind: 'number' }>;

const number = (path: FieldPath, step: number, more: Partial<NumberField> = {}): Field => ({
  kind: 'number',
  path,
  step,
  decimals: step < 0.1 ? 2 : step < 1 ? 1 : 0,
  ...more,
});
const frames = (path: FieldPath, step: number) => number(path, step, { unit: 'frames' });
const choice = (path: FieldPath, options: readonly string[]): Field => ({ kind: 'choice', path, options });
const place = (path: FieldPath): Field => ({ kind: 'place', path });
const yes = (path: FieldPath): Field => ({ kind: 'yes', path });

const newQueen = (name: 'give_queen' | 'replace_queen'): Field[] => [
  number(`${name}.age_years`, 0.5, { unit: 'years' }),
  number(`${name}.laying_power`, 0.05),
  number(`${name}.caged_days`, 1, { unit: 'days' }),
];
const QUEEN = { age_years: 0, laying_power: 1, caged_days: 3 };

/** An action without entries. */
const plain = (name: ActionName, group: ActionGroup, caution?: ActionCaution): Action => ({
  name,
  group,
  fields: [],
  fresh: { [name]: true },
  ...(caution ? { caution } : {}),
});

export const ACTIONS: readonly Action[] = [
  {
    name: 'give_frame',
    group: 'frames',
    fields: [
      choice('give_frame.comb', COMBS),
      place('give_frame.at'),
      yes('give_frame.replace'),
    ],
    fresh: { give_frame: { comb: 'drone-frame', replace: false } },
  },
  {
    name: 'take_drone_frame',
    group: 'drones',
    fields: [place('take_drone_frame.at')],
    fresh: { take_drone_frame: {} },
    caution: 'dronesLeave',
  },
  {
    name: 'freeze_drone_frame',
    group: 'drones',
    fields: [number('freeze_drone_frame.hours', 12, { unit: 'h', reach: 96 }), place('freeze_drone_frame.at')],
    fresh: { freeze_drone_frame: { hours: 48 } },
    caution: 'dronesLeave',
  },
  {
    name: 'swap_drone_frames',
    group: 'drones',
    fields: [place('swap_drone_frames.at')],
    fresh: { swap_drone_frames: {} },
    caution: 'dronesLeave',
  },
  {
    name: 'cut_out_comb',
    group: 'drones',
    fields: [place('cut_out_comb.at')],
    fresh: { cut_out_comb: {} },
    caution: 'dronesLeave',
  },
  {
    name: 'move_frame',
    group: 'frames',
    fields: [place('move_frame.from'), place('move_frame.to')],
    fresh: { move_frame: { from: { box: 1, place: 1 }, to: { box: 1, place: 5 } } },
  },
  {
    name: 'take_frame',
    group: 'frames',
    fields: [place('take_frame')],
    fresh: { take_frame: { box: 1, place: 1 } },
  },
  {
    name: 'put_back_frame',
    group: 'frames',
    fields: [place('put_back_frame.at')],
    fresh: { put_back_frame: {} },
  },
  {
    name: 'add_box',
    group: 'boxes',
    fields: [
      choice('add_box.size', SIZES),
      number('add_box.frames', 1),
      choice('add_box.comb', BOX_COMBS),
      yes('add_box.honey_super'),
    ],
    fresh: { add_box: { size: 'deep', frames: 10, comb: 'foundation', honey_super: false } },
    caution: 'heavy',
  },
  {
    name: 'remove_box',
    group: 'boxes',
    fields: [number('remove_box', 1)],
    fresh: { remove_box: 2 },
    caution: 'heavy',
  },
  plain('reverse_boxes', 'boxes', 'heavy'),
  {
    name: 'swap_boxes',
    group: 'boxes',
    fields: [number('swap_boxes.one', 1), number('swap_boxes.other', 1)],
    fresh: { swap_boxes: { one: 1, other: 2 } },
    caution: 'heavy',
  },
  {
    name: 'feed',
    group: 'feed',
    fields: [
      choice('feed.kind', ['1:1', '2:1']),
      number('feed.litres', 0.1, { quantity: 'syrup', reach: 12, usual: 3.8 }),
      number('feed.feeders', 1),
    ],
    fresh: { feed: { kind: '1:1', litres: 3.8, feeders: 1 } },
    caution: 'robbing',
  },
  {
    name: 'patty',
    group: 'feed',
    fields: [number('patty.kilograms', 0.05, { quantity: 'stores', reach: 2 })],
    fresh: { patty: { kilograms: 0.45 } },
  },
  plain('stop_feeding', 'feed'),
  {
    name: 'give_stores',
    group: 'stores',
    fields: [frames('give_stores', 1)],
    fresh: { give_stores: 1 },
    caution: 'fromHiveToHive',
  },
  {
    name: 'take_stores',
    group: 'stores',
    fields: [frames('take_stores', 1)],
    fresh: { take_stores: 1 },
  },
  {
    name: 'take_honey_leaving_kg',
    group: 'stores',
    fields: [number('take_honey_leaving_kg', 1, { quantity: 'stores', reach: 50 })],
    fresh: { take_honey_leaving_kg: 20 },
    caution: 'heavy',
  },
  {
    name: 'cage_queen',
    group: 'queen',
    fields: [number('cage_queen.days', 1, { unit: 'days', usual: 21 })],
    fresh: { cage_queen: { days: 21 } },
  },
  plain('release_queen', 'queen'),
  plain('remove_queen', 'queen'),
  {
    name: 'replace_queen',
    group: 'queen',
    fields: newQueen('replace_queen'),
    fresh: { replace_queen: { ...QUEEN } },
  },
  {
    name: 'give_queen',
    group: 'queen',
    fields: newQueen('give_queen'),
    fresh: { give_queen: { ...QUEEN } },
  },
  plain('give_queen_cell', 'queen'),
  plain('remove_queen_cells', 'queen'),
  plain('let_swarm', 'queen'),
  {
    name: 'split',
    group: 'bees',
    fields: [
      number('split.share', 0.05),
      choice('split.queen', QUEEN_GOES),
      yes('split.to_another_yard'),
      choice('split.in_their_place', COMBS),
    ],
    fresh: { split: { share: 0.5, queen: 'stays', to_another_yard: false, in_their_place: 'foundation' } },
  },
  {
    name: 'take_nuc',
    group: 'bees',
    fields: [
      frames('take_nuc.frames_of_brood', 1),
      frames('take_nuc.frames_of_stores', 1),
      frames('take_nuc.further_bees', 0.5),
      choice('take_nuc.queen', QUEEN_GOES),
      choice('take_nuc.in_their_place', COMBS),
    ],
    fresh: { take_nuc: { frames_of_brood: 2, frames_of_stores: 1, further_bees: 1, queen: 'stays', in_their_place: 'foundation' } },
  },
  {
    name: 'unite',
    group: 'bees',
    fields: [
      frames('unite.frames_of_bees', 0.5),
      frames('unite.frames_of_brood', 0.5),
      number('unite.honey_kg', 0.5, { quantity: 'stores' }),
      number('unite.pollen_kg', 0.1, { quantity: 'stores' }),
      choice('unite.box.size', SIZES),
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
    caution: 'uniting',
  },
  {
    name: 'shake_package',
    group: 'bees',
    fields: [number('shake_package.kilograms', 0.1, { quantity: 'stores' })],
    fresh: { shake_package: { kilograms: 1.3 } },
  },
  {
    name: 'give_brood',
    group: 'bees',
    fields: [frames('give_brood.frames', 1), yes('give_brood.with_bees')],
    fresh: { give_brood: { frames: 1, with_bees: false } },
    caution: 'fromHiveToHive',
  },
  {
    name: 'take_brood',
    group: 'bees',
    fields: [
      frames('take_brood.frames', 1),
      yes('take_brood.with_bees'),
      choice('take_brood.in_their_place', COMBS),
    ],
    fresh: { take_brood: { frames: 1, with_bees: false, in_their_place: 'foundation' } },
  },
  {
    name: 'give_bees',
    group: 'bees',
    fields: [frames('give_bees', 0.25)],
    fresh: { give_bees: 2 },
    caution: 'fromHiveToHive',
  },
  {
    name: 'take_bees',
    group: 'bees',
    fields: [frames('take_bees', 0.25)],
    fresh: { take_bees: 2 },
  },
  {
    name: 'treat',
    group: 'mites',
    fields: [
      // The options come with the table of treatments.
      choice('treat.with', []),
      number('treat.days', 1, { unit: 'days', usual: 42 }),
      number('treat.resistance', 0.05, { usual: 0.3 }),
    ],
    fresh: { treat: { with: 'oxalic-dribble' } },
    caution: 'acids',
  },
  plain('end_treatment', 'mites'),
  plain('wrap_for_winter', 'winter'),
  plain('unwrap', 'winter'),
];

const BY_NAME = new Map(ACTIONS.map((action) => [action.name, action]));

/** The action of a move; the first, where there is more than one by mistake. */
export function actionOf(move: Move): Action | undefined {
  return ACTIONS.find(({ name }) => move[name] != null);
}

export function actionNamed(name: ActionName): Action | undefined {
  return BY_NAME.get(name);
}
