import { describe, expect, test } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import type { Keepsake } from "../storage/ride_store";
import { assumedPaths, isAssumed } from "./assumed";
import { withFile, withoutFile } from "./file_intake.svelte";
import { isNewer } from "./ride_list.svelte";
import { withKept } from "./first_run.svelte";

const ride: RideDocument = {
  version: 1,
  start: "2026-06-13T07:00",
  files: { course: ["a.gpx"] },
  loops: [{ name: "Red" }, { name: "Blue" }],
  horses: [{ name: "zummelkin" }],
  cars: [{ name: "Van" }],
};
const keepsake = (kind: Keepsake["kind"], name: string, data: Record<string, unknown>): Keepsake => ({ id: name, kind, name, revision: 1, data });

describe("what was kept", () => {
  test("comes into a drafted ride by its name, whatever its capitals", () => {
    const made = withKept(ride, [keepsake("horse", "Zummelkin", { name: "Zummelkin", mass_kg: 435 })]);
    expect(made.horses).toEqual([{ name: "zummelkin", mass_kg: 435 }]);
    expect(made.cars).toEqual(ride.cars);
  });
  test("of another kind does not come in by that name", () => {
    expect(withKept(ride, [keepsake("car", "Zummelkin", { water_litres: 3 })]).horses).toEqual(ride.horses);
  });
  test("keeps speeds by loop only where there are as many loops", () => {
    const kept = (speeds_kmh: number[]) => withKept(ride, [keepsake("horse", "Zummelkin", { speeds_kmh })]).horses?.[0]?.speeds_kmh;
    expect(kept([12, 11])).toEqual([12, 11]);
    expect(kept([12, 11, 10])).toBeUndefined();
  });
});

describe("a file", () => {
  test("is named where its kind belongs, once", () => {
    const files = withFile(withFile({ course: ["a.gpx"] }, "course", "b.gpx"), "course", "a.gpx");
    expect(files.course).toEqual(["b.gpx", "a.gpx"]);
    expect(withFile(undefined, "map", "m.osm.pbf")).toEqual({ roads: ["m.osm.pbf"] });
    expect(withFile({ course: [], weather: "old.csv" }, "weather", "new.csv").weather).toBe("new.csv");
  });
  test("that is a photo is named by nobody here", () => {
    expect(withFile({ course: ["a.gpx"] }, "photo", "p.jpg")).toEqual({ course: ["a.gpx"] });
  });
  test("that is removed is named no more", () => {
    expect(withoutFile({ course: ["a.gpx", "b.gpx"], weather: "a.csv" }, "a.csv")).toEqual({ course: ["a.gpx", "b.gpx"] });
    expect(withoutFile({ course: ["a.gpx"] }, "a.gpx")).toEqual({});
  });
});

test("a value counts as assumed until somebody says otherwise", () => {
  const drafted = { time_zone: "Europe/London" };
  expect(isAssumed(ride, "setup_min", drafted)).toBe(true);
  expect(isAssumed({ ...ride, setup_min: 4 }, "setup_min", drafted)).toBe(true);
  expect(isAssumed({ ...ride, setup_min: 6 }, "setup_min", drafted)).toBe(false);
  expect(isAssumed({ ...ride, time_zone: "Europe/London" }, "time_zone", drafted)).toBe(true);
  expect(isAssumed({ ...ride, time_zone: "Europe/Paris" }, "time_zone", drafted)).toBe(false);
});
test("the list of assumptions is the same before and after one is set", () => {
  expect(assumedPaths({ ...ride, setup_min: 9 })).toEqual(assumedPaths(ride));
  expect(assumedPaths(ride)).toContain("loops[0].hold_min");
  expect(assumedPaths(ride)).not.toContain("loops[1].hold_min"); // after the last loop nobody is held
});

test("a ride file of a later version is known as such", () => {
  expect(isNewer({ ...ride, version: 9 as unknown as 1 })).toBe(true);
  expect(isNewer(ride)).toBe(false);
});
