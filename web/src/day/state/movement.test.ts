import { describe, expect, it } from "vitest";
import { moved, still } from "./movement";

describe("whether the car moves", () => {
  it("is so at once at a driver's speed", () => expect(moved(still, 10, 0).isMoving).toBe(true));
  it("is not so at a walk", () => expect(moved(still, 1.5, 0).isMoving).toBe(false));
  it("stays so at a junction", () => expect(moved(moved(still, 10, 0), 0, 20_000).isMoving).toBe(true));
  it("ends when it has stood for a while", () => expect(moved(moved(still, 10, 0), 0, 46_000).isMoving).toBe(false));
  it("is not known without a speed", () => expect(moved(still, null, 0).isMoving).toBe(false));
});
