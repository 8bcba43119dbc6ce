// How the parts that open under "Note" hand over what was entered.
import type { DayEntry } from "../log/events";
import type { Photo } from "../keep/event_store";

export type NewEntry = Omit<DayEntry, "at"> & { at?: number };
export type Keep = (entry: NewEntry, photo?: Photo) => Promise<void>;
export const minutesBefore = (now: number, ago: number): number => now - 60_000 * ago;
