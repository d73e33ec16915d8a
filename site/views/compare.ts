/** Compare: every option on one scale, ranked by verdict, by how far a target is missed, by what can be built and by evenness, and where two
 * differ. */

import { html, nothing, type TemplateResult } from "lit";
import { arrangementLetters, type ResolvedStudy, ranked } from "../../src/app.ts";
import "../../src/elements/comparison/comparison.ts";
import type { AppView } from "../app-view.ts";
import { numberField, textField } from "../components/fields.ts";
import { issueWords } from "../components/issue-words.ts";
import { copyOption } from "../edits/options.ts";
import { OptionComparison, type OptionLight } from "../light/compare-all.ts";
import type { View } from "./view.ts";

let comparison: OptionComparison | undefined;
/** Ends following the study's changes. */
let unfollow: () => void = () => {};
let current: { readonly lights: readonly OptionLight[]; readonly study: ResolvedStudy } | undefined;

/** One study of all options that are known, as the comparison takes it. */
function studyOf(app: AppView, lights: readonly OptionLight[]): ResolvedStudy | undefined {
  const answers = lights.flatMap(({ answer }) => (answer === undefined ? [] : [answer]));
  const [first] = answers;
  if (first === undefined) return undefined;
  if (current?.lights !== lights) {
    const { title, targets, options, defaults, warnings } = first;
    const scenes = answers.map((answer) => answer.scene);
    const study = {
      title,
      display: app.display,
      scenes,
      luminaires: new Map(),
      targets,
      options,
      defaults,
      warnings,
    };
    current = { lights, study };
  }
  return current.study;
}

export const compare: View = {
  entered(app) {
    const options = new OptionComparison(() => app.lighting.connection);
    const follow = (): void => options.setDocument(app.history.document, app.study.arrangements.length);
    options.addEventListener("light", () => app.redraw());
    app.history.addEventListener("change", follow);
    unfollow = () => app.history.removeEventListener("change", follow);
    comparison = options;
    follow();
  },

  sheet(app) {
    const lights = comparison?.lights ?? [];
    const study = studyOf(app, lights);
    const count = app.study.arrangements.length;
    const answered = lights.flatMap(({ arrangement, answer }) =>
      answer === undefined ? [] : [{ letter: letterOf(app, arrangement), answer }],
    );
    const assessments = answered.map(({ answer }) => answer.assessment);
    const letters = answered.map(({ letter }) => letter);
    const clashes = answered.map(({ answer }) => answer.clashes);
    return html`
      ${
        lights.length < count
          ? html`<p class="waiting-line">
              <progress max=${count} value=${lights.length} aria-label="Options computed"></progress>
              ${lights.length} of ${count} options computed.
            </p>`
          : nothing
      }
      ${lights.map(({ arrangement, issues }) =>
        issues === undefined
          ? nothing
          : html`<section class="refusal" aria-label="Not computed">
              <p>✕ ${app.study.arrangements[arrangement]?.name} cannot be computed.</p>
              <ul class="plain">${issues.map((issue) => html`<li>${issueWords(issue, app)}</li>`)}</ul>
              <p class="row-of-actions"><button type="button" @click=${() => {
                comparison?.retry();
                app.redraw();
              }}>Try again</button></p>
            </section>`,
      )}
      ${
        study === undefined
          ? nothing
          : html`<candlespan-comparison .study=${study} .assessments=${assessments} .expected=${count} .letters=${letters} .clashes=${clashes} .display=${app.display}></candlespan-comparison>`
      }
    `;
  },

  controls(app) {
    return html`<section class="part" aria-labelledby="compare-heading">
      <h2 id="compare-heading">Options</h2>
      <p class="hint">
        First what meets its targets and can be built, the more even light before the less even; then what misses its
        targets, the least missed first. Evenness that differs by less than 0.03 should decide nothing: no meter on site
        tells it apart. The same colour is the same light in every plan.
      </p>
      <ul class="plain option-list">
        ${inOrder(app).map((index) => optionItem(app, index, app.study.arrangements[index].name))}
      </ul>
      <div class="fields">
        ${numberField(app, {
          label: "Price of a kilowatt-hour",
          path: ["tariff", "perKilowattHour"],
          change: "price of a kilowatt-hour",
          from: 0,
          to: 1e6,
          optional: true,
          edits: (value) =>
            value === undefined
              ? [{ path: ["tariff"], value: undefined }]
              : [{ path: ["tariff"], value: { ...app.study.tariff, perKilowattHour: Number(value) } }],
        })}
        ${
          app.study.tariff === undefined
            ? nothing
            : textField(app, {
                label: "Currency",
                path: ["tariff", "currency"],
                change: "currency",
                optional: true,
              })
        }
      </div>
      <p class="hint">
        With it each option's cost over ten years is shown: price and lamps from its luminaires' fields, hours of use from its layers'.
      </p>
      <p class="row-of-actions">
        <button type="button" @click=${() => app.edit(copyOption(app.study, app.arrangement))}>
          Copy ${app.study.arrangements[app.arrangement].name}
        </button>
      </p>
    </section>`;
  },

  left() {
    unfollow();
    comparison?.stop();
    comparison = undefined;
    current = undefined;
  },
};

/** Options as their plans stand; those whose light is not known yet last. */
function inOrder(app: AppView): readonly number[] {
  const answers = (comparison?.lights ?? []).flatMap(({ arrangement, answer }) =>
    answer === undefined || app.study.arrangements[arrangement] === undefined
      ? []
      : [{ ...answer, arrangement }],
  );
  const first = ranked(answers).map(({ arrangement }) => arrangement);
  return [...first, ...app.study.arrangements.keys()].filter((index, at, all) => all.indexOf(index) === at);
}

function letterOf(app: AppView, index: number): string {
  return arrangementLetters(app.study.arrangements)[index];
}

function optionItem(app: AppView, index: number, name: string): TemplateResult {
  return html`<li>
    <p><strong>${letterOf(app, index)} ${name}</strong></p>
    <p class="row-of-actions">
      <button type="button" @click=${() => app.showField(["arrangements", index])}>
        Show in the drawings<span class="visually-hidden">: ${name}</span>
      </button>
      ${index === app.arrangement ? html`<span class="hint">They show it now.</span>` : nothing}
    </p>
  </li>`;
}
