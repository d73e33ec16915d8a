/** A luminous opening as a hundred thousand points, each with the light it sends by the textbook, and the share of it
 * that a list of gauges lets pass. Shares no code with the engine but the intensity's interpolation. */
import type { Vec3 } from "../../src/geometry/vector.ts";
import type { IntensityDistribution } from "../../src/photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../src/photometry/luminous-opening.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { type Gauge, passesThrough } from "./convex-oracle.ts";

interface Element {
  readonly at: Vec3;
  /** Undefined where both faces send. */
  readonly normal?: Vec3;
  /** Share of the whole area. */
  readonly area: number;
}

/** Points of the opening about its centre. All ends are lit. */
function elements({ shape, length, width, height }: LuminousOpening, count: number): Element[] {
  const [a, b, c] = [length / 2, width / 2, height / 2];
  const out: Element[] = [];
  // Faces by area; each has its own sequence.
  const spread = (
    n: number,
    make: (s: number, t: number) => Omit<Element, "area"> & { area?: number },
    area: number,
  ) => {
    for (let k = 1; k <= n; k++) {
      const each = make((k * 0.7548776662466927) % 1, (k * 0.5698402909980532) % 1);
      out.push({ ...each, area: ((each.area ?? 1) * area) / n });
    }
  };
  const turn = (t: number): [number, number] => [Math.cos(2 * Math.PI * t), Math.sin(2 * Math.PI * t)];
  switch (shape) {
    case "point":
      return [{ at: [0, 0, 0], area: 1 }];
    case "rectangle":
      spread(count, (s, t) => ({ at: [a * (2 * s - 1), b * (2 * t - 1), 0] }), 1);
      break;
    case "disc":
      spread(
        count,
        (s, t) => {
          const [x, y] = turn(t);
          return { at: [a * Math.sqrt(s) * x, b * Math.sqrt(s) * y, 0] };
        },
        1,
      );
      break;
    case "upright disc":
      spread(
        count,
        (s, t) => {
          const [x, y] = turn(t);
          return { at: [0, b * Math.sqrt(s) * x, c * Math.sqrt(s) * y] };
        },
        1,
      );
      break;
    case "ellipsoid":
      spread(
        count,
        (s, t) => {
          const z = 2 * s - 1;
          const r = Math.sqrt(1 - z * z);
          const [x, y] = turn(t);
          // dA = abc |S⁻¹u| dω along S⁻¹u
          const n: Vec3 = [(r * x) / a, (r * y) / b, z / c];
          const size = Math.hypot(...n);
          return {
            at: [a * r * x, b * r * y, c * z],
            normal: [n[0] / size, n[1] / size, n[2] / size],
            area: a * b * c * size,
          };
        },
        4 * Math.PI,
      );
      break;
    case "box": {
      const half = [a, b, c];
      for (let k = 0; k < 3; k++)
        for (const sign of [-1, 1]) {
          const [u, v] = [(k + 1) % 3, (k + 2) % 3];
          spread(
            Math.ceil(count / 6),
            (s, t) => {
              const p = [0, 0, 0];
              const n = [0, 0, 0];
              p[k] = sign * half[k];
              p[u] = half[u] * (2 * s - 1);
              p[v] = half[v] * (2 * t - 1);
              n[k] = sign;
              return { at: p as unknown as Vec3, normal: n as unknown as Vec3 };
            },
            4 * half[u] * half[v],
          );
        }
      break;
    }
    default: {
      const k = shape === "cylinder" ? 2 : shape === "cylinder along length" ? 0 : 1;
      const half = [a, b, c];
      const [u, v] = [(k + 1) % 3, (k + 2) % 3];
      const r = half[u];
      const place = (along: number, pu: number, pv: number): Vec3 => {
        const p = [0, 0, 0];
        p[k] = along;
        p[u] = pu;
        p[v] = pv;
        return p as unknown as Vec3;
      };
      spread(
        Math.ceil(count / 2),
        (s, t) => {
          const [x, y] = turn(t);
          return { at: place(half[k] * (2 * s - 1), r * x, r * y), normal: place(0, x, y) };
        },
        2 * Math.PI * r * 2 * half[k],
      );
      for (const sign of [-1, 1])
        spread(
          Math.ceil(count / 4),
          (s, t) => {
            const [x, y] = turn(t);
            const rr = r * Math.sqrt(s);
            return { at: place(sign * half[k], rr * x, rr * y), normal: place(sign, 0, 0) };
          },
          Math.PI * r * r,
        );
    }
  }
  return out;
}

export class OpeningOracle {
  readonly #elements: readonly Element[];
  readonly #distribution: IntensityDistribution;
  readonly #origin: Vec3;
  readonly #opening: LuminousOpening;

  constructor(distribution: IntensityDistribution, opening: LuminousOpening, origin: Vec3, count: number) {
    this.#elements = elements(opening, count);
    this.#distribution = distribution;
    this.#opening = opening;
    this.#origin = origin;
  }

  /** Share of the light on a plane of unit normal `n` at `p` that passes the gauges. */
  share(p: Vec3, n: Vec3, gauges: readonly Gauge[]): number {
    let all = 0;
    let seen = 0;
    for (const { at, normal, area } of this.#elements) {
      const q: Vec3 = [at[0] + this.#origin[0], at[1] + this.#origin[1], at[2] + this.#origin[2]];
      const [x, y, z] = [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
      const facing = normal === undefined ? 1 : normal[0] * x + normal[1] * y + normal[2] * z;
      const height = -(n[0] * x + n[1] * y + n[2] * z);
      if (facing <= 0 || height <= 0) continue;
      const d = Math.sqrt(x * x + y * y + z * z);
      const projected = normal === undefined ? 1 : this.#projected(x, y, z);
      const E =
        (area * facing * intensityTowards(this.#distribution, x, y, z) * height) / (projected * d * d * d);
      all += E;
      if (!gauges.some((gauge) => passesThrough(gauge, p, q))) seen += E;
    }
    return all > 0 ? seen / all : 1;
  }

  /** A_p(v) · |v| of a closed body, all of whose ends are lit. */
  #projected(x: number, y: number, z: number): number {
    const { shape, length, width, height } = this.#opening;
    const [a, b, c] = [length / 2, width / 2, height / 2];
    if (shape === "ellipsoid")
      return Math.PI * Math.sqrt((b * c * x) ** 2 + (a * c * y) ** 2 + (a * b * z) ** 2);
    if (shape === "box") return 4 * (b * c * Math.abs(x) + a * c * Math.abs(y) + a * b * Math.abs(z));
    const [along, r, u, v, w] = shape === "cylinder" ? [c, a, z, x, y] : [a, b, x, y, z];
    return Math.PI * r * r * Math.abs(u) + 4 * along * r * Math.sqrt(v * v + w * w);
  }
}
