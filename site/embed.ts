/**
 * The elements on an ordinary page: read a study, calculate, hand both to the elements, and apply what the hand
 * moves. Everything here comes through the library's two public doors; an app keeps the calculation in workers.
 */
import { type LuminaireMoveDetail, movedScene } from "../src/elements.ts";
import {
  assess,
  checkStudy,
  LightEngine,
  orThrow,
  PUBLISHED_TARGETS_BY_ID,
  photometryPaths,
  type ResolvedStudy,
  readPhotometry,
  resolveStudy,
  type Scene,
  verdictMethod,
} from "../src/index.ts";

const base = new URL("../fixtures-data/boathouse/", import.meta.url);
const photometry = import.meta.glob("../fixtures-data/boathouse/photometry/*", {
  query: "?url",
  import: "default",
  eager: true,
});
const documents = import.meta.glob("../fixtures-data/boathouse/*.study.json", {
  import: "default",
  eager: true,
});

async function load(): Promise<ResolvedStudy> {
  const document = orThrow(checkStudy(Object.values(documents)[0]));
  const read = photometryPaths(document).map(async ({ luminaire, path }) => {
    const address = photometry[`../fixtures-data/boathouse/${path}`] ?? new URL(path, base).href;
    const bytes = new Uint8Array(await (await fetch(address as string)).arrayBuffer());
    return [luminaire, readPhotometry(bytes, { file: path })] as const;
  });
  const context = { photometry: new Map(await Promise.all(read)), publishedTargets: PUBLISHED_TARGETS_BY_ID };
  return orThrow(resolveStudy(document, context));
}

const study = await load();
const engine = new LightEngine();
const uncertainty = new LightEngine();
const elements = ["candlespan-sheet", "candlespan-figures", "candlespan-light-table"] as const;
let scene: Scene = study.scenes[0];

function show(quality: "quick" | "full"): void {
  const options = { ...study.options, quality, interreflection: quality === "full" };
  const result = engine.calculate(scene, options);
  // What follows a moving hand is a draft: figures without verdicts.
  const verdicts =
    quality === "full" ? verdictMethod(scene, result, (...asked) => uncertainty.calculate(...asked)) : null;
  const assessment = assess(study, scene, result, verdicts);
  for (const tag of elements) {
    const element = document.querySelector(tag);
    if (element !== null) Object.assign(element, { study, scene, assessment });
  }
}

let rest: ReturnType<typeof setTimeout> | undefined;
document.querySelector("candlespan-sheet")?.addEventListener("luminaire-move", (event) => {
  const { moves } = (event as CustomEvent<LuminaireMoveDetail>).detail;
  scene = movedScene(scene, moves);
  show("quick");
  // The interreflected answer waits until the hand rests.
  clearTimeout(rest);
  rest = setTimeout(() => show("full"), 200);
});

show("quick");
rest = setTimeout(() => show("full"), 50);
