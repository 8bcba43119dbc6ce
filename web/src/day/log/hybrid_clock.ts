// When an event was noted: the same hybrid logical clock as the engine's (core/live/hybrid_clock.h; S. S. Kulkarni, M. Demirbas
// and others, Logical physical clocks, OPODIS 2014). It never runs backwards on a device, whatever the phone's clock does, and
// what was noted after another's note was taken in is later than that note.
export type HybridTime = readonly [milliseconds: number, count: number];

// `latest`: the latest of all notes that the device holds, its own and others'.
export function nextHybridTime(latest: HybridTime, deviceMilliseconds: number): HybridTime {
  const device = Math.max(0, Math.floor(deviceMilliseconds));
  return device > latest[0] ? [device, 0] : [latest[0], latest[1] + 1];
}

export const compareHybrid = (a: HybridTime, b: HybridTime): number => a[0] - b[0] || a[1] - b[1];
export const laterHybrid = (a: HybridTime, b: HybridTime): HybridTime => (compareHybrid(a, b) < 0 ? b : a);
export const beforeAll: HybridTime = [0, 0];
