/** `shade STUDY --compare`: one shade as clear, frosted, opal and solid, in its place in the study. */

import { compareShadeVariants, type ShadeVariantResult } from "../design/shade-variants.ts";
import { printable } from "../diagnostics/printable.ts";
import { LightEngine } from "../engine/light-engine.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatIlluminanceValue } from "../units/illuminance-text.ts";
import { table, wrapped } from "../words/table.ts";
import { type Arguments, EXIT, type Io, usageError } from "./command.ts";
import { progressOf } from "./light-arrangements.ts";
import { loadStudy } from "./load-study.ts";

export function compareShades(args: Arguments, io: Io): number {
  const { document, study } = loadStudy(args.positionals[0], args.texts("allow-outside"));
  const { scene, layer, name } = chosen(study, document.luminaires ?? {}, args);
  const { lamp, shade } = document.luminaires?.[name] ?? {};
  if (lamp === undefined || shade === undefined) return EXIT.met;
  const progress = progressOf(io, printable(name));
  const engine = new LightEngine();
  const results = compareShadeVariants(scene, {
    layer,
    lamp,
    shade,
    calculate: (...request) => engine.calculate(...request),
    // Differences between finishes are large; the quick calculation's bound is a few per cent of interreflected light.
    options: { ...study.options, quality: "quick" },
    observer: { progress: progress.report },
  });
  progress.done();
  io.out(
    args.flag("json")
      ? `${JSON.stringify({ arrangement: scene.name, layer: scene.layers[layer].name, luminaire: name, variants: results }, null, 2)}\n`
      : text(study, scene, name, results),
  );
  return EXIT.met;
}

/** The arrangement and the layer whose luminaire has lamp and shade. */
function chosen(
  study: ResolvedStudy,
  luminaires: Readonly<Record<string, { lamp?: unknown; shade?: { profile?: unknown } }>>,
  args: Arguments,
): { scene: Scene; layer: number; name: string } {
  const arrangement = args.text("arrangement");
  const luminaire = args.text("luminaire");
  const scenes = study.scenes.filter(({ name }) => arrangement === undefined || name === arrangement);
  if (scenes.length === 0)
    throw usageError(
      "The study has no arrangement of that name.",
      study.scenes.map(({ name }) => printable(name)).join(", "),
      printable(arrangement ?? ""),
    );
  for (const scene of scenes) {
    const layer = scene.layers.findIndex(({ luminaires: hung }) =>
      hung.some(({ luminaire: { name } }) => {
        const { lamp, shade } = luminaires[name] ?? {};
        const revolved = lamp !== undefined && shade !== undefined && shade.profile !== "linear";
        return revolved && (luminaire === undefined || name === luminaire);
      }),
    );
    if (layer >= 0) return { scene, layer, name: scene.layers[layer].luminaires[0].luminaire.name };
  }
  throw usageError(
    "No arrangement hangs a luminaire of lamp and shade whose finish could be changed.",
    '"lamp" and a "shade" of revolution in a luminaire that an arrangement uses',
    luminaire === undefined ? undefined : printable(luminaire),
  );
}

function text(
  study: ResolvedStudy,
  scene: Scene,
  name: string,
  results: readonly ShadeVariantResult[],
): string {
  const unit = study.display.illuminance;
  const light = (lux: number) => formatIlluminanceValue(lux, unit);
  const people = scene.people.map((person) => printable(person.name, 12));
  const rows = [
    [
      `${printable(name, 24)} as`,
      "light out",
      `top ${unit}`,
      "U₀",
      `ceiling ${unit}`,
      "view taken",
      "see-through",
      ...people.map((person) => `${person} sees`),
    ],
    ...results.map(({ name: variant, figures }) =>
      figures === undefined
        ? [variant, "none"]
        : [
            variant,
            `${Math.round(100 * figures.lightOutputRatio)} %`,
            light(figures.average),
            figures.uniformity.toFixed(2),
            light(figures.ceiling),
            `${(100 * figures.covered).toFixed(1)} %`,
            figures.covered > 0 ? `${Math.round(100 * (1 - figures.weight / figures.covered))} %` : "–",
            ...figures.eyes.map(({ luminance, lamp }) =>
              luminance === 0 ? "none" : `${Number(luminance.toPrecision(2))}${lamp ? " lamp" : ""}`,
            ),
          ],
    ),
  ];
  const notes = [
    `In ${printable(scene.name)}, the lamp and the shade's form as they are, all layers on, maintained. Brightest luminance towards each eye in cd/m²; "lamp" where the bare lamp itself is in sight.`,
    "Finishes are typical values and the light is known to ±22 % (engineering defaults, no source); view taken is our own construction.",
    ...results.flatMap(({ name: variant, unlit }) => (unlit === undefined ? [] : [`${variant}: ${unlit}`])),
  ];
  return `${[...table(rows), "", ...notes.flatMap((note) => wrapped(note, 96))].join("\n")}\n`;
}
