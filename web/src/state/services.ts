// What the state works with; tests give their own.
import type { Call } from "../engine/calls";
import type { RideStore } from "../storage/ride_store";
import type { UnsentStore } from "../storage/unsent";

export interface Services {
  call: Call;
  store: RideStore;
  unsent: UnsentStore;
  now: () => number; // milliseconds of a clock that only runs forward
  // Says to the other tabs that a ride was saved, and hears it from them.
  tellTabs: (ride_id: string, revision: number) => void;
  hearTabs: (heard: (ride_id: string, revision: number) => void) => () => void;
}
