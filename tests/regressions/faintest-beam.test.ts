/**
 * 2026-11-27. A beam of 9e-323 lm, found among random studies, took half a minute to tabulate: its intensities are so near
 * the least number there is that rounding bent every cell, down to the narrowest.
 */
import { expect, it } from "vitest";
import { beamLuminaire } from "../../src/luminaire/beam-luminaire.ts";

it("tabulates the faintest beam on the nodes of a bright one", () => {
  const nodes = [9e-323, 1e-300, 800].map((flux) => {
    const made = beamLuminaire("beam", { flux, beamAngle: Math.PI / 2 });
    if (!made.ok) throw new Error(made.issues[0].message);
    return made.value.distribution.vertical.length;
  });
  expect(nodes[0]).toBe(nodes[2]);
  expect(nodes[1]).toBe(nodes[2]);
});
