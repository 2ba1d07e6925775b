/** What a plan's twin comes to on a day, beside the plan: whatever differs by as much as can be seen on a visit. */
import type { SeasonView } from './season';
import { text } from './text/index.svelte';
import { beeCount, figure, shown, type UnitSystem, unitOf } from './units';
import { halves } from './words';

/** From which differences on they are told: bees, frames, kg of stores, mites on 100 bees. */
const TOLD = { bees: 50, frames: 0.25, stores: 0.25, mites: 0.1 };

/** The differences in words, twin less plan; none: nothing differs that could be seen. */
export function differences(plan: SeasonView, twin: SeasonView, day: number, units: UnitSystem): string[] {
  const say = text().page;
  const more = (...columns: string[]) => columns.reduce((sum, column) => sum + twin.at(column, day) - plan.at(column, day), 0);
  const parts: string[] = [];
  const tell = (by: number, from: number, words: (by: number) => string) => {
    if (Math.abs(by) >= from) parts.push(words(by));
  };
  tell(more('adult_bees'), TOLD.bees, (by) => (by > 0 ? say.moreBees : say.fewerBees)(beeCount(Math.abs(by))));
  tell(more('frames_of_brood'), TOLD.frames, (by) => (by > 0 ? say.moreBrood : say.lessBrood)(halves(Math.abs(by))));
  tell(more('drawn_frames'), TOLD.frames, (by) => (by > 0 ? say.moreFrames : say.fewerFrames)(halves(Math.abs(by))));
  tell(more('honey_kg', 'unripe_kg'), TOLD.stores, (by) => {
    const weight = `${figure(shown(Math.abs(by), 'stores', units), 1)} ${unitOf('stores', units).label}`;
    return (by > 0 ? say.moreStores : say.lessStores)(weight);
  });
  tell(more('mites_per_100_bees'), TOLD.mites, (by) => (by > 0 ? say.moreMites : say.fewerMites)(figure(Math.abs(by), 1)));
  return parts;
}
