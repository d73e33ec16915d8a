/** Words for the JSON Schemas of what commands print. Answers may gain keys, so further ones are allowed; those described are there as said. */

import type { Check } from "../../assessment/assessment.ts";
import type { JsonSchema } from "../../study/study-json-schema.ts";
import type { ZoneChecks } from "../../words/checked-json.ts";
import type { ClashJson } from "../../words/clash-list.ts";

export const text = (description: string): JsonSchema => ({ type: "string", description });
export const flag = (description: string): JsonSchema => ({ type: "boolean", description });
/** @param unit "" for a ratio or a count without one */
export const number = (description: string, unit = ""): JsonSchema => ({
  type: "number",
  description,
  ...(unit === "" ? {} : { unit }),
});
export const count = (description: string): JsonSchema => ({ type: "integer", minimum: 0, description });
export const anything = (description: string): JsonSchema => ({ description });
export const orNull = (schema: JsonSchema): JsonSchema => {
  const { description, ...alone } = schema;
  return { description: `${description} Null where there is none.`, anyOf: [alone, { type: "null" }] };
};
export const oneOf = (description: string, ...words: string[]): JsonSchema => ({ enum: words, description });
export const list = (description: string, items: JsonSchema): JsonSchema => ({
  type: "array",
  description,
  items,
});
/** So many numbers. */
export const numbers = (description: string, unit = "", length?: number): JsonSchema => ({
  type: "array",
  description,
  ...(unit === "" ? {} : { unit }),
  items: { type: "number" },
  ...(length === undefined ? {} : { minItems: length, maxItems: length }),
});
/** An object whose keys are names of the study's own. */
export const named = (description: string, values: JsonSchema): JsonSchema => ({
  type: "object",
  description,
  additionalProperties: values,
});
/** The keys of a type as a schema states them, those that may be absent with a ? at their end; of a type open to further keys those
 * that it names. Own keys of commands that no type states are any. */
export type KeysOf<T> = [T] extends [never]
  ? Readonly<Record<string, JsonSchema>>
  : {
      readonly [K in keyof T as string extends K
        ? never
        : K extends string
          ? Record<string, never> extends Pick<T, K>
            ? `${K}?`
            : K
          : never]-?: JsonSchema;
    };

/** An object; with its type its keys are that type's, no more and no fewer. Keys that end in ? may be absent. */
export function object<T = never>(description: string, keys: KeysOf<T>): JsonSchema {
  const bare = (key: string): string => key.replace(/\?$/, "");
  const described = Object.entries<JsonSchema>(keys);
  const required = described.flatMap(([key]) => (key.endsWith("?") ? [] : [key]));
  return {
    type: "object",
    description,
    properties: Object.fromEntries(described.map(([key, schema]) => [bare(key), schema])),
    ...(required.length === 0 ? {} : { required }),
  };
}

export const VERDICT = oneOf(
  "The worst of what is below it.",
  "meets",
  "falls short",
  "too close to call",
  "no target",
  "not judged",
);
export const CHECK = object<Check>("One requirement of a target, held against the light.", {
  quantity: text("What is asked: illuminance or uniformity."),
  statistic: text("Of which statistic."),
  value: number("What was found.", "lx or ratio"),
  target: number("What is asked.", "lx or ratio"),
  nature: oneOf("When it holds.", "maintained", "initial"),
  "footcandles?": number("What the source asks in foot-candles, where it states them.", "fc"),
  "band?": numbers("Least and greatest that it may truly be.", "lx or ratio", 2),
  verdict: VERDICT,
  "confidence?": number(
    "Probability with which a verdict is given, 0.5 to 1; under it the case is too close to call.",
  ),
  "probability?": number("Probability that the truth reaches the target, 0 to 1."),
  "fine?": number("The same on the fine grid."),
  drivers: list(
    "What the band comes from, the largest first.",
    object<Check["drivers"][number]>("One input.", {
      input: text("In words."),
      share: number("Share of the variance, 0 to 1."),
      kind: text("Its kind."),
      "of?": text("Name of the luminaire or layer."),
      "evidence?": text("How the light is known."),
    }),
  ),
  source: text("Where the target comes from."),
});
export const CLASH = object<ClashJson>("What cannot hang or be built as it is placed.", {
  kind: oneOf(
    "What clashes.",
    "boxes",
    "box and body",
    "bodies",
    "ceiling",
    "door",
    "head",
    "joist",
    "keep-out",
    "opening",
  ),
  between: list("Names as on paper.", { type: "string" }),
  clear: number("Free distance; negative where they overlap.", "m"),
  remedy: text("The way out."),
});
export const CLASHES = list("Clashes; the light's verdict stays.", CLASH);
export const ZONE_CHECKS = list(
  "Zones with what is asked of them.",
  object<ZoneChecks>("A zone.", {
    name: text("Its name."),
    verdict: VERDICT,
    checks: list("Requirements.", CHECK),
  }),
);
export const HEAD = { candlespan: text("Version of the program."), study: text("Title of the study.") };
