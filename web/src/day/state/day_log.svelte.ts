// The log while the page is open: what is kept, what could not be kept yet, and every way to add to it.
import type { EventStore, Photo } from "../keep/event_store";
import { bookOf } from "../log/book";
import { eventOf, lineOf, written, type DayAct, type DayEntry, type DayEvent } from "../log/events";
import { logText, readLog } from "../log/log_file";
import { beforeAll, laterHybrid, nextHybridTime, type HybridTime } from "../log/hybrid_clock";

export type Read = { event: DayEvent; line: string };
export type StorageProblem = "refused" | "full";
export type Merged = { ok: true; added: number; unread: number; otherRide?: string } | { ok: false; why: "empty" | "no log" | "newer version" | StorageProblem };

export class DayLog {
  kept = $state.raw<Read[]>([]);
  unread = $state.raw<{ line: string; torn: boolean }[]>([]);
  unkept = $state.raw<(Read & { photo?: Photo })[]>([]); // in memory alone: said at once, and tried again
  storageProblem = $state<StorageProblem>();
  // Newest last. What the page says of it: "Kept 11:42:07".
  lastNoted = $state.raw<{ event: DayEvent; isKept: boolean }>();

  events = $derived([...this.kept, ...this.unkept].map(({ event }) => event));
  lines = $derived([...this.kept.map((it) => it.line), ...this.unkept.map((it) => it.line), ...this.unread.map((it) => it.line)]);
  book = $derived(bookOf(this.events));

  constructor(
    private readonly ride: string,
    private readonly store: EventStore | undefined, // nothing: the browser keeps nothing for this page
    readonly clock: () => number, // milliseconds since 1970, the phone's
    public device: string,
    private readonly tellTabs: () => void = () => {},
  ) {
    if (!store) this.storageProblem = "refused";
  }

  async load(): Promise<void> {
    if (!this.store) return;
    const { events, unread } = await this.store.load();
    this.kept = events;
    this.unread = unread;
  }

  enter(entry: Omit<DayEntry, "at"> & { at?: number }, photo?: Photo): Promise<DayEvent> {
    return this.note({ ...entry, at: written(entry.at ?? this.clock()) }, photo);
  }
  // Both by a new event; what was noted stays in the log.
  takeBack(id: string): Promise<DayEvent> {
    return this.note({ kind: "withdraw", of: id });
  }
  putRight(id: string, entry: DayEntry): Promise<DayEvent> {
    return this.note({ kind: "correct", of: id, entry });
  }

  async note(act: DayAct, photo?: Photo): Promise<DayEvent> {
    const plain = JSON.parse(JSON.stringify(act)) as DayAct; // no proxies, nothing undefined
    try {
      if (!this.store) throw new DOMException("no store", "InvalidStateError");
      const read = await this.store.note(plain, this.device, this.clock(), photo);
      this.kept = [...this.kept, read];
      this.lastNoted = { event: read.event, isKept: true };
      this.tellTabs();
      if (this.unkept.length > 0) void this.keepAgain();
      return read.event;
    } catch (error) {
      this.storageProblem = problemOf(error);
      const event = eventOf(plain, this.device, nextHybridTime(this.latest(), this.clock()));
      this.unkept = [...this.unkept, { event, line: lineOf(event), photo }];
      this.lastNoted = { event, isKept: false };
      return event;
    }
  }

  // What is in memory alone, tried again.
  async keepAgain(): Promise<boolean> {
    if (!this.store) return false;
    const trying = this.unkept;
    try {
      await this.store.merge(trying, []);
      const ids = new Set(trying.map(({ event }) => event.id));
      this.kept = [...this.kept, ...trying];
      this.unkept = this.unkept.filter(({ event }) => !ids.has(event.id));
      if (this.lastNoted && ids.has(this.lastNoted.event.id)) this.lastNoted = { event: this.lastNoted.event, isKept: true };
      if (this.unkept.length === 0) this.storageProblem = undefined;
      this.tellTabs();
      return true;
    } catch (error) {
      this.storageProblem = problemOf(error);
      return false;
    }
  }

  async merge(text: string): Promise<Merged> {
    const reading = readLog(text);
    if (!reading.ok) return reading;
    try {
      if (!this.store) throw new DOMException("no store", "InvalidStateError");
      const added = await this.store.merge(reading.events, reading.unread);
      await this.load();
      this.tellTabs();
      const otherRide = reading.ride !== undefined && reading.ride !== this.ride ? reading.ride : undefined;
      return { ok: true, added, unread: reading.unread.length, otherRide };
    } catch (error) {
      return { ok: false, why: (this.storageProblem = problemOf(error)) };
    }
  }

  file(): string {
    return logText(this.ride, this.lines);
  }

  private latest(): HybridTime {
    return this.events.reduce<HybridTime>((latest, { noted }) => laterHybrid(latest, noted), beforeAll);
  }
}

const problemOf = (error: unknown): StorageProblem =>
  error instanceof Error && error.name === "QuotaExceededError" ? "full" : "refused";
