/**
 * The JSON Schema of a study: kinds, units and ranges from the validator itself, so that the two cannot disagree; meaning, frame, default
 * and example from the descriptions beside it.
 *
 * Dialect 2020-12; `unit` and `frame` are annotations. Lengths and illuminances may be numbers or texts with a unit; the schema says so
 * much and leaves reading the text to the reader.
 */

import { parsePointer } from "../diagnostics/json-path.ts";
import type { Key } from "./keys/key.ts";
import { STUDY_KEYS } from "./keys/study-keys.ts";
import { studySchema } from "./study-schema.ts";

export type JsonSchema = { readonly [key: string]: unknown };

type Described = Readonly<Record<string, Key & { readonly keys?: Described }>>;

/** As much of a valibot schema as is looked at. */
interface Node {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Node>>;
  readonly item?: Node;
  readonly items?: readonly Node[];
  readonly options?: readonly (Node | string)[];
  readonly wrapped?: Node;
  readonly value?: Node;
  readonly literal?: unknown;
  readonly requirement?: unknown;
  readonly metadata?: Readonly<Record<string, unknown>>;
  readonly pipe?: readonly Node[];
}

/** The schema of a whole study. */
export function studyJsonSchema(): JsonSchema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Candlespan study",
    description:
      "A number is metres, degrees or lux; a text carries its unit. Paths are told from the study's folder.",
    ...schemaOf(studySchema as unknown as Node, STUDY_KEYS as unknown as Described),
  };
}

/** @param keys what is said of the keys of the object that the node is, or that its entries are */
function schemaOf(node: Node, keys: Described | undefined): JsonSchema {
  const said = metadataOf(node);
  switch (node.type) {
    case "strict_object": {
      const entries = Object.entries(node.entries ?? {});
      const required = entries.filter(([, entry]) => entry.type !== "optional").map(([key]) => key);
      const properties = Object.fromEntries(
        entries.map(([key, entry]) => [key, keySchema(entry, keys?.[key])]),
      );
      return {
        type: "object",
        properties,
        ...(required.length === 0 ? {} : { required }),
        additionalProperties: false,
      };
    }
    case "optional":
      return schemaOf(node.wrapped as Node, keys);
    case "nullable":
      return { anyOf: [schemaOf(node.wrapped as Node, keys), { type: "null" }] };
    case "record":
      return { type: "object", additionalProperties: schemaOf(node.value as Node, keys) };
    case "array":
      return {
        type: "array",
        items: schemaOf(node.item as Node, keys),
        ...sizes(said, "minItems", "maxItems"),
      };
    case "strict_tuple": {
      const items = (node.items ?? []).map((item) => schemaOf(item, keys));
      return { type: "array", prefixItems: items, minItems: items.length, maxItems: items.length };
    }
    case "picklist":
      return { enum: node.options };
    case "literal":
      return { const: node.literal };
    case "boolean":
      return { type: "boolean" };
    case "string": {
      const longest = node.pipe?.find((action) => action.type === "max_length")?.requirement;
      const pattern = node.pipe?.find((action) => action.type === "regex")?.requirement as RegExp | undefined;
      return said?.kind === "name"
        ? { type: "string", minLength: 1, maxLength: 200 }
        : {
            type: "string",
            ...(longest === undefined ? {} : { maxLength: longest }),
            ...(pattern === undefined ? {} : { pattern: pattern.source }),
          };
    }
    case "number":
      return { type: "integer", ...sizes(said, "minimum", "maximum") };
    case "union":
      return { anyOf: (node.options as readonly Node[]).map((option) => schemaOf(option, keys)) };
    case "lazy":
      return { anyOf: ((said?.options ?? []) as readonly Node[]).map((option) => schemaOf(option, keys)) };
    case "custom":
      // an object: what comes after the check that it is no list
      return schemaOf(node.pipe?.[1] as Node, keys);
    case "unknown":
      return measure(said);
    default:
      throw new Error(`No JSON Schema is known for "${node.type}".`);
  }
}

/** A key with what is said of it. */
function keySchema(node: Node, key: Described[string] | undefined): JsonSchema {
  const schema = schemaOf(node, key?.keys);
  if (key === undefined) return schema;
  const { meaning, without, frame, example } = key;
  const unit = unitOf(node);
  return {
    description: without === undefined ? meaning : `${meaning} Left out: ${without}.`,
    ...(unit === undefined ? {} : { unit }),
    ...(frame === undefined ? {} : { frame }),
    ...("default" in key ? { default: key.default } : {}),
    examples: [example],
    ...schema,
  };
}

/** The unit of a quantity, or of all the quantities of a list. */
function unitOf(node: Node): string | undefined {
  const said = metadataOf(node);
  if (typeof said?.unit === "string") return said.unit === "" ? undefined : said.unit;
  const inner = [
    node.wrapped,
    node.item,
    ...(node.items ?? []),
    ...((said?.options ?? []) as readonly Node[]),
  ];
  const units = new Set(inner.flatMap((each) => (each === undefined ? [] : (unitOf(each) ?? []))));
  return units.size === 1 ? [...units][0] : undefined;
}

function metadataOf(node: Node): Readonly<Record<string, unknown>> | undefined {
  return node.pipe?.find((action) => action.type === "metadata")?.metadata;
}

function measure(said: Readonly<Record<string, unknown>> | undefined): JsonSchema {
  const range = {
    ...(said?.above === undefined ? {} : { exclusiveMinimum: said.above }),
    ...sizes(said, "minimum", "maximum"),
  };
  const number = { type: "number", ...range };
  const withUnit = said?.kind === "length" || said?.kind === "illuminance";
  return withUnit ? { anyOf: [number, { type: "string", maxLength: 60 }] } : number;
}

function sizes(
  said: Readonly<Record<string, unknown>> | undefined,
  least: string,
  most: string,
): Record<string, unknown> {
  return {
    ...(said?.from === undefined ? {} : { [least]: said.from }),
    ...(said?.to === undefined ? {} : { [most]: said.to }),
  };
}

/** What a value at a place in a study is written as: its numbers that are lengths (m) or illuminances (lx) as `say` words them, all else as it is.
 * @param path JSON pointer of a study */
export function inUnits(
  path: string,
  value: unknown,
  say: { length(metres: number): string; illuminance(lux: number): string },
): unknown {
  const spoken = (node: Node | undefined, each: unknown): unknown => {
    // One value may stand for several, as of a margin along and across.
    if (Array.isArray(each)) return each.map((item, i) => spoken(inside(node, String(i)) ?? node, item));
    if (typeof each === "object" && each !== null)
      return Object.fromEntries(
        Object.entries(each).map(([key, item]) => [key, spoken(inside(node, key), item)]),
      );
    const kind = node === undefined ? undefined : kindOf(node);
    if (typeof each !== "number") return each;
    return kind === "length" ? say.length(each) : kind === "illuminance" ? say.illuminance(each) : each;
  };
  const keys = parsePointer(path);
  return spoken(keys.reduce<Node | undefined>(inside, studySchema as unknown as Node), value);
}

/** The schema of what a key leads to; undefined where it leads nowhere. */
function inside(node: Node | undefined, key: string): Node | undefined {
  switch (node?.type) {
    case undefined:
      return undefined;
    case "strict_object":
      return Object.hasOwn(node.entries ?? {}, key) ? node.entries?.[key] : undefined;
    case "record":
      return node.value;
    case "array":
      return node.item;
    case "strict_tuple":
      return node.items?.[Number(key)];
    default:
      return choices(node as Node)
        .map((each) => inside(each, key))
        .find((each) => each !== undefined);
  }
}

/** What stands behind a schema that only wraps or chooses. */
function choices(node: Node): readonly Node[] {
  switch (node.type) {
    case "optional":
    case "nullable":
      return [node.wrapped as Node];
    case "union":
      return node.options as readonly Node[];
    case "lazy":
      return (metadataOf(node)?.options ?? []) as readonly Node[];
    case "custom":
      return [node.pipe?.[1] as Node];
    default:
      return [];
  }
}

function kindOf(node: Node): unknown {
  if (node.type === "unknown") return metadataOf(node)?.kind;
  return choices(node)
    .map(kindOf)
    .find((kind) => kind !== undefined);
}
