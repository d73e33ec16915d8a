/** Index i of the cell of rising `nodes` that holds x: nodes[i] ≤ x < nodes[i + 1], the outermost cells taking
 * everything beyond them. At least two nodes; duplicates are passed over, so a cell returned for an x inside
 * the range has positive width. */
export function cellOf(nodes: Float64Array, x: number): number {
  let low = 0;
  let high = nodes.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (nodes[middle] <= x) low = middle;
    else high = middle;
  }
  return low;
}
