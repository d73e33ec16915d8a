/** The study's luminaires: what each one's light rests on, its fields and polar diagram, and how another joins them. */

import { html, nothing, type TemplateResult } from "lit";
import type { Luminaire } from "../../src/app.ts";
import "../../src/elements/polar/polar.ts";
import type { AppView } from "../app-view.ts";
import { readFiles } from "../components/read-files.ts";
import { hasLamp } from "../edits/lamp-variants.ts";
import type { RawLuminaire } from "../edits/raw-study.ts";
import { FIRST_BEAM, FIRST_SHADE, isHung } from "../edits/study-luminaires.ts";
import { evidenceIn } from "../light/scene-queries.ts";
import { fieldsOf } from "../light/swapped-light.ts";
import { beforeAndAfter } from "./lights/before-and-after.ts";
import { lampComparison } from "./lights/lamp-comparison.ts";
import { luminaireForm } from "./lights/luminaire-form.ts";
import { keepButton, luminaireShelf } from "./lights/luminaire-shelf.ts";
import { newLuminaire, startLuminaire } from "./lights/new-luminaire.ts";
import { recessLines } from "./lights/recess-line.ts";

export function luminaireList(app: AppView): TemplateResult {
  const luminaires = Object.entries(app.study.luminaires ?? {});
  return html`<section class="part" aria-labelledby="luminaires-heading">
    <h2 id="luminaires-heading">Luminaires of the study</h2>
    ${luminaires.map(([name, each]) => luminaireItem(app, name, each))}
    <p class="row-of-actions">
      <button type="button" @click=${() => app.openFile("list")}>Read a photometric file</button>
    </p>
    ${app.given.at === "list" ? readFiles(app) : nothing}
    <p class="hint">Photometric files may also be dropped anywhere on the page.</p>
    <p class="row-of-actions">
      <button type="button" @click=${() => startLuminaire(app, "shade", FIRST_SHADE)}>Make one from lamp and shade</button>
      <button type="button" @click=${() => startLuminaire(app, "beam", FIRST_BEAM)}>Make one from flux and beam</button>
    </p>
    ${newLuminaire(app)}
  </section>
  ${luminaireShelf(app)}`;
}

function known(app: AppView, name: string): Luminaire | undefined {
  for (const layer of app.light?.scene.layers ?? []) {
    const placed = layer.luminaires.find(({ luminaire }) => luminaire.name === name);
    if (placed !== undefined) return placed.luminaire;
  }
  return undefined;
}

function luminaireItem(app: AppView, name: string, document: RawLuminaire): TemplateResult {
  const luminaire = known(app, name);
  const evidence = evidenceIn(app.light?.scene, name);
  const about =
    luminaire === undefined
      ? "Not in the option on screen."
      : `${Math.round(luminaire.flux)} lm${luminaire.watts === undefined ? "" : `, ${luminaire.watts} W`}. Its light ${evidence?.plain ?? ""}`;
  const toggle = (event: Event): void => {
    const isOpen = (event.target as HTMLDetailsElement).open;
    if (isOpen !== (app.shownLuminaire === name)) app.showLuminaire(isOpen ? name : undefined);
  };
  return html`<details class="item" ?open=${app.shownLuminaire === name} @toggle=${toggle}>
    <summary>${name}</summary>
    <p class="hint">${about}</p>
    ${document.photometry === undefined ? nothing : html`<p class="hint">From ${document.photometry}.</p>`}
    ${recessLines(app, name)}
    ${
      app.shownLuminaire === name
        ? html`${luminaireForm(luminaire === undefined ? app : fieldsOf(app, name), {
            name,
            document,
            luminaire,
            onRename: (to) => app.showLuminaire(to),
          })}
            ${app.lastSwap?.body === name ? beforeAndAfter(app, app.lastSwap, "now") : nothing}
            ${luminaire !== undefined && hasLamp(document) ? lampComparison(app, name, document) : nothing}
            ${luminaire === undefined ? nothing : html`<div class="pictures">${silhouette(luminaire, name)}<candlespan-polar .luminaire=${luminaire} .title=${name}></candlespan-polar></div>`}`
        : nothing
    }
    <p class="row-of-actions">
      <button type="button" ?disabled=${isHung(app.study, name)} @click=${() =>
        app.edit({
          name: `remove luminaire ${name}`,
          edits: [{ path: ["luminaires", name], value: undefined }],
        })}>
        Remove ${name}
      </button>
      ${keepButton(app, name)}
    </p>
  </details>`;
}

/** The body in profile, to the scale of its own size. */
function silhouette({ body }: Luminaire, name: string): TemplateResult | typeof nothing {
  const outline = body?.outline;
  if (body === undefined || outline === undefined || outline.length < 2) return nothing;
  const heights = outline.map(([, z]) => z);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const size = Math.max(body.diameter, high - low, 1e-3);
  const at = ([r, z]: readonly [number, number], side: 1 | -1): string =>
    `${(60 + (side * r * 100) / size).toFixed(1)} ${(10 + ((high - z) * 100) / size).toFixed(1)}`;
  const right = outline.map((point) => at(point, 1)).join("L");
  const left = outline.map((point) => at(point, -1)).join("L");
  return html`<svg class="silhouette" viewBox="0 0 120 ${(20 + ((high - low) * 100) / size).toFixed(1)}" role="img" aria-label="Profile of ${name}">
    <path d="M${right}M${left}"></path>
  </svg>`;
}
