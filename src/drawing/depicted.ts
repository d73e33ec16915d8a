/** What a mark depicts: kinds, not words. Whoever sorts marks (layers of a CAD file, blocks that are counted) goes by them. */

/** What stands and what is cut in the room. */
export type DepictedRoom =
  | "datum"
  | "wall"
  | "finished wall"
  | "wall name"
  | "opening"
  | "door"
  | "cabinet"
  | "cabinet name"
  | "joist centreline"
  | "keep-out"
  | "keep-out name"
  | "ceiling"
  | "ceiling height"
  | "switch"
  | "switch place"
  | "slope"
  | "floor"
  | "fixed mark"
  | "base under the overhang"
  | "seat"
  | "side"
  | "cut"
  | "break line";

/** The island and its zones. */
export type DepictedIsland =
  | "island top"
  | "island base"
  | "island side"
  | "island level"
  | "island outline"
  | "island fitting"
  | "fitting name"
  | "raised level"
  | "centreline of island"
  | "centreline name"
  | "end of top"
  | "top height"
  | "zone"
  | "zone name"
  | "level"
  | "level name"
  | "point value"
  | "meter point";

/** What gives light, and how it hangs. */
export type DepictedLuminaire =
  | "pendant"
  | "pendant body"
  | "pendant box"
  | "pendant canopy"
  | "pendant cross"
  | "pendant suspension"
  | "suspension point"
  | "recessed"
  | "recessed body"
  | "recessed box"
  | "recessed opening"
  | "recessed ring"
  | "cut-out"
  | "canopy"
  | "cord"
  | "rod"
  | "body"
  | "shade"
  | "lamp"
  | "silhouette"
  | "silhouette name"
  | "silhouette note"
  | "rim height"
  | "tag"
  | "clash"
  | "tolerance ring"
  | "tolerance"
  | "arrangement";

/** People, what they see and what they shade. */
export type DepictedPeople =
  | "person"
  | "head"
  | "facing"
  | "eye line"
  | "eye height"
  | "line of sight"
  | "mirror image"
  | "body shadow"
  | "share of light lost";

/** Dimensions; a running string says of what it is and along which axis. */
export const DIMENSIONS = [
  "dimension",
  "dimension line",
  "dimension tick",
  "dimension leader",
  "dimension name",
  "extension line",
  "dimension gap",
  "dimension drop",
  "dimension body",
  "dimension level",
  "dimension island x",
  "dimension island y",
  "dimension island along",
  "dimension island across",
  "dimension pendants x",
  "dimension pendants y",
  "dimension suspensions x",
  "dimension suspensions y",
  "dimension recessed x",
  "dimension recessed y",
] as const;
export type DepictedDimension = (typeof DIMENSIONS)[number];

/** Light on the plan, along the island and about a luminaire. */
export type DepictedLight =
  | "light band"
  | "isolux line"
  | "isolux label"
  | "below target"
  | "target"
  | "scale"
  | "scale step"
  | "scale unit"
  | "familiar place"
  | "key"
  | "key of target"
  | "key of below target"
  | "profile line"
  | "line name"
  | "profile caption"
  | "working edge"
  | "working edge name"
  | "minimum"
  | "maximum"
  | "axis figure"
  | "grid line"
  | "intensity curve"
  | "candela"
  | "candela ring"
  | "angle"
  | "spoke"
  | "centre";

/** Words and furniture of a page. */
export type DepictedPage =
  | "title"
  | "title block"
  | "subtitle"
  | "heading"
  | "view title"
  | "legend"
  | "note"
  | "sentence"
  | "paragraph"
  | "verdict"
  | "figure"
  | "figure name"
  | "flag"
  | "leader"
  | "frame"
  | "rule"
  | "scale bar"
  | "check square"
  | "registration cross"
  | "fold line"
  | "table"
  | "table head"
  | "logo"
  | "room picture";

/** Cells of tables, by what a row is of. */
export type DepictedRow =
  | "pendant row"
  | "recessed row"
  | "fixed row"
  | "circuit row"
  | "setting row"
  | "meter row"
  | "tolerance row"
  | "hung row"
  | "suspension row"
  | "switch row"
  | "order row"
  | "schedule row"
  | "lamp row"
  | "tape row"
  | "drawing row"
  | "revision row"
  | "as built"
  | "hold"
  | "client sentence"
  | "client row";

export type Depicted =
  | DepictedRoom
  | DepictedIsland
  | DepictedLuminaire
  | DepictedPeople
  | DepictedDimension
  | DepictedLight
  | DepictedPage
  | DepictedRow;
