/** Each circle once, by the first module met in it. */
export function circles(graph: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const met: string[] = [];
  const visit = (file: string, path: readonly string[]): void => {
    if (path.includes(file)) met.push(`${file} imports itself by ${path.at(-1)}`);
    if (done.has(file)) return;
    done.add(file);
    for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
  };
  for (const file of graph.keys()) visit(file, []);
  return met;
}
