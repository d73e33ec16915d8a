/** The worked example with beams for its photometric files, so that opening it reads none. */
import type { RawStudy } from "../../site/edits/raw-study.ts";

export function plainBoathouse(example: unknown): RawStudy {
  const study = example as RawStudy;
  const beam = { beam: { flux: 800, angle: 60 }, opening: { diameter: 0.2 } };
  const luminaires = Object.fromEntries(Object.keys(study.luminaires ?? {}).map((name) => [name, beam]));
  return { ...study, luminaires } as unknown as RawStudy;
}
