/** Goes on with the study of the last visit; where that is damaged, with its newest whole version, else with the worked example. */

import { workedExample } from "../example.ts";
import type { StudySession } from "../session.ts";
import type { Autosave } from "./autosave.ts";
import { isWhole } from "./sound-study.ts";

export async function resumeEarlier(session: StudySession, autosave: Autosave): Promise<void> {
  const earlier = await autosave.earlier();
  if (earlier === undefined) {
    session.resume(await workedExample());
    return;
  }
  const done = earlier.done.filter(({ before, after }) => isWhole(before) && isWhole(after));
  if (isWhole(earlier.document)) {
    // One change that cannot be taken back would break the chain of those before it.
    const isChain = done.length === earlier.done.length;
    autosave.resume(isChain ? earlier : { ...earlier, done: [], undone: [] });
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
