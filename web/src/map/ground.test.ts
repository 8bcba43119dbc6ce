import { expect, test } from "vitest";
import { boundsOf, distance_m, frameOf, nearestOnSegment, onSquare, type Place } from "./ground";

test("a degree of latitude is 111.2 km on the sphere of mean radius", () => {
  expect(distance_m([0, 50], [0, 51])).toBeCloseTo((6_371_008.8 * Math.PI) / 180, 3);
});

test("a place is put onto the square where the published tile formula puts it", () => {
  // OpenStreetMap wiki, "Slippy map tilenames": y = (1 - asinh(tan lat) / pi) / 2
  for (const [lon, lat] of [[-15.49, 54.49], [139.7006793, 35.6590699], [0, 0], [-179, -80]] as Place[]) {
    const { x, y } = onSquare([lon, lat]);
    expect(x).toBeCloseTo((lon + 180) / 360, 12);
    expect(y).toBeCloseTo((1 - Math.asinh(Math.tan((lat * Math.PI) / 180)) / Math.PI) / 2, 12);
  }
});

test("the nearest place of a segment is its foot, or its end", () => {
  const near = nearestOnSegment([0.001, 50.001], [0, 50], [0.01, 50]);
  expect(near.share).toBeCloseTo(0.1, 6);
  expect(near.distance_m).toBeCloseTo(111.2, 0);
  expect(nearestOnSegment([-1, 50], [0, 50], [0.01, 50]).place).toEqual([0, 50]);
});

test("a frame keeps every place inside its margins and north up", () => {
  const places: Place[] = [[-15.5, 54.4], [-15.3, 54.6], [-15.45, 54.55]];
  const frame = frameOf(boundsOf(places)!, 800, 600, 40);
  for (const place of places) {
    const { x, y } = frame.at(place);
    expect(x).toBeGreaterThanOrEqual(39.999);
    expect(x).toBeLessThanOrEqual(760.001);
    expect(y).toBeGreaterThanOrEqual(39.999);
    expect(y).toBeLessThanOrEqual(560.001);
  }
  expect(frame.at([-15.4, 54.6]).y).toBeLessThan(frame.at([-15.4, 54.4]).y);
  expect(frame.at([-15.5, 54.5]).x).toBeLessThan(frame.at([-15.3, 54.5]).x);
});

test("a frame leads back from the picture to the place", () => {
  const frame = frameOf({ west: -15.5, south: 54.4, east: -15.3, north: 54.6 }, 800, 600, 40);
  const { x, y } = frame.at([-15.37, 54.52]);
  const back = frame.from(x, y);
  expect(back[0]).toBeCloseTo(-15.37, 9);
  expect(back[1]).toBeCloseTo(54.52, 9);
});

test("a course of one place is framed in the middle", () => {
  const frame = frameOf(boundsOf([[1, 50]])!, 800, 600, 40);
  expect(frame.at([1, 50]).x).toBeGreaterThan(0);
  expect(Number.isFinite(frame.at([1, 50]).y)).toBe(true);
});
