import { expect, test } from "vitest";
import { plurals } from "./plural";

test("a word goes with its number by the rules of the language", () => {
  const english = plurals("en");
  expect([0, 1, 2, 1234].map((n) => english(n, { one: "# ride", other: "# rides" }))).toEqual(["0 rides", "1 ride", "2 rides", "1,234 rides"]);
  const polish = plurals("pl");
  expect([1, 3, 5].map((n) => polish(n, { one: "# koń", few: "# konie", other: "# koni" }))).toEqual(["1 koń", "3 konie", "5 koni"]);
});
