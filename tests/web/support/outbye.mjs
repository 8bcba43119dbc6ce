// A real `outbye serve` on a store of its own, and what a test does to it.
import { spawn, execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const source = join(dirname(fileURLToPath(import.meta.url)), "..", "..", "..");
const build = process.env.OUTBYE_BUILD ?? join(source, "build-dev");
const page = process.env.OUTBYE_WEB ?? join(source, "build", "web");
export const shared = join(source, "..", "shared", "data");
export const hasShared = existsSync(shared);

// The demo country, made once for all tests of a run.
let demo;
export function demoFolder() {
  if (!demo) {
    demo = join(mkdtempSync(join(tmpdir(), "outbye-demo-")), "demo");
    execFileSync(join(build, "outbye-country"), ["--out", demo], { stdio: "ignore" });
    process.on("exit", () => rmSync(dirname(demo), { recursive: true, force: true }));
  }
  return demo;
}

export async function startServer({ store = mkdtempSync(join(tmpdir(), "outbye-store-")), port = 0, args = [] } = {}) {
  const child = spawn(join(build, "outbye"), ["serve", "--store", store, "--web", page, "--port", String(port), ...args], {
    stdio: ["ignore", "pipe", "pipe"],
    env: { ...process.env, OUTBYE_CACHE: join(store, "cache") },
  });
  let said = "";
  const address = await new Promise((resolve, reject) => {
    child.stdout.on("data", (data) => {
      said += data;
      const found = /http:\/\/[^\s]+/.exec(said);
      if (found) resolve(found[0].replace(/\/$/, ""));
    });
    child.stderr.on("data", (data) => (said += data));
    child.on("exit", (code) => reject(new Error(`outbye serve ended with ${code}: ${said}`)));
  });
  const ended = new Promise((resolve) => child.on("exit", resolve));
  return {
    address,
    store,
    port: Number(new URL(address).port),
    said: () => said,
    kill: async () => (child.kill("SIGKILL"), await ended),
    stop: async ({ keep = false } = {}) => {
      child.kill("SIGTERM");
      const code = await ended;
      if (!keep) rmSync(store, { recursive: true, force: true });
      return code;
    },
  };
}

export async function withServer(options, work) {
  const server = await startServer(options);
  try {
    return await work(server);
  } finally {
    await server.stop();
  }
}

// The API as the page sees it.
export async function api(server, path, { method = "GET", body, type = "application/json" } = {}) {
  const answer = await fetch(`${server.address}/api/v1${path}`, {
    method,
    headers: body === undefined ? {} : { "Content-Type": type },
    body: body === undefined ? undefined : type === "application/json" ? JSON.stringify(body) : body,
  });
  const text = await answer.text();
  return { status: answer.status, body: text ? JSON.parse(text) : undefined };
}
