/** The study's luminaires: what each one's light rests on, its polar diagram, and those made from lamp and shade. */

import { html, nothing, type TemplateResult } from "lit";
import { FINISH_NAMES, type Luminaire, SHADE_FORMS } from "../../src/app.ts";
import "../../src/elements/polar/polar.ts";
import type { AppView } from "../app-view.ts";
import { choiceField, lengthField, numberField } from "../components/fields.ts";
import { freshName, type RawLuminaire } from "../edits/raw-study.ts";
import type { Json, Path } from "../store/pointer.ts";

/** A shade to begin with: a plain dome around a frosted lamp. Typical values, to be replaced by the real ones. */
const FIRST_SHADE = {
  lamp: { flux: 806, watts: 8, shape: "A60", finish: "frosted" },
  shade: { profile: "dome", diameter: 0.3, height: 0.2, finish: "white" },
} as const;

export function luminaireList(app: AppView): TemplateResult {
  const luminaires = Object.entries(app.study.luminaires ?? {});
  return html`<section class="part" aria-labelledby="luminaires-heading">
    <h2 id="luminaires-heading">Luminaires of the study</h2>
    ${luminaires.map(([name, each]) => luminaireItem(app, name, each))}
    <p class="row-of-actions">
      <button type="button" @click=${() => app.openFile()}>Read a photometric file</button>
      <button type="button" @click=${() => addShade(app)}>Make one from lamp and shade</button>
      <button type="button" @click=${() => addBeam(app)}>Make one from flux and beam</button>
    </p>
    <p class="hint">Photometric files may also be dropped anywhere on the page.</p>
  </section>`;
}

function used(app: AppView, name: string): boolean {
  return app.study.arrangements.some((each) => each.layers.some((layer) => layer.luminaire === name));
}

function known(app: AppView, name: string): Luminaire | undefined {
  for (const layer of app.light?.scene.layers ?? []) {
    const found = layer.luminaires.find(({ luminaire }) => luminaire.name === name);
    if (found !== undefined) return found.luminaire;
  }
  return undefined;
}

function luminaireItem(app: AppView, name: string, document: RawLuminaire): TemplateResult {
  const luminaire = known(app, name);
  const evidence = app.evidenceOf(name);
  const about =
    luminaire === undefined
      ? "Not in the option on screen."
      : `${Math.round(luminaire.flux)} lm${luminaire.watts === undefined ? "" : `, ${luminaire.watts} W`}; its light is ${evidence}.`;
  return html`<details class="item" name="luminaire">
    <summary>${name}</summary>
    <p class="hint">${about}</p>
    ${document.photometry === undefined ? nothing : html`<p class="hint">From ${document.photometry}.</p>`}
    ${document.shade === undefined ? nothing : shadeFields(app, name)}
    ${document.beam === undefined ? nothing : beamFields(app, name)}
    ${luminaire === undefined ? nothing : html`<div class="pictures">${silhouette(luminaire, name)}<candlespan-polar .luminaire=${luminaire} .title=${name}></candlespan-polar></div>`}
    <p class="row-of-actions">
      <button type="button" ?disabled=${used(app, name)} @click=${() =>
        app.edit({
          name: `remove luminaire ${name}`,
          edits: [{ path: ["luminaires", name], value: undefined }],
        })}>
        Remove ${name}
      </button>
    </p>
  </details>`;
}

function shadeFields(app: AppView, name: string): TemplateResult {
  const lamp: Path = ["luminaires", name, "lamp"];
  const shade: Path = ["luminaires", name, "shade"];
  return html`<div class="fields">
    ${choiceField(app, {
      label: "Shade",
      path: [...shade, "profile"],
      change: `${name} as`,
      choices: Object.keys(SHADE_FORMS).map((value) => ({ value, words: value })),
      fallback: "dome",
    })}
    ${choiceField(app, {
      label: "Finish",
      path: [...shade, "finish"],
      change: `${name} in`,
      choices: FINISH_NAMES.map((value) => ({ value, words: value })),
      fallback: "white",
    })}
    ${lengthField(app, { label: "Diameter", path: [...shade, "diameter"], change: `${name} diameter` })}
    ${lengthField(app, { label: "Height of the shade", path: [...shade, "height"], change: `${name} height` })}
    ${numberField(app, {
      label: "Flux of the lamp",
      path: [...lamp, "flux"],
      change: `${name} lamp`,
      from: 1,
      to: 100_000,
      unit: " lm",
    })}
    ${numberField(app, {
      label: "Power of the lamp",
      path: [...lamp, "watts"],
      change: `${name} lamp`,
      from: 0,
      to: 10_000,
      unit: " W",
      optional: true,
    })}
  </div>`;
}

function beamFields(app: AppView, name: string): TemplateResult {
  const beam: Path = ["luminaires", name, "beam"];
  return html`<div class="fields">
    ${numberField(app, { label: "Flux", path: [...beam, "flux"], change: `${name} flux`, from: 1, to: 1e6, unit: " lm" })}
    ${numberField(app, { label: "Beam angle", path: [...beam, "angle"], change: `${name} beam`, from: 1, to: 180, unit: "°" })}
  </div>`;
}

/** The body in profile, to the scale of its own size. */
function silhouette({ body }: Luminaire, name: string): TemplateResult | typeof nothing {
  const outline = body?.outline;
  if (body === undefined || outline === undefined || outline.length < 2) return nothing;
  const heights = outline.map(([, z]) => z);
  const [low, high] = [Math.min(...heights), Math.max(...heights)];
  const size = Math.max(body.diameter, high - low, 1e-3);
  const at = ([r, z]: readonly [number, number], side: 1 | -1): string =>
    `${(60 + (side * r * 100) / size).toFixed(1)} ${(10 + ((high - z) * 100) / size).toFixed(1)}`;
  const right = outline.map((point) => at(point, 1)).join("L");
  const left = outline.map((point) => at(point, -1)).join("L");
  return html`<svg class="silhouette" viewBox="0 0 120 ${(20 + ((high - low) * 100) / size).toFixed(1)}" role="img" aria-label="Profile of ${name}">
    <path d="M${right}M${left}"></path>
  </svg>`;
}

function add(app: AppView, stem: string, document: unknown): void {
  const name = freshName(stem, Object.keys(app.study.luminaires ?? {}));
  const { layers } = app.study.arrangements[app.arrangement];
  const pendants = layers.findIndex((layer) => layer.role === "pendant");
  const into =
    pendants < 0
      ? []
      : [{ path: ["arrangements", app.arrangement, "layers", pendants, "luminaire"] as Path, value: name }];
  app.edit({
    name: `make ${name}`,
    edits: [{ path: ["luminaires", name], value: document as Json }, ...into],
  });
  app.say(pendants < 0 ? `${name} is among the luminaires.` : `${name} hangs in ${layers[pendants].name}.`);
}

function addShade(app: AppView): void {
  add(app, "shade", FIRST_SHADE);
}

function addBeam(app: AppView): void {
  add(app, "beam", { beam: { flux: 800, angle: 60 } });
}
