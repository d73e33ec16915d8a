/** Every element declares what it is: its tag in its documentation, the same that it registers, every event it
 * sends of its own. The manifest is generated from these words. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const folder = fileURLToPath(new URL("../../src/elements", import.meta.url));
const sources = readdirSync(folder, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith(".ts"))
  .map((name) => readFileSync(`${folder}/${name}`, "utf8"));

it("declares the tag it registers", () => {
  const registered = sources.flatMap((text) =>
    [...text.matchAll(/define\("(candlespan-[a-z-]+)"/g)].map((m) => m[1]),
  );
  const declared = sources.flatMap((text) =>
    [...text.matchAll(/@tag (candlespan-[a-z-]+)/g)].map((m) => m[1]),
  );
  expect(registered.length).toBeGreaterThanOrEqual(16);
  expect(declared.sort()).toEqual(registered.sort());
});

/** Every place where an event is sent: its type, and the method of a base class that only some of its heirs call. */
function sentIn(text: string): { readonly type: string; readonly method?: string }[] {
  return [...text.matchAll(/(?:new CustomEvent|emit)(?:<\w+>)?\(\s*"([a-z-]+)"/g)].map((sent) => ({
    type: sent[1],
    method: [...text.slice(0, sent.index).matchAll(/^ {2}protected (\w+)\(/gm)].at(-1)?.[1],
  }));
}

/** The classes a class is made of: itself, what it extends, what it holds. */
function parts(text: string, met: string[] = []): string[] {
  if (met.includes(text)) return met;
  met.push(text);
  for (const [, name] of text.matchAll(/(?:extends|new) ([A-Z]\w+)\b/g)) {
    const home = sources.find((source) => source.includes(`class ${name} `));
    if (home !== undefined) parts(home, met);
  }
  return met;
}

/** Types of the events that leave the element written in `text`: its own and, as they bubble, those of the elements
 * in its template, unless it stops them or draws them fixed. */
function leaving(text: string): Set<string> {
  const made = parts(text);
  const types = new Set<string>();
  for (const part of made)
    for (const { type, method } of sentIn(part))
      if (method === undefined || made.some((other) => other.includes(`this.${method}(`))) types.add(type);
  for (const [opening, tag] of text.matchAll(/<(candlespan-[a-z-]+)[\s\S]*?<\/\1>/g)) {
    const inner = sources.find((source) => source.includes(`define("${tag}"`)) ?? "";
    for (const type of leaving(inner)) {
      const listener = opening.split(`@${type}=`)[1];
      const isFixed = new RegExp(`^<${tag} fixed\\b`).test(opening) && type.startsWith("luminaire-");
      if (!isFixed && !listener?.includes("stopPropagation()")) types.add(type);
    }
  }
  return types;
}

it("documents every event that leaves it, and no other", () => {
  const all = new Set<string>();
  for (const text of sources) {
    for (const { type } of sentIn(text)) all.add(type);
    for (const piece of text.split(/(?=^\/\*\*)/m)) {
      const tag = /@tag (candlespan-[a-z-]+)/.exec(piece)?.[1];
      if (tag === undefined) continue;
      const declared = [...piece.matchAll(/@fires ([a-z-]+)/g)].map((m) => m[1]);
      expect(declared.sort(), tag).toEqual([...leaving(piece)].sort());
    }
  }
  // A way to send that the patterns do not know would leave a type of the contract unsent.
  const contract = sources.find((text) => text.includes("interface HTMLElementEventMap")) ?? "";
  const known = [...contract.matchAll(/^ {4}"([a-z-]+)": CustomEvent/gm)].map((m) => m[1]);
  expect([...all].sort()).toEqual(known.sort());
});

it("is named by the tag map, so that a page's own types know it", () => {
  for (const text of sources)
    for (const [, tag] of text.matchAll(/define\("(candlespan-[a-z-]+)"/g))
      expect(text).toContain(`"${tag}": `);
});

it("keeps from the manifest what only the drag controller needs", () => {
  const plumbing = sources
    .filter((text) => !text.includes("interface DragHost"))
    .flatMap((text) =>
      [
        ...text.matchAll(
          /^.*\n {2}(?:override |abstract )*(?:get )?(?:snapReach|shownScene|moveOf|holding|words)\(.*\{?$/gm,
        ),
      ]
        .map(([lines]) => lines)
        .filter((lines) => !/^ {2}(?:protected|private)/.test(lines.split("\n")[1])),
    );
  expect(plumbing.length).toBeGreaterThanOrEqual(8);
  expect(plumbing.filter((lines) => !lines.includes("@internal"))).toEqual([]);
});

/** Templates of styles by the name of their constant. */
const styles = new Map(
  sources.flatMap((text) =>
    [...text.matchAll(/const (\w+)(?:: \w+)? = css`([\s\S]*?)`;/g)].map(
      ([, name, body]) => [name, body] as const,
    ),
  ),
);

/** Custom properties an element takes from the page: those its own styles and those of the elements in it read. */
function customProperties(text: string, met = new Set<string>()): Set<string> {
  const properties = new Set<string>();
  const read = (css: string): void => {
    for (const [, name] of css.matchAll(/var\(--_([a-z]+)/g)) properties.add(`--candlespan-${name}`);
    for (const [, name] of css.matchAll(/^\s+(?:color|font-family|outline):.*var\(--candlespan-([a-z]+)/gm))
      properties.add(`--candlespan-${name}`);
  };
  for (const part of parts(text)) {
    read(part);
    for (const [name, body] of styles) if (new RegExp(`\\b${name}\\b`).test(part)) read(body);
  }
  for (const [, tag] of text.matchAll(/<(candlespan-[a-z-]+)/g)) {
    if (met.has(tag)) continue;
    met.add(tag);
    const inner = sources.find((source) => source.includes(`define("${tag}"`));
    if (inner !== undefined) for (const name of customProperties(inner, met)) properties.add(name);
  }
  return properties;
}

/** Documented elements: the tag, the documentation, and the text of the class. */
const documented = sources.flatMap((text) =>
  text.split(/(?=^\/\*\*)/m).flatMap((piece) => {
    const tag = /@tag (candlespan-[a-z-]+)/.exec(piece)?.[1];
    return tag === undefined ? [] : [{ tag, piece }];
  }),
);
const declared = (piece: string, kind: string): string[] =>
  [...piece.matchAll(new RegExp(`@${kind} ?([a-z-]*)`, "g"))].map((m) => m[1]).sort();

it.each(documented)("documents every custom property of $tag, and no other", ({ piece }) => {
  expect(declared(piece, "cssprop")).toEqual([...customProperties(piece)].sort());
});

/** Methods of base classes and functions beside the elements, by name: what of a template is theirs. */
const shared = new Map(
  sources.flatMap((text) =>
    text.split(/(?=^ {2}protected |^export function )/m).flatMap((piece) => {
      const name = /^(?: {2}protected|export function) (\w+)\(/.exec(piece)?.[1];
      return name === undefined ? [] : [[name, piece] as const];
    }),
  ),
);

/** The templates an element draws itself with. */
function templates(piece: string, met = new Set<string>()): string {
  const called = [...piece.matchAll(/\b(\w+)\(/g)].map(([, name]) => name);
  const own = called.filter((name) => shared.has(name) && !met.has(name));
  for (const name of own) met.add(name);
  return [piece, ...own.map((name) => templates(shared.get(name) ?? "", met))].join("\n");
}

it.each(documented)("documents every part and slot of $tag, and no other", ({ piece }) => {
  const drawn = templates(piece);
  const named = [...drawn.matchAll(/\bpart="([a-z-]+)"/g)].map((m) => m[1]);
  const exported = [...drawn.matchAll(/\bexportparts="([^"]+)"/g)].flatMap(([, names]) =>
    names.split(/,\s*/),
  );
  expect(declared(piece, "csspart")).toEqual([...new Set([...named, ...exported])].sort());
  const slots = [...drawn.matchAll(/<slot(?: name="([a-z-]+)")?/g)].map((m) => m[1] ?? "");
  const told = [...piece.matchAll(/^ \* @slot (?:([a-z-]+) )?- /gm)].map((m) => m[1] ?? "");
  expect(told.sort()).toEqual([...new Set(slots)].sort());
});
