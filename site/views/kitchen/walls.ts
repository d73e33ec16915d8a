/** Walls as the plan and the papers number them, and where the plan shows them. */
export const WALL_NAMES = [
  "Wall 0, at the foot of the plan",
  "Wall 1, on its right",
  "Wall 2, at its head",
  "Wall 3, on its left",
] as const;

/** The same within a sentence, as the start form and the floor plan name them. */
export const SHORT_WALL_NAMES = ["near wall (0)", "right wall (1)", "far wall (2)", "left wall (3)"] as const;

/** The walls that places in plan are given from, by where the plan shows them: x from the one, y from the other. */
export const NEAR_WALL = "near wall";
export const LEFT_WALL = "left wall";
