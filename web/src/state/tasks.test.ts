import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Task } from "../storage/ride_store";
import { TaskWatch } from "./tasks.svelte";

const task = (state: Task["state"], share = 0): Task => ({ id: "1", kind: "import_map", ride: "7", state, step: "", share });
const wait = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

function stage(first: Task[] = []) {
  let tasks = first;
  let isAway = false;
  const done: Task[] = [];
  const watch = new TaskWatch(
    "7",
    {
      startTask: async () => ((tasks = [task("running")]), { ok: true, value: tasks[0]! }),
      tasksOf: async () => (isAway ? { ok: false, problems: [] } : { ok: true, value: tasks }),
      cancelTask: async () => ((tasks = [task("cancelled")]), { ok: true, value: true }),
    },
    (one) => done.push(one),
  );
  return { watch, done, become: (next: Task) => (tasks = [next]), setAway: (away: boolean) => (isAway = away) };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test("a task is watched to its end, which is told once", async () => {
  const { watch, done, become } = stage();
  await watch.start("import_map");
  become(task("running", 0.5));
  await wait(400);
  expect(watch.running[0]?.share).toBe(0.5);
  become(task("done", 1));
  await wait(2000);
  expect(done).toHaveLength(1);
  expect(watch.running).toEqual([]);
  expect(watch.said).toBe("import_map");
});
test("one that runs already is found after a reload", async () => {
  const { watch, done, become } = stage([task("running", 0.7)]);
  await watch.find();
  expect(watch.running[0]?.share).toBe(0.7);
  become(task("done", 1));
  await wait(400);
  expect(done).toHaveLength(1);
});
test("one that was over before the page came is not told", async () => {
  const { watch, done } = stage([task("done", 1)]);
  await watch.find();
  expect(done).toEqual([]);
});
test("a cancelled task runs no more and is not said to be done", async () => {
  const { watch } = stage();
  await watch.start("import_map");
  await watch.cancel("1");
  expect(watch.running).toEqual([]);
  expect(watch.said).toBeUndefined();
});
test("a server that is away for a while is asked again", async () => {
  const { watch, setAway, become } = stage();
  await watch.start("import_map");
  setAway(true);
  await wait(1000);
  setAway(false);
  become(task("running", 0.9));
  await wait(4000);
  expect(watch.running[0]?.share).toBe(0.9);
});
