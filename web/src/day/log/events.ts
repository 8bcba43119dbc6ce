// Events of the day log as docs/day.md has them. The page makes them; what they mean is worked out by the engine alone.
import type { HybridTime } from "./hybrid_clock";

export type DayKind =
  | "horse_in" | "horse_out" | "car_at" | "car_left" | "number_seen" | "word" | "watch_begin" | "watch_end" | "break_begin"
  | "break_end" | "watched" | "gate_in_time" | "gate_outcome" | "gate_out" | "drink" | "electrolyte" | "feed" | "pulse"
  | "stock_used" | "stock_filled" | "note";

export type Unit = "L" | "kg" | "g" | "pieces";

// Fields beside `kind` and `at` are those of the kind; docs/schema/day-log-1.json describes them.
export interface DayEntry {
  kind: DayKind;
  at: string; // ISO 8601 with offset, whole seconds
  horse?: string;
  car?: string;
  place?: string;
  loop?: number;
  nth?: number;
  number?: string;
  who?: string;
  until?: string;
  seen_at?: string;
  doubt_s?: number;
  trust?: number;
  not_yet?: boolean;
  overlook?: number;
  what?: string;
  amount?: number;
  unit?: Unit;
  beats?: number;
  presented?: boolean;
  accepted?: boolean;
  text?: string;
  photo?: string;
}

export type DayAct = DayEntry | { kind: "correct"; of: string; entry: DayEntry } | { kind: "withdraw"; of: string };
export type DayEvent = { id: string; device: string; noted: HybridTime } & DayAct;

// The time as it goes into the log, with its offset, so that midnight and a change of clocks mean nothing.
export const written = (milliseconds: number): string => `${new Date(Math.round(milliseconds / 1000) * 1000).toISOString().slice(0, 19)}+00:00`;

export function eventOf(act: DayAct, device: string, noted: HybridTime): DayEvent {
  return { id: `${device}-${noted[0]}-${noted[1]}`, device, noted, ...act };
}
export const lineOf = (event: DayEvent): string => JSON.stringify(event);

// The event that a line holds, or nothing when it is torn or no event: the engine says what is wrong with it.
export function eventIn(line: string): DayEvent | undefined {
  try {
    const json: unknown = JSON.parse(line);
    if (typeof json !== "object" || json === null) return undefined;
    const event = json as DayEvent;
    const isNoted = Array.isArray(event.noted) && event.noted.length === 2 && event.noted.every((n) => Number.isSafeInteger(n) && n >= 0);
    return typeof event.id === "string" && typeof event.device === "string" && typeof event.kind === "string" && isNoted ? event : undefined;
  } catch {
    return undefined;
  }
}

// The name of a device: what its owner is called, as the log allows it, and four letters of its own.
export function deviceName(owner: string, random: () => number): string {
  const plain = owner.normalize("NFKD").replace(/[^A-Za-z0-9._-]+/g, "").slice(0, 24) || "phone";
  const letters = Array.from({ length: 4 }, () => "abcdefghjkmnpqrstuvwxyz"[Math.floor(random() * 23)]).join("");
  return `${plain.toLowerCase()}-${letters}`;
}
