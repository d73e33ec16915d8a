/** Ways out of the page, all of them through the person's own hands: a file, or a link. */

import type { RawStudy } from "../edits/raw-study.ts";

/** Offers content as a file to save. */
export function download(name: string, type: string, content: string | Uint8Array): void {
  const url = URL.createObjectURL(new Blob([content as BlobPart], { type }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser has read the address by the end of the click; the memory is freed a little later to be sure.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** A file name from a study's title: letters, digits and dashes of any script. */
export function fileName(title: string | undefined, ending: string): string {
  const stem = (title ?? "kitchen")
    .normalize("NFC")
    .replace(/[^\p{L}\p{N}]+/gu, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 80);
  return `${stem === "" ? "kitchen" : stem}${ending}`;
}

export function studyText(study: RawStudy): string {
  return `${JSON.stringify(study, null, 2)}\n`;
}

export function downloadStudy(study: RawStudy): void {
  download(fileName(study.title, ".study.json"), "application/json", studyText(study));
}

export interface StudyLink {
  readonly link: string;
  /** Whether some mail programs would cut it. */
  readonly isLong: boolean;
  /** Characters too many for a link; with any, it is none. */
  readonly excess: number;
}

/** A link that holds the study, as far as one can. */
export async function linkOf(study: RawStudy): Promise<StudyLink> {
  const { packFragment, SAFE } = await import("./share.ts");
  const { fragment, excess } = packFragment(study);
  const link = `${location.origin}${location.pathname}#${fragment}`;
  return { link, isLong: fragment.length > SAFE, excess };
}
