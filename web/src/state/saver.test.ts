import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import type { Problem } from "../engine/calls";
import type { RideStore, Saved } from "../storage/ride_store";
import type { Unsent, UnsentStore } from "../storage/unsent";
import { Saver, type SaveState } from "./saver";

const ride = (name: string) => ({ version: 1, name }) as RideDocument;
const problem = (kind: Problem["kind"]): Saved => ({ ok: false, problems: [{ kind, where: "", what: kind }] });

// A server that answers what it is told to, else saves; and a browser that remembers.
function stage() {
  let revision = 1;
  const answers: (Saved | Promise<Saved>)[] = [];
  const sent: Parameters<RideStore["save"]>[1][] = [];
  const store = {
    save: async (_: string, what: Parameters<RideStore["save"]>[1]): Promise<Saved> => {
      sent.push(what);
      return answers.length > 0 ? answers.shift()! : { ok: true, revision: ++revision, changed_at: "now" };
    },
  };
  let kept: Unsent | undefined;
  let keeps = true;
  const unsent: UnsentStore = {
    keep: async (text) => (keeps && (kept = text), keeps),
    drop: async () => void (kept = undefined),
    takeLeft: async () => undefined,
  };
  const told: SaveState[] = [];
  const saver = new Saver("7", { revision: 1, ride: ride("base"), drafts: {} }, store, unsent, (state) => told.push(state));
  return {
    saver, sent, answers, told,
    state: () => told.at(-1)!,
    kept: () => kept,
    refuseToKeep: () => (keeps = false),
  };
}
const wait = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test("typing is sent once, after a pause, with the words of what was done", async () => {
  const { saver, sent, state } = stage();
  for (const name of ["a", "ab", "abc"]) {
    saver.want(ride(name), {}, "Name");
    await wait(100);
  }
  expect(sent).toHaveLength(0);
  await wait(300);
  expect(sent).toEqual([{ base_revision: 1, ride: ride("abc"), drafts: {}, label: "Name" }]);
  expect(state().kind).toBe("saved");
});
test("what is typed is in the browser before the server has it, and not after", async () => {
  const { saver, kept } = stage();
  saver.want(ride("a"), { start: "soo" }, "Name");
  await wait(1);
  expect(kept()).toMatchObject({ ride: ride("a"), drafts: { start: "soo" }, base_revision: 1, base: ride("base") });
  await wait(400);
  expect(kept()).toBeUndefined();
});
test("what is typed while the server answers is sent after it, on top of it", async () => {
  const { saver, sent, answers } = stage();
  let acknowledge = (_: Saved) => {};
  answers.push(new Promise((resolve) => (acknowledge = resolve)));
  saver.want(ride("a"), {}, "Name");
  await wait(300);
  saver.want(ride("b"), {}, "Name");
  await wait(300);
  expect(sent).toHaveLength(1);
  acknowledge({ ok: true, revision: 5, changed_at: "now" });
  await wait(10);
  expect(sent[1]).toMatchObject({ base_revision: 5, ride: ride("b") });
});
describe("while the server is away", () => {
  test("it is tried again by itself, less and less often, and nothing is lost", async () => {
    const { saver, sent, answers, state, kept } = stage();
    answers.push(problem("away"), problem("slow"), problem("internal"));
    saver.want(ride("a"), {}, "Name");
    await wait(300);
    expect(state().kind).toBe("away");
    expect(kept()?.ride).toEqual(ride("a"));
    await wait(1000 + 2000 + 4000);
    expect(sent).toHaveLength(4);
    expect(state().kind).toBe("saved");
  });
  test("and the browser keeps nothing either, that is said", async () => {
    const { saver, answers, state, refuseToKeep } = stage();
    refuseToKeep();
    answers.push(problem("away"));
    saver.want(ride("a"), {}, "Name");
    await wait(300);
    expect(state()).toMatchObject({ kind: "away", isKeptHere: false });
  });
});
test("a refusal is told with its problems, and sent again once there may be room", async () => {
  const { saver, answers, state, sent } = stage();
  answers.push(problem("storage"));
  saver.want(ride("a"), {}, "Name");
  await wait(300);
  expect(state()).toMatchObject({ kind: "refused", problems: [{ kind: "storage" }] });
  await wait(15_000);
  expect(sent).toHaveLength(2);
  expect(state().kind).toBe("saved");
});
describe("a conflict", () => {
  const there = { revision: 9, ride: ride("theirs"), drafts: {} };
  test("stops the sending, and what is typed on is kept in the browser", async () => {
    const { saver, answers, state, sent, kept } = stage();
    answers.push({ ok: false, conflict: there });
    saver.want(ride("mine"), {}, "Name");
    await wait(300);
    expect(state()).toMatchObject({ kind: "conflict", conflict: there });
    saver.want(ride("mine too"), {}, "Name");
    await wait(60_000);
    expect(sent).toHaveLength(1);
    expect(kept()?.ride).toEqual(ride("mine too"));
  });
  test("that is settled saves on top of what is there", async () => {
    const { saver, answers, state, sent } = stage();
    answers.push({ ok: false, conflict: there });
    saver.want(ride("mine"), {}, "Name");
    await wait(300);
    saver.settle(there, ride("both"), {}, "Settled");
    await wait(300);
    expect(sent[1]).toMatchObject({ base_revision: 9, ride: ride("both") });
    expect(state().kind).toBe("saved");
    expect(state().conflict).toBeUndefined();
  });
});
test("flush sends at once what waits for a pause", async () => {
  const { saver, sent } = stage();
  saver.want(ride("a"), {}, "Name");
  await saver.flush();
  expect(sent).toHaveLength(1);
});
test("a label is made of the last things that were done", async () => {
  const { saver, sent } = stage();
  for (const words of ["One", "Two", "Two", "Three", "Four"]) saver.want(ride(words), {}, words);
  await wait(300);
  expect(sent[0]!.label).toBe("Two; Three; Four");
});
