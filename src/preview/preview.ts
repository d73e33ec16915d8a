import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import type { WebGLRenderer } from "three";
import { define } from "../elements/shared/define.ts";
import { tokens } from "../elements/shared/tokens.ts";
import type { Vec3 } from "../geometry/vector.ts";
import { CameraInput } from "./camera-input.ts";
import { type Captioned, captionLines, letteredName, plainCaption, readingWords } from "./caption.ts";
import { pictureControls } from "./controls.ts";
import { type CutName, cutThrough, cutWords, standpointFor } from "./cut.ts";
import { type FigureCaption, figureCaption } from "./figure-caption.ts";
import { glareLabels, glareMarks } from "./glare-marks.ts";
import type { KitchenView, Look } from "./kitchen-view.ts";
import { Picture, type PreviewSide } from "./picture.ts";
import { placedAt } from "./placed-at.ts";
import { previewStyles } from "./preview.styles.ts";
import { offer, printedPicture } from "./printed-picture.ts";
import type { SurfaceReading } from "./surface-reading.ts";
import { type NamedViewpoint, namedViewpoints, viewpointOf } from "./viewpoints.ts";

export type { PreviewSide } from "./picture.ts";

const NO_GRAPHICS =
  "This browser has no WebGL 2 with float targets, so the kitchen cannot be drawn in depth. The plan shows the same light.";
/** Up to this width (px) the picture comes first, and its controls under it. */
const NARROW = 560;
const KEYS =
  "Arrow keys turn, with Shift they walk, plus and minus come nearer and go back, Page Up and Page Down rise and sink, Home returns, Enter reads the light in the middle.";

/**
 * The kitchen as it will be lit, computed: its appearance at a stated exposure, or lux on every surface.
 *
 * @tag candlespan-preview
 * @csspart stage - the picture, without its controls and caption
 * @slot progress - how far the light is that the picture waits for; stands in place of the picture's own progress
 * @slot controls - further controls, after those of the picture
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
  /** Out of the page it keeps its picture, drawing nothing, for whoever puts it back; else it gives its renderer back. */
  @property({ type: Boolean }) kept = false;
  /** Says under the picture what a client asks: which option, seen from where, and that a screen is no lamp. */
  @property({ type: Boolean }) plain = false;
  /** `day` or `evening`; follows the page's color-scheme when absent. */
  @property({ reflect: true }) mode?: "day" | "evening";

  @state() private fault = "";
  @state() private cut: CutName = "none";
  @state() private cutAt = 0.5;
  @state() private marks = false;
  @state() private reading?: { readonly x: number; readonly y: number; readonly light: SurfaceReading };
  @query("canvas") private readonly canvas?: HTMLCanvasElement;

  /** Whether the eye has left its named viewpoint. */
  @state() private walked = false;

  #picture?: Picture;
  readonly #widths = new ResizeObserver(([{ contentRect }]) =>
    this.toggleAttribute("narrow", contentRect.width > 0 && contentRect.width <= NARROW),
  );
  readonly #hand = new CameraInput(() => this.#picture, {
    moved: () => {
      this.reading = undefined;
      this.walked = true;
      // Marks and caption go with the view.
      this.requestUpdate();
    },
    read: (x, y) => this.#read(x, y),
    home: () => {
      this.reading = undefined;
      this.walked = false;
      this.#stand();
    },
  });

  /** For tests and benchmarks. */
  get views(): readonly KitchenView[] {
    return this.#picture?.views ?? [];
  }

  get renderer(): WebGLRenderer | undefined {
    return this.#picture?.renderer;
  }

  /** Where the eye is (m). */
  get eye(): Vec3 {
    return this.#picture?.walk.eye ?? [0, 0, 0];
  }

  /** Whether the picture is as fine as it will be. */
  get still(): boolean {
    return this.#picture?.isStill ?? false;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#widths.disconnect();
    if (this.kept) {
      this.#picture?.pause();
      return;
    }
    this.#picture?.dispose();
    this.#picture = undefined;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#widths.observe(this);
    this.#picture?.resume();
    if (this.hasUpdated) this.updateComplete.then(() => this.#start());
  }

  protected override firstUpdated(): void {
    this.#start();
  }

  protected override willUpdate(changed: PropertyValues): void {
    const isNew = this.#isNewStand(changed);
    if (isNew) this.walked = false;
    // Marks and caption are of the eye: it stands before they are drawn.
    if (isNew || (changed.has("cutAt") && !this.walked)) this.#stand();
  }

  protected override updated(changed: PropertyValues): void {
    const isOther =
      changed.has("other") && (changed.get("other") === undefined) !== (this.other === undefined);
    if (isOther) this.reading = undefined;
    if (changed.has("side") || changed.has("other") || changed.has("people")) this.#take();
    if (["look", "unit", "cut", "cutAt"].some((name) => changed.has(name))) this.#picture?.ask();
  }

  #isNewStand(changed: PropertyValues): boolean {
    const isFirst = changed.has("side") && changed.get("side") === undefined;
    return changed.has("viewpoint") || changed.has("cut") || isFirst;
  }

  get #named(): readonly NamedViewpoint[] {
    return this.side === undefined ? [] : namedViewpoints(this.side.scene);
  }

  get #standing(): NamedViewpoint | undefined {
    return viewpointOf(this.#named, this.viewpoint);
  }

  get #sides(): readonly PreviewSide[] {
    return [this.side, this.other].filter((side) => side !== undefined);
  }

  #start(): void {
    const { canvas } = this;
    if (canvas === undefined || this.#picture !== undefined) return;
    const settings = () => ({
      look: this.look,
      unit: this.unit,
      cut: this.side === undefined ? undefined : cutThrough(this.side.scene.room, this.cut, this.cutAt),
      without: this.#standing?.person,
    });
    this.#picture = Picture.on(canvas, settings, () => this.requestUpdate());
    if (this.#picture === undefined) {
      this.fault = NO_GRAPHICS;
      return;
    }
    this.#take();
    this.#stand();
  }

  #take(): void {
    this.#picture?.take(this.#sides, this.people);
    // What was read stays where it is and tells of the new light.
    if (this.reading !== undefined) this.#read(this.reading.x, this.reading.y);
  }

  #read(x: number, y: number): void {
    const light = this.#picture?.readAt(x, y);
    this.reading = light === undefined ? undefined : { x, y, light };
  }

  #stand(): void {
    const square =
      this.side === undefined ? undefined : standpointFor(this.side.scene.room, this.cut, this.cutAt);
    const viewpoint = this.#standing ?? this.#named[0];
    if (square !== undefined) this.#picture?.walk.stand(square.eye, square.target);
    else if (viewpoint !== undefined)
      this.#picture?.walk.stand(viewpoint.eye, viewpoint.target, viewpoint.field);
    this.#picture?.ask();
  }

  /** The picture with what is printed under it, as a PNG. */
  async picture(): Promise<Blob> {
    const { canvas } = this;
    if (canvas === undefined) throw new Error("There is no picture yet.");
    return printedPicture(canvas, this.#caption(), getComputedStyle(this).fontFamily);
  }

  /** The room with its luminaires as a GLB file. */
  async model(): Promise<Uint8Array> {
    if (this.side === undefined) throw new Error("There is no scene yet.");
    const { sceneGlb } = await import("./export-glb.ts");
    return sceneGlb(this.side.scene);
  }

  #whence(): string {
    const cut = this.side === undefined ? undefined : cutThrough(this.side.scene.room, this.cut, this.cutAt);
    if (cut !== undefined) return cutWords(this.cut, cut);
    return (this.walked ? undefined : this.#standing?.name) ?? "free viewpoint";
  }

  #caption(): string[] {
    return captionLines(this.#captioned);
  }

  get #captioned(): Captioned {
    return {
      scenes: this.#sides.map(({ scene }) => scene),
      interreflected:
        this.side?.surfaces === undefined
          ? "none"
          : this.#sides.some(({ sketched }) => sketched)
            ? "sketched"
            : "full",
      look: this.look,
      unit: this.unit,
      viewpoint: this.#whence(),
      exposure: this.#picture?.exposure,
      date: this.date,
      inputs: this.inputs,
    };
  }

  override render(): TemplateResult {
    if (this.fault !== "") return html`<p role="status">${this.fault}</p><slot name="fallback"></slot>`;
    return html`
      ${this.#controls()}
      <figure>
        <div class="stage" part="stage">
          <canvas
            tabindex="0"
            role="img"
            aria-label="${this.look === "lux" ? "Illuminance on every surface" : "The kitchen as it will be lit"}. ${KEYS}"
            @pointerdown=${this.#hand.down}
            @pointerup=${this.#hand.up}
            @pointercancel=${this.#hand.up}
            @pointermove=${this.#hand.move}
            @pointerleave=${(event: PointerEvent) => {
              // A finger leaves when it is lifted; what it tapped stays to be read.
              if (event.pointerType === "mouse") this.reading = undefined;
            }}
            @wheel=${this.#hand.wheel}
            @keydown=${this.#hand.key}
            @contextmenu=${(event: Event) => event.preventDefault()}
          ></canvas>
          ${
            this.other === undefined
              ? nothing
              : html`<span class="divider"></span><span class="side a">${this.side === undefined ? nothing : letteredName(this.side.scene)}</span
                  ><span class="side b">${letteredName(this.other.scene)}</span>`
          }
          ${this.#glare()}
          ${
            this.reading === undefined
              ? nothing
              : html`<span class="reading" ${placedAt(`${this.reading.x}px`, `${this.reading.y}px`)}>${readingWords(this.reading.light, this.unit)}</span>`
          }
        </div>
        ${figureCaption({
          look: this.look,
          unit: this.unit,
          lines: this.plain ? plainCaption(this.#captioned) : this.#caption(),
          exposure: this.#picture?.exposure,
          fraction: this.#picture?.fraction ?? 0,
          remarks: this.#remarks(),
        })}
      </figure>
    `;
  }

  #controls(): TemplateResult {
    const { look, unit, viewpoint, cut, cutAt, marks } = this;
    const anyone = this.side !== undefined && this.side.scene.people.length > 0;
    return pictureControls(
      {
        look,
        unit,
        viewpoint: this.#standing?.id ?? viewpoint,
        viewpoints: this.#named,
        cut,
        cutAt,
        marks,
        ...(anyone ? { people: this.people } : {}),
      },
      {
        set: (change) => {
          Object.assign(this, change);
        },
        savePicture: async () => offer(`${this.#fileName}.png`, await this.picture()),
        saveModel: async () =>
          offer(
            `${this.#fileName}.glb`,
            new Blob([(await this.model()) as BlobPart], { type: "model/gltf-binary" }),
          ),
      },
    );
  }

  get #fileName(): string {
    return this.side?.scene.name ?? "kitchen";
  }

  #remarks(): FigureCaption["remarks"] {
    const picture = this.#picture;
    return {
      isLost: picture?.lost === true,
      isThinned: picture?.fraction === 1 && this.views.some((view) => view.cache.target?.atlas.thinned),
      isSlow: picture?.slow === true,
      hasNoGlare: this.#hasNoGlare,
    };
  }

  /** Whether marks of bright luminaires are wanted and there is nothing to mark. */
  get #hasNoGlare(): boolean {
    const scene = this.side?.scene;
    const eye = this.#picture?.walk.eye;
    return this.marks && scene !== undefined && eye !== undefined && glareMarks(scene, eye).length === 0;
  }

  #glare(): TemplateResult[] {
    const picture = this.#picture;
    const scene = this.side?.scene;
    if (!this.marks || picture === undefined || scene === undefined || this.views.length > 1) return [];
    const { clientWidth: width, clientHeight: height } = picture.canvas;
    return glareLabels(scene, picture.walk.eye, picture.walk.camera, { width, height });
  }
}

define("candlespan-preview", CandlespanPreview);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-preview": CandlespanPreview;
  }
}
