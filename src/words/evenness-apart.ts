/** How two options of the best evenness are told apart, in the same words on screen and paper. */

import { evennessText } from "./zone-text.ts";

/** Evenness that differs by less decides nothing for who has to choose: a meter on site tells no less apart. Our choice. */
const HARDLY = 0.03;

/** `as even as B, 0.66`, `hardly evener than B, 0.66 against 0.65: less than 0.03 apart other reasons may decide`; undefined where the first
 * is evener by more. @param best evenness of the one, at least that of the other, and the other's */
export function hardlyEvener(best: number, other: number, letter: string): string | undefined {
  const [own, next] = [best, other].map(evennessText);
  if (own === next) return `as even as ${letter}, ${own}`;
  return best - other < HARDLY
    ? `hardly evener than ${letter}, ${own} against ${next}: less than ${evennessText(HARDLY)} apart other reasons may decide`
    : undefined;
}
