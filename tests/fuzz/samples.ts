/** Sound inputs of every kind that a mutation starts from. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { strToU8, zipSync } from "fflate";
import type { RawStudy } from "../../site/edits/raw-study.ts";
import { packFragment } from "../../site/storage/share.ts";
import { readPhotometry } from "../../src/photometry/readers/read-photometry.ts";
import { writeTm33 } from "../../src/photometry/writers/tm33-writer.ts";
import type { Input } from "./answers.ts";

/** No sample is larger (bytes). */
const LARGEST = 300_000;

/** Photometric files below a folder that can be read, with two of them as TM-33 and in a GLDF container. */
function photometryIn(folder: string): Input[] {
  const paths = (readdirSync(folder, { recursive: true }) as string[]).sort();
  const read = paths
    .filter((path) => /\.(ies|ldt|xml|gldf)$/i.test(path) && statSync(join(folder, path)).size <= LARGEST)
    .map((path) => ({
      kind: "photometry" as const,
      name: path,
      bytes: new Uint8Array(readFileSync(join(folder, path))),
    }))
    .filter(({ name, bytes }) => readPhotometry(bytes, { file: name }).ok);
  const texts = read.filter((_, i) => i % Math.max(1, Math.floor(read.length / 6)) === 0);
  const xml = texts.flatMap(({ name, bytes }): Input[] => {
    const outcome = readPhotometry(bytes, { file: name });
    const written = outcome.ok ? writeTm33(outcome.value) : outcome;
    if (!written.ok || written.value.length > LARGEST) return [];
    return [{ kind: "photometry", name: `${name}.xml`, bytes: strToU8(written.value) }];
  });
  const archives = texts.slice(0, 3).map(
    ({ name, bytes }): Input => ({
      kind: "photometry",
      name: `${name}.gldf`,
      bytes: zipSync({ "product.xml": strToU8(product(name)), [`ldc/${fileName(name)}`]: bytes }),
    }),
  );
  return [...read, ...xml, ...archives];
}

const fileName = (path: string): string => path.split(/[\\/]/).at(-1)!.toLowerCase();

function product(path: string): string {
  const kind = /ldt$/i.test(path) ? "eulumdat" : "ies";
  return `<?xml version="1.0"?><Root><Header><Manufacturer>nobody</Manufacturer></Header><GeneralDefinitions><Files>
<File id="f" contentType="ldc/${kind}" type="localFileName">${fileName(path).replace(/&/g, "&amp;")}</File></Files>
<Photometries><Photometry id="p"><PhotometryFileReference fileId="f"/></Photometry></Photometries>
<Emitters><Emitter id="e"><ChangeableLightEmitter><PhotometryReference photometryId="p"/></ChangeableLightEmitter></Emitter></Emitters>
</GeneralDefinitions></Root>`;
}

/** A study that resolves without tracing a shade or reading a file: what those do with their input has samples of its own. */
export function plainStudy(folder: string): RawStudy {
  const study = JSON.parse(readFileSync(join(folder, "every-key.study.json"), "utf8"));
  for (const [name, luminaire] of Object.entries<Record<string, unknown>>(study.luminaires)) {
    if (luminaire.shade === undefined && luminaire.photometry === undefined) continue;
    const { shade: _, photometry: __, lamp: ___, lampSet: ____, flux: _____, ...rest } = luminaire;
    study.luminaires[name] = { ...rest, beam: { flux: 800, angle: 80 } };
  }
  return study;
}

/** @param photometry folder of photometric files @param fixtures the repository's own */
export function samplesOf(photometry: string, fixtures: string): Input[] {
  const study = plainStudy(fixtures);
  const text = JSON.stringify(study, null, 1);
  const shades = JSON.parse(readFileSync(join(fixtures, "every-key.study.json"), "utf8"));
  const shaded = Object.values<Record<string, unknown>>(shades.luminaires).filter(
    ({ shade }) => shade !== undefined,
  );
  const readings = {
    taken: [{ at: [1, 2, 0.9], lit: "all", lux: 312 }],
    age: "new",
    meter: "5",
    document: study,
    done: [{ name: "move", before: study, after: study }],
    undone: [],
  };
  const others: [Input["kind"], string, string][] = [
    ["study", "a.study.json", text],
    ...shaded.map(({ lamp, shade }, i): [Input["kind"], string, string] => [
      "shades",
      `shade-${i}.json`,
      JSON.stringify({ lamp, shade }, null, 1),
    ]),
    [
      "readings",
      "a.csv",
      'along,across,lx,lit\n0.4,0.3,512,all\n"1200 mm",0.6,433.5,pendants@0.5+ambient\n2,0.5,3,none\n',
    ],
    ["readings", "b.csv", "x,y,z,fc\n1.4,2.1,0.92,48.2\n2.0,2.1,0.92,41\n"],
    ["link", "link", packFragment(study).fragment],
    ["record", "record", JSON.stringify(readings)],
  ];
  return [
    ...photometryIn(photometry),
    ...others.map(([kind, name, content]): Input => ({ kind, name, bytes: strToU8(content) })),
  ];
}
