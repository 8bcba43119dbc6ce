// A field and its value in words, for people who compare two texts of a ride.
import { numberIn, type Formats } from "../format/formats";
import { strings } from "../strings";
import { factsOf, holderOf, patternOf } from "./ride_fields";
import { scaleOfField, textOf } from "./typed";

export function fieldWords(document: unknown, path: string): string {
  const label = strings.fieldTexts[patternOf(path)]?.label ?? strings.groups[path.split(/[.[]/)[0] ?? ""] ?? path;
  return strings.edited(label, holderOf(document, path));
}

export function valueWords(path: string, value: unknown, formats: Formats): string {
  if (value === undefined || value === null) return strings.fields.leftOut;
  if (typeof value === "boolean") return value ? strings.fields.yes : strings.fields.no;
  if (typeof value === "number") {
    const { unit } = scaleOfField(path, formats);
    const shown = textOf(path, value, formats);
    return `${formats.number(numberIn(shown) ?? value, 4)}${unit ? `\u00a0${unit}` : ""}`;
  }
  if (typeof value === "string") {
    if (factsOf(path).kind === "time") return formats.wall(value).replace("T", ", ") || value;
    return strings.choices[value] ?? value;
  }
  if (Array.isArray(value)) {
    if (value.length === 0) return strings.fields.none;
    const names = value.map((item) => nameOf(item, formats));
    return names.every((name) => name !== undefined) ? formats.list(names) : strings.fields.items(value.length);
  }
  return nameOf(value, formats) ?? JSON.stringify(value);
}

function nameOf(item: unknown, formats: Formats): string | undefined {
  if (typeof item === "string") return item;
  if (typeof item === "number") return formats.number(item, 4);
  if (typeof item !== "object" || item === null) return undefined;
  const { name, crew_point } = item as { name?: unknown; crew_point?: unknown };
  return typeof name === "string" ? name : typeof crew_point === "string" ? crew_point : undefined;
}
