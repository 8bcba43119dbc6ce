import { expect, test } from "vitest";
import { courseLine, marksAlong, nearestOn, placeAt, type DrawnLoop } from "./course_line";
import { distance_m, type Place } from "./ground";

const perDegree = (6_371_008.8 * Math.PI) / 180;
const north = (metres: number): Place => [0, 50 + metres / perDegree];

// 4 km north and back the same way; the course wavers, so that a kilometre of it is 900 m of the drawn line.
function outAndBack(): DrawnLoop {
  const drawn = (km: number) => north(km <= 4 ? km * 900 : (8 - km) * 900);
  return {
    name: "Red", from_km: 10, to_km: 18, heights: [],
    line: [north(0), north(1800), north(3600), north(1800), north(0)],
    km_marks: [1, 2, 3, 4, 5, 6, 7].map((km) => ({ km: 10 + km, position: drawn(km) })),
  };
}

test("the kilometre of a corner follows the marks, not the short line", () => {
  const line = courseLine(outAndBack());
  expect(line.corners.map(({ km }) => Math.round(km * 1000) / 1000)).toEqual([10, 12, 14, 16, 18]);
});

test("place and kilometre come back to each other on both ways of an out-and-back", () => {
  const line = courseLine(outAndBack());
  for (let km = 10.2; km < 18; km += 0.37) {
    const near = nearestOn(line, placeAt(line, km), km - 0.5, km + 0.5);
    expect(near.km).toBeCloseTo(km, 3);
    expect(near.distance_m).toBeLessThan(0.5);
  }
});

test("the nearest place stays between the kilometres it may be looked for", () => {
  const line = courseLine(outAndBack());
  const near = nearestOn(line, north(3600), 15.5, 17);
  expect(near.km).toBeCloseTo(15.5, 6);
  expect(distance_m(near.place, placeAt(line, 15.5))).toBeLessThan(0.1);
});

test("beyond its ends the line gives its ends", () => {
  const line = courseLine(outAndBack());
  expect(placeAt(line, 3)).toEqual(north(0));
  expect(placeAt(line, 30)).toEqual(north(0));
});

test("marks in miles are a mile of course apart", () => {
  const line = courseLine(outAndBack());
  const marks = marksAlong(line, 1.609344);
  expect(marks.map(({ count }) => count)).toEqual([1, 2, 3, 4]);
  expect(distance_m(marks[0]!.place, north(1.609344 * 900))).toBeLessThan(1);
});

test("a loop without marks runs evenly over its line", () => {
  const line = courseLine({ ...outAndBack(), km_marks: [] });
  expect(placeAt(line, 12)[1]).toBeCloseTo(north(1800)[1], 6);
});
