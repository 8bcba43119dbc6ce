import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import type { Call, Outcome } from "../engine/calls";
import type { RideStore, StoredRide } from "../storage/ride_store";
import type { Unsent } from "../storage/unsent";
import { draftOfAnswers } from "./first_answers";
import { Preferences } from "./preferences.svelte";
import { RideState } from "./ride_state.svelte";
import type { Services } from "./services";

const ride: RideDocument = {
  version: 1,
  name: "Moor",
  start: "2026-06-13T07:00",
  time_zone: "Europe/London",
  files: { course: ["course.gpx"] },
  loops: [{ name: "Red", speed_kmh: 12 }, { name: "Blue" }],
};
const stored: StoredRide = { id: "7", revision: 4, changed_at: "", ride, drafts: {}, files: [] };

function stage(from: Partial<StoredRide> = {}, left?: Unsent) {
  let now = 0;
  let heard = (_: string, __: number) => {};
  const asked: { name: string; request: { ride?: RideDocument; before?: RideDocument } }[] = [];
  const there = { ...stored, ...from };
  const saved: RideDocument[] = [];
  let isConflict = false;
  const call = (async (name: string, request: object) => {
    asked.push({ name, request });
    return { ok: true, value: { plan: { course: {} }, of: (request as { ride?: RideDocument }).ride?.name } } as unknown as Outcome<never>;
  }) as unknown as Call;
  const store = {
    ride: async () => ({ ok: true, value: there }),
    map: async () => ({ ok: true, value: { state: "none" } }),
    tasksOf: async () => ({ ok: true, value: [] }),
    save: async (_: string, what: { ride: RideDocument; base_revision: number }) => {
      if (isConflict || what.base_revision !== there.revision) return { ok: false, conflict: { revision: there.revision, ride: there.ride, drafts: {} } };
      saved.push(what.ride);
      there.ride = what.ride;
      return { ok: true, revision: ++there.revision, changed_at: "" };
    },
  } as unknown as RideStore;
  const services: Services = {
    call,
    store,
    unsent: { keep: async () => true, drop: async () => {}, takeLeft: async () => left },
    now: () => now,
    tellTabs: () => {},
    hearTabs: (listen) => ((heard = listen), () => {}),
  };
  const preferences = new Preferences(undefined, "en-GB", "Europe/London");
  return {
    open: async () => {
      const opened = await RideState.open("7", services, preferences);
      if (!opened.ok) throw new Error("not opened");
      return opened.value;
    },
    asked, saved, there,
    pass: (ms: number) => void (now += ms),
    hear: (revision: number) => heard("7", revision),
    makeConflict: () => void (isConflict = true),
  };
}
const wait = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe("an edit", () => {
  test("changes the document, is saved, and asks for the plan with what it was before", async () => {
    const { open, asked, saved } = stage();
    const state = await open();
    await wait();
    state.edit("loops[0].speed_kmh", 13, "Speed, Red");
    await wait(400);
    expect(state.document.loops?.[0]?.speed_kmh).toBe(13);
    expect(saved.at(-1)?.loops?.[0]?.speed_kmh).toBe(13);
    const plan = asked.filter(({ name }) => name === "planRide").at(-1)!.request;
    expect(plan.ride?.loops?.[0]?.speed_kmh).toBe(13);
    expect(plan.before?.loops?.[0]?.speed_kmh).toBe(12);
  });
  test("that changes nothing is no step", async () => {
    const state = await stage().open();
    state.edit("name", "Moor", "Name");
    expect(state.canUndo).toBeUndefined();
  });
  test("can be undone and redone by its words", async () => {
    const state = await stage().open();
    state.edit("name", "Fell", "Name");
    expect(state.canUndo).toBe("Name");
    state.undo();
    expect(state.name).toBe("Moor");
    expect(state.canRedo).toBe("Name");
    state.redo();
    expect(state.name).toBe("Fell");
  });
  test("dragged along is one step, whose changes are since before the drag", async () => {
    const { open, asked, pass } = stage();
    const state = await open();
    await wait();
    for (const speed of [12.1, 12.2, 12.3]) {
      state.edit("loops[0].speed_kmh", speed, "Speed, Red");
      pass(50);
      await wait(50);
    }
    expect(asked.at(-1)!.request.before?.loops?.[0]?.speed_kmh).toBe(12);
    state.undo();
    expect(state.document.loops?.[0]?.speed_kmh).toBe(12);
  });
});

describe("what is typed and no value yet", () => {
  test("stays as it is, beside the last value, and is saved", async () => {
    const { open, asked } = stage();
    const state = await open();
    await wait();
    const before = asked.length;
    state.draft("loops[0].speed_kmh", "12,x", "Speed, Red");
    await wait(400);
    expect(state.drafts).toEqual({ "loops[0].speed_kmh": "12,x" });
    expect(state.document.loops?.[0]?.speed_kmh).toBe(12);
    expect(asked.length).toBe(before); // the plan does not change by it
  });
  test("is gone once there is a value, also the one it was before", async () => {
    const state = await stage().open();
    state.draft("loops[0].speed_kmh", "1x", "Speed, Red");
    state.edit("loops[0].speed_kmh", 12, "Speed, Red");
    expect(state.drafts).toEqual({});
  });
  test("moves up with its item when one before it is removed", async () => {
    const state = await stage().open();
    state.draft("loops[1].speed_kmh", "x", "Speed, Blue");
    state.removeItem("loops", 0, "Remove Red");
    expect(state.unread).toEqual(["loops[0].speed_kmh"]);
  });
  test("does not count the answers of the first run", async () => {
    const state = await stage().open();
    state.draft(draftOfAnswers, "{}", "Answers");
    expect(state.unread).toEqual([]);
  });
});

test("a problem of the engine is that of the field it names, and of what holds it", async () => {
  const state = await stage().open();
  state.answers.planRide.problems = [{ kind: "bad_input", where: "cars[0].boot.people", what: "must be 1 to 9" }];
  expect(state.fieldProblem("cars[0].boot.people")?.what).toBe("must be 1 to 9");
  expect(state.fieldProblem("cars[0].boot")).toBeUndefined();
  expect(state.problemsIn("cars[0]")).toHaveLength(1);
});

test("a ride without a course is not asked about", async () => {
  const { open, asked } = stage({ ride: { version: 1 } as RideDocument });
  const state = await open();
  await wait();
  expect(asked.filter(({ name }) => name !== "choices")).toEqual([]);
  expect(state.isBegun).toBe(false);
});

test("what the server could not be asked while it was away is asked again after the next save", async () => {
  const { open, asked } = stage();
  const state = await open();
  await wait();
  state.answers.planRide.problems = [{ kind: "away", where: "", what: "" }];
  state.draft("start", "soon", "Start"); // asks for nothing by itself
  const before = asked.length;
  await wait(400);
  expect(asked.slice(before).map(({ name }) => name)).toEqual(["planRide"]);
});

test("a catalogue that the server does not have is empty, and the others are there", async () => {
  const { open } = stage();
  const state = await open();
  await wait();
  expect(state.choices?.skills).toEqual([]);
  expect(state.choices?.time_zones).toContain("Europe/London");
});

describe("another tab's save", () => {
  test("is followed when nothing here is unsaved", async () => {
    const { open, there, hear } = stage();
    const state = await open();
    Object.assign(there, { ride: { ...ride, name: "Fell" }, revision: 5 });
    hear(5);
    await wait();
    expect(state.name).toBe("Fell");
  });
  test("is a conflict when something is, and both are there to choose from", async () => {
    const { open, there, hear, makeConflict } = stage();
    const state = await open();
    state.edit("name", "Mine", "Name");
    Object.assign(there, { ride: { ...ride, name: "Theirs" }, revision: 5 });
    makeConflict();
    hear(5);
    await wait(400);
    expect(state.name).toBe("Mine");
    expect(state.save.conflict?.ride.name).toBe("Theirs");
    expect(state.acknowledged.name).toBe("Moor");
  });
});

describe("text that an earlier page could not send", () => {
  const left: Unsent = { ride_id: "7", base_revision: 4, base: ride, ride: { ...ride, name: "Typed" }, drafts: { start: "soon" }, label: "Name" };
  test("is taken up and saved", async () => {
    const { open, saved } = stage({}, left);
    const state = await open();
    expect(state.name).toBe("Typed");
    expect(state.drafts).toEqual({ start: "soon" });
    await wait(400);
    expect(saved.map(({ name }) => name)).toEqual(["Typed"]);
  });
  test("is a conflict when the ride has moved on since", async () => {
    const { open, saved } = stage({ revision: 6, ride: { ...ride, name: "Theirs" } }, left);
    const state = await open();
    await wait(400);
    expect(saved).toEqual([]);
    expect(state.name).toBe("Typed");
    expect(state.save.conflict?.ride.name).toBe("Theirs");
  });
});
