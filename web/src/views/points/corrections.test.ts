import { expect, test } from "vitest";
import { correctionOf, withCorrection, withoutCorrection } from "./corrections";

test("a correction takes the place of the one before it and keeps the others", () => {
  const list = withCorrection(withCorrection([{ loop: 2, km: 4 }], 1, 2, 7), 2, 1, 4.025);
  expect(list).toEqual([{ loop: 1, nth: 2, km: 7 }, { loop: 2, km: 4.025 }]);
});

test("the last correction put back takes the field away", () => {
  expect(withoutCorrection([{ loop: 2, km: 4 }], 2, 1)).toBeUndefined();
  expect(withoutCorrection([{ loop: 2, km: 4 }, { loop: 2, nth: 2, km: 9 }], 2, 1)).toEqual([{ loop: 2, nth: 2, km: 9 }]);
});

test("a pass without a number is the first", () => {
  expect(correctionOf([{ loop: 1, km: 3 }], 1, 1)?.km).toBe(3);
  expect(correctionOf([{ loop: 1, km: 3 }], 1, 2)).toBeUndefined();
});
