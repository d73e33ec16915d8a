/** The elements load where there is no page: a server may import them to render markup around them. */
import { expect, it } from "vitest";

it("imports in Node without a DOM", async () => {
  expect(typeof document).toBe("undefined");
  const elements = await import("../../src/elements.ts");
  expect(Object.keys(elements).length).toBeGreaterThanOrEqual(15);
  expect(elements.CandlespanSheet.name).toBe("CandlespanSheet");
});
