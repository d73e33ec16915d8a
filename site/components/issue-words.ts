/** What is wrong, in the trade's words and the units on screen, with the field to mend it in. */

import {
  formatIssue,
  formatLocation,
  formatPointer,
  type Issue,
  issueIn,
  metresOf,
  type Phrase,
  parsePointer,
} from "../../src/app.ts";
import type { Display } from "../app-view.ts";
import type { RawStudy } from "../edits/raw-study.ts";
import { type Json, type Path, read } from "../store/pointer.ts";
import { placeWords } from "./study-words.ts";
import { capital, lengthText } from "./words.ts";

/** Whose names and units an issue is said in. */
export interface IssueView {
  readonly study: RawStudy;
  readonly display: Display;
}

/** An issue as it is said on screen. */
export interface SaidIssue {
  /** Whose it is and which field: the text of the link; empty for what stands in no field. */
  readonly place: string;
  readonly words: string;
  /** Path of the field to be mended. */
  readonly path: Path | undefined;
}

/** Issues as they are said, each once however many luminaires it concerns. */
export function saidIssues(issues: readonly Issue[], app: IssueView): SaidIssue[] {
  const said = new Map<string, SaidIssue>();
  for (const issue of worstFirst(issues)) {
    const path = fieldOf(issue);
    const words = wordsOf(issue, app);
    const { subject, field } = path === undefined ? { subject: "", field: "" } : placeWords(app.study, path);
    const place = capital(field === "" ? subject : `${subject}, ${field}`);
    const key = `${issue.code} ${path === undefined ? words : formatPointer(path)}`;
    if (!said.has(key)) said.set(key, { place, words, path });
  }
  return [...said.values()];
}

/** An issue in one line, with its place in a file where it has one. */
export function issueWords(issue: Issue, app: IssueView): string {
  const { line, file } = issue.where;
  const [{ place, words }] = saidIssues([issue], app);
  const from = line === undefined ? "" : `${file === undefined ? "" : `${file}, `}line ${line}: `;
  return `${from}${place === "" ? "" : `${place}: `}${from === "" && place === "" ? capital(words) : words}`;
}

/** An issue of a document that was given and not taken: in the trade's words, and where it stands for who wrote it by hand. */
export function refusedIssue(
  issue: Issue,
  app: IssueView,
): { readonly words: string; readonly location: string } {
  const [{ place, words }] = saidIssues([issue], app);
  const isOfStudy = issue.where.path !== undefined;
  return {
    words: isOfStudy && place !== "" ? `${place}: ${words}` : capital(words),
    location: formatLocation(issue.where),
  };
}

/** What is wrong with a field, without its name, which stands over it; undefined when nothing is. */
export function issueWordsAt(issues: readonly Issue[], path: Path, app: IssueView): string | undefined {
  const pointer = formatPointer(path);
  const issue = worstFirst(issues).find((issue) => {
    const field = fieldOf(issue);
    return field !== undefined && formatPointer(field) === pointer;
  });
  return issue === undefined ? undefined : capital(wordsOf(issue, app));
}

/** The path of an issue, led to the field that mends it. */
export function fieldOf({ code, where }: Issue): Path | undefined {
  if (where.path === undefined) return undefined;
  const path: Path = parsePointer(where.path).map((step) => (/^\d+$/.test(step) ? Number(step) : step));
  if (code === "luminaire-above-ceiling" && path.at(-1) === "row") return [...path, "clearance"];
  return path;
}

/** How far above the ceiling an issue says that something reaches (m). */
function excessOf({ phrases }: Issue): number {
  const lengthOf = (words: Phrase = []) => [...words].find((each) => typeof each === "number") ?? Number.NaN;
  return lengthOf(phrases?.received) - lengthOf(phrases?.expected);
}

/** Of pendants of a row, the one that reaches highest tells how far all must come down. */
function worstFirst(issues: readonly Issue[]): readonly Issue[] {
  const isHigh = ({ code }: Issue): boolean => code === "luminaire-above-ceiling";
  const high = issues.filter(isHigh).sort((a, b) => excessOf(b) - excessOf(a));
  let next = 0;
  return issues.map((issue) => (isHigh(issue) ? high[next++] : issue));
}

const EIGHTH_INCH = 0.0254 / 8;

/** Words for codes whose remedy is a length; the others say what was expected and found. */
function wordsOf(issue: Issue, app: IssueView): string {
  if (issue.code === "luminaire-above-ceiling") return aboveCeiling(issue, app);
  return small(formatIssue({ ...issueIn(issue, app.display.length), where: {} }));
}

function aboveCeiling(issue: Issue, app: IssueView): string {
  const path = fieldOf(issue) ?? [];
  const clearance = metresOf(read(app.study as unknown as Json, path));
  const excess = excessOf(issue);
  const start = "it would reach above the ceiling";
  if (path.at(-1) !== "clearance" || clearance === undefined)
    return `${start}; it must hang ${lengthText(app, excess)} lower.`;
  // Rounded down as it is shown, so that what is typed from here fits.
  const step = app.display.length === "ft-in" ? EIGHTH_INCH : 0.001;
  const most = Math.floor((clearance - excess) / step + 1e-9) * step;
  return most > 0
    ? `${start}; ${lengthText(app, most)} clearance is the most.`
    : `${start} at any clearance: the room is too low for it.`;
}

/** A sentence after a colon begins small. */
const small = (text: string): string =>
  /^(The|This|A|An|It|There|Another) /.test(text) ? text[0].toLowerCase() + text.slice(1) : text;
