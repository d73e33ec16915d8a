/** The row of controls over the picture. */

import { html, nothing, type TemplateResult } from "lit";
import type { CutName } from "./cut.ts";
import type { Look } from "./kitchen-view.ts";
import type { NamedViewpoint } from "./viewpoints.ts";

const CUTS: readonly (readonly [CutName, string])[] = [
  ["none", "none"],
  ["plan", "plan"],
  ["along", "section along the room"],
  ["across", "section across the room"],
];

export interface ControlState {
  readonly look: Look;
  readonly unit: "lx" | "fc";
  readonly viewpoint: string;
  readonly viewpoints: readonly NamedViewpoint[];
  readonly cut: CutName;
  readonly cutAt: number;
  /** Undefined where the study has nobody. */
  readonly people?: boolean;
  readonly marks: boolean;
}

export interface ControlEvents {
  readonly set: (change: Partial<Omit<ControlState, "viewpoints" | "unit">>) => void;
  readonly savePicture: () => void;
  readonly saveModel: () => void;
}

export function pictureControls(
  state: ControlState,
  { set, savePicture, saveModel }: ControlEvents,
): TemplateResult {
  const { look, unit, viewpoint, viewpoints, cut, cutAt, people, marks } = state;
  const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;
  const checked = (event: Event): boolean => (event.target as HTMLInputElement).checked;
  return html`
    <div class="controls" role="group" aria-label="Picture">
      <div class="pair" role="group" aria-label="Look">
        <button type="button" aria-pressed=${look === "appearance"} @click=${() => set({ look: "appearance" })}>Appearance</button>
        <button type="button" aria-pressed=${look === "lux"} @click=${() => set({ look: "lux" })}>${unit === "fc" ? "Foot-candles" : "Lux"}</button>
      </div>
      <label class="viewpoint"><span>Viewpoint</span>
        <select .value=${viewpoint} @change=${(event: Event) => set({ viewpoint: chosen(event) })}>
          ${viewpoints.map(({ id, name }) => html`<option value=${id} ?selected=${id === viewpoint}>${name}</option>`)}
        </select>
      </label>
      <button type="button" class="more" popovertarget="rest" aria-haspopup="true">More…</button>
      <div id="rest" class="rest" popover>
      <label>Cut
        <select @change=${(event: Event) => set({ cut: chosen(event) as CutName })}>
          ${CUTS.map(([id, name]) => html`<option value=${id} ?selected=${id === cut}>${name}</option>`)}
        </select>
      </label>
      ${
        cut === "none"
          ? nothing
          : html`<label>Where it cuts
              <input type="range" min="0.05" max="0.95" step="0.01" .value=${String(cutAt)} @input=${(
                event: Event,
              ) => set({ cutAt: Number(chosen(event)) })} />
            </label>`
      }
      ${
        people === undefined
          ? nothing
          : html`<label class="line"><input type="checkbox" .checked=${people} @change=${(event: Event) => set({ people: checked(event) })} /> people</label>`
      }
      <label class="line"><input type="checkbox" .checked=${marks} @change=${(event: Event) => set({ marks: checked(event) })} /> mark bright luminaires</label>
      <slot name="controls"></slot>
      <button type="button" @click=${savePicture}>Save as PNG</button>
      <button type="button" @click=${saveModel}>Save as GLB</button>
      </div>
    </div>
  `;
}
