/** The papers of a hand-over, made in the page: the same files the command line writes, from the light of every
 * option. Loaded when the first of them is asked for. The light of one study, option and choice of people is kept until another
 * is asked for; typefaces as long as the page. */

import regularFace from "dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf?url";
import boldFace from "dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf?url";
import { zipSync } from "fflate";
import {
  type FindingsSection,
  type Handover,
  type HandoverFile,
  handoverOption,
  headOf,
  lampsOf,
  orThrow,
  type PaperName,
  studyFingerprint,
} from "../../src/app.ts";
import { DrawnSheets, letteredFiles, missingLettersWords, sheetsPdf } from "../../src/formats/pdf/pdf.ts";
import type { LightAnswer, PeopleAnswer } from "../../src/workers/browser.ts";
import type { AppView } from "../app-view.ts";
import { isPictureEarlier, pictureOfRoom } from "../store/room-pictures.ts";

export interface PaperChoice {
  readonly paper: PaperName;
  readonly revision: string;
  /** What is new in this revision. */
  readonly note?: string;
}

export interface MadePapers {
  readonly files: readonly HandoverFile[];
  /** What the PDFs cannot write, in a sentence. */
  readonly unwritten?: string | undefined;
}

interface Lit {
  readonly answers: readonly LightAnswer[];
  /** What people's own bodies take, of each option. */
  readonly shadows: readonly PeopleAnswer["shadows"][];
  /** What there is to say beside the verdict of the option on screen. */
  readonly findings: readonly FindingsSection[];
}

/** Light of the study as it stood; asked for again while nothing changed, it is not computed again. */
let last: { readonly key: readonly unknown[]; readonly lit: Lit } | undefined;

async function litOptions(app: AppView, say: (words: string) => void): Promise<Lit> {
  const { study, arrangement, withPeople: people } = app;
  const key = [study, arrangement, people];
  if (last?.key.every((part, i) => part === key[i])) return last.lit;
  const { embedded: _, ...document } = study;
  const { connection } = app.lighting;
  const answers: LightAnswer[] = [];
  const shadows: PeopleAnswer["shadows"][] = [];
  for (let i = 0; i < study.arrangements.length; i++) {
    say(`Light for the papers: option ${i + 1} of ${study.arrangements.length}…`);
    const request = { document, arrangement: i, quality: "judged", people } as const;
    const answer = orThrow(await connection.call("light", request).outcome);
    answers.push(answer);
    const question = { document, arrangement: i, people };
    shadows.push(
      answer.scene.people.length === 0
        ? []
        : orThrow(await connection.call("people", question).outcome).shadows,
    );
  }
  const findings = orThrow(await connection.call("beside", { document, arrangement, people }).outcome);
  const lit = { answers, shadows, findings };
  last = { key, lit };
  return lit;
}

/** @param say hears how far the light is */
export async function papersOf(
  app: AppView,
  { paper, revision, note }: PaperChoice,
  say: (words: string) => void = () => {},
): Promise<MadePapers> {
  const { study, arrangement } = app;
  const { answers, shadows, findings } = await litOptions(app, say);
  const [first] = answers;
  const handover: Handover = {
    project: first.title,
    ...headOf((study as { project?: Parameters<typeof headOf>[0] }).project),
    targets: first.targets,
    calculation: first.options,
    defaults: first.defaults,
    warnings: first.warnings,
    options: answers.map((answer, i) => ({
      ...handoverOption(answer, i === arrangement ? findings : undefined, shadows[i], pictureOfRoom(app, i)),
      ...(isPictureEarlier(app, i) ? { isPictureEarlier: true } : {}),
      ...(i === arrangement ? drawnTolerances(app) : {}),
    })),
    chosen: arrangement,
    lamps: lampsOf(study.luminaires as Record<string, { lamp?: unknown }> | undefined),
    paper,
    unit: app.display.length === "ft-in" ? "ft-in" : "mm",
    illuminance: app.display.illuminance,
    revision,
    ...(note === undefined || note === "" ? {} : { note }),
    date: localDate(),
    fingerprint: studyFingerprint(study),
  };
  const { files, missing } = letteredFiles(handover, await fonts());
  return { files, unwritten: missingLettersWords(missing) };
}

/** On the papers where they are on the drawings. */
function drawnTolerances(app: AppView): Pick<Handover["options"][number], "tolerances"> {
  const state = app.results?.tolerances.state;
  return state?.status === "complete" ? { tolerances: state.value } : {};
}

/** @param drawn of the papers that were written before it */
export async function contentOf(file: HandoverFile, drawn?: DrawnSheets): Promise<string | Uint8Array> {
  if ("content" in file) return file.content;
  const facts = { title: file.title, date: new Date(`${localDate()}T12:00:00Z`) };
  return sheetsPdf(file.sheets, await fonts(), facts, drawn);
}

/** All of them in one zip. */
export async function zipOf(files: readonly HandoverFile[]): Promise<Uint8Array> {
  const entries: Record<string, Uint8Array> = {};
  const drawn = new DrawnSheets();
  for (const file of files) {
    const content = await contentOf(file, drawn);
    entries[file.path] = typeof content === "string" ? new TextEncoder().encode(content) : content;
  }
  return zipSync(entries);
}

let faces: Promise<{ regular: Uint8Array; bold: Uint8Array }> | undefined;

function fonts(): NonNullable<typeof faces> {
  faces ??= Promise.all([regularFace, boldFace].map(bytesOf)).then(([regular, bold]) => ({ regular, bold }));
  return faces;
}

async function bytesOf(address: string): Promise<Uint8Array> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error("The font of the PDFs could not be fetched.");
  return new Uint8Array(await answer.arrayBuffer());
}

/** Today where the page is read. */
function localDate(): string {
  const now = new Date();
  const two = (n: number) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
