/** What was read from photometric files: one line each, and where to hang it. It stands where the files were asked for,
 * or in a dialog when they were dropped on the page. */

import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import type { FileReading } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { addLuminaireToStudy, type LayerPlace } from "../edits/study-luminaires.ts";
import { swapBy } from "../light/swapped-light.ts";
import { embed } from "../storage/embed.ts";
import { issueWords } from "./issue-words.ts";
import { placeActions } from "./place-actions.ts";
import { reveal } from "./reveal.ts";

/** What a page of controls needs of the app to answer for files. */
type FilesView = Pick<
  AppView,
  | "study"
  | "arrangement"
  | "given"
  | "display"
  | "lighting"
  | "lastSwap"
  | "edit"
  | "say"
  | "redraw"
  | "showLuminaire"
>;

export function readFiles(app: FilesView): TemplateResult | typeof nothing {
  const { readings } = app.given;
  if (readings.length === 0) return nothing;
  return html`<ul class="plain readings" aria-label="Files read" ${ref(reveal)}>
    ${readings.map(
      (reading) => html`<li>
        <p class=${reading.ok ? "" : "problem"}>${reading.ok ? "" : "✕ "}${reading.line}</p>
        ${reading.issues.map((issue) => html`<p class=${reading.ok ? "hint" : "problem"}>${issueWords(issue, app)}</p>`)}
        ${
          reading.ok
            ? placeActions(app, {
                add: (layer) => {
                  const place = layer === undefined ? undefined : { arrangement: app.arrangement, layer };
                  const name = addReading(app, reading, place);
                  if (name !== undefined) app.showLuminaire(name);
                },
                leave: () => dismiss(app, reading),
              })
            : html`<p class="row-of-actions"><button type="button" @click=${() => dismiss(app, reading)}>Dismiss</button></p>`
        }
      </li>`,
    )}
  </ul>`;
}

/** The same in a dialog over the page. */
export function readFilesDialog(app: FilesView): TemplateResult {
  const show = (element: Element | undefined): void => {
    if (element instanceof HTMLDialogElement && !element.open)
      queueMicrotask(() => element.isConnected && element.showModal());
  };
  return html`<dialog
    class="read-files"
    aria-labelledby="read-heading"
    ${ref(show)}
    @close=${() => {
      app.given.clear();
      app.redraw();
    }}
  >
    <h2 id="read-heading">Read</h2>
    ${readFiles(app)}
  </dialog>`;
}

function dismiss(app: FilesView, { path }: FileReading): void {
  app.given.dismiss(path);
  app.say("");
}

/** Adds what was read to the study, and hangs it where a place is given. @returns its name there */
export function addReading(
  app: FilesView,
  { path }: FileReading,
  place: LayerPlace | undefined,
): string | undefined {
  const bytes = app.given.contentOf(path);
  if (bytes === undefined) return undefined;
  const stem = path.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
  const edit = addLuminaireToStudy(
    app.study,
    {
      name: stem === "" ? "luminaire" : stem,
      luminaire: { photometry: path },
      embedded: { [path]: embed(bytes) },
    },
    place,
  );
  if (place === undefined) app.edit(edit);
  else swapBy(app, place, edit);
  app.given.dismiss(path);
  return edit.luminaire;
}
