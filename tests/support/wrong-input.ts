/** The worked example in a folder of its own, with files that are no photometry, and commands that must refuse what they are given. */
import { cpSync, mkdtempSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect } from "vitest";
import { called } from "./cli.ts";

const WRITTEN: Readonly<Record<string, string | Uint8Array>> = {
  "letter.ies": "Dear sir,\nwe thank you for your order.\n",
  "letter.xml": "Dear sir,\nwe thank you for your order.\n",
  "noise.ldt": new Uint8Array(600).map((_, i) => (i * 37) % 256),
  "empty.ies": "",
  "note.ldt": "hello\nworld\n",
  "cut.ies": "IESNA:LM-63-2002\n[TEST] none\nTILT=NONE\n1 -1 1 3 1 1 2 0 0",
};

export interface WrongInput {
  /** The folder, to be removed after the tests. */
  readonly root: string;
  readonly study: string;
  at(name: string): string;
  /** What a command says on standard error; it must end with 2, print nothing else and leave every file as it was. Paths are told from
   * the folder. */
  refused(...argv: string[]): Promise<string>;
}

/** One for each file of tests: several share a process, and each removes its own. */
export function wrongInput(): WrongInput {
  const root = mkdtempSync(join(tmpdir(), "candlespan-wrong-"));
  cpSync(fileURLToPath(new URL("../../fixtures-data/boathouse", import.meta.url)), root, { recursive: true });
  const at = (name: string): string => join(root, name);
  for (const [name, content] of Object.entries(WRITTEN)) writeFileSync(at(name), content);
  const refused = async (...argv: string[]): Promise<string> => {
    const before = filesIn(root, root);
    const { code, out, err } = await called(...argv);
    expect({ argv, code, out }).toEqual({ argv, code: 2, out: "" });
    expect(filesIn(root, root)).toEqual(before);
    expect(err).not.toContain("Internal fault");
    return err.replaceAll(`${root}/`, "");
  };
  return { root, study: at("boathouse.study.json"), at, refused };
}

/** Every file with its size and when it was last written. */
function filesIn(folder: string, root: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return filesIn(path, root);
      const { size, mtimeMs } = statSync(path);
      return [`${relative(root, path)} ${size} ${mtimeMs}`];
    })
    .sort();
}
