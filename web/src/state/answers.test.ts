import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { CheckAnswer } from "../engine/answers/check";
import type { EngineCalls, Outcome } from "../engine/calls";
import { Following } from "./answers.svelte";

type Request = EngineCalls["checkRide"]["request"];
const request = (ride_id: string): Request => ({ ride_id });
const answer = (name: string) => ({ ok: true, value: { name } as CheckAnswer }) as Outcome<CheckAnswer>;

// An engine whose answers come when the test says so.
function stage() {
  const out: { request: Request; signal: AbortSignal; settle: (outcome: Outcome<CheckAnswer>) => void }[] = [];
  const following = new Following<"checkRide">(
    (request, signal) =>
      new Promise((settle) => {
        out.push({ request, signal, settle });
        signal.addEventListener("abort", () => settle({ ok: false, problems: [{ kind: "cancelled", where: "", what: "" }] }));
      }),
    () => Date.now(),
  );
  return { out, following };
}
const wait = (ms = 0) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

test("the latest wish wins, and those between are never asked", async () => {
  const { out, following } = stage();
  for (const id of ["a", "b", "c"]) following.want(request(id));
  out[0]!.settle(answer("a"));
  await wait();
  out[1]!.settle(answer("c"));
  await wait();
  expect(out.map(({ request }) => request.ride_id)).toEqual(["a", "c"]);
  expect(following.value?.name).toBe("c");
  expect(following.isWorking).toBe(false);
});
test("an answer that comes soon is shown even when a newer one is wished", async () => {
  const { out, following } = stage();
  following.want(request("a"));
  following.want(request("b"));
  await wait(100);
  out[0]!.settle(answer("a"));
  await wait();
  expect(following.value?.name).toBe("a");
  expect(following.isWorking).toBe(true);
});
test("a question that has been out for long is cancelled for a newer one", async () => {
  const { out, following } = stage();
  following.want(request("a"));
  await wait(1000);
  following.want(request("b"));
  await wait(1);
  expect(out[0]!.signal.aborted).toBe(true);
  expect(out[1]!.request.ride_id).toBe("b");
  expect(following.problems).toEqual([]);
});
test("a problem keeps the last value beside it", async () => {
  const { out, following } = stage();
  following.want(request("a"));
  out[0]!.settle(answer("a"));
  await wait();
  following.want(request("b"));
  out[1]!.settle({ ok: false, problems: [{ kind: "bad_input", where: "start", what: "is late" }] });
  await wait();
  expect(following.value?.name).toBe("a");
  expect(following.problems[0]?.where).toBe("start");
});
test("nothing is asked after it was stopped, and nothing is left working", async () => {
  const { out, following } = stage();
  following.want(request("a"));
  following.want(request("b"));
  following.stop();
  await wait(1000);
  expect(out).toHaveLength(1);
  expect(following.isWorking).toBe(false);
});
