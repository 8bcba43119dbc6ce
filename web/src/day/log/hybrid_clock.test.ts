import { describe, expect, it } from "vitest";
import { beforeAll, compareHybrid, laterHybrid, nextHybridTime, type HybridTime } from "./hybrid_clock";

function notedAt(deviceTimes: number[], from: HybridTime = beforeAll): HybridTime[] {
  const noted: HybridTime[] = [];
  let latest = from;
  for (const time of deviceTimes) noted.push((latest = nextHybridTime(latest, time)));
  return noted;
}
const runsForwards = (times: HybridTime[]) => times.every((time, i) => i === 0 || compareHybrid(times[i - 1]!, time) < 0);

describe("hybrid clock", () => {
  it("follows the device's clock while that runs forwards", () => {
    expect(notedAt([1000, 2000, 3000])).toEqual([[1000, 0], [2000, 0], [3000, 0]]);
  });
  it("counts on within one millisecond", () => {
    expect(notedAt([1000, 1000, 1000])).toEqual([[1000, 0], [1000, 1], [1000, 2]]);
  });
  it("never runs backwards when the device's clock is put back an hour", () => {
    const hour = 3_600_000;
    const noted = notedAt([10 * hour, 9 * hour, 9 * hour + 1, 10 * hour + 1]);
    expect(noted).toEqual([[10 * hour, 0], [10 * hour, 1], [10 * hour, 2], [10 * hour + 1, 0]]);
  });
  it("never runs backwards over ten thousand jumps of the device's clock", () => {
    let seed = 7;
    const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
    const times = Array.from({ length: 10_000 }, () => Math.floor(1.78e12 + (random() - 0.5) * 1e7));
    expect(runsForwards(notedAt(times))).toBe(true);
  });
  it("runs on over midnight and over the night in which clocks are put back", () => {
    const midnight = Date.parse("2026-10-25T00:00:00+01:00");
    const change = Date.parse("2026-10-25T02:00:00+01:00"); // 02:00 summer time is 01:00 winter time
    const noted = notedAt([midnight - 1, midnight, midnight + 1, change - 1, change, change + 1]);
    expect(noted.map(([ms]) => ms)).toEqual([midnight - 1, midnight, midnight + 1, change - 1, change, change + 1]);
  });
  it("is later than what another device noted before, though its own clock is slow", () => {
    const others: HybridTime = [5000, 3];
    expect(compareHybrid(others, nextHybridTime(laterHybrid([1000, 0], others), 1200))).toBeLessThan(0);
  });
});
