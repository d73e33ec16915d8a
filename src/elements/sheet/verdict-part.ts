/** The verdict as it stands over the drawings: headline, what belongs to it, and a row a zone. */
import { html, nothing, type TemplateResult } from "lit";
import type { VerdictInWords } from "./verdict-words.ts";

export { verdictStyles } from "./verdict.styles.ts";
export { verdictInWords } from "./verdict-words.ts";

/**
 * @param open called where a zone's name is pressed; without it names are words alone
 * @param offered called when a page offers something to do about the verdict, or no longer
 * @param isOfferedInLine whether that stands on a line with what belongs to the headline, not after the rows
 */
export function verdictPart(
  { headline, clash, zones }: VerdictInWords,
  open: ((name: string, index: number, isTarget?: boolean) => void) | undefined,
  offered: () => void,
  isOfferedInLine: boolean,
): TemplateResult {
  const next = html`<slot name="next" @slotchange=${offered}></slot>`;
  const setting = (usual: string, name: string, index: number): TemplateResult | string =>
    open === undefined
      ? usual
      : html`<button part="zone" aria-label="${usual}: ${name}" @click=${() => open(name, index, true)}>${usual}</button>`;
  const subject = (name: string, index: number): TemplateResult =>
    open === undefined
      ? html`<span class="subject">${name}</span>`
      : html`<button class="subject" part="zone" @click=${() => open(name, index)}>${name}</button>`;
  return html`<div class="verdict" part="verdict">
    <div class="headline" part="summary">
      <h2 class=${headline.kind} part="headline" title=${headline.words}>${headline.words}</h2>
    </div>
    <p>${clash || headline.aside} ${isOfferedInLine ? next : nothing}</p>
    <div class="rows"><ul>${zones.map(
      (
        { name, light, evenness, judged, drivers, style, mark, usual },
        index,
      ) => html`<li class=${style} title=${drivers}
        ><span class="sign" aria-hidden="true">${mark}</span>\u00a0${subject(name, index)} <span
        class="light">${light}${evenness === "" ? "" : `, ${evenness}`}: </span><span class="judged">${judged}${usual === "" ? nothing : html`, ${setting(usual, name, index)}`}</span></li>`,
    )}</ul>${isOfferedInLine ? nothing : next}</div>
  </div>`;
}

/** What is read stands over its place on a plan from so far down, and so far off (px). */
const ABOVE = 52;
const OFF = 16;

/** What is read, whole on the sheet. @param share of its width where the place is @param y of the place on the plan (px), if it stands there */
export function readingPart(words: string, share: number, y?: number): TemplateResult {
  const along = `${Math.round(100 * share)}%`;
  const top =
    y === undefined ? "" : y < ABOVE ? `top:${y + OFF}px` : `bottom:calc(100% - ${Math.round(y - OFF)}px)`;
  return html`<span class="read" part="reading" .style=${`left:${along};translate:-${along};${top}`}>${words}</span>`;
}

/** Steps of size: of the headline, which stays on its line (px), and of all under it. The last is scrolled. */
const HEADLINE = { steps: 3, line: 34 } as const;
const ROW_STEPS = 4;

/** Sets words as large as they fit into `height` (px), or all in full size where a page scrolls. */
export function fitVerdict(verdict: HTMLElement, height = Number.POSITIVE_INFINITY): void {
  const take = (name: "headline" | "rows", steps: number, isFit: () => boolean): void => {
    for (let step = 0; step < steps; step++) {
      verdict.dataset[name] = `${step}`;
      if (isFit()) return;
    }
  };
  const isFree = height === Number.POSITIVE_INFINITY;
  const title = verdict.querySelector("h2");
  verdict.style.height = "";
  take("headline", HEADLINE.steps, () => isFree || (title?.offsetHeight ?? 0) <= HEADLINE.line);
  take("rows", ROW_STEPS, () => verdict.offsetHeight <= height);
  if (verdict.offsetHeight > height) verdict.style.height = `${height}px`;
}
