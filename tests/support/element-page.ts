/** Serves the pages of the element tests from source, as a consumer's bundler would. */
import { fileURLToPath } from "node:url";
import { createServer } from "vite";

export interface ElementPages {
  url(path: string): string;
  close(): Promise<void>;
}

export async function serveElementPages(): Promise<ElementPages> {
  const root = fileURLToPath(new URL("../..", import.meta.url));
  const server = await createServer({
    configFile: false,
    root,
    logLevel: "error",
    server: { port: 0, hmr: false, watch: null, fs: { allow: [root] } },
    optimizeDeps: { noDiscovery: true, include: ["saxes", "ml-matrix"] },
    cacheDir: fileURLToPath(new URL("../../node_modules/.cache/vite-elements", import.meta.url)),
  });
  await server.listen();
  const base = server.resolvedUrls?.local[0] ?? "";
  return { url: (path) => new URL(`tests/browser/elements/${path}`, base).href, close: () => server.close() };
}
