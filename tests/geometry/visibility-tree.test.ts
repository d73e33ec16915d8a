/** The visibility tree against brute force over all triangles and against an independent hierarchy
 * (three-mesh-bvh), and what its queries promise: symmetry, exclusion, translucency, clearance. */
import fc from "fast-check";
import { BufferAttribute, BufferGeometry, DoubleSide, Ray, Vector3 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { describe, expect, it } from "vitest";
import { boxOfMesh, shaftMeetsBox } from "../../src/geometry/box.ts";
import { convexPolyhedron, segmentMeetsPolyhedron } from "../../src/geometry/polyhedron.ts";
import { VisibilityTree } from "../../src/geometry/visibility-tree.ts";
import { randomStream } from "../support/random-stream.ts";
import { boxMesh, sphereMesh } from "../support/solids.ts";

describe("the visibility tree", () => {
  it("agrees with three-mesh-bvh on every one of 40,000 segments", () => {
    const random = randomStream(7);
    const meshes = Array.from({ length: 12 }, () =>
      sphereMesh([4 * random(), 4 * random(), 4 * random()], 0.15 + 0.4 * random(), 8, 6),
    );
    const tree = new VisibilityTree(meshes.map((mesh) => ({ mesh, transmittance: 0 })));
    const positions: number[] = [];
    for (const mesh of meshes)
      for (const v of mesh.triangles)
        positions.push(mesh.positions[3 * v], mesh.positions[3 * v + 1], mesh.positions[3 * v + 2]);
    const geometry = new BufferGeometry();
    // The oracle keeps single precision; so do the segments below stay clear of edges at 1e-6.
    geometry.setAttribute("position", new BufferAttribute(Float64Array.from(positions) as never, 3));
    const oracle = new MeshBVH(geometry);
    const ray = new Ray();
    let blocked = 0;
    let differ = 0;
    for (let i = 0; i < 40_000; i++) {
      const a = new Vector3(4 * random(), 4 * random(), 4 * random());
      const b = new Vector3(4 * random(), 4 * random(), 4 * random());
      const distance = a.distanceTo(b);
      ray.origin.copy(a);
      ray.direction.copy(b).sub(a).divideScalar(distance);
      const expected = oracle.raycastFirst(ray, DoubleSide, 1e-6, distance - 1e-6) !== null;
      const found = tree.transmittance(a.x, a.y, a.z, b.x, b.y, b.z) === 0;
      if (found) blocked++;
      if (found !== expected) differ++;
    }
    console.log(`visibility: ${blocked} of 40000 segments blocked, worst error ${differ} disagreements`);
    expect(blocked).toBeGreaterThan(4_000);
    expect(differ).toBe(0);
  });

  it("answers the same both ways, for any segment through a box", () => {
    const tree = new VisibilityTree([{ mesh: boxMesh([1, 1, 1], [2, 3, 1.5]), transmittance: 0 }]);
    const coordinate = fc.double({ min: 0, max: 4, noNaN: true });
    fc.assert(
      fc.property(fc.tuple(coordinate, coordinate, coordinate, coordinate, coordinate, coordinate), (s) => {
        const there = tree.transmittance(s[0], s[1], s[2], s[3], s[4], s[5]);
        expect(tree.transmittance(s[3], s[4], s[5], s[0], s[1], s[2])).toBe(there);
      }),
      { numRuns: 500 },
    );
  });

  it("lets light pass in a face's own plane and from the face itself outward", () => {
    const tree = new VisibilityTree([{ mesh: boxMesh([0, 0, 0], [1, 1, 1]), transmittance: 0 }]);
    expect(tree.transmittance(0.5, 0.5, 1, 0.5, 0.5, 3)).toBe(1);
    expect(tree.transmittance(0.5, 0.5, 1, 0.5, 0.5, -1)).toBe(0);
    expect(tree.transmittance(-1, 0.5, 0.5, 2, 0.5, 0.5)).toBe(0);
    expect(tree.transmittance(0.5, 0.5, 1.2, 0.5, 0.5, 1 + 1e-7)).toBe(1);
  });

  it("passes the excluded solid and multiplies translucent ones once each", () => {
    const tree = new VisibilityTree([
      { mesh: boxMesh([1, 0, 0], [2, 1, 1]), transmittance: 0.5 },
      { mesh: boxMesh([3, 0, 0], [4, 1, 1]), transmittance: 0.4 },
      { mesh: boxMesh([5, 0, 0], [6, 1, 1]), transmittance: 0 },
    ]);
    expect(tree.transmittance(0, 0.5, 0.5, 4.5, 0.5, 0.5)).toBeCloseTo(0.2, 12);
    expect(tree.transmittance(0, 0.5, 0.5, 4.5, 0.5, 0.5, 0)).toBeCloseTo(0.4, 12);
    expect(tree.transmittance(0, 0.5, 0.5, 7, 0.5, 0.5)).toBe(0);
    expect(tree.transmittance(0, 0.5, 0.5, 7, 0.5, 0.5, 2)).toBeCloseTo(0.2, 12);
  });

  it("is open when there is nothing to meet", () => {
    expect(new VisibilityTree([]).transmittance(0, 0, 0, 1, 1, 1)).toBe(1);
  });
});

describe("a convex solid", () => {
  it("meets the segments that its mesh meets, and bodies that are not convex are none", () => {
    const random = randomStream(31);
    let blocked = 0;
    let differ = 0;
    for (let k = 0; k < 40; k++) {
      const low = [3 * random(), 3 * random(), 3 * random()] as const;
      const mesh = boxMesh(low, [low[0] + random(), low[1] + random(), low[2] + random()], 3 * random());
      const convex = convexPolyhedron(mesh);
      expect(convex?.planes.length).toBe(24);
      const tree = new VisibilityTree([{ mesh, transmittance: 0 }]);
      for (let i = 0; i < 500; i++) {
        const s = Array.from({ length: 6 }, () => 4 * random());
        const meets = segmentMeetsPolyhedron(convex!, s[0], s[1], s[2], s[3], s[4], s[5], 1e-6);
        // A segment that begins and ends inside meets no face; such do not occur in a room.
        const inside =
          tree.transmittance(s[0], s[1], s[2], s[0], s[1], 99) === 0 &&
          tree.transmittance(s[3], s[4], s[5], s[3], s[4], 99) === 0;
        if (meets) blocked++;
        if (!inside && meets !== (tree.transmittance(s[0], s[1], s[2], s[3], s[4], s[5]) === 0)) differ++;
      }
    }
    console.log(`convex solids: ${blocked} of 20000 segments blocked, worst error ${differ} disagreements`);
    expect(blocked).toBeGreaterThan(300);
    expect(differ).toBe(0);
    // The second point, a little below the pole, pulled to the axis.
    const { positions, triangles } = sphereMesh([0, 0, 0], 1);
    const dented = positions.map((x, i) => (i === 3 ? 0.5 * x : x));
    expect(convexPolyhedron({ positions, triangles })).toBeDefined();
    expect(convexPolyhedron({ positions: dented, triangles })).toBeUndefined();
  });
});

describe("the shaft between two boxes", () => {
  it("never misses a solid that a segment between them meets", () => {
    const random = randomStream(11);
    const box = () => {
      const low = [3 * random(), 3 * random(), 3 * random()] as const;
      return boxMesh(low, [low[0] + random(), low[1] + random(), low[2] + random()]);
    };
    let met = 0;
    let culled = 0;
    for (let i = 0; i < 400; i++) {
      const [a, b, s] = [box(), box(), box()].map(boxOfMesh);
      const tree = new VisibilityTree([
        { mesh: boxMesh([s[0], s[1], s[2]], [s[3], s[4], s[5]]), transmittance: 0 },
      ]);
      const meets = shaftMeetsBox(a, b, s);
      if (!meets) culled++;
      for (let j = 0; j < 40; j++) {
        const at = (q: Float64Array, k: number) => q[k] + random() * (q[k + 3] - q[k]);
        const blocked = tree.transmittance(at(a, 0), at(a, 1), at(a, 2), at(b, 0), at(b, 1), at(b, 2)) === 0;
        if (blocked) met++;
        if (blocked) expect(meets).toBe(true);
      }
    }
    expect(met).toBeGreaterThan(200);
    expect(culled).toBeGreaterThan(50);
  });

  it("leaves out a solid that only touches: an island under its own top", () => {
    const top = Float64Array.of(0, 0, 0.92, 2.4, 1.1, 0.92);
    const lamp = Float64Array.of(1, 0.5, 1.8, 1.3, 0.8, 1.8);
    expect(shaftMeetsBox(top, lamp, Float64Array.of(0, 0, 0, 2.4, 1.1, 0.92))).toBe(false);
    expect(shaftMeetsBox(top, lamp, Float64Array.of(0, 0, 0, 2.4, 1.1, 0.93))).toBe(true);
  });
});
