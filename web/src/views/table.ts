// The views of a ride: which component, which answers of the engine it shows, and whether it takes the whole width. Each is a
// chunk of its own, loaded when it is first shown.
import type { Component } from "svelte";
import type { FollowingCall, RideState } from "../state/ride_state.svelte";
import type { Preferences } from "../state/preferences.svelte";
import type { RideView } from "../state/route";
import type { Services } from "../state/services";

// Most views take `ride` alone.
export interface ViewProps {
  ride: RideState;
  services: Services;
  preferences: Preferences;
}
interface View {
  load: () => Promise<{ default: Component<ViewProps> | Component<Pick<ViewProps, "ride">> }>;
  calls?: FollowingCall[]; // beside the plan, which is always there
  isWide?: boolean;
  needsPlan?: boolean; // without course and start it has nothing to show
}

export const rideViews: Record<RideView | "start", View> = {
  start: { load: () => import("./start/Start.svelte"), calls: ["checkRide"] },
  day: { load: () => import("./day/Day.svelte"), needsPlan: true, isWide: true },
  points: { load: () => import("./points/Points.svelte"), needsPlan: true, calls: ["checkRide"], isWide: true },
  people: { load: () => import("./keep/People.svelte") },
  kit: { load: () => import("./kit/Kit.svelte"), needsPlan: true, calls: ["kitOfRide", "loadOfRide"], isWide: true },
  jobs: { load: () => import("./jobs/Jobs.svelte"), needsPlan: true, calls: ["jobsOfRide"], isWide: true },
  heat: { load: () => import("./heat/Heat.svelte"), needsPlan: true, calls: ["heatOfRide"], isWide: true },
  paper: { load: () => import("./paper/Paper.svelte"), needsPlan: true, isWide: true },
  details: { load: () => import("./ride/Ride.svelte"), calls: ["checkRide"] },
  states: { load: () => import("./states/States.svelte") },
};
