/** What a worker answers, host-free; the same functions on the main thread give the same bits. */

import { readJson } from "../diagnostics/json-text.ts";
import { migrate } from "../scene/migrate.ts";
import { readStudy } from "../scene/study.ts";
import { Engines, Files, lightOfStudy, peopleOfStudy, planOfStudy, rulesOfStudy } from "./light-of-study.ts";
import type { FileReading, StudyFile } from "./protocol.ts";
import type { Answers } from "./serve.ts";

export function answers(): Answers {
  const files = new Files();
  const engines = new Engines();
  return {
    async files({ files: given, describe = false }) {
      for (const { path, content } of given) await files.put(path, content);
      return { ok: true, value: describe ? await readings(given, files) : [], warnings: [] };
    },

    read({ text, file }) {
      const checked = readStudy(text, file);
      if (!checked.ok) return checked;
      // The document as it was written, lengths with their units, lifted to the present version.
      const json = readJson(text, file);
      return json.ok
        ? { ok: true, value: { document: migrate(json.value.value) }, warnings: checked.warnings }
        : json;
    },

    plan: (request, observer) => planOfStudy(request, files, engines, observer),

    people: (request, observer) => peopleOfStudy(request, files, engines, observer),

    rules: (request, observer) => rulesOfStudy(request, files, engines, observer),

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
