/**
 * A small, wary XML reader: strict, no document type (so no entities beyond the five of XML itself), bounded in
 * depth and number of elements, done at its first fault. Names lose their namespace prefix.
 */

import { SaxesParser } from "saxes";
import { quote, type SourceText } from "./source-text.ts";

export interface XmlElement {
  readonly name: string;
  readonly attributes: ReadonlyMap<string, string>;
  readonly children: readonly XmlElement[];
  /** Own text without that of the children, trimmed. */
  readonly text: string;
  /** Offset of its start in the source. */
  readonly at: number;
}

const DEEPEST = 32;
const MOST_ELEMENTS = 600_000;

interface Growing {
  name: string;
  attributes: Map<string, string>;
  children: Growing[];
  text: string;
  at: number;
}

/** Thrown out of the parser, which would go on past a fault and find one in every further character. */
const STOPPED = new Error("stopped");

/** The root element; undefined after recording an error. */
export function readXml(source: SourceText): XmlElement | undefined {
  const parser = new SaxesParser();
  const open: Growing[] = [];
  let root: Growing | undefined;
  let count = 0;
  const stop = (at: number, code: string, message: string, received?: string): never => {
    source.error(at, code, message, { received });
    throw STOPPED;
  };

  parser.on("error", (error) => {
    stop(parser.position, "xml-malformed", "The XML is not well-formed.", quote(withoutPlace(error.message)));
  });
  parser.on("doctype", () => {
    stop(
      parser.position,
      "xml-doctype",
      "The XML declares a document type, which these formats have no use for.",
    );
  });
  parser.on("opentag", (tag) => {
    const at = Math.max(0, source.text.lastIndexOf("<", parser.position - 1));
    count++;
    if (open.length >= DEEPEST) stop(at, "xml-too-deep", `Elements are nested deeper than ${DEEPEST}.`);
    if (count > MOST_ELEMENTS) stop(at, "xml-too-many", `There are more than ${MOST_ELEMENTS} elements.`);
    const attributes = new Map<string, string>();
    for (const [key, value] of Object.entries(tag.attributes)) attributes.set(localName(key), String(value));
    const element: Growing = { name: localName(tag.name), attributes, children: [], text: "", at };
    const parent = open.at(-1);
    if (parent === undefined) root = element;
    else parent.children.push(element);
    open.push(element);
  });
  const addText = (text: string) => {
    const element = open.at(-1);
    if (element !== undefined) element.text += text;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => {
    const element = open.pop();
    if (element !== undefined) element.text = element.text.trim();
  });

  try {
    parser.write(source.text).close();
    if (root === undefined) stop(0, "xml-malformed", "There is no element.");
    return root;
  } catch (fault) {
    if (fault !== STOPPED) throw fault;
    return undefined;
  }
}

/** First child with the name. Text comparison ignores case and the blanks that some texts put at underscores. */
export function child(element: XmlElement | undefined, ...path: readonly string[]): XmlElement | undefined {
  let at = element;
  for (const name of path) at = at?.children.find((candidate) => same(candidate.name, name));
  return at;
}

export function childrenNamed(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((candidate) => same(candidate.name, name)) ?? [];
}

export function textOf(element: XmlElement | undefined, ...path: readonly string[]): string {
  return child(element, ...path)?.text ?? "";
}

export function attributeOf(element: XmlElement | undefined, name: string): string {
  if (element === undefined) return "";
  for (const [key, value] of element.attributes) if (same(key, name)) return value;
  return "";
}

function same(a: string, b: string): boolean {
  return a === b || a.toLowerCase() === b.toLowerCase();
}

function localName(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

/** The parser's own `line:column: ` prefix says what the place says already. */
function withoutPlace(message: string): string {
  return message.replace(/^\d+:\d+: /, "");
}
