import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import { styleMap } from "lit/directives/style-map.js";
import { LinearSRGBColorSpace, Vector2, Vector3, WebGLRenderer } from "three";
import type { Vec3 } from "../../geometry/vector.ts";
import type { Scene } from "../../scene/scene.ts";
import { formatIlluminance } from "../../units/illuminance-text.ts";
import { define } from "../elements/shared/define.ts";
import { tokens } from "../elements/shared/tokens.ts";
import type { SurfaceLight } from "../surface-light.ts";
import type { Exposure } from "./exposure.ts";
import { glareMarks } from "./glare-marks.ts";
import { type Cut, KitchenView, type Look, type SurfaceReading } from "./kitchen-view.ts";
import { previewStyles } from "./preview.styles.ts";
import { type NamedViewpoint, namedViewpoints } from "./viewpoints.ts";
import { Walk } from "./walk.ts";

/** What one side of the picture shows. */
export interface PreviewSide {
  readonly scene: Scene;
  /** Light on its surfaces from the engine; without it the picture shows direct light alone and says so. */
  readonly surfaces?: SurfaceLight;
}

type CutName = "none" | "plan" | "along" | "across";

/** Time one slice of the fine light may take (ms), and the frame above which pixels are saved while moving. */
const SLICE = 60;
const SLOW_FRAME = 200;
const TURN = 0.006;

/**
 * The kitchen as it will be lit, computed: its appearance at a stated exposure, or lux on every surface.
 *
 * @tag candlespan-preview
 * @slot fallback - what stands in where the browser has no WebGL 2, such as the plan
 */
export class CandlespanPreview extends LitElement {
  static override styles = [tokens, previewStyles];

  /** The arrangement shown. */
  @property({ attribute: false }) side?: PreviewSide;
  /** A second arrangement beside it, at the same viewpoint and exposure. */
  @property({ attribute: false }) other?: PreviewSide;
  /** `appearance` or `lux`. */
  @property({ reflect: true }) look: Look = "appearance";
  @property() unit: "lx" | "fc" = "lx";
  /** Whether people are drawn and stand in the light. */
  @property({ type: Boolean }) people = false;
  /** A named viewpoint: `entrance`, `cook`, `guest`, `sofa`, `person …`. */
  @property() viewpoint = "entrance";
  /** Printed under the picture. */
  @property() date = "";
  /** What the light rests on, printed under the picture. */
  @property() inputs = "";
  /** `day` or `evening`; follows the page's color-scheme when absent. */
  @property({ reflect: true }) mode?: "day" | "evening";

  @state() private fault = "";
  @state() private fraction = 0;
  @state() private cut: CutName = "none";
  @state() private cutAt = 0.5;
  @state() private marks = false;
  @state() private reading?: { readonly x: number; readonly y: number; readonly light: SurfaceReading };
  @state() private words = "";
  @query("canvas") private readonly canvas?: HTMLCanvasElement;

  readonly #walk = new Walk();
  #renderer?: WebGLRenderer;
  #views: KitchenView[] = [];
  #exposure: Exposure | undefined;
  #requested = 0;
  #moved = 0;
  #slow = false;
  /** Something on the picture has changed since it was drawn. */
  #dirty = false;
  #observer?: ResizeObserver;
  #pointers = new Map<number, { x: number; y: number }>();

  /** For tests and benchmarks. */
  get views(): readonly KitchenView[] {
    return this.#views;
  }

  get renderer(): WebGLRenderer | undefined {
    return this.#renderer;
  }

  /** Where the eye is (m). */
  get eye(): Vec3 {
    return this.#walk.eye;
  }

  /** Whether the picture is as fine as it will be. */
  get still(): boolean {
    return this.#views.length > 0 && this.#views.every((view) => view.isStill);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    cancelAnimationFrame(this.#requested);
    this.#requested = 0;
    this.#observer?.disconnect();
    this.#free();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.hasUpdated) this.updateComplete.then(() => this.#start());
  }

  protected override firstUpdated(): void {
    this.#start();
  }

  protected override updated(changed: PropertyValues): void {
    if (changed.has("side") || changed.has("other") || changed.has("people")) this.#take(changed);
    if (changed.has("viewpoint") || (changed.has("side") && changed.get("side") === undefined)) this.#stand();
    if (["look", "unit", "cut", "cutAt"].some((name) => changed.has(name))) this.#ask();
  }

  get #named(): readonly NamedViewpoint[] {
    return this.side === undefined ? [] : namedViewpoints(this.side.scene);
  }

  #start(): void {
    const { canvas } = this;
    if (canvas === undefined || this.#renderer !== undefined) return;
    const context = canvas.getContext("webgl2", { antialias: true, preserveDrawingBuffer: true });
    if (context?.getExtension("EXT_color_buffer_float") == null) {
      this.fault =
        "This browser has no WebGL 2 with float targets, so the kitchen cannot be drawn in depth. The plan shows the same light.";
      return;
    }
    this.#renderer = new WebGLRenderer({ canvas, context, antialias: true, preserveDrawingBuffer: true });
    this.#renderer.outputColorSpace = LinearSRGBColorSpace;
    canvas.addEventListener("webglcontextlost", (event) => {
      event.preventDefault();
      this.words = "The graphics processor was lost; the picture returns when it does.";
    });
    canvas.addEventListener("webglcontextrestored", () => {
      this.words = "";
      for (const view of this.#views) view.dispose();
      this.#views = [];
      this.#take();
    });
    this.#observer = new ResizeObserver(() => this.#size());
    this.#observer.observe(canvas);
    this.#size();
    this.#take();
    this.#stand();
  }

  #size(): void {
    const { canvas } = this;
    const renderer = this.#renderer;
    if (canvas === undefined || renderer === undefined || canvas.clientWidth === 0) return;
    renderer.setPixelRatio(this.#slow && performance.now() - this.#moved < 300 ? 0.5 : 1);
    renderer.setSize(canvas.clientWidth, canvas.clientHeight, false);
    this.#ask();
  }

  #take(changed?: PropertyValues): void {
    const renderer = this.#renderer;
    if (renderer === undefined) return;
    const sides = [this.side, this.other].filter((side) => side !== undefined);
    while (this.#views.length > sides.length) this.#views.pop()?.dispose();
    sides.forEach(({ scene, surfaces }, i) => {
      const view = this.#views[i];
      const light = { scene, surfaces, people: this.people };
      if (view === undefined) {
        const made = new KitchenView(renderer);
        this.#views.push(made);
        made.take(light);
        return;
      }
      const before = view.light;
      const key = i === 0 ? "side" : "other";
      if (changed !== undefined && !changed.has(key) && !changed.has("people")) return;
      // Another dimming of the same light costs nothing.
      if (before?.surfaces === surfaces && before?.people === this.people && sameButDim(before.scene, scene))
        view.weigh(scene);
      else view.take(light);
    });
    this.#exposure = undefined;
    this.reading = undefined;
    this.#ask();
  }

  #stand(): void {
    const found = this.#named.find(({ id }) => id === this.viewpoint) ?? this.#named[0];
    if (found === undefined) return;
    this.#walk.stand(found.eye, found.target);
    this.#ask();
  }

  #ask(): void {
    this.#dirty = true;
    if (this.#requested !== 0 || this.#renderer === undefined) return;
    this.#requested = requestAnimationFrame(() => {
      this.#requested = 0;
      this.#draw();
    });
  }

  #cutPlane(): Cut | undefined {
    const room = this.side?.scene.room;
    if (room === undefined) return undefined;
    switch (this.cut) {
      case "plan":
        return { normal: [0, 0, 1], level: 0.05 + this.cutAt * (room.ceilingHeight - 0.05) };
      case "along":
        return { normal: [0, -1, 0], level: -this.cutAt * room.width };
      case "across":
        return { normal: [-1, 0, 0], level: -this.cutAt * room.length };
      default:
        return undefined;
    }
  }

  #draw(): void {
    const renderer = this.#renderer;
    const { canvas } = this;
    if (renderer === undefined || canvas === undefined || renderer.getContext().isContextLost()) return;
    if (this.#views.length === 0) return;
    this.#dirty = false;
    const start = performance.now();
    const resting = start - this.#moved > 250;
    if (this.#exposure === undefined) {
      this.#exposure = this.#views[0].exposure();
      // It is printed under the picture.
      this.requestUpdate();
    }
    const exposure = this.#exposure;
    const without = this.#named.find(({ id }) => id === this.viewpoint)?.person;
    const size = renderer.getSize(new Vector2());
    const count = this.#views.length;
    const { camera } = this.#walk;
    camera.aspect = size.x / count / size.y;
    camera.updateProjectionMatrix();
    this.#views.forEach((view, i) => {
      renderer.setScissorTest(count > 1);
      renderer.setViewport((i * size.x) / count, 0, size.x / count, size.y);
      renderer.setScissor((i * size.x) / count, 0, size.x / count, size.y);
      view.draw(camera, {
        look: this.look,
        unit: this.unit,
        exposure,
        cut: this.#cutPlane(),
        without,
        labels: resting || this.look !== "lux",
      });
    });
    renderer.setScissorTest(false);
    const took = performance.now() - start;
    if (!resting) {
      this.#slow ||= took > SLOW_FRAME;
      setTimeout(() => this.#size(), 320);
      return;
    }
    // The light goes on towards the still while nothing moves.
    const waiting = this.#views.find((view) => !view.isStill);
    if (waiting === undefined) {
      this.fraction = 1;
      return;
    }
    const done = waiting.proceed(SLICE, () => performance.now());
    this.fraction =
      this.#views.reduce((sum, view) => sum + (view.isStill ? 1 : view.cache.fraction), 0) / count;
    if (done) this.#exposure = undefined;
    this.#again(done);
  }

  /** The next slice; the picture is drawn anew only when it has changed. */
  #again(redraw: boolean): void {
    if (redraw) {
      this.#ask();
      return;
    }
    this.#requested = requestAnimationFrame(() => {
      this.#requested = 0;
      const waiting = this.#views.find((view) => !view.isStill);
      if (waiting === undefined || this.#dirty) {
        this.#draw();
        return;
      }
      const done = waiting.proceed(SLICE, () => performance.now());
      this.fraction =
        this.#views.reduce((sum, view) => sum + (view.isStill ? 1 : view.cache.fraction), 0) /
        this.#views.length;
      if (done) this.#exposure = undefined;
      this.#again(done);
    });
  }

  #go(move: () => void): void {
    move();
    this.#moved = performance.now();
    this.reading = undefined;
    this.#ask();
  }

  readonly #down = (event: PointerEvent): void => {
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    (event.currentTarget as Element).setPointerCapture(event.pointerId);
  };

  readonly #up = (event: PointerEvent): void => {
    this.#pointers.delete(event.pointerId);
  };

  readonly #move = (event: PointerEvent): void => {
    const before = this.#pointers.get(event.pointerId);
    if (before === undefined) {
      if (event.pointerType === "mouse") this.#readAt(event);
      return;
    }
    const [dx, dy] = [event.clientX - before.x, event.clientY - before.y];
    const others = [...this.#pointers.entries()].filter(([id]) => id !== event.pointerId);
    this.#pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
    if (others.length > 0) {
      // Two fingers: apart is nearer, together is farther.
      const [, hand] = others[0];
      const far = Math.hypot(event.clientX - hand.x, event.clientY - hand.y);
      const was = Math.hypot(before.x - hand.x, before.y - hand.y);
      if (far > 0) this.#go(() => this.#walk.zoom(was / far));
    } else if (event.shiftKey || event.buttons === 2) {
      this.#go(() => this.#walk.walk(dy * TURN, -dx * TURN, 0));
    } else this.#go(() => this.#walk.orbit(-dx * TURN, dy * TURN));
  };

  readonly #wheel = (event: WheelEvent): void => {
    event.preventDefault();
    this.#go(() => this.#walk.zoom(Math.exp(event.deltaY * 0.001)));
  };

  readonly #key = (event: KeyboardEvent): void => {
    const step = event.altKey ? 0.05 : 0.2;
    const turn = event.altKey ? 0.02 : 0.08;
    const moves: Record<string, () => void> = {
      ArrowLeft: () => (event.shiftKey ? this.#walk.walk(0, -step, 0) : this.#walk.orbit(-turn, 0)),
      ArrowRight: () => (event.shiftKey ? this.#walk.walk(0, step, 0) : this.#walk.orbit(turn, 0)),
      ArrowUp: () => (event.shiftKey ? this.#walk.walk(step, 0, 0) : this.#walk.orbit(0, turn)),
      ArrowDown: () => (event.shiftKey ? this.#walk.walk(-step, 0, 0) : this.#walk.orbit(0, -turn)),
      PageUp: () => this.#walk.walk(0, 0, step),
      PageDown: () => this.#walk.walk(0, 0, -step),
      "+": () => this.#walk.zoom(0.9),
      "-": () => this.#walk.zoom(1.1),
      Home: () => this.#stand(),
    };
    const move = moves[event.key];
    if (move === undefined) {
      if (event.key === "Enter") this.#readMiddle();
      return;
    }
    event.preventDefault();
    event.stopPropagation();
    this.#go(move);
  };

  #readMiddle(): void {
    const { canvas } = this;
    if (canvas === undefined) return;
    const box = canvas.getBoundingClientRect();
    const half = this.#views.length > 1 ? 0.25 : 0.5;
    this.#readFrom(box.width * half, box.height / 2);
  }

  #readAt(event: PointerEvent): void {
    const box = (event.currentTarget as Element).getBoundingClientRect();
    this.#readFrom(event.clientX - box.left, event.clientY - box.top);
  }

  #readFrom(x: number, y: number): void {
    const { canvas } = this;
    if (canvas === undefined || this.#views.length === 0) return;
    const count = this.#views.length;
    const each = canvas.clientWidth / count;
    const index = Math.min(count - 1, Math.floor(x / each));
    const ndc = new Vector2((2 * (x - index * each)) / each - 1, 1 - (2 * y) / canvas.clientHeight);
    const light = this.#views[index].readingAt(this.#walk.camera, ndc, this.#cutPlane());
    this.reading = light === undefined ? undefined : { x, y, light };
  }

  /** The picture with what is printed under it, as a PNG. */
  async picture(): Promise<Blob> {
    const { canvas } = this;
    if (canvas === undefined) throw new Error("There is no picture yet.");
    const paper = document.createElement("canvas");
    const lines = this.#captionLines();
    paper.width = canvas.width;
    paper.height = canvas.height + 26 + 22 * lines.length;
    const context = paper.getContext("2d") as CanvasRenderingContext2D;
    context.fillStyle = "#fffdf9";
    context.fillRect(0, 0, paper.width, paper.height);
    context.drawImage(canvas, 0, 0);
    context.fillStyle = "#24211c";
    context.font = `15px ${getComputedStyle(this).fontFamily}`;
    lines.forEach((line, i) => {
      context.fillText(line, 12, canvas.height + 26 + 22 * i);
    });
    return new Promise((done, fail) =>
      paper.toBlob(
        (blob) => (blob === null ? fail(new Error("The picture could not be coded.")) : done(blob)),
        "image/png",
      ),
    );
  }

  /** The room with its luminaires as a GLB file. */
  async model(): Promise<Uint8Array> {
    if (this.side === undefined) throw new Error("There is no scene yet.");
    const { sceneGlb } = await import("./export-glb.ts");
    return sceneGlb(this.side.scene);
  }

  async #save(name: string, blob: Blob): Promise<void> {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(blob);
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
  }

  #captionLines(): string[] {
    const scene = this.side?.scene;
    if (scene === undefined) return [];
    const names = [scene.name, ...(this.other === undefined ? [] : [this.other.scene.name])];
    const where = this.#named.find(({ id }) => id === this.viewpoint)?.name ?? "free viewpoint";
    const dims = scene.layers.map(({ name, dim }) => `${name} ${Math.round(100 * dim)} %`).join(", ");
    const exposure = this.#exposure;
    const how =
      this.look === "lux"
        ? `Illuminance in ${this.unit}, maintained (factor ${scene.maintenance}), in the dark`
        : exposure === undefined
          ? ""
          : `Exposure EV100 ${exposure.ev100.toFixed(1)}: adapted to ${figure(exposure.mean)} cd/m², white from ${figure(exposure.white)} cd/m²; a screen shows lamps far dimmer than they are`;
    const light =
      this.side?.surfaces === undefined
        ? "direct light only"
        : "direct light and interreflected light of the engine";
    return [
      [
        names.map((name, i) => (names.length > 1 ? `${"AB"[i]} ${name}` : name)).join(", "),
        where,
        dims,
        this.date,
      ]
        .filter((part) => part !== "")
        .join(" · "),
      `${how} · ${light}${this.inputs === "" ? "" : ` · ${this.inputs}`}`,
    ];
  }

  #lux(E: number): string {
    return formatIlluminance(E, this.unit);
  }

  #readingWords({ direct, interreflected, surface }: SurfaceReading): string {
    const total = direct + interreflected;
    const share = total > 0 ? Math.round((100 * direct) / total) : 0;
    return `${surface}: ${this.#lux(total)}, ${share} % direct (${this.#lux(direct)}), ${this.#lux(interreflected)} interreflected`;
  }

  #glare(): TemplateResult[] {
    const { canvas } = this;
    const scene = this.side?.scene;
    if (!this.marks || canvas === undefined || scene === undefined || this.#views.length > 1) return [];
    const { camera, eye } = this.#walk;
    return glareMarks(scene, eye).flatMap(({ at, luminance, exact }) => {
      const p = new Vector3(...at).project(camera);
      if (p.z > 1 || Math.abs(p.x) > 1 || Math.abs(p.y) > 1) return [];
      const left = `${((p.x + 1) / 2) * 100}%`;
      const top = `${((1 - p.y) / 2) * 100}%`;
      const value = Number(luminance.toPrecision(2)).toLocaleString("en");
      return [
        html`<span class="glare" style=${styleMap({ left, top })}>${exact ? "" : "mean "}${value} cd/m²</span>`,
      ];
    });
  }

  override render(): TemplateResult {
    const caption = this.#captionLines();
    const views = this.#named;
    if (this.fault !== "") return html`<p role="status">${this.fault}</p><slot name="fallback"></slot>`;
    return html`
      <div class="controls" role="group" aria-label="Picture">
        <div class="pair" role="group" aria-label="Look">
          <button type="button" aria-pressed=${this.look === "appearance"} @click=${() => {
            this.look = "appearance";
          }}>Appearance</button>
          <button type="button" aria-pressed=${this.look === "lux"} @click=${() => {
            this.look = "lux";
          }}>${this.unit === "fc" ? "Foot-candles" : "Lux"}</button>
        </div>
        <label>Viewpoint
          <select .value=${this.viewpoint} @change=${(event: Event) => {
            this.viewpoint = (event.target as HTMLSelectElement).value;
            this.#stand();
          }}>
            ${views.map(({ id, name }) => html`<option value=${id} ?selected=${id === this.viewpoint}>${name}</option>`)}
          </select>
        </label>
        <label>Cut
          <select @change=${(event: Event) => {
            this.cut = (event.target as HTMLSelectElement).value as CutName;
          }}>
            <option value="none">none</option>
            <option value="plan">plan</option>
            <option value="along">section along the room</option>
            <option value="across">section across the room</option>
          </select>
        </label>
        ${
          this.cut === "none"
            ? nothing
            : html`<label>Where it cuts
                <input type="range" min="0.05" max="0.95" step="0.01" .value=${String(this.cutAt)} @input=${(
                  event: Event,
                ) => {
                  this.cutAt = Number((event.target as HTMLInputElement).value);
                }} />
              </label>`
        }
        ${
          this.side === undefined || this.side.scene.people.length === 0
            ? nothing
            : html`<label class="line"><input type="checkbox" .checked=${this.people} @change=${(
                event: Event,
              ) => {
                this.people = (event.target as HTMLInputElement).checked;
              }} /> people</label>`
        }
        <label class="line"><input type="checkbox" .checked=${this.marks} @change=${(event: Event) => {
          this.marks = (event.target as HTMLInputElement).checked;
        }} /> mark bright luminaires</label>
        <button type="button" @click=${async () => this.#save(`${this.side?.scene.name ?? "kitchen"}.png`, await this.picture())}>PNG</button>
        <button type="button" @click=${async () => this.#save(`${this.side?.scene.name ?? "kitchen"}.glb`, new Blob([(await this.model()) as BlobPart], { type: "model/gltf-binary" }))}>GLB</button>
      </div>
      <figure>
        <div class="stage">
          <canvas
            tabindex="0"
            role="img"
            aria-label="${this.look === "lux" ? "Illuminance on every surface" : "The kitchen as it will be lit"}. Arrow keys turn, with Shift they walk, plus and minus come nearer and go back, Page Up and Page Down rise and sink, Home returns, Enter reads the light in the middle."
            @pointerdown=${this.#down}
            @pointerup=${this.#up}
            @pointercancel=${this.#up}
            @pointermove=${this.#move}
            @pointerleave=${() => {
              this.reading = undefined;
            }}
            @wheel=${this.#wheel}
            @keydown=${this.#key}
            @contextmenu=${(event: Event) => event.preventDefault()}
          ></canvas>
          ${
            this.other === undefined
              ? nothing
              : html`<span class="divider"></span><span class="side a">A ${this.side?.scene.name}</span
                  ><span class="side b">B ${this.other.scene.name}</span>`
          }
          ${this.#glare()}
          ${
            this.reading === undefined
              ? nothing
              : html`<span class="reading" style=${styleMap({ left: `${this.reading.x}px`, top: `${this.reading.y}px` })}>${this.#readingWords(this.reading.light)}</span>`
          }
        </div>
        <figcaption>
          ${caption.map((line) => html`<div>${line}</div>`)}
          <div role="status">
            ${this.words}
            ${
              this.fraction < 1
                ? html`Coarse light, fewer elements. Refining <progress max="1" .value=${this.fraction} aria-label="Fine light"></progress>`
                : this.#views.some((view) => view.cache.plate?.atlas.thinned)
                  ? "A large room: nodes of light stand farther apart than usual."
                  : nothing
            }
            ${this.#slow ? "This computer draws slowly: fewer pixels while the view moves." : nothing}
          </div>
        </figcaption>
      </figure>
    `;
  }

  #free(): void {
    for (const view of this.#views) view.dispose();
    this.#views = [];
    this.#renderer?.dispose();
    this.#renderer = undefined;
  }
}

/** Two figures that mean something. */
function figure(value: number): string {
  return Number(value.toPrecision(2)).toLocaleString("en");
}

function sameButDim(a: Scene, b: Scene): boolean {
  return (
    a.layers.length === b.layers.length &&
    a.surfaces === b.surfaces &&
    a.blockers === b.blockers &&
    a.layers.every((layer, i) => layer.luminaires === b.layers[i].luminaires)
  );
}

define("candlespan-preview", CandlespanPreview);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-preview": CandlespanPreview;
  }
}
