// binpackingjs 4.1.0 (npm) on the published container-loading sets, beside load_bench: mean fill, time, and how many of
// its boxes stand on nothing or only partly on something (it does not ask for support). Usage: npm ci in bench/npm, then
//   node bench/tools/boxes_binpackingjs.mjs FOLDER [FIRST [COUNT]]
import { readFileSync } from "node:fs";

// Its CommonJS build is marked as a module and does not load, so the other build is named.
const entry = new URL("../npm/node_modules/binpackingjs/dist/esm/3d/index.js", import.meta.url);
const { pack3D, RotationType } = await import(entry);

const [folder, first = "1", count = "5"] = process.argv.slice(2);
if (!folder) {
  console.error("give the folder with BR1.txt to BR7.txt");
  process.exit(2);
}

// Length, width and height of the container go in as width, depth and height: the middle letter of a rotation says
// which side of the box points up.
const up = { W: 0, H: 1, D: 2 };
const rotations = Object.entries(RotationType).filter(([name]) => /^[WHD]{3}$/.test(name));

function* problems(text) {
  const numbers = text.split(/\s+/).filter(Boolean).map(Number);
  let at = 1;
  for (let p = 0; p < numbers[0]; ++p) {
    at += 2;
    const [length, width, height, kinds] = numbers.slice(at, at + 4);
    at += 4;
    const items = [];
    for (let k = 0; k < kinds; ++k, at += 8) {
      const [, a, upA, b, upB, c, upC, n] = numbers.slice(at, at + 8);
      const may = [upA, upB, upC];
      const allowedRotations = rotations.filter(([name]) => may[up[name[1]]] === 1).map(([, value]) => value);
      for (let i = 0; i < n; ++i) items.push({ name: `${k}`, width: a, height: b, depth: c, weight: 1, allowedRotations, may });
    }
    yield { bin: { name: "container", width: length, height, depth: width, maxWeight: 1e9 }, items };
  }
}

const shared = (a, la, b, lb) => Math.max(0, Math.min(a + la, b + lb) - Math.max(a, b));

function examine(bin, packed) {
  const boxes = packed.map(({ position: [x, y, z], dimension: [w, h, d] }) => ({ x, y, z, w, h, d }));
  let volume = 0;
  let floating = 0;
  for (const [i, a] of boxes.entries()) {
    volume += a.w * a.h * a.d;
    if (a.x + a.w > bin.width || a.y + a.h > bin.height || a.z + a.d > bin.depth) throw new Error("sticks out");
    const source = packed[i].sourceItem;
    const sides = [source.width, source.height, source.depth];
    if (!sides.some((side, n) => source.may[n] === 1 && side === a.h)) throw new Error("turned as it may not be");
    let held = a.y === 0 ? a.w * a.d : 0;
    for (const [j, b] of boxes.entries()) {
      const floor = shared(a.x, a.w, b.x, b.w) * shared(a.z, a.d, b.z, b.d);
      if (j < i && floor * shared(a.y, a.h, b.y, b.h) > 0) throw new Error("overlap");
      if (a.y > 0 && b.y + b.h === a.y) held += floor;
    }
    if (held !== a.w * a.d) ++floating;
  }
  return { volume, floating, boxes: boxes.length };
}

const median = (values) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
console.log("binpackingjs 4.1.0      mean %   median ms   boxes not wholly supported");
const means = [];
for (let s = 1; s <= 7; ++s) {
  const all = [...problems(readFileSync(`${folder}/BR${s}.txt`, "utf8"))].slice(first - 1, Number(first) - 1 + Number(count));
  let sum = 0;
  let floating = 0;
  let boxes = 0;
  const times = [];
  for (const { bin, items } of all) {
    const start = process.cpuUsage();
    const result = pack3D({ bins: [bin], items });
    const used = process.cpuUsage(start);
    times.push((used.user + used.system) / 1000);
    const found = examine(bin, result.packedBins[0]?.items ?? []);
    sum += (100 * found.volume) / (bin.width * bin.height * bin.depth);
    floating += found.floating;
    boxes += found.boxes;
  }
  means.push(sum / all.length);
  console.log(`BR${s} ${(sum / all.length).toFixed(2).padStart(24)} ${median(times).toFixed(1).padStart(11)}   ${floating} of ${boxes}`);
}
console.log(`mean ${(means.reduce((a, b) => a + b, 0) / means.length).toFixed(2).padStart(23)}`);
