/**
 * Near field: Lambertian openings through the engine against closed forms, near and far, on and off axis.
 *
 * A surface of uniform luminance L sends I(ω) = L · A_p(ω); its illuminance is π L F, F the configuration factor
 * [J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors; closed forms in
 * `src/geometry`]. Bounds are the product's: 0.25 % by default, 1e-4 when asked, of the larger of contribution and
 * 0.1 % of the plane's highest illuminance. The tables of intensity are sampled finely enough (step²/8 < 1e-5) that
 * interpolation has no share in the error.
 */
import { afterAll, describe, expect, it } from "vitest";
import type { Orientation } from "../../src/geometry/frame.ts";
import { elementToPolygon } from "../../src/geometry/polygon-factor.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../src/photometry/luminous-opening.ts";
import { expectAccuracy } from "../evidence/expect-accuracy.ts";
import { calculate } from "../support/calculate.ts";
import {
  elementToCylinder,
  elementToParallelDisc,
  elementToParallelRectangleCorner,
  elementToPerpendicularDisc,
  elementToPerpendicularRectangleCorner,
  elementToSphere,
} from "../support/configuration-factors.ts";
import { luminaire, opening, placed, plane, rotational, sampled, scene } from "../support/luminaires.ts";

const L = 1000;
const worst = new Map<string, number>();
afterAll(() => {
  for (const [name, error] of worst) console.log(`worst error ${name}: ${error.toExponential(2)}`);
});

const BOUNDS = [0.0025, 1e-4];

/** Points judged one by one (so that the floor is their own), at both bounds. */
function check(
  name: string,
  distribution: IntensityDistribution,
  shape: LuminousOpening,
  cases: readonly { at: Vec3; point: Vec3; normal?: Vec3; F: number; orientation?: Orientation }[],
) {
  const type = luminaire(distribution, shape);
  for (const nearFieldError of BOUNDS) {
    let most = 0;
    for (const { at, point, normal, F, orientation } of cases) {
      const result = calculate(scene([[placed(type, at, orientation)]], [plane([point], normal)]), {
        nearFieldError,
        interreflection: false,
        occlusion: false,
      });
      const E = result.planes[0].layers[0].direct[0];
      most = Math.max(most, Math.abs(E / (Math.PI * L * F) - 1));
    }
    const key = `${name} at ${nearFieldError}`;
    worst.set(key, Math.max(worst.get(key) ?? 0, most));
    expectAccuracy(nearFieldError === 1e-4 ? "area, asked" : "area, default", most, name);
  }
}

const down = (area: number) => rotational((γ) => L * area * Math.max(0, Math.cos(γ)), 0.25, 0, 90);

describe("disc", () => {
  it("element factors of the catalogue, parallel, coaxial and offset", () => {
    for (const [h, r, a] of [
      [1, 0.1, 0],
      [1, 0.25, 0],
      [1, 0.5, 0],
      [1, 1, 0],
      [1, 2, 0],
      [0.75, 0.15, 0],
      [1, 0.5, 0.5],
      [1, 0.5, 1],
      [1, 1, 1],
      [1, 0.25, 1],
      [0.8, 0.2, 0.4],
      [0.75, 0.15, 1.5],
    ]) {
      const F = elementToParallelDisc(h, r, a);
      check("disc", down(Math.PI * r * r), opening("disc", 2 * r), [{ at: [0, 0, h], point: [a, 0, 0], F }]);
    }
  });
  it("element factors of the catalogue, perpendicular", () => {
    for (const [h, r, a] of [
      [1, 0.5, 1],
      [1, 0.5, 2],
      [1, 0.9, 1],
      [0.8, 0.2, 0.8],
    ]) {
      const F = elementToPerpendicularDisc(h, r, a);
      check("disc, vertical receiver", down(Math.PI * r * r), opening("disc", 2 * r), [
        { at: [0, 0, h], point: [a, 0, 0], normal: [-1, 0, 0], F },
      ]);
    }
  });
  it("from one fifth of its diameter to fifty, along rays of every slope", () => {
    const r = 0.15;
    const cases = [];
    for (const h of [0.06, 0.075, 0.1, 0.15, 0.2, 0.3, 0.45, 0.6, 0.9, 1.5, 3, 6, 15]) {
      for (const slope of [0, 0.1, 0.25, 0.5, 1, 1.7, 3]) {
        const a = slope * h;
        for (const turn of [0, 0.4]) {
          const point: Vec3 = [a * Math.cos(turn), a * Math.sin(turn), 0];
          cases.push({ at: [0, 0, h] as Vec3, point, F: elementToParallelDisc(h, r, a) });
        }
      }
    }
    check("disc, D/5 to 50 D", down(Math.PI * r * r), opening("disc", 2 * r), cases);
  });
  it("upright, facing photometric horizontal", () => {
    const r = 0.2;
    const upright = sampled(([x]) => L * Math.PI * r * r * Math.max(0, x), 0.5, 0.5);
    const cases = [];
    for (const d of [0.08, 0.2, 0.4, 1, 4]) {
      for (const a of [0, 0.1, 0.3, 0.8])
        cases.push({
          at: [0, 0, 1] as Vec3,
          point: [d, a, 1] as Vec3,
          normal: [-1, 0, 0] as Vec3,
          F: elementToParallelDisc(d, r, a),
        });
    }
    check("upright disc", upright, { shape: "upright disc", length: 0, width: 2 * r, height: 2 * r }, cases);
  });
  it("ellipse: as a fine polygon", () => {
    const [a, b] = [0.3, 0.1];
    const cases = [];
    for (const h of [0.12, 0.3, 0.8, 2]) {
      for (const [x, y] of [
        [0, 0],
        [0.2, 0.1],
        [0.5, 0],
        [0.1, 0.6],
      ]) {
        // Equal area, so that the polygon errs by its fourth order only.
        const n = 2000;
        const grow = Math.sqrt((2 * Math.PI) / n / Math.sin((2 * Math.PI) / n));
        const outline = [];
        for (let i = 0; i < n; i++) {
          const φ = (-2 * Math.PI * i) / n;
          outline.push(a * grow * Math.cos(φ), b * grow * Math.sin(φ), h);
        }
        cases.push({
          at: [0, 0, h] as Vec3,
          point: [x, y, 0] as Vec3,
          F: elementToPolygon(x, y, 0, 0, 0, 1, outline),
        });
      }
    }
    check("ellipse", down(Math.PI * a * b), opening("disc", 2 * a, 2 * b), cases);
  });
});

describe("rectangle", () => {
  it("element factors of the catalogue, parallel and perpendicular, under a corner", () => {
    for (const [a, b, c] of [
      [1, 1, 1],
      [2, 1, 1],
      [0.5, 0.5, 1],
      [1, 2.5, 1],
      [3, 0.5, 1],
      [1, 0.5, 1],
      [10, 10, 1],
    ]) {
      check("rectangle", down(a * b), opening("rectangle", a, b), [
        { at: [a / 2, b / 2, c], point: [0, 0, 0], F: elementToParallelRectangleCorner(a, b, c) },
      ]);
    }
    for (const [a, b, c] of [
      [1, 1, 1],
      [1, 2, 0.5],
      [2, 1, 1],
      [0.6, 2, 0.3],
      [1, 1, 0.1],
    ]) {
      // The receiver looks along +x, away from the corner: the opening lies from its own plane onwards.
      check("rectangle, vertical receiver", down(a * b), opening("rectangle", a, b), [
        {
          at: [a / 2, b / 2, c],
          point: [0, 0, 0],
          normal: [1, 0, 0],
          F: elementToPerpendicularRectangleCorner(a, b, c),
        },
      ]);
    }
  });
  it("linear 1.2 × 0.06 m and square, near and far, any receiving normal", () => {
    for (const [a, b] of [
      [1.2, 0.06],
      [0.6, 0.6],
    ]) {
      const cases = [];
      for (const h of [0.24, 0.5, 0.8, 2, 6]) {
        for (const [x, y] of [
          [0, 0],
          [0.3, 0.1],
          [0.9, 0],
          [0, 0.7],
          [1.5, 1],
        ]) {
          for (const n of [
            [0, 0, 1],
            [0.6, 0, 0.8],
            [0, -0.8, 0.6],
          ] as Vec3[]) {
            const outline = [-a / 2, -b / 2, h, -a / 2, b / 2, h, a / 2, b / 2, h, a / 2, -b / 2, h];
            const F = elementToPolygon(x, y, 0, ...n, outline);
            // Cut by the receiver's horizon down to a sliver is judged against the floor elsewhere.
            if (F > 1e-4) cases.push({ at: [0, 0, h] as Vec3, point: [x, y, 0] as Vec3, normal: n, F });
          }
        }
      }
      check(`rectangle ${a} × ${b}`, down(a * b), opening("rectangle", a, b), cases);
    }
  });
  it("1 m square of 1000 cd/m², 3 m up: exact values and the point source's error", () => {
    const exact: [number, number, number, number][] = [
      [0, 0, 107.1497, 3.697],
      [0.5, 0, 101.813, 3.313],
      [1, 0, 87.9305, 2.354],
      [2, 0, 53.1263, 0.241],
      [0.5, 0.5, 96.8534, 2.963],
      [1, 1, 73.3507, 1.403],
      [2, 1, 45.982, -0.138],
      [2, 2, 31.3901, -0.791],
    ];
    const run = (shape: LuminousOpening) =>
      calculate(
        scene([[placed(luminaire(down(1), shape), [0, 0, 3])]], [plane(exact.map(([x, y]) => [x, y, 0]))]),
        { nearFieldError: 1e-4, interreflection: false, occlusion: false },
      ).planes[0].layers[0].direct;
    const E = run(opening("rectangle", 1));
    const point = run(opening("point", 0));
    exact.forEach(([x, y, lx, percent], i) => {
      const outline = [-0.5, -0.5, 3, -0.5, 0.5, 3, 0.5, 0.5, 3, 0.5, -0.5, 3];
      expect(Math.PI * L * elementToPolygon(x, y, 0, 0, 0, 1, outline)).toBeCloseTo(lx, 4);
      expect(Math.abs(E[i] / lx - 1)).toBeLessThan(1e-4);
      expect(100 * (point[i] / lx - 1)).toBeCloseTo(percent, 2);
    });
  });
});

describe("bodies", () => {
  const sphere = (r: number) => rotational(() => L * Math.PI * r * r, 30);

  it("sphere: inverse-square from its centre while above the horizon, and the clipped closed form below", () => {
    const cases = [];
    const r = 0.2;
    for (const h of [1.2, 1.5, 2, 3, 5, 20]) {
      for (const tilt of [0, 30, 60, 75, 90, 110]) {
        const θ = (tilt * Math.PI) / 180;
        const F = elementToSphere(h, θ);
        if (F < 0.005) continue;
        cases.push({
          at: [0, 0, h * r] as Vec3,
          point: [0, 0, 0] as Vec3,
          normal: [Math.sin(θ), 0, Math.cos(θ)] as Vec3,
          F,
        });
      }
    }
    check("sphere", sphere(r), opening("ellipsoid", 2 * r, 2 * r, 2 * r), cases);
  });

  it("cylinder, standing, under one end and beside", () => {
    for (const [l, r, h] of [
      [1, 0.5, 1],
      [2, 0.5, 1],
      [1, 0.1, 1],
      [0.3, 0.05, 0.5],
    ]) {
      // Lambertian side and ends: L times the projected area.
      const I = (γ: number) => L * (2 * r * l * Math.sin(γ) + Math.PI * r * r * Math.abs(Math.cos(γ)));
      check("cylinder", rotational(I, 0.25), opening("cylinder", 2 * r, 2 * r, l), [
        { at: [0, 0, l / 2], point: [h, 0, 0], normal: [-1, 0, 0], F: elementToCylinder(l, r, h) },
      ]);
      // Lying along x and y, turned so that the same receiver sees the same cylinder.
      const along = sampled(
        ([x]) => L * (2 * r * l * Math.sqrt(Math.max(0, 1 - x * x)) + Math.PI * r * r * Math.abs(x)),
        1,
        1,
      );
      const cross = sampled(
        ([, y]) => L * (2 * r * l * Math.sqrt(Math.max(0, 1 - y * y)) + Math.PI * r * r * Math.abs(y)),
        1,
        1,
      );
      const F = elementToCylinder(l, r, h);
      check("cylinder along length", along, opening("cylinder along length", l, 2 * r, 2 * r), [
        { at: [l / 2, 0, 0], point: [0, h, 0], normal: [0, -1, 0], F },
      ]);
      check("cylinder along width", cross, opening("cylinder along width", 2 * r, l, 2 * r), [
        { at: [0, l / 2, 0], point: [h, 0, 0], normal: [-1, 0, 0], F },
      ]);
    }
  });

  it("cylinder with dark ends sends only from its side, and its lower end alone makes a disc", () => {
    const [r, l] = [0.05, 0.4];
    const side = rotational((γ) => L * 2 * r * l * Math.sin(γ), 0.25);
    check("cylinder, dark ends", side, opening("cylinder", 2 * r, 2 * r, l), [
      { at: [0, 0, 0], point: [0.4, 0, -l / 2], normal: [-1, 0, 0], F: elementToCylinder(l, r, 0.4) },
    ]);
    // Under the end: disc at the lower end plus nothing of the side, which is edge-on to the axis.
    const whole = rotational(
      (γ) => L * (2 * r * l * Math.sin(γ) + Math.PI * r * r * Math.abs(Math.cos(γ))),
      0.25,
    );
    check("cylinder from below", whole, opening("cylinder", 2 * r, 2 * r, l), [
      { at: [0, 0, 0.5], point: [0, 0, 0], F: elementToParallelDisc(0.5 - l / 2, r) },
    ]);
  });

  it("box: the faces it shows, each by contour", () => {
    const [a, b, c] = [0.6, 0.3, 0.2];
    const box = sampled(
      ([x, y, z]) => L * (b * c * Math.abs(x) + a * c * Math.abs(y) + a * b * Math.abs(z)),
      1,
      1,
    );
    const [x, y, z] = [a / 2, b / 2, c / 2];
    // Counter-clockwise from outside.
    const faces = [
      [-x, -y, -z, -x, y, -z, x, y, -z, x, -y, -z],
      [x, -y, -z, x, y, -z, x, y, z, x, -y, z],
      [-x, -y, -z, -x, -y, z, -x, y, z, -x, y, -z],
      [x, y, -z, -x, y, -z, -x, y, z, x, y, z],
      [-x, -y, -z, x, -y, -z, x, -y, z, -x, -y, z],
      [-x, -y, z, x, -y, z, x, y, z, -x, y, z],
    ];
    const cases = [];
    for (const p of [
      [0, 0, -0.3],
      [0.1, 0.2, -0.4],
      [0.9, 0.1, -0.8],
      [0.4, 0.9, -0.3],
      [2, 1, -3],
    ] as Vec3[]) {
      for (const n of [
        [0, 0, 1],
        [-0.6, 0, 0.8],
      ] as Vec3[]) {
        let F = 0;
        for (const face of faces) F += Math.max(0, elementToPolygon(...p, ...n, face));
        cases.push({ at: [0, 0, 0] as Vec3, point: p, normal: n, F });
      }
    }
    check("box", box, opening("box", a, b, c), cases);
  });
});

describe("five-times rule", () => {
  it("disc and square on the axis: what the inverse-square law over-reads", () => {
    // d / size, disc (D/2d)², square by side, in per cent.
    const table: [number, number, number][] = [
      [0.5, 100, 129.8],
      [1, 25, 32.93],
      [2, 6.25, 8.302],
      [3, 2.778, 3.697],
      [4, 1.5625, 2.081],
      [5, 1.0, 1.3325],
      [7, 0.51, 0.68],
      [10, 0.25, 0.333],
    ];
    const size = 0.3;
    const at = (shape: LuminousOpening, area: number, d: number) =>
      calculate(scene([[placed(luminaire(down(area), shape), [0, 0, d])]], [plane([[0, 0, 0]])]), {
        nearFieldError: 1e-5,
        interreflection: false,
      }).planes[0].layers[0].direct[0];
    let most = 0;
    for (const [ratio, disc, square] of table) {
      const d = ratio * size;
      const area = (Math.PI * size * size) / 4;
      const over = (shape: LuminousOpening, a: number) => 100 * ((L * a) / (d * d) / at(shape, a, d) - 1);
      const δ = [
        over(opening("disc", size), area) - disc,
        over(opening("rectangle", size), size * size) - square,
      ];
      // Half a unit of the table's last digit (the coarsest row prints tenths of a per cent).
      expect(Math.abs(δ[0])).toBeLessThan(0.006);
      expect(Math.abs(δ[1])).toBeLessThan(square > 100 ? 0.06 : 0.006);
      most = Math.max(most, ...δ.map((x) => Math.abs(x)));
    }
    console.log(
      `worst error five-times table ${most.toFixed(4)} percentage points (print rounding included)`,
    );
  });

  it("off the axis the sign turns: disc 0.4 m, 0.8 m up", () => {
    const offsets = [0, 0.2, 0.4, 0.8, 1.2];
    const percent = [6.25, 4.88, 2.09, -1.49, -2.04];
    const area = Math.PI * 0.04;
    const run = (shape: LuminousOpening) =>
      calculate(
        scene([[placed(luminaire(down(area), shape), [0, 0, 0.8])]], [plane(offsets.map((a) => [a, 0, 0]))]),
        { nearFieldError: 1e-5, interreflection: false },
      ).planes[0].layers[0].direct;
    const exact = run(opening("disc", 0.4));
    const point = run(opening("point", 0));
    offsets.forEach((_, i) => {
      expect(Math.abs(100 * (point[i] / exact[i] - 1) - percent[i])).toBeLessThan(0.006);
    });
  });

  it("a line of cosine emitters on its axis", () => {
    const table: [number, number][] = [
      [0.5, 55.6],
      [1, 15.79],
      [2, 4.108],
      [3, 1.84],
      [4, 1.038],
      [5, 0.665],
      [7, 0.34],
      [10, 0.167],
    ];
    for (const [ratio, percent] of table) {
      const E = calculate(
        scene(
          [[placed(luminaire(down(1), opening("rectangle", 1, 0)), [0, 0, ratio])]],
          [plane([[0, 0, 0]])],
        ),
        { nearFieldError: 1e-5, interreflection: false },
      ).planes[0].layers[0].direct[0];
      expect(Math.abs(100 * (L / ratio ** 2 / E - 1) - percent)).toBeLessThan(percent > 50 ? 0.06 : 0.006);
    }
  });
});
