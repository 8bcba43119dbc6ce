import { expect, test } from "vitest";
import { fitted, photoName } from "./photo";

test("a large photo is made to fit, upright or not, and a small one is left as it is", () => {
  expect(fitted(4032, 3024)).toEqual({ width: 1600, height: 1200 });
  expect(fitted(3024, 4032)).toEqual({ width: 1200, height: 1600 });
  expect(fitted(800, 600)).toEqual({ width: 800, height: 600 });
  expect(fitted(20000, 3)).toEqual({ width: 1600, height: 1 });
});

test("a photo is named after its point and after no other file", () => {
  expect(photoName("Mühlfurt am Böhl", [])).toBe("muhlfurt-am-bohl.jpg");
  expect(photoName("Mill Ford", ["mill-ford.jpg", "MILL-FORD-2.jpg"])).toBe("mill-ford-3.jpg");
  expect(photoName("川", [])).toBe("point.jpg");
});
