import { expect, test } from "vitest";
import { roomOf, rounded, stepped } from "./handles";
import type { DayMap, MarkedPass } from "./marks";

const pass = (label: string, loop: number, nth: number, ride_km: number) => ({ label, loop, nth, ride_km, point: 0 }) as MarkedPass;
const map = {
  loops: [{ from_km: 0, to_km: 10 }, { from_km: 10, to_km: 20 }],
  points: [{ passes: [pass("a", 1, 1, 4), pass("b", 1, 2, 7), pass("c", 2, 1, 12)] }],
} as unknown as DayMap;

test("a pass may be moved up to its neighbours of the same loop and to the ends of the loop", () => {
  expect(roomOf(map, map.points[0]!.passes[0]!)).toEqual({ from: 0, to: 6.99 });
  expect(roomOf(map, map.points[0]!.passes[1]!)).toEqual({ from: 4.01, to: 10 });
  expect(roomOf(map, map.points[0]!.passes[2]!)).toEqual({ from: 10, to: 20 });
});

test("kilometres are rounded to five metres", () => {
  expect(rounded(3.14159)).toBe(3.14);
  expect(rounded(3.1432)).toBe(3.145);
});

test("a step is 25 m and stops at the neighbour", () => {
  const [first, second] = map.points[0]!.passes;
  expect(stepped(map, first!, 1)).toBe(4.025);
  expect(stepped(map, second!, -200)).toBe(4.01);
  expect(stepped(map, map.points[0]!.passes[2]!, 1)).toBe(2.025);
});
