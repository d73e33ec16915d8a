/** What a worker answers, host-free; the same functions on the main thread give the same bits. */

import { Engines, Files, lightOfStudy } from "./light-of-study.ts";
import type { FileReading, StudyFile } from "./protocol.ts";
import type { Answers } from "./serve.ts";

export function answers(): Answers {
  const files = new Files();
  const engines = new Engines();
  // What stands beside the light loads when it is first asked for.
  const side = () => import("./side-answers.ts");
  return {
    async files({ files: given, describe = false }) {
      for (const { path, content } of given) await files.put(path, content);
      return { ok: true, value: describe ? await readings(given, files) : [], warnings: [] };
    },
    read: async ({ text, file }) => (await side()).studyOfText(text, file),
    plan: async (request, observer) => (await side()).planOfStudy(request, files, engines, observer),
    people: async (request, observer) => (await side()).peopleOfStudy(request, files, engines, observer),
    rules: async (request, observer) => (await side()).rulesOfStudy(request, files, engines, observer),
    light: (request, observer) => lightOfStudy(request, files, engines, observer),
  };
}

/** One line a file. The summary is heavy and nobody's first light waits for it, so it loads when asked for. */
async function readings(given: readonly StudyFile[], files: Files): Promise<FileReading[]> {
  const { readingLine } = await import("./reading-line.ts");
  return given.map(({ path }) => {
    const outcome = files.photometry(path);
    const name = path.replace(/^.*\//, "");
    return outcome.ok
      ? { path, ok: true, line: readingLine(name, outcome.value), issues: outcome.warnings }
      : { path, ok: false, line: `${name} could not be read.`, issues: outcome.issues };
  });
}
