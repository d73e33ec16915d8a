/**
 * Labels that never collide: pushed apart along one axis by the least total movement.
 *
 * Labels wish for a place each and need a height; in order of their wishes they are merged into blocks that sit
 * at the mean of what their members want (pool adjacent violators, isotonic regression [1]), then moved inside
 * the limits.
 *
 * [1] Barlow, Bartholomew, Bremner, Brunk, Statistical Inference under Order Restrictions, 1972.
 */

/** Places for labels wished at `wishes`, each `height` tall, within [low, high] where there is room. Same order
 * as given. */
export function spreadLabels(wishes: readonly number[], height: number, low: number, high: number): number[] {
  const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
  // With the k-th label shifted by k heights, "no overlap" becomes "not decreasing".
  const blocks: { sum: number; count: number }[] = [];
  order.forEach((index, k) => {
    blocks.push({ sum: wishes[index] - k * height, count: 1 });
    while (blocks.length > 1) {
      const last = blocks[blocks.length - 1];
      const before = blocks[blocks.length - 2];
      if (before.sum / before.count <= last.sum / last.count) break;
      before.sum += last.sum;
      before.count += last.count;
      blocks.pop();
    }
  });
  const places = new Array<number>(wishes.length).fill(0);
  const lastPlace = high - (wishes.length - 1) * height;
  let k = 0;
  for (const block of blocks) {
    const mean = Math.max(low, Math.min(block.sum / block.count, lastPlace));
    for (let i = 0; i < block.count; i++, k++) places[order[k]] = mean + k * height;
  }
  return places;
}
