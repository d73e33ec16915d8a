/**
 * A study to ask questions of: what every command answers, as plain data, fields as typed arrays. Metres, degrees, lux,
 * lumens, watts, candela.
 */

import { arrangementLight, type LightOptions } from "../app/arrangement-light.ts";
import { ownShadows } from "../app/beside-the-verdict.ts";
import { type BoxesOptions, boxPositions, builtBoxes } from "../app/boxes.ts";
import { type CheckAnswer, checkAnswer } from "../app/check-answer.ts";
import type { PlaneContour } from "../app/judged-arrangement.ts";
import { arrangementIndex } from "../app/named-in-study.ts";
import type { OpenStudy } from "../app/open-document.ts";
import { openStudy as openForApp } from "../app/open-study.ts";
import { type SearchOptions, searchRows } from "../app/search.ts";
import type { ReadFile } from "../app/study-files.ts";
import { type SwapOptions, swapLuminaire } from "../app/swap.ts";
import { type VerifyOptions, verifyReadings } from "../app/verify.ts";
import type { Observer } from "../diagnostics/cancelled.ts";
import { type CandlespanError, orThrow, refused } from "../diagnostics/candlespan-error.ts";
import type { Issue } from "../diagnostics/issue.ts";
import type { DefaultUsed } from "../diagnostics/ledger.ts";
import { VERSION } from "../diagnostics/version.ts";
import type { PaperName } from "../drawing/paper/paper.ts";
import { type HandoverFile, handoverFiles } from "../formats/handover-files.ts";
import { handoverFacts, handoverOption, headOf, lampsOf, studyFingerprint } from "../papers/handover.ts";
import { isoluxSheet } from "../papers/isolux-sheet.ts";
import { arrangeJson } from "../words/arrange-text.ts";
import { asBuiltJson, boxesJson } from "../words/boxes-text.ts";
import { type ClashJson, clashesJson } from "../words/clash-list.ts";
import { findingsSections } from "../words/findings-sections.ts";
import { swapJson } from "../words/swap-text.ts";
import { verifyJson } from "../words/verify-text.ts";
import { wording } from "../words/wording.ts";

export interface OpenStudyOptions {
  /** Fetches a photometric file by its path relative to the study's folder; may answer later, may throw. Not asked for
   * files that the study carries inside. */
  readonly read?: ReadFile;
  /** Names the study in issues. */
  readonly file?: string;
}

/** How long work reports and is stopped: `progress(stage, fraction)`, `cancelled()`. */
export interface Observed {
  readonly observer?: Observer;
}

export interface CheckOptions extends Observed {
  /** Probability with which a target must be reached to be called met, 0.5 to 0.999; 0.9 by default. */
  readonly confidence?: number;
  /** Lets the people of the study stand in the light, whatever the study says. */
  readonly people?: boolean;
  /** A draft, as `check --quick`: the same method, its bands wider by what it leaves out. */
  readonly draft?: boolean;
}

/** What `check --json` prints of an arrangement, and the fields its contours are drawn from. */
export type Answer = CheckAnswer<ClashJson> & {
  /** Illuminance (lx) of each top and zone on a lattice whose outermost lines lie on the very edge. */
  readonly contours: readonly PlaneContour[];
};

export interface PaperOptions extends CheckOptions {
  /** The arrangement that is to be built; the first by default. */
  readonly arrangement?: string | number;
  readonly paper?: PaperName;
  readonly units?: "mm" | "ft-in";
  readonly revision?: string;
  /** ISO date on the sheets. */
  readonly date: string;
}

/** Opens a study. Throws {@link CandlespanError} with every issue, each with its place.
 * @param source the text of a study, or an object */
export async function openStudy(source: unknown, options: OpenStudyOptions = {}): Promise<Study> {
  return new Study(orThrow(await openForApp(source, options)), source);
}

/** An open study. What it learnt of luminaires and rooms stays with it. */
export class Study {
  readonly title: string;
  /** Names of the arrangements, in the study's order. */
  readonly arrangements: readonly string[];
  readonly warnings: readonly Issue[];
  /** What stood in for what the study does not say. */
  readonly defaults: readonly DefaultUsed[];
  readonly #opened: OpenStudy;
  readonly #source: unknown;

  /** @internal */
  constructor(opened: OpenStudy, source: unknown) {
    const { title, scenes, warnings, defaults } = opened.study;
    this.title = title;
    this.arrangements = scenes.map(({ name }) => name);
    this.warnings = warnings;
    this.defaults = defaults;
    this.#opened = opened;
    this.#source = source;
  }

  /** Light and verdict of an arrangement, by name or number; the first by default. Throws where there is no such. */
  async check(arrangement?: string | number, options: CheckOptions = {}): Promise<Answer> {
    const judged = await this.#light(arrangement, { ...options, findings: "full" });
    const unit = this.#opened.study.display.length;
    const clashes = clashesJson(judged.clashes, unit);
    return { ...checkAnswer(judged, true), clashes, contours: judged.contours };
  }

  /** The plan of an arrangement with its isolux lines, as SVG: what `isolux` prints. */
  async plan(arrangement?: string | number, options: CheckOptions = {}): Promise<string> {
    return isoluxSheet(this.#opened.study, [await this.#light(arrangement, options)]);
  }

  /** The best few rows of pendants that differ in kind, with reasons: what `arrange --json` prints. */
  async search({
    observer,
    ...options
  }: SearchOptions & Observed = {}): Promise<ReturnType<typeof arrangeJson>> {
    inRange(options.confidence);
    const search = orThrow(await searchRows(this.#opened, options, observer));
    return arrangeJson({ study: this.#opened.study, ...search });
  }

  /** Site readings against the prediction: what `verify --json` prints. */
  async verify({ observer, ...options }: VerifyOptions & Observed): Promise<ReturnType<typeof verifyJson>> {
    inRange(options.confidence);
    const verification = orThrow(await verifyReadings(this.#opened, options, observer));
    return verifyJson({ study: this.#opened.study, ...verification });
  }

  /** Ceiling boxes good for a whole shortlist, and how far each may be off: what `boxes --json` prints.
   * @param options with `asBuilt`, comma-separated offsets of the real boxes: the new verdict and the cheapest remedy */
  async boxes({
    observer,
    asBuilt,
    ...options
  }: BoxesOptions & Observed & { readonly asBuilt?: string } = {}): Promise<
    ReturnType<typeof boxesJson> | ReturnType<typeof asBuiltJson>
  > {
    inRange(options.confidence);
    const { study } = this.#opened;
    if (asBuilt === undefined)
      return boxesJson({ study, ...orThrow(await boxPositions(this.#opened, options, observer)) });
    const offsets = { text: asBuilt, file: "offsets" };
    return asBuiltJson(study, orThrow(await builtBoxes(this.#opened, options, offsets, observer)));
  }

  /** Another luminaire in place of one: every verdict before and after, as `swap --json` prints. */
  async swap({ observer, ...options }: SwapOptions & Observed): Promise<ReturnType<typeof swapJson>> {
    inRange(options.confidence);
    const swapped = orThrow(await swapLuminaire(this.#opened, options, observer));
    return swapJson(this.#opened.study, swapped);
  }

  /** The files that `handover` writes, in order; those of a PDF as sheets, which `sheetsPdf` of "candlespan/pdf" sets. */
  async papers(options: PaperOptions): Promise<readonly HandoverFile[]> {
    const { study, document } = this.#opened;
    const chosen = orThrow(arrangementIndex(study.scenes, options.arrangement));
    const unit = options.units ?? (study.display.length === "ft-in" ? "ft-in" : "mm");
    const words = wording({ ...study.display, length: unit });
    const answers = [];
    for (const [index, scene] of study.scenes.entries()) {
      const light = await this.#light(index, { ...options, findings: "brief" });
      const shadows = scene.people.length === 0 ? [] : await ownShadows(this.#opened, scene);
      answers.push(handoverOption(light, light.findings && findingsSections(light.findings, words), shadows));
    }
    return handoverFiles({
      ...handoverFacts(study),
      ...headOf(document.project),
      options: answers,
      chosen,
      lamps: lampsOf(document.luminaires),
      paper: options.paper ?? (unit === "mm" ? "A4" : "Letter"),
      unit,
      illuminance: study.display.illuminance,
      revision: options.revision ?? "A",
      date: options.date,
      fingerprint: studyFingerprint(
        typeof this.#source === "string" ? JSON.parse(this.#source) : this.#source,
      ),
      version: VERSION,
    });
  }

  async #light(
    arrangement: string | number | undefined,
    { observer = {}, ...options }: CheckOptions & Pick<LightOptions, "findings">,
  ) {
    const { scenes } = this.#opened.study;
    const { confidence, people, draft, findings } = options;
    inRange(confidence);
    const question: LightOptions = {
      shadows: true,
      ...(confidence === undefined ? {} : { confidence }),
      ...(people === undefined ? {} : { people }),
      ...(draft === undefined ? {} : { draft }),
      ...(findings === undefined ? {} : { findings }),
    };
    const index = orThrow(arrangementIndex(scenes, arrangement));
    return arrangementLight(this.#opened, scenes[index], question, observer);
  }
}

function inRange(confidence: number | undefined): void {
  if (confidence === undefined || (confidence >= 0.5 && confidence <= 0.999)) return;
  throw refused({
    code: "confidence",
    message: "The confidence is not a probability that can be used.",
    expected: "0.5 to 0.999",
    received: String(confidence),
  });
}
