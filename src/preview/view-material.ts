/** What the shaders of a view are told, shared by all of them, and the materials made of those shaders. */

import {
  type DataTexture,
  DoubleSide,
  FrontSide,
  GLSL3,
  Matrix4,
  RawShaderMaterial,
  Vector2,
  Vector3,
  Vector4,
} from "three";
import { compose, type ShaderName } from "./compose.ts";

/** No cut: everything lies on this side of it. */
export const NOWHERE = new Vector4(0, 0, 0, 1);

/** Width of an isolux line (CSS pixels). */
export const LINE = 1.4;

export function viewUniforms() {
  return {
    developed: { value: null as unknown },
    divisions: { value: null as unknown },
    divided: { value: null as unknown },
    eye: { value: new Vector3() },
    cut: { value: NOWHERE.clone() },
    look: { value: 0 },
    linear: { value: 0 },
    filling: { value: new Vector3() },
    mirrorPicture: { value: null as unknown },
    mirrorView: { value: new Matrix4() },
    exposure: { value: 1 },
    whiteLevel: { value: 4 },
    corner: { value: new Vector2() },
    scaleTable: { value: null as DataTexture | null },
    insideLuminance: { value: 0 },
    lineWidth: { value: LINE },
    records: { value: null as unknown },
    weights: { value: new Vector4() },
    luminaireInk: { value: new Vector3(1, 0.722, 0.361) },
    ink: { value: new Vector4(0.14, 0.13, 0.11, 1) },
  };
}

export type ViewUniforms = ReturnType<typeof viewUniforms>;

export function viewMaterial(
  uniforms: ViewUniforms,
  vertex: ShaderName,
  fragment: ShaderName,
  defines: Readonly<Record<string, number>> = {},
): RawShaderMaterial {
  return new RawShaderMaterial({
    glslVersion: GLSL3,
    vertexShader: `precision highp float;\n${compose(vertex)}`,
    fragmentShader: `precision highp float;\nprecision highp int;\n${compose(fragment)}`,
    defines,
    uniforms: uniforms as unknown as Record<string, { value: unknown }>,
    side: DoubleSide,
  });
}

/** Which case of `shaders/view/room.frag.glsl` is wanted. */
export interface RoomCase {
  readonly surface: boolean;
  readonly lux: boolean;
  readonly linear: boolean;
  readonly cut: boolean;
  readonly section: boolean;
  readonly mirrors: boolean;
}

/** A material for each case that comes up; surfaces are seen from their front alone, unless cut open. */
export class RoomMaterials {
  readonly #uniforms: ViewUniforms;
  readonly #made = new Map<string, RawShaderMaterial>();

  constructor(uniforms: ViewUniforms) {
    this.#uniforms = uniforms;
  }

  get made(): readonly RawShaderMaterial[] {
    return [...this.#made.values()];
  }

  of({ surface, lux, linear, cut, section, mirrors }: RoomCase): RawShaderMaterial {
    const defines = {
      SURFACE: Number(surface),
      LUX: Number(lux),
      LINEAR: Number(linear),
      CUT: Number(cut),
      SECTION: Number(section),
      MIRRORS: Number(mirrors),
    };
    const key = Object.values(defines).join("");
    let material = this.#made.get(key);
    if (material === undefined) {
      material = viewMaterial(this.#uniforms, "view/room.vert", "view/room.frag", defines);
      if (surface && !section) material.side = FrontSide;
      this.#made.set(key, material);
    }
    return material;
  }

  dispose(): void {
    for (const material of this.#made.values()) material.dispose();
    this.#made.clear();
  }
}
