// The log as a file that `outbye day` reads: a head, then a line an event. A line that cannot be read stays as it is.
import { eventIn, type DayEvent } from "./events";

const format = "outbye day log";

export const headOf = (ride: string): string => JSON.stringify({ format, version: 1, ride });
export const logText = (ride: string, lines: readonly string[]): string => [headOf(ride), ...lines, ""].join("\n");

export type LogReading =
  | { ok: true; ride: string | undefined; events: { event: DayEvent; line: string }[]; unread: { line: string; torn: boolean }[] }
  | { ok: false; why: "empty" | "no log" | "newer version" };

// Half a file is read as far as it goes; what was cut off is kept and told apart.
export function readLog(text: string): LogReading {
  const lines = text.split("\n");
  const isCut = lines.at(-1) !== "";
  if (!isCut) lines.pop();
  let head: { format?: unknown; version?: unknown; ride?: unknown } | undefined;
  const events: { event: DayEvent; line: string }[] = [];
  const unread: { line: string; torn: boolean }[] = [];
  for (const [i, raw] of lines.entries()) {
    const line = raw.replace(/\r$/, "");
    if (line.trim() === "") continue;
    const parsed = head === undefined || line.includes('"format"') ? headIn(line) : undefined;
    if (head === undefined) {
      if (parsed?.format !== format) return { ok: false, why: "no log" };
      if (parsed.version !== 1) return { ok: false, why: "newer version" };
      head = parsed;
    } else if (parsed?.format !== format) {
      const event = eventIn(line);
      if (event) events.push({ event, line });
      else unread.push({ line, torn: isCut && i === lines.length - 1 });
    }
  }
  if (head === undefined) return { ok: false, why: "empty" };
  return { ok: true, ride: typeof head.ride === "string" ? head.ride : undefined, events, unread };
}

function headIn(line: string): { format?: unknown; version?: unknown; ride?: unknown } | undefined {
  try {
    const json: unknown = JSON.parse(line);
    return typeof json === "object" && json !== null ? json : undefined;
  } catch {
    return undefined;
  }
}
