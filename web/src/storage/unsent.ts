// What was typed and the server has not acknowledged yet, kept in the browser: a reload, a crash or a server that is away
// loses nothing. Each tab has an entry of its own for a ride, because two tabs may hold different texts; an entry whose tab is
// gone is taken up by the next tab that opens the ride.
import type { RideDocument } from "../engine/answers/ride";
import type { Drafts } from "./ride_store";

export interface Unsent {
  ride_id: string;
  base_revision: number;
  base: RideDocument; // as it was acknowledged last
  ride: RideDocument;
  drafts: Drafts;
  label: string;
}
export interface UnsentStore {
  keep(unsent: Unsent): Promise<boolean>; // false: the browser refused (full disk, private window)
  drop(ride_id: string): Promise<void>;
  // What this tab, or one that is gone, had not sent: this tab's to keep from now on.
  takeLeft(ride_id: string): Promise<Unsent | undefined>;
}

const database = "outbye";
const store = "unsent";
const lockOf = (tab: string) => `outbye-tab-${tab}`;

export function unsentStore(tab: string, indexedDB: IDBFactory, locks: LockManager | undefined): UnsentStore {
  // Held for as long as this tab lives, so that others know it does.
  void locks?.request(lockOf(tab), () => new Promise(() => {}));

  let opened: Promise<IDBDatabase> | undefined;
  const open = () =>
    (opened ??= new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open(database, 1);
      request.onupgradeneeded = () => request.result.createObjectStore(store);
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(request.error);
    }).catch((error: unknown) => {
      opened = undefined;
      throw error;
    }));
  async function entries(mode: IDBTransactionMode): Promise<{ entries: IDBObjectStore; done: Promise<void> }> {
    const transaction = (await open()).transaction(store, mode);
    const done = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onerror = () => reject(transaction.error);
      transaction.onabort = () => reject(transaction.error);
    });
    return { entries: transaction.objectStore(store), done };
  }
  async function livingTabs(): Promise<Set<string>> {
    const held = (await locks?.query())?.held ?? [];
    return new Set([tab, ...held.map((lock) => (lock.name ?? "").replace(/^outbye-tab-/, ""))]);
  }

  return {
    async keep(unsent) {
      try {
        const { entries: all, done } = await entries("readwrite");
        all.put(unsent, [unsent.ride_id, tab]);
        await done;
        return true;
      } catch {
        return false;
      }
    },
    async drop(ride_id) {
      try {
        const { entries: all, done } = await entries("readwrite");
        all.delete([ride_id, tab]);
        await done;
      } catch {
        // It is sent again when the ride is opened next, and the server finds nothing new in it.
      }
    },
    async takeLeft(ride_id) {
      try {
        const living = await livingTabs();
        const { entries: all, done } = await entries("readwrite");
        const keys = (await answer(all.getAllKeys())) as [string, string][];
        const left = keys.filter(([ride, of]) => ride === ride_id && (of === tab || !living.has(of)));
        const key = left.find(([, of]) => of === tab) ?? left[0];
        const unsent = key ? ((await answer(all.get(key))) as Unsent) : undefined;
        if (key && key[1] !== tab) {
          all.put(unsent, [ride_id, tab]);
          all.delete(key);
        }
        await done;
        return unsent;
      } catch {
        return undefined;
      }
    },
  };
}

const answer = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
