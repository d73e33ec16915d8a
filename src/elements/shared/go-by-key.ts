/** Page Up and Down, Home and End go from stop to stop inside a drawing, which is one stop of Tab. */

/** Moves the focus from the stop that has it, if the key says so.
 * @param stops in order @param selector what finds the stop a key was pressed in
 * @returns whether the key is answered */
export function goByKey(event: KeyboardEvent, stops: readonly SVGElement[], selector: string): boolean {
  const at = stops.indexOf((event.target as Element).closest(selector) as SVGElement);
  const last = stops.length - 1;
  const to = { PageDown: Math.min(last, at + 1), PageUp: Math.max(0, at - 1), Home: 0, End: last }[event.key];
  if (at < 0 || to === undefined) return false;
  event.preventDefault();
  stops[to].focus();
  return true;
}
