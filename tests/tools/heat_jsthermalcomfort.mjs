// What the npm package jsthermalcomfort says on a grid of temperature and humidity: the outside check of our vapour
// pressure. Prints: temperature, humidity, its saturation pressure (Pa), its heat index (degrees C).
// The package is installed beside tests/npm/package.json (npm ci).
import { createRequire } from "node:module";

const { p_sat, heatIndex } = createRequire(new URL("../npm/package.json", import.meta.url))("jsthermalcomfort");

for (let t = 0; t <= 50; t += 1) {
  for (let rh = 5; rh <= 100; rh += 5) {
    console.log(t, rh, p_sat(t), heatIndex(t, rh, { round: false }).toFixed(6));
  }
}
