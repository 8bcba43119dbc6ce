// What part of a whole is on show. Zooming keeps the value under the hand where it is; neither zooming nor panning leaves the whole.
import { clamp, lengthOf, type Span } from "./scale";

export function inside(part: Span, whole: Span, least: number): Span {
  const length = clamp(lengthOf(part), Math.min(least, lengthOf(whole)), lengthOf(whole));
  const middle = (part.from + part.to) / 2;
  const from = clamp(middle - length / 2, whole.from, whole.to - length);
  return { from, to: from + length };
}

// `factor` above 1 shows less; `around` stays at its place.
export function zoomed(part: Span, factor: number, around: number, whole: Span, least: number): Span {
  const length = clamp(lengthOf(part) / factor, Math.min(least, lengthOf(whole)), lengthOf(whole));
  const share = lengthOf(part) === 0 ? 0.5 : (around - part.from) / lengthOf(part);
  const from = clamp(around - share * length, whole.from, whole.to - length);
  return { from, to: from + length };
}

export function panned(part: Span, by: number, whole: Span): Span {
  const from = clamp(part.from + by, whole.from, whole.to - lengthOf(part));
  return { from, to: from + lengthOf(part) };
}

export const isWhole = (part: Span, whole: Span): boolean => part.from <= whole.from && part.to >= whole.to;
