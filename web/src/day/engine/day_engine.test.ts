import { expect, test } from "vitest";
import type { DayAsked } from "./day_calls";
import { dayEngineOn, type EngineSurroundings, type EngineWorker } from "./day_engine";

const words = { noWorker: "no worker", died: (why: string) => `died: ${why}`, slow: "slow" };
const noon: DayAsked = { log: [], now: "2026-06-13T12:00:00Z" };

interface Message {
  wasm?: unknown;
  id?: number;
  name?: string;
  request?: string;
}

// A worker that answers what it was asked as soon as a promise may, or as `does` says.
type Does = (message: Message, worker: FakeWorker) => unknown;
class FakeWorker implements EngineWorker {
  onmessage: ((event: MessageEvent) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  heard: Message[] = [];
  isEnded = false;
  constructor(private readonly does: Does) {}
  postMessage(message: Message): void {
    this.heard.push(message);
    if (message.id === undefined) return;
    queueMicrotask(() => {
      const said = this.isEnded ? undefined : this.does(message, this);
      if (said !== undefined) this.onmessage?.({ data: said } as MessageEvent);
    });
  }
  terminate(): void {
    this.isEnded = true;
  }
}

const answers: Does = ({ id, name }) => ({ id, reply: JSON.stringify({ said: name }) });
const dies: Does = () => ({ died: "out of memory" });
const isSilent: Does = () => undefined;

// Workers that do, one after the other, what is listed; those after the last do as the last.
function engineOf(...does: Does[]) {
  const workers: FakeWorker[] = [];
  const timers = new Set<() => void>();
  const around: EngineSurroundings = {
    start() {
      const worker = new FakeWorker(does[Math.min(workers.length, does.length - 1)]!);
      workers.push(worker);
      return worker;
    },
    wasm: "outbye_day.wasm",
    after(_ms, then) {
      timers.add(then);
      return () => timers.delete(then);
    },
  };
  return { engine: dayEngineOn(around, words), workers, timers };
}
const asked = (worker: FakeWorker) => worker.heard.filter((m) => m.id !== undefined).map((m) => m.name);
const turns = async (n = 20) => {
  for (let i = 0; i < n; i++) await Promise.resolve();
};
// Dies at the first `answer` it is asked.
const diesAtAnswer: Does = (message, worker) => (message.name === "answer" ? dies(message, worker) : answers(message, worker));

test("a worker gets the engine first and then the ride, as it was packed", async () => {
  const { engine, workers } = engineOf(answers);
  const opened = await engine.open('{"format": "x"}');
  expect(opened).toEqual({ ok: true, value: { said: "open" } });
  expect(workers[0]!.heard[0]).toEqual({ wasm: "outbye_day.wasm" });
  expect(JSON.parse(workers[0]!.heard[1]!.request!)).toEqual({ packed: { format: "x" } });
});

test("a worker that dies is replaced by one that has the ride, and what was asked is answered", async () => {
  const { engine, workers } = engineOf(diesAtAnswer, answers);
  await engine.open("{}");
  expect(await engine.answer(noon)).toEqual({ ok: true, value: { said: "answer" } });
  expect(workers).toHaveLength(2);
  expect(workers[0]!.isEnded).toBe(true);
  expect(asked(workers[1]!)).toEqual(["open", "answer"]);
  expect(workers[1]!.heard[1]!.request).toBe(workers[0]!.heard[1]!.request);
});

test("what waits behind a call that kills the worker is answered by the next worker", async () => {
  const { engine } = engineOf(diesAtAnswer, answers);
  await engine.open("{}");
  const all = await Promise.all([engine.answer(noon), engine.answer(noon), engine.answer(noon)]);
  expect(all.map((one) => one.ok)).toEqual([true, true, true]);
});

test("a call that kills two workers is given up with why, and the engine goes on with others", async () => {
  const { engine, workers } = engineOf(diesAtAnswer, diesAtAnswer, answers);
  await engine.open("{}");
  expect(await engine.answer(noon)).toEqual({
    ok: false,
    problems: [{ kind: "internal", where: "engine", what: "died: out of memory" }],
  });
  expect((await engine.answer(noon)).ok).toBe(true);
  expect(workers).toHaveLength(3);
});

test("a ride that kills every worker is given up, too", async () => {
  const { engine, workers } = engineOf(dies);
  expect((await engine.open("{}")).ok).toBe(false);
  expect(workers).toHaveLength(2);
});

test("a worker whose death is noticed between calls is replaced at the next", async () => {
  const { engine, workers } = engineOf(answers);
  await engine.open("{}");
  workers[0]!.onerror?.({ message: "killed" } as ErrorEvent);
  expect((await engine.answer(noon)).ok).toBe(true);
  expect(asked(workers[1]!)).toEqual(["open", "answer"]);
});

test("a worker that falls silent is replaced", async () => {
  const silentAtAnswer: Does = (m, w) => (m.name === "answer" ? isSilent(m, w) : answers(m, w));
  const { engine, workers, timers } = engineOf(silentAtAnswer, answers);
  await engine.open("{}");
  const answer = engine.answer(noon);
  await turns();
  expect(timers.size).toBe(1);
  for (const fire of [...timers]) fire();
  expect((await answer).ok).toBe(true);
  expect(workers).toHaveLength(2);
});

test("what a worker says after it was given up is not taken for an answer", async () => {
  const silentAtAnswer: Does = (m, w) => (m.name === "answer" ? isSilent(m, w) : answers(m, w));
  const { engine, workers, timers } = engineOf(silentAtAnswer, answers);
  await engine.open("{}");
  const answer = engine.answer(noon);
  await turns();
  for (const fire of [...timers]) fire();
  workers[0]!.onmessage?.({ data: { id: 2, reply: '{"said":"late"}' } } as MessageEvent);
  expect(await answer).toEqual({ ok: true, value: { said: "answer" } });
});

test("the rest of the day is planned by a worker of its own, so that answers do not wait for it", async () => {
  const silentAtRest: Does = (m, w) => (m.name === "rest" ? isSilent(m, w) : answers(m, w));
  const { engine, workers } = engineOf(silentAtRest);
  await engine.open("{}");
  void engine.rest(noon);
  expect((await engine.answer(noon)).ok).toBe(true);
  expect(workers).toHaveLength(2);
  expect(asked(workers[1]!)).toEqual(["open", "rest"]);
});

test("a problem that the engine names is passed on", async () => {
  const problem = { kind: "bad_input", where: "now", what: "is missing" };
  const { engine } = engineOf(({ id }) => ({ id, reply: JSON.stringify({ problem }) }));
  expect(await engine.answer(noon)).toEqual({ ok: false, problems: [problem] });
});

test("where no worker can be had, every call says so", async () => {
  const none = { start: () => { throw new Error("refused"); }, wasm: "", after: () => () => {} };
  const engine = dayEngineOn(none, words);
  expect(await engine.answer(noon)).toEqual({ ok: false, problems: [{ kind: "away", where: "engine", what: "no worker" }] });
});

test("closing settles what still waits", async () => {
  const { engine, workers } = engineOf(isSilent);
  const opened = engine.open("{}");
  await turns();
  engine.close();
  expect((await opened).ok).toBe(false);
  expect(workers[0]!.isEnded).toBe(true);
});
