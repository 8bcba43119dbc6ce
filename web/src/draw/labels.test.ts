import { describe, expect, it } from "vitest";
import { roomFor, shortened, spreadOut } from "./labels";

describe("labels spread out", () => {
  it("stay where they are if they do not touch", () => {
    expect(spreadOut([10, 40, 80], 12, 0, 100)).toEqual([10, 40, 80]);
  });
  it("come to lie about their mean if they do", () => {
    expect(spreadOut([50, 50], 10, 0, 100)).toEqual([45, 55]);
  });
  it("keep order, pitch and ends, whatever is wanted", () => {
    let seed = 7;
    const random = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (let run = 0; run < 300; ++run) {
      const count = 1 + Math.floor(random() * 9);
      const wanted = Array.from({ length: count }, () => random() * 100).sort((a, b) => a - b);
      const places = spreadOut(wanted, 10, 0, 100);
      places.forEach((place, i) => {
        expect(place).toBeGreaterThanOrEqual(-1e-9);
        expect(place).toBeLessThanOrEqual(100 + 1e-9);
        if (i > 0) expect(place - places[i - 1]!).toBeGreaterThanOrEqual(10 - 1e-9);
      });
    }
  });
});

it("of labels that touch the more important has the room", () => {
  expect(roomFor([0, 5, 20, 24], 10, [1, 2, 2, 1])).toEqual([1, 2]);
});

it("a long name keeps its beginning and its end", () => {
  expect(shortened("Jubbgarth Lane End", 12)).toBe("Jubbga…e End");
  expect(shortened("Mill Ford", 12)).toBe("Mill Ford");
});
