/** The lessons in English. Figures come in from the seasons that are run; none is written here. */
interface Words {
  title: string;
  question: string;
  amount: string;
  change: string;
  note: string;
}

export const lessons = {
  link: 'Lessons',
  heading: 'Lessons',
  intro: 'Draw what you think will happen, then see what the model makes of it.',
  all: '‹ All lessons',
  draw: 'Draw your line on the chart, or set each point below it with the arrow keys.',
  chart: (amount: string, start: string, from: string) => `Chart of ${amount}. It begins at ${start} on ${from}.`,
  point: (date: string) => `Your line on ${date}`,
  see: 'See',
  first: 'Set every point first.',
  again: 'Draw again',
  yours: 'yours',
  model: 'model',
  changed: 'changed',
  now: 'Now change this:',
  failed: (why: string) => `The season could not be worked out. ${why}`,
  waiting: 'Working it out…',
  said: (date: string, drawn: string, came: string, off: string, way: 'fewer' | 'same' | 'more') =>
    way === 'same'
      ? `On ${date} you drew ${drawn} and the model has ${came}: about the same.`
      : `On ${date} you drew ${drawn} and the model has ${came}: yours is ${off} too ${way === 'more' ? 'high' : 'low'}.`,
  saidChanged: (date: string, before: string, after: string) => `On ${date} it is then ${after} in place of ${before}.`,
  peers: (below: number, count: number) => `Of ${count} other packages of the same order, ${below} have fewer bees than this one that day.`,
  note: 'For the teacher',
  write: 'What made you draw it so?',
  print: 'Print the handout',
  words: {
    'the-dip': { title: 'The three-week dip', question: 'Three pounds of bees go onto foundation. How many are there, week by week?', amount: 'bees', change: 'two pounds of bees in place of three', note: 'No bee hatches until three weeks after the first egg, and the old bees die meanwhile. A colony that shrinks in May is not failing. Ask what would have to be in the hive on the first day for the dip not to come.' },
    'rain-and-feed': { title: 'Rain, with and without feed', question: 'It rains for long after hiving, and the feeders are kept full. How many bees are there?', amount: 'bees', change: 'nobody feeds', note: 'Bees that cannot fly live on what is in the hive, and a package brings nothing. Ask how many days the class thinks it lasts before showing the second line.' },
    'comb-is-the-brake': { title: 'Comb is the brake', question: 'The package keeps a single box. How many eggs does the queen lay on a day?', amount: 'eggs a day', change: 'a second box on 4 June', note: 'Early on, cold and pollen hold her back; later it is empty cells. More room helps only while room is what is short. Ask for the day on which the two lines part.' },
    'late-then-fast': { title: 'Why growth starts late, then runs away', question: 'How many bees are there, fortnight by fortnight, until high summer?', amount: 'bees', change: 'a nucleus with two frames of brood in place of the package', note: 'Each bee that hatches helps to rear more, three weeks later. Most people draw a straight line. Ask what brood on the first day does to the wait.' },
    'drone-frame': { title: 'The drone frame, on time and late', question: 'A drone frame is taken out while it is capped. How many mites are on 100 bees?', amount: 'mites on 100 bees', change: 'the frame comes out a week later', note: 'Capped drone brood draws mites in; taken out, they go with it. Once the drones hatch, the frame has bred mites instead.' },
    'one-mite-in-april': { title: 'One mite in April', question: 'One mite on 100 bees in April, and nobody treats. How many by autumn?', amount: 'mites on 100 bees', change: 'strips go in on 16 July', note: 'Mites grow by a share each week, while bees grow fewer from August. Ask when it would last have been easy.' },
    'winter-bees': { title: 'August bees are winter bees', question: 'The colony is treated in August. How many bees are there until the next summer?', amount: 'bees', change: 'the treatment comes in October', note: 'The bees that must live until spring are reared in late summer. Mites that are killed in October have harmed them already.' },
    'in-step': { title: 'Is she in step?', question: 'One package of a delivery, with its own luck. How many bees has it, week by week?', amount: 'bees', change: 'a package that came light', note: 'Colonies that began alike differ by chance. A colony is behind only when hardly any of the others have so few.' },
  } as Record<string, Words>,
};
