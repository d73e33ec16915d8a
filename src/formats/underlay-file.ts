/**
 * Whether a file is a picture that may lie beneath the plan, and its size: PNG (ISO/IEC 15948), JPEG (ISO/IEC 10918-1) or SVG
 * (W3C Scalable Vector Graphics 1.1). What is refused says why and how to come to one that is not.
 *
 * A page draws an SVG as a picture only, so that nothing in it runs or is fetched; one that holds a script or names another file is refused
 * all the same, for it would not look as it does elsewhere. References to parts of itself are counted as often as they are drawn: a
 * few nested ones multiply without end.
 */

import { FILE_LIMITS, megabytes } from "../diagnostics/file-limits.ts";
import { failure, type Issue, type Outcome, success } from "../diagnostics/issue.ts";
import { pictureOf } from "../papers/picture.ts";
import { SourceText } from "../photometry/readers/source-text.ts";
import { readXml, type XmlElement } from "../photometry/readers/xml.ts";
import { decodeText } from "../photometry/text-decoding.ts";

export interface UnderlayFile {
  readonly type: "image/png" | "image/jpeg" | "image/svg+xml";
  /** Pixels; of an SVG the pixels of 1/96 inch in which it gives its size. */
  readonly width: number;
  readonly height: number;
}

/** Code of the refusal of a PDF, of which whoever can draw pages may try the first. */
export const PDF_UNDERLAY = "underlay-pdf";
/** Pixels in all: unpacked, four bytes each. */
const MOST_PIXELS = 40e6;
/** Elements drawn, those drawn again by reference included. */
const MOST_DRAWN = 200_000;
/** Pixels in an SVG's unit of length (CSS Values and Units 3, absolute lengths). */
const UNITS: Readonly<Record<string, number>> = {
  "": 1,
  px: 1,
  in: 96,
  cm: 96 / 2.54,
  mm: 96 / 25.4,
  pt: 96 / 72,
  pc: 16,
};

export function underlayFile(bytes: Uint8Array, file: string): Outcome<UnderlayFile> {
  const refuse = (message: string, expected: string, received: string): Outcome<UnderlayFile> =>
    failure(refusal(file, message, expected, received));
  if (bytes.length > FILE_LIMITS.underlay)
    return refuse(
      "The picture's file is too large: save it with fewer pixels.",
      `at most ${megabytes(FILE_LIMITS.underlay)}`,
      megabytes(bytes.length),
    );
  const head = String.fromCharCode(...bytes.subarray(0, 512));
  if (head.startsWith("%PDF"))
    return failure({
      ...refusal(
        file,
        "A PDF itself is no picture: lay it under the floor plan in the viewer, which keeps its first page as one, or save the page you want as PNG.",
        "a PNG, JPEG or SVG file",
        "a PDF file",
      ),
      code: PDF_UNDERLAY,
    });
  if (/^(\u00ef\u00bb\u00bf)?\s*</.test(head)) return vectorFile(bytes, file);
  const picture = pictureOf(bytes);
  if (!picture.ok)
    return failure(
      ...picture.issues.map((issue) => ({
        ...issue,
        message: `${issue.message} ${WAY_OUT}`,
        where: { file },
      })),
    );
  const { type, width, height } = picture.value;
  if (width * height > MOST_PIXELS)
    return refuse(
      "The picture has more pixels than a page should unpack: save it smaller.",
      `at most ${MOST_PIXELS / 1e6} million pixels`,
      `${width} × ${height} pixels`,
    );
  return success({ type: `image/${type}`, width, height });
}

const WAY_OUT = "Open it in a program that shows pictures and save it as PNG.";

function refusal(file: string, message: string, expected: string, received: string): Issue {
  return { code: "underlay-refused", severity: "error", message, expected, received, where: { file } };
}

function vectorFile(bytes: Uint8Array, file: string): Outcome<UnderlayFile> {
  const { text } = decodeText(bytes);
  // A document type without declarations of its own is common and says nothing.
  const source = new SourceText(
    text.replace(/<!DOCTYPE[^[>]*>/i, (found) => " ".repeat(found.length)),
    file,
  );
  const root = readXml(source);
  if (root === undefined) return failure(...source.errors);
  if (root.name !== "svg")
    return failure(
      refusal(
        file,
        `The file is no picture. ${WAY_OUT}`,
        "the element svg",
        `the element ${root.name.slice(0, 40)}`,
      ),
    );
  const refuse = (at: XmlElement, message: string, received: string): Outcome<UnderlayFile> => {
    source.error(at.at, "underlay-refused", `${message} Save it as PNG in the program that made it.`, {
      expected: "shapes and words alone",
      received,
    });
    return failure(...source.errors);
  };
  const danger = dangerIn(root);
  if (danger !== undefined) return refuse(danger.at, danger.message, danger.received);
  const drawn = drawnElements(root);
  if (drawn > MOST_DRAWN)
    return refuse(
      root,
      "Its parts repeat each other too often to be drawn.",
      `more than ${MOST_DRAWN} shapes`,
    );
  const size = sizeOf(root);
  if (size === undefined)
    return refuse(
      root,
      "The picture does not say how large it is.",
      "neither width and height nor a viewBox",
    );
  return success({ type: "image/svg+xml", ...size });
}

interface Danger {
  readonly at: XmlElement;
  readonly message: string;
  readonly received: string;
}

const SCRIPT = "The picture holds a script, which is not run.";
const ELSEWHERE = "The picture asks for another file, which is not fetched.";
const INSIDE = /^\s*(#|data:image\/(png|jpeg);base64,)/i;

function dangerIn(element: XmlElement): Danger | undefined {
  const { name, attributes, text } = element;
  const found = (message: string, received: string): Danger => ({
    at: element,
    message,
    received: received.slice(0, 60),
  });
  if (/^(script|handler|listener)$/i.test(name)) return found(SCRIPT, `the element ${name}`);
  if (/^(foreignObject|iframe|object|embed|audio|video|canvas)$/i.test(name))
    return found("The picture holds a page, which is not shown.", `the element ${name}`);
  for (const [key, value] of attributes) {
    if (/^on/i.test(key)) return found(SCRIPT, `the attribute ${key}`);
    if (/^(href|src)$/i.test(key) && name !== "a" && !INSIDE.test(value)) return found(ELSEWHERE, value);
    if (/^\s*javascript:/i.test(value)) return found(SCRIPT, value);
    if (asksElsewhere(value)) return found(ELSEWHERE, value);
  }
  if (name === "style" && (asksElsewhere(text) || /@import|\\/i.test(text))) return found(ELSEWHERE, text);
  for (const child of element.children) {
    const inside = dangerIn(child);
    if (inside !== undefined) return inside;
  }
  return undefined;
}

/** `url(…)` of anything but a part of the picture itself. */
function asksElsewhere(value: string): boolean {
  return [...value.matchAll(/url\(\s*["']?([^"')]*)/gi)].some(([, address]) => !INSIDE.test(address));
}

/** Elements drawn, each reference to a part drawing it once more; infinite where one holds itself. */
function drawnElements(root: XmlElement): number {
  const byName = new Map<string, XmlElement>();
  const collect = (element: XmlElement): void => {
    const id = element.attributes.get("id");
    if (id !== undefined) byName.set(id, element);
    element.children.forEach(collect);
  };
  collect(root);
  const counts = new Map<XmlElement, number>();
  const count = (element: XmlElement): number => {
    const before = counts.get(element);
    if (before !== undefined) return before;
    counts.set(element, Number.POSITIVE_INFINITY);
    let sum = 1;
    for (const value of element.attributes.values()) {
      const [, , id] = /(^\s*|url\(\s*["']?)#([^"')\s]+)/.exec(value) ?? [];
      const named = id === undefined ? undefined : byName.get(id);
      // A gradient that takes after another draws nothing more.
      if (named !== undefined && !/gradient$/i.test(named.name)) sum += count(named);
    }
    for (const child of element.children) sum += count(child);
    counts.set(element, sum);
    return sum;
  };
  return count(root);
}

/** Width and height as given, else of the `viewBox`. */
function sizeOf({ attributes }: XmlElement): { width: number; height: number } | undefined {
  const length = (key: string): number => {
    const [, number, unit] =
      /^\s*([\d.]+(?:e[+-]?\d+)?)\s*([a-z]*)\s*$/i.exec(attributes.get(key) ?? "") ?? [];
    return Number(number) * (UNITS[unit?.toLowerCase()] ?? Number.NaN);
  };
  const box = (attributes.get("viewBox") ?? "")
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [width, height] = [length("width"), length("height")];
  const size = width > 0 && height > 0 ? { width, height } : { width: box[2], height: box[3] };
  return size.width > 0 && size.height > 0 && size.width < 1e6 && size.height < 1e6 ? size : undefined;
}
