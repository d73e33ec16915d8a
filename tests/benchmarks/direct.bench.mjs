/**
 * Direct light at 10,000 points of an island top from five pendants, single-threaded, against a plain loop over
 * equal-area elements with trigonometry brought to the same error. Run by `npm run bench:kernels` on the built library.
 *
 * Openings 0.3 to 0.6 m at 0.75 to 0.9 m above the top; one is a 10° beam, one a full C table. Prints the best
 * of many runs, because other work on the machine only ever adds time.
 */
import { Bench } from "tinybench";
import { addDirectLight, contributionFloor } from "../../dist/engine/direct/direct-light.js";
import { DirectSources } from "../../dist/engine/direct/direct-sources.js";
import { Receiver } from "../../dist/engine/direct/receiver.js";
import { frame } from "../../dist/geometry/frame.js";
import { intensityTowards } from "../../dist/photometry/reference-lookup.js";

const rad = Math.PI / 180;
const COLUMNS = 200;
const ROWS = 50;
const TOP = 0.9;
const ERROR = 0.0025;

const points = new Float64Array(3 * COLUMNS * ROWS);
for (let i = 0; i < COLUMNS * ROWS; i++) {
  points[3 * i] = (3 * ((i % COLUMNS) + 0.5)) / COLUMNS;
  points[3 * i + 1] = (1.1 * (Math.floor(i / COLUMNS) + 0.5)) / ROWS;
  points[3 * i + 2] = TOP;
}
const plane = {
  name: "top",
  quantity: "planar",
  points,
  normal: [0, 0, 1],
  weights: new Float64Array(COLUMNS * ROWS).fill(1),
};

function table(I, planes = 1, to = 90) {
  const horizontal = Float64Array.from({ length: planes }, (_, h) =>
    planes === 1 ? 0 : (2 * Math.PI * h) / (planes - 1),
  );
  const vertical = Float64Array.from({ length: to + 1 }, (_, v) => v * rad);
  const intensity = new Float64Array(planes * (to + 1));
  horizontal.forEach((C, h) => {
    vertical.forEach((γ, v) => {
      intensity[h * (to + 1) + v] = I(γ, C);
    });
  });
  return { type: "C", symmetry: planes === 1 ? "rotational" : "none", horizontal, vertical, intensity };
}

const lambert = (γ) => 300 * Math.max(0, Math.cos(γ));
const narrow = (γ) => 4000 * Math.max(0, Math.cos(γ)) ** (Math.log(0.5) / Math.log(Math.cos(5 * rad)));
const wide = (γ) => 200 * Math.max(0, Math.cos(γ)) * (0.4 + 2.5 * Math.sin(γ) ** 2);
const linear = (γ, C) => 350 * Math.max(0, Math.cos(γ)) ** (1 + Math.cos(C) ** 2);
const soft = (γ) => 400 * Math.max(0, Math.cos(γ)) ** 2;

const pendants = [
  ["Lambertian disc 0.3 m", lambert, 1, "disc", 0.3, 0.3, 0.75],
  ["batwing disc 0.45 m", wide, 1, "disc", 0.45, 0.45, 0.8],
  ["linear 0.6 × 0.1 m, 25 C planes", linear, 25, "rectangle", 0.6, 0.1, 0.8],
  ["soft disc 0.6 m", soft, 1, "disc", 0.6, 0.6, 0.9],
  ["10° beam disc 0.3 m", narrow, 1, "disc", 0.3, 0.3, 0.75],
].map(([name, I, planes, shape, length, width, above], i) => ({
  name,
  luminaire: {
    name,
    distribution: table(I, planes),
    emission: { kind: "opening", opening: { shape, length, width, height: 0 } },
    evidence: "A",
    flux: 1,
    origin: "a formula",
  },
  frame: frame([0.3 + 0.6 * i, 0.55, TOP + above]),
}));

/** Equal-area elements: N × N of a rectangle, N rings of 8i + 4 on a disc. */
function equalAreas(shape, length, width, N) {
  const found = [];
  for (let i = 0; i < N; i++) {
    if (shape === "rectangle") {
      const across = Math.max(1, Math.round((N * width) / length));
      for (let j = 0; j < across; j++)
        found.push([length * ((i + 0.5) / N - 0.5), width * ((j + 0.5) / across - 0.5)]);
    } else {
      const parts = 8 * i + 4;
      // The ring between i and i + 1 of N² equal shares; centroid radius.
      const r0 = i / N;
      const r1 = (i + 1) / N;
      const r = ((2 / 3) * (r1 ** 3 - r0 ** 3)) / (r1 ** 2 - r0 ** 2);
      for (let j = 0; j < parts; j++) {
        const φ = (2 * Math.PI * (j + 0.5)) / parts;
        found.push([0.5 * length * r * Math.cos(φ), 0.5 * width * r * Math.sin(φ)]);
      }
    }
  }
  return found;
}

function plainAt(pendant, elements, px, py, pz) {
  const { origin } = pendant.frame;
  let E = 0;
  for (const [ex, ey] of elements) {
    const x = px - origin[0] - ex;
    const y = py - origin[1] - ey;
    const z = pz - origin[2];
    const d = Math.hypot(x, y, z);
    E += (intensityTowards(pendant.luminaire.distribution, x, y, z) * (-z / d)) / (d * d);
  }
  return E / elements.length;
}

// Every 37th point judges errors; the reference is the same sum over 90 × as many elements as suffice.
const judged = [];
for (let i = 0; i < COLUMNS * ROWS; i += 37) judged.push(i);
const sources = new DirectSources();
const floor = contributionFloor(
  plane,
  pendants.map((pendant) => sources.placed(pendant, ERROR)),
);
let pairs = 0;
let nodes = 0;
const plain = [];
for (const pendant of pendants) {
  const { shape, length, width } = pendant.luminaire.emission.opening;
  const fine = equalAreas(shape, length, width, shape === "disc" ? 40 : 90);
  const exact = judged.map((i) =>
    plainAt(pendant, fine, points[3 * i], points[3 * i + 1], points[3 * i + 2]),
  );
  const source = sources.of(pendant.luminaire, ERROR);
  const positions = new Float64Array(3 * source.maximumElements);
  const values = new Float64Array(source.maximumElements);
  const receiver = new Receiver("planar", [0, 0, 1], pendant.frame.rotation);
  let worst = 0;
  let here = 0;
  const local = (i) => [0, 1, 2].map((k) => points[3 * i + k] - pendant.frame.origin[k]);
  judged.forEach((i, n) => {
    const E = source.illuminance(...local(i), receiver, floor);
    worst = Math.max(worst, Math.abs(E - exact[n]) / Math.max(exact[n], floor));
  });
  for (let i = 0; i < COLUMNS * ROWS; i++)
    here += source.sample(...local(i), receiver, floor, positions, values);
  nodes += here;
  pairs += COLUMNS * ROWS;
  let elements = equalAreas(shape, length, width, 1);
  let plainWorst = 1;
  for (let N = 1; plainWorst > ERROR && N < 40; N++) {
    elements = equalAreas(shape, length, width, N);
    plainWorst = 0;
    for (let n = 0; n < judged.length; n++) {
      const i = judged[n];
      const E = plainAt(pendant, elements, points[3 * i], points[3 * i + 1], points[3 * i + 2]);
      plainWorst = Math.max(plainWorst, Math.abs(E - exact[n]) / Math.max(exact[n], floor));
      if (plainWorst > ERROR) break;
    }
  }
  plain.push(elements);
  console.log(
    `${pendant.name}: worst error ${(100 * worst).toFixed(3)} % with ${(here / COLUMNS / ROWS).toFixed(1)} nodes a point; ` +
      `equal areas need ${elements.length} for ${(100 * plainWorst).toFixed(3)} %`,
  );
}

const bench = new Bench({ time: 3000, warmupTime: 500, iterations: 10 });
bench.add("engine", () => {
  const placed = pendants.map((pendant) => sources.placed(pendant, ERROR));
  const least = contributionFloor(plane, placed);
  for (const each of placed) addDirectLight(each, plane, least, new Float64Array(COLUMNS * ROWS));
});
bench.add("plain loop", () => {
  const E = new Float64Array(COLUMNS * ROWS);
  for (let n = 0; n < pendants.length; n++) {
    for (let i = 0; i < E.length; i++)
      E[i] += plainAt(pendants[n], plain[n], points[3 * i], points[3 * i + 1], points[3 * i + 2]);
  }
});
await bench.run();
const [engine, loop] = bench.tasks.map((task) => task.result.latency.min);
console.log(
  `direct light, ${COLUMNS * ROWS} points × ${pendants.length} pendants: ${engine.toFixed(1)} ms (target 25 ms), ` +
    `${((1e6 * engine) / nodes).toFixed(1)} ns per point × element, ${(nodes / pairs).toFixed(1)} elements on average`,
);
console.log(
  `plain loop at the same error: ${loop.toFixed(0)} ms, ${(loop / engine).toFixed(1)} × slower (target 2.5)`,
);
