/**
 * The mirror image in a polished top: the room seen from the eye's image below the top's plane, in linear luminance.
 * The surface that mirrors finds its place in it by projecting itself with the same camera. Only the part that the top
 * can show is drawn, and nothing where it is out of sight.
 */

import {
  HalfFloatType,
  LinearFilter,
  Matrix4,
  PerspectiveCamera,
  RGBAFormat,
  type Scene as ThreeScene,
  Vector2,
  Vector3,
  type WebGLRenderer,
  WebGLRenderTarget,
} from "three";
import type { ViewUniforms } from "./view-material.ts";
import { visiblePart } from "./visible-part.ts";

/** Texels kept around what the top can show. */
const MARGIN = 2;

export interface Mirror {
  /** Height of its plane (m). */
  readonly level: number;
  readonly outlines: readonly (readonly Vector3[])[];
}

export class MirrorImage {
  readonly #camera = new PerspectiveCamera();
  #target: WebGLRenderTarget | undefined;

  /** Prepares the eye's image; false where the mirror is out of sight. `share` of the picture's pixels a side. */
  aim(
    renderer: WebGLRenderer,
    camera: PerspectiveCamera,
    { level, outlines }: Mirror,
    share: number,
  ): boolean {
    const eye = camera.getWorldPosition(new Vector3());
    if (eye.z <= level + camera.near) return false;
    const seen = outlines.flatMap((outline) => visiblePart(outline, camera));
    if (seen.length === 0) return false;
    const forward = camera.getWorldDirection(new Vector3());
    const mirror = this.#camera;
    mirror.fov = camera.fov;
    mirror.aspect = camera.aspect;
    mirror.near = camera.near;
    mirror.far = camera.far;
    mirror.up.set(0, 0, 1);
    mirror.position.set(eye.x, eye.y, 2 * level - eye.z);
    mirror.lookAt(eye.x + forward.x, eye.y + forward.y, 2 * level - eye.z - forward.z);
    mirror.updateProjectionMatrix();
    mirror.updateMatrixWorld();
    const target = this.#targetFor(renderer);
    const [width, height] = [Math.ceil(share * target.width), Math.ceil(share * target.height)];
    target.viewport.set(0, 0, width, height);
    const low = new Vector2(1, 1);
    const high = new Vector2(-1, -1);
    for (const point of seen) {
      const { x, y } = point.project(mirror);
      low.min(new Vector2(x, y));
      high.max(new Vector2(x, y));
    }
    const texel = (ndc: number, size: number, more: number): number =>
      Math.min(size, Math.max(0, Math.round((0.5 + 0.5 * ndc) * size) + more));
    const [x0, y0] = [texel(low.x, width, -MARGIN), texel(low.y, height, -MARGIN)];
    const [x1, y1] = [texel(high.x, width, MARGIN), texel(high.y, height, MARGIN)];
    target.scissorTest = true;
    target.scissor.set(x0, y0, x1 - x0, y1 - y0);
    return x1 > x0 && y1 > y0;
  }

  /** Where the eye's image is. */
  get eye(): Vector3 {
    return this.#camera.position;
  }

  /** Draws what has been aimed at and hands it to the uniforms. */
  draw(renderer: WebGLRenderer, world: ThreeScene, u: ViewUniforms): void {
    const target = this.#target;
    if (target === undefined) return;
    const mirror = this.#camera;
    u.mirrorPicture.value = null;
    const before = renderer.getRenderTarget();
    renderer.setRenderTarget(target);
    renderer.setClearColor(0x000000, 1);
    renderer.render(world, mirror);
    renderer.setRenderTarget(before);
    // From the picture's square to the corner of the target that holds it: 0.5 + 0.5 x' = share (0.5 + 0.5 x).
    const [sx, sy] = [target.viewport.z / target.width, target.viewport.w / target.height];
    u.mirrorView.value
      .set(sx, 0, 0, sx - 1, 0, sy, 0, sy - 1, 0, 0, 1, 0, 0, 0, 0, 1)
      .multiply(new Matrix4().multiplyMatrices(mirror.projectionMatrix, mirror.matrixWorldInverse));
    u.mirrorPicture.value = target.texture;
  }

  dispose(): void {
    this.#target?.dispose();
    this.#target = undefined;
  }

  #targetFor(renderer: WebGLRenderer): WebGLRenderTarget {
    const size = renderer.getDrawingBufferSize(new Vector2());
    const [width, height] = [Math.max(1, size.x), Math.max(1, size.y)];
    const earlier = this.#target;
    if (earlier?.width === width && earlier.height === height) return earlier;
    earlier?.dispose();
    const target = new WebGLRenderTarget(width, height, {
      type: HalfFloatType,
      format: RGBAFormat,
      minFilter: LinearFilter,
      magFilter: LinearFilter,
    });
    this.#target = target;
    return target;
  }
}
