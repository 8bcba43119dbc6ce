// Fields of a ride by path, written as the engine writes them: "loops[0].speed_kmh", "files.weather". Documents are never
// changed in place: setting a field gives a new document that shares all the rest, so that undo is a list of documents.
export type Key = string | number;

export function keysOf(path: string): Key[] {
  return [...path.matchAll(/([^.[\]]+)|\[(\d+)\]/g)].map((match) => (match[2] === undefined ? match[1]! : Number(match[2])));
}

export function pathOf(keys: Key[]): string {
  return keys.reduce<string>(
    (path, key) => path + (typeof key === "number" ? `[${key}]` : path === "" ? key : `.${key}`),
    "",
  );
}

const isObject = (value: unknown): value is Record<Key, unknown> => typeof value === "object" && value !== null;

export function valueAt(document: unknown, path: string): unknown {
  return keysOf(path).reduce<unknown>((value, key) => (isObject(value) ? value[key] : undefined), document);
}

// The document with the value there; undefined takes the field away. An object left empty by that goes too, because an empty
// `venue` says no more than none. What is missing on the way is made.
export function withValueAt<T>(document: T, path: string, value: unknown): T {
  return withKeys(document, keysOf(path), value) as T;
}

function withKeys(holder: unknown, keys: Key[], value: unknown): unknown {
  const [key, ...rest] = keys;
  if (key === undefined) return value;
  if (typeof key === "number") {
    const list = Array.isArray(holder) ? [...holder] : [];
    const inner = withKeys(list[key], rest, value);
    if (inner === undefined && rest.length === 0) list.splice(key, 1);
    else list[key] = inner ?? {};
    return list;
  }
  const record: Record<string, unknown> = isObject(holder) && !Array.isArray(holder) ? { ...holder } : {};
  const inner = withKeys(record[key], rest, value);
  if (inner === undefined || (rest.length > 0 && typeof rest[0] === "string" && isEmpty(inner))) delete record[key];
  else record[key] = inner;
  return record;
}

const isEmpty = (value: unknown): boolean => isObject(value) && !Array.isArray(value) && Object.keys(value).length === 0;

export const isWithin = (path: string, holder: string): boolean =>
  path === holder || path.startsWith(`${holder}.`) || path.startsWith(`${holder}[`);

// Texts kept by path after the item `index` of the list has been taken out: those of the item go, those behind it move up.
export function withoutItem<V>(byPath: Record<string, V>, list: string, index: number): Record<string, V> {
  const kept: Record<string, V> = {};
  for (const [path, value] of Object.entries(byPath)) {
    const match = path.startsWith(`${list}[`) ? /^\[(\d+)\](.*)$/.exec(path.slice(list.length)) : null;
    const at = match ? Number(match[1]) : -1;
    if (at === index) continue;
    kept[at > index ? `${list}[${at - 1}]${match![2]}` : path] = value;
  }
  return kept;
}
