/** The worked example, with the photometric files it names inside it. */

import study from "../fixtures-data/boathouse/boathouse.study.json";
import type { RawStudy } from "./edits/raw-study.ts";

const texts = import.meta.glob<string>("../fixtures-data/boathouse/photometry/*", {
  query: "?raw",
  import: "default",
  eager: true,
});

export function workedExample(): RawStudy {
  const embedded: Record<string, { text: string }> = {};
  const named = new Set(
    Object.values(study.luminaires).map((each) => ("photometry" in each ? each.photometry : "")),
  );
  for (const [path, text] of Object.entries(texts)) {
    const name = path.replace("../fixtures-data/boathouse/", "");
    if (named.has(name)) embedded[name] = { text };
  }
  return { ...(study as unknown as RawStudy), embedded };
}
