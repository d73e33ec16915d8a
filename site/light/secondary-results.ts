/**
 * What is asked about the option on screen beside its light, each only while somebody looks at the answer: what
 * people take from the light, what the published rules would give, what else there is to say, how the room will look.
 */

import type { FindingsSection, GuidelineCard } from "../../src/app.ts";
import type { Json } from "../store/pointer.ts";
import { LazyResult } from "./lazy-result.ts";
import type { Lighting } from "./lighting.ts";
import { RoomLightState, type ShownRoom } from "./room-light-state.ts";

type Call = "people" | "rules" | "beside";

export class SecondaryResults extends EventTarget {
  readonly #lighting: Lighting;
  readonly #people = this.#about("people");
  readonly #rules = this.#about("rules");
  readonly #beside = this.#about("beside");
  readonly #rooms = [this.#room("sketch"), this.#room("full")] as const;
  readonly #otherRooms = [this.#room("sketch"), this.#room("full")] as const;

  readonly #shown = new RoomLightState();
  readonly #otherShown = new RoomLightState();

  constructor(lighting: Lighting) {
    super();
    this.#lighting = lighting;
  }

  #about<C extends Call>(call: C) {
    return this.#heard(
      new LazyResult((document, arrangement) =>
        this.#lighting.connection.call(call, { document, arrangement }),
      ),
    );
  }

  #room(quality: "sketch" | "full") {
    return this.#heard(
      new LazyResult((document, arrangement) =>
        this.#lighting.connection.call("room", { document, arrangement, quality }),
      ),
    );
  }

  #heard<Q extends EventTarget>(question: Q): Q {
    question.addEventListener("answer", () => this.dispatchEvent(new Event("answer")));
    return question;
  }

  /** Only a light that stands is worth asking about. */
  get #atRest(): boolean {
    const { shown } = this.#lighting;
    return shown !== undefined && !this.#lighting.isBehind && shown.quality === "judged";
  }

  /** Shadows of people, and the images they see in the top. */
  people(document: Json, arrangement: number) {
    return this.#atRest ? this.#people.of(document, arrangement) : undefined;
  }

  forgetPeople(): void {
    this.#people.stop();
  }

  rules(document: Json, arrangement: number): readonly GuidelineCard[] | undefined {
    return this.#atRest ? this.#rules.of(document, arrangement) : undefined;
  }

  /** The light on every surface, sketched until it is there in full; `other` is the option beside it in the same
   * picture. */
  room(document: Json, arrangement: number, other = false): ShownRoom | undefined {
    if (!this.#atRest) return undefined;
    const [sketch, full] = other ? this.#otherRooms : this.#rooms;
    const first = sketch.of(document, arrangement);
    if (first === undefined) return undefined;
    const whole = full.of(document, arrangement);
    return (other ? this.#otherShown : this.#shown).of(first, whole);
  }

  beside(document: Json, arrangement: number): readonly FindingsSection[] | undefined {
    return this.#atRest ? this.#beside.of(document, arrangement) : undefined;
  }
}
