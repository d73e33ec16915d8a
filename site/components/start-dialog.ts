/**
 * Starts one's own kitchen: a few sizes, of which only the island's and the ceiling's are asked for, and a top lit by a typical pendant.
 *
 * A field left as it is stays typical and says so. What the study cannot hold is said at its field, in the units on screen.
 */

import { html, type LitElement, nothing, type TemplateResult } from "lit";
import {
  Cancelled,
  downlightGrid,
  type Issue,
  type NewStudy,
  readTypedLength,
  type TypedLength,
  usualPendants,
} from "../../src/app.ts";
import type { Display } from "../app-view.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import { withWholeTop } from "../edits/zones.ts";
import type { StudySession } from "../session.ts";
import type { Json, Path } from "../store/pointer.ts";
import { saidIssues } from "./issue-words.ts";
import { typedValue } from "./typed-value.ts";
import { usualLengths } from "./usual-lengths.ts";
import { lengthText } from "./words.ts";

type LengthName =
  | "length"
  | "width"
  | "height"
  | "ceilingHeight"
  | "roomLength"
  | "roomWidth"
  | "fromLeft"
  | "fromFoot";
type CountName = "seats" | "pendants";

interface LengthRow {
  readonly name: LengthName;
  /** Of the study, where the same length stands. */
  readonly path: Path;
  readonly label: string;
  /** What stands for it while nobody has typed anything (m). */
  typical(given: (name: LengthName) => number): number;
  readonly why: string;
}

/** All round the island, as the study to start from takes it (m). */
const AISLE = 1.2;

const LENGTHS: readonly LengthRow[] = [
  { name: "length", path: ["island", "length"], label: "Island length", typical: () => 2.4, why: "typical" },
  { name: "width", path: ["island", "width"], label: "Island width", typical: () => 1.1, why: "typical" },
  {
    name: "height",
    path: ["island", "height"],
    label: "Height of its top",
    typical: () => 0.914,
    why: "typical, 36 in",
  },
  {
    name: "ceilingHeight",
    path: ["room", "ceilingHeight"],
    label: "Ceiling height",
    typical: () => 2.6,
    why: "typical",
  },
  {
    name: "roomLength",
    path: ["room", "length"],
    label: "Room, along the island",
    typical: (given) => given("length") + 2 * AISLE,
    why: "the island and an aisle all round",
  },
  {
    name: "roomWidth",
    path: ["room", "width"],
    label: "Room, across it",
    typical: (given) => given("width") + 2 * AISLE,
    why: "the island and an aisle all round",
  },
  {
    name: "fromLeft",
    path: ["island", "centre", 0],
    label: "Left wall to the island",
    typical: (given) => (given("roomLength") - given("length")) / 2,
    why: "in the middle of the room",
  },
  {
    name: "fromFoot",
    path: ["island", "centre", 1],
    label: "Near wall to the island",
    typical: (given) => (given("roomWidth") - given("width")) / 2,
    why: "in the middle of the room",
  },
];

/** Why no kitchen can be started so: the sizes that do not go together, and what hangs in it only where they do. */
export function refusalWords(issues: readonly Issue[], display: Display): readonly string[] {
  // Of the kitchen that is wanted, not of the one on screen: nothing in it has a name of its own yet.
  const wanted = { study: { arrangements: [] } as unknown as RawStudy, display };
  const sizes = issues.filter(({ where }) => where.path?.startsWith("/arrangements") !== true);
  const said = saidIssues(sizes.length === 0 ? issues : sizes, wanted);
  return said.map(({ place, words }) => (place === "" ? words : `${place}: ${words}`));
}

export class StartDialog {
  readonly #session: StudySession;
  /** Where the dialog is drawn. */
  readonly #page: LitElement;
  /** Called when the study is on screen. */
  readonly #started: () => void;
  readonly #texts = new Map<LengthName | CountName, string>();
  #hob = false;
  #sink = false;
  #problems = new Map<string, string>();
  #issues: readonly string[] = [];

  constructor(session: StudySession, page: LitElement, started: () => void) {
    this.#session = session;
    this.#page = page;
    this.#started = started;
  }

  async show(): Promise<void> {
    this.#session.redraw();
    await this.#page.updateComplete;
    const dialog = this.#dialog;
    if (dialog === null || dialog.open) return;
    dialog.showModal();
    dialog.querySelector<HTMLInputElement>("#start-length")?.select();
  }

  get #dialog(): HTMLDialogElement | null {
    return this.#page.querySelector("dialog.start");
  }

  render(): TemplateResult {
    const pendants = usualPendants(this.#metres("length"));
    return html`<dialog class="start" aria-labelledby="start-heading">
      <form novalidate @submit=${(event: Event) => {
        event.preventDefault();
        void this.#start();
      }}>
        <h2 id="start-heading">Start my own kitchen</h2>
        <div class="fields">
          ${LENGTHS.map((row) => this.#length(row))}
          ${this.#count("seats", "Seats at the island", 0, "none")}
          ${this.#count("pendants", "Pendants", pendants, "one for each 800 mm")}
        </div>
        <p class="choices">
          <label class="check"><input type="checkbox" .checked=${this.#hob} @change=${(event: Event) => {
            this.#hob = (event.target as HTMLInputElement).checked;
          }}> A hob in it</label>
          <label class="check"><input type="checkbox" .checked=${this.#sink} @change=${(event: Event) => {
            this.#sink = (event.target as HTMLInputElement).checked;
          }}> A sink in it</label>
        </p>
        <p class="hint">
          A typical pendant lights it, with ${this.#downlights} typical downlights in the ceiling and typical finishes; each is
          marked until it is set. Where you see Set, a usual value stands in: press it, or type your own, to confirm it. None
          has to be pressed before you light it; the top’s height and place stay marked for the electrician until they are
          set. Targets are usual ones until you set yours. The kitchen on screen is kept.
        </p>
        ${this.#issues.length === 0 ? nothing : html`<ul class="plain problems" role="alert">${this.#issues.map((words) => html`<li>✕ ${words}</li>`)}</ul>`}
        <p class="row-of-actions">
          <button type="submit" class="primary">Light it</button>
          <button type="button" @click=${() => this.#dialog?.close()}>Close</button>
        </p>
      </form>
    </dialog>`;
  }

  #length({ name, label, typical, why }: LengthRow): TemplateResult {
    return this.#field(
      name,
      label,
      lengthText(
        this.#session,
        typical((other) => this.#metres(other)),
      ),
      why,
    );
  }

  #count(name: CountName, label: string, typical: number, why: string): TemplateResult {
    return this.#field(name, label, String(typical), why);
  }

  #field(name: LengthName | CountName, label: string, typical: string, why: string): TemplateResult {
    const accept = (): void => {
      this.#texts.set(name, typical);
      this.#session.redraw();
    };
    const id = `start-${name}`;
    const problem = this.#problems.get(name);
    return html`<div class="field">
      <label for=${id}>${label}</label>
      <input
        id=${id}
        type="text"
        autocomplete="off"
        .value=${typedValue(this.#shown(name) ?? typical)}
        aria-describedby="${id}-why"
        aria-invalid=${problem === undefined ? nothing : "true"}
        @change=${(event: Event) => this.#typed(name, (event.target as HTMLInputElement).value.trim(), typical)}
      >
      <p class=${problem === undefined ? "hint" : "problem"} id="${id}-why">${
        problem !== undefined
          ? `✕ ${problem}`
          : this.#texts.has(name)
            ? this.#yours(name)
            : html`${why}. <button type="button" class="text" aria-label="Set ${label.toLowerCase()} as it is" @click=${accept}>Set</button>`
      }</p>
    </div>`;
  }

  /** What was typed, a length with its unit once it can be read. */
  #shown(name: LengthName | CountName): string | undefined {
    const text = this.#texts.get(name);
    if (text === undefined || name === "seats" || name === "pendants" || this.#problems.has(name))
      return text;
    return lengthText(this.#session, this.#metres(name));
  }

  #typed(name: LengthName | CountName, text: string, typical: string): void {
    if (text === "" || (text === typical && !this.#texts.has(name))) this.#texts.delete(name);
    else this.#texts.set(name, text);
    this.#read(name);
    this.#session.redraw();
  }

  /** What is wrong with a text, noted at its field. */
  #read(name: LengthName | CountName): void {
    const text = this.#texts.get(name);
    this.#problems.delete(name);
    if (text === undefined) return;
    if (name === "seats" || name === "pendants") {
      const most = 12;
      const least = name === "seats" ? 0 : 1;
      if (!/^\d+$/.test(text) || Number(text) < least || Number(text) > most)
        this.#problems.set(name, `Expected a whole number from ${least} to ${most}.`);
      return;
    }
    const read = this.#typedLength(name, text);
    if (!read.ok) this.#problems.set(name, `${read.problem}. Expected ${read.expected}.`);
  }

  /** What a field stands at (m): as typed, else typical. */
  #metres(name: LengthName): number {
    const text = this.#texts.get(name);
    const read = text === undefined ? undefined : this.#typedLength(name, text);
    // To a micrometre, as every field keeps metres: a millimetre has no exact double.
    if (read?.ok) return Math.round(read.metres * 1e6) / 1e6;
    return this.#typical(name);
  }

  #typical(name: LengthName): number {
    const row = LENGTHS.find((each) => each.name === name) as LengthRow;
    return row.typical((other) => this.#metres(other));
  }

  #typedLength(name: LengthName, text: string): TypedLength {
    const { study, display } = this.#session;
    const { path } = LENGTHS.find((each) => each.name === name) as LengthRow;
    return readTypedLength(text, display.length, this.#typical(name), usualLengths(study, path));
  }

  /** How a bare number of one's own was read. */
  #yours(name: LengthName | CountName): string {
    const text = this.#texts.get(name);
    if (text === undefined || name === "seats" || name === "pendants") return "yours";
    const read = this.#typedLength(name, text);
    if (!read.ok || !read.isInOtherUnit) return "yours";
    return `yours, read as ${read.text}${read.otherwise === undefined ? "" : `, not ${read.otherwise.text}`}`;
  }

  get #wanted(): NewStudy {
    const seats = Number(this.#texts.get("seats") ?? 0);
    const pendants = this.#texts.get("pendants");
    return {
      length: this.#metres("length"),
      width: this.#metres("width"),
      ...(this.#texts.has("height") ? { height: this.#metres("height") } : {}),
      ...(this.#texts.has("fromLeft") || this.#texts.has("fromFoot") ? { centre: this.#centre } : {}),
      ceilingHeight: this.#metres("ceilingHeight"),
      room: { length: this.#metres("roomLength"), width: this.#metres("roomWidth") },
      seats,
      hob: this.#hob,
      sink: this.#sink,
      ...(pendants === undefined ? {} : { pendants: Number(pendants) }),
      display: this.#session.display,
    };
  }

  /** Where one of its two distances is not said, the island stays in the middle that way. */
  get #centre(): readonly [number, number] {
    return [
      this.#metres("fromLeft") + this.#metres("length") / 2,
      this.#metres("fromFoot") + this.#metres("width") / 2,
    ];
  }

  get #downlights(): number {
    const { columns, rows } = downlightGrid({
      length: this.#metres("roomLength"),
      width: this.#metres("roomWidth"),
    });
    return columns * rows;
  }

  /** The next kitchen begins with usual sizes again. */
  #forget(): void {
    this.#texts.clear();
    this.#hob = false;
    this.#sink = false;
  }

  async #start(): Promise<void> {
    for (const name of this.#texts.keys()) this.#read(name);
    this.#issues = [];
    if (this.#problems.size > 0) {
      this.#session.redraw();
      return;
    }
    const session = this.#session;
    try {
      const outcome = await session.lighting.connection.call("start", this.#wanted).outcome;
      if (outcome.ok) {
        this.#dialog?.close();
        const study = withWholeTop(outcome.value as unknown as RawStudy);
        await session.open(study as unknown as Json, "start a kitchen");
        session.say(
          `Lit by a typical pendant, with ${this.#downlights} typical downlights in the ceiling, until you hang others under Lights.`,
        );
        this.#forget();
        this.#started();
      } else this.#issues = refusalWords(outcome.issues, session.display);
    } catch (error) {
      if (!(error instanceof Cancelled))
        this.#issues = [error instanceof Error ? error.message : String(error)];
    }
    session.redraw();
  }
}
