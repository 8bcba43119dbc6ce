// What the npm package psychrolib says of the wet bulb, on a grid: the outside check of ours. Prints: temperature,
// humidity, pressure (hPa), thermodynamic wet bulb (degrees C). Installed beside tests/npm/package.json (npm ci).
import { createRequire } from "node:module";

const psychrolib = createRequire(new URL("../npm/package.json", import.meta.url))("psychrolib");
psychrolib.SetUnitSystem(psychrolib.SI);

for (const pressure of [800, 1013.25]) {
  for (let t = 5; t <= 50; t += 5) {
    for (let rh = 5; rh <= 100; rh += 5) {
      const wet = psychrolib.GetTWetBulbFromRelHum(t, rh / 100, pressure * 100);
      if (wet > 0) console.log(t, rh, pressure, wet.toFixed(6)); // below, it is of ice
    }
  }
}
