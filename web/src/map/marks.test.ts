import { expect, test } from "vitest";
import type { RideDocument } from "../engine/answers/ride";
import type { DayDrawing } from "../engine/day_drawing";
import { dayMap, nextPass, passOnPress } from "./marks";

const drawing: DayDrawing = {
  version: 1, from_s: 0, to_s: 9000, length_km: 20, time_zone_offsets: [],
  venue: { name: "Field", position: [0, 50] },
  loops: [
    { name: "Red", from_km: 0, to_km: 10, line: [[0, 50], [0, 50.045], [0, 50]], km_marks: [], heights: [] },
    { name: "Blue", from_km: 10, to_km: 20, line: [[0, 50], [0.07, 50], [0, 50]], km_marks: [], heights: [] },
  ],
  points: [
    {
      name: "Ford", position: [0, 50.04], parking: [0, 50.041], is_closed: false,
      passes: [
        { label: "Ford loop 1 pass 1", loop: 1, nth_in_loop: 1, ride_km: 4.5, position: [0, 50.04] },
        { label: "Ford loop 1 pass 2", loop: 1, nth_in_loop: 2, ride_km: 5.5, position: [0, 50.04] },
      ],
    },
    { name: "Bank", position: [0.05, 50], parking: [0.05, 50], is_closed: true, passes: [{ label: "Bank loop 2", loop: 2, nth_in_loop: 1, ride_km: 13.5, position: [0.05, 50] }] },
  ],
  horses: [{ name: "Juno", knots: [{ km: 5.5, p10_s: 1, p50_s: 1500, p90_s: 2 }], gates: [] }],
  cars: [{ name: "Van", spans: [], drives: [{ stop: 0, line: [[0, 50], [0, 50.04]] }] }],
  meets: [
    { label: "Ford loop 1 pass 1", car: "Van", horse: "Juno", stop: 0, km: 4.5, due_s: 1200, ready_s: 900, leave_by_s: null, chance_ready: 0.97, odds: "all but sure" },
    { label: "Ford loop 1 pass 1", car: "Van", horse: "Pip", stop: 0, km: 4.5, due_s: 1300, ready_s: 900, leave_by_s: null, chance_ready: 0.6, odds: "even" },
    { label: "finish", car: "Van", horse: "Juno", stop: 1, km: 20, due_s: 8000, ready_s: 900, leave_by_s: null, chance_ready: 0.9, odds: "likely" },
  ],
  dark: [], heat: [],
};
const document = {
  crew_points: [{ name: "ford", has_water: true, hazards: [{ what: "Wire" }, { what: "Bog", position: { lat: 50.1, lon: 0.2 } }] }],
  refills: [{ name: "Pump", position: { lat: 50.2, lon: 0.1 }, fuel: true }],
  waters: [{ loop: 2, km: 5, name: "Trough" }],
} as unknown as RideDocument;

test("passes and gates stand in the order of the ride, each with its kilometre in the loop", () => {
  const map = dayMap(drawing, document);
  expect(map.passes.map(({ label }) => label)).toEqual(["Ford loop 1 pass 1", "Ford loop 1 pass 2", "gate loop 1", "Bank loop 2", "finish"]);
  expect(map.passes[3]!.loop_km).toBeCloseTo(3.5, 9);
});

test("a pass where several horses are met has the odds of the least likely", () => {
  expect(dayMap(drawing, document).passes[0]!.meet).toEqual({ car: "Van", odds: "even", chance: 0.6 });
});

test("a pass that nobody meets is due when the horse comes", () => {
  const pass = dayMap(drawing, document).passes[1]!;
  expect(pass.meet).toBeUndefined();
  expect(pass.due_s).toBe(1500);
});

test("parking is marked where it is apart from the horse", () => {
  const [, ford, bank] = dayMap(drawing, document).points;
  expect(ford!.parking).toEqual([0, 50.041]);
  expect(bank!.parking).toBeUndefined();
});

test("hazards, refills and water on the course are spots with a place", () => {
  const { spots } = dayMap(drawing, document);
  expect(spots.map(({ kind, name, at }) => [kind, name, at])).toEqual([
    ["hazard", "Wire", "ford"], ["hazard", "Bog", "ford"], ["fuel", "Pump", undefined], ["trough", "Trough", undefined],
  ]);
  expect(spots[0]!.place).toEqual([0, 50.04]);
  expect(spots[3]!.place[0]).toBeGreaterThan(0.06);
});

test("the passes are gone along in both directions, and end at their ends", () => {
  const map = dayMap(drawing, document);
  expect(nextPass(map, undefined, 1)!.label).toBe("Ford loop 1 pass 1");
  expect(nextPass(map, "Bank loop 2", -1)!.label).toBe("gate loop 1");
  expect(nextPass(map, "finish", 1)).toBeUndefined();
});

test("pressing a point goes through its passes in turn", () => {
  const ford = dayMap(drawing, document).points[1]!;
  expect(passOnPress(ford, undefined)!.nth).toBe(1);
  expect(passOnPress(ford, "Ford loop 1 pass 1")!.nth).toBe(2);
  expect(passOnPress(ford, "Ford loop 1 pass 2")!.nth).toBe(1);
});

test("a drive knows the meet that it leads to", () => {
  expect(dayMap(drawing, document).drives[0]!.to).toBe("Ford loop 1 pass 1");
});

test("a correction just made is shown before the engine has answered", () => {
  const moved = { crew_points: [{ name: "Ford", passes: [{ loop: 1, nth: 2, km: 6 }] }] } as unknown as RideDocument;
  const pass = dayMap(drawing, moved).points[1]!.passes[1]!;
  expect(pass.ride_km).toBe(6);
  expect(pass.place[1]).toBeCloseTo(50.036, 3);
  expect(dayMap(drawing, moved).points[1]!.passes[0]!.ride_km).toBe(4.5);
});
