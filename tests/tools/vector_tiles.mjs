// Reads vector tiles with the npm package @mapbox/vector-tile, the outside check of those we write. Given a folder of files
// Z-X-Y.pbf, prints a line for each part of each feature: z x y, layer, type (1 point, 2 line, 3 ring), number of the
// polygon in its feature and whether this ring is a hole, class, name, then "lon,lat" of its points as the package places
// them (toGeoJSON). Fields are parted by tabs.
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";

const require = createRequire(new URL("../npm/package.json", import.meta.url));
const load = (name) => import(pathToFileURL(require.resolve(name)));
const { VectorTile } = await load("@mapbox/vector-tile");
const { PbfReader } = await load("pbf");

const folder = process.argv[2];
for (const file of readdirSync(folder).sort()) {
  const found = /^(\d+)-(\d+)-(\d+)\.pbf$/.exec(file);
  if (!found) continue;
  const [z, x, y] = found.slice(1).map(Number);
  const tile = new VectorTile(new PbfReader(readFileSync(`${folder}/${file}`)));
  for (const name of Object.keys(tile.layers)) {
    const layer = tile.layers[name];
    for (let i = 0; i < layer.length; i++) {
      const feature = layer.feature(i);
      const { type, coordinates } = feature.toGeoJSON(x, y, z).geometry;
      const say = (points, polygon = 0, isHole = false) =>
        console.log([z, x, y, name, feature.type, polygon, isHole ? 1 : 0, feature.properties.class ?? "",
          feature.properties.name ?? "", points.map((p) => p.join(",")).join(" ")].join("\t"));
      if (type === "Point") say([coordinates]);
      if (type === "MultiPoint" ) for (const point of coordinates) say([point]);
      if (type === "LineString") say(coordinates);
      if (type === "MultiLineString") for (const line of coordinates) say(line);
      if (type === "Polygon") coordinates.forEach((ring, n) => say(ring, 0, n > 0));
      if (type === "MultiPolygon") coordinates.forEach((polygon, p) => polygon.forEach((ring, n) => say(ring, p, n > 0)));
    }
  }
}
