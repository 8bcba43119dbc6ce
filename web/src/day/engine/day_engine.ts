// The engine of the day behind promises. It runs in workers (wasm/outbye_day.js), so the page never waits for it: one worker
// answers, and a second one, started when it is first asked for, plans the rest of the day, which takes longer. A worker that
// dies or falls silent is restarted, given the ride again, and asked once more what it was asked.
import type { DayAsked, DayCallName, DayCalls, DayEngine, DayOpened, DayReply, Outcome, Problem } from "./day_calls";

// Beside the page, or inside it where the page is a single file.
export type EngineParts = { script: string; wasm: string } | { scriptText: string; wasmBytes: ArrayBuffer };

export interface EngineWorker {
  postMessage(message: unknown): void;
  terminate(): void;
  onmessage: ((event: MessageEvent) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}
export interface EngineSurroundings {
  start(): EngineWorker; // throws where no worker can be had
  wasm: string | ArrayBuffer;
  after(ms: number, then: () => void): () => void; // gives what calls it off
}

export interface EngineWords {
  noWorker: string; // this browser runs no engine; the log is kept all the same
  died: (why: string) => string; // it was restarted and died again
  slow: string;
}

// Longest that a phone may take before its worker counts as dead.
const patience_ms: Record<DayCallName, number> = { open: 60_000, answer: 30_000, rest: 180_000 };
const tries = 2;

interface Asked {
  name: DayCallName;
  request: string;
  triesLeft: number;
  settle: (outcome: Outcome<unknown>) => void;
}
type Heard = { id?: number; reply?: string; died?: string };

function refused(kind: Problem["kind"], what: string): Outcome<never> {
  return { ok: false, problems: [{ kind, where: "engine", what }] };
}

function outcomeOf(reply: string): Outcome<unknown> {
  const value = JSON.parse(reply) as DayReply<object>;
  return "problem" in value ? { ok: false, problems: [value.problem] } : { ok: true, value };
}

// One worker and what it has been asked, one thing after the other.
class Seat {
  private worker: EngineWorker | undefined;
  private queue: Asked[] = []; // the first is with the worker, once it has the ride
  private waitsFor: number | undefined; // id of the message that is to come
  private opening = false; // that message is the ride, given again
  private lastId = 0;
  private callOff = (): void => {};

  constructor(
    private readonly around: EngineSurroundings,
    private readonly words: EngineWords,
    private readonly ride: () => string | undefined,
  ) {}

  ask(name: DayCallName, request: string): Promise<Outcome<unknown>> {
    return new Promise((settle) => {
      this.queue.push({ name, request, triesLeft: tries, settle });
      this.goOn();
    });
  }

  // `why`: said to whoever still waits.
  close(why: string): void {
    this.stop();
    for (const asked of this.queue.splice(0)) asked.settle(refused("cancelled", why));
  }

  private stop(): void {
    this.callOff();
    this.worker?.terminate();
    this.worker = undefined;
    this.waitsFor = undefined;
    this.opening = false;
  }

  private goOn(): void {
    const next = this.queue[0];
    if (next === undefined || this.waitsFor !== undefined) return;
    if (this.worker === undefined) {
      try {
        this.begin();
      } catch {
        this.queue.shift();
        next.settle(refused("away", this.words.noWorker));
        return this.goOn();
      }
      const ride = this.ride();
      if (ride !== undefined && next.name !== "open") {
        this.opening = true;
        return this.send("open", ride);
      }
    }
    next.triesLeft -= 1;
    this.send(next.name, next.request);
  }

  private begin(): void {
    const worker = this.around.start();
    this.worker = worker;
    worker.onmessage = ({ data }) => {
      if (worker === this.worker) this.hear(data as Heard);
    };
    worker.onerror = (event) => {
      if (worker === this.worker) this.hear({ died: event.message ?? "" }); // without a message when its script could not be had
    };
    worker.postMessage({ wasm: this.around.wasm });
  }

  private send(name: DayCallName, request: string): void {
    const id = ++this.lastId;
    this.waitsFor = id;
    this.callOff = this.around.after(patience_ms[name], () => this.hear({ died: this.words.slow }));
    this.worker!.postMessage({ id, name, request });
  }

  private hear(heard: Heard): void {
    if (heard.died === undefined && heard.id !== this.waitsFor) return;
    const wasOpening = this.opening;
    if (heard.died !== undefined) {
      this.stop();
      const asked = this.queue[0];
      if (asked === undefined) return; // started again when something is asked
      if (wasOpening) asked.triesLeft -= 1; // the ride itself may be what kills it
      if (asked.triesLeft <= 0) {
        this.queue.shift();
        asked.settle(refused("internal", this.words.died(heard.died)));
      }
      return this.goOn();
    }
    this.callOff();
    this.waitsFor = undefined;
    this.opening = false;
    if (!wasOpening) this.queue.shift()!.settle(outcomeOf(heard.reply!));
    this.goOn();
  }
}

export function dayEngineOn(around: EngineSurroundings, words: EngineWords): DayEngine {
  let ride: string | undefined; // the request that opens it
  const answers = new Seat(around, words, () => ride);
  let rests: Seat | undefined;
  const asked = (request: DayAsked) => JSON.stringify(request);
  return {
    async open(packed) {
      rests?.close(words.slow);
      rests = undefined;
      ride = undefined;
      const request = `{"packed":${packed}}`;
      const opened = (await answers.ask("open", request)) as Outcome<DayOpened>;
      if (opened.ok) ride = request;
      return opened;
    },
    answer: (request) => answers.ask("answer", asked(request)) as Promise<Outcome<DayCalls["answer"]["reply"]>>,
    rest(request) {
      rests ??= new Seat(around, words, () => ride);
      return rests.ask("rest", asked(request)) as Promise<Outcome<DayCalls["rest"]["reply"]>>;
    },
    close() {
      answers.close(words.slow);
      rests?.close(words.slow);
    },
  };
}

export function dayEngine(parts: EngineParts, words: EngineWords): DayEngine {
  const isInside = "scriptText" in parts;
  const script = isInside ? URL.createObjectURL(new Blob([parts.scriptText], { type: "text/javascript" })) : parts.script;
  return dayEngineOn(
    {
      start: () => new Worker(script),
      // A worker made from text has no address of its own that others could be relative to.
      wasm: isInside ? parts.wasmBytes : new URL(parts.wasm, document.baseURI).href,
      after(ms, then) {
        const timer = setTimeout(then, ms);
        return () => clearTimeout(timer);
      },
    },
    words,
  );
}

// Where the engine of this page is: single_file_ids names the elements that a single file has instead of files.
export function partsOf(document: Document, ids: { engine: string; wasm: string }): EngineParts {
  const scriptText = document.getElementById(ids.engine)?.textContent;
  const base64 = document.getElementById(ids.wasm)?.textContent?.trim();
  if (!scriptText || !base64) return { script: "outbye_day.js", wasm: "outbye_day.wasm" };
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return { scriptText, wasmBytes: bytes.buffer };
}
