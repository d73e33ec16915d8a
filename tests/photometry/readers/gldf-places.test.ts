/** Emitters of one GLDF luminaire in the places of its L3D model, against the engine's light of luminaires hung there one by one. */

import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { Vec3 } from "../../../src/geometry/vector.ts";
import type { IntensityDistribution } from "../../../src/photometry/intensity-distribution.ts";
import type { LuminousOpening } from "../../../src/photometry/luminous-opening.ts";
import { lightEmittingObjects } from "../../../src/photometry/readers/l3d.ts";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { calculate } from "../../support/calculate.ts";
import { luminaire, placed, plane, scene } from "../../support/luminaires.ts";
import { eulumdat } from "../../support/photometric-text.ts";

const OBJECT = (name: string, position: string, shape: string, rotation = 'x="0" y="0" z="0"') =>
  `<LightEmittingObject partName="${name}"><Position ${position}/><Rotation ${rotation}/>${shape}</LightEmittingObject>`;
const GEOMETRY = (position: string, rotation: string, inner: string) =>
  `<Geometry partName="g"><Position ${position}/><Rotation ${rotation}/><GeometryReference geometryId="m"/>${inner}</Geometry>`;
const STILL = 'x="0" y="0" z="0"';
const model = (geometry: string) =>
  zipSync({ "structure.xml": strToU8(`<Luminaire><Structure>${geometry}</Structure></Luminaire>`) });
const objects = (...all: string[]) =>
  model(GEOMETRY(STILL, STILL, `<LightEmittingObjects>${all.join("")}</LightEmittingObjects>`));

const emitter = (id: string, flux: number, turn: number) =>
  `<Emitter id="${id}"><FixedLightEmitter><PhotometryReference photometryId="p"/><Rotation><X>${turn}</X><Y>0</Y><Z>0</Z><G0>0</G0></Rotation><RatedLuminousFlux>${flux}</RatedLuminousFlux></FixedLightEmitter></Emitter>`;
const reference = (id: string, names: string[]) =>
  `<EmitterReference emitterId="${id}">${names.map((name) => `<EmitterObjectExternalName>${name}</EmitterObjectExternalName>`).join("")}</EmitterReference>`;
const gldf = (emitters: string, references: string, l3d: Uint8Array | undefined) =>
  zipSync({
    "product.xml": strToU8(`<Root><GeneralDefinitions><Files>
<File id="f" contentType="ldc/eulumdat" type="localFileName">one.ldt</File><File id="l" contentType="geo/l3d" type="localFileName">Model.L3D</File>
</Files><Photometries><Photometry id="p"><PhotometryFileReference fileId="f"/></Photometry></Photometries>
<Geometries><ModelGeometry id="g"><GeometryFileReference fileId="l" levelOfDetail="Low"/></ModelGeometry></Geometries>
<Emitters>${emitters}</Emitters></GeneralDefinitions><ProductDefinitions><Variants><Variant id="v"><Geometry>
<ModelGeometryReference geometryId="g">${references}</ModelGeometryReference></Geometry></Variant></Variants></ProductDefinitions></Root>`),
    "ldc/one.ldt": strToU8(eulumdat({ lines: { 23: 0 } })),
    ...(l3d === undefined ? {} : { "geo/model.l3d": l3d }),
  });
const read = (bytes: Uint8Array, lampSet?: number) => {
  const outcome = readPhotometry(bytes, { file: "x.gldf", ...(lampSet === undefined ? {} : { lampSet }) });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  const warning = outcome.warnings.find(({ code }) => code === "gldf-emitters-summed");
  return { ...outcome.value, warning };
};

/** Lux of luminaires on a top below the middle of their places. */
function lux(all: readonly (readonly [IntensityDistribution, LuminousOpening, Vec3])[], z: number): number[] {
  const points: Vec3[] = [];
  for (let x = -1; x <= 1; x += 0.1) for (let y = -0.6; y <= 0.6; y += 0.1) points.push([x, y, z]);
  const hung = all.map(([distribution, opening, at]) => placed(luminaire(distribution, opening), at));
  const { planes } = calculate(scene([hung], [plane(points, [0, 0, 1])]), {
    interreflection: false,
    occlusion: false,
  });
  return [...planes[0].layers[0].direct];
}
const worst = (a: readonly number[], b: readonly number[]) =>
  Math.max(...a.map((value, i) => Math.abs(value - b[i]))) / Math.max(...b);
const stated = (received = "") => Number(/up to ([\d.e-]+) %/.exec(received)?.[1]) / 100;

describe("emitters of one luminaire", () => {
  const main = emitter("main", 2000, 0);
  const bar = '<Rectangle sizeX="1.2" sizeY="0.06"/>';

  it("one below and one on top of a bar light the top as two luminaires hung there", () => {
    const l3d = objects(OBJECT("down", STILL, bar), OBJECT("up", 'x="0" y="0" z="0.08"', bar));
    const bytes = gldf(
      main + emitter("indirect", 1000, 180),
      reference("main", ["down"]) + reference("indirect", ["up"]),
      l3d,
    );
    const both = read(bytes);
    expect(both.opening).toEqual({ shape: "box", length: 1.2, width: 0.06, height: expect.closeTo(0.08, 9) });
    const flat = { shape: "rectangle", length: 1.2, width: 0.06, height: 0 } as const;
    const apart = lux(
      [
        [read(bytes, 0).distribution, flat, [0, 0, 0]],
        [read(bytes, 1).distribution, flat, [0, 0, 0.08]],
      ],
      -0.75,
    );
    const together = lux([[both.distribution, both.opening, [0, 0, 0.04]]], -0.75);
    const error = worst(together, apart);
    console.log(`bar, light down and up: ${(100 * error).toFixed(2)} %, said ${both.warning?.received}`);
    // About one centre at the bar's middle, light downward would come from 40 mm too high: 11 % at 0.75 m.
    expect(error).toBeLessThan(0.03);
  });

  it("two heads side by side are spread between; the warning says by how much", () => {
    const head = '<Circle diameter="0.08"/>';
    for (const half of [0.05, 0.15, 0.3]) {
      const l3d = objects(
        OBJECT("a", `x="-${half}" y="0" z="0"`, head),
        OBJECT("b", `x="${half}" y="0" z="0"`, head),
      );
      const bytes = gldf(
        main + emitter("second", 2000, 0),
        reference("main", ["a"]) + reference("second", ["b"]),
        l3d,
      );
      const both = read(bytes);
      expect(both.opening.length).toBeCloseTo(2 * half + 0.08, 9);
      expect(both.opening.width).toBeCloseTo(0.08, 9);
      const disc = { shape: "disc", length: 0.08, width: 0.08, height: 0 } as const;
      const apart = lux(
        [
          [read(bytes, 0).distribution, disc, [-half, 0, 0]],
          [read(bytes, 1).distribution, disc, [half, 0, 0]],
        ],
        -0.75,
      );
      const error = worst(lux([[both.distribution, both.opening, [0, 0, 0]]], -0.75), apart);
      const point = worst(lux([[both.distribution, disc, [0, 0, 0]]], -0.75), apart);
      console.log(
        `heads ${2 * half} m apart: ${(100 * error).toFixed(2)} %, said ${(100 * stated(both.warning?.received)).toFixed(2)} %; about one centre ${(100 * point).toFixed(1)} %`,
      );
      expect(error).toBeLessThan(0.8 * point);
      // Both look at a top of points, not the same ones.
      expect(Math.abs(error - stated(both.warning?.received))).toBeLessThan(0.1 * error + 0.003);
      expect(both.warning?.expected === undefined).toBe(stated(both.warning?.received) <= 0.05);
    }
  });

  it("says so where nothing tells their places", () => {
    const two = main + emitter("indirect", 1000, 180);
    const references = reference("main", ["down"]) + reference("indirect", ["up"]);
    const lone = objects(OBJECT("down", STILL, bar));
    for (const l3d of [undefined, lone, strToU8("nothing"), model("<a")]) {
      const both = read(gldf(two, references, l3d));
      expect(both.warning?.message).toContain("about one centre");
      expect(both.opening).toEqual(read(gldf(two, references, l3d), 0).opening);
    }
  });

  it("shares an emitter's light among all its objects", () => {
    const l3d = objects(
      OBJECT("a", 'x="-0.3" y="0" z="0"', bar),
      OBJECT("b", 'x="0.3" y="0" z="0"', bar),
      OBJECT("c", 'x="0" y="0.2" z="0"', bar),
    );
    const both = read(
      gldf(main + emitter("o", 1000, 0), reference("main", ["a", "b"]) + reference("o", ["c"]), l3d),
    );
    expect(both.opening.length).toBeCloseTo(1.8, 9);
    expect(both.opening.width).toBeCloseTo(0.26, 9);
    expect(both.ratedFlux).toBe(3000);
  });
});

describe("L3D", () => {
  it("adds positions and turns from part to part", () => {
    // Turned by 90° about z, x goes where y was; a joint of 90° about x by default sets what lies flat upright.
    const joint = `<Joints><Joint partName="j"><Position x="1" y="0" z="0"/><Rotation ${STILL}/><DefaultRotation x="90" y="0" z="0"/><Geometries>${GEOMETRY(
      'x="0" y="0" z="0.5"',
      STILL,
      `<LightEmittingObjects>${OBJECT("o", 'x="0.1" y="0.2" z="0"', '<Rectangle sizeX="0.4" sizeY="0.6"/>')}</LightEmittingObjects>`,
    )}</Geometries></Joint></Joints>`;
    const found = lightEmittingObjects(
      model(GEOMETRY('x="0" y="0" z="2"', 'x="0" y="0" z="90"', joint)),
      "m.l3d",
    )?.get("o");
    // By hand: in the joint (0.1, 0.2, 0.5) → about x (0.1, −0.5, 0.2) → +1 along x (1.1, −0.5, 0.2) → about z (0.5, 1.1, 0.2) → z + 2.
    expect(found?.centre).toEqual([0.5, 1.1, 2.2].map((value) => expect.closeTo(value, 12)));
    expect(found?.opening).toEqual({
      shape: "box",
      length: expect.closeTo(0, 12),
      width: expect.closeTo(0.4, 12),
      height: expect.closeTo(0.6, 12),
    });
  });
});
