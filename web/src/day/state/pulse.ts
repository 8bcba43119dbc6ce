// A pulse counted by a tap a beat. Beats a minute out of the time between the first tap and the last; two taps are needed, and a
// pause of more than three seconds begins anew (20 beats a minute is the least that a log takes).
export const longestPause_ms = 3000;
export const fewestTaps = 8; // before a count is offered to be noted: common practice counts at least a quarter of a minute

export function tapped(taps: readonly number[], at: number): number[] {
  const last = taps.at(-1);
  return last === undefined || at - last > longestPause_ms ? [at] : [...taps, at];
}
export function beatsPerMinute(taps: readonly number[]): number | undefined {
  if (taps.length < 2) return undefined;
  return (60_000 * (taps.length - 1)) / (taps.at(-1)! - taps[0]!);
}
