/** Readings on site: tapped place by place, or brought as a list, held against the option on screen. */

import { html, type TemplateResult } from "lit";
import { live } from "lit/directives/live.js";
import type { AppView } from "../../app-view.ts";
import { type LightAge, readingPlan, readingsText } from "../../light/reading-points.ts";
import {
  isSamePlace,
  keepReadings,
  loadReadings,
  readingsKey,
  type SiteReadings,
  withReading,
} from "../../storage/taken-readings.ts";
import { readingPlanPart } from "./reading-plan.ts";
import { readingsList } from "./readings-list.ts";
import { verifiedPart } from "./verified-part.ts";
import type { Verifying } from "./verifying.ts";

const METERS: readonly (readonly [value: string, words: string])[] = [
  ["3", "within 3 %"],
  ["5", "within 5 %"],
  ["10", "within 10 %"],
  ["phone", "a phone: ratios alone"],
];

const states = new WeakMap<AppView["lighting"], Verifying>();

function stateOf(app: AppView): Verifying {
  const key = readingsKey(app.study.title, app.study.arrangements[app.arrangement].name);
  const earlier = states.get(app.lighting);
  if (earlier?.key === key) return earlier;
  const state: Verifying = { key, readings: loadReadings(key), lit: "all", chosen: 0, text: "" };
  states.set(app.lighting, state);
  return state;
}

export function siteReadings(app: AppView): TemplateResult {
  const state = stateOf(app);
  return html`<section class="part site-readings" aria-labelledby="readings-heading">
    <h2 id="readings-heading">Readings on site</h2>
    <details>
      <summary>Hold a meter’s readings against the prediction</summary>
      <p class="hint">Read at night. Everything on first; then one layer at a time tells most.</p>
      <div class="fields">
        ${choice("The light is", state.readings.age, AGES, (age) => set(app, state, { age: age as LightAge }))}
        ${choice("Meter", state.readings.meter, METERS, (meter) => set(app, state, { meter }))}
        ${choice("What is on", state.lit, litChoices(app), (lit) => {
          state.lit = lit;
          app.redraw();
        })}
      </div>
      <p class="hint">${ageWords(app, state.readings.age)}</p>
      ${tapped(app, state)}
      ${verifiedPart(app, state)}
      ${readingsList(app, state, () => compare(app, state, state.text))}
    </details>
  </section>`;
}

const AGES: readonly (readonly [value: LightAge, words: string])[] = [
  ["new", "new and clean"],
  ["aged", "aged, as the sheet has it"],
];

function litChoices(app: AppView): readonly (readonly [string, string])[] {
  const names = app.study.arrangements[app.arrangement].layers.map(
    ({ name }) => [name, `${name} alone`] as const,
  );
  return [
    ["all", "everything"],
    ...(names.length > 1 ? names : []),
    ["none", "nothing: light from elsewhere"],
  ];
}

function ageWords(app: AppView, age: LightAge): string {
  const { maintenance = 1 } = app.light?.scene ?? {};
  const times = (1 / maintenance).toFixed(2);
  return age === "aged"
    ? "Predictions are the sheet’s own: maintained light, aged and dusty."
    : `Predictions are for new lamps in clean shades: ${times} times the sheet’s, which are aged.`;
}

function choice(
  label: string,
  value: string,
  choices: readonly (readonly [value: string, words: string])[],
  choose: (value: string) => void,
): TemplateResult {
  return html`<label class="field">${label}
    <select @change=${(event: Event) => choose((event.target as HTMLSelectElement).value)}>
      ${choices.map(([each, words]) => html`<option value=${each} .selected=${live(each === value)}>${words}</option>`)}
    </select>
  </label>`;
}

function set(app: AppView, state: Verifying, change: Partial<SiteReadings>): void {
  state.readings = { ...state.readings, ...change };
  keepReadings(state.key, state.readings);
  app.redraw();
}

function tapped(app: AppView, state: Verifying): TemplateResult {
  const { light } = app;
  const plan = light === undefined || app.lightState.kind === "issues" ? undefined : readingPlan(light);
  if (plan === undefined || plan.points.length === 0)
    return html`<p class="hint">There is no top with light to read at.</p>`;
  const { readings, lit } = state;
  const read = plan.points.map(
    ({ at }) => readings.taken.find((each) => each.lit === lit && isSamePlace(each.at, at))?.lux,
  );
  const count = readings.taken.length;
  return html`
    <p>Tap a place, type the number.</p>
    ${readingPlanPart(app, {
      plan,
      age: readings.age,
      lit,
      read,
      band: readings.meter === "phone" ? undefined : Number(readings.meter) / 100,
      chosen: Math.min(state.chosen, plan.points.length - 1),
      choose(index) {
        state.chosen = index;
        app.redraw();
        requestAnimationFrame(() => document.getElementById(`reading-${index}`)?.focus());
      },
      take(index, lux) {
        set(app, state, withReading(state.readings, plan.points[index].at, lit, lux));
      },
    })}
    <p class="row-of-actions">
      <button type="button" class="primary" ?disabled=${state.running !== undefined || count === 0} @click=${() =>
        compare(app, state, readingsText(state.readings.taken), true)}>
        ${count === 1 ? "Compare 1 reading" : `Compare ${count} readings`}
      </button>
      <button type="button" ?disabled=${count === 0} @click=${() => set(app, state, { taken: [] })}>Clear</button>
    </p>`;
}

function compare(app: AppView, state: Verifying, readings: string, byPlace = false): void {
  const { document } = app.history;
  const { arrangement } = app;
  const { meter, age } = state.readings;
  const running = app.lighting.connection.call("verify", {
    document,
    arrangement,
    readings,
    byPlace,
    meter: meter === "phone" ? "phone" : Number(meter) / 100,
    maintenance: age === "aged" ? "aged" : 1,
  });
  state.running = running;
  state.about = { document, arrangement, age };
  state.answer = undefined;
  state.issues = undefined;
  app.redraw();
  running.outcome
    .then(
      (outcome) => {
        if (outcome.ok) state.answer = outcome.value;
        else state.issues = outcome.issues;
      },
      () => undefined,
    )
    .finally(() => {
      state.running = undefined;
      app.redraw();
    });
}
