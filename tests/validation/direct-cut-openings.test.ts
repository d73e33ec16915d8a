/**
 * Openings that the receiver's horizon cuts, from all round: the nodes that the table asks for against the most it has.
 *
 * What is left of a disc has none of its symmetry, by which a few nodes stand for the whole of it. Bounds are the product's: 0.25 % by
 * default, 1e-4 when asked, of the larger of contribution and 0.1 % of what arrives head-on. The top of the ladder, some three
 * thousand nodes that end at the horizon, errs by less than a thousandth of either.
 */
import { expect, it } from "vitest";
import { DirectSource } from "../../src/engine/direct/direct-source.ts";
import { Receiver } from "../../src/engine/direct/receiver.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { TOP_LEVEL } from "../../src/luminaire/opening/quadrature-ladder.ts";
import { radians } from "../../src/units/quantities.ts";
import { beam, luminaire, opening, rotational } from "../support/luminaires.ts";

const UNTURNED = Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1);
const I0 = 1000;
const SHAPES = [opening("disc", 0.4), opening("rectangle", 0.6, 0.1), opening("cylinder", 0.3, 0.3, 0.3)];
const DISTRIBUTIONS = {
  cosine: rotational((γ) => I0 * Math.max(0, Math.cos(γ)), 0.5),
  even: rotational(() => I0),
  beam: beam(40),
  sideways: rotational((γ) => I0 * Math.sin(γ) ** 4, 0.5),
};

/** Points round an opening, each with normals whose horizon passes it at `off` radii from its centre. */
function* cutting(source: DirectSource): Generator<{ p: Vec3; receiver: Receiver; far: number }> {
  for (const far of [0.8, 2, 4].map((radii) => radii * source.radius))
    for (let degrees = 5; degrees < 180; degrees += 20)
      for (const C of [0.2, 0.9]) {
        const γ = radians(degrees);
        const [s, c] = [Math.sin(γ), Math.cos(γ)];
        const u: Vec3 = [s * Math.cos(C), s * Math.sin(C), -c];
        const upright: Vec3 = [c * Math.cos(C), c * Math.sin(C), s];
        const level: Vec3 = [-Math.sin(C), Math.cos(C), 0];
        for (const off of [-0.6, -0.3, -0.05, -0.02, 0.02, 0.05, 0.3, 0.6])
          for (const turn of [0.3, 1.9]) {
            const sine = Math.max(-0.99, Math.min(0.99, (off * source.radius) / far));
            const normal = u.map(
              (each, k) =>
                Math.sqrt(1 - sine * sine) * (Math.cos(turn) * upright[k] + Math.sin(turn) * level[k]) -
                sine * each,
            ) as unknown as Vec3;
            const p = u.map((each) => far * each) as unknown as Vec3;
            const receiver = new Receiver("planar", normal, UNTURNED);
            if (source.cutByHorizon(...p, receiver)) yield { p, receiver, far };
          }
      }
}

it.each([0.0025, 1e-4])("lose no more than %f by it", (bound) => {
  let worst = 0;
  let where = "";
  let count = 0;
  for (const shape of SHAPES)
    for (const [name, distribution] of Object.entries(DISTRIBUTIONS)) {
      const source = new DirectSource(luminaire(distribution, shape), bound);
      for (const { p, receiver, far } of cutting(source)) {
        const floor = (1e-3 * I0) / (far * far);
        const exact = source.illuminanceAt(...p, receiver, TOP_LEVEL);
        const error = Math.abs(source.illuminance(...p, receiver, floor) - exact) / Math.max(exact, floor);
        count++;
        if (error > worst) [worst, where] = [error, `${shape.shape}, ${name}, at ${far.toFixed(2)} m`];
      }
    }
  console.log(`cut openings at ${bound}: worst error ${worst.toExponential(1)} of ${count} (${where})`);
  expect(count).toBeGreaterThan(5000);
  expect(worst).toBeLessThan(bound);
});
