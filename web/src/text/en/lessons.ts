/**
 * The lessons in English. Figures and dates come in from the seasons that are run; none is written here. What the
 * model shows is said of the model, never of bees at large.
 */
import type { LessonName } from '../../lessons/lessons';
import type { Weighed } from '../../units';

/** What the season of a lesson says of itself, in words already: dates, numbers with their unit, days out of days. */
export interface Told {
  first: string;
  start: string;
  end: string;
  last: string;
  firstYoung: string | null;
  back: string | null;
  doubled: string | null;
  /** Days that empty cells, pollen and warmth each held her back, of the days drawn. */
  cells: number;
  pollen: number;
  warmth: number;
  days: number;
}

interface Words {
  title: string;
  question: Weighed;
  amount: string;
  /** What is changed afterwards: completes “with …”. */
  change: Weighed;
  /** One more sentence that the season itself gives once it is seen. */
  told: (told: Told) => string;
  /** Why it comes so, for who has seen it. */
  why: string;
  /** For the teacher, beside it. */
  note: string;
  ask: readonly string[];
}

const words: Record<LessonName, Words> = {
  'the-dip': {
    title: 'The dip of the first weeks',
    question: (weight) => `A package of ${weight(1.36)} of bees goes onto foundation. How many are there, week by week?`,
    amount: 'bees',
    change: (weight) => `${weight(0.91)} of bees in place of ${weight(1.36)}`,
    told: ({ firstYoung, back }) =>
      firstYoung ? `The first young bees come out on ${firstYoung}${back ? `; as many as at the start are there again on ${back}` : ''}.` : '',
    why: 'A worker takes three weeks from egg to bee, and until the first ones come out the old bees only grow fewer. Then more come out each day than die, and the line turns.',
    note: 'A package that shrinks for some weeks is doing what it can do.',
    ask: [
      'What would have to be in the hive on the first day for the dip not to come?',
      'Which of the bees of the start are still alive when the first young ones come out?',
      'Why does the line not turn up on that very day?',
    ],
  },
  'rain-and-feed': {
    title: 'Rain, with and without feed',
    question: 'From the second week on it rains for three weeks, and the feeders are kept full. How many bees are there?',
    amount: 'bees',
    change: 'no feed at all',
    told: ({ pollen, warmth, days }) => `Want of pollen holds the queen back on ${pollen} of these ${days} days, cold on ${warmth}.`,
    why: 'Bees that cannot fly live on what is in the hive. Syrup keeps them fed, but it brings no pollen, and without pollen little brood is reared. Bees that stay at home also live longer: in the third and fourth week there are more of them than in a dry spring. The gap comes later, when the bees that were not reared are missing.',
    note: 'The season is a hard one: rain on every day of the three weeks, cool, and a package that brings no food of its own. A real spring has drier hours and a real package a little in its crops. So the second line shows what hunger can do, not what becomes of every package that nobody feeds.',
    ask: [
      'How many days do you think a package lasts without feed in such weather? Ask before the second line is shown.',
      'Syrup is not pollen. What does the feeder help with, and what not?',
      'What would you look for on a dry afternoon in the middle of the rain?',
    ],
  },
  'comb-is-the-brake': {
    title: 'Comb is the brake',
    question: (weight) => `A package of ${weight(1.36)} of bees was put into a box of five frames, and stays there. How many eggs does the queen lay on a day, from the fourth week on?`,
    amount: 'eggs a day',
    change: 'a second box of five frames on 11 June',
    told: ({ cells, days }) => `Empty cells run short and hold her back on ${cells} of these ${days} days.`,
    why: 'At first pollen and warmth set how much is laid. Once the few frames are full of brood, pollen and food, it is cells to lay in.',
    note: 'More room helps from the day on which room is what is short, and not before.',
    ask: [
      'On which day do the two lines part, and what was short until then?',
      'What else than brood fills the cells by then?',
      'What would a second box given in the first week have changed, when cells were not yet short?',
    ],
  },
  'late-then-fast': {
    title: 'Why growth starts late, then goes fast',
    question: 'How many bees are there, fortnight by fortnight, until high summer?',
    amount: 'bees',
    change: 'a nucleus with two frames of brood in place of the package',
    told: ({ back, doubled }) =>
      [back ? `As many as at the start are there again on ${back}` : '', doubled ? `twice as many on ${doubled}` : ''].filter(Boolean).join(', ') + (back || doubled ? '.' : ''),
    why: 'The old bees can rear only so much brood, and it takes three weeks. The young bees that come out of it rear more, until the queen lays all she can: then about as many come out each week, and the line goes up nearly straight.',
    note: 'Brood on the first day shortens the wait; how fast the line goes up afterwards is up to the queen.',
    ask: [
      'Where is the line steepest, and what is the queen’s share in it?',
      'Why does it bend again in high summer?',
      'Is the nucleus ahead because of its bees, its brood or its comb? How would you find out?',
    ],
  },
  'drone-frame': {
    title: 'The drone frame, on time and late',
    question: 'A drone frame is taken out while it is capped. How many mites are on 100 bees?',
    amount: 'mites on 100 bees',
    change: 'the frame taken out a week later',
    told: ({ first, start, last, end }) => `It goes from ${start} on ${first} to ${end} on ${last}.`,
    why: 'Mites go into drone brood more than into worker brood; a capped frame that is taken out takes them along.',
    note: 'Once the drones come out, the same frame has bred mites.',
    ask: [
      'Which day is the last on which the frame may still come out?',
      'Why is the difference small at first and large in autumn?',
      'One frame does not free a colony of mites. What else does the beekeeper need?',
    ],
  },
  'one-mite-in-april': {
    title: 'One mite on 100 bees in April',
    question: 'One mite on 100 bees in April, and nobody treats. How many by autumn?',
    amount: 'mites on 100 bees',
    change: 'strips of amitraz from 16 July',
    told: ({ start, doubled }) => (doubled ? `It begins at ${start}; that has doubled on ${doubled}.` : ''),
    why: 'Mites grow by a share each week while there is brood, and from August there are fewer bees to share them. The number on 100 bees rises for both reasons.',
    note: 'The strips are an example with its published effect in the model; the label and national rules say what is allowed where you are.',
    ask: [
      'When would it last have been easy?',
      'The mites double in about the same time all summer. Why does the line look so flat in May?',
      'What does a wash of half a cup of bees in June tell you, and what not?',
    ],
  },
  'winter-bees': {
    title: 'Winter bees are reared in late summer',
    question: 'The colony is treated in August. How many bees are there until spring?',
    amount: 'bees',
    change: 'the treatment in October',
    told: ({ first, start, last, end }) => `It goes from ${start} on ${first} to ${end} on ${last}.`,
    why: 'The bees that have to live until spring are reared in late summer. Few mites in those weeks mean bees that live until spring.',
    note: 'Mites that are killed in October have harmed them already: the two lines part before the late treatment begins, and stay apart until spring.',
    ask: [
      'In which month are the lines so far apart that a beekeeper would see it in the hive?',
      'What could have been seen in August, and how?',
      'Honey may be on the hive in August. What follows for the treatment?',
    ],
  },
  'in-step': {
    title: 'Is she in step?',
    question: 'One package of a delivery, with its own luck. How many bees has it, week by week?',
    amount: 'bees',
    change: (weight) => `a package that came light: ${weight(1.18)} of bees in place of ${weight(1.36)}`,
    told: () => '',
    why: 'Colonies that began alike differ by weight, queen and chance.',
    note: 'One is behind only when hardly any of the others have so few; a colony below the middle is no fault by itself.',
    ask: [
      'How far below the middle would you still call it chance?',
      'What would you count at the next visit to find out why a colony is behind?',
      'Twelve colonies are few. What would a hundred tell you more?',
    ],
  },
};

export const lessons = {
  intro: 'Draw what you think will happen, then see what the model makes of it, then change one thing.',
  all: '‹ All lessons',
  count: (at: number, all: number) => `Lesson ${at} of ${all}`,
  stages: ['Draw', 'See', 'Change one thing'],
  draw: 'Draw your line on the chart, with a finger or the mouse, to the last date.',
  drawKeys: 'With the keyboard: up and down set a point, left and right go from one to the next.',
  chart: (amount: string, start: string, from: string) => `Chart of ${amount}. It begins at ${start} on ${from}.`,
  points: (count: number) => `Your line: ${count} points`,
  unset: 'not drawn yet',
  see: 'See what the model has',
  first: (left: number) => (left === 1 ? 'One point is still to be drawn.' : `${left} points are still to be drawn.`),
  again: 'Draw again',
  yours: 'yours',
  model: 'the model',
  changed: 'changed',
  failed: 'The season could not be worked out.',
  waiting: 'Working it out…',
  amountOf: (value: string, amount: string) => `${value} ${amount}`,
  said: (date: string, drawn: string, came: string, off: string, way: 'fewer' | 'same' | 'more') =>
    way === 'same'
      ? `On ${date} you drew ${drawn} and the model has ${came}: about the same.`
      : `On ${date} you drew ${drawn} and the model has ${came}: yours is ${off} ${way === 'more' ? 'above' : 'below'} the model.`,
  gap: (off: string, way: 'fewer' | 'more') => `${off} ${way === 'more' ? 'above' : 'below'} the model`,
  mean: (mean: string) => `Over all the dates your line is ${mean} away on average.`,
  lowest: (yours: string, model: string) => `You drew the lowest point on ${yours}; the model has it on ${model}.`,
  lowestAlike: (model: string) => `The model’s lowest point is on ${model}, where you drew it.`,
  lowestNear: (yours: string, model: string) => `The model’s lowest point is on ${model}; yours, on ${yours}, is as near as the points stand.`,
  lowestNone: (model: string) => `Your line never falls below its start; the model’s lowest point is on ${model}.`,
  withChange: (change: string) => `With ${change}`,
  saidChanged: (date: string, before: string, after: string) => `In the model, under this weather, it is then ${after} on ${date}, in place of ${before}.`,
  saidNone: (date: string, before: string) =>
    `In the model, under these conditions, no bee is left on ${date}, in place of ${before}. A real colony may find a dry hour, or something in the combs, that the model does not give it.`,
  peers: (below: number, count: number) => `Of ${count} other packages of the same order, ${below} have fewer bees than this one that day.`,
  /** Where one stands among others: the answer to whether it is in step. */
  stands: { fewer: 'So it is behind: hardly any of them has so few.', same: 'So it is in step: some of them have fewer, and some have more.', more: 'So it is ahead: hardly any of them has so many.' },
  limits: (year: number, luck: boolean) =>
    `The model’s line is one colony under the recorded weather of ${year}, ${luck ? 'with one draw of luck' : 'as it would go on average'}: another year, another place or another queen give another line.`,
  table: 'The same in figures',
  date: 'Date',
  note: 'For the teacher',
  noteWarning: 'It gives the answer away.',
  askHeading: 'To ask the class',
  cautions: 'Cautions',
  next: (title: string) => `Next: ${title} ›`,
  print: 'Print the handout',
  printNote: 'Print the teacher’s page',
  paper: {
    handout: 'handout',
    note: 'teacher’s page',
    name: 'Name',
    day: 'Date',
    draw: (from: string, last: string) => `1. Draw your line from the point on ${from} to ${last}.`,
    why: '2. What made you draw it so?',
    see: (date: string, amount: string) => `3. When you have seen the model’s line, draw it in another colour. How many ${amount} on ${date}?`,
    mine: 'Mine',
    models: 'The model’s',
    change: (change: string) => `4. One thing is changed: ${change}. What do you think happens, and what does the model have?`,
    think: 'I think',
    learned: '5. What would you look for in a real hive to find out whether it is so?',
  },
  words,
};
