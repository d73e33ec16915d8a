/** The dimmer of a layer: its name, the loads that it takes, and how its scale counts. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { choiceField, numberField, textField } from "../../components/fields.ts";
import { type DimmerKey, sayOfDimmer } from "../../edits/dimmer.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import type { Json, Path } from "../../store/pointer.ts";

const CONTROLS = [
  { value: "", words: "not known" },
  { value: "linear", words: "linear: 50 % is half the light" },
  { value: "square", words: "square: 50 % is a quarter" },
  { value: "logarithmic", words: "logarithmic, levels to 254" },
];

export function dimmerFields(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const path: Path = ["arrangements", app.arrangement, "layers", index, "dimmer"];
  const problem = app.issueAt(path);
  const said = (key: DimmerKey, what: string) => ({
    path: [...path, key],
    change: `${layer.name}: dimmer's ${what}`,
    optional: true,
    edits: (value: Json | undefined) => sayOfDimmer(app.study, [app.arrangement, index], key, value),
  });
  const load = (key: "minimumWatts" | "maximumWatts", what: string, hint: string): TemplateResult =>
    numberField(app, {
      label: `Dimmer's ${what}`,
      ...said(key, what),
      from: 0,
      to: 100_000,
      unit: " W",
      hint,
    });
  return html`<section aria-label="Dimmer of ${layer.name}">
    <div class="fields">
      ${load("maximumWatts", "greatest load", "As its maker states it for LED lamps.")}
      ${load("minimumWatts", "least load", "Below it lamps may flicker.")}
      ${textField(app, { label: "Dimmer's name", ...said("name", "name") })}
      ${choiceField(app, {
        label: "Dimmer's scale",
        ...said("control", "scale"),
        choices: CONTROLS,
        fallback: "",
      })}
    </div>
    ${problem === undefined ? nothing : html`<p class="problem" id="${idOf(path)}-problem">✕ ${problem}</p>`}
    ${
      layer.dimmer === undefined || Object.keys(layer.dimmer).length > 0
        ? nothing
        : html`<p class="hint">The study says that there is a dimmer, and nothing of it.
            <button type="button" class="text" @click=${() => app.edit({ name: `${layer.name}: no dimmer`, edits: [{ path, value: undefined }] })}>No dimmer</button></p>`
    }
    <p class="hint">The light is calculated for the share of light typed as “Dimmed to”. The scale changes no light: it tells what the dimmer is to be set to for that share.</p>
  </section>`;
}
