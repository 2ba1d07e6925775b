/**
 * The worker that owns the model. It answers one question after the other.
 */
import init, { Explorer, catalogue, open, save, scenarioSchema } from './wasm/sim_wasm.js';
import wasmUrl from './wasm/sim_wasm_bg.wasm?url';
import { type Answer, asProblem, type Question, type Which } from './protocol';

const scope = self as unknown as DedicatedWorkerGlobalScope;
let record: Uint8Array | null = null;

function say(answer: Answer, transfer: Transferable[] = []): void {
  scope.postMessage(answer, transfer);
}

/** A failed start is a rejected promise, which no error event of the page would report. */
const explorers: Promise<Record<Which, Explorer> | null> = init({ module_or_path: wasmUrl }).then(
  () => ({ plan: new Explorer(), twin: new Explorer() }),
  (fault: unknown) => {
    say({ id: null, kind: 'fatal', message: `The model could not be loaded: ${asProblem(fault).message}` });
    return null;
  },
);

function answer(question: Question, explorer: Record<Which, Explorer>): Answer {
  const { id } = question;
  switch (question.kind) {
    case 'catalogue':
      return { id, kind: 'catalogue', catalogue: catalogue(), schema: scenarioSchema() };
    case 'open':
      return { id, kind: 'open', scenario: open(question.file) };
    case 'save':
      return { id, kind: 'save', text: save(JSON.stringify(question.scenario)) };
    case 'record':
      record = question.file;
      return { id, kind: 'record' };
    case 'run': {
      const start = performance.now();
      const plan = explorer.plan.run(JSON.stringify(question.plan), record);
      let twin = null;
      let twinProblem = null;
      if (question.twin) {
        try {
          twin = explorer.twin.run(JSON.stringify(question.twin), record);
        } catch (fault) {
          if (fault instanceof WebAssembly.RuntimeError) throw fault;
          twinProblem = asProblem(fault);
        }
      }
      return { id, kind: 'run', plan, twin, twinProblem, ms: performance.now() - start };
    }
    case 'story':
      return { id, kind: 'story', story: explorer[question.which].story(question.date, question.units) };
  }
}

scope.onmessage = async ({ data }: MessageEvent<Question>) => {
  const ready = await explorers;
  if (!ready) return;
  try {
    const reply = answer(data, ready);
    const transfer: Transferable[] = [];
    if (reply.kind === 'run') {
      for (const outcome of [reply.plan, reply.twin]) {
        if (outcome) {
          transfer.push(outcome.values.buffer, outcome.brakes.buffer, outcome.queen.buffer, outcome.origins.buffer);
        }
      }
    }
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
