/** The guide page "one kitchen from brief to meter": the worked example taken through the program, every figure and picture its own answer. */

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { type ArrangementLight, arrangementLight } from "../../src/app/arrangement-light.ts";
import type { OpenStudy } from "../../src/app/open-document.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { ranked } from "../../src/app/ranking.ts";
import { inSetting } from "../../src/app/setting-levels.ts";
import { settingsComparison } from "../../src/app/settings-comparison.ts";
import { verifyReadings } from "../../src/app/verify.ts";
import { workingEdge } from "../../src/app/working-edge.ts";
import { orThrow } from "../../src/diagnostics/candlespan-error.ts";
import { escapeText } from "../../src/drawing/svg-text.ts";
import { sheetSvg } from "../../src/formats/sheet-svg.ts";
import { handoverFacts, handoverOption, studyFingerprint } from "../../src/papers/handover.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { topPlane } from "../../src/scene/top-plane.ts";
import { verdictWords, zoneSentence } from "../../src/words/arrangement-sentences.ts";
import { settingCellText, settingTableRows } from "../../src/words/settings-text.ts";
import { verifyText } from "../../src/words/verify-text.ts";
import { wording } from "../../src/words/wording.ts";
import { workingEdgeSentence } from "../../src/words/working-edge-text.ts";

const FOLDER = fileURLToPath(new URL("../../fixtures-data/boathouse/", import.meta.url));
export const GUIDED = `${FOLDER}boathouse.study.json`;
/** Share of its light that the third pendant of the mock site gives. */
const WEAK = 0.5;
/** Every so many points of the top's grid are read on the mock site. */
const READ_EVERY = 4;

export interface KitchenGuide {
  readonly page: string;
  /** SVG by file name. */
  readonly pictures: Readonly<Record<string, string>>;
  readonly opened: OpenStudy;
  readonly lights: readonly ArrangementLight[];
}

const read = (path: string): Uint8Array => readFileSync(FOLDER + path);

export async function kitchenGuide(): Promise<KitchenGuide> {
  const text = readFileSync(GUIDED, "utf8");
  const opened = orThrow(await openStudy(text, { read }));
  const { study } = opened;
  const lights: ArrangementLight[] = [];
  for (const scene of study.scenes) lights.push(await arrangementLight(opened, scene, {}));
  const [chosen] = ranked(lights);
  const dinner = await arrangementLight(opened, inSetting(chosen.scene, "dinner"), {});
  const setOut = setOutSheets({
    ...handoverFacts(study),
    options: lights.map((light) => handoverOption(light)),
    chosen: lights.indexOf(chosen),
    lamps: new Map(),
    paper: "A4",
    unit: "mm",
    illuminance: "lx",
    revision: "A",
    date: "2026-01-01",
    fingerprint: studyFingerprint(JSON.parse(text)),
  });
  const readings = await mockReadings(text, chosen);
  const arrangement = chosen.scene.name;
  const verified = orThrow(await verifyReadings(opened, { readings, arrangement }));
  return {
    page: pageOf(opened, lights, chosen, verifyText({ study, ...verified })),
    pictures: {
      "kitchen-plan.svg": isoluxSheet(study, [chosen]),
      "kitchen-dinner.svg": isoluxSheet(study, [dinner]),
      "kitchen-set-out.svg": sheetSvg(setOut.sheets[0]),
    },
    opened,
    lights,
  };
}

/** What a meter without error reads on a site where the third pendant gives half its light, everything new and clean. */
async function mockReadings(text: string, { scene }: ArrangementLight): Promise<string> {
  const built = JSON.parse(text);
  const arrangement = built.arrangements.find(({ name }: { name: string }) => name === scene.name);
  const [row, ...others] = arrangement.layers;
  const at = scene.layers[0].luminaires.map(({ frame }) => ({ position: [...frame.origin] }));
  const { row: _, ...about } = row;
  arrangement.layers = [
    { ...about, at: at.slice(0, 2) },
    { ...about, name: "third", dim: WEAK, at: at.slice(2) },
    ...others,
  ];
  delete arrangement.settings;
  built.maintenance = 1;
  const opened = orThrow(await openStudy(built, { read }));
  const site = opened.study.scenes.find(({ name }) => name === scene.name) as typeof scene;
  const light = await arrangementLight(opened, site, { judged: false });
  const plane = light.scene.planes[topPlane(light.scene)];
  const { illuminance } = light.assessment.planes[topPlane(light.scene)];
  const lines = Array.from(illuminance, (lux, i) =>
    i % READ_EVERY === 0
      ? [`${plane.points[3 * i].toFixed(4)},${plane.points[3 * i + 1].toFixed(4)},${lux.toFixed(0)}`]
      : [],
  ).flat();
  return `x,y,lx\n${lines.join("\n")}\n`;
}

const cells = (tag: "td" | "th", row: readonly string[]): string =>
  row.map((cell) => `<${tag}>${escapeText(cell)}</${tag}>`).join("");
const table = ([head, ...rows]: readonly (readonly string[])[]): string =>
  `<table>\n<thead><tr>${cells("th", head)}</tr></thead>\n<tbody>\n${rows.map((row) => `<tr>${cells("td", row)}</tr>`).join("\n")}\n</tbody>\n</table>`;
const sentences = (all: readonly string[]): string =>
  `<ul>\n${all.map((each) => `<li>${escapeText(each)}</li>`).join("\n")}\n</ul>`;
const picture = (file: string, words: string): string =>
  `<figure><img src="${file}" alt="${escapeText(words)}" style="max-width:100%;height:auto" /><figcaption>${escapeText(words)}</figcaption></figure>`;

function pageOf(
  { study }: OpenStudy,
  lights: readonly ArrangementLight[],
  chosen: ArrangementLight,
  verified: string,
): string {
  const { room, zones, island } = chosen.scene;
  const figure = (value: number, digits = 0): string => value.toFixed(digits);
  const options = ranked(lights).map(({ scene, assessment, clashes }) => {
    const top = assessment.planes[topPlane(scene)].statistics;
    return [
      `${scene.letter} ${scene.name}`,
      verdictWords(assessment, clashes),
      figure(top.average),
      figure(top.minimum),
      figure(top.uniformity, 2),
      figure(assessment.energy.watts),
    ];
  });
  const settings = settingTableRows(settingsComparison([chosen]), [chosen.clashes], "lx").map(
    ({ name, cells: [cell] }) => [name, settingCellText(cell)],
  );
  const edge = workingEdge(chosen.scene, chosen.assessment);
  const units = { length: "mm", illuminance: "lx" } as const;
  const heights = new Set(chosen.scene.layers[0].luminaires.map(({ frame }) => frame.origin[2].toFixed(3)));
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<title>Candlespan: one kitchen from brief to meter</title>
<link rel="icon" href="data:," />
<link rel="stylesheet" href="../styles/guide.css" />
</head>
<body>
<main>
<h1>One kitchen from brief to meter</h1>
<p>The worked example, ${escapeText(study.title)}, taken from what is asked to what a meter reads. Every figure and picture here is the program's own answer: <code>npm run guide</code> makes the page anew, and a test holds it.</p>
<h2>The brief</h2>
<p>A room of ${figure(room.length, 1)} by ${figure(room.width, 1)} m under a ceiling of ${figure(room.ceilingHeight, 2)} m; an island of ${figure(island?.length ?? 0, 1)} by ${figure(island?.width ?? 0, 1)} m, ${figure(island?.height ?? 0, 2)} m high. People prepare, eat and wash at it. Of each zone it is asked:</p>
${table([["zone", "target", "asks"], ...zones.map(({ name, target }) => [name, target ?? "nothing", asks(chosen, name)])])}
<h2>The options</h2>
<p>Each is calculated in full, near field, shadows and interreflected light included, and judged with a band: <code>check boathouse.study.json</code>. Best first:</p>
${table([["option", "verdict", "average, lx", "minimum, lx", "evenness", "power, W"], ...options])}
<p>The first of them, ${escapeText(chosen.scene.name)}:</p>
${sentences(chosen.assessment.zones.map((zone) => zoneSentence(zone, "lx")))}
${picture("kitchen-plan.svg", `The top under ${chosen.scene.name}, everything at full`)}
${edge === undefined ? "" : `<p>${escapeText(workingEdgeSentence(edge, wording(units)))}</p>`}
<h2>The evening</h2>
<p>Dimming is a weight on each layer's light, so every setting is judged by itself, against what is asked then: <code>isolux --setting dinner</code> draws it, and who programs the dimmers gets the same levels on the set-out sheet.</p>
${table([["setting", chosen.scene.name], ...settings])}
${picture("kitchen-dinner.svg", "The same top at dinner")}
<h2>The set-out</h2>
<p>What the electrician gets, from <code>handover</code>: every box from two finished faces, drops, loads, settings, and what is on hold. Photometric centres hang ${[...heights].join(", ")} m above the floor.</p>
${picture("kitchen-set-out.svg", "The set-out sheet")}
<h2>The meter</h2>
<p>Suppose the third pendant was delivered with a lamp of ${figure(100 * WEAK)} % of its light, all else as planned and new. A meter on every fourth point of the grid then reads what <code>verify</code> holds against the prediction (readings made by the program from that kitchen, rounded to 1 lx):</p>
<pre>${verified.split("\n").map(escapeText).join("\n")}</pre>
</main>
</body>
</html>
`;
}

function asks({ assessment }: ArrangementLight, zone: string): string {
  const checks = assessment.zones.find(({ name }) => name === zone)?.checks ?? [];
  return checks
    .map(({ quantity, target }) =>
      quantity === "illuminance" ? `${target} lx` : `evenness ${target.toFixed(2)}`,
    )
    .join(", ");
}
