import { IDBFactory } from "fake-indexeddb";
import { expect, test } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import { unsentStore, type Unsent } from "./unsent";

const ride = (name: string) => ({ version: 1, name }) as RideDocument;
const text = (name: string): Unsent => ({ ride_id: "7", base_revision: 3, base: ride("base"), ride: ride(name), drafts: { start: "soon" }, label: "Name" });

// Locks of tabs that live in one browser; a tab that is closed lets its lock go.
function browser() {
  const held = new Set<string>();
  const locks = {
    request: (name: string) => (held.add(name), Promise.resolve()),
    query: async () => ({ held: [...held].map((name) => ({ name })) }),
  } as unknown as LockManager;
  const factory = new IDBFactory();
  return { open: (tab: string) => unsentStore(tab, factory, locks), close: (tab: string) => held.delete(`outbye-tab-${tab}`) };
}

test("what a tab did not send is there for the next one once it is gone", async () => {
  const { open, close } = browser();
  await open("a").keep(text("typed"));
  close("a");
  expect(await open("b").takeLeft("7")).toEqual(text("typed"));
});
test("what a living tab did not send stays that tab's", async () => {
  const { open } = browser();
  await open("a").keep(text("typed"));
  expect(await open("b").takeLeft("7")).toBeUndefined();
});
test("what was taken up is the new tab's to drop", async () => {
  const { open, close } = browser();
  await open("a").keep(text("typed"));
  close("a");
  const b = open("b");
  await b.takeLeft("7");
  await b.drop("7");
  close("b");
  expect(await open("c").takeLeft("7")).toBeUndefined();
});
test("texts that two tabs left are taken up one after the other", async () => {
  const { open, close } = browser();
  await open("a").keep(text("first"));
  await open("b").keep(text("second"));
  close("a");
  close("b");
  const c = open("c");
  const one = await c.takeLeft("7");
  await c.drop("7");
  const other = await c.takeLeft("7");
  expect([one?.ride.name, other?.ride.name].sort()).toEqual(["first", "second"]);
});
test("another ride's text is left alone", async () => {
  const { open, close } = browser();
  await open("a").keep(text("typed"));
  close("a");
  expect(await open("b").takeLeft("8")).toBeUndefined();
});
test("a browser that keeps nothing says so", async () => {
  const broken = { open: () => { throw new Error("SecurityError"); } } as unknown as IDBFactory;
  expect(await unsentStore("a", broken, undefined).keep(text("typed"))).toBe(false);
  expect(await unsentStore("a", broken, undefined).takeLeft("7")).toBeUndefined();
});
