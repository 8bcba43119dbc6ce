import { describe, expect, it } from "vitest";
import { beatsPerMinute, tapped } from "./pulse";

const taps = (every_ms: number, count: number) => Array.from({ length: count }, (_, i) => i * every_ms).reduce<number[]>(tapped, []);

describe("a pulse by taps", () => {
  it("is 60 when a tap comes each second", () => expect(beatsPerMinute(taps(1000, 16))).toBe(60));
  it("counts the spaces, not the taps", () => expect(beatsPerMinute([0, 500])).toBe(120));
  it("is nothing after one tap", () => expect(beatsPerMinute([0])).toBeUndefined());
  it("begins anew after a pause", () => expect(tapped(taps(1000, 5), 9000)).toEqual([9000]));
});
