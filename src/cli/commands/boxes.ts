import { requirementsOf } from "../../assessment/assess.ts";
import { verdictMethod } from "../../assessment/uncertainty/verdict-method.ts";
import { readOffsets, replay } from "../../design/boxes/as-built.ts";
import { robustBoxes } from "../../design/boxes/robust-boxes.ts";
import { toleranceRings } from "../../design/boxes/tolerance-ring.ts";
import { arrangementOf } from "../../design/search/arrangement-of.ts";
import { kindOf } from "../../design/search/candidate.ts";
import { keepingConstraints } from "../../design/search/constraints.ts";
import { type Checked, checkedOf } from "../../design/search/proposals.ts";
import { searchGrid } from "../../design/search/search-grid.ts";
import { candidatesOf } from "../../design/search/search-space.ts";
import { standingLight } from "../../design/search/standing-light.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import type { Scene } from "../../scene/scene.ts";
import { formatLength } from "../../units/length-text.ts";
import { asBuiltText, boxesJson, boxesText } from "../../words/boxes-text.ts";
import { ALLOW_OUTSIDE, type Arguments, type Command, EXIT, type Io, usageError } from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { readUtf8 } from "../files.ts";
import { fullCheck } from "../judge-candidate.ts";
import { newEngines, progressOf } from "../light-arrangements.ts";
import { loadStudy } from "../load-study.ts";
import { lengthOf } from "../option-values.ts";
import { ROW_OPTIONS, shortlist, spaceOf } from "../row-search.ts";
import { indexOfArrangement, indexOfLayer } from "../select-layer.ts";
import { VERSION } from "../version.ts";

export const boxes: Command = {
  name: "boxes",
  usage: "boxes STUDY [options]",
  summary:
    "Ceiling boxes good for any pendant of a shortlist, how far each may be off, the ceiling as built.",
  arguments: [1, 1],
  options: {
    arrangement: { type: "string", value: "NAME", description: "the arrangement (default: the first)" },
    layer: {
      type: "string",
      value: "NAME",
      description: "the layer of pendants (default: the first of them)",
    },
    error: {
      type: "string",
      value: "LENGTH",
      default: "25 mm",
      description: "how far a box may end up from its place",
    },
    ...ROW_OPTIONS,
    "as-built": {
      type: "string",
      value: "FILE",
      description:
        "offsets of the real boxes, columns number, along, across, up: the new verdict and the cheapest remedy",
    },
    ...CONFIDENCE,
    json: { type: "boolean", description: "one JSON object: metres, lux" },
    ...ALLOW_OUTSIDE,
  },
  details: `Positions are tried with every pendant of the shortlist, each at its best height, every box displaced at once in
its worst direction. Exit code 0 when the first set meets every target with all of them (with --as-built: when the
planned verdict stands), else 1.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path] = args.positionals;
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const loaded = loadStudy(path, args.texts("allow-outside"));
  const { study, document } = loaded;
  const index = indexOfArrangement(study.scenes, args.text("arrangement"));
  const scene: Scene = study.scenes[index];
  const layer = indexOfLayer(scene, args.text("layer"));
  const engines = newEngines();
  const check = fullCheck(loaded, { confidence }, engines, { ...io, interactive: false });
  const progress = progressOf(io, "");
  const observer = { progress: progress.report };
  const offsets = args.text("as-built");
  if (offsets !== undefined) {
    const count = scene.layers[layer].luminaires.length;
    const read = orThrow(readOffsets(orThrow(readUtf8(offsets, 100_000)), count, offsets));
    const found = replay(
      scene,
      layer,
      read,
      (each) => check.judge(each),
      (m) => formatLength(m, study.display.length),
    );
    progress.done();
    const { planned, built, worse, remedies } = found;
    io.out(
      args.flag("json")
        ? `${JSON.stringify({
            candlespan: VERSION,
            study: study.title,
            planned: planned.verdict,
            built: built.verdict,
            zones: built.zones.map(({ name, verdict, checks }) => ({ name, verdict, checks })),
            remedies: remedies.map(({ words, restores, assessment }) => ({
              words,
              restores,
              verdict: assessment.verdict,
            })),
          })}\n`
        : asBuiltText(study, found),
    );
    return worse ? EXIT.notMet : EXIT.met;
  }
  const { island } = scene;
  if (island === undefined)
    throw usageError("There is no island to hang pendants over.", '"island" in the study');
  const error = lengthOf(args.text("error") ?? "25 mm", "--error");
  if (error > 0.3) throw usageError("--error is farther than any box is set out.", "at most 300 mm");
  const space = spaceOf(args, scene, study.display.length);
  const kinds = shortlist(loaded, args.text("luminaires"), []).map((luminaire) => kindOf(luminaire, island));
  if (kinds.length === 0) throw usageError("There is no luminaire to try.", "at least one");
  // Positions must suit the widest: rows of each kind, kept where every kind keeps its distance.
  const widest = kinds.reduce((a, b) => (b.rim > a.rim ? b : a));
  const patterns = candidatesOf(
    { ...space, clearances: [space.clearances[0]], pairs: false },
    [widest],
    island,
  );
  const { kept } = keepingConstraints(patterns, scene, layer, [widest], space.step, {
    rules: [],
    load: false,
  });
  const grid = searchGrid(island, scene.zones, space.step);
  const light = standingLight(
    scene,
    layer,
    kinds,
    grid,
    (...asked) => engines.light.calculate(...asked),
    observer,
  );
  const sets = robustBoxes(
    {
      scene,
      layer,
      kinds,
      grid,
      light,
      requirements: grid.zones.map(({ zone }) => requirementsOf(study, zone)),
      confidence,
      nearFieldError: study.options.nearFieldError,
      clearances: space.clearances,
      error,
    },
    kept,
    observer,
  );
  const [first] = sets;
  const checked = (first?.kinds ?? []).flatMap(({ kind, clearance }): Checked[] => {
    progress.report("checking in full", kind / kinds.length);
    const name = `${first.boxes.count} × ${kinds[kind].luminaire.name.slice(0, 60)}`;
    const row = { ...first.boxes, kinds: [kind] as const, clearance };
    const written = arrangementOf(row, document.arrangements[index], layer, name, {
      island,
      kinds,
      step: space.step,
    });
    const resolved = check.resolve(written);
    return resolved.ok ? [checkedOf(written, resolved.value, check)] : [];
  });
  check.judge(scene);
  const own = check.judged(scene);
  const rings =
    own === undefined
      ? []
      : toleranceRings(
          study,
          scene,
          own.result,
          verdictMethod(scene, own.result, (...asked) => engines.uncertainty.calculate(...asked), {
            confidence,
            sources: engines.uncertainty.sources,
          }),
          layer,
          observer,
        );
  progress.done();
  const input = { study, island, kinds, step: space.step, error, sets, checked, scene, layer, rings };
  io.out(args.flag("json") ? `${JSON.stringify(boxesJson(input, VERSION))}\n` : boxesText(input));
  const good =
    checked.length === kinds.length &&
    checked.every(({ assessment: { verdict } }) => verdict === "meets" || verdict === "no target");
  return good && first?.robust === true ? EXIT.met : EXIT.notMet;
}
