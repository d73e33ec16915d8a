/** Whether a luminaire goes into the ceiling or hangs under it, a line for each layer of it that the ceiling carries, with the other way. */

import { html, type TemplateResult } from "lit";
import { recessDepth } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { lengthText } from "../../components/words.ts";
import type { Path } from "../../store/pointer.ts";

/** Less than this (m) is no depth to speak of. */
const FLUSH = 0.005;
const VOID: Path = ["room", "ceilingVoid"];

export function recessLines(app: AppView, name: string): TemplateResult[] {
  const { scene } = app.light ?? {};
  if (scene === undefined) return [];
  return scene.layers.flatMap((layer, index): TemplateResult[] => {
    const placed = layer.luminaires.find(({ luminaire }) => luminaire.name === name);
    const raw = app.study.arrangements[app.arrangement].layers[index];
    const depth = placed === undefined ? undefined : recessDepth(scene, placed);
    if (placed === undefined || depth === undefined || raw?.luminaire !== name) return [];
    const isUnder = depth < FLUSH;
    // What hangs lower says so by its drop.
    if (isUnder && raw.grid?.height === undefined) return [];
    const move = (to: "into" | "under"): TemplateResult => {
      const value = to === "into" ? undefined : Math.round((placed.frame.origin[2] - depth) * 1e4) / 1e4;
      const path: Path = ["arrangements", app.arrangement, "layers", index, "grid", "height"];
      return html`<button type="button" class="text" @click=${() =>
        app.edit({
          name: `${layer.name} ${to} the ceiling`,
          edits: [{ path, value }],
        })}>Set it ${to} the ceiling</button>`;
    };
    if (isUnder) return [html`<p class="hint recess">${layer.name}: under the ceiling. ${move("into")}</p>`];
    const other =
      raw.grid === undefined
        ? "Heights of free places are under the layer’s Select all."
        : scene.room.slope === 0
          ? move("under")
          : "";
    const room =
      scene.room.ceilingVoid === undefined
        ? html`<button type="button" class="text" @click=${() => app.showField(VOID)}>State the clear height above it</button>`
        : `${lengthText(app, scene.room.ceilingVoid)} is clear above it.`;
    return [
      html`<p class="hint recess">${layer.name}: goes ${lengthText(app, depth)} into the ceiling. ${room} ${other}</p>`,
    ];
  });
}
