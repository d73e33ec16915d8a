/** Starts the app: on a shared study, else where the last visit left off, else on the worked example. */

import { CandlespanApp } from "./app.ts";
import { workedExample } from "./example.ts";
import type { Autosave } from "./storage/autosave.ts";
import type { GivenAt } from "./storage/given-files.ts";

async function start(): Promise<void> {
  const shared = location.hash.startsWith("#study=") ? location.hash : undefined;
  const app = new CandlespanApp();
  app.session.addEventListener("files", async (event) => {
    const { takeFiles } = await import("./storage/open-files.ts");
    const { files, at } = (event as CustomEvent<{ files: readonly File[]; at: GivenAt }>).detail;
    await takeFiles(app.session, files, at);
  });
  if (shared === undefined && hasEarlier()) {
    const autosave = await loadAutosave(app);
    const { resumeEarlier } = await import("./storage/resume-earlier.ts");
    await resumeEarlier(app.session, autosave);
  } else if (shared === undefined || !(await (await openShared()).resumeShared(app.session, shared)))
    app.session.resume(await workedExample());
  document.getElementById("app")?.replaceWith(app);
  // A first visit has nothing to resume; what keeps the study loads after the first light.
  if (app.autosave === undefined) {
    await app.session.lights.firstLight;
    await loadAutosave(app);
  }
  // A study that came by a link is one of those kept from now on.
  if (shared !== undefined) await app.autosave?.begin();
  addEventListener("hashchange", () => {
    if (location.hash.startsWith("#study="))
      void openShared().then((module) => module.openShared(app.session, location.hash));
  });
  // After the first light, with which neither must compete.
  void import("./components/dropped-files.ts").then(({ takeDrops }) => takeDrops(app));
  if (import.meta.env.PROD)
    void import("./keep-offline.ts").then(({ keepOffline }) => keepOffline(app.session));
}

const openShared = () => import("./storage/open-shared.ts");

async function loadAutosave(app: CandlespanApp): Promise<Autosave> {
  const { Autosave } = await import("./storage/autosave.ts");
  app.autosave = new Autosave(app.session);
  return app.autosave;
}

/** Whether an earlier visit left something: a cheap look, before anything is loaded. */
function hasEarlier(): boolean {
  try {
    return localStorage.getItem("candlespan-last") !== null;
  } catch {
    return false;
  }
}

void start();
