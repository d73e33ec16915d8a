/** Goes on with the study of the last visit; where that is damaged, with its newest whole version, else with the worked example. */

import { workedExample } from "../example.ts";
import type { StudySession } from "../session.ts";
import type { Autosave } from "./autosave.ts";
import { isWhole } from "./sound-study.ts";
import type { KeptStudy } from "./study-database.ts";

export async function resumeEarlier(session: StudySession, autosave: Autosave): Promise<void> {
  const earlier = await earlierUnlessSkipped(autosave);
  if (earlier === undefined) {
    session.resume(await workedExample());
    return;
  }
  const done = earlier.done.filter(({ before, after }) => isWhole(before) && isWhole(after));
  if (isWhole(earlier.document)) {
    // One change that cannot be taken back would break the chain of those before it.
    const isChain = done.length === earlier.done.length;
    autosave.resume(isChain ? earlier : { ...earlier, done: [], undone: [] });
    // As it was left, before its light is asked for.
    const last = session.study.arrangements.length - 1;
    session.screen.arrangement = Math.max(0, Math.min(last, autosave.shownOption(earlier.id)));
    return;
  }
  const versions = await autosave.versions(earlier.id);
  const version = versions.find(({ document }) => isWhole(document));
  if (version !== undefined) {
    autosave.resume({ ...earlier, document: version.document, done: [], undone: [] });
    const at = new Date(version.saved).toLocaleString();
    session.refuse(`"${earlier.title}" was kept damaged. Its version of ${at} is on screen.`, []);
    return;
  }
  session.resume(await workedExample());
  session.refuse(
    `"${earlier.title}" was kept damaged and cannot be opened. The worked example is on screen; Study lists what else is kept.`,
    [],
  );
}

/** A page should not be blank for longer without a word (ms). */
const BLANK = 1000;

/** Says what the page waits for where the browser's database is slow to answer, and goes on without it when asked to. */
async function earlierUnlessSkipped(autosave: Autosave): Promise<KeptStudy | undefined> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const skipped = new Promise<undefined>((skip) => {
    timer = setTimeout(() => {
      const words = document.createElement("p");
      words.setAttribute("role", "status");
      words.textContent = "Looking for the study of your last visit in this browser's storage.";
      const button = document.createElement("button");
      button.textContent = "Start without it";
      button.addEventListener("click", () => skip(undefined));
      document.getElementById("app")?.replaceChildren(words, button);
    }, BLANK);
  });
  try {
    return await autosave.earlier(skipped);
  } finally {
    clearTimeout(timer);
  }
}
