/**
 * A placed luminaire as the trace sees it: intensity looked up bilinearly in its own angles, and points on its luminous
 * opening.
 *
 * From an element in direction ω: dI = I(ω) max(0, n·ω) dA / A_p(ω), A_p(ω) = ∫ max(0, n·ω) dA; a flat opening counts
 * both faces, there dI = I(ω) dA / A. `pointOn` draws an element; `factor` is what its sample of I(ω) is multiplied by
 * so that the mean over draws is the integral. Flat faces of a cylinder or box are dark where the intensity along
 * their normal is below 1 % of the largest.
 */
import type { PlacedLuminaire } from "../../../src/luminaire/placed-luminaire.ts";

const TAU = 2 * Math.PI;
const RANGE_TOLERANCE = 1e-9;
/** Intervals of cos γ in `meanIntensity`. */
export const MEAN_NODES = 512;

/** Semi-axes along local x, y, z and which axis is that of a cylinder or the normal of a flat opening. */
type Shape =
  | { readonly kind: "point" }
  | { readonly kind: "flat disc" | "flat rectangle"; readonly axis: number }
  | { readonly kind: "ellipsoid" }
  | { readonly kind: "cylinder"; readonly axis: number }
  | { readonly kind: "box" };

export class Emitter {
  readonly origin: Float64Array;
  readonly rotation: Float64Array;
  /** Index of the solid that neither blocks nor receives this light, or −1. */
  own = -1;
  /** Radius of a sphere about the origin that holds the opening (m). */
  readonly radius: number;
  /** Point drawn last, in the room (m). */
  readonly point = new Float64Array(3);
  private readonly horizontal: Float64Array;
  private readonly vertical: Float64Array;
  private readonly intensity: Float64Array;
  private readonly largest: number;
  private readonly shape: Shape;
  private readonly semi: Float64Array;
  /** Lit flat faces: axis, sign, area; the curved side of a cylinder is weighed by `side`. */
  private readonly ends: { readonly axis: number; readonly sign: number; readonly area: number }[] = [];
  private readonly side: number = 0;
  private readonly area: number = 0;
  private readonly q = new Float64Array(3);
  private readonly n = new Float64Array(3);
  /** Mean over C of the intensity at evenly spaced cos γ, for choosing among luminaires only. */
  readonly meanIntensity = new Float64Array(MEAN_NODES + 1);

  constructor({ luminaire, frame }: PlacedLuminaire) {
    const { distribution, emission } = luminaire;
    if (distribution.type !== "C") throw new Error("The trace knows distributions of type C.");
    if (emission.kind !== "opening") throw new Error("The trace knows luminaires with an opening.");
    this.origin = Float64Array.from(frame.origin);
    this.rotation = frame.rotation;
    this.horizontal = distribution.horizontal;
    this.vertical = distribution.vertical;
    this.intensity = distribution.intensity;
    this.largest = Math.max(...distribution.intensity);
    const { shape, length, width, height } = emission.opening;
    this.semi = Float64Array.of(length / 2, width / 2, height / 2);
    this.radius = shape === "point" ? 0 : Math.hypot(length, width, height) / 2;
    this.shape =
      shape === "disc"
        ? { kind: "flat disc", axis: 2 }
        : shape === "upright disc"
          ? { kind: "flat disc", axis: 0 }
          : shape === "rectangle"
            ? { kind: "flat rectangle", axis: 2 }
            : shape === "cylinder"
              ? { kind: "cylinder", axis: 2 }
              : shape === "cylinder along length"
                ? { kind: "cylinder", axis: 0 }
                : shape === "cylinder along width"
                  ? { kind: "cylinder", axis: 1 }
                  : { kind: shape };
    if (this.shape.kind === "cylinder") {
      const { axis } = this.shape;
      const [a, b] = [this.semi[(axis + 1) % 3], this.semi[(axis + 2) % 3]];
      this.side = 2 * this.semi[axis] * TAU * Math.sqrt((a * a + b * b) / 2);
      for (const sign of [-1, 1])
        if (this.lit(axis, sign)) this.ends.push({ axis, sign, area: Math.PI * a * b });
    }
    if (this.shape.kind === "box")
      for (let axis = 0; axis < 3; axis++)
        for (const sign of [-1, 1])
          if (this.lit(axis, sign))
            this.ends.push({ axis, sign, area: 4 * this.semi[(axis + 1) % 3] * this.semi[(axis + 2) % 3] });
    this.area = this.side + this.ends.reduce((sum, { area }) => sum + area, 0);
    for (let i = 0; i <= MEAN_NODES; i++) {
      const down = 1 - (2 * i) / MEAN_NODES;
      const across = Math.sqrt(Math.max(0, 1 - down * down));
      for (let k = 0; k < 16; k++) {
        const C = (TAU * (k + 0.5)) / 16;
        this.meanIntensity[i] +=
          this.intensityTowards(across * Math.cos(C), across * Math.sin(C), -down) / 16;
      }
    }
  }

  private lit(axis: number, sign: number): boolean {
    const n = [0, 0, 0];
    n[axis] = sign;
    return this.intensityTowards(n[0], n[1], n[2]) >= 0.01 * this.largest;
  }

  /** cd in a local unit direction */
  intensityTowards(x: number, y: number, z: number): number {
    const { vertical, horizontal, intensity } = this;
    const across = Math.sqrt(x * x + y * y);
    const gamma = Math.atan2(across, -z);
    const last = vertical.length - 1;
    if (gamma < vertical[0] - RANGE_TOLERANCE || gamma > vertical[last] + RANGE_TOLERANCE) return 0;
    const v = last === 0 ? 0 : cellOf(vertical, gamma);
    const fv =
      last === 0 ? 0 : Math.min(1, Math.max(0, (gamma - vertical[v]) / (vertical[v + 1] - vertical[v])));
    const up = last === 0 ? 0 : 1;
    if (horizontal.length === 1) return intensity[v] * (1 - fv) + intensity[v + up] * fv;
    let C = across === 0 ? 0 : Math.atan2(y, x);
    if (C < 0) C += TAU;
    const h = cellOf(horizontal, C);
    const fh = Math.min(1, Math.max(0, (C - horizontal[h]) / (horizontal[h + 1] - horizontal[h])));
    const size = vertical.length;
    const [a, b] = [h * size + v, (h + 1) * size + v];
    return (
      (intensity[a] * (1 - fv) + intensity[a + up] * fv) * (1 - fh) +
      (intensity[b] * (1 - fv) + intensity[b + up] * fv) * fh
    );
  }

  /** Draws a point of the opening from two numbers in [0, 1) and puts it into `point`. */
  pointOn(u: number, v: number): void {
    const { q, n, semi, shape } = this;
    if (shape.kind === "point") q.fill(0);
    else if (shape.kind === "flat disc") {
      const [i, j] = [(shape.axis + 1) % 3, (shape.axis + 2) % 3];
      const radius = Math.sqrt(u);
      q[shape.axis] = 0;
      q[i] = semi[i] * radius * Math.cos(TAU * v);
      q[j] = semi[j] * radius * Math.sin(TAU * v);
    } else if (shape.kind === "flat rectangle") {
      q[0] = semi[0] * (2 * u - 1);
      q[1] = semi[1] * (2 * v - 1);
      q[2] = 0;
    } else if (shape.kind === "ellipsoid") {
      const z = 2 * u - 1;
      const across = Math.sqrt(Math.max(0, 1 - z * z));
      // n dA = (s_x b c, s_y a c, s_z a b) dΩ for s on the unit sphere
      const [sx, sy] = [across * Math.cos(TAU * v), across * Math.sin(TAU * v)];
      q[0] = semi[0] * sx;
      q[1] = semi[1] * sy;
      q[2] = semi[2] * z;
      const whole = 2 * TAU;
      n[0] = whole * sx * semi[1] * semi[2];
      n[1] = whole * sy * semi[0] * semi[2];
      n[2] = whole * z * semi[0] * semi[1];
    } else this.pointOnFaces(u, v);
    const { rotation: r, origin, point } = this;
    for (let k = 0; k < 3; k++) point[k] = origin[k] + r[k] * q[0] + r[3 + k] * q[1] + r[6 + k] * q[2];
  }

  private pointOnFaces(u: number, v: number): void {
    const { q, n, semi, area, side, ends } = this;
    let rest = u * area;
    n.fill(0);
    if (this.shape.kind === "cylinder" && rest < side) {
      const { axis } = this.shape;
      const [i, j] = [(axis + 1) % 3, (axis + 2) % 3];
      const [c, s] = [Math.cos(TAU * v), Math.sin(TAU * v)];
      q[axis] = semi[axis] * ((2 * rest) / side - 1);
      q[i] = semi[i] * c;
      q[j] = semi[j] * s;
      // n dA = (b cos φ, a sin φ) dφ dz, divided by the density of (φ, z), side / area / (2π · 2 semi)
      const scale = (TAU * 2 * semi[axis] * area) / side;
      n[i] = scale * semi[j] * c;
      n[j] = scale * semi[i] * s;
      return;
    }
    rest -= side;
    let end = ends[0];
    for (let e = 0; e < ends.length; e++) {
      end = ends[e];
      if (rest < end.area || e === ends.length - 1) break;
      rest -= end.area;
    }
    const share = Math.min(Math.max(rest / end.area, 0), 1);
    const [i, j] = [(end.axis + 1) % 3, (end.axis + 2) % 3];
    q[end.axis] = end.sign * semi[end.axis];
    if (this.shape.kind === "cylinder") {
      const radius = Math.sqrt(share);
      q[i] = semi[i] * radius * Math.cos(TAU * v);
      q[j] = semi[j] * radius * Math.sin(TAU * v);
    } else {
      q[i] = semi[i] * (2 * share - 1);
      q[j] = semi[j] * (2 * v - 1);
    }
    n[end.axis] = end.sign * area;
  }

  /** Intensity that the point drawn last stands for in a room direction (unit), cd. */
  drawnIntensity(dx: number, dy: number, dz: number): number {
    const r = this.rotation;
    const x = r[0] * dx + r[1] * dy + r[2] * dz;
    const y = r[3] * dx + r[4] * dy + r[5] * dz;
    const z = r[6] * dx + r[7] * dy + r[8] * dz;
    const { kind } = this.shape;
    if (kind === "point" || kind === "flat disc" || kind === "flat rectangle")
      return this.intensityTowards(x, y, z);
    const facing = this.n[0] * x + this.n[1] * y + this.n[2] * z;
    if (facing <= 0) return 0;
    return (this.intensityTowards(x, y, z) * facing) / this.projectedArea(x, y, z);
  }

  /** m² */
  projectedArea(x: number, y: number, z: number): number {
    const [a, b, c] = this.semi;
    if (this.shape.kind === "ellipsoid") return Math.PI * Math.hypot(b * c * x, a * c * y, a * b * z);
    const d = [x, y, z];
    let sum = 0;
    if (this.shape.kind === "cylinder") {
      const { axis } = this.shape;
      const [i, j] = [(axis + 1) % 3, (axis + 2) % 3];
      sum = 4 * this.semi[axis] * Math.hypot(this.semi[j] * d[i], this.semi[i] * d[j]);
    }
    for (const end of this.ends) sum += end.area * Math.max(0, end.sign * d[end.axis]);
    return sum;
  }
}

/** The cell i with nodes[i] ≤ value ≤ nodes[i + 1]. */
function cellOf(nodes: Float64Array, value: number): number {
  let low = 0;
  let high = nodes.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (nodes[middle] <= value) low = middle;
    else high = middle;
  }
  return low;
}
