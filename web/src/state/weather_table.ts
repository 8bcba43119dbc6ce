// Weather pasted from a spreadsheet or read from a CSV file, as the hours of a ride.
import type { RideDocument } from "../engine/answers/ride";
import { numberIn } from "../format/formats";
import { celsius, scaleOf, toFile, type Scale } from "../format/units";

export type WeatherHour = NonNullable<RideDocument["weather"]>[number];
export type WeatherColumn = keyof WeatherHour;
export interface WeatherSlip {
  row: number; // 1 is the first of what was pasted
  text: string; // the cell that could not be read
}

export const weatherColumns: WeatherColumn[] = [
  "time", "temperature_c", "humidity_pct", "wind_ms", "radiation_wm2", "cloud_pct", "pressure_hpa", "rain_mm",
];
const starts: [RegExp, WeatherColumn][] = [
  [/^(time|hour|date)/, "time"],
  [/^temp/, "temperature_c"],
  [/^(humid|rh\b|rel)/, "humidity_pct"],
  [/^wind/, "wind_ms"],
  [/^(radiation|sun|solar|global)/, "radiation_wm2"],
  [/^cloud/, "cloud_pct"],
  [/^press/, "pressure_hpa"],
  [/^(rain|precip)/, "rain_mm"],
];
const one: Scale = { unit: "", factor: 1, offset: 0 };

interface Column {
  name: WeatherColumn;
  scale: Scale;
}

function columnIn(heading: string): Column | undefined {
  const word = heading.trim().toLowerCase();
  const name = starts.find(([start]) => start.test(word))?.[1];
  if (!name) return undefined;
  const rest = word.replace(/^[a-z]+/, "");
  if (name === "wind_ms" && /km\/?h/.test(rest)) return { name, scale: { unit: "", factor: 1 / 3.6, offset: 0 } };
  if (name === "wind_ms" && /mph/.test(rest)) return { name, scale: scaleOf("ms", "imperial", "en-GB") };
  if (name === "temperature_c" && /f\b/.test(rest)) return { name, scale: scaleOf("c", "imperial", "en-GB") };
  return { name, scale: one };
}

function cellsOf(text: string): string[][] {
  const lines = text.split(/\r?\n/).filter((line) => line.trim() !== "" && !line.startsWith("#"));
  const first = lines[0] ?? "";
  const mark = first.includes("\t") ? "\t" : first.includes(";") ? ";" : ",";
  return lines.map((line) => line.split(mark).map((cell) => cell.trim().replace(/^"|"$/g, "")));
}

// `start` is the wall clock of the ride ("2026-06-13T07:00"): "07:00" is on its day, and goes on into the next one after midnight.
export function weatherIn(text: string, start: string): { hours: WeatherHour[]; slips: WeatherSlip[] } {
  const rows = cellsOf(text);
  const heads = (rows[0] ?? []).map(columnIn);
  const hasHeads = heads.some((column) => column !== undefined);
  const columns: (Column | undefined)[] = hasHeads ? heads : weatherColumns.map((name) => ({ name, scale: one }));

  const hours: WeatherHour[] = [];
  const slips: WeatherSlip[] = [];
  let day = start.slice(0, 10);
  let before = "";
  for (const [index, row] of rows.entries()) {
    if (index === 0 && hasHeads) continue;
    const hour: Partial<Record<WeatherColumn, string | number>> = {};
    for (const [at, cell] of row.entries()) {
      const column = columns[at];
      if (!column || cell === "") continue;
      if (column.name === "time") {
        const clock = /^(\d{1,2})[:.h](\d\d)(:\d\d)?$/.exec(cell);
        if (clock) {
          const time = `${clock[1]!.padStart(2, "0")}:${clock[2]}`;
          if (time < before) day = nextDay(day);
          before = time;
          hour.time = `${day}T${time}`;
        } else if (/^\d{4}-\d\d-\d\d[T ]\d\d:\d\d/.test(cell)) hour.time = cell.replace(" ", "T");
        else slips.push({ row: index + 1, text: cell });
        continue;
      }
      const value = numberIn(cell.replace(/\s*(°?[cf]|%|m\/s|km\/h|mph|hpa|mm)$/i, ""));
      if (value === undefined) slips.push({ row: index + 1, text: cell });
      else hour[column.name] = Number(toFile(value, column.scale).toFixed(2));
    }
    if (hour.time !== undefined && hour.temperature_c !== undefined && hour.humidity_pct !== undefined)
      hours.push(hour as WeatherHour);
    else if (!slips.some(({ row: of }) => of === index + 1)) slips.push({ row: index + 1, text: row.join(" ") });
  }
  return { hours, slips };
}

const nextDay = (day: string): string => new Date(Date.parse(`${day}T00:00Z`) + 86_400_000).toISOString().slice(0, 10);

// One more hour after the last one, as the last one was; the first one at the start.
export function hourAfter(hours: WeatherHour[], start: string): WeatherHour {
  const last = hours.at(-1);
  if (!last) return { time: start.slice(0, 16), temperature_c: celsius(15), humidity_pct: 70 };
  const written = last.time.slice(0, 16);
  const next = new Date(Date.parse(`${written}Z`) + 3_600_000).toISOString().slice(0, 16);
  return { ...last, time: next + last.time.slice(16) };
}
