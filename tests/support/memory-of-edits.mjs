/** Run by a test with `--expose-gc`: heap (MB) after so many edits of a luminaire, each another flux, as JSON. */
import { LightEngine } from "../../dist/engine/light-engine.js";
import { frame } from "../../dist/geometry/frame.js";

const EDITS = [100, 400, 700, 1000];

function edited(edit) {
  const vertical = Float64Array.from({ length: 181 }, (_, i) => (i * Math.PI) / 360);
  const flux = 800 + edit;
  const luminaire = {
    name: "edited",
    distribution: {
      type: "C",
      symmetry: "rotational",
      horizontal: new Float64Array(1),
      vertical,
      intensity: vertical.map((γ) => (flux / Math.PI) * Math.max(0, Math.cos(γ))),
    },
    emission: { kind: "opening", opening: { shape: "disc", length: 0.3, width: 0.3, height: 0 } },
    evidence: "A",
    flux,
    origin: "a formula",
  };
  const points = Float64Array.of(0, 0, 0);
  return {
    name: "edited",
    room: { length: 4, width: 3, ceilingHeight: 2.7, slope: 0, towards: 0 },
    zones: [],
    people: [],
    layers: [
      { name: "one", role: "pendant", dim: 1, luminaires: [{ luminaire, frame: frame([0, 0, 1.2]) }] },
    ],
    surfaces: [],
    blockers: [],
    planes: [{ name: "p", quantity: "planar", points, normal: [0, 0, 1], weights: Float64Array.of(1) }],
    maintenance: 1,
  };
}

const engine = new LightEngine();
const heap = [];
for (let edit = 1; edit <= EDITS[EDITS.length - 1]; edit++) {
  engine.calculate(edited(edit), { interreflection: false });
  if (!EDITS.includes(edit)) continue;
  // Buffers are freed beside the program: the least of some looks is what is held.
  let least = Number.POSITIVE_INFINITY;
  for (let look = 0; look < 5; look++) {
    globalThis.gc();
    await new Promise((done) => setTimeout(done, 20));
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    least = Math.min(least, (heapUsed + arrayBuffers) / 2 ** 20);
  }
  heap.push(least);
}
console.log(JSON.stringify({ edits: EDITS, heap, sources: engine.sources.size }));
