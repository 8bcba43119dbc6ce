// What the map says in words: for the list, for the names of its buttons.
import { km, type Formats } from "../format/formats";
import { strings } from "../strings";
import type { DayMap, MarkedPass, MarkedPoint } from "./marks";

export function passName(point: MarkedPoint, pass: MarkedPass): string {
  if (point.isVenue) return pass.label === "finish" ? strings.map.finish : strings.map.gate(pass.loop);
  const isOneOfMore = point.passes.filter(({ loop }) => loop === pass.loop).length > 1;
  return strings.map.pass(pass.loop, pass.nth, isOneOfMore);
}

export const meetSaid = (pass: MarkedPass, formats: Formats): string =>
  pass.meet
    ? strings.map.meet(strings.odds[pass.meet.odds], formats.percent(pass.meet.chance), pass.meet.car)
    : strings.map.nobody;

export const dueSaid = (pass: MarkedPass, formats: Formats): string | undefined =>
  pass.due_s === undefined ? undefined : strings.map.due(formats.time(pass.due_s));

export const passSaid = (point: MarkedPoint, pass: MarkedPass, formats: Formats): string =>
  strings.map.passSaid(passName(point, pass), formats.length(km(pass.loop_km)), dueSaid(pass, formats), meetSaid(pass, formats));

export const pointSaid = (point: MarkedPoint, formats: Formats): string =>
  strings.map.pointSaid(point.name, point.isClosed, point.passes.map((pass) => passSaid(point, pass, formats)));

// What was chosen, to be read out.
export function chosenSaid(map: DayMap, label: string | undefined, formats: Formats): string {
  const pass = map.passes.find((it) => it.label === label);
  const point = pass && map.points[pass.point];
  return pass && point ? `${point.name}: ${passSaid(point, pass, formats)}` : "";
}
