/**
 * Light that follows the hand: a coarse answer as soon as one can be had, a refined one when the hand rests,
 * and never an answer older than the one on screen.
 *
 * Two workers: one answers coarse requests and is free again as soon as their direct light is there, the other refines. Of the
 * requests that wait, only the newest is kept. A refined answer counts only for the very document on screen. Its interreflected light
 * stands in for the option it is of, while the study is edited, until the next full answer.
 */

import { Cancelled, type Issue, type Outcome } from "../../src/app.ts";
import type {
  Connection,
  InterreflectedLight,
  LightAnswer,
  LightRequest,
  Progress,
  Running,
  StudyFile,
} from "../../src/workers/browser.ts";
import type { Json } from "../store/pointer.ts";

/** What the screen shows of the light, and how good it is. */
export interface Shown {
  /** Number of the document it belongs to. */
  readonly sequence: number;
  readonly document: Json;
  readonly arrangement: number;
  readonly quality: LightRequest["quality"];
  readonly answer: LightAnswer;
}

export type LightState =
  | { readonly kind: "first"; readonly progress?: Progress }
  | { readonly kind: "coarse"; readonly progress?: Progress }
  | { readonly kind: "refined" }
  | { readonly kind: "issues"; readonly issues: readonly Issue[] }
  | { readonly kind: "fault"; readonly message: string };

export interface LightingOptions {
  /** Makes a worker: one for coarse light, one for refined light and questions, each when it is first wanted, and one for every
   * question set aside. */
  spawn(): Connection;
  /** How long the hand must rest before refining (ms). */
  readonly rest?: number;
  /** Calls back when the first light is drawn; what refines it, and what a moving hand needs, load then. */
  readonly afterFirst?: (go: () => void) => void;
}

interface Wanted {
  readonly sequence: number;
  readonly document: Json;
  readonly arrangement: number;
  readonly people: boolean | undefined;
  readonly setting: string | undefined;
}

/** From coarse to final. */
export const QUALITIES: readonly LightRequest["quality"][] = ["first", "quick", "full", "judged"];

/** Fires `light` when a better or newer answer is there, `state` when what is said about it changes. */
export class Lighting extends EventTarget {
  readonly #spawn: () => Connection;
  readonly #rest: number;
  readonly #afterFirst: (go: () => void) => void;
  #draft: Connection | undefined;
  #final: Connection | undefined;
  #files: readonly StudyFile[] = [];
  #wanted: Wanted | undefined;
  #quickRunning = false;
  #quickAsked = 0;
  /** The newest document that cannot be computed. */
  #refused = 0;
  #refining: (Running<LightAnswer> & { sequence: number }) | undefined;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #shown: Shown | undefined;
  /** Interreflected light of the last full answer, which stands in while the hand moves what it is of. */
  #stand: { readonly asked: Wanted; readonly light: InterreflectedLight } | undefined;
  #state: LightState = { kind: "first" };
  /** Whether two documents differ in nothing that light follows from; loaded after the first light. */
  hasSameLight: ((before: Json, after: Json) => boolean) | undefined;

  constructor(options: LightingOptions) {
    super();
    this.#spawn = options.spawn;
    this.#rest = options.rest ?? 140;
    this.#afterFirst = options.afterFirst ?? ((go) => setTimeout(go, 0));
  }

  get shown(): Shown | undefined {
    return this.#shown;
  }

  get state(): LightState {
    return this.#state;
  }

  /** Whether the light on screen belongs to an earlier document than the one last asked for. */
  get isBehind(): boolean {
    return this.#shown !== undefined && this.#shown.sequence !== this.#wanted?.sequence;
  }

  /** The worker for questions beside the light: files, comparisons. */
  get connection(): Connection {
    this.#final ??= this.#start();
    return this.#final;
  }

  /** A worker of its own for a long question; whoever asks closes it. */
  startAside(): Connection {
    return this.#start();
  }

  /** Hands the files of the study to both workers, now or when they start; those before are forgotten. */
  give(files: readonly StudyFile[]): void {
    this.#files = files;
    for (const connection of [this.#draft, this.#final]) {
      connection?.call("files", { files }).outcome.catch((error) => this.#fault(error));
    }
  }

  /** Asks for the light of a document and returns its number. While `moving`, refinement waits for the hand to
   * rest. */
  ask(document: Json, arrangement: number, moving: boolean, people?: boolean, setting?: string): number {
    const sequence = (this.#wanted?.sequence ?? 0) + 1;
    this.#wanted = { sequence, document, arrangement, people, setting };
    if (this.#refining !== undefined) {
      this.#refining.cancel();
      this.#refining = undefined;
    }
    clearTimeout(this.#timer);
    if (!moving && this.#isJudged(this.#wanted)) {
      // What is judged stays on screen: no coarse answer says more.
      this.#quickAsked = sequence;
      void this.#refine("judged");
      return sequence;
    }
    if (!this.#quickRunning) void this.#quick();
    if (!moving && this.#shown !== undefined) {
      this.#timer = setTimeout(() => this.#refine(), this.#rest);
    }
    return sequence;
  }

  /** Whether the judged light on screen is that of another document too. */
  #isJudged({ document, arrangement, people, setting }: Wanted): boolean {
    const asked = this.#stand?.asked;
    return (
      asked !== undefined &&
      this.#shown?.quality === "judged" &&
      this.#shown.sequence === asked.sequence &&
      asked.arrangement === arrangement &&
      asked.people === people &&
      asked.setting === setting &&
      this.hasSameLight?.(asked.document, document) === true
    );
  }

  close(): void {
    clearTimeout(this.#timer);
    this.#draft?.close();
    this.#final?.close();
    this.#draft = undefined;
  }

  #start(): Connection {
    const connection = this.#spawn();
    if (this.#files.length > 0) {
      connection.call("files", { files: this.#files }).outcome.catch((error) => this.#fault(error));
    }
    return connection;
  }

  async #quick(): Promise<void> {
    const next = this.#wanted;
    if (next === undefined || next.sequence === this.#quickAsked) return;
    this.#draft ??= this.#start();
    this.#quickRunning = true;
    this.#quickAsked = next.sequence;
    const { document, arrangement, people, setting } = next;
    try {
      const quality: Shown["quality"] = this.#shown === undefined ? "first" : "quick";
      const stand = this.#stand;
      const interreflected = stand !== undefined && isOfSame(stand.asked, next) ? stand.light : [];
      const request: LightRequest = { document, arrangement, quality, people, setting, interreflected };
      const { outcome } = this.#draft.call("light", request, (progress) => {
        // Only what takes long enough to report it, such as the tracing of a shade, is worth a word.
        if (this.#shown !== undefined && this.isBehind && this.#wanted === next) {
          this.#become({ kind: "coarse", progress });
        }
      });
      this.#take(await outcome, next, quality);
    } catch (error) {
      this.#fault(error);
    }
    this.#quickRunning = false;
    if (this.#wanted?.sequence !== this.#quickAsked) void this.#quick();
  }

  async #refine(quality: "full" | "judged" = "full"): Promise<void> {
    const next = this.#wanted;
    if (next === undefined || next.sequence === this.#refused) return;
    const { sequence, document, arrangement, people, setting } = next;
    const request = { document, arrangement, people, setting, quality };
    const running = this.connection.call("light", request, (progress) => {
      if (this.#refining?.sequence === sequence && quality === "full") {
        this.#become({ kind: "coarse", progress });
      }
    });
    this.#refining = { ...running, sequence };
    try {
      const outcome = await running.outcome;
      if (this.#wanted?.sequence === sequence) this.#take(outcome, next, quality);
    } catch (error) {
      this.#fault(error);
    }
    if (this.#refining?.sequence !== sequence) return;
    this.#refining = undefined;
    if (quality === "full" && this.#state.kind === "refined") void this.#refine("judged");
  }

  #take(outcome: Outcome<LightAnswer>, asked: Wanted, quality: Shown["quality"]): void {
    const { sequence, document, arrangement } = asked;
    const newest = this.#wanted?.sequence === sequence;
    if (!outcome.ok) {
      if (!newest) return;
      this.#refused = sequence;
      this.#become({ kind: "issues", issues: outcome.issues });
      return;
    }
    const last = this.#shown;
    if (last !== undefined && last.sequence > sequence) return;
    const better = last === undefined || QUALITIES.indexOf(quality) > QUALITIES.indexOf(last.quality);
    if (last?.sequence === sequence && !better) return;
    this.#shown = { sequence, document, arrangement, quality, answer: outcome.value };
    const isFinal = quality === "full" || quality === "judged";
    this.#state = isFinal ? { kind: "refined" } : { kind: "coarse" };
    if (isFinal) this.#stand = { asked, light: outcome.value.interreflected };
    this.dispatchEvent(new Event("light"));
    this.dispatchEvent(new Event("state"));
    if (quality === "first") this.#afterFirst(() => this.#goOn());
  }

  /** The first light calls for the second worker; every later refinement waits for its own rest. The first worker
   * meanwhile loads what a moving hand will need. */
  #goOn(): void {
    if (this.#draft === undefined) return;
    this.#quickAsked = 0;
    if (!this.#quickRunning) void this.#quick();
    if (this.#refining !== undefined) return;
    clearTimeout(this.#timer);
    void this.#refine();
  }

  #become(state: LightState): void {
    this.#state = state;
    this.dispatchEvent(new Event("state"));
  }

  #fault(error: unknown): void {
    if (error instanceof Cancelled) return;
    this.#become({ kind: "fault", message: error instanceof Error ? error.message : String(error) });
  }
}

/** Whether two documents are one study at two times: they share what was not edited, and another study shares nothing. */
function isOfSame(a: Wanted, b: Wanted): boolean {
  if (a.arrangement !== b.arrangement) return false;
  const [before, now] = [a.document, b.document] as readonly Readonly<Record<string, Json>>[];
  return Object.keys(now).some((key) => typeof now[key] === "object" && now[key] === before[key]);
}
