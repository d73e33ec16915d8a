/**
 * The elements on an ordinary page: open a study, ask for its light, hand both to the elements, and apply what the hand
 * moves; or hand a study to an element that does all of it. Everything here comes through the library's public doors; an app keeps the calculation in workers.
 */
import { arrangementLight, openStudy, orThrow, type Scene } from "../src/app.ts";
import { type LuminaireMoveDetail, movedScene } from "../src/elements.ts";
import { DINING, GALLEY } from "./embed-kitchens.ts";

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

async function read(path: string): Promise<Uint8Array> {
  const address = photometry[`../fixtures-data/boathouse/${path}`] ?? new URL(path, base).href;
  return new Uint8Array(await (await fetch(address as string)).arrayBuffer());
}

const opened = orThrow(await openStudy(Object.values(documents)[0], { read }));
const { study } = opened;
const elements = ["candlespan-sheet", "candlespan-figures", "candlespan-light-table"] as const;
let scene: Scene = study.scenes[0];

async function show(quality: "quick" | "full"): Promise<void> {
  const lit = scene;
  // What follows a moving hand is a draft: figures without verdicts.
  const draft = quality === "quick";
  const { assessment } = await arrangementLight(opened, lit, { draft, judged: !draft });
  if (lit !== scene) return;
  for (const tag of elements) {
    const element = document.querySelector(tag);
    if (element !== null) Object.assign(element, { study, scene, assessment });
  }
}

let rest: ReturnType<typeof setTimeout> | undefined;
document.querySelector("candlespan-sheet")?.addEventListener("luminaire-move", (event) => {
  const { moves } = (event as CustomEvent<LuminaireMoveDetail>).detail;
  scene = movedScene(scene, moves);
  void show("quick");
  // The interreflected answer waits until the hand rests.
  clearTimeout(rest);
  rest = setTimeout(() => void show("full"), 200);
});

void show("quick");
rest = setTimeout(() => void show("full"), 50);

// An element that opens a study and lights it by itself; each waits for the one before, as all share the page's thread.
async function showBesides(): Promise<void> {
  for (const [id, source] of Object.entries({ galley: GALLEY, dining: DINING })) {
    const element = document.getElementById(id);
    if (element === null) continue;
    const lit = new Promise((done) => element.addEventListener("study-light", done, { once: true }));
    Object.assign(element, { source });
    await lit;
  }
}

setTimeout(() => void showBesides(), 400);
