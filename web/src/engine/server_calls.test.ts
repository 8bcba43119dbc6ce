import { describe, expect, test, vi } from "vitest";
import { strings } from "../strings";
import { send } from "./http";
import { serverCalls } from "./server_calls";

const answers = (status: number, body: unknown) =>
  vi.fn<typeof fetch>(async () => new Response(body === undefined ? null : JSON.stringify(body), { status }));
const calls = (fetcher: typeof fetch) => serverCalls(strings.problems, fetcher);
const kinds = async (fetcher: typeof fetch, signal?: AbortSignal) => {
  const outcome = await calls(fetcher)("planRide", { ride_id: "7" }, signal);
  return outcome.ok ? "ok" : outcome.problems.map(({ kind }) => kind).join();
};

test("a call asks for the ride by address and sends the rest", async () => {
  const fetcher = answers(200, { value: { rule_books: [] } });
  await calls(fetcher)("checkRide", { ride_id: "a/b", ride: { version: 1, start: "2026-06-13T07:00", files: { course: ["c.gpx"] } } });
  const [address, init] = fetcher.mock.calls[0]!;
  expect(address).toBe("/api/v1/rides/a%2Fb/engine/checkRide");
  expect(JSON.parse(String(init?.body))).toEqual({ ride: { version: 1, start: "2026-06-13T07:00", files: { course: ["c.gpx"] } } });
  expect(init?.headers).toEqual({ "Content-Type": "application/json" });
});
test("what belongs to no ride is asked without one", async () => {
  const fetcher = answers(200, { value: { rule_books: [] } });
  expect(await calls(fetcher)("choices", {})).toEqual({ ok: true, value: { rule_books: [] } });
  expect(fetcher.mock.calls[0]![0]).toBe("/api/v1/engine/choices");
});

describe("each failure is a problem", () => {
  test("with the engine's own words and place", async () => {
    const problem = { kind: "bad_input", where: "loops[0].speed_kmh", what: "must be above 0" };
    expect(await calls(answers(422, { problems: [problem] }))("planRide", { ride_id: "7" })).toEqual({ ok: false, problems: [problem] });
  });
  test("also when it comes with status 200", async () => {
    expect(await kinds(answers(200, { problems: [{ kind: "impossible", where: "", what: "no plan" }] }))).toBe("impossible");
  });
  test.each([[404, "not_found"], [409, "conflict"], [413, "too_large"], [507, "storage"], [500, "internal"], [502, "internal"]])(
    "of status %d without words: %s",
    async (status, kind) => expect(await kinds(answers(status, undefined))).toBe(kind),
  );
  test("when the server is away", async () => {
    expect(await kinds(vi.fn(async () => Promise.reject(new TypeError("refused"))))).toBe("away");
  });
  test("when the caller cancelled", async () => {
    const controller = new AbortController();
    controller.abort();
    const fetcher = vi.fn<typeof fetch>(async (_, init) => Promise.reject(init?.signal?.reason));
    expect(await kinds(fetcher, controller.signal)).toBe("cancelled");
  });
  test("when no answer comes in time", async () => {
    const never: typeof fetch = (_, init) => new Promise((__, reject) => init?.signal?.addEventListener("abort", () => reject(init.signal?.reason)));
    expect(await send("/x", { patience_ms: 5 }, never)).toEqual({ answered: false, why: "slow" });
  });
  test("when the answer is no JSON", async () => {
    expect(await kinds(vi.fn(async () => new Response("<html>", { status: 200 })))).toBe("internal");
  });
});
