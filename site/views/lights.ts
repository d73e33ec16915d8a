/** Lights: which luminaires, in which layers, where; and what swapping one does. */

import { html } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { holdReturn } from "./hold-return.ts";
import { addLayer, layerFields } from "./lights/layer-fields.ts";
import { optionBar } from "./lights/option-bar.ts";
import { rowSearchFields } from "./lights/row-search.ts";
import { selectionFields } from "./lights/selection-fields.ts";
import { settingFields } from "./lights/setting-fields.ts";
import { luminaireList } from "./luminaire-list.ts";
import type { View } from "./view.ts";

export const lights: View = {
  controls(app) {
    const { layers } = app.study.arrangements[app.arrangement];
    return html`
      ${holdReturn(app)} ${optionBar(app)} ${selectionFields(app)}
      ${repeat(
        layers,
        (layer) => layer.name,
        (layer, index) => layerFields(app, layer, index),
      )}
      <p class="row-of-actions">
        <button type="button" @click=${() => addLayer(app)}>Add a layer</button>
      </p>
      ${settingFields(app)} ${rowSearchFields(app)} ${luminaireList(app)}
    `;
  },
};
