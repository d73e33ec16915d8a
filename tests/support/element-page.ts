/** Serves the pages of the element tests from source, as a consumer's bundler would. */
import { fileURLToPath } from "node:url";
import { createServer, type Plugin, type ViteDevServer } from "vite";

export interface ElementPages {
  url(path: string): string;
}

/** Nothing changes while the tests run: a page opened again asks for none of its hundreds of modules again. */
const keptByBrowser: Plugin = {
  name: "kept-by-browser",
  configureServer({ middlewares }) {
    middlewares.use((_request, response, next) => {
      const set = response.setHeader.bind(response);
      response.setHeader = (name, value) =>
        set(name, name.toLowerCase() === "cache-control" ? "max-age=86400" : value);
      next();
    });
  },
};

/** One server for the files of a process: each would read and strip the same hundreds of modules. It ends with the process. */
let served: Promise<ViteDevServer> | undefined;

async function listening(): Promise<ViteDevServer> {
  const root = fileURLToPath(new URL("../..", import.meta.url));
  const server = await createServer({
    configFile: false,
    root,
    logLevel: "error",
    server: { port: 0, hmr: false, watch: null, fs: { allow: [root] } },
    optimizeDeps: { noDiscovery: true, include: ["saxes", "ml-matrix"] },
    plugins: [keptByBrowser],
    cacheDir: fileURLToPath(new URL("../../node_modules/.cache/vite-elements", import.meta.url)),
  });
  return server.listen();
}

export async function serveElementPages(): Promise<ElementPages> {
  served ??= listening();
  const base = (await served).resolvedUrls?.local[0] ?? "";
  return { url: (path) => new URL(`tests/browser/elements/${path}`, base).href };
}
