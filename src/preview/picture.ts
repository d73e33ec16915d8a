/**
 * The picture on a canvas: one view a side, drawn from one eye at one exposure, coarse while something moves and
 * refined in slices while nothing does.
 *
 *   moved → draw (fewer elements; fewer pixels where drawing is slow) → rest → slices of fine light → draw
 */

import { LinearSRGBColorSpace, Vector2, WebGLRenderer } from "three";
import type { SurfaceLight } from "../engine/surfaces/surface-light.ts";
import type { Scene } from "../scene/scene.ts";
import type { Cut } from "./cut.ts";
import type { Exposure } from "./exposure.ts";
import { KitchenView, type Look } from "./kitchen-view.ts";
import type { Light } from "./light-cache.ts";
import { OrbitCamera } from "./orbit-camera.ts";
import type { SurfaceReading } from "./surface-reading.ts";

/** What one side of the picture shows. */
export interface PreviewSide {
  readonly scene: Scene;
  /** Light on its surfaces from the engine; without it the picture shows direct light alone and says so. */
  readonly surfaces?: SurfaceLight;
  /** Whether that light, or its lack, is a sketch, to look at while the rest is computed; the caption says so. */
  readonly sketched?: boolean;
}

/** How the picture is to be drawn now. */
export interface PictureSettings {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly cut?: Cut;
  /** A person not to draw: whose eye it is. */
  readonly without?: string;
}

/** Time one slice of the fine light may take (ms), and the frame above which pixels are saved while moving. */
const SLICE = 60;
const SLOW_FRAME = 200;
/** Pixels of the screen drawn for a CSS pixel at most, for the sake of the densest screens. */
const DENSEST = 2;
/** So long after the last move the picture is at rest (ms). */
const REST = 250;

export class Picture {
  readonly walk = new OrbitCamera();
  readonly canvas: HTMLCanvasElement;
  readonly renderer: WebGLRenderer;
  readonly #settings: () => PictureSettings;
  readonly #changed: () => void;
  readonly #observer: ResizeObserver;
  #views: KitchenView[] = [];
  #taken: { readonly sides: readonly PreviewSide[]; readonly people: boolean } = { sides: [], people: false };
  #exposure: Exposure | undefined;
  #fraction = 0;
  #requested = 0;
  #moved = 0;
  #slow = false;
  #isTiming = false;
  /** Size of what was drawn last (CSS pixels). */
  readonly #sized = new Vector2();
  #density: MediaQueryList | undefined;
  #lost = false;
  /** Something on the picture has changed since it was drawn. */
  #dirty = false;
  /** Out of the page: nothing is drawn, and all that is drawn with is kept. */
  #isPaused = false;
  /** What was drawn last was drawn at rest. */
  #drawnAtRest = false;

  /** On a canvas; undefined where there is no WebGL 2 with float targets. `changed` tells of exposure and progress. */
  static on(
    canvas: HTMLCanvasElement,
    settings: () => PictureSettings,
    changed: () => void,
  ): Picture | undefined {
    const context = canvas.getContext("webgl2", { antialias: true, preserveDrawingBuffer: true });
    if (context?.getExtension("EXT_color_buffer_float") == null) return undefined;
    return new Picture(canvas, context, settings, changed);
  }

  private constructor(
    canvas: HTMLCanvasElement,
    context: WebGL2RenderingContext,
    settings: () => PictureSettings,
    changed: () => void,
  ) {
    this.canvas = canvas;
    this.#settings = settings;
    this.#changed = changed;
    this.renderer = new WebGLRenderer({ canvas, context, antialias: true, preserveDrawingBuffer: true });
    this.renderer.outputColorSpace = LinearSRGBColorSpace;
    canvas.addEventListener("webglcontextlost", this.#lose);
    canvas.addEventListener("webglcontextrestored", this.#restore);
    this.#observer = new ResizeObserver(() => this.#size());
    this.#observer.observe(canvas);
    this.#resize();
  }

  get views(): readonly KitchenView[] {
    return this.#views;
  }

  get exposure(): Exposure | undefined {
    return this.#exposure;
  }

  /** Share of the fine light that is there, 0…1. */
  get fraction(): number {
    return this.#fraction;
  }

  /** Whether pixels are saved while the view moves. */
  get slow(): boolean {
    return this.#slow;
  }

  /** Whether the picture is drawn as fine as it will be, and nothing more waits. */
  get isStill(): boolean {
    return (
      this.#drawnAtRest && !this.#dirty && this.#views.length > 0 && this.#views.every((view) => view.isStill)
    );
  }

  /** Whether the graphics processor is gone for now. */
  get lost(): boolean {
    return this.#lost;
  }

  /** Shows these sides; what has not changed keeps its light. */
  take(sides: readonly PreviewSide[], people: boolean): void {
    this.#taken = { sides, people };
    while (this.#views.length > sides.length) this.#views.pop()?.dispose();
    sides.forEach(({ scene, surfaces }, i) => {
      const light = { scene, surfaces, people };
      const view = this.#views[i] ?? this.#newView(light);
      if (!view.isCompiled) return;
      const before = view.light;
      if (before?.scene === scene && before.surfaces === surfaces && before.people === people) return;
      // Another dimming of the same light costs nothing.
      if (before?.surfaces === surfaces && before?.people === people && sameButDim(before.scene, scene))
        view.weigh(scene);
      else if (surfaces !== undefined && isFiner(light, before)) view.give(surfaces);
      else view.take(light);
    });
    this.#exposure = undefined;
    this.ask();
  }

  /** A view that takes what is wanted of it then when its programs are linked. */
  #newView(light: Light): KitchenView {
    const view = new KitchenView(this.renderer);
    this.#views.push(view);
    void view.compile(light, this.#settings().look).then(() => {
      if (this.#views.includes(view)) this.take(this.#taken.sides, this.#taken.people);
    });
    return view;
  }

  /** Those that have a picture. */
  get #lit(): readonly KitchenView[] {
    return this.#views.filter(({ light }) => light !== undefined);
  }

  /** Asks for a drawing in the next frame. */
  ask(): void {
    this.#dirty = true;
    if (this.#requested !== 0 || this.#isPaused) return;
    this.#requested = requestAnimationFrame(() => {
      this.#requested = 0;
      this.#draw();
    });
  }

  /** Draws nothing until {@link resume}; what was drawn stays on the canvas. */
  pause(): void {
    this.#isPaused = true;
    cancelAnimationFrame(this.#requested);
    this.#requested = 0;
  }

  resume(): void {
    this.#isPaused = false;
    this.ask();
  }

  /** Moves the eye by hand. */
  go(move: () => void): void {
    move();
    this.#moved = performance.now();
    this.ask();
  }

  /** Light at a place of the canvas (CSS pixels). */
  readAt(x: number, y: number): SurfaceReading | undefined {
    const views = this.#lit;
    const count = views.length;
    if (count === 0) return undefined;
    const each = this.canvas.clientWidth / count;
    const index = Math.min(count - 1, Math.floor(x / each));
    const ndc = new Vector2((2 * (x - index * each)) / each - 1, 1 - (2 * y) / this.canvas.clientHeight);
    return views[index].readingAt(this.walk.camera, ndc, this.#settings().cut);
  }

  dispose(): void {
    cancelAnimationFrame(this.#requested);
    this.#observer.disconnect();
    this.#density?.removeEventListener("change", this.#resize);
    this.canvas.removeEventListener("webglcontextlost", this.#lose);
    this.canvas.removeEventListener("webglcontextrestored", this.#restore);
    for (const view of this.#views) view.dispose();
    this.#views = [];
    this.renderer.dispose();
  }

  /** A page on another screen, or zoomed, has other pixels. */
  readonly #resize = (): void => {
    this.#density?.removeEventListener("change", this.#resize);
    this.#density = matchMedia(`(resolution: ${devicePixelRatio}dppx)`);
    this.#density.addEventListener("change", this.#resize);
    this.#size();
  };

  readonly #lose = (event: Event): void => {
    event.preventDefault();
    this.#lost = true;
    this.#changed();
  };

  readonly #restore = (): void => {
    this.#lost = false;
    for (const view of this.#views) view.dispose();
    this.#views = [];
    this.take(this.#taken.sides, this.#taken.people);
    this.#changed();
  };

  #size(): void {
    const { canvas, renderer } = this;
    if (canvas.clientWidth === 0) return;
    const isSaving = this.#slow && performance.now() - this.#moved < 300;
    const density = isSaving ? 0.5 : Math.min(DENSEST, devicePixelRatio);
    const size = renderer.getSize(new Vector2());
    const isAsLarge = size.x === canvas.clientWidth && size.y === canvas.clientHeight;
    // Of a size that is set the canvas is cleared, and blank until the next frame.
    if (!isAsLarge || renderer.getPixelRatio() !== density) {
      renderer.setPixelRatio(density);
      renderer.setSize(canvas.clientWidth, canvas.clientHeight, false);
    }
    this.ask();
  }

  #draw(): void {
    const { renderer } = this;
    const [first] = this.#lit;
    if (first === undefined || renderer.getContext().isContextLost()) return;
    this.#dirty = false;
    const start = performance.now();
    const resting = start - this.#moved > REST;
    if (this.#exposure === undefined) {
      this.#exposure = first.exposure();
      // It is printed under the picture.
      this.#changed();
    }
    this.#drawViews(this.#exposure, resting);
    this.#drawnAtRest = resting;
    if (!resting) {
      this.#time(start);
      setTimeout(() => this.#size(), 320);
      return;
    }
    this.#refine();
  }

  /** Finds out how long drawing takes, which goes on in the graphics processor when all has been asked of it. */
  #time(start: number): void {
    const gl = this.renderer.getContext() as WebGL2RenderingContext;
    if (this.#slow || this.#isTiming) return;
    const drawn = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    if (drawn === null) return;
    gl.flush();
    this.#isTiming = true;
    const look = (): void => {
      const isDrawn = gl.isContextLost() || gl.clientWaitSync(drawn, 0, 0) !== gl.TIMEOUT_EXPIRED;
      if (!isDrawn && performance.now() - start <= SLOW_FRAME) {
        setTimeout(look, 8);
        return;
      }
      this.#isTiming = false;
      gl.deleteSync(drawn);
      if (isDrawn) return;
      this.#slow = true;
      this.#size();
      this.#changed();
    };
    look();
  }

  #drawViews(exposure: Exposure, resting: boolean): void {
    const { renderer, walk } = this;
    const settings = this.#settings();
    const size = renderer.getSize(new Vector2());
    const views = this.#lit;
    const count = views.length;
    walk.camera.aspect = size.x / count / size.y;
    walk.camera.updateProjectionMatrix();
    // Marks stand where the camera puts them on a picture of this size.
    if (!size.equals(this.#sized)) this.#changed();
    this.#sized.copy(size);
    views.forEach((view, i) => {
      renderer.setScissorTest(count > 1);
      renderer.setViewport((i * size.x) / count, 0, size.x / count, size.y);
      renderer.setScissor((i * size.x) / count, 0, size.x / count, size.y);
      view.draw(walk.camera, { ...settings, exposure, labels: resting, moving: !resting });
    });
    renderer.setScissorTest(false);
  }

  /** The light goes on towards the still while nothing moves; the picture is drawn anew only when it has changed. */
  #refine(): void {
    // What light there will be soon stays coarse until it is there.
    const isAwaited = (i: number): boolean => {
      const { surfaces, sketched = false } = this.#taken.sides[i] ?? {};
      return surfaces === undefined && sketched;
    };
    const waiting = this.#views.find((view, i) => view.light !== undefined && !view.isStill && !isAwaited(i));
    const done = waiting?.proceed(SLICE, () => performance.now()) ?? false;
    this.#progress();
    if (waiting === undefined) return;
    if (done) {
      this.#exposure = undefined;
      this.ask();
      return;
    }
    this.#requested = requestAnimationFrame(() => {
      this.#requested = 0;
      if (this.#dirty) this.#draw();
      else this.#refine();
    });
  }

  #progress(): void {
    const parts = this.#views.map((view) => (view.isStill ? 1 : view.cache.fraction));
    const fraction = parts.reduce((sum, part) => sum + part, 0) / parts.length;
    if (fraction === this.#fraction) return;
    this.#fraction = fraction;
    this.#changed();
  }
}

function sameButDim(a: Scene, b: Scene): boolean {
  return (
    a.layers.length === b.layers.length &&
    a.surfaces === b.surfaces &&
    a.blockers === b.blockers &&
    a.layers.every((layer, i) => layer.luminaires === b.layers[i].luminaires)
  );
}

/** Whether all that is new is the light given on the surfaces. */
function isFiner(light: Light, before: Light | undefined): boolean {
  return (
    before?.scene === light.scene &&
    before.people === light.people &&
    (before.surfaces?.traced === undefined) === (light.surfaces?.traced === undefined)
  );
}
