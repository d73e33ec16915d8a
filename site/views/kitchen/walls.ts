/** Walls as the plan and the papers number them, and where the plan shows them. */
export const WALL_NAMES = [
  "Wall 0, at the foot of the plan",
  "Wall 1, on its right",
  "Wall 2, at its head",
  "Wall 3, on its left",
] as const;
