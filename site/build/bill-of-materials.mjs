/**
 * What the package is made of: every package whose code runs in it, with version, licence and hash of the lockfile, as a bill of materials in
 * CycloneDX 1.5 (ECMA-424, an open standard), and their licences in full in one file. No time and no serial number: two builds give the same bytes.
 *
 *     node site/build/bill-of-materials.mjs [FOLDER …]     (default: dist and dist-site, those that are there)
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Development packages whose code is bundled into the site, beside all dependencies and peers. */
const BUNDLED = ["idb", "pdfjs-dist"];

/**
 * @typedef {{ name: string, version: string, licence: string, integrity: string, folder: string, needs: string[] }} Component
 * @returns {Component[]} sorted by name and version; `needs` names others of the list as name@version
 */
export function components() {
  const { packages } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const { dependencies, peerDependencies } = packages[""];
  const found = new Map();
  /** As Node finds it: the nearest folder upwards that holds it. */
  const folderOf = (name, from) => {
    for (let at = from; ; at = at.slice(0, Math.max(0, at.lastIndexOf("/node_modules/")))) {
      const folder = `${at === "" ? "" : `${at}/`}node_modules/${name}`;
      if (packages[folder] !== undefined) return folder;
      if (at === "") return undefined;
    }
  };
  const visit = (name, from) => {
    const folder = folderOf(name, from);
    if (folder === undefined) return undefined;
    const { version, license, integrity, dependencies: inner = {} } = packages[folder];
    const key = `${name}@${version}`;
    if (!found.has(key)) {
      const component = {
        name,
        version,
        licence: license ?? licenceOf(folder),
        integrity,
        folder,
        needs: [],
      };
      found.set(key, component);
      component.needs = Object.keys(inner)
        .map((each) => visit(each, folder))
        .filter((each) => each !== undefined)
        .sort();
    }
    return key;
  };
  for (const name of [...Object.keys({ ...dependencies, ...peerDependencies }), ...BUNDLED]) visit(name, "");
  return [...found.entries()].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, component]) => component);
}

/** The licence of a package that names none and carries its text. */
function licenceOf(folder) {
  const text = licenceText({ folder }) ?? "";
  return text.includes("Permission is hereby granted, free of charge") ? "MIT" : "";
}

const purl = ({ name, version }) => `pkg:npm/${name.replace("@", "%40")}@${version}`;

/** The bill as a CycloneDX document. @param {Component[]} list */
export function billOfMaterials(list) {
  const { name, version, license } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const reference = new Map(
    list.map((component) => [`${component.name}@${component.version}`, purl(component)]),
  );
  const own = purl({ name, version });
  return {
    bomFormat: "CycloneDX",
    specVersion: "1.5",
    version: 1,
    metadata: {
      component: {
        type: "application",
        "bom-ref": own,
        name,
        version,
        purl: own,
        licenses: [{ license: { id: license } }],
      },
    },
    components: list.map((component) => ({
      type: "library",
      "bom-ref": purl(component),
      name: component.name,
      version: component.version,
      purl: purl(component),
      hashes: hashes(component.integrity),
      licenses: [
        / (OR|AND) /.test(component.licence)
          ? { expression: component.licence }
          : { license: { id: component.licence } },
      ],
    })),
    dependencies: [
      { ref: own, dependsOn: list.map(purl) },
      ...list.map((component) => ({
        ref: purl(component),
        dependsOn: component.needs.map((key) => reference.get(key)),
      })),
    ],
  };
}

/** `sha512-…` in base64 of the lockfile, as hexadecimal. */
function hashes(integrity) {
  const [, content] = /^sha512-(.+)$/.exec(integrity) ?? [];
  return content === undefined
    ? []
    : [{ alg: "SHA-512", content: Buffer.from(content, "base64").toString("hex") }];
}

/** The licence as the package carries it; undefined where it carries none. @param {Component} component */
export function licenceText({ folder }) {
  const names = readdirSync(join(root, folder)).sort();
  const file = names.find((name) => /^(licen[cs]e|copying|ofl)(\.|-|$)/i.test(name));
  return file === undefined
    ? undefined
    : readFileSync(join(root, folder, file), "utf8")
        .replaceAll("\r\n", "\n")
        .trim();
}

/** @param {Component[]} list */
export function licences(list) {
  const parts = list.map((component) => {
    const { name, version, licence } = component;
    return `${name} ${version}: ${licence}\n\n${licenceText(component) ?? "The package carries its licence by name alone."}`;
  });
  const rule = `\n\n${"=".repeat(80)}\n\n`;
  return `What this package is made of, beside its own code, and under which licences.${rule}${parts.join(rule)}\n`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const given = process.argv.slice(2);
  const folders =
    given.length > 0 ? given : ["dist", "dist-site"].map((name) => join(root, name)).filter(existsSync);
  const list = components();
  for (const folder of folders) {
    writeFileSync(
      join(folder, "bill-of-materials.cdx.json"),
      `${JSON.stringify(billOfMaterials(list), null, 1)}\n`,
    );
    writeFileSync(join(folder, "licences.txt"), licences(list));
  }
  console.log(`${list.length} packages in the bill of materials`);
}
