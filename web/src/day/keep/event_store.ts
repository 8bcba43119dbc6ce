// Where the log is kept in the phone: IndexedDB, only ever added to. An event counts as kept once its transaction has been
// written through to the disk (durability "strict"); what the browser refuses is thrown, and said by the page at once.
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import { eventIn, eventOf, lineOf, type DayAct, type DayEvent } from "../log/events";
import { beforeAll, laterHybrid, nextHybridTime, type HybridTime } from "../log/hybrid_clock";

interface Records extends DBSchema {
  events: { key: number; value: { id: string; line: string }; indexes: { id: string } };
  unread: { key: string; value: { line: string; torn: boolean } }; // lines of other files that could not be read
  photos: { key: string; value: { name: string; photo: Blob } };
  settings: { key: string; value: unknown };
}

export interface Loaded {
  events: { event: DayEvent; line: string }[];
  unread: { line: string; torn: boolean }[];
}
export interface Photo {
  name: string;
  photo: Blob;
}

export interface EventStore {
  load(): Promise<Loaded>;
  // Makes the event and keeps it; settles once it is on the disk.
  note(act: DayAct, device: string, deviceMilliseconds: number, photo?: Photo): Promise<{ event: DayEvent; line: string }>;
  // Adds what is not there yet; how many were new.
  merge(events: readonly { event: DayEvent; line: string }[], unread: readonly { line: string; torn: boolean }[]): Promise<number>;
  photo(name: string): Promise<Blob | undefined>;
  setting<T>(name: string): Promise<T | undefined>;
  set(name: string, value: unknown): Promise<void>;
  close(): void;
}

const strict = { durability: "strict" } as const;

// Whether two lines say the same, in whatever order their fields stand.
export function isSame(a: DayEvent, b: DayEvent): boolean {
  return ordered(a) === ordered(b);
}
function ordered(value: unknown): string {
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(ordered).join()}]`;
  const fields = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([name, inner]) => `${JSON.stringify(name)}:${ordered(inner)}`).join()}}`;
}

export async function openEventStore(ride: string): Promise<EventStore> {
  const database: IDBPDatabase<Records> = await openDB<Records>(`outbye-day-${ride}`, 1, {
    upgrade(db) {
      db.createObjectStore("events", { autoIncrement: true }).createIndex("id", "id");
      db.createObjectStore("unread", { keyPath: "line" });
      db.createObjectStore("photos", { keyPath: "name" });
      db.createObjectStore("settings");
    },
    blocking: (_now, _next, event) => (event.target as IDBDatabase).close(),
  });

  return {
    async load() {
      const transaction = database.transaction(["events", "unread"]);
      const [records, unread] = await Promise.all([transaction.objectStore("events").getAll(), transaction.objectStore("unread").getAll()]);
      const loaded: Loaded = { events: [], unread };
      for (const record of records) {
        // Whatever else is there was torn: it stays, and is said.
        const line = typeof record?.line === "string" ? record.line : JSON.stringify(record ?? null);
        const event = eventIn(line);
        if (event) loaded.events.push({ event, line });
        else loaded.unread.push({ line, torn: true });
      }
      return loaded;
    },

    async note(act, device, deviceMilliseconds, photo) {
      const transaction = database.transaction(["events", "settings", "photos"], "readwrite", strict);
      const settings = transaction.objectStore("settings");
      // Read within the transaction, so that two tabs never give one time.
      const latest = ((await settings.get("latest")) as HybridTime | undefined) ?? beforeAll;
      const event = eventOf(act, device, nextHybridTime(latest, deviceMilliseconds));
      const line = lineOf(event);
      const adding = [transaction.objectStore("events").add({ id: event.id, line }), settings.put(event.noted, "latest")];
      const all: Promise<unknown>[] = photo ? [...adding, transaction.objectStore("photos").put(photo)] : adding;
      await Promise.all([...all, transaction.done]);
      return { event, line };
    },

    async merge(events, unread) {
      const transaction = database.transaction(["events", "unread", "settings"], "readwrite", strict);
      const store = transaction.objectStore("events");
      const settings = transaction.objectStore("settings");
      let latest = ((await settings.get("latest")) as HybridTime | undefined) ?? beforeAll;
      let added = 0;
      for (const { event, line } of events) {
        const kept = await store.index("id").getAll(event.id);
        if (kept.some((record) => isSame(eventIn(record.line) ?? event, event))) continue;
        await store.add({ id: event.id, line });
        latest = laterHybrid(latest, event.noted);
        ++added;
      }
      for (const { line, torn } of unread) await transaction.objectStore("unread").put({ line, torn });
      await settings.put(latest, "latest");
      await transaction.done;
      return added;
    },

    photo: async (name) => (await database.get("photos", name))?.photo,
    setting: async <T>(name: string) => (await database.get("settings", name)) as T | undefined,
    async set(name, value) {
      const transaction = database.transaction("settings", "readwrite", strict);
      await Promise.all([transaction.store.put(value, name), transaction.done]);
    },
    close: () => database.close(),
  };
}
