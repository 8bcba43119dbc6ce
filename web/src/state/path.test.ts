import { describe, expect, test } from "vitest";
import { isWithin, keysOf, pathOf, valueAt, withoutItem, withValueAt } from "./path";

describe("a path", () => {
  test("is taken apart and put together again", () => {
    expect(keysOf("loops[0].going[12].from_km")).toEqual(["loops", 0, "going", 12, "from_km"]);
    expect(pathOf(["loops", 0, "going", 12, "from_km"])).toBe("loops[0].going[12].from_km");
  });
  test("of an item is within its list, and one that only begins alike is not", () => {
    expect(isWithin("cars[1].name", "cars")).toBe(true);
    expect(isWithin("cars[1].name", "cars[1]")).toBe(true);
    expect(isWithin("cars[10]", "cars[1]")).toBe(false);
    expect(isWithin("crewing.confidence", "crew")).toBe(false);
  });
});

describe("a document with a value set", () => {
  const before = { loops: [{ speed_kmh: 12 }, { speed_kmh: 11 }], venue: { name: "Barn" } };
  test("shares all that was not touched and leaves the first as it was", () => {
    const after = withValueAt(before, "loops[1].speed_kmh", 10);
    expect(after.loops[1]).toEqual({ speed_kmh: 10 });
    expect(after.loops[0]).toBe(before.loops[0]);
    expect(after.venue).toBe(before.venue);
    expect(before.loops[1]).toEqual({ speed_kmh: 11 });
  });
  test("makes what is missing on the way", () => {
    expect(withValueAt({}, "horses[0].likes[0].drink", "plain")).toEqual({ horses: [{ likes: [{ drink: "plain" }] }] });
  });
  test("loses a field set to nothing, and the object left empty by it", () => {
    expect(withValueAt(before, "venue.name", undefined)).toEqual({ loops: before.loops });
  });
  test("keeps an item of a list whose last field is taken away", () => {
    expect(withValueAt(before, "loops[0].speed_kmh", undefined).loops).toEqual([{}, { speed_kmh: 11 }]);
  });
  test("loses an item of a list set to nothing", () => {
    expect(withValueAt(before, "loops[0]", undefined).loops).toEqual([{ speed_kmh: 11 }]);
  });
  test("gives back what was set", () => {
    expect(valueAt(withValueAt(before, "cars[0].boot.people", 2), "cars[0].boot.people")).toBe(2);
  });
});

test("texts kept for the items behind a removed one move up with them", () => {
  const drafts = { "cars[0].name": "a", "cars[1].name": "b", "cars[2].boot.people": "c", start: "d" };
  expect(withoutItem(drafts, "cars", 1)).toEqual({ "cars[0].name": "a", "cars[1].boot.people": "c", start: "d" });
});
