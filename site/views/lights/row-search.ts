/** Better rows of pendants: asks for a search, shows the few proposals with their reasons, adds one as an option. The answer and what is
 * wished for are kept with the study on screen until another search is asked for. */

import { html, nothing, type TemplateResult } from "lit";
import { type Issue, pendantShortlist, powerFigure, standsIn } from "../../../src/app.ts";
import type { Running, SearchAnswer } from "../../../src/workers/browser.ts";
import type { AppView } from "../../app-view.ts";
import { idOf, searchPath } from "../../components/field-id.ts";
import { lightText } from "../../components/words.ts";
import { addOption } from "../../edits/options.ts";
import type { RawArrangement } from "../../edits/raw-study.ts";
import { isSameSearch } from "../../edits/search-input.ts";
import { addLayer } from "./layer-fields.ts";

/** One search at a time, of one study. */
interface Search {
  running?: Running<SearchAnswer>;
  stage: string;
  /** The change of the study that ended it, if one did. */
  stoppedBy?: string;
  answer?: SearchAnswer;
  issues?: readonly Issue[];
}

interface Wishes {
  /** Luminaires that may not hang. */
  readonly without: Set<string>;
  pairs: boolean;
  faces: boolean;
  heads: boolean;
}

const searches = new WeakMap<AppView["lighting"], Search>();
const wishes = new WeakMap<AppView["lighting"], Wishes>();

const QUESTIONS: readonly (readonly ["pairs" | "faces" | "heads", string])[] = [
  ["faces", "People must see each other’s faces"],
  ["heads", "No head may reach a pendant"],
  ["pairs", "Two kinds may take turns"],
];

/** Where no pendants hang there is nothing to better yet. */
function noRows(app: AppView): TemplateResult {
  return html`<section class="part" aria-labelledby="search-heading">
    <h2 id="search-heading">Better rows</h2>
    <p class="hint">No pendants hang in this option.</p>
    <p class="row-of-actions"><button type="button" @click=${() => addLayer(app, "pendants", 3)}>Hang three pendants</button></p>
  </section>`;
}

export function rowSearchFields(app: AppView): TemplateResult | typeof nothing {
  const { layers } = app.study.arrangements[app.arrangement];
  const layer = layers.find(
    ({ role, row }) => role === "pendant" || (role === undefined && row !== undefined),
  );
  if (app.study.island === undefined) return nothing;
  if (layer === undefined) return noRows(app);
  const wish = wishes.get(app.lighting) ?? {
    pairs: false,
    faces: false,
    heads: false,
    without: new Set(),
  };
  wishes.set(app.lighting, wish);
  const search = searches.get(app.lighting);
  const busy = search?.running !== undefined;
  return html`<section class="part" aria-labelledby="search-heading">
    <h2 id="search-heading">Better rows</h2>
    <details>
      <summary>Search for pendants, count, spacing and height</summary>
      ${QUESTIONS.map(
        ([key, words]) => html`<label class="check"><input
          type="checkbox"
          .checked=${wish[key]}
          ?disabled=${busy}
          @change=${(event: Event) => {
            wish[key] = (event.target as HTMLInputElement).checked;
          }}
        /> ${words}</label>`,
      )}
      ${luminaireWishes(app, wish, busy)}
      <p class="row-of-actions">
        ${
          busy
            ? html`<button type="button" @click=${() => search !== undefined && stop(app, search)}>Stop the search</button>`
            : html`<button type="button" id=${idOf(searchPath(app.arrangement))} @click=${() => start(app, layer.name, wish)}>Search</button>`
        }
      </p>
      <p role="status">${search === undefined ? nothing : stateWords(search)}</p>
      ${search?.answer === undefined ? nothing : found(app, search.answer)}
    </details>
  </section>`;
}

type Shortlisted = Parameters<typeof pendantShortlist>[0];

/** Of the study what could hang, one's own before what stands in until one is chosen. */
function candidatesOf({ study }: AppView): string[] {
  const names = pendantShortlist(study as unknown as Shortlisted);
  return [...names].sort((a, b) => rankOf(study, [a]) - rankOf(study, [b]));
}

/** 1 where any of these luminaires stands in for one that is still to be chosen. */
function rankOf({ luminaires = {} }: AppView["study"], names: readonly string[]): 0 | 1 {
  const documents = luminaires as unknown as NonNullable<Shortlisted["luminaires"]>;
  return names.some((name) => documents[name] !== undefined && standsIn(documents[name])) ? 1 : 0;
}

/** Which luminaires of the study may be proposed. */
function luminaireWishes(app: AppView, { without }: Wishes, busy: boolean): TemplateResult {
  const names = candidatesOf(app);
  const count = names.length - names.filter((name) => without.has(name)).length;
  return html`<details>
    <summary>${count === names.length ? "Any pendant of the study" : `${count} of ${names.length} pendants`}</summary>
    ${names.map(
      (name) => html`<label class="check"><input
        type="checkbox"
        .checked=${!without.has(name)}
        ?disabled=${busy}
        @change=${(event: Event) => {
          if ((event.target as HTMLInputElement).checked) without.delete(name);
          else without.add(name);
          app.redraw();
        }}
      /> ${name}</label>`,
    )}
  </details>`;
}

function start(app: AppView, layer: string, { pairs, faces, heads, without }: Wishes): void {
  const { document } = app.history;
  const { study, arrangement } = app;
  const search: Search = { stage: "starting" };
  const luminaires = candidatesOf(app).filter((name) => !without.has(name));
  // A worker of its own: the light of the next edit does not wait for it.
  const connection = app.lighting.startAside();
  const running = connection.call(
    "search",
    {
      document,
      arrangement,
      layer,
      pairs,
      faces,
      heads,
      ...(without.size === 0 ? {} : { luminaires }),
    },
    ({ stage, fraction }) => {
      const words = `${stage}, ${Math.round(100 * fraction)} %`;
      if (words === search.stage) return;
      search.stage = words;
      app.redraw();
    },
  );
  search.running = running;
  const over = new AbortController();
  const changed = (): void => {
    if (isSameSearch(study, app.study, arrangement)) return;
    search.stoppedBy = app.history.done.at(-1)?.name ?? "another study";
    stop(app, search);
  };
  app.history.addEventListener("change", changed, { signal: over.signal });
  searches.set(app.lighting, search);
  app.redraw();
  running.outcome
    .then(
      (outcome) => {
        if (outcome.ok) search.answer = outcome.value;
        else search.issues = outcome.issues;
      },
      // Stopped, or a fault that the light itself reports.
      () => undefined,
    )
    .finally(() => {
      over.abort();
      connection.close();
      search.running = undefined;
      search.stage = "stopped";
      app.redraw();
    });
}

function stop(app: AppView, search: Search): void {
  search.running?.cancel();
  search.running = undefined;
  app.redraw();
}

function stateWords({ running, stage, stoppedBy, answer, issues }: Search): string {
  if (running !== undefined) return `Searching: ${stage}.`;
  if (issues !== undefined) return issues.map(({ message }) => message).join(" ");
  if (answer === undefined)
    return stoppedBy === undefined
      ? "The search was stopped."
      : `The search was stopped: “${stoppedBy}” changed what it rests on.`;
  const met = answer.proposals.some(({ verdict }) => verdict === "meets" || verdict === "no target");
  const summary = `${answer.candidates} rows compared, ${answer.checked} checked in full.`;
  if (answer.proposals.length === 0) return `${summary} No row can be hung within these wishes.`;
  return met ? summary : `${summary} Nothing meets every target; these come nearest.`;
}

function found(app: AppView, { proposals }: SearchAnswer): TemplateResult {
  const rank = ({ arrangement }: SearchAnswer["proposals"][number]): number =>
    rankOf(
      app.study,
      arrangement.layers.flatMap(({ luminaire, row }) => (row === undefined ? [] : [luminaire])),
    );
  return html`${[...proposals]
    .sort((a, b) => rank(a) - rank(b))
    .map(
      (proposal) => html`<article class="item">
      <h3>${proposal.arrangement.name}</h3>
      <p>
        ${proposal.verdict}: ${lightText(app, proposal.average)} on the top, evenness
        ${proposal.uniformity.toFixed(2)}, ${powerFigure(proposal.watts, proposal.unknownWatts, "at least")} W
      </p>
      <p>Why: ${proposal.reasons.join("; ")}.</p>
      ${proposal.skipOne === undefined ? nothing : html`<p>If you skip one: ${proposal.skipOne}.</p>`}
      <p class="row-of-actions">
        <button
          type="button"
          aria-label="Add ${proposal.arrangement.name} as an option"
          @click=${() => {
            const at = app.study.arrangements.length;
            app.edit(addOption(app.study, proposal.arrangement as unknown as RawArrangement));
            app.showArrangement(at);
          }}
        >Add as an option</button>
      </p>
    </article>`,
    )}`;
}
