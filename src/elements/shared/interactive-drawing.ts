/** A drawing a hand can work in: luminaires to take hold of, a field in which light is read. */
import { html, nothing, type PropertyValues, type SVGTemplateResult, svg, type TemplateResult } from "lit";
import { property, query, state } from "lit/decorators.js";
import type { Box, LuminaireMarks } from "../../drawing/drawing.ts";
import { uprightStretches } from "../../drawing/free-stretches.ts";
import { placeOf, placeOnTop } from "../../drawing/island-axes.ts";
import type { LuminaireKey, Move } from "../../drawing/luminaire-key.ts";
import type { Scene } from "../../scene/scene.ts";
import { ARROWS, DragController, keyStep } from "./drag-controller.ts";
import type { DragHost } from "./drag-host.ts";
import { DrawingElement, type Place } from "./drawing-element.ts";
import { goByKey } from "./go-by-key.ts";
import { renderHandles } from "./luminaire-handles.ts";
import { round } from "./marks.ts";

/** From so near a luminaire snaps (px of the drawing). */
const SNAP_PIXELS = 7;

/** What keys go to: luminaires and the light. */
const STOPS = "[data-luminaire], .field";

/** Asked once; the answer keeps itself up to date. */
let coarsePointer: MediaQueryList | undefined;

export abstract class InteractiveDrawing extends DrawingElement implements DragHost {
  /** Drawn only: nothing can be taken, only read. */
  @property({ type: Boolean, reflect: true }) fixed = false;
  @state() protected reasons: readonly string[] = [];
  @state() protected tabStop: string | undefined;
  @query("svg") protected readonly page!: SVGSVGElement;

  protected readonly drag = new DragController(this);
  /** The stop of Tab as drawn. */
  #stop = "field";

  protected override createRenderRoot(): HTMLElement | DocumentFragment {
    const root = super.createRenderRoot();
    // An `svg` that listens for focus would be a stop of Tab itself, and focus that stays inside never reaches the host.
    root.addEventListener("focusin", this.#focused as EventListener);
    return root;
  }

  /** Metres that a drag by pixels of the page means. @internal */
  abstract moveOf(dx: number, dy: number, held?: LuminaireKey): Move;
  /** The place on the top under a point of the page (px of the drawing). */
  protected abstract placeAt(x: number, y: number): Place | undefined;

  /** Distance within which a luminaire snaps (m). @internal */
  get snapReach(): number {
    const scene = this.shownScene;
    return scene === undefined ? 0 : SNAP_PIXELS / this.scaleFor(scene).perMetre;
  }

  /** Drawings that keep a scale still while held override this. @internal */
  holding(held: boolean): void {
    if (!held) this.reasons = [];
  }

  /** Pixels of the drawing a CSS pixel stands for; 1 unless the page scales the element. */
  protected pageScale(): number {
    const box = this.page?.getBoundingClientRect();
    const scene = this.shownScene;
    if (box === undefined || scene === undefined || box.width === 0) return 1;
    return this.scaleFor(scene).width / box.width;
  }

  protected readonly pointerMove = (event: PointerEvent): void => {
    this.drag.move(event);
    // What is drawn under the hand changes with its light, once, in `willUpdate`.
    if (this.drag.isHolding) return;
    const box = this.page.getBoundingClientRect();
    const k = this.pageScale();
    const place = this.placeAt((event.clientX - box.left) * k, (event.clientY - box.top) * k);
    if (place !== undefined || this.reading !== undefined) this.readAt(place);
  };

  protected override willUpdate(changed: PropertyValues): void {
    super.willUpdate(changed);
    if (!this.isLightNew(changed) || !this.drag.isHolding) return;
    this.reasons = this.drag.reasons;
    // While a luminaire is in the hand the light is read under it, if the top is there.
    const scene = this.shownScene;
    const { position } = this.drag;
    if (scene === undefined || position === undefined) return;
    const place = placeOnTop(this.axes(scene), position);
    if (place?.along !== this.reading?.along || place?.across !== this.reading?.across) this.readAt(place);
  }

  protected readonly pointerUp = (event: PointerEvent): void => this.drag.up(event);
  protected readonly pointerDown = (event: PointerEvent): void => {
    if (!this.fixed) this.drag.down(event);
    // A tap on the light reads it, where nothing hovers.
    if (event.pointerType !== "mouse") this.pointerMove(event);
  };

  protected readonly pointerLeave = (event: PointerEvent): void => {
    if (!this.drag.isHolding && event.pointerType === "mouse") this.readAt(undefined);
  };

  protected readonly keyDown = (event: KeyboardEvent): void => {
    const stops = [...this.renderRoot.querySelectorAll<SVGElement>(STOPS)];
    if (goByKey(event, stops, STOPS)) return;
    if ((event.target as Element).classList.contains("field")) this.readByKey(event);
    else if (!this.fixed) this.drag.key(event);
    // While a pointer drags, focus may be anywhere in the drawing: Escape always reaches the hand.
    if (event.key === "Escape" && this.drag.isHolding) this.drag.cancel();
  };

  /** What has the drawing's stop of Tab: `layer index`, or `field`; the first luminaire until something had focus. */
  readonly #focused = (event: FocusEvent): void => {
    const stop = (event.target as Element).closest(STOPS);
    if (stop !== null) this.tabStop = stop.getAttribute("data-luminaire") ?? "field";
  };

  protected readByKey(event: KeyboardEvent): void {
    const scene = this.shownScene;
    const arrow = ARROWS[event.key];
    if (scene === undefined || arrow === undefined) {
      if (event.key === "Escape") this.readAt(undefined);
      return;
    }
    event.preventDefault();
    const axes = this.axes(scene);
    const step = keyStep(this.words, event.shiftKey) * 2;
    const from = this.reading ?? { along: axes.length / 2, across: axes.width / 2 };
    const clamp = (value: number, most: number): number => Math.max(0, Math.min(most, value));
    this.readAt({
      along: clamp(from.along + arrow[0] * step, axes.length),
      across: clamp(from.across + this.acrossByKey(arrow[1]) * step, axes.width),
    });
  }

  /** Whether up and down read across the top (plan) or nothing (elevation, profile). */
  protected acrossByKey(_up: number): number {
    return 0;
  }

  protected describe(scene: Scene): (key: LuminaireKey) => string {
    const axes = this.axes(scene);
    return (key) => {
      const layer = scene.layers[key.layer];
      const placed = layer.luminaires[key.index];
      const place = placeOf(axes, placed.frame.origin);
      const { words } = this;
      return `${layer.name} ${key.index + 1}, ${words.length(place.along)} along, ${words.length(place.across)} across, ${words.length(place.height)} above the floor`;
    };
  }

  /** The drawing with the hand on it, and what pulls the luminaire held. */
  protected renderPage(
    { width, height, summary }: { readonly width: number; readonly height: number; readonly summary: string },
    content: SVGTemplateResult,
  ): TemplateResult {
    return html`<svg
        width=${width}
        height=${height}
        viewBox="0 0 ${width} ${height}"
        role="group"
        aria-label=${summary}
        @pointerdown=${this.pointerDown}
        @pointermove=${this.pointerMove}
        @pointerup=${this.pointerUp}
        @pointercancel=${this.drag.cancel}
        @pointerleave=${this.pointerLeave}
        @keydown=${this.keyDown}
      >${content}</svg>
      ${this.renderReasons()}`;
  }

  protected renderLuminaires(
    scene: Scene,
    luminaires: readonly LuminaireMarks[],
    fixed = this.fixed,
  ): SVGTemplateResult[] {
    coarsePointer ??= typeof matchMedia === "function" ? matchMedia("(pointer: coarse)") : undefined;
    const coarse = coarsePointer?.matches === true;
    const names = fixed ? [] : luminaires.map(({ layer, index }) => `${layer} ${index}`);
    const kept = names.find((name) => name === this.tabStop);
    this.#stop = this.tabStop === "field" ? "field" : (kept ?? names[0] ?? "field");
    return renderHandles(luminaires, this.selection, this.describe(scene), {
      coarse,
      fixed,
      tabStop: this.#stop,
    });
  }

  /** The rectangle that is read by keyboard; its words are what the light is there. */
  protected renderField(
    x: number,
    y: number,
    width: number,
    height: number,
    label: string,
  ): SVGTemplateResult {
    const scene = this.shownScene;
    const place = this.reading;
    const length = scene === undefined ? 1 : this.axes(scene).length;
    return svg`<rect
      class="field"
      x=${round(x)} y=${round(y)} width=${round(Math.max(0, width))} height=${round(Math.max(0, height))}
      tabindex=${this.#stop === "field" ? "0" : "-1"}
      role="slider"
      aria-roledescription="light reading"
      aria-label=${label}
      aria-valuemin="0"
      aria-valuemax=${round(length * 1000)}
      aria-valuenow=${round((place?.along ?? length / 2) * 1000)}
      aria-valuetext=${this.readingWords()}
    ></rect>`;
  }

  protected readingWords(): string {
    const place = this.reading;
    if (place === undefined) return "no place read; arrow keys read along the top";
    const light = this.lightAt(place);
    const where = `${this.words.length(place.along)} along, ${this.words.length(place.across)} across`;
    return light === undefined ? `${where}: no light known` : `${this.words.light(light.total)} at ${where}`;
  }

  /** The vertical line through the reading, past the words of the drawing. */
  protected renderPointer(
    x: number,
    height: number,
    words: readonly Box[],
  ): SVGTemplateResult | typeof nothing {
    if (this.reading === undefined) return nothing;
    const d = uprightStretches(x, height, words).map(
      ([from, to]) => `M${round(x)} ${round(from)}V${round(to)}`,
    );
    return svg`<path class="pointer" part="pointer" d=${d.join("")}></path>`;
  }

  protected renderReasons(): TemplateResult {
    return html`<p class="visually-hidden" id="hand-help">
      Arrow keys move it; with Shift, finely. Page Up and Page Down go to its neighbours. Enter selects, Shift and Enter
      add to the selection, Escape lets go.
    </p>`;
  }
}
