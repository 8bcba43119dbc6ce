// How lines are told apart: by dashes and by hue, and always with a label beside them. The same for loops, horses and cars
// wherever they are drawn.
const dashes = ["", "9 4", "2.5 3", "12 3 2.5 3", "5 2.5 5 6", "16 5", "8 3 2 3 2 3", "1.5 5"];
const hues = 7;

export const dashOf = (index: number): string => dashes[index % dashes.length]!;
// A token of look.css. Where dashes repeat, hues do not.
export const hueOf = (index: number): string => `var(--hue-${((index + Math.floor(index / dashes.length)) % hues) + 1})`;
