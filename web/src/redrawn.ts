/** How long it takes from a change of the plan until the page has been redrawn: a measured time of the browser's. */
import { tick } from 'svelte';

const REDRAWN = 'combcast: change to redrawn';
const CHANGE = 'combcast: change';

/** Something is being changed. */
export function markChange(): void {
  performance.mark(CHANGE);
}

/** The season that came of it is there: notes the time once the page shows it. */
export async function measureRedrawn(): Promise<void> {
  await tick();
  if (performance.getEntriesByName(CHANGE, 'mark').length === 0) return;
  performance.measure(REDRAWN, CHANGE);
  performance.clearMarks(CHANGE);
}
