// Units as types: a number with a unit is made here and nowhere else, and changed from one unit to another here.
type In<Unit extends string> = number & { readonly unit: Unit };
export type Km = In<"km">;
export type Metres = In<"m">;
export type Millimetres = In<"mm">;
export type KmPerHour = In<"km/h">;
export type MetresPerSecond = In<"m/s">;
export type Minutes = In<"min">;
export type Celsius = In<"°C">;
export type Litres = In<"l">;
export type Kilograms = In<"kg">;

export const km = (value: number): Km => value as Km;
export const metres = (value: number): Metres => value as Metres;
export const millimetres = (value: number): Millimetres => value as Millimetres;
export const kmPerHour = (value: number): KmPerHour => value as KmPerHour;
export const metresPerSecond = (value: number): MetresPerSecond => value as MetresPerSecond;
export const minutes = (value: number): Minutes => value as Minutes;
export const celsius = (value: number): Celsius => value as Celsius;
export const litres = (value: number): Litres => value as Litres;
export const kilograms = (value: number): Kilograms => value as Kilograms;

// A unit that people write a value in, beside the one that the ride file has. `inFile = written * factor + offset`.
export interface Scale {
  unit: string;
  factor: number;
  offset: number;
}
const scale = (unit: string, factor = 1, offset = 0): Scale => ({ unit, factor, offset });

// Exact by definition: the mile, yard, foot and inch of 1959, the imperial gallon of 1985, the US gallon of 231 cubic inches,
// the pound of 1959.
export const kmInMile = 1.609344;
export const metresInFoot = 0.3048;
export const mmInInch = 25.4;
export const litresInGallon = 4.54609;
export const litresInUsGallon = 3.785411784;
export const kgInPound = 0.45359237;

export type Measure =
  | "km" | "m" | "mm" | "kmh" | "ms" | "min" | "c" | "litres" | "kg" | "g" | "pct" | "rain" | "hpa" | "wm2" | "plain";
export type UnitSystem = "metric" | "imperial";

const metric: Record<Measure, Scale> = {
  km: scale("km"), m: scale("m"), mm: scale("mm"), kmh: scale("km/h"), ms: scale("m/s"), min: scale("min"),
  c: scale("°C"), litres: scale("l"), kg: scale("kg"), g: scale("g"), pct: scale("%"), rain: scale("mm"),
  hpa: scale("hPa"), wm2: scale("W/m²"), plain: scale(""),
};
const imperial: Partial<Record<Measure, Scale>> = {
  km: scale("mi", kmInMile),
  m: scale("ft", metresInFoot),
  mm: scale("in", mmInInch),
  kmh: scale("mph", kmInMile),
  ms: scale("mph", kmInMile / 3.6),
  c: scale("°F", 5 / 9, (-32 * 5) / 9),
  litres: scale("gal", litresInGallon),
  kg: scale("lb", kgInPound),
  rain: scale("in", mmInInch),
};

// How a measure is written by people who use that system; a gallon in the United States is theirs.
export function scaleOf(measure: Measure, system: UnitSystem, locale: string): Scale {
  if (system === "metric") return metric[measure];
  if (measure === "litres" && locale === "en-US") return scale("US gal", litresInUsGallon);
  return imperial[measure] ?? metric[measure];
}
export const toFile = (written: number, { factor, offset }: Scale): number => written * factor + offset;
export const fromFile = (value: number, { factor, offset }: Scale): number => (value - offset) / factor;
