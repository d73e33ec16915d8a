/** Starts the app: on a shared study, else where the last visit left off, else on the worked example. */

import { CandlespanApp } from "./app.ts";
import { workedExample } from "./example.ts";
import type { Autosave } from "./storage/autosave.ts";
import type { GivenAt } from "./storage/given-files.ts";

async function start(): Promise<void> {
  const shared = location.hash.startsWith("#study=") ? location.hash : undefined;
  const app = new CandlespanApp();
  app.desk.addEventListener("files", async (event) => {
    const { takeFiles } = await import("./storage/open-files.ts");
    const { files, at } = (event as CustomEvent<{ files: readonly File[]; at: GivenAt }>).detail;
    await takeFiles(app.desk, files, at);
  });
  if (shared === undefined && hasEarlier()) {
    const autosave = await loadAutosave(app);
    const earlier = await autosave.earlier();
    if (earlier === undefined) app.desk.resume(await workedExample());
    else autosave.resume(earlier);
  } else app.desk.resume(await workedExample());
  document.getElementById("app")?.replaceWith(app);
  // A first visit has nothing to resume; what keeps the study loads after the first light.
  if (app.autosave === undefined) {
    await app.desk.lights.firstLight;
    await loadAutosave(app);
  }
  if (shared !== undefined) await openShared(app, shared);
  addEventListener("hashchange", () => {
    if (location.hash.startsWith("#study=")) void openShared(app, location.hash);
  });
  takeDrops(app);
  // After the first light: keeping a copy for later must not compete with it.
  if (import.meta.env.PROD && "serviceWorker" in navigator) atRest(() => void keepOffline());
}

async function loadAutosave(app: CandlespanApp): Promise<Autosave> {
  const { Autosave } = await import("./storage/autosave.ts");
  app.autosave = new Autosave(app.desk);
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

async function openShared(app: CandlespanApp, fragment: string): Promise<void> {
  const [{ unpackFragment }, { openStudy }] = await Promise.all([
    import("./storage/share.ts"),
    import("./storage/open-files.ts"),
  ]);
  const unpacked = unpackFragment(fragment);
  if (unpacked.kind === "refused") app.desk.refuse(unpacked.message, []);
  else if (unpacked.kind === "study") {
    await openStudy(app.desk, unpacked.text, "the link's study");
  }
  // The address is a copy of what is now a study of its own; later changes would make it lie.
  history.replaceState(null, "", location.pathname + location.search);
}

function takeDrops(app: CandlespanApp): void {
  let over = 0;
  const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes("Files") === true;
  addEventListener("dragenter", (event) => {
    if (!carriesFiles(event)) return;
    over++;
    app.dropping = true;
  });
  addEventListener("dragleave", (event) => {
    if (!carriesFiles(event)) return;
    over--;
    if (over <= 0) app.dropping = false;
  });
  addEventListener("dragover", (event) => {
    if (carriesFiles(event)) event.preventDefault();
  });
  addEventListener("drop", (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    over = 0;
    app.dropping = false;
    app.desk.takeFiles([...(event.dataTransfer?.files ?? [])]);
  });
}

/** Acts once the page has been left alone for a while, or has been open for long: a hand that works comes first. */
function atRest(act: () => void): void {
  const signs = ["pointermove", "pointerdown", "keydown", "wheel"];
  const rest = (): ReturnType<typeof setTimeout> => setTimeout(go, 2500);
  const wait = (): void => {
    clearTimeout(timer);
    timer = rest();
  };
  const go = (): void => {
    clearTimeout(timer);
    clearTimeout(longest);
    for (const sign of signs) removeEventListener(sign, wait, true);
    act();
  };
  const longest = setTimeout(go, 60_000);
  let timer = rest();
  for (const sign of signs) addEventListener(sign, wait, { capture: true, passive: true });
}

async function keepOffline(): Promise<void> {
  try {
    await navigator.serviceWorker.register("./service-worker.js");
  } catch {
    // Without it the page works the same, only not offline.
  }
}

void start();
