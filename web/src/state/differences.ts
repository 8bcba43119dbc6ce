// What differs between two texts of a ride that grew from the same one, field by field, for a person to choose.
import { pathOf, valueAt, withValueAt, type Key } from "./path";

export interface Difference {
  path: string;
  base: unknown;
  mine: unknown;
  theirs: unknown;
  // Where only one side changed the field, that side; a person decides where both did.
  suggested: "mine" | "theirs" | undefined;
}

const isPlain = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

export const isSame = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (Array.isArray(a) && Array.isArray(b)) return a.length === b.length && a.every((item, index) => isSame(item, b[index]));
  if (isPlain(a) && isPlain(b)) {
    const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
    return [...keys].every((key) => isSame(a[key], b[key]));
  }
  return false;
};

// Lists of the same length are compared item by item; one that grew or shrank is one field, because an item's place in it is
// no name for the item.
export function differences(base: unknown, mine: unknown, theirs: unknown, keys: Key[] = []): Difference[] {
  if (isSame(mine, theirs)) return [];
  if (isPlain(mine) && isPlain(theirs)) {
    const names = [...new Set([...Object.keys(mine), ...Object.keys(theirs)])].sort();
    const inner = isPlain(base) ? base : {};
    return names.flatMap((name) => differences(inner[name], mine[name], theirs[name], [...keys, name]));
  }
  if (Array.isArray(mine) && Array.isArray(theirs) && mine.length === theirs.length && mine.some(isPlain)) {
    const inner: unknown[] = Array.isArray(base) && base.length === mine.length ? base : [];
    return mine.flatMap((item, index) => differences(inner[index], item, theirs[index], [...keys, index]));
  }
  const suggested = isSame(mine, base) ? "theirs" : isSame(theirs, base) ? "mine" : undefined;
  return [{ path: pathOf(keys), base, mine, theirs, suggested }];
}

// Theirs, with mine put over it where it was chosen.
export function chosen<T>(mine: T, theirs: T, paths: string[]): T {
  return paths.reduce<T>((document, path) => withValueAt(document, path, valueAt(mine, path)), theirs);
}
