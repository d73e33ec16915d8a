/** What a worker answers, host-free; the same functions on the main thread give the same bits. */

import { Engines } from "./engines.ts";
import { lightOfStudy } from "./light-of-study.ts";
import type { Answers } from "./serve.ts";
import { Files } from "./study-files.ts";

export function answers(): Answers {
  const files = new Files();
  const engines = new Engines();
  // What stands beside the light loads when it is first asked for.
  const side = () => import("./side-answers.ts");
  return {
    async files({ files: given }) {
      files.replace(given);
      return { ok: true, value: null, warnings: [] };
    },
    describe: async ({ files: given }) => {
      const { readings } = await import("./photometry-summary-line.ts");
      return { ok: true, value: readings(given), warnings: [] };
    },
    read: async ({ text, file }) => (await side()).studyOfText(text, file),
    plan: async (request, observer) => (await side()).planOfStudy(request, files, engines, observer),
    people: async (request, observer) => (await side()).peopleOfStudy(request, files, engines, observer),
    rules: async (request, observer) => (await side()).rulesOfStudy(request, files, engines, observer),
    beside: async (request, observer) => (await side()).besideOfStudy(request, files, engines, observer),
    room: async (request, observer) => (await side()).roomOfStudy(request, files, engines, observer),
    search: async (request, observer) =>
      (await import("./search-of-study.ts")).searchOfStudy(request, files, engines, observer),
    verify: async (request, observer) =>
      (await import("./verify-of-study.ts")).verifyOfStudy(request, files, engines, observer),
    light: (request, observer) => lightOfStudy(request, files, engines, observer),
  };
}
