/** The same shade with several lamps, in its place in the option on screen, by evenness. Kept with the study on screen; shown for the
 * document and the option it was asked of. */

import { html, nothing, type TemplateResult } from "lit";
import { evennessOf, powerFigure } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { lightText } from "../../components/words.ts";
import { type Lamp, lampStudy, lampsFor, lampWords } from "../../edits/lamp-variants.ts";
import type { RawLuminaire } from "../../edits/raw-study.ts";
import { OptionComparison } from "../../light/compare-all.ts";
import type { Json } from "../../store/pointer.ts";

interface LampComparison {
  /** What was compared; another study makes it the past. */
  readonly document: Json;
  readonly arrangement: number;
  readonly luminaire: string;
  readonly lamps: readonly Lamp[];
  readonly comparison: OptionComparison;
}

const comparisons = new WeakMap<AppView["lighting"], LampComparison>();

export function lampComparison(app: AppView, name: string, document: RawLuminaire): TemplateResult {
  const comparison = comparisons.get(app.lighting);
  const isCurrent =
    comparison?.luminaire === name &&
    comparison.document === app.history.document &&
    comparison.arrangement === app.arrangement;
  return html`<details ?open=${isCurrent}>
    <summary>The same shade with other lamps</summary>
    ${
      comparison !== undefined && isCurrent
        ? results(app, comparison)
        : html`<p class="row-of-actions"><button type="button" @click=${() => start(app, name, document)}>Compare lamps</button></p>`
    }
  </details>`;
}

function start(app: AppView, luminaire: string, document: RawLuminaire): void {
  comparisons.get(app.lighting)?.comparison.stop();
  const comparison = new OptionComparison(() => app.lighting.connection, "full");
  const { embedded: _, ...study } = lampStudy(app.study, app.arrangement, luminaire);
  const { history, arrangement } = app;
  const lamps = lampsFor(document);
  comparisons.set(app.lighting, { document: history.document, arrangement, luminaire, lamps, comparison });
  for (const event of ["light", "progress"]) comparison.addEventListener(event, () => app.redraw());
  comparison.setDocument(study as unknown as Json, lamps.length);
  app.redraw();
}

function results(app: AppView, { lamps, luminaire, comparison }: LampComparison): TemplateResult {
  const lit = comparison.lights.flatMap(({ answer, arrangement }) =>
    answer === undefined ? [] : [{ ...answer, lamp: lamps[arrangement] }],
  );
  const isOver = comparison.lights.length === lamps.length;
  return html`
    <p role="status" class="hint">
      ${isOver ? "The most even first." : `Lamp ${comparison.lights.length + 1} of ${lamps.length}…`}
    </p>
    ${
      lit.length === 0
        ? nothing
        : html`<table>
          <thead><tr><th scope="col">Lamp</th><th scope="col">Evenness</th><th scope="col">${lit[0].assessment.zones[0]?.name ?? ""}</th><th scope="col">Power</th><td></td></tr></thead>
          <tbody>
            ${[...lit]
              .sort((a, b) => evennessOf(b.scene, b.assessment) - evennessOf(a.scene, a.assessment))
              .map(({ scene, assessment, lamp }) => {
                const [zone] = assessment.zones;
                return html`<tr>
                <th scope="row">${lampWords(lamp)}</th>
                <td>${evennessOf(scene, assessment).toFixed(2)}</td>
                <td>${zone === undefined ? "" : lightText(app, zone.statistics.average)}</td>
                <td>${powerFigure(assessment.energy.watts, assessment.energy.unknownWatts)} W</td>
                <td>${
                  lamp === lamps[0]
                    ? "in it"
                    : html`<button type="button" aria-label="Take the lamp of ${lampWords(lamp)}" @click=${() =>
                        app.edit({
                          name: `${luminaire} lamp ${lampWords(lamp)}`,
                          edits: [
                            { path: ["luminaires", luminaire, "lamp"], value: lamp as unknown as Json },
                          ],
                        })}>Take</button>`
                }</td>
              </tr>`;
              })}
          </tbody>
        </table>`
    }`;
}
