/** How finely light is computed: for a number, for a picture that stands, for one that moves. */

/** How finely light is computed. */
export interface PreviewQuality {
  /** Most Gauss nodes along a side of an opening. */
  readonly nodes: number;
  /** Points of an opening's outline (24, 8 or none) and samples within it that tell whether it is partly hidden. */
  readonly outline: number;
  readonly probes: number;
  /** Samples of an opening that is. */
  readonly samples: number;
  readonly words: string;
}

/** What is answered for: every single reading, and the parity tests. */
export const EXACT: PreviewQuality = {
  nodes: 12,
  outline: 24,
  probes: 12,
  samples: 4096,
  words: "engine accuracy",
};
/** A picture that stands: light as exact, penumbras to some 0.5 % of an opening, by samples where the engine clips. */
export const STILL: PreviewQuality = {
  nodes: 12,
  outline: 8,
  probes: 8,
  samples: 256,
  words: "engine accuracy",
};
/** Nodes of divided cells in it: half penumbra, to 2 % of an opening, a third of what an eye sees as an edge. */
export const EDGES: PreviewQuality = { ...STILL, nodes: 4, samples: 64 };
/** A picture that moves. */
export const MOVING: PreviewQuality = {
  nodes: 2,
  outline: 0,
  probes: 4,
  samples: 0,
  words: "fewer elements while it moves",
};
