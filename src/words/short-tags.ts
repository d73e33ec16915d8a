/** Tags of several boxes in few letters. */

/** P1 to P3; P1, P4. */
export function shortTags(tags: readonly string[]): string {
  const runs: string[][] = [];
  for (const tag of tags) {
    const last = runs.at(-1)?.at(-1);
    const follows =
      last !== undefined && last[0] === tag[0] && Number(tag.slice(1)) === Number(last.slice(1)) + 1;
    if (follows) runs.at(-1)?.push(tag);
    else runs.push([tag]);
  }
  return runs.map((run) => (run.length > 2 ? `${run[0]} to ${run.at(-1)}` : run.join(", "))).join(", ");
}
