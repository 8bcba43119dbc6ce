import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it } from "vitest";
import { openEventStore, type EventStore } from "../keep/event_store";
import { compareHybrid } from "../log/hybrid_clock";
import { DayLog } from "./day_log.svelte";

let ride = 0;
let store: EventStore;
let now = 1_781_000_000_000;
beforeEach(async () => {
  store = await openEventStore(`log-${++ride}`);
});
const open = async (from: EventStore | undefined = store, device = "anna") => {
  const log = new DayLog("Small ride", from, () => (now += 1000), device);
  await log.load();
  return log;
};
const failing = (name: string): EventStore => ({
  ...store,
  note: () => Promise.reject(new DOMException("no", name)),
  merge: () => Promise.reject(new DOMException("no", name)),
});
const number = (text: string) => ({ kind: "number_seen" as const, place: "Ash", number: text });

describe("the log", () => {
  it("shows an event as kept once the store has it", async () => {
    const log = await open();
    const event = await log.enter(number("17"));
    expect(log.lastNoted).toEqual({ event, isKept: true });
    expect((await open()).events).toEqual([event]);
  });
  it("says that the storage is full, and keeps the event in memory and in the file", async () => {
    const log = await open(failing("QuotaExceededError"));
    const event = await log.enter(number("17"));
    expect([log.storageProblem, log.lastNoted?.isKept]).toEqual(["full", false]);
    expect(log.file()).toContain(event.id);
  });
  it("says that a browser keeps nothing", async () => {
    const log = await open(failing("InvalidStateError"));
    await log.enter(number("17"));
    expect(log.storageProblem).toBe("refused");
  });
  it("keeps what was in memory alone once there is room again", async () => {
    let isFull = true;
    const log = await open({ ...store, note: (...it) => (isFull ? failing("QuotaExceededError").note(...it) : store.note(...it)) });
    const event = await log.enter(number("17"));
    isFull = false;
    expect(await log.keepAgain()).toBe(true);
    expect([log.storageProblem, log.unkept, log.lastNoted?.isKept]).toEqual([undefined, [], true]);
    expect((await open()).events).toEqual([event]);
  });
  it("orders what is only in memory too", async () => {
    const log = await open(failing("QuotaExceededError"));
    const first = await log.enter(number("1"));
    now -= 3_600_000;
    const second = await log.enter(number("2"));
    expect(compareHybrid(first.noted, second.noted)).toBeLessThan(0);
  });
  it("takes back and puts right by new events", async () => {
    const log = await open();
    const seen = await log.enter(number("17"));
    await log.putRight(seen.id, { ...number("71"), at: "2026-06-13T10:00:00+00:00" });
    expect(log.book[0]!.entry.number).toBe("71");
    await log.takeBack(seen.id);
    expect([log.events.length, log.book[0]!.withdrawnBy !== undefined]).toEqual([3, true]);
  });
  it("merges the same whichever log takes in the other", async () => {
    const anna = await open();
    await anna.enter(number("17"));
    const ben = await open(await openEventStore(`log-${++ride}`), "ben");
    await ben.enter(number("4"));
    const [annas, bens] = [anna.file(), ben.file()];
    expect(await anna.merge(bens)).toMatchObject({ ok: true, added: 1 });
    expect(await ben.merge(annas)).toMatchObject({ ok: true, added: 1 });
    expect([...anna.lines].sort()).toEqual([...ben.lines].sort());
  });
  it("takes in half a file as far as it goes", async () => {
    const anna = await open();
    await anna.enter(number("17"));
    const half = anna.file() + '{"id":"anna-2-0","dev';
    const ben = await open(await openEventStore(`log-${++ride}`), "ben");
    expect(await ben.merge(half)).toMatchObject({ ok: true, added: 1, unread: 1 });
    expect(ben.file()).toContain('{"id":"anna-2-0","dev');
  });
  it("says when the other log is of another ride", async () => {
    const log = await open();
    expect(await log.merge('{"format":"outbye day log","version":1,"ride":"Other"}\n')).toMatchObject({ ok: true, otherRide: "Other" });
  });
});
