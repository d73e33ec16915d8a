/** What was read from photometric files: one line each, and where to hang it. It stands where the files were asked for,
 * or in a dialog when they were dropped on the page. */

import { html, nothing, type TemplateResult } from "lit";
import { ref } from "lit/directives/ref.js";
import type { FileReading } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { addLuminaireToStudy } from "../edits/study-luminaires.ts";
import { embed } from "../storage/embedded.ts";
import { issueWords } from "./issue-words.ts";
import { placeActions } from "./place-actions.ts";
import { reveal } from "./reveal.ts";

/** What a page of controls needs of the app to answer for files. */
type FilesView = Pick<
  AppView,
  "study" | "arrangement" | "given" | "display" | "edit" | "say" | "redraw" | "showLuminaire"
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
                add: (layer) => addReading(app, reading, layer),
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

function addReading(app: FilesView, reading: FileReading, layer: number | undefined): void {
  const { path } = reading;
  const bytes = app.given.contentOf(path);
  if (bytes === undefined) return;
  const stem = path.replace(/^.*\//, "").replace(/\.[^.]*$/, "");
  const edit = addLuminaireToStudy(
    app.study,
    {
      name: stem === "" ? "luminaire" : stem,
      luminaire: { photometry: path },
      embedded: { [path]: embed(bytes) },
    },
    layer === undefined ? undefined : { arrangement: app.arrangement, layer },
  );
  app.edit(edit);
  app.given.dismiss(path);
  app.showLuminaire(edit.luminaire);
}
