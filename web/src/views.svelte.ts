/**
 * Which part of the page is shown: a word in the address, so that the way back works.
 */
export const VIEWS = ['hive', 'visit', 'yard', 'lessons', 'evidence'] as const;
export type View = (typeof VIEWS)[number];

function fromAddress(): View {
  const name = location.hash.match(/^#\/([a-z]+)/)?.[1];
  return VIEWS.find((view) => view === name) ?? 'hive';
}

let shown = $state<View>(fromAddress());
addEventListener('hashchange', () => {
  shown = fromAddress();
  scrollTo(0, 0);
});

/** The part that is shown. */
export const view = (): View => shown;

/** Shows another part. */
export function go(to: View): void {
  location.hash = to === 'hive' ? '#/' : `#/${to}`;
}
