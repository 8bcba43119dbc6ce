import { describe, expect, it } from "vitest";
import { roundTicks, timeStep, timeTicks } from "./ticks";

const hour = 3600;

describe("ticks of time", () => {
  it("fall on full hours of the clock, not of UTC", () => {
    const ticks = timeTicks({ from: 1000, to: 1000 + 6 * hour }, 600, 60, () => 1800);
    expect(ticks.length).toBe(6);
    for (const tick of ticks) expect((tick + 1800) % hour).toBe(0);
  });
  it("are as many as there is room for", () => {
    expect(timeStep({ from: 0, to: 12 * hour }, 1200, 50)).toBe(1800);
    expect(timeStep({ from: 0, to: 12 * hour }, 240, 50)).toBe(3 * hour);
  });
  it("are right on both sides of a change of the clock", () => {
    const change = 10 * hour;
    const offsetAt = (at: number) => (at < change ? 0 : 1800);
    const ticks = timeTicks({ from: 8 * hour, to: 13 * hour }, 500, 90, offsetAt);
    for (const tick of ticks) expect((tick + offsetAt(tick)) % hour).toBe(0);
    expect(ticks).toContain(9 * hour);
    expect(ticks).toContain(10.5 * hour);
    expect(new Set(ticks).size).toBe(ticks.length);
  });
  it("have one at the start of a span that starts on the hour", () => {
    expect(timeTicks({ from: hour, to: 2 * hour }, 100, 60, () => 0)).toEqual([hour, 2 * hour]);
  });
});

describe("round ticks", () => {
  it("are 1, 2 or 5 times a power of ten", () => {
    expect(roundTicks({ from: 0, to: 80 }, 400, 40)).toEqual([0, 10, 20, 30, 40, 50, 60, 70, 80]);
    expect(roundTicks({ from: 3, to: 4 }, 100, 25)).toEqual([3, 3.5, 4]);
  });
  it("end for a span of no length", () => {
    expect(roundTicks({ from: 5, to: 5 }, 100, 40)).toEqual([5]);
  });
});
