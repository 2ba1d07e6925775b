// The plans that come with the page.

export const plans = {
  /** What a shipped plan is called whose file gives it this name, also where it is one of several of the name; any other name as it is. */
  called: (name: string): string => name,
};
