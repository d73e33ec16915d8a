import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { EXAMPLE_NOTE } from "../example-note.ts";

const FOLDER = fileURLToPath(new URL("../../fixtures-data/boathouse/", import.meta.url));
const NAME = "example.study.json";

/** The worked example with the photometric files it names inside it, as the page fetches it. */
function workedExample(): string {
  const study = JSON.parse(readFileSync(`${FOLDER}boathouse.study.json`, "utf8"));
  const named = new Set(
    Object.values(study.luminaires as Record<string, { photometry?: string }>).map((each) => each.photometry),
  );
  const embedded: Record<string, { text: string }> = {};
  for (const file of readdirSync(`${FOLDER}photometry`)) {
    const path = `photometry/${file}`;
    if (named.has(path)) embedded[path] = { text: readFileSync(FOLDER + path, "utf8") };
  }
  return JSON.stringify({ ...study, note: EXAMPLE_NOTE, embedded });
}

/** Puts the worked example beside the page, built or in development. */
export function example(): Plugin {
  return {
    name: "worked-example",
    configureServer(server) {
      server.middlewares.use(`/${NAME}`, (_request, response) => {
        response.setHeader("Content-Type", "application/json");
        response.end(workedExample());
      });
    },
    generateBundle() {
      this.emitFile({ type: "asset", fileName: NAME, source: workedExample() });
    },
  };
}
