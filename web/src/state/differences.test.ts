import { describe, expect, test } from "vitest";
import { chosen, differences, isSame } from "./differences";

const base = { name: "Moor", loops: [{ speed_kmh: 12 }, { speed_kmh: 11 }], files: { course: ["a.gpx"] } };

describe("two texts of a ride", () => {
  test("differ in the fields that either changed, and a field that one changed is suggested from there", () => {
    const mine = { ...base, name: "High moor" };
    const theirs = { ...base, loops: [{ speed_kmh: 12 }, { speed_kmh: 10 }] };
    expect(differences(base, mine, theirs)).toEqual([
      { path: "loops[1].speed_kmh", base: 11, mine: 11, theirs: 10, suggested: "theirs" },
      { path: "name", base: "Moor", mine: "High moor", theirs: "Moor", suggested: "mine" },
    ]);
  });
  test("that changed one field differently leave it to a person", () => {
    const found = differences(base, { ...base, name: "A" }, { ...base, name: "B" });
    expect(found.map(({ suggested }) => suggested)).toEqual([undefined]);
  });
  test("whose list has another length differ in the list as a whole", () => {
    const found = differences(base, base, { ...base, loops: [{ speed_kmh: 12 }] });
    expect(found.map(({ path }) => path)).toEqual(["loops"]);
  });
  test("that are the same do not differ, in whatever order their fields stand", () => {
    expect(differences(base, base, { files: base.files, loops: base.loops, name: base.name })).toEqual([]);
  });
});

test("what is chosen from mine is put over theirs, and nothing else", () => {
  const mine = { name: "A", start: "1", crew: 2 };
  const theirs = { name: "B", start: "2" };
  expect(chosen<object>(mine, theirs, ["name", "crew"])).toEqual({ name: "A", start: "2", crew: 2 });
});
test("choosing all of one side gives that side", () => {
  const mine = { ...base, name: "A", crew: 3 };
  const theirs = { ...base, loops: [], start: "2" };
  const all = differences(base, mine, theirs).map(({ path }) => path);
  expect(isSame(chosen<object>(mine, theirs, all), mine)).toBe(true);
  expect(chosen<object>(mine, theirs, [])).toEqual(theirs);
});
