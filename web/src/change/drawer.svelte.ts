/** Opening and closing the controls: the keyboard goes in with them, and back to the button that opened them. */
import { tick } from 'svelte';
import type { Session } from '../session.svelte';

export class Drawer {
  /** The heading of the controls, where the keyboard goes in. */
  heading = $state.raw<HTMLElement>();

  #session: Session;
  /** The button that opened the controls. */
  #opener: HTMLElement | null = null;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Whether the controls stand open. */
  get open(): boolean {
    return this.#session.changing;
  }

  /** `event`: that of the button. */
  async toggle(event: Event): Promise<void> {
    this.#session.changing = !this.open;
    if (!this.open) return;
    this.#opener = event.currentTarget as HTMLElement;
    await tick();
    this.heading?.focus({ preventScroll: true });
  }

  close(): void {
    this.#session.changing = false;
    this.#opener?.focus({ preventScroll: true });
    this.#opener = null;
  }
}
