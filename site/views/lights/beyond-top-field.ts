/** Where pendants of a layer reach beyond the top: that it is meant, which papers hold until it is said. */

import { html, nothing, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import { reachBeyondTop } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { lengthText } from "../../components/words.ts";
import type { RawLayer } from "../../edits/raw-study.ts";
import type { Path } from "../../store/pointer.ts";

export function beyondTopField(
  app: AppView,
  layer: RawLayer,
  path: Path,
  index: number,
): TemplateResult | typeof nothing {
  const { scene } = app.light ?? {};
  const by = scene === undefined ? 0 : reachBeyondTop(scene, index);
  if (by === 0 && layer.beyondTop === undefined) return nothing;
  const isMeant = layer.beyondTop === true;
  const at: Path = [...path, "beyondTop"];
  const change = (): void =>
    app.edit({
      name: `${layer.name} ${isMeant ? "not meant" : "meant"} beyond the top`,
      edits: [{ path: at, value: isMeant ? undefined : true }],
    });
  return html`<label class="check">
    <input id=${idOf(at)} type="checkbox" .checked=${live(isMeant)} @change=${change}>
    Reaching beyond the top${by === 0 ? "" : ` by ${lengthText(app, by)}`} is meant
  </label>`;
}
