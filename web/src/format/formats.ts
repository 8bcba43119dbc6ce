// All text made of numbers. Locale, zone and units come in once, in formatsFor(); a view writes `formats.length(km(12.4))`.
// Rounding is for reading: whole minutes, a tenth of a kilometre, half litres.
import { strings } from "../strings";
import {
  celsius, fromFile, kilograms, km, kmPerHour, litres, metres, metresPerSecond, minutes, scaleOf, toFile,
  type Celsius, type Kilograms, type Km, type KmPerHour, type Litres, type Measure, type Metres, type MetresPerSecond,
  type Millimetres, type Minutes, type Scale, type UnitSystem,
} from "./units";
import { clockAt, dayAt, wallClock, type Instant, type Zone } from "./zone";

export { celsius, kilograms, km, kmPerHour, litres, metres, metresPerSecond, minutes };
export type Odds = "all but sure" | "likely" | "even" | "unlikely";

export interface Formats {
  locale: string;
  units: UnitSystem;
  time(at: Instant): string; // "09:04"
  timeNear(at: Instant, near: Instant): string; // with the day when it is not the day of `near`: "Sun 00:15"
  range(from: Instant, to: Instant): string; // "09:04–09:31"
  day(at: Instant): string; // "Saturday 13 June 2026"
  shortDay(at: Instant): string; // "Sat 13 Jun"
  dayAndTime(at: Instant): string; // "Sat 13 Jun, 09:04"
  wall(written: string): string; // for a field of date and time
  duration(value: Minutes): string; // "1 h 25 min"
  stopwatch(seconds: number): string; // "4:05", minutes and seconds
  change(value: Minutes): string; // "+4 min", "−1 h"
  length(value: Km): string; // "12.4 km", "350 m"
  height(value: Metres): string;
  size(value: Millimetres): string;
  speed(value: KmPerHour): string;
  wind(value: MetresPerSecond): string;
  temperature(value: Celsius): string;
  volume(value: Litres): string;
  mass(value: Kilograms): string;
  number(value: number, digits?: number): string; // at most so many digits after the point
  signed(value: number, digits?: number): string; // "+0.4", "−1"
  percent(share: number): string;
  odds(chance: number): Odds; // the engine's own borders; strings.odds[...] are the words
  list(items: string[]): string; // "ford, gate and barn"
  bytes(count: number): string;
  scale(measure: Measure): Scale; // for a field that is typed in
}

const nbsp = "\u00a0";
const minus = "\u2212";

export function formatsFor({ locale, units, zone }: { locale: string; units: UnitSystem; zone: Zone }): Formats {
  const clock = (options: Intl.DateTimeFormatOptions) => {
    const format = new Intl.DateTimeFormat(locale, { timeZone: "UTC", ...options });
    return (at: Instant) => {
      const date = clockAt(at, zone);
      return Number.isNaN(date.getTime()) ? "" : format.format(date);
    };
  };
  const time = clock({ hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
  const weekday = clock({ weekday: "short" });
  const day = clock({ weekday: "long", day: "numeric", month: "long", year: "numeric" });
  const shortDay = clock({ weekday: "short", day: "numeric", month: "short" });
  const list = new Intl.ListFormat(locale, { type: "conjunction" });

  const number = (value: number, digits = 1): string =>
    (Object.is(Math.round(value * 10 ** digits), -0) ? 0 : value)
      .toLocaleString(locale, { maximumFractionDigits: digits })
      .replace("-", minus);
  const signed = (value: number, digits = 1): string => {
    const text = number(value, digits);
    return text === "0" || text.startsWith(minus) ? text : `+${text}`;
  };
  const scale = (measure: Measure) => scaleOf(measure, units, locale);
  const measured = (value: number, measure: Measure, digits: number): string => {
    const to = scale(measure);
    return `${number(fromFile(value, to), digits)}${nbsp}${to.unit}`;
  };

  const duration = (value: number): string => {
    const whole = Math.round(value);
    if (whole === 0 && value > 0) return strings.units.underAMinute;
    const hours = Math.floor(whole / 60);
    const rest = whole % 60;
    if (hours === 0) return `${number(rest, 0)}${nbsp}${strings.units.minutes}`;
    const inHours = `${number(hours, 0)}${nbsp}${strings.units.hours}`;
    return rest === 0 ? inHours : `${inHours}${nbsp}${number(rest, 0)}${nbsp}${strings.units.minutes}`;
  };

  return {
    locale,
    units,
    time,
    timeNear: (at, near) => (dayAt(at, zone) === dayAt(near, zone) ? time(at) : `${weekday(at)}${nbsp}${time(at)}`),
    range: (from, to) =>
      dayAt(from, zone) === dayAt(to, zone) ? `${time(from)}–${time(to)}` : `${time(from)} – ${weekday(to)}${nbsp}${time(to)}`,
    day,
    shortDay,
    dayAndTime: (at) => `${shortDay(at)}, ${time(at)}`,
    wall: (written) => wallClock(written, zone),
    stopwatch: (seconds) => {
      const whole = Math.round(Math.abs(seconds));
      return `${seconds < -0.5 ? minus : ""}${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
    },
    duration: (value) => (value < 0 ? `${minus}${duration(-value)}` : duration(value)),
    change: (value) => (Math.round(value) === 0 ? duration(0) : `${value < 0 ? minus : "+"}${duration(Math.abs(Math.round(value)))}`),
    length: (value) => {
      if (units === "metric" && Math.abs(value) < 0.9995) return `${number(value * 1000, 0)}${nbsp}m`;
      return measured(value, "km", 1);
    },
    height: (value) => measured(value, "m", 0),
    size: (value) => (units === "metric" ? `${number(value / 10, 1)}${nbsp}cm` : measured(value, "mm", 1)),
    speed: (value) => measured(value, "kmh", 1),
    wind: (value) => measured(value, "ms", 0),
    temperature: (value) => measured(value, "c", 0),
    volume: (value) => measured(value, "litres", 1),
    mass: (value) => measured(value, "kg", 1),
    number,
    signed,
    // Never "0 %" of what may happen nor "100 %" of what may not.
    percent: (share) => {
      const whole = Math.round(share * 100);
      if (whole === 0 && share > 0) return `<${nbsp}1${nbsp}%`;
      if (whole === 100 && share < 1) return `>${nbsp}99${nbsp}%`;
      return `${number(whole, 0)}${nbsp}%`;
    },
    odds: (chance) => (chance >= 0.95 ? "all but sure" : chance >= 0.8 ? "likely" : chance >= 0.5 ? "even" : "unlikely"),
    list: (items) => list.format(items),
    bytes: (count) =>
      count < 1000 ? `${number(count, 0)}${nbsp}B`
      : count < 999_500 ? `${number(count / 1000, 0)}${nbsp}kB`
      : count < 999_500_000 ? `${number(count / 1e6, 1)}${nbsp}MB`
      : `${number(count / 1e9, 1)}${nbsp}GB`,
    scale,
  };
}

// A number as people type it: "12,5" and "12.5" alike; nothing else is guessed.
export function numberIn(text: string): number | undefined {
  const plain = text.trim().replace(/\s/g, "").replace(minus, "-").replace(",", ".");
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : undefined;
}

// A typed number in the unit of the ride file, free of the last binary digits that a change of unit leaves.
export const typedIn = (written: number, scale: Scale): number => Number(toFile(written, scale).toPrecision(10));
// What a field shows of a value of the ride file: as few digits as give it back, four after the point at most.
export const shownIn = (value: number, scale: Scale): string => String(Number(fromFile(value, scale).toFixed(4)));
