// What one tap on the first part notes: what is likeliest where the car is.
import { dayPage as words } from "../../strings/en/day_page";
import type { DayIconName } from "../look/DayIcon.svelte";
import type { DayEntry } from "../log/events";
import type { Day, Open } from "./day.svelte";

export interface Quick {
  label: string;
  icon: DayIconName;
  entry?: Omit<DayEntry, "at">;
  open?: Open; // without an entry: what is opened to note the rest
}

export const severalHorses = (day: Day): boolean => day.page.horses.length > 1;
export const ofHorse = (day: Day): { horse?: string } => (severalHorses(day) && day.horse ? { horse: day.horse } : {});
export const ofCar = (day: Day): { car?: string } => (day.cars.length > 1 ? { car: day.car } : {});

export function quickEntries(day: Day): Quick[] {
  const { mine, place } = day;
  if (!mine) return [];
  const number: Quick = { label: words.note.number, icon: "number", open: "number" };
  if (mine.driving) return [{ label: words.note.carAt, icon: "car", entry: { kind: "car_at", place, ...ofCar(day) } }, number];
  const horse = day.horse ?? words.note.horse;
  const seen = day.answer?.passes.find((pass) => pass.label === mine.here)?.seen;
  const first: Quick = seen
    ? { label: words.note.horseOut(horse), icon: "out", entry: { kind: "horse_out", place, ...ofHorse(day) } }
    : { label: words.note.horseIn(horse), icon: "in", entry: { kind: "horse_in", place, ...ofHorse(day) } };
  const left: Quick = { label: words.note.carLeft, icon: "car", entry: { kind: "car_left", place: mine.place, ...ofCar(day) } };
  return [first, number, left, { label: words.note.watch, icon: "watch", open: "watch" }];
}
