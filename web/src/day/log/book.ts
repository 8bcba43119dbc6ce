// The log as a list to read: each entry as it stands now, with what was put right or taken back. Only for the list; what
// follows from the log is the engine's. The rules are the log's (docs/day.md): the last noted counts, and a withdrawal of a
// correction brings back what was there.
import { compareHybrid } from "./hybrid_clock";
import type { DayEntry, DayEvent } from "./events";

export interface BookEntry {
  id: string;
  device: string;
  entry: DayEntry; // as it stands
  first: DayEntry; // as it was noted
  correctedBy?: string; // the id of the correction that counts
  withdrawnBy?: string; // the id of the withdrawal that counts
}

const inOrder = (a: DayEvent, b: DayEvent) =>
  compareHybrid(a.noted, b.noted) || (a.device < b.device ? -1 : a.device > b.device ? 1 : a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

export function bookOf(events: readonly DayEvent[]): BookEntry[] {
  const sorted = [...events].sort(inOrder);
  const at = new Map<string, number>();
  sorted.forEach((event, i) => at.has(event.id) || at.set(event.id, i));
  const decidedBy = new Map<number, DayEvent>();
  // From the last to the first: whatever could withdraw an event has been decided before it.
  for (let k = sorted.length - 1; k >= 0; --k) {
    const event = sorted[k]!;
    if ((event.kind !== "correct" && event.kind !== "withdraw") || at.get(event.id) !== k) continue;
    if (decidedBy.get(k)?.kind === "withdraw") continue;
    const target = at.get(event.of);
    if (target === undefined || target >= k || decidedBy.has(target)) continue;
    const kind = sorted[target]!.kind;
    if (event.kind === "correct" && (kind === "correct" || kind === "withdraw")) continue;
    decidedBy.set(target, event);
  }
  const entries: BookEntry[] = [];
  sorted.forEach((event, i) => {
    if (event.kind === "correct" || event.kind === "withdraw" || at.get(event.id) !== i) return;
    const { id, device, noted: _, ...entry } = event;
    const last = decidedBy.get(i);
    const book: BookEntry = { id, device, entry, first: entry };
    if (last?.kind === "correct") Object.assign(book, { entry: last.entry, correctedBy: last.id });
    if (last?.kind === "withdraw") book.withdrawnBy = last.id;
    entries.push(book);
  });
  return entries.sort((a, b) => Date.parse(a.entry.at) - Date.parse(b.entry.at));
}
