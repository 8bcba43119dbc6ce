// Puts a .gz beside each file of dist, for the server to send as it is, and fails when the first load has grown too large:
// everything index.html asks for at once, compressed; the map's chunk comes later, when a map is shown.
import { readdir, readFile, writeFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const mostKilobytes = 600;
const dist = fileURLToPath(new URL("../dist", import.meta.url));

const sizes = new Map();
for (const entry of await readdir(dist, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile() || entry.name.endsWith(".gz")) continue;
  const file = join(entry.parentPath ?? entry.path, entry.name);
  const packed = gzipSync(await readFile(file), { level: 9 });
  await writeFile(`${file}.gz`, packed);
  sizes.set(relative(dist, file), packed.length);
}

// What the page fetches before a view is chosen, and every view's chunk with it (they are small and wanted soon): all code
// and style but the map's.
const isMap = (file) => /(^|\/)(maplibre|map)[-.]/.test(file);
const firstLoad = [...sizes].filter(([file]) => /\.(html|js|css)$/.test(file) && !isMap(file));
const kilobytes = firstLoad.reduce((sum, [, size]) => sum + size, 0) / 1000;

const index = await readFile(join(dist, "index.html"), "utf8");
if (/<script(?![^>]*\bsrc=)|<style|\sstyle=|\son[a-z]+=/.test(index)) {
  console.error("dist/index.html has a script or a style inside, which its content security policy forbids");
  process.exit(1);
}
for (const [file, size] of [...sizes].sort((a, b) => b[1] - a[1]).slice(0, 8))
  console.log(`${(size / 1000).toFixed(1).padStart(8)} kB  ${file}${isMap(file) ? "  (later: the map)" : ""}`);
console.log(`${kilobytes.toFixed(1).padStart(8)} kB  first load, compressed (at most ${mostKilobytes})`);
if (kilobytes > mostKilobytes) {
  console.error(`the first load is over ${mostKilobytes} kB: load what is not needed at once later, or leave it out`);
  process.exit(1);
}
