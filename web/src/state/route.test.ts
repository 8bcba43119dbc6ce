import { expect, test } from "vitest";
import { addressOf, routeOf, type Route } from "./route";

const routes: Route[] = [
  { page: "rides" },
  { page: "kept" },
  { page: "ride", id: "a b/ü", view: "day" },
  { page: "ride", id: "7", view: "details", place: "loops[0].speed_kmh" },
];
test.each(routes)("the address of %o leads back to it", (route) => {
  expect(routeOf(addressOf(route))).toEqual(route);
});
test("a ride without a view opens at its day", () => {
  expect(routeOf("#/ride/7")).toEqual({ page: "ride", id: "7", view: "day" });
});
test.each(["#/ride/7/nothing", "#/ride/%E0%A4/day", "#/x", "#/ride/7/day/more"])("%s is nowhere", (hash) => {
  expect(routeOf(hash)).toEqual({ page: "unknown" });
});
