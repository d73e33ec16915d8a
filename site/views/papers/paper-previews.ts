/** The sheets of every paper as pictures, laid out as they will be printed. Loaded when the drawer is first opened. */

import { sheetSvg } from "../../../src/app.ts";
import type { AppView } from "../../app-view.ts";
import { type PaperChoice, papersOf } from "../hand-over-papers.ts";

/** Addresses of a paper's sheets by the paper's path. */
export type SheetPictures = ReadonlyMap<string, readonly string[]>;

/** Pictures of all papers; those made before are given back. */
export async function sheetPictures(
  app: AppView,
  choice: PaperChoice,
  before: SheetPictures | undefined,
): Promise<{ readonly pictures: SheetPictures; readonly unwritten?: string | undefined }> {
  const { files, unwritten } = await papersOf(app, choice);
  for (const addresses of before?.values() ?? []) for (const each of addresses) URL.revokeObjectURL(each);
  const pictures = new Map(
    files.flatMap((file) =>
      "sheets" in file ? [[file.path, file.sheets.map((sheet) => address(sheetSvg(sheet)))] as const] : [],
    ),
  );
  return { pictures, unwritten };
}

function address(svg: string): string {
  return URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
}
