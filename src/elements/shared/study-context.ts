/** What a `<candlespan-study>` gives to the elements inside it, by the context protocol of web components. */
import type { Context, ContextCallback } from "@lit/context";
import type { ReactiveController, ReactiveControllerHost } from "lit";
import type { GuidelineCard } from "../../advice/guidelines/guideline-card.ts";
import type { ArrangementAssessment } from "../../assessment/assessment.ts";
import type { ResolvedStudy } from "../../scene/resolved-study.ts";
import type { Scene } from "../../scene/scene.ts";
import type { FindingsSection } from "../../words/findings-sections.ts";
import type { Display } from "../../words/wording.ts";

/** One arrangement and its light. */
export interface ArrangementProperties {
  readonly study?: ResolvedStudy;
  readonly scene?: Scene;
  readonly assessment?: ArrangementAssessment;
}

/** The light of every arrangement, worked out where an element inside asks for it. */
export interface ComparisonProperties {
  readonly study?: ResolvedStudy;
  readonly assessments: readonly (ArrangementAssessment | undefined)[];
}

/** What there is to say beside the verdict, worked out where an element inside asks for it. */
export interface FindingsProperties {
  readonly sections: readonly FindingsSection[];
  readonly cards: readonly GuidelineCard[];
  readonly display?: Display;
}

const context = <T>(name: string) => Symbol.for(`candlespan ${name}`) as unknown as Context<unknown, T>;
export const arrangementContext = context<ArrangementProperties>("arrangement");
export const comparisonContext = context<ComparisonProperties>("comparison");
export const findingsContext = context<FindingsProperties>("findings");

/** Asks the study around an element for a context. The event of the protocol, made here so that a first light without
 * a study does not load the package that provides contexts. */
class ContextRequest<T> extends Event {
  readonly context: Context<unknown, T>;
  readonly contextTarget: Element;
  readonly callback: ContextCallback<T>;
  readonly subscribe = true;

  constructor(context: Context<unknown, T>, target: Element, callback: ContextCallback<T>) {
    super("context-request", { bubbles: true, composed: true });
    this.context = context;
    this.contextTarget = target;
    this.callback = callback;
  }
}

/** Sets properties of an element from the study around it. What the page sets itself stays; so does what an element
 * of the library hands to the elements in its own shadow. */
export class StudyProperties<T extends object> implements ReactiveController {
  readonly #host: ReactiveControllerHost & HTMLElement & Record<string, unknown>;
  readonly #context: Context<unknown, T>;
  readonly #names: readonly string[];
  /** Values that the page did not set, by property. */
  readonly #own = new Map<string, unknown>();
  #unsubscribe: (() => void) | undefined;

  /** @param names properties of the host that the context may set; their values by now count as not set */
  constructor(
    host: ReactiveControllerHost & HTMLElement,
    context: Context<unknown, T>,
    names: readonly (keyof T & string)[],
  ) {
    this.#host = host as ReactiveControllerHost & HTMLElement & Record<string, unknown>;
    this.#context = context;
    this.#names = names;
    for (const name of names) this.#own.set(name, this.#host[name]);
  }

  hostConnected(): void {
    // Without a registry nothing is around an element; inside another element, that one sets the properties.
    if (typeof customElements === "undefined" || isInsideElement(this.#host)) return;
    // Elements become what they are in the order of their definition: those inside may come before the study.
    if (customElements.get("candlespan-study") !== undefined) this.#request();
    else void customElements.whenDefined("candlespan-study").then(() => this.#request());
  }

  hostDisconnected(): void {
    this.#unsubscribe?.();
    this.#unsubscribe = undefined;
  }

  #request(): void {
    if (!this.#host.isConnected) return;
    const receive = (value: T, unsubscribe?: () => void): void => {
      this.#unsubscribe = unsubscribe;
      this.#set(value);
    };
    this.#host.dispatchEvent(new ContextRequest(this.#context, this.#host, receive));
  }

  #set(value: T): void {
    for (const name of this.#names) {
      if (this.#host[name] !== this.#own.get(name)) continue;
      const next = (value as Record<string, unknown>)[name];
      this.#host[name] = next;
      this.#own.set(name, next);
    }
  }
}

function isInsideElement(element: HTMLElement): boolean {
  const root = element.getRootNode();
  return root instanceof ShadowRoot && root.host.localName.startsWith("candlespan-");
}
