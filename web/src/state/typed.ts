// From what is typed in a field to a value of the ride, or to what is wrong with it; and back.
import { numberIn, shownIn, typedIn, type Formats } from "../format/formats";
import { fromFile, type Scale } from "../format/units";
import { strings } from "../strings";
import { factsOf, limitsOf } from "./ride_fields";

export type Typed = { ok: true; value: string | number | undefined } | { ok: false; what: string };

const share: Scale = { unit: "%", factor: 0.01, offset: 0 };

export function scaleOfField(path: string, formats: Formats): Scale {
  const facts = factsOf(path);
  return facts.kind === "percent" ? share : formats.scale(facts.measure ?? "plain");
}

const isNumber = (path: string): boolean => ["number", "integer"].includes(limitsOf(path).type);

export function readTyped(path: string, text: string, formats: Formats): Typed {
  const limits = limitsOf(path);
  const isEmpty = text.trim() === "";
  if (!isNumber(path)) {
    if (isEmpty) return mustBeThere(path) ? { ok: false, what: strings.fields.needsText } : { ok: true, value: undefined };
    return { ok: true, value: text };
  }
  if (isEmpty) return mustBeThere(path) ? { ok: false, what: strings.fields.needsNumber } : { ok: true, value: undefined };
  const written = numberIn(text);
  if (written === undefined) return { ok: false, what: strings.fields.noNumber };
  const scale = scaleOfField(path, formats);
  const exact = typedIn(written, scale);
  // A whole number of millimetres is what an inch comes nearest to; a person or a loop does not come in halves.
  const isConverted = scale.factor !== 1;
  if (limits.type === "integer" && !isConverted && !Number.isInteger(exact)) return { ok: false, what: strings.fields.noWhole };
  const value = limits.type === "integer" ? Math.round(exact) : exact;
  const isLow = value < (limits.minimum ?? -Infinity) || (limits.exclusiveMinimum !== undefined && value <= limits.exclusiveMinimum);
  if (isLow || value > (limits.maximum ?? Infinity)) return { ok: false, what: strings.fields.outside(rangeOf(path, formats) ?? "") };
  return { ok: true, value };
}

// Names and positions of items of lists are never left out: an item without them is no item.
const required = /^(start|crew_points\[\]\.name|horses\[\]\.name|cars\[\]\.name|helpers\[\]\.name|refills\[\]\.(name|position\.(lat|lon))|errands\[\]\.(name|position\.(lat|lon))|.*\.going\[\]\.(from_km|to_km|factor)|waters\[\]\.(loop|km)|weather\[\]\.(time|temperature_c|humidity_pct)|wishes\[\]\.crew_point|.*\.open\[\]\.(from|to)|.*\[\]\.position\.(lat|lon)|.*\.intakes\[\]\.place)$/;
export const mustBeThere = (path: string): boolean => required.test(path.replace(/\[\d+\]/g, "[]"));

// "0–60 km/h", or "up to 60 km/h" where nothing at all is no value.
export function rangeOf(path: string, formats: Formats): string | undefined {
  const { type, minimum, maximum, exclusiveMinimum } = limitsOf(path);
  if (type !== "number" && type !== "integer") return undefined;
  const scale = scaleOfField(path, formats);
  const shown = (value: number) => formats.number(fromFile(value, scale), scale.factor === 1 ? 3 : 1);
  if ((minimum ?? exclusiveMinimum) === undefined || maximum === undefined || maximum > 1e9) return undefined;
  const high = `${shown(maximum)}${scale.unit ? `\u00a0${scale.unit}` : ""}`;
  return minimum === undefined ? strings.fields.upTo(high) : strings.fields.range(shown(minimum), high);
}

export const textOf = (path: string, value: unknown, formats: Formats): string =>
  typeof value === "number" ? shownIn(value, scaleOfField(path, formats)) : typeof value === "string" ? value : "";
