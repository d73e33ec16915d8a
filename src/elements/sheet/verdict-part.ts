/** The verdict as it stands over the drawings: headline, what belongs to it, and a row a zone. */
import { html, nothing, type TemplateResult } from "lit";
import type { VerdictRoom } from "./verdict-room.ts";
import type { VerdictInWords } from "./verdict-words.ts";

export { verdictInWords } from "./verdict-words.ts";

/** @param open called where a zone's name is pressed; without it names are words alone */
export function verdictPart(
  { headline, clash, zones }: VerdictInWords,
  { isDense, isAsideUnder, isNarrow }: VerdictRoom,
  open: ((name: string, index: number, isTarget?: boolean) => void) | undefined,
): TemplateResult {
  const next = html`<slot name="next"></slot>`;
  const aside = html`<p>${clash || headline.aside}</p>`;
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
      ${isAsideUnder ? nothing : aside}${isNarrow ? nothing : next}
    </div>
    ${isAsideUnder ? aside : nothing}
    <ul class=${isDense ? "dense" : ""}>${zones.map(
      (
        { name, light, evenness, judged, drivers, style, mark, usual },
        index,
      ) => html`<li class=${style} title=${drivers}
        ><span class="sign" aria-hidden="true">${mark}</span>\u00a0${subject(name, index)} <span
        class="light">${light}${evenness === "" ? "" : `, ${evenness}`}: </span><span class="judged">${judged}${usual === "" ? nothing : html`, ${setting(usual, name, index)}`}</span></li>`,
    )}</ul>${isNarrow ? next : nothing}
  </div>`;
}
