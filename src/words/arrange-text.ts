/** What `arrange` says to a person: the few proposals side by side, their reasons, what skipping one would lose. */

import { offsetOf } from "../design/search/candidate.ts";
import type { Checked } from "../design/search/checked.ts";
import { BEYOND_TOP } from "../design/search/constraints.ts";
import type { Proposal } from "../design/search/proposals.ts";
import type { SearchResult } from "../design/search/search.ts";
import { printable } from "../diagnostics/printable.ts";
import { VERSION } from "../diagnostics/version.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import {
  formatIlluminance,
  formatIlluminanceValue,
  type IlluminanceUnit,
} from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import { powerFigure } from "../units/power-text.ts";
import { stoppedBy, whatStops } from "./arrange-stops.ts";
import { unsettledSentences, verdictWords, zoneSentence } from "./arrangement-sentences.ts";
import { checkedJson } from "./checked-json.ts";
import { clashSentences } from "./clash-list.ts";
import { settingsWords } from "./settings-text.ts";
import { table, textLines } from "./table.ts";
import { evennessText } from "./zone-text.ts";

export interface ArrangeTextInput {
  readonly study: Pick<ResolvedStudy, "title" | "display" | "warnings">;
  readonly result: SearchResult;
  readonly step: number;
  /** Least evenness asked for. */
  readonly evenness: number;
  /** Name of the layer whose pendants were sought, and names of the layers that stay as they are. */
  readonly sought: string;
  readonly standing: readonly string[];
}

export function arrangeText({ study, result, step, evenness, sought, standing }: ArrangeTextInput): string {
  const { proposals, candidates, promising, undominated, checked, turnedDown, leftOut } = result;
  const lines: string[] = [
    printable(study.title),
    "",
    ...textLines(
      `${candidates} rows compared by their light; ${promising} of them promise to meet every target${besides(proposals).length > 0 ? " on the island" : ""}, ${undominated} of which no other beats at everything; ${checked} checked in full.`,
    ),
    ...textLines(whatIsSought(sought, standing)),
  ];
  if (evenness > 0)
    lines.push(
      ...textLines(
        `Proposed are rows with an evenness of at least ${evenness} over the whole top (--evenness), about the island's middle or where the row hangs as drawn.`,
      ),
    );
  if (asksNothing(proposals))
    lines.push(
      "",
      ...textLines(
        "Nothing is asked of this study's light: no zone has a target, so no row can fall short. Give a zone a target to have rows judged.",
      ),
    );
  if (result.cutShort)
    lines.push(
      ...textLines(
        "There were more rows than one search looks at: the greatest clearances were not tried. Fewer kinds, counts or shifts would let it see them all.",
      ),
    );
  if (proposals.length === 0) lines.push("", ...noRow(leftOut));
  else {
    const meets = proposals.every(
      ({ assessment: { verdict }, uniformity }) =>
        (verdict === "meets" || verdict === "no target") && uniformity >= evenness,
    );
    if (!meets)
      lines.push(
        "",
        `Nothing tried meets every target${evenness > 0 ? ` with an evenness of ${evenness}` : ""}. The nearest:`,
        ...textLines(
          `What stops the first of them: ${whatStops(proposals[0], evenness, study.display.illuminance)}.`,
          2,
        ),
        ...beyondReach(proposals, study.display.illuminance).flatMap((words) => textLines(words, 2)),
      );
    lines.push("", ...overview(study, proposals, step, evenness));
    for (const proposal of proposals) lines.push("", ...about(study, proposal));
  }
  // Of a search that leaves no row it has been said.
  const gone = leftOut.filter(({ all }) => all);
  const names = proposals.length === 0 ? [] : (gone.length > 0 ? gone : leftOut).slice(0, 6);
  if (names.length > 0) {
    lines.push("", "Left out");
    for (const { count, rows, why, all } of names)
      lines.push(
        ...textLines(
          rows === 0
            ? printable(why)
            : `${all ? "every row" : `${rows} rows`} of ${count}: ${printable(why)}`,
          2,
        ),
      );
  }
  if (turnedDown.length > 0) {
    lines.push("", "Turned down when looked at closely");
    for (const words of turnedDown.slice(0, 8)) lines.push(...textLines(printable(words), 2));
  }
  const unsettled = unsettledSentences(study);
  if (unsettled.length > 0) lines.push("", ...unsettled.flatMap((sentence) => textLines(sentence, 2, 0)));
  lines.push(
    "",
    ...textLines(
      "Figures are predictions with a band. What hangs from a ceiling, and its wiring, is for licensed people and local codes.",
    ),
  );
  return `${lines.join("\n").trimEnd()}\n`;
}

function whatIsSought(sought: string, standing: readonly string[]): string {
  const row = `Sought is what hangs as ${printable(sought, 60)}`;
  if (standing.length === 0) return `${row}; nothing else hangs there.`;
  const names = standing.map((name) => printable(name, 60)).join(", ");
  return `${row} (--layer). ${standing.length === 1 ? "This layer stays as it is" : "These layers stay as they are"}: ${names}.`;
}

/** Names of what is judged beside the island's zones: planes with a target of their own, which rows are not ranked by. */
function besides(proposals: readonly Proposal[]): string[] {
  const [first] = proposals;
  if (first === undefined) return [];
  const own = new Set(first.scene.zones.map(({ name }) => name));
  return first.assessment.zones
    .filter(({ name, target }) => target !== undefined && !own.has(name))
    .map(({ name }) => name);
}

/** What no proposed row lights enough though it lies beside the island: a row over the island hardly mends it. */
function beyondReach(proposals: readonly Proposal[], unit: IlluminanceUnit): string[] {
  return besides(proposals).flatMap((name) => {
    const each = proposals.flatMap(({ assessment }) => assessment.zones.filter((zone) => zone.name === name));
    if (!each.every(({ verdict }) => verdict === "falls short")) return [];
    const best = Math.max(...each.map(({ statistics }) => statistics.average));
    return `None of them reaches the target of ${printable(name, 60)}, which lies beside the island: ${formatIlluminance(best, unit)} at most. Rows are compared by the island's zones; this one needs other light.`;
  });
}

/** The way out where no line tried lies over the top, as the middle of the box about an L. */
const OVER_THE_TOP =
  "Rows were tried about one line only. Let them move to where the top is: --across and --along take how far a row may be moved, as --across 0.4; or draw the row there (its offset).";

function noRow(leftOut: SearchResult["leftOut"]): string[] {
  const why = stoppedBy(leftOut);
  const isBeyond = leftOut.length > 0 && leftOut.every((each) => each.why === BEYOND_TOP);
  return [
    ...textLines(`No row can be hung within these constraints${why === "" ? "" : `: ${why}`}.`),
    ...(isBeyond ? textLines(OVER_THE_TOP) : []),
  ];
}

function overview(
  study: ArrangeTextInput["study"],
  proposals: readonly Proposal[],
  step: number,
  evenness: number,
): string[] {
  const { length, illuminance } = study.display;
  const say = (metres: number) => formatLength(metres, length);
  const row = (name: string, cell: (proposal: Proposal) => string) => [name, ...proposals.map(cell)];
  return table([
    row("", ({ document }) => printable(document.name, 40)),
    row("verdict", ({ assessment, uniformity, clashes }) =>
      uniformity < evenness
        ? `${verdictWords(assessment, clashes)}; patchy`
        : verdictWords(assessment, clashes),
    ),
    row(`average on top (${illuminance})`, ({ average }) => formatIlluminanceValue(average, illuminance)),
    row("evenness", ({ uniformity }) => evennessText(uniformity)),
    row("power (W)", ({ energy }) => powerFigure(energy.watts, energy.unknownWatts)),
    row("centre to centre", ({ figures: { candidate } }) =>
      candidate.count === 1 ? "–" : say(candidate.pitch * step),
    ),
    row("clear above the top", ({ figures: { candidate } }) => say(candidate.clearance)),
    row("off the middle, along", ({ figures: { candidate } }) => say(offsetOf(candidate, step)[0])),
    row("off the middle, across", ({ figures: { candidate } }) => say(offsetOf(candidate, step)[1])),
    row("share of the view", ({ view }) => (view === undefined ? "–" : `${(100 * view).toFixed(0)} %`)),
  ]);
}

function about(study: ArrangeTextInput["study"], proposal: Proposal): string[] {
  const { document, reasons, assessment, skipOne, dimmed, unshifted } = proposal;
  const lines = [printable(document.name, 80), ...textLines(`Why: ${reasons.join("; ")}.`, 2)];
  for (const clash of clashSentences(proposal.clashes, study.display.length))
    lines.push(...textLines(`HOLD ${clash}`, 2));
  for (const zone of assessment.zones)
    lines.push(...textLines(printable(zoneSentence(zone, study.display.illuminance), 400), 2));
  const settings = settingsWords(
    proposal.scene,
    assessment.settings ?? [],
    proposal.clashes,
    study.display.illuminance,
  );
  for (const { headline, zones } of settings) {
    lines.push(...textLines(printable(headline, 500), 2));
    for (const zone of zones) lines.push(...textLines(printable(zone, 500), 4));
  }
  if (unshifted !== undefined)
    lines.push(
      ...textLines(
        `The whole row is shifted off the joists; against the row unshifted: ${printable(unshifted.does, 400)}.`,
        2,
      ),
    );
  if (skipOne !== undefined)
    lines.push(...textLines(`If you skip one: ${printable(skipOne.loses, 400)}.`, 2));
  if (dimmed !== undefined) {
    const dims = document.layers.map(({ name }, l) => {
      const dim = dimmed.dims[l] ?? 1;
      return `${printable(name, 40)} ${dim === 0 ? "off" : `${Math.round(100 * dim)} %`}`;
    });
    const { watts, unknownWatts } = dimmed.assessment.energy;
    lines.push(
      ...textLines(
        `Enough light with ${dims.join(", ")}: ${powerFigure(watts, unknownWatts, "at least")} W, ${Math.round(100 * dimmed.saves)} % less power, still ${dimmed.assessment.verdict}.`,
        2,
      ),
    );
  }
  return lines;
}

const asksNothing = (proposals: readonly Proposal[]): boolean =>
  proposals.length > 0 && proposals.every(({ assessment: { verdict } }) => verdict === "no target");

/** The same for a program: metres, lux, watts. */
export function arrangeJson({ study, result, step, evenness, sought, standing }: ArrangeTextInput) {
  const { proposals, turnedDown, leftOut, candidates, promising, undominated, checked } = result;
  const figures = (each: Checked) => checkedJson(each, study.display.length);
  return {
    candlespan: VERSION,
    study: study.title,
    evenness,
    sought,
    standing,
    asksNothing: asksNothing(proposals),
    candidates,
    promising,
    undominated,
    checked,
    cutShort: result.cutShort,
    proposals: proposals.map((proposal) => {
      const { document, figures: ranked, reasons, view, skipOne, dimmed, unshifted } = proposal;
      const { count, pitch, clearance } = ranked.candidate;
      return {
        name: document.name,
        count,
        spacing: pitch * step,
        clearance,
        offset: offsetOf(ranked.candidate, step),
        reasons,
        ...(view === undefined ? {} : { shareOfView: view }),
        luminance: ranked.luminance,
        ...figures(proposal),
        ...(proposal.assessment.settings === undefined
          ? {}
          : {
              settings: proposal.assessment.settings.map(({ name, dims, verdict, energy }) => ({
                name,
                dims,
                verdict,
                watts: energy.watts,
              })),
            }),
        ...(skipOne === undefined ? {} : { skipOne: { loses: skipOne.loses, ...figures(skipOne) } }),
        ...(unshifted === undefined ? {} : { shiftedOffJoists: unshifted.does }),
        ...(dimmed === undefined
          ? {}
          : { dimmed: { dims: dimmed.dims, saves: dimmed.saves, ...figures(dimmed) } }),
        arrangement: document,
      };
    }),
    turnedDown,
    leftOut,
  };
}
