import type { Plugin } from "vite";

const NONE = "\0no-levels-of-its-own";

/** The tracer of lines without what it would choose levels by: every level of a drawing is given, and the first light waits for each byte. */
export function givenLevels(): Plugin {
  return {
    name: "given-levels",
    enforce: "pre",
    apply: "build",
    resolveId: (id, importer) =>
      id === "d3-array" && importer?.includes("/d3-contour/") === true ? NONE : undefined,
    load: (id) =>
      id === NONE
        ? ["thresholdSturges", "extent", "ticks", "nice", "max", "blur2"]
            .map((name) => `export const ${name} = () => { throw new Error("No level is given."); };`)
            .join("\n")
        : undefined,
  };
}
