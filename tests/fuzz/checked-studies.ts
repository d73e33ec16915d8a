/** Whole answers to random studies: checked as a draft, drawn, handed over; and studies with one value spoilt, refused with its place. */
import { Ajv2020 } from "ajv/dist/2020.js";
import { arrangementLight } from "../../src/app/arrangement-light.ts";
import type { JudgedArrangement } from "../../src/app/judged-arrangement.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { refinedPlanes } from "../../src/app/refined-planes.ts";
import { worstVerdict } from "../../src/assessment/verdict.ts";
import { answerSchema } from "../../src/cli/answers/answer-schemas.ts";
import { CandlespanError } from "../../src/diagnostics/candlespan-error.ts";
import type { Issue } from "../../src/diagnostics/issue.ts";
import { sheetSvg } from "../../src/formats/sheet-svg.ts";
import { openStudy as openLibrary } from "../../src/library/study.ts";
import { isoluxSheet } from "../../src/papers/isolux-sheet.ts";
import type { ResolvedStudy } from "../../src/scene/resolved-study.ts";
import { checkStudy } from "../../src/study/study.ts";
import { checkJson } from "../../src/words/check-json.ts";
import { randomStream } from "../support/random-stream.ts";
import { randomStudy } from "../support/random-studies.ts";

const isValid = new Ajv2020({ strict: false }).compile(answerSchema("check"));

export type StudyAnswer =
  | { readonly kind: "refused" }
  | {
      readonly kind: "answered";
      readonly seconds: number;
      /** Processor time between two signs of progress at most, the slowest arrangement's (s). */
      readonly silence: number;
      readonly verdicts: readonly string[];
    }
  | { readonly kind: "fault"; readonly what: string };

export interface AskedOfStudy {
  /** Whether the hand-over is made too, which takes the most. */
  readonly papers?: boolean;
  /** Whether luminaires may be lamp and shade. */
  readonly traced?: boolean;
  /** A small study, few patches and wide fine grids, so that thousands are answered: every question is asked all the same. */
  readonly coarse?: boolean;
}

/** Of a coarse answer: patches of the whole room, and the side of a fine grid's cells (m). */
const COARSE = { patches: 30, cell: 0.2 };

export async function answerOfStudy(
  seed: number,
  { papers = false, traced = false, coarse = false }: AskedOfStudy = {},
): Promise<StudyAnswer> {
  const source = randomStudy(seed, traced, coarse);
  const started = performance.now();
  try {
    const opened = await openStudy(source);
    if (!opened.ok) {
      const fault = faultOfIssues(opened.issues);
      return fault === undefined ? { kind: "refused" } : { kind: "fault", what: fault };
    }
    const { engines } = opened.value;
    const study = coarse ? withPatches(opened.value.study) : opened.value.study;
    const lights = [];
    const silence = new LongestSilence();
    for (const scene of study.scenes) {
      const refined = coarse ? { refined: refinedPlanes(scene.planes, COARSE.cell) } : {};
      const asked = { draft: true, shadows: true, findings: "full", ...refined } as const;
      lights.push(await arrangementLight({ study, engines }, scene, asked, silence));
      silence.progress();
    }
    const answer = checkJson(study, lights, true);
    const json = JSON.parse(JSON.stringify(answer));
    const what =
      notFinite(answer) ??
      (isValid(json) ? undefined : `JSON beside its schema: ${JSON.stringify(isValid.errors?.[0])}`) ??
      lights.map(faultOfVerdict).find((fault) => fault !== undefined) ??
      faultOfDrawing("plan", isoluxSheet(study, lights)) ??
      (papers ? await faultOfPapers(source) : undefined);
    if (what !== undefined) return { kind: "fault", what };
    const verdicts = lights.map(({ assessment }) => assessment.verdict);
    const seconds = (performance.now() - started) / 1000;
    return { kind: "answered", seconds, silence: silence.longest, verdicts };
  } catch (error) {
    return { kind: "fault", what: `threw ${error instanceof Error ? error.stack : String(error)}` };
  }
}

/** Observes work, and knows how long it kept silent. */
class LongestSilence {
  longest = 0;
  #last = process.cpuUsage();

  progress = (): void => {
    const { user, system } = process.cpuUsage(this.#last);
    this.longest = Math.max(this.longest, (user + system) / 1e6);
    this.#last = process.cpuUsage();
  };
}

const withPatches = (study: ResolvedStudy): ResolvedStudy => ({
  ...study,
  options: { ...study.options, patches: COARSE.patches },
});

function faultOfIssues(issues: readonly Issue[]): string | undefined {
  const bad = issues.find(({ message, where }) => message === "" || where.path === undefined);
  if (issues.length === 0) return "refused without an issue";
  return bad === undefined ? undefined : `refused without a place: ${JSON.stringify(bad)}`;
}

/** The path of a number that is none. */
function notFinite(value: unknown, path = ""): string | undefined {
  if (typeof value === "number") return Number.isFinite(value) ? undefined : `${value} at ${path}`;
  if (typeof value !== "object" || value === null) return undefined;
  for (const [key, inner] of Object.entries(value)) {
    const found = notFinite(inner, `${path}/${key}`);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** A verdict that its own figures contradict. */
function faultOfVerdict({ assessment }: JudgedArrangement): string | undefined {
  for (const { name, statistics: s, checks, verdict } of assessment.zones) {
    const slack = 1e-9 * Math.max(1, s.maximum);
    if (!(s.minimum <= s.average + slack && s.average <= s.maximum + slack && s.minimum >= 0))
      return `zone ${name}: ${s.minimum}, ${s.average}, ${s.maximum} lx out of order`;
    const worst = worstVerdict(checks.map((check) => check.verdict));
    if (worst !== verdict) return `zone ${name} is ${verdict}, its worst check ${worst}`;
    for (const { value, target, probability, verdict: each } of checks) {
      if (probability !== undefined && !(probability >= 0 && probability <= 1))
        return `zone ${name}: a probability of ${probability}`;
      if (each === "meets" && value < target) return `zone ${name} meets ${target} with ${value}`;
      if (each === "falls short" && value > target)
        return `zone ${name} falls short of ${target} with ${value}`;
    }
  }
  const judged = assessment.settings ?? assessment.zones;
  const worst = worstVerdict(judged.map(({ verdict }) => verdict));
  return worst === assessment.verdict
    ? undefined
    : `the verdict is ${assessment.verdict}, its worst zone or setting ${worst}`;
}

function faultOfDrawing(name: string, svg: string): string | undefined {
  // In attributes only: a name may be any word.
  const found = /="[^"]*\b(NaN|Infinity|undefined)\b[^"]*"/.exec(
    svg.replace(/ (aria-label|data-[\w-]+|title)="[^"]*"/g, ""),
  );
  return found === null ? undefined : `${name} draws ${found[0].slice(0, 100)}`;
}

/** Papers of every hand-over, whatever the study. */
const ALWAYS = [/set\.pdf$/, /\.svg$/, /\.csv$/, /\.dxf$/];

async function faultOfPapers(source: object): Promise<string | undefined> {
  const study = await openLibrary(source);
  const files = await study.papers({ draft: true, date: "2026-11-28" });
  for (const wanted of ALWAYS)
    if (!files.some(({ path }) => wanted.test(path))) return `the hand-over lacks ${wanted.source}`;
  for (const file of files) {
    if ("content" in file) {
      const text = file.content;
      if (text === "") return `${file.path} is empty`;
      if (file.path.endsWith(".svg")) {
        const fault = faultOfDrawing(file.path, text);
        if (fault !== undefined) return fault;
      } else if (/\b(NaN|undefined)\b/.test(text))
        return `${file.path} says ${/.{0,30}\b(NaN|undefined)\b.{0,30}/.exec(text)?.[0]}`;
    } else
      for (const sheet of file.sheets) {
        const fault = faultOfDrawing(file.path, sheetSvg(sheet));
        if (fault !== undefined) return fault;
      }
  }
  return undefined;
}

/** A value no key takes, so that every place of a study is one that must refuse it. */
const SPOILT = { nonsense: [] };

/** One value of a sound study spoilt, or a key that no study has; what is wrong with the refusal, if anything. */
export function faultOfSpoiltStudy(seed: number): string | undefined {
  const random = randomStream(seed * 32_452_843);
  const study = randomStudy(seed);
  const places = pathsIn(study);
  const place = places[Math.floor(random() * places.length)];
  const holder = place
    .slice(0, -1)
    .reduce<Record<string, unknown>>((at, key) => at[key] as Record<string, unknown>, study);
  const key = place.at(-1)!;
  const isKey = random() < 0.2 && !Array.isArray(holder) && !isDictionary(place);
  const path = `/${place.map((step) => step.replaceAll("~", "~0").replaceAll("/", "~1")).join("/")}`;
  if (isKey) holder[`${key}x`] = 1;
  else holder[key] = SPOILT;
  let issues: readonly Issue[];
  try {
    const checked = checkStudy(study);
    if (checked.ok) return `${path}${isKey ? "x" : ""} was taken as ${JSON.stringify(holder[key])}`;
    issues = checked.issues;
  } catch (error) {
    return `threw ${error instanceof CandlespanError ? error.message : (error as Error).stack}`;
  }
  const parent = path.slice(0, path.lastIndexOf("/"));
  const placed = issues.some(({ where }) => where.path?.startsWith(isKey ? parent : path) === true);
  if (!placed) return `${path} was refused at ${issues.map(({ where }) => where.path).join(", ")}`;
  return issues.every(({ message }) => message !== "") ? undefined : `${path} was refused without a word`;
}

/** Whether the last step is a name that the study itself gives. */
function isDictionary(path: readonly string[]): boolean {
  return /^(luminaires|targets|embedded|dim|zones)$/.test(path.at(-2) ?? "");
}

/** The way to every value but the whole. */
function pathsIn(value: unknown, path: string[] = []): string[][] {
  if (typeof value !== "object" || value === null) return [path];
  const inner = Object.entries(value).flatMap(([key, each]) => pathsIn(each, [...path, key]));
  return path.length === 0 ? inner : [path, ...inner];
}

/** Every key of every object of a study, places of lists and names left out. */
export function keysIn(study: object): Set<string> {
  const plain = (path: string[]): string =>
    path
      .map((step, i) => (/^\d+$/.test(step) || isDictionary(path.slice(0, i + 1)) ? "*" : step))
      .join("/")
      .replaceAll("/*/*", "/*");
  return new Set(pathsIn(study).map(plain));
}
