// Between the places of the map and the positions of the ride file.
import type { Place } from "../../map/ground";

export interface Position {
  lat: number;
  lon: number;
}
const digits = 6; // a tenth of a metre

export const positionOf = ([lon, lat]: Place): Position => ({ lat: Number(lat.toFixed(digits)), lon: Number(lon.toFixed(digits)) });
