import { describe, expect, it } from "vitest";
import { dotsOfTen, oddsInWords } from "./odds";

describe("odds", () => {
  it("are said in the engine's words", () => {
    expect([0.001, 0.034, 0.71, 0.97, 0.999].map(oddsInWords)).toEqual(["less than 1 in 100", "3 in 100", "7 in 10", "97 in 100", "more than 99 in 100"]);
  });
  it("are never drawn as certain when they are not", () => expect([0, 0.02, 0.5, 0.97, 1].map(dotsOfTen)).toEqual([0, 1, 5, 9, 10]));
});
