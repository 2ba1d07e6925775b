/**
 * The worker that owns the model. It answers one question after the other.
 */
import init, { Explorer, catalogue, open, openVisits, save, saveVisits } from './wasm/sim_wasm.js';
import wasmUrl from './wasm/sim_wasm_bg.wasm?url';
import { type Answer, asProblem, type Kind, type Question } from './protocol';
import { Rest, RestMissing } from './rest';

const scope = self as unknown as DedicatedWorkerGlobalScope;

function say(answer: Answer, transfer: Transferable[] = []): void {
  scope.postMessage(answer, transfer);
}

/** Whether a question can be answered before the rest of the module is here: what a first visit asks until its season stands. */
function isAtFirst(question: Question): boolean {
  switch (question.kind) {
    case 'catalogue':
    case 'keepFile':
    case 'story':
      return true;
    case 'run':
    case 'cells':
      return question.first;
    default:
      return false;
  }
}

/** When one of these is answered the page draws; the rest is fetched after that, ms. */
const LAST_OF_FIRST: ReadonlySet<Kind> = new Set<Kind>(['story', 'cells']);
const REST_AFTER_MS = 500;

/** A failed start is a rejected promise, which no error event of the page would report. */
const modelReady: Promise<{ explorer: Explorer; rest: Rest } | null> = init({ module_or_path: wasmUrl }).then(
  (exported) => ({ rest: new Rest(exported as unknown as WebAssembly.Exports), explorer: new Explorer() }),
  (fault: unknown) => {
    say({ id: null, kind: 'fatal', message: asProblem(fault).message, unloaded: true });
    return null;
  },
);

function answer(question: Question, explorer: Explorer): Answer {
  const { id } = question;
  explorer.speak(question.language);
  switch (question.kind) {
    case 'catalogue':
      return { id, kind: 'catalogue', catalogue: catalogue(question.language) };
    case 'open':
      return { id, kind: 'open', scenario: open(question.file) };
    case 'save':
      return { id, kind: 'save', text: save(JSON.stringify(question.scenario)) };
    case 'keepFile':
      explorer.keepFile(question.name, question.file);
      return { id, kind: 'keepFile' };
    case 'run': {
      const start = performance.now();
      const plan = explorer.run('plan', JSON.stringify(question.plan), question.units);
      let twin = null;
      let twinProblem = null;
      if (question.twin) {
        try {
          twin = explorer.run('twin', JSON.stringify(question.twin), question.units);
        } catch (fault) {
          if (isEnd(fault)) throw fault;
          twinProblem = asProblem(fault);
        }
      }
      const story = question.date && explorer.story('plan', question.date, question.units);
      return { id, kind: 'run', plan, twin, twinProblem, story: story || null, ms: performance.now() - start };
    }
    case 'compare':
      return { id, kind: 'compare', trial: explorer.compare(JSON.stringify(question.plan), JSON.stringify(question.twin), question.members) };
    case 'trialOn':
      return { id, kind: 'trialOn', day: explorer.trialOn(question.date, question.plan, question.twin, question.units) };
    case 'window':
      return { id, kind: 'window', frame: explorer.window(JSON.stringify(question.scenario), question.date ?? undefined, question.members) };
    case 'share': {
      const { scenario, every, from, to } = question;
      return { id, kind: 'share', numbers: explorer.share(JSON.stringify(scenario), every, from, to) };
    }
    case 'bands':
      return { id, kind: 'bands', bands: explorer.bands(JSON.stringify(question.scenario), question.every, question.shares) };
    case 'openVisits':
      return { id, kind: 'openVisits', books: openVisits(question.file, question.name) };
    case 'saveVisits':
      return { id, kind: 'saveVisits', text: saveVisits(JSON.stringify(question.book)) };
    case 'verdict': {
      const { scenario, book, today, members } = question;
      const tell = (done: number) => say({ id, kind: 'progress', done });
      const verdict = explorer.verdict(JSON.stringify(scenario), JSON.stringify(book), today ?? undefined, members, tell);
      return { id, kind: 'verdict', verdict };
    }
    case 'next': {
      const { scenario, book, on, today, members } = question;
      const tell = (done: number) => say({ id, kind: 'progress', done });
      const list = explorer.whatNext(JSON.stringify(scenario), JSON.stringify(book), on ?? undefined, today, members, tell);
      return { id, kind: 'next', list };
    }
    case 'search': {
      const { scenario, book, wishes, on, today, members } = question;
      const end = performance.now() + question.time;
      const more = () => performance.now() < end;
      const soFar = explorer.search(JSON.stringify(scenario), JSON.stringify(book), JSON.stringify(wishes), on ?? undefined, today, members, more);
      return { id, kind: 'search', soFar };
    }
    case 'story':
      return { id, kind: 'story', story: explorer.story(question.which, question.date, question.units) };
    case 'cells':
      return { id, kind: 'cells', cells: explorer.cells(JSON.stringify(question.scenario), question.date) };
  }
}

/** Whether the model is gone after this fault, its state being torn. */
const isEnd = (fault: unknown) => fault instanceof WebAssembly.RuntimeError || fault instanceof RestMissing;

/** Whether the rest of the module is on its way or here. */
let restWanted = false;

scope.onmessage = async ({ data }: MessageEvent<Question>) => {
  const model = await modelReady;
  if (!model) return;
  const { explorer, rest } = model;
  if (!isAtFirst(data)) {
    restWanted = true;
    try {
      await rest.brought();
    } catch (fault) {
      say({ id: data.id, kind: 'unloaded', message: asProblem(fault).message });
      return;
    }
  }
  try {
    const reply = answer(data, explorer);
    const transfer: Transferable[] = [];
    if (reply.kind === 'run') {
      for (const outcome of [reply.plan, reply.twin]) {
        if (outcome) {
          const { values, washLow, washHigh, brakes, origins, queens } = outcome;
          for (const array of [values, washLow, washHigh, brakes, origins, queens]) transfer.push(array.buffer);
        }
      }
    }
    if (reply.kind === 'share') transfer.push(reply.numbers.buffer);
    if (reply.kind === 'cells') transfer.push(...reply.cells.frames.map(({ contents }) => contents.buffer));
    say(reply, transfer);
    if (!restWanted && LAST_OF_FIRST.has(data.kind)) {
      restWanted = true;
      // Whoever needs it asks again, and says what is wrong.
      setTimeout(() => rest.brought().catch(() => {}), REST_AFTER_MS);
    }
  } catch (fault) {
    if (fault instanceof RestMissing) {
      say({ id: null, kind: 'fatal', message: fault.message, unloaded: true });
    } else if (fault instanceof WebAssembly.RuntimeError) {
      const words = (globalThis as { combcastPanic?: string }).combcastPanic;
      say({ id: null, kind: 'fatal', message: words ?? fault.message });
    } else {
      say({ id: data.id, kind: 'problem', problem: asProblem(fault) });
    }
  }
};
