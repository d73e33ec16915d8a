/**
 * Differences between two answers: JSON by structure, texts by line; numbers to 1e-9 of the larger or 1e-12.
 * A difference is { where, was, is }; `where` is a path below the answer, of texts with the line's number.
 */
const RELATIVE = 1e-9;
const ABSOLUTE = 1e-12;
const NUMBER = /[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?/g;

export function sameNumber(a, b) {
  return a === b || Math.abs(a - b) <= Math.max(ABSOLUTE, RELATIVE * Math.max(Math.abs(a), Math.abs(b)));
}

/** Adds to `found` every difference of the value that was recorded and the one that is answered now. */
export function differences(was, is, where = "", found = []) {
  if (typeof was === "number" && typeof is === "number") {
    if (!sameNumber(was, is)) found.push({ where, was, is });
  } else if (typeof was === "string" && typeof is === "string") {
    if (was !== is) textDifferences(was, is, where, found);
  } else if (Array.isArray(was) && Array.isArray(is)) {
    if (was.length !== is.length) found.push({ where: `${where}/length`, was: was.length, is: is.length });
    for (let i = 0; i < Math.min(was.length, is.length); i++)
      differences(was[i], is[i], `${where}/${i}`, found);
  } else if (isObject(was) && isObject(is)) {
    for (const key of new Set([...Object.keys(was), ...Object.keys(is)]))
      differences(was[key], is[key], `${where}/${key}`, found);
  } else if (was !== is) found.push({ where, was, is });
  return found;
}

const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

function textDifferences(was, is, where, found) {
  const before = was.split("\n");
  const after = is.split("\n");
  for (let i = 0; i < Math.max(before.length, after.length); i++)
    if (!sameLine(before[i], after[i]))
      found.push({ where: `${where}:${i + 1}`, was: before[i], is: after[i] });
}

function sameLine(a, b) {
  if (a === b) return true;
  if (a === undefined || b === undefined || a.replace(NUMBER, "#") !== b.replace(NUMBER, "#")) return false;
  const numbers = b.match(NUMBER) ?? [];
  return (a.match(NUMBER) ?? []).every((text, i) => sameNumber(Number(text), Number(numbers[i])));
}
