import { createHash } from "node:crypto";
import type { Plugin } from "vite";

/** Tells the service worker which files make up this build, and by what name to know the build. */
export function precache(): Plugin {
  return {
    name: "precache",
    apply: "build",
    generateBundle: {
      order: "post",
      handler(_options, bundle) {
        const worker = bundle["service-worker.js"];
        if (worker?.type !== "chunk") return;
        const names = Object.keys(bundle)
          .filter((name) => name !== "service-worker.js" && !name.endsWith(".map"))
          .sort();
        const version = createHash("sha256");
        for (const name of names) {
          const file = bundle[name];
          version.update(name).update(file.type === "chunk" ? file.code : file.source);
        }
        worker.code = worker.code
          .replace(/["'`]__FILES__["'`]/, JSON.stringify(names))
          .replace("__VERSION__", version.digest("hex").slice(0, 12));
      },
    },
  };
}
