import { readFileSync } from "node:fs";
import { openStudy } from "../../dist/app/open-study.js";

const FOLDER = new URL("../../fixtures-data/boathouse/", import.meta.url);

/** The worked example, opened and resolved. */
export async function workedExample() {
  const text = readFileSync(new URL("boathouse.study.json", FOLDER), "utf8");
  const opened = await openStudy(text, {
    read: (path) => new Uint8Array(readFileSync(new URL(path, FOLDER))),
  });
  if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
  return opened.value.study;
}
