/**
 * The rest of the model's module, which the first season and its story do without (`xtask/src/parts.rs`): fetched after
 * them, or at once by whoever calls something of it before it is here.
 */
import restUrl from './wasm/sim_wasm_rest.wasm?url';

/** The rest was called, and could not be brought: the call, and the model with it, ended in the middle. */
export class RestMissing extends Error {}

export class Rest {
  #first: WebAssembly.Exports;
  #coming: Promise<void> | null = null;

  /** `first`: what the first part exports. */
  constructor(first: WebAssembly.Exports) {
    this.#first = first;
    Object.assign(globalThis, { combcastBringRest: () => this.#bringNow() });
  }

  /** Fetches it, once; what has failed is tried again when it is asked for again. */
  brought(): Promise<void> {
    if (this.#isHere) return Promise.resolve();
    this.#coming ??= this.#fetched().catch((fault: unknown) => {
      this.#coming = null;
      throw fault;
    });
    return this.#coming;
  }

  async #fetched(): Promise<void> {
    const answer = await fetch(restUrl);
    if (!answer.ok) throw new Error(`${answer.status} ${answer.statusText}`);
    this.#link(await WebAssembly.compile(await answer.arrayBuffer()));
  }

  /** Called by the model in the middle of a call, which cannot wait in any other way. */
  #bringNow(): void {
    try {
      const request = new XMLHttpRequest();
      request.open('GET', restUrl, false);
      request.responseType = 'arraybuffer';
      request.send();
      if (request.status !== 200) throw new Error(`${request.status} ${request.statusText}`);
      this.#link(new WebAssembly.Module(request.response as ArrayBuffer));
    } catch (fault) {
      throw new RestMissing(fault instanceof Error ? fault.message : String(fault));
    }
  }

  /** The rest says so itself. */
  get #isHere(): boolean {
    return (this.#first.restIsHere as WebAssembly.Global<'i32'>).value !== 0;
  }

  /** It may have come both ways. */
  #link(rest: WebAssembly.Module): void {
    if (this.#isHere) return;
    new WebAssembly.Instance(rest, { first: this.#first as WebAssembly.ModuleImports });
  }
}
