// Where a position lies on a packed map, in the units of its picture; nothing when it is outside.
import type { PageMap } from "../engine/page_data";

export interface Spot {
  x: number;
  y: number;
}

export function onMap({ projection: p, width, height }: PageMap, { lat, lon }: { lat: number; lon: number }): Spot | undefined {
  // The short way round, so that a map across the antimeridian works.
  const east = ((((lon - p.west + 180) % 360) + 360) % 360) - 180;
  const x = p.left + east * p.x_per_degree;
  const y = p.top + (p.north - lat) * p.y_per_degree;
  return x >= 0 && x <= width && y >= 0 && y <= height ? { x, y } : undefined;
}
