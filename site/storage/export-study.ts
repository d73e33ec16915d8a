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

/** A link that holds the study, copied if the browser allows; a file instead when it would be too long. */
export async function shareStudy(study: RawStudy): Promise<string | undefined> {
  const { packFragment } = await import("./share.ts");
  const fragment = packFragment(study);
  if (fragment === undefined) {
    downloadStudy(study);
    return undefined;
  }
  const link = `${location.origin}${location.pathname}#${fragment}`;
  await navigator.clipboard?.writeText(link).catch(() => {});
  return link;
}
