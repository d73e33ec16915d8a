/** The GLB file: valid, metres, y up, and each luminaire's whole distribution within it as LM-63. */
import validator from "gltf-validator";
import { Matrix4, Quaternion, Vector3 } from "three";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { directionToLocal, frame } from "../../src/geometry/frame.ts";
import type { Vec3 } from "../../src/geometry/vector.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { intensityTowards } from "../../src/photometry/reference-lookup.ts";
import { sceneGlb } from "../../src/preview/export-glb.ts";
import type { Scene } from "../../src/scene/scene.ts";
import { luminaire, opening, sampled } from "../support/luminaires.ts";
import { randomStream } from "../support/random-stream.ts";
import { kitchen, resolved } from "../support/studies.ts";

const degree = Math.PI / 180;

interface Node {
  readonly name?: string;
  readonly children?: readonly number[];
  readonly translation?: Vec3;
  readonly rotation?: readonly [number, number, number, number];
  readonly extensions?: {
    readonly EXT_lights_ies?: { light: number; multiplier: number; color: number[] };
    readonly KHR_lights_punctual?: { light: number };
  };
}

interface Gltf {
  readonly nodes: readonly Node[];
  readonly scenes: readonly { readonly nodes: readonly number[] }[];
  readonly extensionsUsed: readonly string[];
  readonly extensions: {
    readonly EXT_lights_ies: { lights: { name: string; uri: string; mimeType: string }[] };
    readonly KHR_lights_punctual: { lights: { type: string; intensity: number }[] };
  };
}

/** The exporter reads its own blobs back as a browser does. */
class Reader {
  result: unknown;
  onloadend: (() => void) | null = null;
  async readAsArrayBuffer(blob: Blob): Promise<void> {
    this.result = await blob.arrayBuffer();
    this.onloadend?.();
  }
}

function lit(): Scene {
  const [scene] = resolved(kitchen()).scenes;
  const lopsided = luminaire(
    sampled(([x, y, z]) => 400 * (1.2 + Math.max(0, -z)) * (1 + 0.7 * x) * (1 + 0.3 * y), 15, 5),
    opening("rectangle", 0.5, 0.1),
  );
  const placed = {
    luminaire: { ...lopsided, name: "Lopsided, 40 %", cct: 2700 },
    frame: frame([2.5, 1.9, 1.9], { turn: 60 * degree, tilt: 25 * degree, spin: 40 * degree }),
  };
  const [first, ...rest] = scene.layers;
  return { ...scene, layers: [{ ...first, dim: 0.4, luminaires: [...first.luminaires, placed] }, ...rest] };
}

const scene = lit();
let bytes: Uint8Array;
let json: Gltf;

beforeAll(async () => {
  Object.assign(globalThis, { FileReader: Reader });
  bytes = await sceneGlb(scene);
  const length = new DataView(bytes.buffer, bytes.byteOffset).getUint32(12, true);
  json = JSON.parse(new TextDecoder().decode(bytes.subarray(20, 20 + length)));
});

afterAll(() => {
  Reflect.deleteProperty(globalThis, "FileReader");
});

function textOf(light: number): string {
  const [head, body] = json.extensions.EXT_lights_ies.lights[light].uri.split(",");
  expect(head).toBe("data:application/x-ies-lm-63;base64");
  return atob(body);
}

/** Of each node, to the file's own axes (y up). */
function world(): Map<number, Matrix4> {
  const found = new Map<number, Matrix4>();
  const visit = (index: number, above: Matrix4): void => {
    const { translation = [0, 0, 0], rotation = [0, 0, 0, 1], children = [] } = json.nodes[index];
    const own = new Matrix4().compose(
      new Vector3(...translation),
      new Quaternion(...rotation),
      new Vector3(1, 1, 1),
    );
    const here = above.clone().multiply(own);
    found.set(index, here);
    for (const child of children) visit(child, here);
  };
  for (const index of json.scenes[0].nodes) visit(index, new Matrix4());
  return found;
}

describe("the GLB file", () => {
  it("is valid", async () => {
    const { issues } = await validator.validateBytes(bytes, { maxIssues: 50 });
    const wrong = issues.messages.filter(({ severity }) => severity < 2);
    expect(wrong.map(({ code, message, pointer }) => `${code} ${message} ${pointer}`)).toEqual([]);
    expect(json.extensionsUsed).toEqual(expect.arrayContaining(["KHR_lights_punctual", "EXT_lights_ies"]));
  });

  it("holds each luminaire type's LM-63 once, and our reader gets the candela back", () => {
    const { lights } = json.extensions.EXT_lights_ies;
    expect(lights.map(({ name }) => name).sort()).toEqual(["Lopsided, 40 %", "dome", "spot"]);
    let worst = 0;
    for (const [light, { name }] of lights.entries()) {
      const placed = scene.layers
        .flatMap(({ luminaires }) => luminaires)
        .find((l) => l.luminaire.name === name);
      const text = textOf(light);
      expect(text.startsWith("IESNA:LM-63-2002\r\n")).toBe(true);
      expect(text).toContain("[LUMINAIRE] ");
      const read = orThrow(readPhotometry(new TextEncoder().encode(text), { file: `${name}.ies` }));
      const given = placed?.luminaire.distribution;
      if (given === undefined) throw new Error(`no luminaire ${name}`);
      expect(read.absolute).toBe(true);
      expect(read.distribution.vertical.length).toBe(given.vertical.length);
      const peak = Math.max(...given.intensity);
      const random = randomStream(3);
      for (let i = 0; i < 500; i++) {
        const z = 2 * random() - 1;
        const φ = 2 * Math.PI * random();
        const s = Math.sqrt(1 - z * z);
        const ω: Vec3 = [s * Math.cos(φ), s * Math.sin(φ), z];
        const error =
          Math.abs(intensityTowards(read.distribution, ...ω) - intensityTowards(given, ...ω)) / peak;
        worst = Math.max(worst, error);
      }
    }
    console.log(`worst error of embedded LM-63 read back ${worst.toExponential(1)} of the peak`);
    // The writer's own digits.
    expect(worst).toBeLessThan(1e-9);
  });

  it("aims each LM-63 as the luminaire hangs, with dimming and maintenance", () => {
    const places = world();
    const random = randomStream(5);
    let worst = 0;
    let seen = 0;
    scene.layers.forEach(({ name, dim, luminaires }) => {
      luminaires.forEach((placed, i) => {
        const found = json.nodes.findIndex((node) => node.name === `${name} ${i + 1} LM-63`);
        const use = json.nodes[found]?.extensions?.EXT_lights_ies;
        const place = places.get(found);
        if (use === undefined || place === undefined) throw new Error(`no LM-63 of ${name} ${i + 1}`);
        seen++;
        expect(use.multiplier).toBeCloseTo(dim * scene.maintenance, 12);
        expect(use.color.every((part) => part >= 0 && part <= 1)).toBe(true);
        const at = new Vector3().setFromMatrixPosition(place);
        const [x, y, z] = placed.frame.origin;
        // z up to y up.
        expect([at.x, at.y, at.z].map((v) => Number(v.toFixed(6)))).toEqual(
          [x, z, -y].map((v) => Number(v.toFixed(6)) + 0),
        );
        const read = orThrow(readPhotometry(new TextEncoder().encode(textOf(use.light)), { file: "a.ies" }));
        const peak = Math.max(...read.distribution.intensity);
        const inverse = place.clone().invert();
        for (let k = 0; k < 50; k++) {
          const ω = new Vector3(random() - 0.5, random() - 0.5, random() - 0.5).normalize();
          const local = new Vector3(ω.x, ω.z, -ω.y).transformDirection(inverse);
          const own = directionToLocal(placed.frame.rotation, [ω.x, ω.y, ω.z]);
          const error =
            Math.abs(
              intensityTowards(read.distribution, local.x, local.y, local.z) -
                intensityTowards(placed.luminaire.distribution, ...own),
            ) / peak;
          worst = Math.max(worst, error);
        }
      });
    });
    console.log(`worst error of ${seen} embedded LM-63 as they hang ${worst.toExponential(1)} of the peak`);
    expect(seen).toBe(10);
    // Directions pass through single precision on neither way; a step of the table is nowhere met.
    expect(worst).toBeLessThan(1e-6);
  });

  it("leaves out of the file what no LM-63 can hold, and keeps its light", async () => {
    const [first, ...rest] = scene.layers;
    const [placed] = first.luminaires;
    const broken = { ...placed.luminaire, name: "broken", watts: Number.NaN };
    const one = { ...scene, layers: [{ ...first, luminaires: [{ ...placed, luminaire: broken }] }, ...rest] };
    const file = await sceneGlb(one);
    const length = new DataView(file.buffer, file.byteOffset).getUint32(12, true);
    const found: Gltf = JSON.parse(new TextDecoder().decode(file.subarray(20, 20 + length)));
    expect(found.extensions.EXT_lights_ies.lights.map(({ name }) => name)).toEqual(["spot"]);
    expect(found.extensions.KHR_lights_punctual.lights.length).toBe(7);
  });
});
