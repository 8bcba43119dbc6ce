// Keeps everything of the folder in the phone, so that the page opens with the network off: files.json lists what there is,
// with hashes and a mark that differs when any file does. Answers from what is kept, first and always; the network is asked
// only when the page says that it may look for a new plan, and a new state counts once it is complete.
import type { PackedFiles } from "./engine/page_data";

const worker = self as unknown as ServiceWorkerGlobalScope;
interface ServiceWorkerGlobalScope {
  registration: { scope: string };
  clients: { claim(): Promise<void>; matchAll(): Promise<{ postMessage(message: unknown): void }[]> };
  skipWaiting(): Promise<void>;
  addEventListener(name: "install" | "activate", listener: (event: { waitUntil(work: Promise<unknown>): void }) => void): void;
  addEventListener(name: "fetch", listener: (event: { request: Request; respondWith(answer: Promise<Response>): void }) => void): void;
  addEventListener(name: "message", listener: (event: { data: unknown; waitUntil(work: Promise<unknown>): void }) => void): void;
}

const scope = worker.registration.scope;
const prefix = `outbye-day ${scope} `; // several rides may lie on one server
const at = (file: string) => new URL(file, scope).href;
const current = `${prefix}current`;

async function currentMark(): Promise<string | undefined> {
  return (await (await caches.open(current)).match(at("mark")))?.text();
}

async function sha256(bytes: ArrayBuffer): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

// Takes the folder as it is at the server, whole or not at all. True when it differs from what was kept.
async function take(): Promise<boolean> {
  const listing = await fetch(at("files.json"), { cache: "no-store" });
  if (!listing.ok) throw new Error(`files.json: ${listing.status}`);
  const { mark, files } = (await listing.json()) as PackedFiles;
  const before = await currentMark();
  if (mark === before) return false;
  const name = `${prefix}${mark}`;
  const kept = await caches.open(name);
  for (const { file, sha256: wanted } of files) {
    const answer = await fetch(at(file), { cache: "no-store" });
    const bytes = await answer.clone().arrayBuffer();
    if (!answer.ok || (await sha256(bytes)) !== wanted) {
      await caches.delete(name);
      throw new Error(`${file} is not what files.json says: load the page again`);
    }
    await kept.put(at(file), answer);
  }
  await (await caches.open(current)).put(at("mark"), new Response(mark));
  for (const other of await caches.keys()) if (other.startsWith(prefix) && other !== name && other !== current) await caches.delete(other);
  return before !== undefined;
}

async function answer(request: Request): Promise<Response> {
  const mark = await currentMark();
  const url = new URL(request.url);
  const wanted = request.mode === "navigate" ? at("index.html") : url.origin + url.pathname;
  const kept = mark === undefined ? undefined : await (await caches.open(`${prefix}${mark}`)).match(wanted);
  return kept ?? fetch(request);
}

worker.addEventListener("install", (event) => event.waitUntil(take().then(() => worker.skipWaiting())));
worker.addEventListener("activate", (event) => event.waitUntil(worker.clients.claim()));
worker.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(scope)) event.respondWith(answer(event.request));
});
worker.addEventListener("message", (event) => {
  if (event.data !== "look for a new plan") return;
  const tell = async () => {
    const isNew = await take().catch(() => false); // no network: nothing to tell
    if (isNew) for (const client of await worker.clients.matchAll()) client.postMessage("a new plan is kept");
  };
  event.waitUntil(tell());
});
