/**
 * What a hand-over is made from: the options of a study with their light, the one that was chosen, and how the
 * papers are to be written. Plain data: the command line and the page fill it each in its own way.
 */

import type { BodyShadow } from "../advice/body-shadow.ts";
import type { Clash } from "../advice/clashes/clash.ts";
import type { PersonFindings } from "../advice/findings.ts";
import type { IsoluxField } from "../app/isolux-field.ts";
import { contourOf, type JudgedArrangement } from "../app/judged-arrangement.ts";
import type { SetOutUnit } from "../app/set-out/set-out.ts";
import type { ArrangementAssessment, Statistics } from "../assessment/assessment.ts";
import type { Issue } from "../diagnostics/issue.ts";
import type { DefaultUsed } from "../diagnostics/ledger.ts";
import { printable } from "../diagnostics/printable.ts";
import type { PaperName, Picture } from "../drawing/paper/paper.ts";
import type { DrawnTolerance } from "../drawing/tolerance-marks.ts";
import { contentKey } from "../numerics/content-key.ts";
import type { CalculationOptions } from "../scene/calculation-options.ts";
import type { PlaneGrid } from "../scene/calculation-plane.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import type { Target } from "../scene/target.ts";
import { topPlane } from "../scene/top-plane.ts";
import {
  formatIlluminance,
  formatIlluminanceValue,
  type IlluminanceUnit,
} from "../units/illuminance-text.ts";
import { formatLength } from "../units/length-text.ts";
import type { FindingsSection } from "../words/findings-sections.ts";

/** One option with its light. */
export interface HandoverOption {
  readonly scene: Scene;
  readonly assessment: ArrangementAssessment;
  /** What cannot hang or be built as it is placed. */
  readonly clashes: readonly Clash[];
  /** The whole top once boxes are shifted as the ways out of clashes say, where some are to be. */
  readonly shifted?: Statistics;
  /** The light on the whole top, fine enough to be drawn; absent where there is no such plane. */
  readonly top?: { readonly grid: PlaneGrid; readonly field: IsoluxField };
  /** What there is to say beside the verdict: people's eyes and heads, surround, look, load, years. */
  readonly findings?: readonly FindingsSection[];
  /** People's eyes and heads, where they were worked out. */
  readonly people?: readonly PersonFindings[];
  /** What people's own bodies take from where their hands work, where it was worked out. */
  readonly shadows?: readonly BodyShadow[];
  /** How far each pendant may be off with the same verdict, where it was worked out. */
  readonly tolerances?: readonly DrawnTolerance[];
  /** The room in this light, where a picture was made. */
  readonly picture?: Picture;
  /** A picture was made before something changed, and is left out. */
  readonly isPictureEarlier?: boolean;
}

/** What a study says of the lamp in a shade, as far as an order needs it. */
export interface LampWords {
  readonly flux?: number;
  readonly watts?: number;
  readonly shape?: string;
  readonly finish?: string;
  readonly beam?: number;
  readonly count?: number;
  /** The finishes of its shade. */
  readonly shade?: string;
}

/** Who a job is for, where it is and whose it is. */
export interface ProjectHead {
  readonly client?: string;
  readonly address?: string;
  readonly author?: string;
  readonly number?: string;
  /** The author's own sign. */
  readonly logo?: Picture;
}

export interface Handover {
  readonly project: string;
  readonly head?: ProjectHead;
  readonly options: readonly HandoverOption[];
  /** Index of the option that is to be built. */
  readonly chosen: number;
  /** Lamps by the name of their luminaire, where the study states them. */
  readonly lamps: ReadonlyMap<string, LampWords>;
  readonly targets: ReadonlyMap<string, Target>;
  readonly calculation: CalculationOptions;
  readonly defaults: readonly DefaultUsed[];
  readonly warnings: readonly Issue[];
  readonly paper: PaperName;
  readonly unit: SetOutUnit;
  readonly illuminance: IlluminanceUnit;
  readonly revision: string;
  /** What is new in this revision. */
  readonly note?: string;
  /** Letters of the study's words that the font of the PDFs has no form for. */
  readonly missingLetters?: readonly string[];
  /** ISO date. */
  readonly date: string;
  /** Key of the study's content. */
  readonly fingerprint: string;
  /** Version of the program, where it is known. */
  readonly version?: string;
}

/** How a hand-over writes its figures. */
export interface HandoverWords {
  readonly unit: SetOutUnit;
  readonly light: IlluminanceUnit;
  /** A length (m) with its unit. */
  length(metres: number): string;
  /** A length (m) as on a drawing whose units are stated: millimetres bare, feet and inches marked. */
  dimension(metres: number): string;
  /** An illuminance (lx) with its unit. */
  lux(value: number): string;
  /** An illuminance (lx) without. */
  figure(value: number): string;
}

export function handoverWords({ unit, illuminance }: Pick<Handover, "unit" | "illuminance">): HandoverWords {
  return {
    unit,
    light: illuminance,
    length: (metres) => unbroken(formatLength(metres, unit)),
    dimension: (metres) => {
      const words = formatLength(metres, unit);
      return unit === "mm" ? words.replace(/ mm$/, "") : unbroken(words);
    },
    lux: (value) => formatIlluminance(value, illuminance),
    figure: (value) => formatIlluminanceValue(value, illuminance),
  };
}

/** A figure that never breaks at a line's end: 8'-0 | 1/2" would be read as two. */
function unbroken(words: string): string {
  return words.replaceAll(" ", "\u00a0");
}

/** The option that is to be built. */
export function chosenOption({ options, chosen }: Pick<Handover, "options" | "chosen">): HandoverOption {
  return options[chosen];
}

/** The program with its version, where that is known. */
export function program({ version }: Pick<Handover, "version">): string {
  return version === undefined ? "Candlespan" : `Candlespan ${printable(version, 20)}`;
}

/** An option with its light and what was found beside the verdict, already in words. */
export function handoverOption(
  judged: Pick<JudgedArrangement, "scene" | "assessment" | "contours" | "clashes" | "findings" | "shifted">,
  findings?: readonly FindingsSection[],
  shadows?: readonly BodyShadow[],
  picture?: Picture,
): HandoverOption {
  const { scene, assessment, clashes, shifted } = judged;
  const top = contourOf(judged, scene.planes[topPlane(scene)]);
  return {
    scene,
    assessment,
    clashes,
    ...(shifted === undefined ? {} : { shifted }),
    ...(top === undefined ? {} : { top }),
    ...(findings === undefined ? {} : { findings }),
    ...(judged.findings === undefined ? {} : { people: judged.findings.people }),
    ...(shadows === undefined ? {} : { shadows }),
    ...(picture === undefined ? {} : { picture }),
  };
}

/** The content of a study document in eight letters: the same study, the same letters, however it is laid out and
 * whether or not it carries its photometric files. */
export function studyFingerprint(document: unknown): string {
  const { embedded: _, ...study } = document as Record<string, unknown>;
  return contentKey(JSON.stringify(sorted(study)))
    .padStart(8, "0")
    .slice(0, 8);
}

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return Object.fromEntries(entries.map(([key, each]) => [key, sorted(each)]));
}

/** Lamps of a study document, whether its lengths are read or still text. */
export function lampsOf(
  luminaires: Readonly<Record<string, { readonly lamp?: unknown; readonly shade?: unknown }>> | undefined,
): ReadonlyMap<string, LampWords> {
  const lamps = new Map<string, LampWords>();
  for (const [name, { lamp, shade }] of Object.entries(luminaires ?? {}))
    if (typeof lamp === "object" && lamp !== null) {
      const words = shadeWords(shade);
      lamps.set(name, { ...(lamp as LampWords), ...(words === "" ? {} : { shade: words }) });
    }
  return lamps;
}

/** `black, inside white, diffuser opal plastic`: what its light was traced with. */
function shadeWords(shade: unknown): string {
  const finishOf = (surface: unknown): string | undefined => {
    const finish = (surface as { readonly finish?: unknown } | null | undefined)?.finish;
    return typeof finish === "string" ? printable(finish, 40) : undefined;
  };
  const { inside, outside, diffuser } = (shade ?? {}) as Readonly<Record<string, unknown>>;
  const parts = [
    ["", finishOf(shade)],
    ["inside ", finishOf(inside)],
    ["outside ", finishOf(outside)],
    ["diffuser ", finishOf(diffuser)],
  ];
  return parts.flatMap(([where, finish]) => (finish === undefined ? [] : [`${where}${finish}`])).join(", ");
}

/** Who a job is for and whose it is, of a study document. @param logo the picture its key `logo` names */
export function headOf(
  project: Readonly<Partial<Record<"client" | "address" | "author" | "number", unknown>>> | undefined,
  logo?: Picture,
): Pick<Handover, "head"> {
  if (project === undefined) return {};
  const said = (value: unknown): string | undefined => (typeof value === "string" ? value : undefined);
  const { client, address, author, number } = project;
  const words = Object.entries({ client, address, author, number }).flatMap(([key, value]) => {
    const each = said(value);
    return each === undefined ? [] : [[key, printable(each, 200)]];
  });
  return { head: { ...Object.fromEntries(words), ...(logo === undefined ? {} : { logo }) } };
}

/** What the papers of a resolved study share. */
export function handoverFacts(
  study: ResolvedStudy,
): Pick<Handover, "project" | "targets" | "calculation" | "defaults" | "warnings"> {
  const { title, targets, options, defaults, warnings } = study;
  return { project: title, targets, calculation: options, defaults, warnings };
}
