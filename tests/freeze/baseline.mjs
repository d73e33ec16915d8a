/** Where the recorded answers are, and how they are read. */
import { existsSync, readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";

export const BASELINE = new URL("baseline/", import.meta.url);

export function readBaseline(group, folder = BASELINE) {
  const file = new URL(`${group}.json.gz`, folder);
  return existsSync(file) ? JSON.parse(gunzipSync(readFileSync(file)).toString("utf8")) : undefined;
}
