// A place being chosen on the map: for what, and what is done with it.
import type { Place } from "./ground";

export interface Placing {
  words: string;
  take: (place: Place) => void;
  cancel: () => void;
}
