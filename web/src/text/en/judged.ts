// How colonies spread, and where one stands: what is said of it on the first screen.

export const bands = {
  range: (low: string, high: string) => ` (${low} to ${high})`,
  /** Beside a plan's number that lies outside of the range of the others. */
  others: (low: string, high: string, mites: boolean, fewer: boolean) => ` (${fewer ? 'fewer' : 'more'} than most colonies like this one, ${mites ? 'with the mites that such colonies have' : 'which differ in queens, faults and luck'}: ${low} to ${high})`,
  othersLost: (mites: boolean) => ` (nearly all colonies like this one, ${mites ? 'with the mites that such colonies have' : 'which differ in queens, faults and luck'}, are lost by now)`,
  /** Of those that fit what was found; a number of the plan that lies outside is said to be its own. */
  fitting: (low: string, high: string, inside: boolean) => ` (${inside ? '' : 'in the plan; '}9 in 10 colonies that fit what was found: ${low} to ${high})`,
  fittingLost: ' (in the plan; nearly all colonies that fit what was found are lost by now)',
  fittingMeaning: 'The number is the plan’s, which knows of no visit. The range is that of the colonies that fit what was found at the visits; the verdict below says more of them.',
  title: (members: number) => `Of ${members} colonies like this one`,
  oneWeather: 'the same start and weather; they differ in what nobody knows of a colony, and by chance',
  plan: 'The plan is a colony with a good queen and no fault; these differ as colonies do, and some have a fault. So the plan is not their middle.',
  weathers: (runs: number) => `the same start, and ${runs} runs of weather for the days that are not of a record`,
  assumedMites: (mites: string) => `The plan does not say how many mites the colony starts with: about ${mites} on 100 bees are assumed, in some colonies far more. Set it under “Start” in the controls; 0 is none.`,
  when: 'When, in nine of ten',
  howOften: 'How often',
  between: (early: string, late: string) => (early === late ? early : `${early} to ${late}`),
  fromStart: (late: string | null) => (late === null ? 'from the start' : `from the start to ${late}`),
  inSome: (dates: string, of100: number) => `${dates}, in ${of100} of 100`,
  never: 'not in this season',
  ofMembers: (count: number, members: number) => `${count} of ${members}`,
  threshold: {
    young_bees: 'first young bees',
    as_at_start: 'as many bees as at the start again, after fewer',
    next_box: 'next box needed: eight tenths of the first one drawn',
    drones: 'drones flying',
    mites_2: '2 mites on 100 bees',
    mites_3: '3 mites on 100 bees',
  },
  risk: {
    swarm: 'a swarm leaves',
    hunger: 'a day without food enough',
    mites_3: '3 mites on 100 bees, or more',
    lost: 'the colony is lost',
    no_queen: 'alive on the last day, but without a laying queen',
  },
  meaning: (members: number) =>
    `Nine in ten of ${members} colonies with the same start and weather. The plan is a colony with a good queen and no fault; these differ, and some have a fault: it is not their middle.`,
};

export const standing = {
  inStepAtTop: 'In step with its weather',
  atTop: (words: string, after: string) => `What was found: ${words}, ${after}`,
  judging: 'What was found is being judged…',
  word: {
    ahead: 'Ahead',
    in_step: 'In step',
    behind: 'Behind',
    far_behind: 'Far behind',
    lost: 'No bee is left',
    at_odds: 'At odds with its plan',
    untold: 'How it stands cannot be told',
  },
  alarm: {
    queen_cells: 'queen cells were found',
    low_stores: 'hardly any stores were found',
    many_mites: 'mites are over the mark',
    many_fallen: 'too many mites fall',
    lost: 'the colony is lost',
    at_odds: 'plan and hive contradict each other',
  },
  alarmed: (words: string, alarm: string) => `${words}; ${alarm}`,
  byDays: (days: number) => `, by about ${days === 1 ? 'a day' : `${days} days`}`,
  daysRange: (from: number, to: number) => `(${from} to ${to})`,
  daysBehind: (from: number, to: number) => `(${from} to ${to} days behind)`,
  daysAhead: (from: number, to: number) => `(${from} to ${to} days ahead)`,
  /** Where hardly any colony fits what was found. */
  perhaps: (words: string) => `Perhaps ${words.charAt(0).toLowerCase()}${words.slice(1)}`,
  daysEitherSide: (behind: number, ahead: number) => `(${behind === 1 ? 'a day' : `${behind} days`} behind to ${ahead} ahead)`,
  after: (visits: number, date: string) => `after ${visits === 1 ? 'one visit' : `${visits} visits`}, on ${date}`,
};
