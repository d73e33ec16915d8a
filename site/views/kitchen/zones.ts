/** Zones on the top: where they lie, and what is asked of their light. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { idOf } from "../../components/field-id.ts";
import { illuminanceField, lengthField, numberField, textField } from "../../components/fields.ts";
import { capital } from "../../components/words.ts";
import type { RawTarget, RawZone } from "../../edits/raw-study.ts";
import { renamedInSettings } from "../../edits/settings.ts";
import { addZone, onlyZone, ownTarget } from "../../edits/zones.ts";
import type { Json, Path } from "../../store/pointer.ts";
import { item, openAdded, part } from "./part.ts";
import { askedBy, figures, published, targetWords } from "./targets.ts";

const OWN = "\u0000own";

function targetField(app: AppView, zone: RawZone, index: number): TemplateResult {
  const path: Path = ["island", "zones", index, "target"];
  const id = idOf(path);
  const target = askedBy(app, zone.target);
  const problem = app.issueAt(path);
  // Of the chosen one the line below says who asks it: a field has no room for both.
  const option = (value: string, words: string): TemplateResult =>
    html`<option value=${value} .selected=${value === (zone.target ?? "")}>${words}</option>`;
  const line = (value: string): TemplateResult =>
    option(value, targetWords(app, value, value === zone.target));
  const change = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement;
    if (value === OWN) {
      app.edit(ownTarget(app.study, index, target ?? {}));
      const own = app.study.island?.zones?.[index].target;
      if (own) app.showField(["targets", own, "illuminance"]);
    } else {
      const words = value === "" ? "none" : (askedBy(app, value)?.name ?? value);
      app.edit({
        name: `${zone.name} target ${words}`,
        edits: [{ path, value: value === "" ? null : value }],
      });
    }
  };
  const isPublished = target !== undefined && !target.isOwn;
  return html`<div class="field wide">
    <label for=${id}>Target</label>
    <select id=${id} @change=${change} aria-describedby=${isPublished ? `${id}-source` : nothing}>
      ${option("", "nothing is asked")}
      <option value=${OWN}>My own values…</option>
      <optgroup label="Of this study">${Object.keys(app.study.targets ?? {}).map(line)}</optgroup>
      <optgroup label="Published for homes">${published("homes").map(line)}</optgroup>
      <optgroup label="Published for places of work">${published("work places").map(line)}</optgroup>
    </select>
    ${!isPublished ? nothing : html`<p class="hint" id="${id}-source">${capital(target.name)}, ${figures(app, target)}: ${target.source}. ${target.note ?? ""} ${target.ages === undefined ? nothing : "Ages are of those who work there: older eyes need more light for the same work."}</p>`}
    ${problem === undefined ? nothing : html`<p class="problem">✕ ${problem}</p>`}
  </div>
  ${target?.isOwn === true ? ownFields(app, zone) : nothing}`;
}

function ownFields(app: AppView, zone: RawZone): TemplateResult {
  const name = zone.target as string;
  const others = (app.study.island?.zones ?? []).filter((each) => each !== zone && each.target === name);
  const path = (key: keyof RawTarget): Path => ["targets", name, key];
  return html`${illuminanceField(app, { label: "Average at least", path: path("illuminance"), change: `${zone.name} asks` })}
    ${numberField(app, {
      label: "Evenness at least",
      path: path("uniformity"),
      change: `${zone.name} asks evenness`,
      from: 0,
      to: 1,
      optional: true,
      hint: "Least over average, U₀ in standards; empty asks nothing.",
    })}
    ${illuminanceField(app, {
      label: "At any point at least",
      path: path("minimum"),
      change: `${zone.name} asks at any point`,
      optional: true,
      hint: "Empty asks nothing. A target has no upper limit: for less light dim it, by hand or in a setting.",
    })}
    ${textField(app, {
      label: "Source of these values",
      path: path("source"),
      change: "source of the target",
      optional: true,
      hint: "A standard or an agreement, as it is printed on the papers. Empty: the designer’s own.",
    })}
    ${others.length === 0 ? nothing : html`<p class="hint">Also asked of ${others.map((each) => each.name).join(", ")}.</p>`}`;
}

export function zonesPart(app: AppView): TemplateResult {
  const zones = app.study.island?.zones ?? [];
  if (app.study.island === undefined)
    return part("zones", "Zones on the top", html`<p class="hint">Zones need an island.</p>`);
  return part(
    "zones",
    "Zones on the top",
    html`${zones.map((zone, index) => zoneItem(app, zone, index))}
    ${zones.length === 0 ? openZones(app) : nothing}
    <p class="row-of-actions"><button type="button" @click=${() => {
      openAdded(`zone-${zones.length}`);
      app.edit(addZone(app.study));
    }}>Add a zone</button></p>`,
  );
}

function zoneItem(app: AppView, zone: RawZone, index: number): TemplateResult {
  const path: Path = ["island", "zones", index];
  const target = askedBy(app, zone.target);
  const wholeTop = onlyZone(app.study, index);
  const length = (at: Path, label: string): TemplateResult =>
    lengthField(app, { label, path: [...path, ...at], change: `${zone.name} ${label.toLowerCase()}` });
  return item(
    "zone",
    index,
    html`${zone.name} <span class="what">${target === undefined ? "nothing is asked" : figures(app, target)}</span>`,
    html`<div class="fields">
        ${textField(app, {
          label: "Name",
          path: [...path, "name"],
          change: "rename zone",
          edits: (value) => [
            { path: [...path, "name"], value },
            ...renamedInSettings(app.study, "zones", zone.name, String(value)),
          ],
        })}
        ${targetField(app, zone, index)}
        ${
          zone.polygon === undefined
            ? html`${length(["from", 0], "From the left end")} ${length(["from", 1], "From the near side")}
              ${length(["size", 0], "Length")} ${length(["size", 1], "Width")}`
            : nothing
        }
      </div>
      <p class="row-of-actions">
        ${wholeTop === undefined ? nothing : html`<button type="button" @click=${() => app.edit(wholeTop)}>Only this one, over the whole top</button>`}
        <button type="button" @click=${() =>
          app.edit({
            name: `remove zone ${zone.name}`,
            edits: [
              { path, value: undefined },
              ...renamedInSettings(app.study, "zones", zone.name, undefined),
            ],
          })}>Remove zone</button>
      </p>`,
    index === 0,
  );
}

/** Zones that the study leaves to its rules, to be made its own. */
function openZones(app: AppView): TemplateResult | typeof nothing {
  const zones = app.light?.scene.zones ?? [];
  if (zones.length === 0) return nothing;
  const value = zones.map(({ name, outline, target }) => ({
    name,
    polygon: outline,
    target: target ?? null,
  }));
  return html`<p class="hint default">
    By default: ${zones.map(({ name }) => name).join(", ")}.
    <button type="button" class="text" @click=${() =>
      app.edit({
        name: "set the zones",
        edits: [{ path: ["island", "zones"], value: value as unknown as Json }],
      })}>Set</button>
  </p>`;
}
