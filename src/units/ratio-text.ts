/** A ratio under the one that is asked, in as many decimals as tell it from that: `0.38`, but `0.398` of 0.4. */
export function ratioUnder(value: number, asked: number): string {
  for (const digits of [2, 3, 4]) {
    const text = value.toFixed(digits);
    if (Number(text) < asked) return text;
  }
  return `under ${asked}`;
}
