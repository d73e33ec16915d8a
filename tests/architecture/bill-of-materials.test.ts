/** What the package is made of is known: versions are pinned, every package whose code runs is in the bill, under a licence that lets it. */
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
// @ts-expect-error: plain JavaScript, so that packing runs it without a build.
import * as bill from "../../site/build/bill-of-materials.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const list: { name: string; version: string; licence: string; integrity: string }[] = bill.components();
const { dependencies, devDependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));

it("pins every version", () => {
  const loose = Object.entries<string>({ ...dependencies, ...devDependencies }).filter(
    ([, version]) => !/^\d+\.\d+\.\d+(-[\w.]+)?$/.test(version),
  );
  expect(loose).toEqual([]);
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const unhashed = Object.entries<{ integrity?: string }>(packages).filter(
    ([path, { integrity }]) => path !== "" && !integrity,
  );
  expect(unhashed).toEqual([]);
});

it("lists every package that sources import", () => {
  const files = execFileSync("git", ["ls-files", "src", "site"], { cwd: root, encoding: "utf8" })
    .trim()
    .split("\n");
  const sources = files.filter(
    (path) => path.endsWith(".ts") && !/^site\/(build\/|.*vite\.config)/.test(path),
  );
  const imported = sources.flatMap((path) => {
    const text = readFileSync(join(root, path), "utf8");
    return [
      ...text.matchAll(/^(?:import|export)\s(?!type\b)[^;]*?from "((?:@[\w.-]+\/)?[\w-]+)(?:\/[^"]*)?"/gm),
    ].map(([, name]) => name);
  });
  const known = new Set(list.map(({ name }) => name));
  const missing = [...new Set(imported)].filter((name) => !known.has(name));
  expect(missing).toEqual([]);
  expect(known.has("valibot") && known.has("lit-html") && known.has("idb")).toBe(true);
});

it("holds licences that let it be sold and changed, each with its text", () => {
  const free =
    /^(MIT|ISC|0BSD|BSD-[23]-Clause|Apache-2\.0|OFL-1\.1|BSD|Zlib|\(MIT AND Zlib\)|SEE LICENSE IN .*|Bitstream-Vera)$/;
  expect(
    list.filter(({ licence }) => !free.test(licence)).map(({ name, licence }) => `${name}: ${licence}`),
  ).toEqual([]);
  const without = list
    .filter((component) => bill.licenceText(component) === undefined)
    .map(({ name }) => name);
  console.log(`${list.length} packages; without a licence file: ${without.join(", ") || "none"}`);
});

it("is a CycloneDX document, the same each time", () => {
  const document = bill.billOfMaterials(list);
  expect(JSON.stringify(document)).toBe(JSON.stringify(bill.billOfMaterials(bill.components())));
  const references = new Set(
    [document.metadata.component, ...document.components].map((each) => each["bom-ref"]),
  );
  expect(references.size).toBe(list.length + 1);
  for (const { ref, dependsOn } of document.dependencies)
    expect([ref, ...dependsOn].filter((each) => !references.has(each))).toEqual([]);
  for (const { hashes } of document.components) expect(hashes[0].content).toMatch(/^[\da-f]{128}$/);
});
