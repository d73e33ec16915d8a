/**
 * Direct light at any number of points, computed on the graphics processor: the bake of the surfaces' cache and every
 * single reading go through this one pass, so that a picture and a number can never disagree.
 *
 * In: points x, y, z (m), unit normals, rows of pairs (`light-book.ts`). Out: illuminance (lx) of each layer's slot,
 * at full output and initial. Error against the engine: 0.5 % of the local value (tests/shaders/parity.test.ts).
 */

import {
  DataTexture,
  DoubleSide,
  FloatType,
  GLSL3,
  Mesh,
  NearestFilter,
  OrthographicCamera,
  PlaneGeometry,
  RawShaderMaterial,
  RGBAFormat,
  Scene as ThreeScene,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import { compose } from "./compose.ts";
import type { LightBook } from "./light-book.ts";
import { BOOK_WIDTH } from "./record-writer.ts";

/** How finely light is computed. */
export interface Fineness {
  /** Most Gauss nodes along a side of an opening. */
  readonly nodes: number;
  /** Points of an opening's outline (24, 8 or none) and samples within it that tell whether it is partly hidden. */
  readonly outline: number;
  readonly probes: number;
  /** Samples of an opening that is. */
  readonly samples: number;
  readonly words: string;
}

/** What is answered for: every single reading, and the parity tests. */
export const EXACT: Fineness = {
  nodes: 12,
  outline: 24,
  probes: 12,
  samples: 2048,
  words: "engine accuracy",
};
/** A picture that stands: light as exact, penumbras to some 2 % of an opening. */
export const STILL: Fineness = { nodes: 12, outline: 0, probes: 6, samples: 48, words: "engine accuracy" };
/** A picture that moves. */
export const MOVING: Fineness = {
  nodes: 2,
  outline: 0,
  probes: 4,
  samples: 0,
  words: "fewer elements while it moves",
};

/** Points as two float textures of one size; `places.w` is the row of pairs, −1 for no point. */
export interface PointTextures {
  readonly width: number;
  readonly height: number;
  readonly places: DataTexture;
  readonly facings: DataTexture;
}

export function floatTexture(data: Float32Array, width: number, height: number): DataTexture {
  const texture = new DataTexture(data as Float32Array<ArrayBuffer>, width, height, RGBAFormat, FloatType);
  texture.minFilter = NearestFilter;
  texture.magFilter = NearestFilter;
  texture.needsUpdate = true;
  return texture;
}

export function floatTarget(width: number, height: number): WebGLRenderTarget {
  return new WebGLRenderTarget(width, height, {
    type: FloatType,
    format: RGBAFormat,
    minFilter: NearestFilter,
    magFilter: NearestFilter,
    depthBuffer: false,
    stencilBuffer: false,
  });
}

/** A triangle over the whole target, drawn with a shader of this project. */
export class ScreenPass {
  readonly material: RawShaderMaterial;
  readonly #scene = new ThreeScene();
  readonly #camera = new OrthographicCamera();
  readonly #geometry = new PlaneGeometry(2, 2);

  constructor(fragment: Parameters<typeof compose>[0], uniforms: Record<string, { value: unknown }>) {
    this.material = new RawShaderMaterial({
      glslVersion: GLSL3,
      vertexShader: `precision highp float;\n${compose("light/screen.vert")}`,
      fragmentShader: `precision highp float;\nprecision highp int;\n${compose(fragment)}`,
      uniforms,
      side: DoubleSide,
      depthTest: false,
      depthWrite: false,
    });
    this.#geometry.setDrawRange(0, 3);
    const mesh = new Mesh(this.#geometry, this.material);
    mesh.frustumCulled = false;
    this.#scene.add(mesh);
  }

  draw(renderer: WebGLRenderer, target: WebGLRenderTarget): void {
    const before = renderer.getRenderTarget();
    const clears = renderer.autoClear;
    renderer.autoClear = false;
    renderer.setRenderTarget(target);
    renderer.render(this.#scene, this.#camera);
    renderer.setRenderTarget(before);
    renderer.autoClear = clears;
  }

  dispose(): void {
    this.material.dispose();
    this.#geometry.dispose();
  }
}

export class PointLight {
  readonly #renderer: WebGLRenderer;
  readonly #pass: ScreenPass;
  #book: DataTexture | undefined;

  constructor(renderer: WebGLRenderer) {
    this.#renderer = renderer;
    this.#pass = new ScreenPass("light/at-points.frag", {
      book: { value: null },
      gaussTable: { value: 0 },
      mostNodes: { value: STILL.nodes },
      penumbraSamples: { value: STILL.samples },
      outlinePoints: { value: STILL.outline },
      probes: { value: STILL.probes },
      ownShift: { value: 0 },
      luminaireTable: { value: 0 },
      luminaireCount: { value: 0 },
      pairTable: { value: 0 },
      solidTable: { value: 0 },
      places: { value: null },
      facings: { value: null },
    });
  }

  /** The texture of the book in use, for shaders that ask it too. */
  get book(): DataTexture | undefined {
    return this.#book;
  }

  read(book: LightBook): void {
    this.#book?.dispose();
    this.#book = floatTexture(book.data, BOOK_WIDTH, book.rows);
    const { uniforms } = this.#pass.material;
    uniforms.book.value = this.#book;
    uniforms.gaussTable.value = book.gauss;
    uniforms.luminaireTable.value = book.luminaires;
    uniforms.luminaireCount.value = book.luminaireCount;
    uniforms.pairTable.value = book.pairs;
    uniforms.solidTable.value = book.solids;
  }

  /** Lights rows `from` … `to` of the points into the target, which has their size. */
  light(
    points: PointTextures,
    target: WebGLRenderTarget,
    fineness: Fineness,
    from = 0,
    to = points.height,
  ): void {
    const { uniforms } = this.#pass.material;
    uniforms.places.value = points.places;
    uniforms.facings.value = points.facings;
    uniforms.mostNodes.value = fineness.nodes;
    uniforms.penumbraSamples.value = fineness.samples;
    uniforms.outlinePoints.value = fineness.outline;
    uniforms.probes.value = fineness.probes;
    uniforms.ownShift.value = fineness.outline >= 24 ? 1 : 0;
    target.scissorTest = true;
    target.scissor.set(0, from, points.width, to - from);
    this.#pass.draw(this.#renderer, target);
  }

  /** Light (lx, four slots a point) at points given as x, y, z and normals; `rows` as in the book. */
  at(
    positions: Float32Array,
    normals: Float32Array,
    rows: ArrayLike<number>,
    fineness: Fineness,
  ): Float32Array {
    const count = rows.length;
    const width = Math.min(64, Math.max(1, count));
    const height = Math.max(1, Math.ceil(count / width));
    const places = new Float32Array(4 * width * height).fill(-1);
    const facings = new Float32Array(4 * width * height);
    for (let i = 0; i < count; i++) {
      places.set(positions.subarray(3 * i, 3 * i + 3), 4 * i);
      places[4 * i + 3] = rows[i];
      facings.set(normals.subarray(3 * i, 3 * i + 3), 4 * i);
    }
    const points = {
      width,
      height,
      places: floatTexture(places, width, height),
      facings: floatTexture(facings, width, height),
    };
    const target = floatTarget(width, height);
    this.light(points, target, fineness);
    const out = new Float32Array(4 * width * height);
    this.#renderer.readRenderTargetPixels(target, 0, 0, width, height, out);
    target.dispose();
    points.places.dispose();
    points.facings.dispose();
    return out.subarray(0, 4 * count);
  }

  dispose(): void {
    this.#book?.dispose();
    this.#pass.dispose();
  }
}
