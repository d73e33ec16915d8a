/**
 * How long work keeps silent: processor time between two reports of progress, and between two looks at whether to stop, as shares of the
 * processor time of the whole, so that a slow or busy machine measures the same. Where it was silent before 2026-11-28: 41 % of a
 * second arrangement's light (its uncertainties), 24 % of a kitchen with 80 downlights (their direct light).
 */
import { describe, expect, it } from "vitest";
import example from "../../fixtures-data/boathouse/boathouse.study.json" with { type: "json" };
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import type { OpenStudy } from "../../src/app/open-document.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { searchRows } from "../../src/app/search.ts";
import type { Observer } from "../../src/diagnostics/cancelled.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { plainBoathouse } from "../fuzz/plain-boathouse.ts";

/** Of work that takes 1 to 5 s; measured 2 to 12 %, where a step of just-in-time compiling is most. */
const MOST_SILENT = 0.2;

class Silence implements Observer {
  readonly #start = process.cpuUsage();
  #reported = this.#start;
  #asked = this.#start;
  #stage = "the start";
  reports = 0;
  longest = { seconds: 0, after: "" };
  longestAsked = { seconds: 0, after: "" };

  progress = (stage: string): void => {
    this.#hear(stage);
    this.reports++;
  };

  cancelled = (): boolean => {
    const seconds = since(this.#asked);
    if (seconds > this.longestAsked.seconds) this.longestAsked = { seconds, after: this.#stage };
    this.#asked = process.cpuUsage();
    return false;
  };

  /** Shares of the whole. */
  end(): { readonly silent: number; readonly deaf: number; readonly words: string } {
    this.#hear("the end");
    this.cancelled();
    const whole = since(this.#start);
    const [silent, deaf] = [this.longest, this.longestAsked];
    return {
      silent: silent.seconds / whole,
      deaf: deaf.seconds / whole,
      words:
        `${whole.toFixed(2)} s of processor time, ${this.reports} reports; silent ${silent.seconds.toFixed(2)} s after ` +
        `"${silent.after}", not to be stopped ${deaf.seconds.toFixed(2)} s after "${deaf.after}"`,
    };
  }

  #hear(stage: string): void {
    const seconds = since(this.#reported);
    if (seconds > this.longest.seconds) this.longest = { seconds, after: this.#stage };
    this.#stage = stage;
    this.#reported = process.cpuUsage();
  }
}

function since(start: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}

const boathouse = plainBoathouse(example);
const opened = async (): Promise<OpenStudy> => orThrow(await openStudy(boathouse));

/** Four times the floor, nine pendants, forty downlights. */
async function largeKitchen(): Promise<OpenStudy> {
  const [{ layers, ...first }] = example.arrangements;
  const { bodies: _, people: __, ...rest } = boathouse as unknown as typeof example;
  const island = { ...rest.island, length: 4.8, width: 1.6, centre: [4.5, 4] };
  return orThrow(
    await openStudy({
      ...rest,
      room: { ...rest.room, length: 9, width: 8 },
      island,
      arrangements: [
        {
          ...first,
          layers: layers.map((layer) =>
            "grid" in layer
              ? { ...layer, grid: { columns: 10, rows: 4 } }
              : { ...layer, row: { ...layer.row, count: 9 } },
          ),
        },
      ],
    }),
  );
}

const light = async (study: OpenStudy, index: number, draft: boolean, observer: Observer): Promise<unknown> =>
  await arrangementLight(
    study,
    study.study.scenes[index],
    { draft, shadows: true, findings: "full" },
    observer,
  );

describe("never long without a word, nor deaf to a wish to stop", async () => {
  const study = await opened();
  const asked: Readonly<Record<string, (observer: Observer) => Promise<unknown>>> = {
    "first arrangement": (observer) => light(study, 0, false, observer),
    "second arrangement": (observer) => light(study, 1, false, observer),
    "large kitchen, draft": async (observer) => await light(await largeKitchen(), 0, true, observer),
    search: (observer) =>
      searchRows(study, { luminaires: ["dome"], counts: [2, 3], clearances: [0.8], wanted: 2 }, observer),
  };
  it.each(Object.keys(asked))(
    "%s",
    async (name) => {
      const silence = new Silence();
      await asked[name](silence);
      const { silent, deaf, words } = silence.end();
      console.log(`${name}: ${words}`);
      expect(silent).toBeLessThan(MOST_SILENT);
      expect(deaf).toBeLessThan(MOST_SILENT);
    },
    120_000,
  );
});
