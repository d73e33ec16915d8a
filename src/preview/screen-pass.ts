import {
  DoubleSide,
  GLSL3,
  Mesh,
  OrthographicCamera,
  PlaneGeometry,
  RawShaderMaterial,
  Scene as ThreeScene,
  type WebGLRenderer,
  type WebGLRenderTarget,
} from "three";
import { compose } from "./compose.ts";

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
