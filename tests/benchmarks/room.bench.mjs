/**
 * The worked example's whole room, single-threaded: from nothing, after a pendant moved, after a wall was painted,
 * after a dimmer; what doubling the patches costs; and rays per second of the visibility tree. Run by
 * `npm run bench:kernels` on the built library. Prints the best of several runs, because other work on the machine only
 * ever adds time, and beside it the processor time of that run.
 */

import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { exchangeOf } from "../../dist/engine/interreflection/exchange.js";
import { Gather } from "../../dist/engine/interreflection/gather.js";
import { patchesOf } from "../../dist/engine/interreflection/patches.js";
import { LightEngine } from "../../dist/engine/light-engine.js";
import { standingBlockers } from "../../dist/engine/visibility/surroundings.js";
import { VisibilityTree } from "../../dist/geometry/visibility-tree.js";
import { fineGrid } from "../../dist/scene/calculation-grid.js";
import { workedExample } from "./worked-example.mjs";

const study = await workedExample();
const base = study.scenes[0];
const tops = base.planes.filter(({ name }) => !name.includes("floor"));
const scene = { ...base, planes: [...base.planes, ...tops.flatMap((plane) => fineGrid(plane) ?? [])] };

function best(runs, work) {
  let wall = Infinity;
  let processor = 0;
  for (let k = 0; k < runs; k++) {
    const before = process.cpuUsage();
    const start = performance.now();
    work(k);
    const took = performance.now() - start;
    const used = process.cpuUsage(before);
    if (took < wall) {
      wall = took;
      processor = (used.user + used.system) / 1000;
    }
  }
  return { wall, text: `${wall.toFixed(1)} ms (${processor.toFixed(0)} ms of processor time)` };
}

/** Time by stage of one calculation. */
function stagesOf(work) {
  const spent = new Map();
  let last;
  let since = 0;
  const close = () => {
    if (last !== undefined) spent.set(last, (spent.get(last) ?? 0) + performance.now() - since);
  };
  work({
    progress(stage) {
      const name = stage.replace(/ at .*/, "");
      close();
      last = name;
      since = performance.now();
    },
  });
  close();
  return [...spent]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 3)
    .map(([name, ms]) => `${name} ${ms.toFixed(0)} ms`)
    .join(", ");
}

function moved(by) {
  const [pendants, ...others] = scene.layers;
  const [first, ...rest] = pendants.luminaires;
  const { origin } = first.frame;
  const place = { ...first, frame: { ...first.frame, origin: [origin[0] + by, origin[1], origin[2]] } };
  return {
    ...scene,
    layers: [{ ...pendants, luminaires: [place, ...rest] }, ...others],
    blockers: scene.blockers.map((blocker) =>
      blocker.owner?.[0] === 0 && blocker.owner[1] === 0
        ? {
            ...blocker,
            mesh: {
              ...blocker.mesh,
              positions: blocker.mesh.positions.map((x, i) => (i % 3 === 0 ? x + by : x)),
            },
          }
        : blocker,
    ),
  };
}

function painted(by) {
  return {
    ...scene,
    surfaces: scene.surfaces.map((surface) =>
      surface.part === "ceiling" ? { ...surface, reflectance: 0.8 - by } : surface,
    ),
  };
}

for (const quality of ["full", "quick"]) {
  const cold = best(3, () => new LightEngine().calculate(scene, { quality }));
  const engine = new LightEngine();
  const stages = stagesOf((observer) => engine.calculate(scene, { quality }, observer));
  const result = engine.calculate(scene, { quality });
  const { patches } = result.method;
  console.log(`${quality}: ${patches} patches, from nothing ${cold.text}; most in ${stages}`);
  let step = 0;
  const move = best(12, () => engine.calculate(moved(0.01 * ++step), { quality }));
  const moveStages = stagesOf((observer) => engine.calculate(moved(0.01 * ++step), { quality }, observer));
  console.log(`  a pendant moved: ${move.text}; most in ${moveStages}`);
  const paint = best(12, () => engine.calculate(painted(0.01 * ++step), { quality }));
  console.log(`  the ceiling painted: ${paint.text}`);
  console.log(
    `  imbalance ${(100 * result.balance.imbalance).toFixed(3)} %, closure ${(100 * result.balance.closureError).toFixed(2)} % at the worst patch, ${(100 * result.balance.meanClosureError).toFixed(3)} % on average; factors and gather rows ${(engine.bytes / 1e6).toFixed(0)} MB`,
  );
  const dim = best(20, () => {
    for (const { layers } of result.planes)
      layers[0].direct.map((E, i) => 0.4 * (E + layers[0].interreflected[i]) + layers[1].direct[i]);
  });
  console.log(`  a dimmer: ${dim.text}`);
}

const standing = standingBlockers(scene);
const sizes = [600, 1200, 2400].map((wanted) => {
  const patches = patchesOf(scene.surfaces, wanted);
  return { count: patches.count, ...best(3, () => exchangeOf(new Gather(patches, standing))) };
});
for (let k = 0; k + 1 < sizes.length; k++) {
  const ratio = sizes[k + 1].count / sizes[k].count;
  const cost = sizes[k + 1].wall / sizes[k].wall;
  console.log(
    `factors of ${sizes[k].count} and ${sizes[k + 1].count} patches: ${sizes[k].wall.toFixed(0)} and ${sizes[k + 1].wall.toFixed(0)} ms; doubling costs ${(cost ** (Math.LN2 / Math.log(ratio))).toFixed(1)} × (at most 4.5), ${((4 * sizes[k + 1].count ** 2) / 1e6).toFixed(0)} MB`,
  );
}

// 200,000 segments across the room, the same for both structures.
const solids = scene.blockers;
const tree = new VisibilityTree(solids);
const corners = solids.flatMap(({ mesh }) =>
  [...mesh.triangles].flatMap((v) => [...mesh.positions.subarray(3 * v, 3 * v + 3)]),
);
const geometry = new BufferGeometry();
geometry.setAttribute("position", new BufferAttribute(Float32Array.from(corners), 3));
const other = new MeshBVH(geometry);
const N = 200_000;
const ends = new Float64Array(6 * N);
let seed = 1;
for (let k = 0; k < ends.length; k++) {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  ends[k] = (seed / 4294967296) * [5.4, 4.2, 2.7][k % 3];
}
let hits = 0;
const ours = best(5, () => {
  hits = 0;
  for (let k = 0; k < ends.length; k += 6)
    if (tree.transmittance(ends[k], ends[k + 1], ends[k + 2], ends[k + 3], ends[k + 4], ends[k + 5]) === 0)
      hits++;
});
const ray = new Ray();
const target = new Vector3();
const theirs = best(3, () => {
  for (let k = 0; k < ends.length; k += 6) {
    ray.origin.set(ends[k], ends[k + 1], ends[k + 2]);
    target.set(ends[k + 3], ends[k + 4], ends[k + 5]);
    const distance = ray.origin.distanceTo(target);
    ray.direction.copy(target).sub(ray.origin).divideScalar(distance);
    other.raycastFirst(ray, DoubleSide, 1e-6, distance);
  }
});
console.log(
  `visibility, ${tree.triangles} triangles, ${N} segments of which ${hits} blocked: ${(N / ours.wall / 1000).toFixed(1)} Mray/s; three-mesh-bvh ${(N / theirs.wall / 1000).toFixed(1)}`,
);
