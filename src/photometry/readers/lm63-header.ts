/**
 * Everything of an LM-63 file above and including its `TILT=` line: the edition, the keywords or free labels.
 *
 * The edition stands in the first line (`IESNA91`, `IESNA:LM-63-1995`, `IES:LM-63-2019`); 1986 has none. An
 * unknown or missing one is read by the rules of 1986, in which every stated factor applies.
 */

import { quote, type SourceLine, type SourceText } from "./source-text.ts";

export type Lm63Edition = "1986" | "1991" | "1995" | "2002" | "2019";

export interface Label {
  readonly key: string;
  readonly value: string;
}

export interface Lm63Header {
  readonly edition: Lm63Edition;
  readonly labels: readonly Label[];
  /** What stands after `TILT=`, trimmed. */
  readonly tilt: string;
  readonly tiltOffset: number;
  /** Offset just after the `TILT=` line. */
  readonly end: number;
}

const NAMED_EDITION = /^IES(?:NA)?[ :]{0,4}LM[ -]{0,3}63[ -]{0,3}(\d{2,4})?/i;
const SHORT_EDITION = /^IESNA[ -]{0,3}(\d{2,4})$/i;
const LOOKS_LIKE_EDITION = /^IES(?:NA)?[ ]{0,3}(?::|$|\d)/i;
/** Only the beginning of a line is matched against patterns, however long the line. */
const LONGEST_EDITION = 80;

const EDITIONS: Record<string, Lm63Edition> = {
  "86": "1986",
  "91": "1991",
  "95": "1995",
  "02": "2002",
  "19": "2019",
};

export function readLm63Header(source: SourceText): Lm63Header | undefined {
  const labels: { key: string; value: string }[] = [];
  let edition: Lm63Edition | undefined;
  let stated = false;
  let first = true;
  let position = 0;
  for (;;) {
    const line = source.lineAt(position);
    if (line === undefined)
      return source.error(
        source.text.length,
        "lm63-no-tilt",
        "No line begins with TILT=, which ends the header.",
      );
    position = line.end;
    if (line.text.trim() === "") continue;

    const tilt = tiltOf(line.text);
    if (tilt !== undefined) {
      if (edition === undefined && !stated && labels.some((label) => label.key !== ""))
        source.warn(0, "lm63-no-edition", "No line names the edition; the rules of 1986 apply.");
      return {
        edition: edition ?? "1986",
        labels,
        tilt,
        tiltOffset: line.start,
        end: line.end,
      };
    }
    if (first) {
      first = false;
      const named = readEdition(line, source);
      if (named !== "none") {
        stated = true;
        edition = named;
        continue;
      }
    }
    addLabel(labels, line.text);
  }
}

/** The edition a first line names; undefined for one it names but that is not known; `none` for a plain line. */
function readEdition(line: SourceLine, source: SourceText): Lm63Edition | undefined | "none" {
  const head = line.text.trim().slice(0, LONGEST_EDITION);
  const match = NAMED_EDITION.exec(head) ?? SHORT_EDITION.exec(head);
  if (match === null && !LOOKS_LIKE_EDITION.test(head)) return "none";
  const year = match?.[1];
  const edition = year === undefined || year.length === 3 ? undefined : EDITIONS[year.slice(-2)];
  if (edition === undefined || (year?.length === 4 && year !== edition)) {
    source.warn(line.start, "lm63-unknown-edition", "The edition is not known; the rules of 1986 apply.", {
      expected: "IESNA91 or LM-63-1986, -1995, -2002 or -2019",
      received: quote(line.text.trim()),
    });
    return undefined;
  }
  return edition;
}

function addLabel(labels: { key: string; value: string }[], line: string): void {
  const text = line.trim();
  const close = text.startsWith("[") ? text.indexOf("]") : -1;
  if (close < 0) {
    labels.push({ key: "", value: text });
    return;
  }
  const key = text.slice(1, close).trim().toUpperCase();
  const value = text.slice(close + 1).trim();
  const last = labels.at(-1);
  if (key === "MORE" && last !== undefined) last.value += `\n${value}`;
  else labels.push({ key, value });
}

/** What stands after `TILT=`; undefined unless the line begins with it: the word also stands in keyword values. */
export function tiltOf(line: string): string | undefined {
  const text = line.trim();
  if (!/^TILT\s*=/i.test(text)) return undefined;
  return text.slice(text.indexOf("=") + 1).trim();
}
