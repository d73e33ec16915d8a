/** The worked example, which stands beside the page with its photometric files inside it. */

import type { RawStudy } from "./edits/raw-study.ts";

export async function workedExample(): Promise<RawStudy> {
  return (await (await fetch("./example.study.json")).json()) as RawStudy;
}
