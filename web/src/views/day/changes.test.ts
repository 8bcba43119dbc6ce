import { describe, expect, it } from "vitest";
import type { RideDocument } from "../../engine/answers/ride";
import type { DayDrawing } from "../../engine/day_drawing";
import { fieldsOf, laterTime, speedFields, wantedOf, withCar, withClosed, withHelper, withoutCar, withWanted } from "./changes";

const pass = { place: "Mill Ford", loop: 2, nth: 1 };
const ride = (more: Partial<RideDocument>): RideDocument => ({ version: 1, start: "2026-06-13T07:00", files: { course: ["a.gpx"] }, ...more });
const loops = [{ name: "Red" }, { name: "Blue" }] as DayDrawing["loops"];

describe("what is wanted of a pass", () => {
  it("is read off the most particular wish", () => {
    const wishes = [
      { crew_point: "mill ford", loop: 2, nth: 1, car: "Van" },
      { crew_point: "Mill Ford", demand: "never" as const },
      { crew_point: "Mill Ford", loop: 2, demand: "must" as const },
    ];
    expect(wantedOf(wishes, pass)).toEqual({ kind: "must", car: "Van" });
    expect(wantedOf(wishes, { ...pass, loop: 1 })).toEqual({ kind: "never" });
    expect(wantedOf(wishes, { ...pass, place: "Tor" })).toEqual({ kind: "free" });
  });
  it("is what was written, whatever was there before", () => {
    const before = [{ crew_point: "Mill Ford", demand: "never" as const }, { crew_point: "Tor", worth: 2 }];
    for (const wanted of [{ kind: "free" }, { kind: "never" }, { kind: "must" }, { kind: "must", car: "Van" }] as const) {
      for (const wishes of [undefined, before, withWanted(before, pass, { kind: "must", car: "Bus" })]) {
        expect(wantedOf(withWanted(wishes, pass, wanted), pass)).toEqual(wanted);
      }
    }
  });
  it("is written once, and takes nothing else that is wished away", () => {
    const first = withWanted([{ crew_point: "Mill Ford", loop: 2, nth: 1, worth: 1.5, car: "Van" }], pass, { kind: "never" });
    expect(first).toEqual([{ crew_point: "Mill Ford", loop: 2, nth: 1, worth: 1.5, demand: "never" }]);
    expect(withWanted(first, pass, { kind: "free" })).toEqual([{ crew_point: "Mill Ford", loop: 2, nth: 1, worth: 1.5 }]);
  });
  it("leaves nothing behind once nothing is wanted", () => {
    expect(withWanted(withWanted(undefined, pass, { kind: "never" }), pass, { kind: "free" })).toBeUndefined();
  });
  it("of one horse is not that of another", () => {
    const wishes = withWanted(undefined, { ...pass, horse: "Juno" }, { kind: "never" });
    expect(wantedOf(wishes, { ...pass, horse: "Ceres" })).toEqual({ kind: "free" });
  });
});

describe("a later time", () => {
  it("keeps how it was written", () => {
    expect(laterTime("2026-06-13T07:00:00+01:00", 25)).toBe("2026-06-13T07:25:00+01:00");
    expect(laterTime("2026-06-13T07:00", -15)).toBe("2026-06-13T06:45");
  });
  it("passes midnight, and the end of a month", () => {
    expect(laterTime("2026-06-30T23:50", 20)).toBe("2026-07-01T00:10");
  });
  it("is the same text where that is no time", () => {
    expect(laterTime("soon", 5)).toBe("soon");
  });
});

describe("the fields of speed", () => {
  it("are those of the loops if the ride lists them", () => {
    expect(speedFields(ride({ loops: [{ speed_kmh: 14 }, {}], default_pace: { speed_kmh: 11 } }), loops)).toMatchObject([
      { path: "loops[0].speed_kmh", loop: "Red", kmh: 14 },
      { path: "loops[1].speed_kmh", loop: "Blue", kmh: 11 },
    ]);
  });
  it("is one for every loop if it does not", () => {
    expect(speedFields(ride({}), loops)).toMatchObject([{ path: "default_pace.speed_kmh", kmh: 12 }]);
  });
  it("are the horse's own where it has any, because those win", () => {
    const paths = speedFields(ride({ loops: [{}, {}], horses: [{ name: "Juno", speeds_kmh: [10, 9] }] }), loops).map((field) => field.path);
    expect(paths).toEqual(["horses[0].speeds_kmh[0]", "horses[0].speeds_kmh[1]"]);
  });
});

it("closing a point of a ride that takes all waypoints names every one", () => {
  const points = [{ name: "Ford" }, { name: "Tor" }] as DayDrawing["points"];
  const closed = withClosed(ride({}), points, "Tor", true);
  expect(closed).toEqual([{ name: "Ford" }, { name: "Tor", closed: true }]);
  expect(withClosed(ride({ crew_points: closed }), points, "tor", false)).toEqual([{ name: "Ford" }, { name: "Tor" }]);
});

it("another car is like the first and has a name that is free", () => {
  expect(withCar([{ name: "Car 2", water_litres: 40 }], [], "Car")).toEqual([
    { name: "Car 2", water_litres: 40 },
    { name: "Car 3", water_litres: 40 },
  ]);
  expect(withCar(undefined, ["Car 1"], "Car").map((car) => car.name)).toEqual(["Car 1", "Car 2"]);
});

it("a car that goes takes its wishes along, and its helpers stay", () => {
  const document = ride({
    cars: [{ name: "Van" }, { name: "Bus" }],
    wishes: [{ crew_point: "Ford", car: "Bus", demand: "must" }, { crew_point: "Tor", car: "Bus", worth: 2 }],
    helpers: [{ name: "Ann", car: "Bus" }],
  });
  expect(withoutCar(document, 1)).toEqual({
    cars: [{ name: "Van" }],
    wishes: [{ crew_point: "Tor", worth: 2 }],
    helpers: [{ name: "Ann" }],
  });
});

it("a helper gets a name that is free", () => {
  expect(withHelper([{ name: "Helper 2" }], "Helper").map((helper) => helper.name)).toEqual(["Helper 2", "Helper 3"]);
});

it("taking a plan back sets what differs and takes away what was not there", () => {
  const kept = ride({ stop_min: 3 });
  expect(fieldsOf(kept, { ...kept, stop_min: 5, crew: 2 })).toEqual({ stop_min: 3, crew: undefined });
});
