// An answer of the engine that follows the ride: asked again when the ride changes, the last one kept while the next is on
// its way. One request is out at a time. A newer wish waits for it if it is young, so that dragging shows every answer it can,
// and cancels it if it has been out for long.
import type { EngineCalls, Outcome, Problem } from "../engine/calls";

const young_ms = 300;

export class Following<K extends keyof EngineCalls> {
  value = $state.raw<EngineCalls[K]["reply"]>();
  problems = $state.raw<Problem[]>([]);
  isWorking = $state(false);

  #out: { controller: AbortController; since: number } | undefined;
  #next: EngineCalls[K]["request"] | undefined;
  #wait: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly ask: (request: EngineCalls[K]["request"], signal: AbortSignal) => Promise<Outcome<EngineCalls[K]["reply"]>>,
    private readonly now: () => number,
    private readonly told: (outcome: Outcome<EngineCalls[K]["reply"]>, request: EngineCalls[K]["request"]) => void = () => {},
  ) {}

  want(request: EngineCalls[K]["request"]): void {
    this.#next = request;
    if (!this.#out) return void this.#send();
    clearTimeout(this.#wait);
    const { controller, since } = this.#out;
    this.#wait = setTimeout(() => controller.abort(), Math.max(0, young_ms - (this.now() - since)));
  }

  clear(): void {
    this.stop();
    this.value = undefined;
    this.problems = [];
  }

  stop(): void {
    this.#next = undefined;
    clearTimeout(this.#wait);
    this.#out?.controller.abort();
  }

  async #send(): Promise<void> {
    const request = this.#next;
    if (request === undefined) return;
    this.#next = undefined;
    const controller = new AbortController();
    this.#out = { controller, since: this.now() };
    this.isWorking = true;
    const outcome = await this.ask(request, controller.signal);
    clearTimeout(this.#wait);
    this.#out = undefined;
    if (outcome.ok) {
      this.value = outcome.value;
      this.problems = [];
      this.told(outcome, request);
    } else if (!controller.signal.aborted) {
      this.problems = outcome.problems;
      this.told(outcome, request);
    }
    if (this.#next !== undefined) return this.#send();
    this.isWorking = false;
  }
}
