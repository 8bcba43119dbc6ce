// Finishes dist-day: names the page index.html, and fails unless it is what can be packed into a single file: one script, one
// style sheet, a service worker that imports nothing, no script or style inside, nothing from elsewhere.
import { readdir, readFile, rename } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const mostKilobytes = 150;
const dist = fileURLToPath(new URL("../dist-day", import.meta.url));
await rename(join(dist, "day.html"), join(dist, "index.html"));

const files = (await readdir(dist, { recursive: true })).sort();
const wanted = ["day.css", "day.js", "index.html", "sw.js"];
const fail = (why) => {
  console.error(`dist-day ${why}`);
  process.exit(1);
};
if (files.join() !== wanted.join()) fail(`has ${files.join(", ")}, not ${wanted.join(", ")}`);
const [, script, index, worker] = await Promise.all(wanted.map((file) => readFile(join(dist, file), "utf8")));
if (/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=/.test(index)) fail("has a script or a style inside, which its content security policy forbids");
if (/^\s*(import|export)\b/m.test(worker)) fail("has a service worker that is no plain script");
const kilobytes = gzipSync(script, { level: 9 }).length / 1000;
console.log(`${kilobytes.toFixed(1).padStart(8)} kB  the page's script, compressed (at most ${mostKilobytes})`);
if (kilobytes > mostKilobytes) fail("has grown too large");
