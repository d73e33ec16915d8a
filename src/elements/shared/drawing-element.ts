/** What every drawing of an arrangement shares: its inputs, its width, and the place where light is read. */
import type { PropertyValues } from "lit";
import { property } from "lit/decorators.js";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { type IslandAxes, islandAxes } from "../../drawing/island-axes.ts";
import type { LuminaireKey } from "../../drawing/luminaire-key.ts";
import { type SheetScale, sheetScale } from "../../drawing/sheet-scale.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import type { Target } from "../../scene/target.ts";
import { type Display, METRIC, type Wording, wording } from "../../words/wording.ts";
import type { ReadingDetail } from "./contract.ts";
import { CandlespanElement } from "./element.ts";
import { ElementWidth } from "./element-width.ts";
import { IlluminanceProbe } from "./illuminance-probe.ts";
import { arrangementContext, StudyProperties } from "./study-context.ts";

/** A place on the top, in the island's axes (m). */
export interface Place {
  readonly along: number;
  readonly across: number;
}

const NO_TARGETS: ReadonlyMap<string, Target> = new Map();

export abstract class DrawingElement extends CandlespanElement {
  /** The study, resolved; with `arrangement` it supplies scene, targets and units. */
  @property({ attribute: false }) study?: ResolvedStudy;
  /** Which of the study's arrangements is shown, from 0. */
  @property({ type: Number }) arrangement = 0;
  /** A scene to draw in place of the study's, such as one that follows a hand. */
  @property({ attribute: false }) scene?: Scene;
  /** The light of that scene. Without it the drawing shows geometry alone. */
  @property({ attribute: false }) assessment?: ArrangementAssessment;
  /** Units shown; the study's own unless set. */
  @property({ attribute: false }) display?: Display;
  @property({ attribute: false }) selection: readonly LuminaireKey[] = [];
  /** The horizontal scale, handed down by a sheet; an element on its own fits its width. */
  @property({ attribute: false }) scale?: SheetScale;
  /** Where the light is read; set by pointer or keyboard in any drawing of a sheet. */
  @property({ attribute: false }) reading?: Place;

  readonly #width = new ElementWidth(this);
  #reader?: IlluminanceProbe;
  #words?: Wording;

  constructor() {
    super();
    this.addController(new StudyProperties(this, arrangementContext, ["study", "scene", "assessment"]));
  }

  /** Of the element on the page (px); 0 until it is known. */
  protected get width(): number {
    return this.#width.px;
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has("study") || changed.has("display")) this.#words = undefined;
  }

  /** Whether another scene or another light is to be drawn. */
  protected isLightNew(changed: PropertyValues): boolean {
    return changed.has("study") || changed.has("scene") || changed.has("assessment");
  }

  /** What is drawn: `scene`, else the arrangement of the study. @internal */
  get shownScene(): Scene | undefined {
    return this.scene ?? this.study?.scenes[this.arrangement];
  }

  /** @internal */
  get targets(): ReadonlyMap<string, Target> {
    return this.study?.targets ?? NO_TARGETS;
  }

  /** @internal */
  get words(): Wording {
    this.#words ??= wording(this.display ?? this.study?.display ?? METRIC);
    return this.#words;
  }

  protected axes(scene: Scene): IslandAxes {
    return islandAxes(scene);
  }

  protected scaleFor(scene: Scene): SheetScale {
    return this.scale ?? sheetScale(islandAxes(scene), Math.max(160, this.width));
  }

  /** Reads light anywhere on the top; remade when scene or light change. */
  protected reader(scene: Scene): IlluminanceProbe | undefined {
    if (this.assessment === undefined) return undefined;
    if (this.#reader === undefined || !this.#reader.reads(scene, this.assessment))
      this.#reader = new IlluminanceProbe(scene, this.assessment);
    return this.#reader;
  }

  /** Sets the reading here and tells whoever composes this drawing with others. */
  protected readAt(place: Place | undefined): void {
    this.reading = place;
    this.dispatchEvent(
      new CustomEvent<ReadingDetail>("reading-move", {
        detail: { place, light: this.lightAt(place) },
        bubbles: true,
        composed: true,
      }),
    );
  }

  protected lightAt(place: Place | undefined): ReadingDetail["light"] {
    const scene = this.shownScene;
    if (place === undefined || scene === undefined) return undefined;
    return this.reader(scene)?.at(place);
  }
}
