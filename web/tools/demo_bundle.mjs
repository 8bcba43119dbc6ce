// node demo_bundle.mjs FOLDER ZIP: the demo ride with the files that it names as a bundle, which an empty list of rides offers.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { crc32, deflateRawSync } from "node:zlib";

const [folder, target] = process.argv.slice(2);
const ride = JSON.parse(await readFile(join(folder, "ride.json"), "utf8"));
const names = ["ride.json", ...new Set(Object.values(ride.files).flat())];

// The parts of a ZIP archive that any reader knows: per file a local header and its bytes, then the directory of them.
const locals = [];
const directory = [];
let offset = 0;
for (const name of names) {
  const bytes = await readFile(join(folder, name));
  const packed = deflateRawSync(bytes, { level: 9 });
  const label = Buffer.from(name, "utf8");
  const common = Buffer.alloc(26);
  common.writeUInt16LE(20, 0); // version needed: 2.0
  common.writeUInt16LE(0x0800, 2); // names are UTF-8
  common.writeUInt16LE(8, 4); // deflated
  common.writeUInt32LE(0x5a210000, 6); // 1 January 2025, so that the bundle is the same each time
  common.writeUInt32LE(crc32(bytes), 10);
  common.writeUInt32LE(packed.length, 14);
  common.writeUInt32LE(bytes.length, 18);
  common.writeUInt16LE(label.length, 22);
  const local = Buffer.concat([Buffer.from("PK\x03\x04"), common, label, packed]);
  const entry = Buffer.alloc(14);
  entry.writeUInt32LE(offset, 10);
  directory.push(Buffer.concat([Buffer.from("PK\x01\x02"), Buffer.from([20, 0]), common, entry, label]));
  locals.push(local);
  offset += local.length;
}
const listing = Buffer.concat(directory);
const end = Buffer.alloc(18);
end.writeUInt16LE(names.length, 4);
end.writeUInt16LE(names.length, 6);
end.writeUInt32LE(listing.length, 8);
end.writeUInt32LE(offset, 12);
await writeFile(target, Buffer.concat([...locals, listing, Buffer.from("PK\x05\x06"), end]));
