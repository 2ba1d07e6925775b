// The plans that come with the page.

export const plans = {
  /** What a shipped plan is called whose file gives it this name, also where it is one of several of the name; any other name as it is. */
  called: (name: string): string => name,
};

/** What the twin differs in; the plan that was kept is called otherwise. */
export const twin = {
  withoutFeed: 'without feed',
  withFeed: 'with feed',
  withoutRain: 'without the rain',
  withRain: 'with three wet weeks',
  kept: 'the plan kept',
  withoutMove: (move: string) => `without “${move}”`,
  ofHive: (name: string) => `in “${name}”`,
};
