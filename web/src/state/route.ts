// Where the page is, in the part of the address after #: "#/", "#/kept", "#/ride/ID/VIEW". Whatever is not one of ours leads
// to the rides.
export const rideViews = ["day", "points", "people", "kit", "jobs", "heat", "paper", "details", "states"] as const;
export type RideView = (typeof rideViews)[number];

export type Route =
  | { page: "rides" }
  | { page: "kept" }
  | { page: "unknown" }
  | { page: "ride"; id: string; view: RideView | "start"; place?: string }; // place: what to go to in the view

export function routeOf(hash: string): Route {
  const [path = "", query = ""] = hash.replace(/^#\/?/, "").split("?");
  const parts = path.split("/").filter((part) => part !== "");
  if (parts.length === 0) return { page: "rides" };
  if (parts[0] === "kept" && parts.length === 1) return { page: "kept" };
  if (parts[0] === "ride" && parts[1]) {
    const view = parts[2] ?? "day";
    const place = new URLSearchParams(query).get("at");
    const isView = view === "start" || (rideViews as readonly string[]).includes(view);
    try {
      if (isView && parts.length <= 3)
        return { page: "ride", id: decodeURIComponent(parts[1]), view: view as RideView, ...(place ? { place } : {}) };
    } catch {
      // Not something that this page wrote.
    }
  }
  return { page: "unknown" };
}

export function addressOf(route: Route): string {
  if (route.page === "kept") return "#/kept";
  if (route.page !== "ride") return "#/";
  const at = route.place ? `?at=${encodeURIComponent(route.place)}` : "";
  return `#/ride/${encodeURIComponent(route.id)}/${route.view}${at}`;
}
