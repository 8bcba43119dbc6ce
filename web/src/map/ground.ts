// Positions on the ground and on the map: [longitude, latitude] as in GeoJSON. Distances are metres on a sphere of the Earth's
// mean radius, good to half a per cent: enough to place a hand's pointer on a course, whose lengths are the engine's.
export type Place = [number, number];

const radius_m = 6_371_008.8; // mean radius of GRS80
const degree = Math.PI / 180;

export function distance_m(a: Place, b: Place): number {
  const dLat = (b[1] - a[1]) * degree;
  const dLon = (b[0] - a[0]) * degree;
  const h = Math.sin(dLat / 2) ** 2 + Math.cos(a[1] * degree) * Math.cos(b[1] * degree) * Math.sin(dLon / 2) ** 2;
  return 2 * radius_m * Math.asin(Math.min(1, Math.sqrt(h)));
}

export const between = (a: Place, b: Place, share: number): Place => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];

// The nearest place of a segment: on a plane that is true to scale at the asked place, within 1 in 10 000 up to 20 km from it.
export function nearestOnSegment(place: Place, a: Place, b: Place): { share: number; place: Place; distance_m: number } {
  const east = Math.cos(place[1] * degree);
  const x = (p: Place) => (p[0] - place[0]) * east;
  const y = (p: Place) => p[1] - place[1];
  const dx = x(b) - x(a);
  const dy = y(b) - y(a);
  const length = dx * dx + dy * dy;
  const share = length > 0 ? Math.min(1, Math.max(0, -(x(a) * dx + y(a) * dy) / length)) : 0;
  const at = between(a, b, share);
  return { share, place: at, distance_m: distance_m(place, at) };
}

// Web Mercator on a square of side 1, y southwards.
export function onSquare([lon, lat]: Place): { x: number; y: number } {
  const sin = Math.sin(Math.min(85.05, Math.max(-85.05, lat)) * degree);
  return { x: (lon + 180) / 360, y: 0.5 - Math.log((1 + sin) / (1 - sin)) / (4 * Math.PI) };
}

export const fromSquare = ({ x, y }: { x: number; y: number }): Place => [
  x * 360 - 180,
  Math.atan(Math.sinh(Math.PI * (1 - 2 * y))) / degree,
];

export interface Bounds {
  west: number;
  south: number;
  east: number;
  north: number;
}
export function boundsOf(places: Place[]): Bounds | undefined {
  const first = places[0];
  if (!first) return undefined;
  const bounds: Bounds = { west: first[0], south: first[1], east: first[0], north: first[1] };
  for (const [lon, lat] of places) {
    bounds.west = Math.min(bounds.west, lon);
    bounds.east = Math.max(bounds.east, lon);
    bounds.south = Math.min(bounds.south, lat);
    bounds.north = Math.max(bounds.north, lat);
  }
  return bounds;
}

// Between places and a picture of the given size, north up, with a margin on each side.
export interface Frame {
  at(place: Place): { x: number; y: number };
  from(x: number, y: number): Place;
}
export function frameOf(bounds: Bounds, width: number, height: number, margin: number): Frame {
  const topLeft = onSquare([bounds.west, bounds.north]);
  const bottomRight = onSquare([bounds.east, bounds.south]);
  const least = 1e-6; // 40 m: a course of one place is no reason to divide by nothing
  const w = Math.max(bottomRight.x - topLeft.x, least);
  const h = Math.max(bottomRight.y - topLeft.y, least);
  const scale = Math.max(1, Math.min((width - 2 * margin) / w, (height - 2 * margin) / h));
  const left = (width - w * scale) / 2;
  const top = (height - h * scale) / 2;
  return {
    at(place) {
      const { x, y } = onSquare(place);
      return { x: left + (x - topLeft.x) * scale, y: top + (y - topLeft.y) * scale };
    },
    from: (x, y) => fromSquare({ x: topLeft.x + (x - left) / scale, y: topLeft.y + (y - top) / scale }),
  };
}
