// What is given at a stop, with the amounts that are common; anything else is put right in the Book.
import { dayPage as words } from "../../strings/en/day_page";
import type { DayKind, Unit } from "../log/events";

export type GivenKind = "drink" | "electrolyte" | "feed" | "bottle";
export interface Given {
  title: string;
  kind: DayKind;
  things: string[];
  unit: Unit;
  amounts: number[];
  ofHorse: boolean; // may be offered and not taken
  caution?: string;
  hint?: string;
}
export const givens: Record<GivenKind, Given> = {
  drink: { title: words.drinks.title, kind: "drink", things: words.drinks.kinds, unit: "L", amounts: [1, 2, 3, 4, 5, 6, 8, 10, 15], ofHorse: true },
  electrolyte: { title: words.electrolytes.title, kind: "electrolyte", things: words.electrolytes.kinds, unit: "g", amounts: [10, 20, 30, 40, 50, 60], ofHorse: true, caution: words.electrolytes.caution, hint: words.electrolytes.hint },
  feed: { title: words.feeds.title, kind: "feed", things: words.feeds.kinds, unit: "kg", amounts: [0.25, 0.5, 0.75, 1, 1.5, 2], ofHorse: true },
  bottle: { title: words.bottles.title, kind: "stock_used", things: words.bottles.kinds, unit: "L", amounts: [0.5, 0.75, 1, 1.5, 2, 3, 5, 10, 15], ofHorse: false },
};
