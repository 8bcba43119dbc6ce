// The ride store over the local server's API.
import type { Outcome } from "../engine/calls";
import { outcomeOf, send, type ProblemWords, type Request, type Sent } from "../engine/http";
import { sendFile } from "./send_file";
import type { Keepsake, MapState, RideFile, RideInList, RideInStates, RideStore, RideThere, StoredRide, Task } from "./ride_store";

const api = "/api/v1";
const demoAddress = "/demo.zip"; // laid beside the page by ./run demo
const uploads_ms = 30 * 60_000;

export function serverStore(words: ProblemWords, fetcher: typeof fetch = (...all) => fetch(...all)): RideStore {
  const part = encodeURIComponent;
  const rideAt = (id: string) => `${api}/rides/${part(id)}`;
  const fileAddress = (id: string, name: string) => `${rideAt(id)}/files/${part(name)}`;

  async function ask<T>(address: string, request: Request, take: (body: Record<string, unknown>) => T | undefined): Promise<Outcome<T>> {
    return outcomeOf(await send(address, request, fetcher), words, take);
  }
  async function bytesAt(address: string, json?: unknown): Promise<Outcome<Blob>> {
    const failed = (sent: Sent) => outcomeOf<Blob>(sent, words, () => undefined);
    try {
      const response = await fetcher(
        address,
        json === undefined ? undefined : { method: "POST", body: JSON.stringify(json), headers: { "Content-Type": "application/json" } },
      );
      if (response.ok) return { ok: true, value: await response.blob() };
      const body: unknown = await response.json().catch(() => undefined);
      return failed({ answered: true, answer: { status: response.status, body } });
    } catch {
      return failed({ answered: false, why: "away" });
    }
  }
  const whole = <T>(body: Record<string, unknown>): T => body as T;
  const done = (): true => true;

  return {
    fileAddress,
    bundleAddress: (id) => `${rideAt(id)}/bundle`,
    sheet: (id, sheet, paper, ride) => bytesAt(`${rideAt(id)}/sheets/${sheet}`, { ride, paper }),
    rides: () => ask(`${api}/rides`, {}, (body) => body.rides as RideInList[]),
    make: (from) => ask(`${api}/rides`, { method: "POST", json: from }, whole<RideThere & { id: string }>),
    ride: (id) => ask(rideAt(id), {}, whole<StoredRide>),
    async save(id, what) {
      const sent = await send(rideAt(id), { method: "PUT", json: what }, fetcher);
      if (sent.answered && sent.answer.status === 409) {
        const there = sent.answer.body as RideThere | undefined;
        if (there && typeof there.revision === "number" && there.ride)
          return { ok: false, conflict: { revision: there.revision, ride: there.ride, drafts: there.drafts ?? {} } };
      }
      const outcome = outcomeOf(sent, words, whole<{ revision: number; changed_at: string }>);
      return outcome.ok ? { ok: true, ...outcome.value } : outcome;
    },
    remove: (id) => ask(rideAt(id), { method: "DELETE" }, done),
    restore: (id) => ask(`${rideAt(id)}/restore`, { method: "POST", json: {} }, done),
    states: (id) => ask(`${rideAt(id)}/states`, {}, (body) => body.states as RideInStates[]),
    state: (id, revision) => ask(`${rideAt(id)}/states/${revision}`, {}, whole<RideThere>),
    bringBack: (id, revision) =>
      ask(`${rideAt(id)}/states/${revision}/restore`, { method: "POST", json: {} }, whole<RideThere>),
    addFile: async (id, file, progress, signal) =>
      outcomeOf(await sendFile(fileAddress(id, file.name), file, progress, signal), words, whole<RideFile>),
    removeFile: (id, name) => ask(fileAddress(id, name), { method: "DELETE" }, done),
    readFile: (id, name) => bytesAt(fileAddress(id, name)),
    async hasDemo() {
      try {
        const response = await fetcher(demoAddress, { method: "HEAD" });
        // A server that answers every unknown address with the page has none.
        return response.ok && !(response.headers.get("Content-Type") ?? "").startsWith("text/html");
      } catch {
        return false;
      }
    },
    async demo() {
      const bytes = await bytesAt(demoAddress);
      return bytes.ok ? { ok: true, value: new File([bytes.value], "demo.zip") } : bytes;
    },
    importBundle: (file) =>
      ask(`${api}/bundles`, { method: "POST", bytes: file, patience_ms: uploads_ms }, whole<RideThere & { id: string; missing_files: string[] }>),
    keepsakes: () => ask(`${api}/keepsakes`, {}, (body) => body.keepsakes as Keepsake[]),
    keep: ({ id, ...rest }, base_revision) =>
      ask(`${api}/keepsakes/${part(id)}`, { method: "PUT", json: { ...rest, base_revision } }, whole<{ id: string; revision: number }>),
    forget: (id) => ask(`${api}/keepsakes/${part(id)}`, { method: "DELETE" }, done),
    startTask: (id, kind) => ask(`${rideAt(id)}/tasks`, { method: "POST", json: { kind } }, taskIn),
    tasksOf: (id) => ask(`${api}/tasks?ride=${part(id)}`, {}, tasksIn),
    cancelTask: (task) => ask(`${api}/tasks/${part(task)}`, { method: "DELETE" }, done),
    map: (id) => ask(`${rideAt(id)}/map`, {}, whole<MapState>),
  };
}

// A task comes by itself or inside `task`, and several inside `tasks`.
function taskIn(body: Record<string, unknown>): Task | undefined {
  const task = (typeof body.task === "object" ? body.task : body) as Task | undefined;
  return task && typeof task.id === "string" ? task : undefined;
}
function tasksIn(body: Record<string, unknown>): Task[] | undefined {
  if (Array.isArray(body.tasks)) return body.tasks as Task[];
  const one = taskIn(body);
  return one ? [one] : [];
}
