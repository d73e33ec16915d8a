/** The page keeps a copy of itself to open without a network. */

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

/** Keeps a copy of the page for later, once the hand rests. */
export function keepOffline(): void {
  atRest(() => void register());
}

async function register(): Promise<void> {
  try {
    await navigator.serviceWorker.register("./service-worker.js");
  } catch {
    // Without it the page works the same, only not offline.
  }
}
