/**
 * A real Chromium for the browser tests: one that is there, else the packaged build, which needs no system
 * package. Names of installed browsers are tried in a fixed order, so that a machine always uses the same one.
 */
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { type Browser, type BrowserContext, chromium } from "playwright-core";

/** Set to the path of a Chromium to use that one and no other. */
export const BROWSER_VARIABLE = "CANDLESPAN_CHROMIUM";

const INSTALLED = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/usr/bin/google-chrome",
  "/usr/bin/google-chrome-stable",
  "/usr/bin/microsoft-edge",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  "C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
  "C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe",
];

/** WebGL by software everywhere, so that a picture does not depend on the machine's graphics. */
const FLAGS = [
  "--no-sandbox",
  "--use-angle=swiftshader",
  "--enable-unsafe-swiftshader",
  "--ignore-gpu-blocklist",
];

/** Pages are painted by the processor itself: by the software renderer a frame takes four times as long. For pages without
 * a picture in depth. */
export const PAINTED_BY_PROCESSOR = ["--disable-gpu-rasterization", "--disable-gpu-compositing"];

export async function findBrowser(): Promise<string> {
  const named = process.env[BROWSER_VARIABLE];
  if (named !== undefined && named !== "") {
    if (existsSync(named)) return named;
    throw new Error(
      `${BROWSER_VARIABLE}: expected the path of a Chromium, found ${named}, which is not there.`,
    );
  }
  const installed = INSTALLED.find((path) => existsSync(path));
  if (installed !== undefined) return installed;
  // Both must be set before the package is loaded: it decides then which system libraries to unpack, and where.
  const cache = fileURLToPath(new URL("../../node_modules/.cache/chromium", import.meta.url));
  mkdirSync(cache, { recursive: true });
  process.env.AWS_EXECUTION_ENV ??= "AWS_Lambda_nodejs20.x";
  process.env.TMPDIR = cache;
  const packaged = await import("@sparticuz/chromium");
  const path = await packaged.default.executablePath();
  // Its own font list looks in folders of another kind of machine, and text without a font has no size.
  const fonts = fileURLToPath(new URL("../../node_modules/dejavu-fonts-ttf/ttf", import.meta.url));
  process.env.FONTCONFIG_FILE = join(cache, "candlespan-fonts.conf");
  writeFileSync(
    process.env.FONTCONFIG_FILE,
    `<?xml version="1.0"?>\n<!DOCTYPE fontconfig SYSTEM "fonts.dtd">\n<fontconfig><dir>${fonts}</dir><dir>${join(cache, "fonts")}</dir><dir>/usr/share/fonts</dir><cachedir>${join(cache, "font-cache")}</cachedir></fontconfig>\n`,
  );
  if (!existsSync(path)) throw new Error(`No Chromium: looked at ${INSTALLED.join(", ")} and ${join(path)}.`);
  return path;
}

/** How long anything may take that a test waits for (ms): longer than on the busiest machine, since a test waits for a
 * state and not for a time. */
export const PATIENCE = 240_000;

/** What a test file uses of the browser. Closing it closes the contexts that were opened through it and leaves the browser to the
 * next file of the process. A context starts no service worker unless it asks for one: to keep a copy of the whole site takes
 * 2.5 s of processor, as much as to light the worked example. */
export type TestBrowser = Pick<Browser, "newContext" | "newPage" | "close">;

/** By their flags. They end with the process. */
const browsers = new Map<string, Promise<Browser>>();

async function browserOf(flags: readonly string[]): Promise<Browser> {
  const key = flags.join(" ");
  const running = await browsers.get(key)?.catch(() => undefined);
  if (running?.isConnected()) return running;
  const launched = findBrowser().then((executablePath) =>
    chromium.launch({ executablePath, args: [...FLAGS, ...flags], timeout: PATIENCE }),
  );
  browsers.set(key, launched);
  return launched;
}

export async function openBrowser(flags: readonly string[] = []): Promise<TestBrowser> {
  const browser = await browserOf(flags);
  const contexts: BrowserContext[] = [];
  const newContext: Browser["newContext"] = async (options) => {
    const context = await browser.newContext({ serviceWorkers: "block", ...options });
    context.setDefaultTimeout(PATIENCE);
    contexts.push(context);
    return context;
  };
  return {
    newContext,
    async newPage(options) {
      const context = await newContext(options);
      const page = await context.newPage();
      page.once("close", () => void context.close());
      return page;
    },
    async close() {
      await Promise.all(contexts.map((context) => context.close()));
    },
  };
}
