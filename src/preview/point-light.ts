/**
 * Direct light at any number of points, computed on the graphics processor: the bake of the surfaces' cache and every
 * single reading go through this one pass, so that a picture and a number can never disagree.
 *
 *   E = Σ over luminaires of E_clear V, a draw each (`point-set.ts`), added up by blending
 *
 * In: points x, y, z (m), unit normals, the row each belongs to (`scene-texture.ts`). Out: illuminance (lx) of each layer's slot,
 * at full output and initial. Error against the engine: 0.5 % of the light with nothing in the way
 * (tests/shaders/parity.test.ts).
 */

import {
  AddEquation,
  CustomBlending,
  type DataTexture,
  DoubleSide,
  GLSL3,
  Mesh,
  OneFactor,
  OrthographicCamera,
  RawShaderMaterial,
  Scene as ThreeScene,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import { compose } from "./compose.ts";
import { floatTexture, readFloats, sumTarget } from "./float-texture.ts";
import { programFor } from "./light-program.ts";
import { PointSet, type Region } from "./point-set.ts";
import { type PreviewQuality, STILL } from "./preview-quality.ts";
import { RECORDS_WIDTH } from "./record-writer.ts";
import type { SceneTexture } from "./scene-texture.ts";

const LUMINAIRE_RECORDS = 8;
const DISTRIBUTION_RECORDS = 3;
/** Width of the texture of points that are given as a list. */
const LIST_WIDTH = 64;

export class PointLight {
  readonly #renderer: WebGLRenderer;
  readonly #materials = new Map<string, RawShaderMaterial>();
  readonly #mesh = new Mesh();
  readonly #scene = new ThreeScene();
  readonly #camera = new OrthographicCamera();
  #records: SceneTexture | undefined;
  #texture: DataTexture | undefined;
  readonly #uniforms = {
    records: { value: null as DataTexture | null },
    gaussTable: { value: 0 },
    solidTable: { value: 0 },
    mostNodes: { value: STILL.nodes },
    penumbraSamples: { value: STILL.samples },
    outlinePoints: { value: STILL.outline },
    probes: { value: STILL.probes },
    ownShift: { value: 0 },
    places: { value: null as DataTexture | null },
    facings: { value: null as DataTexture | null },
    luminaire: { value: new Float32Array(4 * LUMINAIRE_RECORDS) as Float32Array },
    distribution: { value: new Float32Array(4 * DISTRIBUTION_RECORDS) as Float32Array },
    slot: { value: [1, 0, 0, 0] },
    list: { value: new Int32Array(1) },
    listed: { value: [0, 0] },
  };

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.#mesh.frustumCulled = false;
    this.#scene.add(this.#mesh);
  }

  /** The texture of the records in use, for shaders that ask it too. */
  get records(): DataTexture | undefined {
    return this.#texture;
  }

  read(records: SceneTexture): void {
    this.#texture?.dispose();
    this.#records = records;
    this.#texture = floatTexture(records.data, RECORDS_WIDTH, records.rows);
    const u = this.#uniforms;
    u.records.value = this.#texture;
    u.gaussTable.value = records.gauss;
    u.solidTable.value = records.solids;
  }

  /** Materials of what may light points by a book's luminaires, with nothing between and with solids. */
  materialsFor({ data, luminaires, solidCount }: SceneTexture): readonly RawShaderMaterial[] {
    return luminaires.flatMap(({ record, distribution }) =>
      [0, solidCount].map((between) =>
        this.#material(programFor(data.subarray(4 * record), data.subarray(4 * distribution), between)),
      ),
    );
  }

  /** Adds the light of draws `from` … `to` of a set of points to the target, which has its size; the first of them
   * clears it. */
  light(
    points: PointSet,
    target: WebGLRenderTarget,
    fineness: PreviewQuality,
    from = 0,
    to = points.draws.length,
  ): void {
    const records = this.#records;
    if (records === undefined) return;
    const u = this.#uniforms;
    u.places.value = points.places;
    u.facings.value = points.facings;
    u.mostNodes.value = fineness.nodes;
    u.penumbraSamples.value = fineness.samples;
    u.outlinePoints.value = fineness.outline;
    u.probes.value = fineness.probes;
    u.ownShift.value = fineness.outline >= 24 ? 1 : 0;
    const renderer = this.#renderer;
    const before = renderer.getRenderTarget();
    const clears = renderer.autoClear;
    renderer.autoClear = false;
    renderer.setRenderTarget(target);
    if (from === 0) {
      renderer.setClearColor(0x000000, 0);
      renderer.clear();
    }
    this.#mesh.geometry = points.geometry;
    for (const { luminaire, between, start, count } of points.draws.slice(from, to)) {
      const { record, distribution, slot } = records.luminaires[luminaire];
      const recordsAt = (first: number, size: number): Float32Array =>
        records.data.subarray(4 * first, 4 * (first + size));
      u.luminaire.value = recordsAt(record, LUMINAIRE_RECORDS);
      u.distribution.value = recordsAt(distribution, DISTRIBUTION_RECORDS);
      u.slot.value = [0, 1, 2, 3].map((k) => (k === slot ? 1 : 0));
      const { convex, meshes } = between;
      const defines = programFor(
        u.luminaire.value,
        u.distribution.value,
        convex.length + meshes.length === 0 ? 0 : records.solidCount,
      );
      u.list.value = new Int32Array(Math.max(1, defines.MOST_BETWEEN));
      u.list.value.set([...convex, ...meshes]);
      u.listed.value = [convex.length, meshes.length];
      this.#mesh.material = this.#material(defines);
      points.geometry.setDrawRange(start, count);
      renderer.render(this.#scene, this.#camera);
    }
    renderer.setRenderTarget(before);
    renderer.autoClear = clears;
  }

  /** Light (lx, four slots a point) at points given as x, y, z and normals; `rows` as in the scene texture. */
  at(
    positions: Float32Array,
    normals: Float32Array,
    rows: ArrayLike<number>,
    fineness: PreviewQuality,
  ): Float32Array {
    const records = this.#records;
    const count = rows.length;
    const out = new Float32Array(4 * count);
    if (records === undefined || count === 0) return out;
    // Every run of points of one row on rows of texels of its own.
    const width = Math.min(LIST_WIDTH, count);
    const regions: Region[] = [];
    const texelOf = new Int32Array(count);
    let height = 0;
    for (let i = 0; i < count; ) {
      let end = i + 1;
      while (end < count && rows[end] === rows[i]) end++;
      const tall = Math.ceil((end - i) / width);
      regions.push({ x: 0, y: height, width: Math.min(width, end - i), height: tall, row: rows[i] });
      for (let k = i; k < end; k++) texelOf[k] = height * width + (k - i);
      height += tall;
      i = end;
    }
    const places = new Float32Array(4 * width * height).fill(-1);
    const facings = new Float32Array(4 * width * height);
    for (let i = 0; i < count; i++) {
      places.set(positions.subarray(3 * i, 3 * i + 3), 4 * texelOf[i]);
      places[4 * texelOf[i] + 3] = rows[i];
      facings.set(normals.subarray(3 * i, 3 * i + 3), 4 * texelOf[i]);
    }
    const points = new PointSet({ width, height, places, facings, regions }, records);
    const target = sumTarget(this.#renderer, width, height);
    this.light(points, target, fineness);
    const sums = readFloats(this.#renderer, target);
    for (let i = 0; i < count; i++) out.set(sums.subarray(4 * texelOf[i], 4 * texelOf[i] + 4), 4 * i);
    target.dispose();
    points.dispose();
    return out;
  }

  dispose(): void {
    this.#texture?.dispose();
    for (const material of this.#materials.values()) material.dispose();
    this.#materials.clear();
  }

  #material(defines: Readonly<Record<string, number>>): RawShaderMaterial {
    const key = Object.values(defines).join(" ");
    let material = this.#materials.get(key);
    if (material === undefined) {
      material = new RawShaderMaterial({
        glslVersion: GLSL3,
        vertexShader: `precision highp float;\n${compose("light/points.vert")}`,
        fragmentShader: `precision highp float;\nprecision highp int;\n${compose("light/at-points.frag")}`,
        defines,
        uniforms: this.#uniforms,
        side: DoubleSide,
        depthTest: false,
        depthWrite: false,
        blending: CustomBlending,
        blendEquation: AddEquation,
        blendSrc: OneFactor,
        blendDst: OneFactor,
      });
      this.#materials.set(key, material);
    }
    return material;
  }
}
