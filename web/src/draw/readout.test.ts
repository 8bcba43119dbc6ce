import { describe, expect, it } from "vitest";
import type { DayDrawing } from "../engine/day_drawing";
import { horseAt, kmAt, kmBetween, spanAt } from "./readout";

// Ten kilometres in 1000 s on the median day, 100 s at the gate, ten back.
const horse: DayDrawing["horses"][number] = {
  name: "Juno",
  knots: [
    { km: 0, p10_s: 0, p50_s: 0, p90_s: 0 },
    { km: 10, p10_s: 900, p50_s: 1000, p90_s: 1200 },
    { km: 10, p10_s: 1000, p50_s: 1100, p90_s: 1300 },
    { km: 20, p10_s: 1900, p50_s: 2100, p90_s: 2500 },
  ],
  gates: [{ km: 10, loop: 1, in_s: 1000, accepted_s: 1020, out_s: 1100 }],
};
const drawing = { length_km: 20, horses: [horse] } as unknown as DayDrawing;

describe("where a horse is", () => {
  it("lies on a straight line between two places", () => {
    expect(kmAt(horse, 500, "p50_s")).toBe(5);
    expect(kmAt(horse, 1600, "p50_s")).toBe(15);
  });
  it("is the gate while it is held there", () => {
    expect(horseAt(horse, 1050)).toMatchObject({ km: 10, gate: 1 });
    expect(horseAt(horse, 500)!.gate).toBeUndefined();
  });
  it("is further on a quick day than on a slow one", () => {
    const there = horseAt(horse, 600)!;
    expect(there.least_km).toBe(5);
    expect(there.km).toBe(6);
    expect(there.most_km).toBeCloseTo(6.667, 3);
  });
  it("is the finish on a day so quick that it is in", () => {
    expect(horseAt(horse, 2000)!.most_km).toBe(20);
  });
  it("is nowhere before the start and after the finish", () => {
    expect(horseAt(horse, -1)).toBeUndefined();
    expect(horseAt(horse, 2101)).toBeUndefined();
    expect(horseAt(horse, 0)!.km).toBe(0);
  });
});

it("a part of the day shows the kilometres ridden in it, slow and quick", () => {
  const { from, to } = kmBetween(drawing, 0, 500);
  expect(from).toBe(0);
  expect(to).toBeCloseTo(500 / 90, 9);
  expect(kmBetween(drawing, 0, 3000)).toEqual({ from: 0, to: 20 });
});

it("a span holds from its beginning to before its end", () => {
  const spans = [
    { kind: "drive", from_s: 0, to_s: 10, from_km: 0, to_km: 5, stop: 0 },
    { kind: "setup", from_s: 10, to_s: 20, from_km: 5, to_km: 5, stop: 0 },
  ] as DayDrawing["cars"][number]["spans"];
  expect(spanAt({ name: "Van", spans, drives: [] }, 10)!.kind).toBe("setup");
  expect(spanAt({ name: "Van", spans, drives: [] }, 20)).toBeUndefined();
});
