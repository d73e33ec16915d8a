/** What the order says of a substitute: asked for where a verdict gets worse, and no contradiction where none does. */
import { expect, it } from "vitest";
import { orderWords } from "../../src/design/swap.ts";
import { lambertian } from "../support/tiny-scene.ts";

it("says what a substitute makes worse, or that it makes nothing worse (2026: not without asking, it changes no verdict)", () => {
  const [planned, instead] = [lambertian("bar", 2000, "A"), lambertian("strip", 1400, "A")];
  const change = (after: "meets" | "falls short") => [{ zone: "prep", before: "meets", after }] as never;
  expect(orderWords(planned, instead, change("meets"))).toBe(
    "Order bar: 2000 lm. strip in its place makes no verdict worse; ask before any other.",
  );
  expect(orderWords(planned, instead, change("falls short"))).toBe(
    "Order bar: 2000 lm. No other in its place without asking: with strip in its place prep falls short.",
  );
});
