import { expect, test } from "vitest";
import type { DayMap } from "./marks";
import { offeredPumps } from "./pumps";

const map = {
  drives: [{ line: [[0, 50], [0, 50.05]] }],
  spots: [{ kind: "water", place: [0.001, 50.02] }],
} as unknown as DayMap;

test("pumps within 300 m of a drive are offered, the nearest first", () => {
  const offered = offeredPumps(
    [
      { kind: "fuel", name: "Far", place: [0.01, 50.01] },
      { kind: "fuel", name: "Near", place: [0.002, 50.01] },
      { kind: "water", name: "Nearer", place: [0.001, 50.03] },
    ],
    map,
  );
  expect(offered.map(({ name }) => name)).toEqual(["Nearer", "Near"]);
  expect(offered[0]!.toDrive_m).toBeCloseTo(71.4, 0);
});

test("a refill that the ride has is not offered again, nor is a pump twice", () => {
  const pump = { kind: "fuel" as const, name: "Twice", place: [0.002, 50.04] as [number, number] };
  expect(offeredPumps([{ kind: "water", name: "Known", place: [0.0012, 50.02] }, pump, { ...pump }], map).length).toBe(1);
});
