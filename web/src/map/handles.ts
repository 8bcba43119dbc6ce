// How far a pass may be moved along its loop, and in which steps.
import type { DayMap, MarkedPass } from "./marks";

export const step_km = 0.025;
const apart_km = 0.01; // two passes of a point keep their order

// To five metres: a hand places nothing nearer.
export const rounded = (km: number): number => Math.round(km * 200) / 200;

// In kilometres of the ride: within its loop, and between the passes of the same point before and behind it.
export function roomOf(map: DayMap, pass: MarkedPass): { from: number; to: number } {
  const loop = map.loops[pass.loop - 1]!;
  const others = map.points[pass.point]!.passes.filter((it) => it.loop === pass.loop && it.label !== pass.label);
  const before = others.filter((it) => it.nth < pass.nth).map((it) => it.ride_km + apart_km);
  const behind = others.filter((it) => it.nth > pass.nth).map((it) => it.ride_km - apart_km);
  return { from: Math.max(loop.from_km, ...before), to: Math.min(loop.to_km, ...behind) };
}

// One step along the loop, in kilometres of the loop.
export function stepped(map: DayMap, pass: MarkedPass, steps: number): number {
  const room = roomOf(map, pass);
  const to = Math.min(room.to, Math.max(room.from, pass.ride_km + steps * step_km));
  return rounded(to - map.loops[pass.loop - 1]!.from_km);
}
