// A ride packed for the phone by `outbye pack`, and what its native twin says of a log.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { demoFolder, source } from "./outbye.mjs";

const outbye = join(process.env.OUTBYE_BUILD ?? join(source, "build-dev"), "outbye");
const found = (...folders) => folders.find((it) => it && existsSync(it));
const page = found(process.env.OUTBYE_DAY_PAGE, join(source, "build", "day-page"));
const engine = found(process.env.OUTBYE_DAY_ENGINE, join(source, "build", "wasm"));
const parts = [...(page ? ["--page", page] : []), ...(engine ? ["--engine", engine] : [])];

// The demo ride with another start, without what is bound to its own day.
export function rideStarting(start) {
  const folder = join(mkdtempSync(join(tmpdir(), "outbye-day-")), "ride");
  cpSync(demoFolder(), folder, { recursive: true });
  const file = join(folder, "ride.json");
  const ride = JSON.parse(readFileSync(file, "utf8"));
  ride.start = start;
  delete ride.files.weather;
  delete ride.errands;
  for (const point of ride.crew_points) delete point.open;
  writeFileSync(file, JSON.stringify(ride));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return file;
}

// Why nothing can be packed here, or false.
export function cannotPack() {
  if (process.env.OUTBYE_DAY_FOLDER) return false;
  if (!engine || !existsSync(join(engine, "outbye_day.wasm"))) return "the engine for phones is not built: ./run wasm";
  if (!page) return "the page of the day is not built: ./run web";
  try {
    execFileSync(outbye, ["pack", "--help"], { stdio: "ignore" });
    return false;
  } catch {
    return `${outbye} does not pack rides`;
  }
}

export function packed(ride, ...more) {
  const out = join(mkdtempSync(join(tmpdir(), "outbye-pack-")), "day");
  execFileSync(outbye, ["pack", ride, "--out", out, ...parts, ...more], { stdio: ["ignore", "ignore", "inherit"] });
  process.on("exit", () => rmSync(out, { recursive: true, force: true }));
  return out;
}

export function packedPage(ride) {
  const out = join(mkdtempSync(join(tmpdir(), "outbye-pack-")), "day.html");
  execFileSync(outbye, ["pack", ride, "--single-file", out, ...parts], { stdio: ["ignore", "ignore", "inherit"] });
  process.on("exit", () => rmSync(out, { force: true }));
  return out;
}

// The same folder with another name of the ride, as a plan that was packed anew.
export function renamed(folder, name) {
  const out = join(mkdtempSync(join(tmpdir(), "outbye-pack-")), "day");
  cpSync(folder, out, { recursive: true });
  const page = Buffer.from(JSON.stringify({ ...JSON.parse(readFileSync(join(out, "page.json"), "utf8")), ride: name }));
  writeFileSync(join(out, "page.json"), page);
  const listing = JSON.parse(readFileSync(join(out, "files.json"), "utf8"));
  Object.assign(listing.files.find(({ file }) => file === "page.json"), { bytes: page.length, sha256: createHash("sha256").update(page).digest("hex") });
  listing.mark = createHash("sha256").update(JSON.stringify(listing.files)).digest("hex");
  writeFileSync(join(out, "files.json"), JSON.stringify(listing));
  process.on("exit", () => rmSync(out, { recursive: true, force: true }));
  return out;
}

export function nativeAnswer(ride, log, now) {
  const file = join(mkdtempSync(join(tmpdir(), "outbye-log-")), "day.log");
  writeFileSync(file, log);
  try {
    return JSON.parse(execFileSync(outbye, ["day", ride, "--log", file, "--at", now, "--json"], { encoding: "utf8", maxBuffer: 64e6 }));
  } finally {
    rmSync(file);
  }
}
