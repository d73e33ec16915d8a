/** Every element declares what it is: its tag in its documentation, the same that it registers, every event it
 * sends of its own. The manifest is generated from these words. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";

const folder = fileURLToPath(new URL("../../src/elements", import.meta.url));
const names = readdirSync(folder, { recursive: true })
  .map(String)
  .filter((name) => name.endsWith(".ts"));
const sources = names.map((name) => readFileSync(`${folder}/${name}`, "utf8"));

type Manifest = { readonly plugins: readonly { packageLinkPhase(phase: unknown): void }[] };
type Texts = {
  readonly MEANINGS: Readonly<Record<string, string>>;
  classTexts(text: string, sources: readonly string[]): string[];
  customProperties(text: string, sources: readonly string[]): string[];
};
const built = async (file: string) => import(new URL(`../../site/build/${file}`, import.meta.url).href);
const { default: manifest }: { default: Manifest } = await built("elements-manifest.config.mjs");
const { MEANINGS, classTexts, customProperties }: Texts = await built("custom-properties.mjs");
/** By reading the element and the styles that it names. */
const LENGTH_FIELD = ["focus", "font", "ink", "quiet", "sheet", "short"].map(
  (name) => `--candlespan-${name}`,
);

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

/** Types of the events that leave the element written in `text`: its own and, as they bubble, those of the elements
 * in its template, unless it stops them or draws them fixed. */
function leaving(text: string): Set<string> {
  const made = classTexts(text, sources);
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

/** Documented elements: the tag, the documentation, and the text of the class. */
const documented = sources.flatMap((text) =>
  text.split(/(?=^\/\*\*)/m).flatMap((piece) => {
    const tag = /@tag (candlespan-[a-z-]+)/.exec(piece)?.[1];
    return tag === undefined ? [] : [{ tag, piece }];
  }),
);
const declared = (piece: string, kind: string): string[] =>
  [...piece.matchAll(new RegExp(`@${kind} ?([a-z-]*)`, "g"))].map((m) => m[1]).sort();

it("gives every custom property a meaning, and no other", () => {
  const read = documented.map(({ tag, piece }) => [tag, customProperties(piece, sources)] as const);
  expect([...new Set(read.flatMap(([, names]) => names))].sort()).toEqual(Object.keys(MEANINGS));
  expect(new Map(read).get("candlespan-length-field")).toEqual(LENGTH_FIELD);
  expect(new Map(read).get("candlespan-comparison")).toEqual(Object.keys(MEANINGS));
});

it("names custom properties in the manifest", () => {
  const path = "src/elements/length-field/length-field.ts";
  const declaration: { tagName: string; cssProperties?: readonly { name: string; description: string }[] } = {
    tagName: "candlespan-length-field",
  };
  const modules = [
    ...names.map((name) => ({ path: `src/elements/${name}` })).filter((each) => each.path !== path),
    { path, declarations: [declaration] },
  ];
  for (const { packageLinkPhase } of manifest.plugins)
    packageLinkPhase({ customElementsManifest: { modules } });
  expect(declaration.cssProperties).toContainEqual({
    name: "--candlespan-ink",
    description: "lines and words",
  });
  expect(declaration.cssProperties?.map(({ name }) => name)).toEqual(LENGTH_FIELD);
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
