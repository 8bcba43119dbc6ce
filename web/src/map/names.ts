// Which places have room for their name on the map: those whose plate, name and all, would lie over no other plate.
export interface Plate {
  name: string;
  marks: number; // shapes in it
  x: number;
  y: number;
}

const letter = 7.4; // pixels, on average, of the bold small print
const widthOf = ({ name, marks }: Plate, withName: boolean): number => 16 + marks * 19 + (withName ? name.length * letter + 6 : 0);
const height = 38; // plate and stem

const overlaps = (a: Plate, aNamed: boolean, b: Plate, bNamed: boolean): boolean =>
  Math.abs(a.x - b.x) < (widthOf(a, aNamed) + widthOf(b, bNamed)) / 2 && Math.abs(a.y - b.y) < height;

export function namedPoints(plates: Plate[]): Set<number> {
  const named = new Set<number>();
  plates.forEach((plate, i) => {
    const isFree = plates.every((other, k) => k === i || !overlaps(plate, true, other, named.has(k)));
    if (isFree) named.add(i);
  });
  return named;
}
