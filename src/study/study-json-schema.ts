/**
 * The JSON Schema of a study, drawn from the validator itself, so that the two cannot disagree.
 *
 * Dialect 2020-12. Lengths and illuminances may be numbers or texts with a unit; the schema says so much and
 * leaves reading the text to the reader.
 */

import { studySchema } from "./study-schema.ts";

export type JsonSchema = { readonly [key: string]: unknown };

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

const WITH_UNIT = {
  length: "A length: a number of metres, or a text with its unit.",
  illuminance: "An illuminance: a number of lux, or a text with its unit.",
} as const;

/** The schema of a whole study. */
export function studyJsonSchema(): JsonSchema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "Candlespan study",
    ...schemaOf(studySchema as unknown as Node),
  };
}

function schemaOf(node: Node): JsonSchema {
  const said = metadataOf(node);
  switch (node.type) {
    case "strict_object": {
      const entries = Object.entries(node.entries ?? {});
      const required = entries.filter(([, entry]) => entry.type !== "optional").map(([key]) => key);
      const properties = Object.fromEntries(entries.map(([key, entry]) => [key, schemaOf(entry)]));
      return {
        type: "object",
        properties,
        ...(required.length === 0 ? {} : { required }),
        additionalProperties: false,
      };
    }
    case "optional":
      return schemaOf(node.wrapped as Node);
    case "nullable":
      return { anyOf: [schemaOf(node.wrapped as Node), { type: "null" }] };
    case "record":
      return { type: "object", additionalProperties: schemaOf(node.value as Node) };
    case "array":
      return { type: "array", items: schemaOf(node.item as Node), ...sizes(said, "minItems", "maxItems") };
    case "strict_tuple": {
      const items = (node.items ?? []).map(schemaOf);
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
      return said?.kind === "name"
        ? { type: "string", minLength: 1, maxLength: 200 }
        : { type: "string", ...(longest === undefined ? {} : { maxLength: longest }) };
    }
    case "number":
      return { type: "integer", ...sizes(said, "minimum", "maximum") };
    case "union":
      return { anyOf: (node.options as readonly Node[]).map(schemaOf) };
    case "lazy":
      return { anyOf: ((said?.options ?? []) as readonly Node[]).map(schemaOf) };
    case "custom":
      // an object: what comes after the check that it is no list
      return schemaOf(node.pipe?.[1] as Node);
    case "unknown":
      return measure(said);
    default:
      throw new Error(`No JSON Schema is known for "${node.type}".`);
  }
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
  const kind = said?.kind;
  if (kind !== "length" && kind !== "illuminance") return number;
  return { description: WITH_UNIT[kind], anyOf: [number, { type: "string", maxLength: 60 }] };
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
