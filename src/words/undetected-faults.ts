/** What readings that agree could not have told: a fault smaller than its size here may be there unseen. */

import type { DetectableFault } from "../design/verify/detectable-faults.ts";
import type { Verification } from "../design/verify/verify.ts";
import { printable } from "../diagnostics/printable.ts";
import { listed } from "../diagnostics/sentence.ts";
import type { ResolvedStudy } from "../scene/resolved-study.ts";
import type { Scene } from "../scene/scene.ts";
import { formatLength } from "../units/length-text.ts";

export interface UndetectedInput {
  readonly study: Pick<ResolvedStudy, "display">;
  readonly scene: Scene;
  readonly verification: Pick<Verification, "detectable">;
}

type Kind = DetectableFault["kind"];

/** Faults with a size, in the order they are told. */
const SIZED: readonly {
  readonly ofRow: Kind;
  readonly ofOne?: Kind;
  readonly ways?: readonly DetectableFault["way"][];
  readonly unit: "length" | "angle" | "share";
  readonly words: string;
}[] = [
  {
    ofRow: "row height",
    ofOne: "hung wrong",
    ways: ["up", "down"],
    unit: "length",
    words: "too high or low",
  },
  { ofRow: "row moved", ofOne: "moved", ways: ["along"], unit: "length", words: "off along" },
  { ofRow: "row moved", ofOne: "moved", ways: ["across"], unit: "length", words: "off across" },
  { ofRow: "row turned", unit: "angle", words: "turned" },
  { ofRow: "layer", ofOne: "swapped", unit: "share", words: "short of light" },
];

/** A paragraph; empty where the readings do not agree: then it is said what is wrong. */
export function undetectedWords({ study, scene, verification: { detectable } }: UndetectedInput): string {
  if (detectable.length === 0) return "";
  const hidden = [
    ...scene.layers.flatMap(({ name, luminaires: { length: count } }, layer) => {
      const title = printable(name, 40);
      const one = sizes("ofOne", layer);
      return count === 1
        ? about(title, one)
        : [...about(`the whole of ${title}`, sizes("ofRow", layer)), ...about(`one of ${title} alone`, one)];
    }),
    ...about("everything, or what places are counted from,", sizes("ofRow", undefined)),
    ...detectable.flatMap((fault) => (fault.shown ? [] : unseen(fault))),
  ];
  return `These readings would not have shown ${hidden.join("; ")}. What is larger they show nine times in ten. Measure heights and places with a tape.`;

  function about(what: string, parts: readonly string[]): string[] {
    return parts.length === 0 ? [] : [`${what} ${listed(parts, "or")}`];
  }

  /** What is smaller than its least size; then what is not shown at any that is looked for. */
  function sizes(of: "ofRow" | "ofOne", layer: number | undefined): string[] {
    const parts = { shown: [] as string[], never: [] as string[] };
    for (const { [of]: kind, ways, unit, words } of SIZED) {
      const [fault, ...others] = detectable.filter(
        (each) => each.kind === kind && each.layer === layer && (ways?.includes(each.way) ?? true),
      );
      if (fault === undefined) continue;
      const { shown, least = 0, largest = 0 } = others.reduce(showsLess, fault);
      if (!shown) parts.never.push(`even ${sizeText(largest, unit)} ${words}`);
      else
        parts.shown.push(`${parts.shown.length === 0 ? "less than " : ""}${sizeText(least, unit)} ${words}`);
    }
    return [...parts.shown, ...parts.never];
  }

  function sizeText(size: number, unit: "length" | "angle" | "share"): string {
    if (unit === "length") return formatLength(size, study.display.length);
    return unit === "angle" ? `${Math.round((size * 180) / Math.PI)}°` : `${Math.round(100 * size)} %`;
  }
}

/** What is so or not. */
function unseen({ kind, axis }: DetectableFault): string[] {
  if (kind === "axes swapped") return ["that the two columns of places are exchanged"];
  if (kind !== "other end") return [];
  const end =
    axis === "across" ? "side (across)" : axis === "both" ? "corner (along and across)" : "end (along)";
  return [`that the places were counted from the other ${end}, or hung so`];
}

function showsLess(a: DetectableFault, b: DetectableFault): DetectableFault {
  const size = ({ shown, least = 0 }: DetectableFault) => (shown ? least : Number.POSITIVE_INFINITY);
  return size(b) > size(a) ? b : a;
}

/** The smallest fault of a kind that readings which agree would have shown, as `verify --json` prints it. */
export interface DetectableJson {
  readonly kind: DetectableFault["kind"];
  readonly layer?: string;
  readonly number?: number;
  readonly axis?: DetectableFault["axis"];
  readonly way?: DetectableFault["way"];
  readonly shown: boolean;
  readonly least?: number;
  readonly largest?: number;
}

export function detectableJson(
  { layer, light, least, largest, ...rest }: DetectableFault,
  scene: Scene,
  { lights }: Pick<Verification, "lights">,
): DetectableJson {
  const size = (value: number) => (rest.kind === "row turned" ? (value * 180) / Math.PI : value);
  return {
    ...rest,
    ...(layer === undefined ? {} : { layer: scene.layers[layer].name }),
    ...(light === undefined ? {} : { number: lights[light].index + 1 }),
    ...(least === undefined ? {} : { least: size(least) }),
    ...(largest === undefined ? {} : { largest: size(largest) }),
  };
}
