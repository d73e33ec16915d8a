/**
 * What a photometric file says to whoever orders: maker, catalogue number, lamp, driver, from LM-63 keywords (ANSI/IES LM-63), EULUMDAT
 * fields, TM-33 and GLDF labels. Untrusted text.
 */

import type { Photometry } from "./photometry.ts";

export interface OrderFacts {
  readonly maker?: string;
  /** Catalogue or order number. */
  readonly order?: string;
  readonly lamp?: string;
  readonly driver?: string;
}

const KEYS: Readonly<Record<keyof OrderFacts, readonly string[]>> = {
  maker: ["MANUFAC", "MAKER", "MANUFACTURER"],
  order: ["LUMCAT", "LUMINAIRE NUMBER", "CATALOGNUMBER"],
  lamp: ["LAMP", "LAMPCAT"],
  driver: ["BALLAST", "BALLASTCAT"],
};
/** What files write where there is nothing to say. */
const NOTHING = /^(|-+|n\/?a|none|not stated|unknown)$/i;

export function orderFacts({
  labels,
  lampSets,
  lampSet,
}: Pick<Photometry, "labels" | "lampSets" | "lampSet">): OrderFacts {
  const facts: { -readonly [K in keyof OrderFacts]: string } = {};
  for (const [fact, keys] of Object.entries(KEYS) as [keyof OrderFacts, readonly string[]][]) {
    const said = keys.flatMap((key) => labels.filter((label) => label.key.toUpperCase() === key));
    const value = said.map((label) => label.value.trim()).find((text) => !NOTHING.test(text));
    if (value !== undefined) facts[fact] = value;
  }
  const type = lampSets[lampSet]?.type.trim() ?? "";
  if (facts.lamp === undefined && !NOTHING.test(type)) facts.lamp = type;
  return facts;
}
