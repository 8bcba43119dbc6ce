// What the chart says of one time, in words.
import type { PlanAnswer } from "../../engine/answers/plan";
import type { DayDrawing } from "../../engine/day_drawing";
import { darkAt, heatAt, horseAt, spanAt } from "../../draw/readout";
import { km, type Formats } from "../../format/formats";
import { strings } from "../../strings";

export interface ReadOut {
  time: string;
  parts: string[];
}

export function readOut(drawing: DayDrawing, plan: PlanAnswer, at_s: number, formats: Formats): ReadOut {
  const words = strings.day.chart;
  const parts: string[] = [];
  for (const horse of drawing.horses) {
    const there = horseAt(horse, at_s);
    if (!there) parts.push(words.horseAway(horse.name));
    else if (there.gate !== undefined) parts.push(words.horseAtGate(horse.name, there.gate));
    else parts.push(words.horse(horse.name, formats.length(km(there.km)), formats.length(km(there.least_km)), formats.length(km(there.most_km))));
  }
  drawing.cars.forEach((car, c) => {
    const span = spanAt(car, at_s);
    const stops = plan.cars[c]?.stops ?? [];
    const place = span ? stops[span.stop]?.place : undefined;
    const what =
      span === undefined ? words.away
      : span.kind === "drive" ? (place === undefined ? words.drivesHome : words.drivesTo(place))
      : span.kind === "free" || span.kind === "errand" || place === undefined ? words.does[span.kind]
      : words.doesAt(words.does[span.kind], place);
    parts.push(words.car(car.name, what));
  });
  const dark = darkAt(drawing, at_s);
  if (dark) parts.push(words.dark[dark.kind]);
  const heat = heatAt(drawing, at_s);
  if (heat) parts.push(words.heat(bandWords(heat.band)));
  return { time: formats.time(at_s), parts };
}

export const bandWords = (band: string): string => (strings.day.bands as Record<string, string>)[band] ?? band;
