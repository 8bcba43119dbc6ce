// From values to pixels and back, on a straight scale.
export interface Span {
  from: number;
  to: number;
}

export interface Scale {
  at: (value: number) => number;
  from: (pixel: number) => number;
  values: Span;
  pixels: Span;
}

export function scaleBetween(values: Span, pixels: Span): Scale {
  const length = values.to - values.from || 1;
  const factor = (pixels.to - pixels.from) / length;
  return {
    at: (value) => pixels.from + (value - values.from) * factor,
    from: (pixel) => values.from + (pixel - pixels.from) / (factor || 1),
    values,
    pixels,
  };
}

export const lengthOf = ({ from, to }: Span): number => to - from;
export const clamp = (value: number, from: number, to: number): number => Math.min(Math.max(value, from), Math.max(from, to));
export const isWithin = (value: number, { from, to }: Span): boolean => value >= from && value <= to;
