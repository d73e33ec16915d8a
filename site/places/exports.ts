/** What can be handed over as a file. A new export joins this list; each loads when it is first asked for. */

import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import type { LightAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { studyText } from "../keep/out.ts";

export interface Made {
  /** Ending of the file's name, with its dot. */
  readonly ending: string;
  readonly type: string;
  readonly content: string | Uint8Array;
}

export interface Export {
  readonly name: string;
  readonly words: string;
  /** Makes the file from the option on screen and its refined light. */
  make(app: AppView, light: LightAnswer): Promise<Made>;
}

export const EXPORTS: readonly Export[] = [
  {
    name: "The plan with its isolux lines",
    words: "SVG: one sheet to scale, verdict and figures beside it.",
    async make(app) {
      const { embedded: _, ...document } = app.study;
      const { arrangement, withPeople: people } = app;
      const running = app.lighting.connection.call("plan", { document, arrangement, people });
      return { ending: ".plan.svg", type: "image/svg+xml", content: orThrow(await running.outcome) };
    },
  },
  {
    name: "Illuminance at every point",
    words: "CSV: place, total and each layer's part, in metres and lux.",
    async make(_app, light) {
      const { illuminanceCsv } = await import("../../src/presentation/export/csv.ts");
      return {
        ending: ".lux.csv",
        type: "text/csv;charset=utf-8",
        content: illuminanceCsv(light.scene, light.assessment),
      };
    },
  },
  {
    name: "The study",
    words: "JSON: everything, with its photometric files inside.",
    async make(app) {
      return { ending: ".study.json", type: "application/json", content: studyText(app.study) };
    },
  },
];
