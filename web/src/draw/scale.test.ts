import { describe, expect, it } from "vitest";
import { clamp, scaleBetween } from "./scale";

describe("a scale", () => {
  const scale = scaleBetween({ from: 100, to: 200 }, { from: 50, to: 0 });
  it("puts the ends of the values at the ends of the pixels", () => {
    expect([scale.at(100), scale.at(200)]).toEqual([50, 0]);
  });
  it("reads back what it put", () => {
    for (const value of [100, 117.3, 200, 250]) expect(scale.from(scale.at(value))).toBeCloseTo(value, 9);
  });
  it("does not break on a span of no length", () => {
    expect(Number.isFinite(scaleBetween({ from: 3, to: 3 }, { from: 0, to: 10 }).at(3))).toBe(true);
    expect(Number.isFinite(scaleBetween({ from: 0, to: 1 }, { from: 5, to: 5 }).from(5))).toBe(true);
  });
});

it("clamp keeps to the lower end where the ends are crossed", () => {
  expect(clamp(7, 5, 3)).toBe(5);
});
