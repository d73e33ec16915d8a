/**
 * A run over mutated inputs. Input i of a seed is the same on every machine: a run can stop and go on, and a fault can be looked at again.
 *
 * Time: reading alone, against what the sound sample takes, longer in proportion where the mutation made it longer. One that took more
 * than {@link SLOW} times that is read again, and the least of several times stands.
 */
import { deflateSync, strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { unpackFragment } from "../../site/storage/share.ts";
import { randomStream } from "../support/random-stream.ts";
import { kitchen, resolved } from "../support/studies.ts";
import { answerOf, type Input, type Kind } from "./answers.ts";
import { mutated, type Random } from "./mutations.ts";

export { samplesOf } from "./samples.ts";

const SLOW = 2;
/** Below this (ms) a time says more about the machine than about the reader. */
const LEAST = 0.5;

export interface Fault {
  readonly index: number;
  readonly sample: string;
  readonly what: string;
  readonly bytes: Uint8Array;
}

export interface Summary {
  inputs: number;
  readonly read: Record<Kind, number>;
  readonly refused: Record<Kind, number>;
  faults: number;
  worst: { ratio: number; index: number; sample: string; time: number };
  longest: { time: number; index: number; sample: string };
  /** Largest resident memory (bytes). */
  memory: number;
}

const none = (): Record<Kind, number> => ({
  photometry: 0,
  study: 0,
  shades: 0,
  readings: 0,
  link: 0,
  record: 0,
});

export function emptySummary(): Summary {
  return {
    inputs: 0,
    read: none(),
    refused: none(),
    faults: 0,
    worst: { ratio: 0, index: -1, sample: "", time: 0 },
    longest: { time: 0, index: -1, sample: "" },
    memory: 0,
  };
}

/** Half of the packed inputs are mutated before they are packed: their content, not their wrapping. */
function mutatedWithin(sample: Input, other: Input, random: Random): Uint8Array {
  if (random() < 0.5) {
    if (sample.kind === "link") {
      const unpacked = unpackFragment(strFromU8(sample.bytes));
      if (unpacked.kind === "study")
        return strToU8(packText(mutated(strToU8(unpacked.text), other.bytes, random)));
    }
    if (/\.gldf$/i.test(sample.name)) {
      const files = Object.entries(unzipSync(sample.bytes));
      const chosen = Math.floor(random() * files.length);
      return zipSync(
        Object.fromEntries(
          files.map(([name, bytes], i) => [name, i === chosen ? mutated(bytes, other.bytes, random) : bytes]),
        ),
      );
    }
  }
  return mutated(sample.bytes, other.bytes, random);
}

/** As a link packs it, whatever the text. */
function packText(bytes: Uint8Array): string {
  return `study=1.${Buffer.from(deflateSync(bytes)).toString("base64url")}`;
}

export class MutatedInputs {
  readonly #samples: readonly Input[];
  readonly #photometry: readonly Input[];
  readonly #others: readonly Input[];
  readonly #seed: number;
  readonly #scene = resolved(kitchen()).scenes[0];
  readonly #yardsticks = new Map<Input, number>();

  constructor(samples: readonly Input[], seed: number) {
    this.#samples = samples;
    this.#photometry = samples.filter(({ kind }) => kind === "photometry");
    this.#others = samples.filter(({ kind }) => kind !== "photometry");
    this.#seed = seed;
    const store = new Map<string, string>();
    globalThis.localStorage ??= {
      getItem: (key: string) => store.get(key) ?? null,
      setItem: (key: string, value: string) => void store.set(key, value),
    } as Storage;
  }

  /** Faults of the samples as they are: there must be none. */
  unsound(): string[] {
    return this.#samples.flatMap((sample) => {
      const { kind, fault } = answerOf(sample, randomStream(1), this.#scene);
      return kind === "read" && fault === undefined ? [] : [`${sample.name}: ${fault ?? kind}`];
    });
  }

  /** Input number `index`, as it was mutated. */
  input(index: number): { sample: Input; input: Input; random: Random } {
    const random = randomStream(this.#seed * 7_919 + index * 104_729);
    const list = random() < 0.7 ? this.#photometry : this.#others;
    const sample = list[Math.floor(random() * list.length)];
    const other = this.#samples[Math.floor(random() * this.#samples.length)];
    const input = { ...sample, bytes: mutatedWithin(sample, other, random) };
    return { sample, input, random };
  }

  /** Answers input number `index` into `summary`. */
  answer(index: number, summary: Summary): Fault | undefined {
    const { sample, input, random } = this.input(index);
    const answer = answerOf(input, random, this.#scene);
    summary.inputs++;
    summary[answer.kind][input.kind]++;
    let { time } = answer;
    const yardstick = this.#yardstick(sample) * Math.max(1, input.bytes.length / sample.bytes.length);
    if (time > SLOW * yardstick) time = Math.min(time, this.#time(input, 5));
    const ratio = time / yardstick;
    if (ratio > summary.worst.ratio) summary.worst = { ratio, index, sample: sample.name, time };
    if (time > summary.longest.time) summary.longest = { time, index, sample: sample.name };
    if (index % 100 === 0) summary.memory = Math.max(summary.memory, process.memoryUsage.rss());
    if (answer.fault === undefined) return undefined;
    summary.faults++;
    return { index, sample: sample.name, what: answer.fault, bytes: input.bytes };
  }

  #yardstick(sample: Input): number {
    const known = this.#yardsticks.get(sample) ?? Math.max(LEAST, this.#time(sample, 9));
    this.#yardsticks.set(sample, known);
    return known;
  }

  /** Least of several times (ms). */
  #time(input: Input, times: number): number {
    const each = Array.from({ length: times }, () => answerOf(input, () => 0.99, this.#scene).time);
    return Math.min(...each);
  }
}
