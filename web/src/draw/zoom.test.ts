import { describe, expect, it } from "vitest";
import { inside, isWhole, panned, zoomed } from "./zoom";

const whole = { from: 0, to: 1000 };

describe("zooming", () => {
  it("keeps the value under the hand where it is", () => {
    const part = { from: 200, to: 600 };
    const closer = zoomed(part, 2, 300, whole, 10);
    expect((300 - closer.from) / (closer.to - closer.from)).toBeCloseTo(0.25, 9);
    expect(closer.to - closer.from).toBe(200);
  });
  it("out and in again comes back", () => {
    const part = { from: 300, to: 500 };
    expect(zoomed(zoomed(part, 0.5, 400, whole, 10), 2, 400, whole, 10)).toEqual(part);
  });
  it("never leaves the whole nor goes below the least", () => {
    expect(zoomed({ from: 0, to: 500 }, 0.1, 20, whole, 10)).toEqual(whole);
    const least = zoomed({ from: 0, to: 500 }, 1000, 499, whole, 10);
    expect(least.to - least.from).toBe(10);
    expect(least.to).toBeLessThanOrEqual(500);
  });
});

describe("panning", () => {
  it("stops at the ends and keeps its length", () => {
    expect(panned({ from: 100, to: 300 }, -500, whole)).toEqual({ from: 0, to: 200 });
    expect(panned({ from: 100, to: 300 }, 5000, whole)).toEqual({ from: 800, to: 1000 });
  });
});

it("a part of a day that has become shorter is fitted into it", () => {
  expect(inside({ from: 900, to: 1100 }, { from: 0, to: 1000 }, 10)).toEqual({ from: 800, to: 1000 });
  expect(isWhole(inside({ from: -50, to: 2000 }, whole, 10), whole)).toBe(true);
});
