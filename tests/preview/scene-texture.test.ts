/** What is written for the shaders: records, near fields, and lists of solids that leave none out that hides light. */
import { describe, expect, it } from "vitest";
import { pointToRoom } from "../../src/geometry/frame.ts";
import { dot, type Vec3 } from "../../src/geometry/vector.ts";
import { VisibilityTree } from "../../src/geometry/visibility-tree.ts";
import { openingSurface } from "../../src/luminaire/opening/openings.ts";
import type { LightTable } from "../../src/luminaire/shade/light-table.ts";
import { shadeLuminaire } from "../../src/luminaire/shade/shade-luminaire.ts";
import { writeNearField } from "../../src/preview/near-field-records.ts";
import { RECORDS_WIDTH, RecordWriter } from "../../src/preview/record-writer.ts";
import { sceneTexture } from "../../src/preview/scene-texture.ts";
import { writeShade } from "../../src/preview/shade-records.ts";
import { pointsOnSurfaces } from "../support/points-on-surfaces.ts";
import { randomStream } from "../support/random-stream.ts";
import { plainShade } from "../support/shades.ts";
import { kitchen, resolved } from "../support/studies.ts";

const people = [
  { name: "Ana", stature: 1.7, at: [2.7, 2.9], facing: 270, posture: "leaning" },
  { name: "Bo", stature: 1.6, at: [2.2, 1.2], facing: 90, posture: "seated" },
];
const [scene] = resolved(kitchen({ people })).scenes;

describe("records", () => {
  it("are found at the number they were given, over many rows", () => {
    const writer = new RecordWriter();
    const count = 3 * RECORDS_WIDTH + 7;
    for (let i = 0; i < count; i++) expect(writer.put(i, -i)).toBe(i);
    writer.amend(RECORDS_WIDTH, 2, 0.5, 0.25);
    const { data, rows } = writer.finish();
    expect(rows).toBe(4);
    expect(data.length).toBe(4 * rows * RECORDS_WIDTH);
    for (let i = 0; i < count; i++) expect(data[4 * i]).toBe(i);
    expect(Array.from(data.subarray(4 * RECORDS_WIDTH, 4 * RECORDS_WIDTH + 4))).toEqual([
      RECORDS_WIDTH,
      -RECORDS_WIDTH,
      0.5,
      0.25,
    ]);
  });

  it("hold a near field's tables one after the other, each its head, then its nodes in order", () => {
    const table = (centre: number): LightTable => ({
      centre,
      nearest: 0.1,
      rows: 2,
      angles: 3,
      groups: 2,
      values: Float32Array.from({ length: 2 * 3 * 2 * 4 }, (_, i) => i),
    });
    const writer = new RecordWriter();
    writer.put(9);
    const first = writeNearField(writer, 0, [table(0.25), table(0.5)]);
    const { data } = writer.finish();
    expect(first).toBe(1);
    expect(data[4 * first]).toBe(2);
    for (const [at, centre] of [
      [first + 1, 0.25],
      [first + 3 + 12, 0.5],
    ]) {
      expect(data[4 * at]).toBe(centre);
      expect(data[4 * at + 1]).toBeCloseTo(0.1, 7);
      expect(Array.from(data.subarray(4 * at + 2, 4 * at + 5))).toEqual([2, 3, 2]);
      expect(Array.from(data.subarray(4 * (at + 2), 4 * (at + 2) + 48))).toEqual(Array.from(table(0).values));
    }
  });
});

describe("lists of solids between a surface and a luminaire", () => {
  it("leave out nothing that hides light", () => {
    // Without people the scene texture's solids are the scene's, in order.
    const { luminaires, solidsBetween } = sceneTexture(scene, { people: false });
    const solids = scene.blockers.filter(({ kind }) => kind !== "person");
    const random = randomStream(6);
    const trees = solids.map(({ mesh, transmittance }) => new VisibilityTree([{ mesh, transmittance }]));
    let rays = 0;
    let hidden = 0;
    let short = 0;
    for (const { surface, points } of pointsOnSurfaces(scene.surfaces, 400, 2, random)) {
      const n = scene.surfaces[surface].normal;
      for (let k = 0; k < points.length; k += 3)
        luminaires.forEach(({ layer, index }, l) => {
          const here = points.subarray(k, k + 3);
          const between = solidsBetween.between(surface, l, Float64Array.of(...here, ...here));
          const placed = scene.layers[layer].luminaires[index];
          const { half } = openingSurface(placed.luminaire.emission.opening, placed.luminaire.distribution);
          const [x, y, z] = pointToRoom(placed.frame, [
            half[0] * (2 * random() - 1),
            half[1] * (2 * random() - 1),
            half[2] * (2 * random() - 1),
          ]);
          const from = [0, 1, 2].map((c) => points[k + c] + 1e-3 * n[c]);
          const above = [x, y, z].reduce((sum, c, i) => sum + (c - points[k + i]) * n[i], 0);
          if (above <= 1e-6) return;
          rays++;
          expect(between).toBeDefined();
          const list = new Set([...(between?.convex ?? []), ...(between?.meshes ?? [])]);
          if (list.size < solids.length - 1) short++;
          solids.forEach(({ owner }, b) => {
            if (owner?.[0] === layer && owner[1] === index) return;
            if (trees[b].transmittance(from[0], from[1], from[2], x, y, z) === 1) return;
            hidden++;
            expect(list.has(b)).toBe(true);
          });
        });
    }
    console.log(`${rays} rays, ${hidden} hidden, lists shorter than all at ${short}`);
    expect(hidden).toBeGreaterThan(100);
    expect(short).toBeGreaterThan(rays / 4);
  });

  it("never hold a luminaire's own body, nor anything behind the surface", () => {
    const { luminaires, solidsBetween, solidOf } = sceneTexture(scene, { people: false });
    const whole = Float64Array.of(0, 0, 0, scene.room.length, scene.room.width, scene.room.ceilingHeight);
    scene.surfaces.forEach(({ vertices, normal }, s) => {
      const level = dot(vertices[0], normal);
      luminaires.forEach(({ layer, index }, l) => {
        const between = solidsBetween.between(s, l, whole);
        const list = [...(between?.convex ?? []), ...(between?.meshes ?? [])];
        scene.blockers.forEach(({ owner, kind, mesh }, b) => {
          if (kind === "person") return;
          const isOwn = owner?.[0] === layer && owner[1] === index;
          const corners = Array.from(
            { length: mesh.positions.length / 3 },
            (_, k): Vec3 => [mesh.positions[3 * k], mesh.positions[3 * k + 1], mesh.positions[3 * k + 2]],
          );
          const isBehind = corners.every((corner) => dot(corner, normal) <= level + 1e-6);
          if (isOwn || isBehind) expect(list).not.toContain(solidOf[b]);
        });
      });
    });
    expect(scene.blockers.some(({ kind }) => kind === "person")).toBe(true);
    scene.blockers.forEach(({ kind }, b) => {
      if (kind === "person") expect(solidOf[b]).toBe(-1);
    });
  });
});

describe("lamp and shade", () => {
  it("share the probability of a place between rings, which add up to one", () => {
    const { luminaire } = shadeLuminaire(
      plainShade("drum", 0.2, 0.3, 0.3, { inside: 0.35, outside: 0.35, transmittance: 0.5, diffusion: 1 }),
      [{ flux: 800, finish: "frosted", diameter: 0.06, orientation: "base-up", z: 0.1 }],
      { name: "drum", origin: "test", accuracy: { axial: 0.03, ratio: 0.01 } },
    );
    const { emission } = luminaire;
    if (emission.kind !== "surfaces") throw new Error("no surfaces");
    const writer = new RecordWriter();
    const first = writeShade(writer, emission);
    const { data } = writer.finish();
    const record = (index: number): number[] => Array.from(data.subarray(4 * index, 4 * index + 4));
    const { surface, lamps } = emission.light.assembly;
    expect(record(first).slice(0, 2)).toEqual([surface.count, 1]);
    let before = 0;
    for (let i = 0; i < surface.count; i++) {
      const share = record(first + 2 + 3 * i + 2)[3];
      before += share;
      expect(record(first + 2 + 3 * i + 1)[3]).toBeCloseTo(before, 5);
      if (emission.light.inwardExitance[i] + emission.light.outwardExitance[i] > 0)
        expect(share).toBeGreaterThan(0);
    }
    expect(before).toBeCloseTo(1, 5);
    // The lamp's law of unit flux, a record a step.
    const [flux, law, steps] = record(first + 2 + 3 * surface.count + 1);
    expect(flux).toBe(800);
    expect(steps).toBe(lamps[0].law.length - 1);
    expect(record(law + 90)[0]).toBeCloseTo(1 / (4 * Math.PI), 3);
  });
});
