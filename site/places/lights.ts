/** Lights: which luminaires, in which layers, where; and what swapping one does. */

import { html } from "lit";
import { repeat } from "lit/directives/repeat.js";
import { addLayer, layerPart } from "./lights/layer-part.ts";
import { optionBar } from "./lights/option-bar.ts";
import { searchPart } from "./lights/search-part.ts";
import { selectionPart } from "./lights/selection-part.ts";
import { luminairesPart } from "./luminaires-part.ts";
import type { Place } from "./place.ts";

export const lights: Place = {
  controls(app) {
    const { layers } = app.study.arrangements[app.arrangement];
    return html`
      ${optionBar(app)} ${selectionPart(app)}
      ${repeat(
        layers,
        (layer) => layer.name,
        (layer, index) => layerPart(app, layer, index),
      )}
      <p class="row-of-actions">
        <button type="button" @click=${() => addLayer(app)}>Add a layer</button>
      </p>
      ${searchPart(app)} ${luminairesPart(app)}
    `;
  },
};
