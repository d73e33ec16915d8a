/** Settings of the dimmers: for each use of the kitchen its levels, and what is asked of the zones then. */

import { html, nothing, type TemplateResult } from "lit";
import type { AppView } from "../../app-view.ts";
import { choiceField, textField } from "../../components/fields.ts";
import { shareField } from "../../components/share-field.ts";
import type { RawSetting } from "../../edits/raw-study.ts";
import { addSetting, levelsBy, removeSetting, settingsPath } from "../../edits/settings.ts";
import type { Path } from "../../store/pointer.ts";
import { targetChoices } from "../kitchen/targets.ts";

const WAYS = [
  { value: "given", words: "as set below" },
  { value: "least power", words: "found: the least power" },
  { value: "evenest", words: "found: the evenest" },
] as const;

/** As the zone asks anyway; nothing asked. */
const ITS_OWN = "";
const NOTHING = "\u0000nothing";

export function settingFields(app: AppView): TemplateResult {
  const { settings = [] } = app.study.arrangements[app.arrangement];
  return html`<section class="part" aria-labelledby="settings-heading">
    <h2 id="settings-heading">Settings of the dimmers</h2>
    ${
      settings.length === 0
        ? html`<p class="hint">One for each use of the kitchen, such as cooking and dinner: its own levels, judged by what is asked then.</p>`
        : nothing
    }
    ${settings.map((setting, index) => settingItem(app, setting, index))}
    <p class="row-of-actions"><button type="button" @click=${() => {
      const edit = addSetting(app.study, app.arrangement);
      app.edit(edit);
      app.showSetting(app.study.arrangements[app.arrangement].settings?.at(-1)?.name);
    }}>Add a setting</button></p>
  </section>`;
}

function settingItem(app: AppView, setting: RawSetting, index: number): TemplateResult {
  const path: Path = [...settingsPath(app.arrangement), index];
  const isShown = app.setting === setting.name;
  const way =
    setting.find ?? (setting.dim === undefined && setting.zones !== undefined ? "least power" : "given");
  return html`<details ?open=${isShown}>
    <summary>${setting.name}${isShown ? html` <span class="what">shown</span>` : nothing}</summary>
    <div class="fields">
      ${textField(app, { label: "Name", path: [...path, "name"], change: "rename setting" })}
      ${choiceField(app, {
        label: "Levels",
        path: [...path, "find"],
        change: `levels of ${setting.name}`,
        choices: WAYS,
        fallback: way,
        edits: (value) =>
          levelsBy(
            setting,
            app.arrangement,
            index,
            value as (typeof WAYS)[number]["value"],
            levelsOf(app, setting),
          ).edits,
      })}
    </div>
    ${
      way === "given"
        ? levelFields(app, setting, path)
        : html`<p class="hint">${foundWords(app, setting)}</p>`
    }
    <div class="fields">
      ${judgedNames(app).map((name) => zoneTarget(app, path, name, setting))}
    </div>
    <p class="row-of-actions">
      <button type="button" @click=${() => app.showSetting(isShown ? undefined : setting.name)}>
        ${isShown ? "Show the layers as dimmed" : "Show its light"}
      </button>
      <button type="button" @click=${() => app.edit(removeSetting(app.study, app.arrangement, index))}>Remove setting</button>
    </p>
  </details>`;
}

/** Zones, and counters and other planes that are judged like them. */
function judgedNames({ light, study: { planes = [] } }: AppView): readonly string[] {
  const judged = planes.filter(({ target }) => target !== undefined);
  return [...(light?.scene.zones ?? []), ...judged].map(({ name }) => name);
}

function levelFields(app: AppView, setting: RawSetting, path: Path): TemplateResult[] {
  return app.study.arrangements[app.arrangement].layers.map((layer) =>
    shareField(app, {
      label: layer.name,
      path: [...path, "dim", layer.name],
      change: `${setting.name}: ${layer.name}`,
      fallback: layer.dim ?? 1,
      as: "per cent",
    }),
  );
}

/** Levels by layer that light a setting now: of the light on screen where that is its own, else as the study says. */
function levelsOf(app: AppView, setting: RawSetting): Record<string, number> {
  const { layers } = app.study.arrangements[app.arrangement];
  const lit = app.setting === setting.name ? app.light?.scene.layers : undefined;
  return Object.fromEntries(
    layers.map(({ name, dim = 1 }) => [
      name,
      lit?.find((layer) => layer.name === name)?.dim ?? setting.dim?.[name] ?? dim,
    ]),
  );
}

function foundWords(app: AppView, setting: RawSetting): string {
  if (app.setting !== setting.name) return "Show its light to see the levels that are found.";
  const levels = Object.entries(levelsOf(app, setting)).map(
    ([name, level]) => `${name} ${level === 0 ? "off" : `${Math.round(100 * level)} %`}`,
  );
  return `Found: ${levels.join(", ")}.`;
}

function zoneTarget(app: AppView, path: Path, zone: string, setting: RawSetting): TemplateResult {
  const at: Path = [...path, "zones", zone];
  const own = setting.zones?.[zone];
  return choiceField(app, {
    label: `Asked of ${zone}`,
    path: at,
    change: `${setting.name}: ${zone} asks`,
    choices: [
      { value: ITS_OWN, words: "as in the zone" },
      { value: NOTHING, words: "nothing" },
      ...targetChoices(app),
    ],
    fallback: own === null ? NOTHING : (own ?? ITS_OWN),
    edits: (value) => {
      const chosen = value === NOTHING ? null : value === ITS_OWN ? undefined : value;
      const zones = {
        ...setting.zones,
        ...(chosen === undefined ? {} : { [zone]: chosen as string | null }),
      };
      if (chosen === undefined) delete zones[zone];
      return [{ path: [...path, "zones"], value: Object.keys(zones).length === 0 ? undefined : zones }];
    },
  });
}
