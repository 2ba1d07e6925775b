/**
 * The worker that owns the model. It answers one question after the other.
 */
import init, { Explorer, catalogue, open, save } from './wasm/sim_wasm.js';
import schema from '../../scenarios/scenario.schema.json?raw';
import wasmUrl from './wasm/sim_wasm_bg.wasm?url';
import { type Answer, asProblem, type Question } from './protocol';

const scope = self as unknown as DedicatedWorkerGlobalScope;

function say(answer: Answer, transfer: Transferable[] = []): void {
  scope.postMessage(answer, transfer);
}

/** A failed start is a rejected promise, which no error event of the page would report. */
const explorerReady: Promise<Explorer | null> = init({ module_or_path: wasmUrl }).then(
  () => new Explorer(),
  (fault: unknown) => {
    say({ id: null, kind: 'fatal', message: `The model could not be loaded: ${asProblem(fault).message}` });
    return null;
  },
);

function answer(question: Question, explorer: Explorer): Answer {
  const { id } = question;
  switch (question.kind) {
    case 'catalogue':
      return { id, kind: 'catalogue', catalogue: catalogue(), schema };
    case 'open':
      return { id, kind: 'open', scenario: open(question.file) };
    case 'save':
      return { id, kind: 'save', text: save(JSON.stringify(question.scenario)) };
    case 'keepFile':
      explorer.keepFile(question.name, question.file);
      return { id, kind: 'keepFile' };
    case 'run': {
      const start = performance.now();
      const plan = explorer.run('plan', JSON.stringify(question.plan));
      let twin = null;
      let twinProblem = null;
      if (question.twin) {
        try {
          twin = explorer.run('twin', JSON.stringify(question.twin));
        } catch (fault) {
          if (fault instanceof WebAssembly.RuntimeError) throw fault;
          twinProblem = asProblem(fault);
        }
      }
      return { id, kind: 'run', plan, twin, twinProblem, ms: performance.now() - start };
    }
    case 'story':
      return { id, kind: 'story', story: explorer.story(question.which, question.date, question.units) };
    case 'cells':
      return { id, kind: 'cells', cells: explorer.cells(JSON.stringify(question.scenario), question.date) };
  }
}

scope.onmessage = async ({ data }: MessageEvent<Question>) => {
  const explorer = await explorerReady;
  if (!explorer) return;
  try {
    const reply = answer(data, explorer);
    const transfer: Transferable[] = [];
    if (reply.kind === 'run') {
      for (const outcome of [reply.plan, reply.twin]) {
        if (outcome) {
          transfer.push(outcome.values.buffer, outcome.brakes.buffer, outcome.origins.buffer);
        }
      }
    }
    if (reply.kind === 'cells') transfer.push(...reply.cells.frames.map(({ contents }) => contents.buffer));
    say(reply, transfer);
  } catch (fault) {
    if (fault instanceof WebAssembly.RuntimeError) {
      const words = (globalThis as { combcastPanic?: string }).combcastPanic;
      say({ id: null, kind: 'fatal', message: words ?? fault.message });
    } else {
      say({ id: data.id, kind: 'problem', problem: asProblem(fault) });
    }
  }
};
