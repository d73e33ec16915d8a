/**
 * What the viewer must show, measured: first light with a cold cache and the JavaScript it took, the plan
 * following a drag, and the refinement after letting go.
 */
import { firstLight, refined, type Viewer } from "./viewer.ts";

export interface ViewerFigures {
  /** ms from navigation to the light drawn on the plan */
  readonly firstLight: number;
  /** labelled isolux lines on the plan at that moment */
  readonly lines: number;
  /** gzip bytes of scripts asked for by then, page and worker together; each file once */
  readonly script: number;
  /** ms from each move of the hand to the plan drawn with its light, ascending */
  readonly drag: readonly number[];
  /** ms from each move to the end of the frame that shows it, ascending */
  readonly seen: readonly number[];
  /** ms from letting go to the refined light drawn */
  readonly refinement: number;
  /** ms from first light to the first refined light, which loads what refining needs */
  readonly firstRefinement: number;
}

interface Log {
  readonly asked: Map<number, number>;
  readonly drawn: Drawn[];
}

interface Drawn {
  readonly sequence: number;
  readonly quality: string;
  readonly at: number;
  seen?: number;
}

export async function measureViewer(viewer: Viewer): Promise<ViewerFigures> {
  const context = await viewer.browser.newContext({
    viewport: { width: 1440, height: 900 },
    serviceWorkers: "allow",
  });
  const page = await context.newPage();
  // The page says when it is lit; what is on the plan then is counted here.
  await page.addInitScript(() => {
    const mark = performance.mark.bind(performance);
    performance.mark = (name, options) => {
      const plan = document.querySelector("candlespan-sheet")?.shadowRoot?.querySelector("candlespan-plan");
      if (name === "first light")
        Object.assign(window, { lines: plan?.shadowRoot?.querySelectorAll("text.iso").length ?? 0 });
      return mark(name, options);
    };
  });
  const before = viewer.asked.length;
  await page.goto(viewer.server.address);
  await firstLight(page);
  const [light, litAt, lines] = await page.evaluate(() => {
    const { startTime } = performance.getEntriesByName("first light")[0];
    return [startTime, performance.timeOrigin + startTime, (window as unknown as { lines: number }).lines];
  });
  // Page and server read one clock: what was asked for later is none of the first light's.
  const script = new Map(
    viewer.asked
      .slice(before)
      .filter(({ path, at }) => path.endsWith(".js") && at <= litAt)
      .map(({ path, bytes }) => [path, bytes]),
  );
  await refined(page);
  const firstRefinement = (await page.evaluate(() => performance.now())) - light;

  await page.evaluate(() => {
    const log: Log = { asked: new Map(), drawn: [] };
    (window as unknown as { log: Log }).log = log;
    const app = document.querySelector("candlespan-app") as
      | (Element & { readonly session: EventTarget })
      | null;
    app?.session.addEventListener("light-asked", (event) => {
      log.asked.set((event as CustomEvent<{ sequence: number }>).detail.sequence, performance.now());
    });
    app?.addEventListener("light-drawn", (event) => {
      const { sequence, quality } = (event as CustomEvent<{ sequence: number; quality: string }>).detail;
      const drawn: Drawn = { sequence, quality, at: performance.now() };
      log.drawn.push(drawn);
      // A message sent in a frame arrives when the frame is painted.
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => {
          drawn.seen = performance.now();
        };
        port2.postMessage(undefined);
      });
    });
  });
  const handle = page.locator('candlespan-plan [data-luminaire="0 1"] .grip');
  const box = await handle.boundingBox();
  if (box === null) throw new Error("The plan shows no pendant to take hold of.");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let i = 1; i <= 60; i++) {
    await page.mouse.move(x + 60 * Math.sin(i / 12), y + 20 * Math.sin(i / 7));
    await page.evaluate(() => new Promise((done) => requestAnimationFrame(done)));
  }
  const drags = await page.evaluate(() => (window as unknown as { log: Log }).log.drawn.length);
  await page.mouse.up();
  const letGo = await page.evaluate(() => performance.now());
  await page.waitForFunction(() =>
    (window as unknown as { log: Log }).log.drawn.some((each) => each.quality === "full"),
  );
  const { asked, drawn } = await page.evaluate(() => {
    const { log } = window as unknown as { log: Log };
    return { asked: [...log.asked], drawn: log.drawn };
  });
  await context.close();
  const askedAt = new Map(asked);
  const full = drawn.find((each) => each.quality === "full");
  const dragged = drawn.slice(0, drags).filter(({ quality }) => quality === "quick");
  const since = (time: (each: Drawn) => number | undefined): number[] =>
    dragged
      .map((each) => (time(each) ?? Number.NaN) - (askedAt.get(each.sequence) ?? Number.NaN))
      .sort((a, b) => a - b);
  return {
    firstLight: light,
    lines,
    script: [...script.values()].reduce((sum, bytes) => sum + bytes, 0),
    drag: since(({ at }) => at),
    seen: since(({ seen }) => seen),
    refinement: (full?.at ?? Number.NaN) - letGo,
    firstRefinement,
  };
}

export function percentile(ascending: readonly number[], share: number): number {
  return ascending[Math.min(ascending.length - 1, Math.floor(share * ascending.length))];
}
