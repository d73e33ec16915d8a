/** The page keeps a copy of itself to open without a network, and says when a part of it cannot be had. */

import type { StudySession } from "./session.ts";

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

/** Keeps a copy of the page for later, once the hand rests, and speaks up for parts that are missing until then or after. */
export function keepOffline(session: StudySession): void {
  addEventListener("unhandledrejection", (event) => {
    if (MISSING_PART.test(String((event.reason as Error | undefined)?.message))) sayMissing(session);
  });
  if ("serviceWorker" in navigator) atRest(() => void register());
}

/** What browsers say of a module that was not there when it was asked for. */
const MISSING_PART = /dynamically imported module|importing a module script failed/i;

function sayMissing(session: StudySession): void {
  const words =
    "A part of this page could not be loaded: a newer version has replaced it, or there is no network. Reload the page to go on.";
  // Said once: where it can be shown by another missing part only, saying it again would ask for that part without end.
  if (session.screen.refusal?.words === words) return;
  session.screen.setRefusal({
    ...{ words, issues: [], heading: "Not loaded" },
    act: ["Reload", () => location.reload()],
  });
}

async function register(): Promise<void> {
  try {
    await navigator.serviceWorker.register("./service-worker.js");
  } catch {
    // Without it the page works the same, only not offline.
  }
}
