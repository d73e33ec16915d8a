import { RULES } from "../../advice/guidelines/cards.ts";
import { worstVerdict } from "../../assessment/verdict.ts";
import { OBJECTIVES, type Objective } from "../../design/search/pareto.ts";
import { searchArrangements } from "../../design/search/search.ts";
import { orThrow } from "../../diagnostics/candlespan-error.ts";
import type { StudyDocument } from "../../study/study.ts";
import { arrangeJson, arrangeText } from "../../words/arrange-text.ts";
import { ALLOW_OUTSIDE, type Arguments, type Command, EXIT, type Io } from "../command.ts";
import { CONFIDENCE, confidenceOf } from "../confidence.ts";
import { writeWhole } from "../files.ts";
import { fullCheck } from "../judge-candidate.ts";
import { newEngines, progressOf } from "../light-arrangements.ts";
import { loadStudy } from "../load-study.ts";
import { listOf, wholeBetween } from "../option-values.ts";
import { ROW_OPTIONS, shortlist, spaceOf } from "../row-search.ts";
import { indexOfArrangement, indexOfLayer } from "../select-layer.ts";
import { withFolder } from "../shortlist-folder.ts";
import { VERSION } from "../version.ts";

export const arrange: Command = {
  name: "arrange",
  usage: "arrange STUDY [options]",
  summary: "Searches rows of pendants and proposes the best few that differ in kind, with reasons.",
  arguments: [1, 1],
  options: {
    arrangement: {
      type: "string",
      value: "NAME",
      description: "start from this arrangement (default: the first)",
    },
    layer: { type: "string", value: "NAME", description: "the layer to search (default: the pendants)" },
    folder: {
      type: "string",
      value: "FOLDER",
      description: "try every photometric file in FOLDER, inside the study's",
    },
    ...ROW_OPTIONS,
    pairs: { type: "boolean", description: "try rows of two kinds in turn" },
    rules: {
      type: "string",
      value: "IDS",
      description: "guideline cards that must agree, separated by commas",
    },
    faces: { type: "boolean", description: "people must see each other's faces past the pendants" },
    heads: { type: "boolean", description: "no head may reach a pendant" },
    shielding: { type: "boolean", description: "no lamp may be in a person's eyes that should be shielded" },
    best: {
      type: "string",
      value: "LIST",
      description: `what counts, of ${OBJECTIVES.join(", ")} (default: all)`,
    },
    show: { type: "string", value: "N", default: "4", description: "how many to propose, 1 to 8" },
    ...CONFIDENCE,
    out: { type: "string", value: "FILE", description: "write the study with the proposals added to it" },
    json: { type: "boolean", description: "one JSON object: metres, lux, watts" },
    ...ALLOW_OUTSIDE,
  },
  details: `Every proposal is checked in full, as \`check\` would, so its verdict is the one \`check\` gives. Exit code 0 when
something meets every target, 1 when nothing does.`,
  run,
};

async function run(args: Arguments, io: Io): Promise<number> {
  const [path] = args.positionals;
  const confidence = confidenceOf(args.text("confidence") ?? "");
  const wanted = wholeBetween(args.text("show") ?? "4", "--show", 1, 8);
  const objectives = listOf(args.text("best"), "--best", OBJECTIVES) as Objective[] | undefined;
  const rules =
    listOf(
      args.text("rules"),
      "--rules",
      RULES.map(({ id }) => id),
    ) ?? [];
  const allowed = args.texts("allow-outside");
  const folder = args.text("folder");
  const { loaded, added } =
    folder === undefined
      ? { loaded: loadStudy(path, allowed), added: [] }
      : withFolder(path, folder, allowed, (words) => io.err(`${words}\n`));
  const { study, document } = loaded;
  const index = indexOfArrangement(study.scenes, args.text("arrangement"));
  const scene = study.scenes[index];
  const layer = indexOfLayer(scene, args.text("layer"));
  const kinds = shortlist(loaded, args.text("luminaires"), added);
  const space = spaceOf(args, scene, study.display.length);
  const engines = newEngines();
  const check = fullCheck(loaded, { confidence }, engines, { ...io, interactive: false });
  const progress = progressOf(io, "");
  const result = orThrow(
    searchArrangements(
      {
        study,
        scene,
        base: document.arrangements[index],
        layer,
        kinds,
        check,
        calculate: (...asked) => engines.light.calculate(...asked),
        space,
        constraints: {
          rules,
          faces: args.flag("faces"),
          heads: args.flag("heads"),
          shielding: args.flag("shielding"),
        },
        ...(objectives === undefined ? {} : { objectives }),
        wanted,
        confidence,
      },
      { progress: progress.report },
    ),
  );
  progress.done();
  const input = { study, result, step: space.step };
  io.out(args.flag("json") ? `${JSON.stringify(arrangeJson(input, VERSION))}\n` : arrangeText(input));
  const out = args.text("out");
  if (out !== undefined)
    orThrow(
      writeWhole(
        out,
        studyWith(
          document,
          result.proposals.map((p) => p.document),
        ),
      ),
    );
  const best = result.proposals.map(({ assessment }) => assessment.verdict);
  const met = best.length > 0 && ["meets", "no target"].includes(worstVerdict(best));
  return met ? EXIT.met : EXIT.notMet;
}

/** The study with arrangements added, each under a name of its own. */
function studyWith(
  document: StudyDocument,
  proposals: readonly StudyDocument["arrangements"][number][],
): string {
  const names = new Set(document.arrangements.map(({ name }) => name));
  const added = proposals.map((proposal) => {
    let name = proposal.name;
    for (let n = 2; names.has(name); n++) name = `${proposal.name} (${n})`;
    names.add(name);
    return { ...proposal, name };
  });
  return `${JSON.stringify({ ...document, arrangements: [...document.arrangements, ...added] }, null, 2)}\n`;
}
