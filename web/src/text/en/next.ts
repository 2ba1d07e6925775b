// What is to be done next.

export const next = {
  title: 'What next',
  invitation: 'A dated list for the coming weeks: what to do, what to look for, why, and in how many colonies like this one it is so.',
  ask: (date: string) => `List what to do from ${date}`,
  askAfter: (visits: number) => `List what to do after ${visits === 1 ? 'this visit' : `these ${visits} visits`}`,
  noneUsed: 'There is no list after visits of which none could be used: take them away, or change the plan.',
  again: 'Make the list again',
  old: 'The plan or the visits have changed since this list was made.',
  working: (lived: string) => `Living the coming weeks: ${lived} lives so far…`,
  stop: 'Stop',
  from: (hive: string, date: string) => (hive ? `${hive}, from ${date}` : `From ${date}`),
  footing: (members: string, visits: number) =>
    visits === 0
      ? `Read off ${members} colonies of the same start and weather; feed and moves of the plan go on as they are.`
      : `Read off ${members} colonies that fit ${visits === 1 ? 'the visit' : `the ${visits} visits`}; feed and moves of the plan go on as they are.`,
  between: (first: string, last: string) => `${first} to ${last}`,
  later: (date: string) => `Later, up to ${date}`,
  planned: 'as planned',
  asFound: 'as found',
  why: 'Why:',
  caution: 'Caution:',
  empty: 'Nothing to do in these weeks.',
  save: 'Save as a calendar file',
  print: 'Print the list',
  printWeek: 'Print the next week alone',
  upTo: (date: string) => `up to ${date}`,
  emptyUpTo: (date: string, first: string | undefined) => (first ? `Nothing to do up to ${date}; the first work is on ${first}.` : `Nothing to do up to ${date}.`),
  printed: (date: string) => `printed ${date}`,
  found: ['bees', 'brood', 'drawn', 'stores', 'eggs', 'queen', 'queen cells'],
  beware: 'Beware',
};
