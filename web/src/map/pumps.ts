// Taps and pumps that the map of the ground shows near the cars' drives, to be offered as places to refill.
import { distance_m, nearestOnSegment, type Place } from "./ground";
import type { DayMap } from "./marks";

export interface Pump {
  kind: "water" | "fuel";
  name: string;
  place: Place;
}
export interface OfferedPump extends Pump {
  toDrive_m: number;
}

const near_m = 300;
const same_m = 60; // a refill that the ride has already

export function offeredPumps(pumps: Pump[], map: DayMap): OfferedPump[] {
  const offered: OfferedPump[] = [];
  const known = map.spots.filter(({ kind }) => kind === "water" || kind === "fuel").map(({ place }) => place);
  for (const pump of pumps) {
    if (known.some((place) => distance_m(place, pump.place) < same_m)) continue;
    if (offered.some((it) => it.kind === pump.kind && distance_m(it.place, pump.place) < same_m)) continue;
    const toDrive_m = Math.min(Infinity, ...map.drives.map(({ line }) => toLine_m(pump.place, line)));
    if (toDrive_m <= near_m) offered.push({ ...pump, toDrive_m });
  }
  return offered.sort((a, b) => a.toDrive_m - b.toDrive_m);
}

function toLine_m(place: Place, line: Place[]): number {
  let least = Infinity;
  // A tenth of a degree is kilometres everywhere that is ridden: no need to measure.
  const isFar = (p: Place) => Math.abs(p[1] - place[1]) > 0.1;
  for (let i = 0; i + 1 < line.length; i++) {
    if (isFar(line[i]!)) continue;
    least = Math.min(least, nearestOnSegment(place, line[i]!, line[i + 1]!).distance_m);
  }
  return least;
}
