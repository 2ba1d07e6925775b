/**
 * Die Lektionen auf Deutsch. Zahlen und Tage kommen aus den Saisons, die gerechnet werden; hier stehen nur die des Beginns.
 */
import type { LessonName } from '../../lessons/lessons';
import type { lessons as english } from '../en/lessons';
import type { Weight } from '../en/cautions';
import type { Told } from '../en/lessons';

const words: typeof english['words'] = {
  'the-dip': {
    title: 'Das Tal der ersten Wochen',
    question: (weight: Weight) => `Ein Kunstschwarm von ${weight(1.36)} kommt auf Mittelwände. Wie viele Bienen sind es, Woche für Woche?`,
    amount: 'Bienen',
    change: (weight: Weight) => `${weight(0.91)} Bienen statt ${weight(1.36)}`,
    told: ({ firstYoung, back }: Told) =>
      firstYoung ? `Die ersten jungen Bienen schlüpfen am ${firstYoung}${back ? `; so viele wie am Anfang sind es wieder am ${back}` : ''}.` : '',
    why: 'Eine Arbeiterin braucht drei Wochen vom Ei bis zur Biene, und bis die ersten schlüpfen, werden die alten nur weniger. Dann schlüpfen jeden Tag mehr, als sterben, und die Linie kehrt um.',
    note: 'Ein Kunstschwarm, der einige Wochen lang schrumpft, tut, was er kann.',
    ask: [
      'Was müsste am ersten Tag im Stock sein, damit das Tal nicht kommt?',
      'Welche der Bienen vom Anfang leben noch, wenn die ersten jungen schlüpfen?',
      'Warum steigt die Linie nicht schon an diesem Tag?',
    ],
  },
  'rain-and-feed': {
    title: 'Regen, mit und ohne Futter',
    question: 'Ab der zweiten Woche regnet es drei Wochen lang, und die Futtergeschirre sind immer voll. Wie viele Bienen sind es?',
    amount: 'Bienen',
    change: 'gar kein Futter',
    told: ({ pollen, warmth, days }: Told) => `Mangel an Pollen bremst die Königin an ${pollen} von diesen ${days} Tagen, Kälte an ${warmth}.`,
    why: 'Bienen, die nicht fliegen können, leben von dem, was im Stock ist. Sirup macht sie satt, bringt aber keinen Pollen, und ohne Pollen wird wenig Brut aufgezogen. Bienen, die daheim bleiben, leben auch länger: In der dritten und vierten Woche sind es mehr als in einem trockenen Frühling. Die Lücke kommt später, wenn die Bienen fehlen, die nicht aufgezogen wurden.',
    note: 'Die Saison ist hart: Regen an jedem Tag der drei Wochen, kühl, und ein Kunstschwarm, der kein eigenes Futter mitbringt. Ein wirklicher Frühling hat trockenere Stunden, und ein wirklicher Kunstschwarm ein wenig im Honigmagen. Die zweite Linie zeigt also, was Hunger kann, nicht, was aus jedem Kunstschwarm wird, den niemand füttert.',
    ask: [
      'Wie viele Tage hält ein Kunstschwarm bei solchem Wetter ohne Futter durch? Frag, bevor die zweite Linie gezeigt wird.',
      'Sirup ist kein Pollen. Wobei hilft das Füttern, und wobei nicht?',
      'Worauf würdest du an einem trockenen Nachmittag mitten im Regen schauen?',
    ],
  },
  'comb-is-the-brake': {
    title: 'Die Waben sind die Bremse',
    question: (weight: Weight) => `Ein Kunstschwarm von ${weight(1.36)} kam in einen Kasten mit fünf Rähmchen und bleibt darin. Wie viele Eier legt die Königin am Tag, von der vierten Woche an?`,
    amount: 'Eier am Tag',
    change: 'eine zweite Zarge mit fünf Rähmchen am 11. Juni',
    told: ({ cells, days }: Told) => `Leere Zellen werden knapp und bremsen sie an ${cells} von diesen ${days} Tagen.`,
    why: 'Anfangs bestimmen Pollen und Wärme, wie viel gelegt wird. Sobald die wenigen Rähmchen voll Brut, Pollen und Futter sind, sind es die Zellen zum Legen.',
    note: 'Mehr Raum hilft von dem Tag an, an dem Raum fehlt, und nicht vorher.',
    ask: [
      'An welchem Tag trennen sich die zwei Linien, und was war bis dahin knapp?',
      'Was außer Brut füllt bis dahin die Zellen?',
      'Was hätte eine zweite Zarge in der ersten Woche geändert, als Zellen noch nicht knapp waren?',
    ],
  },
  'late-then-fast': {
    title: 'Warum ein Volk spät wächst und dann schnell',
    question: 'Wie viele Bienen sind es, alle vierzehn Tage, bis in den Hochsommer?',
    amount: 'Bienen',
    change: 'ein Ableger mit zwei Brutwaben statt des Kunstschwarms',
    told: ({ back, doubled }: Told) =>
      [back ? `So viele wie am Anfang sind es wieder am ${back}` : '', doubled ? `doppelt so viele am ${doubled}` : ''].filter(Boolean).join(', ') + (back || doubled ? '.' : ''),
    why: 'Die alten Bienen können nur so viel Brut aufziehen, und das dauert drei Wochen. Die jungen, die daraus schlüpfen, ziehen mehr auf, bis die Königin legt, so viel sie kann: Dann schlüpfen jede Woche etwa gleich viele, und die Linie steigt fast gerade.',
    note: 'Brut am ersten Tag verkürzt das Warten; wie schnell die Linie danach steigt, ist Sache der Königin.',
    ask: [
      'Wo ist die Linie am steilsten, und welchen Anteil hat die Königin daran?',
      'Warum biegt sie sich im Hochsommer wieder?',
      'Ist der Ableger durch seine Bienen, seine Brut oder seine Waben voraus? Wie würdest du es herausfinden?',
    ],
  },
  'drone-frame': {
    title: 'Der Drohnenrahmen, rechtzeitig und zu spät',
    question: 'Ein Drohnenrahmen wird herausgenommen, solange er verdeckelt ist. Wie viele Milben sind auf 100 Bienen?',
    amount: 'Milben auf 100 Bienen',
    change: 'der Rahmen eine Woche später herausgenommen',
    told: ({ first, start, last, end }: Told) => `Es geht von ${start} am ${first} auf ${end} am ${last}.`,
    why: 'Milben gehen lieber in Drohnenbrut als in Arbeiterinnenbrut; ein verdeckelter Rahmen, der herauskommt, nimmt sie mit.',
    note: 'Sind die Drohnen geschlüpft, hat derselbe Rahmen Milben vermehrt.',
    ask: [
      'Welches ist der letzte Tag, an dem der Rahmen noch herauskommen darf?',
      'Warum ist der Unterschied anfangs klein und im Herbst groß?',
      'Ein Rahmen befreit kein Volk von Milben. Was braucht die Imkerin oder der Imker sonst noch?',
    ],
  },
  'one-mite-in-april': {
    title: 'Eine Milbe auf 100 Bienen im April',
    question: 'Eine Milbe auf 100 Bienen im April, und niemand behandelt. Wie viele sind es im Herbst?',
    amount: 'Milben auf 100 Bienen',
    change: 'Amitraz-Streifen ab dem 16. Juli',
    told: ({ start, doubled }: Told) => (doubled ? `Es beginnt bei ${start}; verdoppelt hat sich das am ${doubled}.` : ''),
    why: 'Milben wachsen jede Woche um einen Anteil, solange es Brut gibt, und ab August sind es weniger Bienen, auf die sie sich verteilen. Die Zahl auf 100 Bienen steigt aus beiden Gründen.',
    note: 'Die Streifen sind ein Beispiel mit ihrer veröffentlichten Wirkung im Modell; Etikett und Landesrecht sagen, was bei dir erlaubt ist.',
    ask: [
      'Wann wäre es zuletzt leicht gewesen?',
      'Die Milben verdoppeln sich den ganzen Sommer in etwa derselben Zeit. Warum sieht die Linie im Mai so flach aus?',
      'Was sagt dir eine Probe von 120 ml Bienen (etwa 300) im Juni, und was nicht?',
    ],
  },
  'winter-bees': {
    title: 'Winterbienen wachsen im Spätsommer heran',
    question: 'Das Volk wird im August behandelt. Wie viele Bienen sind es bis zum Frühling?',
    amount: 'Bienen',
    change: 'die Behandlung im Oktober',
    told: ({ first, start, last, end }: Told) => `Es geht von ${start} am ${first} auf ${end} am ${last}.`,
    why: 'Die Bienen, die bis zum Frühling leben müssen, wachsen im Spätsommer heran. Wenige Milben in diesen Wochen heißt: Bienen, die bis zum Frühling leben.',
    note: 'Milben, die man im Oktober tötet, haben ihnen schon geschadet: Die zwei Linien trennen sich, bevor die späte Behandlung beginnt, und bleiben bis zum Frühling getrennt.',
    ask: [
      'In welchem Monat liegen die Linien so weit auseinander, dass man es im Volk sehen würde?',
      'Was hätte man im August sehen können, und wie?',
      'Im August kann Honig auf dem Volk sein. Was folgt daraus für die Behandlung?',
    ],
  },
  'in-step': {
    title: 'Ist das Volk im Takt?',
    question: 'Ein Kunstschwarm einer Lieferung, mit eigenem Glück. Wie viele Bienen hat er, Woche für Woche?',
    amount: 'Bienen',
    change: (weight: Weight) => `ein Kunstschwarm, der leicht ankam: ${weight(1.18)} Bienen statt ${weight(1.36)}`,
    told: () => '',
    why: 'Völker, die gleich begannen, unterscheiden sich durch Gewicht, Königin und Zufall.',
    note: 'Zurück ist eines erst, wenn kaum ein anderes so wenige hat; ein Volk unter der Mitte ist für sich kein Fehler.',
    ask: [
      'Wie weit unter der Mitte würdest du es noch Zufall nennen?',
      'Was würdest du bei der nächsten Durchsicht zählen, um herauszufinden, warum ein Volk zurück ist?',
      'Zwölf Völker sind wenige. Was würden dir hundert mehr sagen?',
    ],
  },
} satisfies Record<LessonName, unknown>;

export const lessons: typeof english = {
  intro: 'Zeichne, was du erwartest, sieh, was das Modell daraus macht, und ändere dann eines.',
  all: '‹ Alle Lektionen',
  count: (at, all) => `Lektion ${at} von ${all}`,
  stages: ['Zeichnen', 'Sehen', 'Eines ändern'],
  draw: 'Zeichne deine Linie in das Bild, mit dem Finger oder der Maus, bis zum letzten Tag.',
  drawKeys: 'Mit der Tastatur: hinauf und hinunter setzen einen Punkt, links und rechts gehen von einem zum nächsten.',
  chart: (amount, start, from) => `Bild: ${amount}. Es beginnt bei ${start} am ${from}.`,
  points: (count) => `Deine Linie: ${count} Punkte`,
  unset: 'noch nicht gezeichnet',
  see: 'Sieh, was das Modell hat',
  first: (left) => (left === 1 ? 'Ein Punkt ist noch zu zeichnen.' : `${left} Punkte sind noch zu zeichnen.`),
  again: 'Neu zeichnen',
  yours: 'deine',
  model: 'das Modell',
  changed: 'geändert',
  failed: 'Die Saison ließ sich nicht rechnen.',
  waiting: 'Wird gerechnet …',
  amountOf: (value, amount) => `${value} ${amount}`,
  said: (date, drawn, came, off, way) =>
    way === 'same'
      ? `Am ${date} hast du ${drawn} gezeichnet, und das Modell hat ${came}: etwa gleich.`
      : `Am ${date} hast du ${drawn} gezeichnet, und das Modell hat ${came}: Du liegst ${off} ${way === 'more' ? 'über' : 'unter'} dem Modell.`,
  gap: (off, way) => `${off} ${way === 'more' ? 'über' : 'unter'} dem Modell`,
  mean: (mean) => `Über alle Tage liegt deine Linie im Mittel ${mean} daneben.`,
  lowest: (yours, model) => `Den tiefsten Punkt hast du am ${yours} gezeichnet; das Modell hat ihn am ${model}.`,
  lowestAlike: (model) => `Der tiefste Punkt des Modells ist am ${model}, wo du ihn gezeichnet hast.`,
  lowestNear: (yours, model) => `Der tiefste Punkt des Modells ist am ${model}; deiner, am ${yours}, ist so nah, wie die Punkte stehen.`,
  lowestNone: (model) => `Deine Linie fällt nie unter ihren Anfang; der tiefste Punkt des Modells ist am ${model}.`,
  withChange: (change) => `Geändert: ${change}`,
  saidChanged: (date, before, after) => `Im Modell sind es dann bei diesem Wetter am ${date} ${after} statt ${before}.`,
  saidNone: (date, before) =>
    `Im Modell ist unter diesen Bedingungen am ${date} keine Biene mehr da, statt ${before}. Ein wirkliches Volk findet vielleicht eine trockene Stunde oder etwas in den Waben, das das Modell ihm nicht gibt.`,
  peers: (below, count) => `Von ${count} anderen Kunstschwärmen derselben Lieferung haben an diesem Tag ${below} weniger Bienen als dieser.`,
  stands: { fewer: 'Er ist also zurück: Kaum einer von ihnen hat so wenige.', same: 'Er ist also im Takt: Einige von ihnen haben weniger, und einige haben mehr.', more: 'Er ist also voraus: Kaum einer von ihnen hat so viele.' },
  limits: (year, luck) =>
    `Die Linie des Modells ist ein Volk unter dem gemessenen Wetter von ${year}, ${luck ? 'mit einmal gezogenem Glück' : 'so, wie es im Mittel ginge'}: Ein anderes Jahr, ein anderer Ort oder eine andere Königin geben eine andere Linie.`,
  table: 'Dasselbe in Zahlen',
  date: 'Tag',
  note: 'Für die Lehrperson',
  noteWarning: 'Es verrät die Antwort.',
  askHeading: 'Fragen an die Klasse',
  cautions: 'Vorsicht',
  next: (title) => `Weiter: ${title} ›`,
  print: 'Das Blatt drucken',
  printNote: 'Die Seite der Lehrperson drucken',
  paper: {
    handout: 'Blatt',
    note: 'Seite der Lehrperson',
    name: 'Name',
    day: 'Datum',
    draw: (from, last) => `1. Zeichne deine Linie vom Punkt am ${from} bis ${last}.`,
    why: '2. Warum hast du sie so gezeichnet?',
    see: (date, amount) => `3. Wenn du die Linie des Modells gesehen hast, zeichne sie in einer anderen Farbe. Wie viele ${amount} am ${date}?`,
    mine: 'Meine',
    models: 'Das Modell',
    change: (change) => `4. Eines wird geändert: ${change}. Was, glaubst du, geschieht, und was hat das Modell?`,
    think: 'Ich glaube',
    learned: '5. Worauf würdest du in einem wirklichen Volk schauen, um herauszufinden, ob es so ist?',
  },
  words,
};
