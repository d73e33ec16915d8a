/** One study on a page. Its elements are handed light and findings until those of the next scene are known, the comparison until another study is opened. */

import { ContextProvider } from "@lit/context";
import { initialState, Task } from "@lit/task";
import { html, nothing, type PropertyValues, type TemplateResult } from "lit";
import { property, state } from "lit/decorators.js";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import { CandlespanError, orThrow } from "../../diagnostics/candlespan-error.ts";
import { formatIssue } from "../../diagnostics/issue.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import { wording } from "../../words/wording.ts";
import type { LuminaireMoveDetail, StudyLightDetail } from "../shared/contract.ts";
import { define } from "../shared/define.ts";
import { CandlespanElement } from "../shared/element.ts";
import { movedScene } from "../shared/moved-scene.ts";
import { arrangementContext, comparisonContext, findingsContext } from "../shared/study-context.ts";
import { tokens } from "../shared/tokens.ts";
import { studyStyles } from "./study.styles.ts";
import { openStudyAt, type StudyAtAddress } from "./study-file.ts";
import "../sheet/sheet.ts";

interface Light {
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
}

/** How long a moved luminaire rests before its light is calculated in full (ms). */
const REST = 200;

/**
 * A study on a page by itself: `<candlespan-study src="kitchen.study.json">` fetches the study and its photometric files
 * and shows its aligned sheet with verdict, elevation, plan and profile. Elements inside it stand in place of the sheet
 * and are given the study, its scene and its light, unless the page sets their properties itself. A luminaire that is
 * moved in any of them is lit anew; the file is never changed. The light is calculated on the page's own thread: direct
 * light first, then all of it.
 *
 * @tag candlespan-study
 * @fires luminaire-move - a luminaire is dragged or moved by key in the sheet ({@link LuminaireMoveDetail})
 * @fires luminaire-select - the selection changed ({@link LuminaireSelectDetail})
 * @fires luminaire-remove - Delete was pressed on luminaires ({@link LuminaireRemoveDetail})
 * @fires reading-move - light is read at a place ({@link ReadingDetail})
 * @fires zone-open - a zone of the verdict is pressed, where zones open ({@link ZoneOpenDetail})
 * @fires study-light - the light of the arrangement is known, as a draft or in full ({@link StudyLightDetail})
 * @slot - elements that show the study; an aligned sheet when there are none
 * @csspart failure - what is wrong with the study, and the button that tries again
 * @csspart verdict - headline and zones of the sheet
 * @csspart summary - the headline with what belongs to it
 * @csspart headline - what one reads first
 * @csspart zone - a zone's name in the verdict, where zones open
 * @csspart reading - the figures under the pointer line
 * @csspart luminaire - each luminaire of every drawing with its grip
 * @csspart pointer - the vertical reading line of every drawing
 * @csspart bands - the row of colours of the scale
 */
export class CandlespanStudy extends CandlespanElement {
  static override styles = [tokens, studyStyles];

  /** Address of the study file, relative to the page. Photometric files are beside it. */
  @property() src = "";
  /** The study itself, as text or object, in place of the file at `src`. */
  @property({ attribute: false }) source?: unknown;
  /** Which of the study's arrangements is shown, from 0. */
  @property({ type: Number }) arrangement = 0;
  /** Drawn only: nothing can be taken, only read. */
  @property({ type: Boolean, reflect: true }) fixed = false;
  /** Leaves out parts of the sheet: a list of `elevation plan profile legend people dimensions hatch zones`. */
  @property() hide = "";

  /** Each zone of the verdict can be pressed, for the page to show where it is set. */
  @property({ type: Boolean, attribute: "zones-open" }) zonesOpen = false;

  /** The arrangement as the study or a move has it. */
  @state() private scene?: Scene;
  /** The latest light, and the scene it was calculated for. */
  @state() private light?: Light;
  @state() private needsComparison = false;
  @state() private needsFindings = false;

  #opened: StudyAtAddress | undefined;
  readonly #arrangement = new ContextProvider(this, { context: arrangementContext, initialValue: {} });
  readonly #comparison = new ContextProvider(this, {
    context: comparisonContext,
    initialValue: { assessments: [] },
  });
  readonly #findings = new ContextProvider(this, {
    context: findingsContext,
    initialValue: { sections: [], cards: [] },
  });

  readonly #opening = new Task(this, {
    args: () => [this.src, this.source] as const,
    task: ([src, source], { signal }) =>
      src === "" && source === undefined
        ? initialState
        : openStudyAt(new URL(src, this.baseURI), source, signal),
  });

  readonly #lighting = new Task(this, {
    args: () => [this.#opened, this.scene, this.needsFindings] as const,
    task: ([opened, scene, needsFindings], { signal }) =>
      opened === undefined || scene === undefined
        ? initialState
        : this.#calculate(opened, scene, needsFindings, signal),
  });

  readonly #comparing = new Task(this, {
    args: () => [this.#opened, this.needsComparison] as const,
    task: ([opened, isNeeded], { signal }) =>
      opened === undefined || !isNeeded ? initialState : this.#compare(opened, signal),
  });

  constructor() {
    super();
    this.addEventListener("luminaire-move", this.#moved);
    this.addEventListener("context-request", ({ context }: { readonly context: unknown }) => {
      if (context === comparisonContext) this.needsComparison = true;
      if (context === findingsContext) this.needsFindings = true;
    });
  }

  protected override willUpdate(changed: PropertyValues): void {
    const opened = this.#opening.value;
    if (opened === this.#opened && !changed.has("arrangement")) return;
    this.#opened = opened;
    this.light = undefined;
    this.#showScene(opened?.opened.study.scenes[this.arrangement]);
  }

  override render(): TemplateResult {
    return html`${this.#opening.render({
      initial: () => html`<p>No study yet: src names none.</p>`,
      pending: () => html`<p role="status">Reading the study.</p>`,
      error: (error) => this.#failure("The study cannot be shown", error, this.#opening),
      complete: ({ opened: { study } }) => this.#shown(study),
    })}`;
  }

  #shown(study: ResolvedStudy): TemplateResult {
    const { scene, light, fixed, hide, mode } = this;
    if (scene === undefined)
      return html`<p role="alert">The study has ${study.scenes.length} arrangements, counted from 0; number ${this.arrangement} is not among them.</p>`;
    const failure = (error: unknown) =>
      this.#failure("The light cannot be calculated", error, this.#lighting);
    return html`${this.#lighting.render({ error: failure })}${this.#comparing.render({ error: failure })}
      <slot @slotchange=${() => this.requestUpdate()}></slot>
      ${
        this.childElementCount > 0
          ? nothing
          : html`<candlespan-sheet exportparts="verdict, summary, headline, zone, reading, luminaire, pointer, bands"
              .study=${study} .scene=${light?.scene ?? scene} .assessment=${light?.assessment} .fixed=${fixed} .hide=${hide} .mode=${mode} .zonesOpen=${this.zonesOpen}
            ></candlespan-sheet>`
      }`;
  }

  #failure(heading: string, error: unknown, task: { run(): Promise<void> }): TemplateResult {
    const lines =
      error instanceof CandlespanError
        ? error.issues.map((issue) => formatIssue(issue))
        : [error instanceof Error ? error.message : String(error)];
    return html`<div role="alert" part="failure">
      <h2>${heading}</h2>
      <ul>${lines.map((line) => html`<li>${line}</li>`)}</ul>
      <button type="button" @click=${() => task.run()}>Try again</button>
    </div>`;
  }

  /** Direct light at once, all of it when the scene rests. */
  async #calculate(
    { opened, workspace }: StudyAtAddress,
    scene: Scene,
    needsFindings: boolean,
    signal: AbortSignal,
  ): Promise<void> {
    const observer = { cancelled: () => signal.aborted };
    const { study, document } = opened;
    const { arrangement } = this;
    await pause(0, signal);
    const { arrangementLight } = await import("../../app/arrangement-light.ts");
    if (scene === study.scenes[arrangement]) {
      const { lightOfRequest } = await import("../../app/light.ts");
      const request = { document, arrangement, quality: "first" } as const;
      this.#showLight(orThrow(await lightOfRequest(request, workspace, observer)), true, signal);
    } else {
      const draft = { draft: true, judged: false };
      this.#showLight(await arrangementLight(opened, scene, draft, observer), true, signal);
    }
    await pause(REST, signal);
    const options = needsFindings ? ({ findings: "full" } as const) : {};
    const light = await arrangementLight(opened, scene, options, observer);
    this.#showLight(light, false, signal);
    if (light.findings === undefined) return;
    const { findingsSections } = await import("../../words/findings-sections.ts");
    const sections = findingsSections(light.findings, wording(study.display));
    this.#findings.setValue({ sections, cards: light.findings.cards, display: study.display });
  }

  /** The light of every arrangement of the study, one after the other. */
  async #compare({ opened }: StudyAtAddress, signal: AbortSignal): Promise<void> {
    const { arrangementLight } = await import("../../app/arrangement-light.ts");
    const { study } = opened;
    const assessments: ArrangementAssessment[] = [];
    for (const scene of study.scenes) {
      await pause(REST, signal);
      const observer = { cancelled: () => signal.aborted };
      assessments.push((await arrangementLight(opened, scene, {}, observer)).assessment);
      signal.throwIfAborted();
      this.#comparison.setValue({ study, assessments: [...assessments] });
    }
  }

  #showScene(scene: Scene | undefined): void {
    this.scene = scene;
    const assessment = this.light?.assessment;
    this.light = scene && assessment && { scene, assessment };
    this.#arrangement.setValue({ study: this.#opened?.opened.study, scene, assessment });
  }

  #showLight({ scene, assessment }: Light, draft: boolean, signal: AbortSignal): void {
    signal.throwIfAborted();
    const study = this.#opened?.opened.study;
    if (study === undefined) return;
    this.light = { scene, assessment };
    this.#arrangement.setValue({ study, scene, assessment });
    const detail = { study, scene, assessment, draft };
    this.dispatchEvent(
      new CustomEvent<StudyLightDetail>("study-light", { detail, bubbles: true, composed: true }),
    );
  }

  readonly #moved = ({ detail }: CustomEvent<LuminaireMoveDetail>): void => {
    if (this.scene !== undefined) this.#showScene(movedScene(this.scene, detail.moves));
  };
}

/** Lets the page draw and listen. */
function pause(milliseconds: number, signal: AbortSignal): Promise<void> {
  return new Promise((resolve, reject) => {
    setTimeout(() => (signal.aborted ? reject(signal.reason) : resolve()), milliseconds);
  });
}

define("candlespan-study", CandlespanStudy);

declare global {
  interface HTMLElementTagNameMap {
    "candlespan-study": CandlespanStudy;
  }
}
