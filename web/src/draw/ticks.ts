// Round places on an axis. Times are seconds since 1970 UTC; a tick falls on a full hour of the clock of the ride, whose offset
// from UTC may change on the day.
import type { Span } from "./scale";

const steps_s = [300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400];

export function timeStep(span: Span, pixels: number, apart: number): number {
  return steps_s.find((step) => (step / (span.to - span.from)) * pixels >= apart) ?? 86400;
}

// `offsetAt` gives local minus UTC in seconds.
export function timeTicks(span: Span, pixels: number, apart: number, offsetAt: (at_s: number) => number): number[] {
  const step = timeStep(span, pixels, apart);
  const ticks: number[] = [];
  for (let at = span.from; at <= span.to; ) {
    const offset = offsetAt(at);
    const tick = Math.ceil((at + offset) / step) * step - offset;
    // Past a change of the clock the ticks start anew on its hours.
    if (offsetAt(tick) !== offset && tick > at) {
      at = changeBetween(at, tick, offsetAt);
      continue;
    }
    if (tick > span.to) break;
    ticks.push(tick);
    at = tick + 1;
  }
  return ticks;
}

// The first second between two at which the offset is the later one.
function changeBetween(from: number, to: number, offsetAt: (at_s: number) => number): number {
  const later = offsetAt(to);
  let [low, high] = [from, to];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offsetAt(middle) === later) high = middle;
    else low = middle;
  }
  return high;
}

export function roundStep(span: Span, pixels: number, apart: number): number {
  const rough = ((span.to - span.from) / Math.max(pixels, 1)) * apart;
  if (!(rough > 0)) return 1;
  const power = 10 ** Math.floor(Math.log10(rough));
  return [1, 2, 5, 10].map((factor) => factor * power).find((step) => step >= rough) ?? 10 * power;
}

export function roundTicks(span: Span, pixels: number, apart: number): number[] {
  const step = roundStep(span, pixels, apart);
  const ticks: number[] = [];
  for (let i = Math.ceil(span.from / step); i * step <= span.to + step * 1e-9; ++i) ticks.push(i * step);
  return ticks;
}
