import "fake-indexeddb/auto";
import { openDB } from "idb";
import { beforeEach, describe, expect, it } from "vitest";
import { eventOf, lineOf, written, type DayAct } from "../log/events";
import { compareHybrid } from "../log/hybrid_clock";
import { openEventStore, type EventStore } from "./event_store";

let ride = 0;
let store: EventStore;
beforeEach(async () => {
  store = await openEventStore(`ride-${++ride}`);
});
const again = async () => (store.close(), (store = await openEventStore(`ride-${ride}`)));
const seen = (number: string): DayAct => ({ kind: "number_seen", at: written(1.78e12), place: "Ash", number });
const read = (act: DayAct, device: string, at: number) => {
  const event = eventOf(act, device, [at, 0]);
  return { event, line: lineOf(event) };
};
const ids = async () => (await store.load()).events.map(({ event }) => event.id);

describe("the store of events", () => {
  it("has what was noted after it is opened again", async () => {
    const { event } = await store.note(seen("17"), "anna", 1000);
    await again();
    expect((await store.load()).events).toEqual([{ event, line: lineOf(event) }]);
  });
  it("gives every event a later hybrid time than the one before, with the clock put back in between", async () => {
    const first = await store.note(seen("17"), "anna", 9000);
    await again();
    const second = await store.note(seen("18"), "anna", 4000);
    expect(compareHybrid(first.event.noted, second.event.noted)).toBeLessThan(0);
  });
  it("gives two events noted at once two times", async () => {
    await Promise.all([store.note(seen("1"), "anna", 5000), store.note(seen("2"), "anna", 5000), store.note(seen("3"), "anna", 5000)]);
    expect(await ids()).toEqual(["anna-5000-0", "anna-5000-1", "anna-5000-2"]);
  });
  it("adds another log once, however often it comes", async () => {
    await store.note(seen("17"), "anna", 1000);
    const others = [read(seen("4"), "ben", 2000), read(seen("5"), "ben", 3000)];
    expect(await store.merge(others, [])).toBe(2);
    expect(await store.merge(others, [])).toBe(0);
    expect(await ids()).toEqual(["anna-1000-0", "ben-2000-0", "ben-3000-0"]);
  });
  it("knows an event again whose fields stand in another order", async () => {
    const { event } = await store.note(seen("17"), "anna", 1000);
    const turned = Object.fromEntries(Object.entries(event).reverse()) as typeof event;
    expect(await store.merge([{ event: turned, line: lineOf(turned) }], [])).toBe(0);
  });
  it("keeps two events of one id that say different things", async () => {
    await store.note(seen("17"), "anna", 1000);
    expect(await store.merge([read(seen("71"), "anna", 1000)], [])).toBe(1);
  });
  it("notes later than what came from another phone", async () => {
    const other = read(seen("4"), "ben", 90_000);
    await store.merge([other], []);
    const { event } = await store.note(seen("5"), "anna", 1000);
    expect(compareHybrid(other.event.noted, event.noted)).toBeLessThan(0);
  });
  it("keeps a torn record and says so", async () => {
    store.close();
    const raw = await openDB(`outbye-day-ride-${ride}`, 1);
    await raw.add("events", { id: "anna-1-0", line: '{"id":"anna-1-0","dev' });
    raw.close();
    store = await openEventStore(`ride-${ride}`);
    expect((await store.load()).unread).toEqual([{ line: '{"id":"anna-1-0","dev', torn: true }]);
  });
  it("keeps lines of another file that cannot be read, once", async () => {
    await store.merge([], [{ line: "hello", torn: false }]);
    await store.merge([], [{ line: "hello", torn: false }]);
    expect((await store.load()).unread).toEqual([{ line: "hello", torn: false }]);
  });
  it("has settings and photos after it is opened again", async () => {
    await store.set("car", "Green van");
    const photo = new Blob(["x"]);
    await store.note({ kind: "note", at: written(0), photo: "a.jpg" }, "anna", 1000, { name: "a.jpg", photo });
    await again();
    expect(await store.setting("car")).toBe("Green van");
    expect(await store.photo("a.jpg")).toBeDefined();
  });
});
