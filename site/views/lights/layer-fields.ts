/** One layer: its luminaire, dimmer and places, its name, role and circuit. */

import { html, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { choiceField, numberField, textField } from "../../components/fields.ts";
import { shareField } from "../../components/share-field.ts";
import { addLuminaire } from "../../edits/luminaires.ts";
import { freshName, type RawLayer } from "../../edits/raw-study.ts";
import { renamedInSettings } from "../../edits/settings.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { beyondTopField } from "./beyond-top-field.ts";
import { dimmerFields } from "./dimmer-fields.ts";
import { freePlaces, gridFields } from "./grid-and-places.ts";
import { luminaireChoice } from "./luminaire-choice.ts";
import { rowFields } from "./row-fields.ts";
import { switchFields } from "./switch-fields.ts";

const ROLES = [
  { value: "pendant", words: "pendants" },
  { value: "recessed", words: "recessed" },
  { value: "accent", words: "accents" },
  { value: "other", words: "other" },
];

export function layerFields(app: AppView, layer: RawLayer, index: number): TemplateResult {
  const path: Path = ["arrangements", app.arrangement, "layers", index];
  const heading = `layer-${index}-heading`;
  return html`<section class="part" aria-labelledby=${heading}>
    <h2 id=${heading}>${layer.name}</h2>
    ${luminaireChoice(app, layer, index)}
    ${shareField(app, {
      label: "Dimmed to",
      path: [...path, "dim"],
      change: `${layer.name} dimmed to`,
      fallback: 1,
      as: "per cent",
    })}
    ${
      layer.row !== undefined
        ? rowFields(app, layer, path)
        : layer.grid !== undefined
          ? gridFields(app, layer, path)
          : freePlaces(app, layer, index)
    }
    ${beyondTopField(app, layer, path, index)}
    <p class="row-of-actions">
      <button type="button" @click=${() => {
        if (app.light !== undefined) {
          app.edit(addLuminaire(app.study, app.arrangement, app.light.scene, index));
        }
      }}>Add one</button>
      <button type="button" @click=${() => {
        const count = app.light?.scene.layers[index]?.luminaires.length ?? 0;
        app.select(Array.from({ length: count }, (_, i) => ({ layer: index, index: i })));
      }}>Select all</button>
    </p>
    <details>
      <summary>Name, role, circuit, hours, dimmer, switches</summary>
      <div class="fields">
        ${textField(app, {
          label: "Layer name",
          path: [...path, "name"],
          change: "rename layer",
          edits: (value) => [
            { path: [...path, "name"], value },
            ...renamedInSettings(app.study, "dim", layer.name, String(value), [app.arrangement]),
          ],
        })}
        ${choiceField(app, {
          label: "Role",
          path: [...path, "role"],
          change: `${layer.name} as`,
          choices: ROLES,
          fallback: "other",
        })}
        ${textField(app, { label: "Circuit", path: [...path, "circuit"], change: "circuit", optional: true })}
        ${numberField(app, {
          label: "Hours of use a day",
          path: [...path, "hours"],
          change: `${layer.name} hours`,
          from: 0,
          to: 24,
          unit: " h",
          optional: true,
        })}
      </div>
      ${dimmerFields(app, layer, index)}
      ${switchFields(app, layer, index)}
      <p class="row-of-actions">
        <button type="button" @click=${() => {
          const layers = app.study.arrangements[app.arrangement].layers.filter((_, i) => i !== index);
          app.select([]);
          app.edit({
            name: `remove layer ${layer.name}`,
            edits: [
              { path: ["arrangements", app.arrangement, "layers"], value: layers as unknown as Json },
              ...renamedInSettings(app.study, "dim", layer.name, undefined, [app.arrangement]),
            ],
          });
        }}>Remove layer</button>
      </p>
    </details>
  </section>`;
}

/** Adds a layer of one pendant over the island, or at a free place where there is none. */
export function addLayer(app: AppView, wish = "more pendants", count = 1): void {
  const { layers } = app.study.arrangements[app.arrangement];
  const luminaire = Object.keys(app.study.luminaires ?? {})[0];
  if (luminaire === undefined) {
    app.say("A layer needs a luminaire: read a photometric file first.");
    return;
  }
  const name = freshName(
    wish,
    layers.map((each) => each.name),
  );
  const layer: RawLayer = {
    name,
    role: "pendant",
    luminaire,
    dim: 1,
    ...(app.study.island === undefined
      ? { at: [{ position: [1, 1, 2] as const }] }
      : { row: { count, clearance: 0.85 } }),
  };
  app.edit({
    name: `add layer ${name}`,
    edits: [
      { path: ["arrangements", app.arrangement, "layers", layers.length], value: layer as unknown as Json },
    ],
  });
}
