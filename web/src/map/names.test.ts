import { expect, test } from "vitest";
import { namedPoints } from "./names";

test("places far apart all have their names", () => {
  const plates = [0, 300, 600].map((x) => ({ name: "Grebbmarch Cross", marks: 2, x, y: 100 }));
  expect([...namedPoints(plates)]).toEqual([0, 1, 2]);
});

test("a name that would lie over another plate is left out", () => {
  const plates = [{ name: "Jubbgarth Gate", marks: 1, x: 100, y: 100 }, { name: "Jubbgarth Lane End", marks: 1, x: 140, y: 110 }];
  expect(namedPoints(plates).size).toBe(0);
});

test("places above one another have their names", () => {
  const plates = [{ name: "Jubbgarth Gate", marks: 1, x: 100, y: 100 }, { name: "Jubbgarth Lane End", marks: 1, x: 100, y: 150 }];
  expect(namedPoints(plates).size).toBe(2);
});
