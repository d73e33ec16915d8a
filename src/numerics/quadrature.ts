/**
 * Gauss–Legendre quadrature on [0, 1]: ∫₀¹ f ≈ Σ wᵢ f(xᵢ), exact for polynomials of degree 2n − 1.
 *
 * Nodes are the roots of the Legendre polynomial Pₙ by Newton's method from Tricomi's first guess;
 * wᵢ = 2 / ((1 − x²) Pₙ′(x)²) on [−1, 1] [1].
 *
 * [1] M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 25.4.29–30. Error below 1e-15 for n ≤ 100.
 *
 * Rules are kept by their number of nodes, for as long as the program runs.
 */

export interface QuadratureRule {
  readonly nodes: Float64Array;
  /** Sum to one. */
  readonly weights: Float64Array;
}

/** Constants of mathematics; orders come from ladders in the code, none from data, so there are a few dozen. */
const rules = new Map<number, QuadratureRule>();

/** The rule of `n` ≥ 1 nodes, nodes rising, symmetric about ½ to the last bit. Kept for reuse, by n. */
export function gaussLegendre(n: number): QuadratureRule {
  const entry = rules.get(n);
  if (entry !== undefined) return entry;
  const nodes = new Float64Array(n);
  const weights = new Float64Array(n);
  for (let i = 0; i < n >> 1; i++) {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5));
    let slope = 0;
    for (let turn = 0; turn < 100; turn++) {
      const [p, q] = legendre(n, x);
      slope = q;
      const step = p / q;
      x -= step;
      if (Math.abs(step) < 1e-16) break;
    }
    slope = legendre(n, x)[1];
    const weight = 1 / ((1 - x * x) * slope * slope);
    nodes[i] = 0.5 - x / 2;
    nodes[n - 1 - i] = 0.5 + x / 2;
    weights[i] = weight;
    weights[n - 1 - i] = weight;
  }
  if (n % 2 === 1) {
    const slope = legendre(n, 0)[1];
    nodes[n >> 1] = 0.5;
    weights[n >> 1] = 1 / (slope * slope);
  }
  const rule = { nodes, weights };
  rules.set(n, rule);
  return rule;
}

/** Pₙ(x) and its derivative, by the three-term recurrence. */
function legendre(n: number, x: number): [value: number, slope: number] {
  let before = 1;
  let here = x;
  for (let k = 2; k <= n; k++) {
    const next = ((2 * k - 1) * x * here - (k - 1) * before) / k;
    before = here;
    here = next;
  }
  return [here, (n * (x * here - before)) / (x * x - 1)];
}
