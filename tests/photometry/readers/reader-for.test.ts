/** The reader loaded for a file answers of it what the reader of all formats answers. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { strToU8, zipSync } from "fflate";
import { expect, it } from "vitest";
import { readPhotometry } from "../../../src/photometry/readers/read-photometry.ts";
import { readerFor } from "../../../src/photometry/readers/reader-for.ts";

const FOLDER = fileURLToPath(new URL("../../../fixtures-data/boathouse/photometry/", import.meta.url));

const FILES: Record<string, Uint8Array> = {
  ...Object.fromEntries(readdirSync(FOLDER).map((file) => [file, readFileSync(FOLDER + file)])),
  "empty.ies": new Uint8Array(0),
  "neither.txt": strToU8("a letter\nof two lines"),
  "named.ldt": strToU8("maker\n1"),
  "some.xml": strToU8('<?xml version="1.0"?><room/>'),
  "archive.ies": zipSync({ "product.xml": strToU8("<Root/>") }),
};

it.each(Object.keys(FILES))("%s", async (file) => {
  const reader = await readerFor(FILES[file], file);
  expect(reader(FILES[file], { file })).toEqual(readPhotometry(FILES[file], { file }));
});
