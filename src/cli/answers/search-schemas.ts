/** What `arrange`, `boxes` and `swap` print with --json. */

import type { arrangeJson } from "../../words/arrange-text.ts";
import type { asBuiltJson, boxesJson } from "../../words/boxes-text.ts";
import type { CheckedJson } from "../../words/checked-json.ts";
import type { swapJson } from "../../words/swap-text.ts";
import {
  anything,
  CHECK,
  CLASH,
  CLASHES,
  count,
  flag,
  HEAD,
  type KeysOf,
  list,
  number,
  numbers,
  object,
  text,
  VERDICT,
  ZONE_CHECKS,
} from "./answer-schema.ts";

type ArrangeJson = ReturnType<typeof arrangeJson>;
type Proposed = ArrangeJson["proposals"][number];
type BoxesJson = ReturnType<typeof boxesJson>;
type Ring = BoxesJson["rings"][number];
type AsBuiltJson = ReturnType<typeof asBuiltJson>;
type SwapJson = ReturnType<typeof swapJson>;
type Changed = SwapJson["zones"][number];

const FIGURES: KeysOf<CheckedJson> = {
  verdict: VERDICT,
  clashes: CLASHES,
  average: number("Of the whole top.", "lx"),
  uniformity: number("Of the whole top, minimum over average."),
  watts: number("Power as dimmed.", "W"),
  unknownWatts: count("How many luminaires have no known power."),
  zones: ZONE_CHECKS,
};

export const ARRANGE_ANSWER = object<ArrangeJson>("What `arrange --json` prints.", {
  ...HEAD,
  evenness: number("Least evenness asked of the whole top."),
  sought: text("The layer whose pendants were sought."),
  standing: list("The layers that stay as they are.", { type: "string" }),
  asksNothing: flag("Whether no zone has a target."),
  candidates: count("Rows compared by their light."),
  promising: count("Of these, rows that promise to meet every target."),
  undominated: count("Of these, rows that no other beats at everything."),
  checked: count("Rows checked in full."),
  cutShort: flag("Whether there were more rows than one search looks at."),
  proposals: list(
    "The best few, which differ in kind.",
    object<Proposed>("A proposed row.", {
      name: text("Its name."),
      count: count("How many pendants."),
      spacing: number("Centre to centre.", "m"),
      clearance: number("From the top to the lowest point.", "m"),
      offset: numbers("Of the row from the middle of the top: along, across.", "m", 2),
      reasons: list("What it is best at.", { type: "string" }),
      "shareOfView?": number("Share of the view that the pendants take, 0 to 1."),
      luminance: number("Greatest luminance towards eyes.", "cd/m²"),
      ...FIGURES,
      "settings?": list(
        "The settings of the dimmers, where the arrangement has any.",
        object<NonNullable<Proposed["settings"]>[number]>("One setting.", {
          name: text("Its name."),
          dims: numbers("Dim of each layer, 0 to 1."),
          verdict: VERDICT,
          watts: number("Power then.", "W"),
        }),
      ),
      "skipOne?": object<NonNullable<Proposed["skipOne"]>>("The best row with one pendant fewer.", {
        loses: text("What it loses, in words."),
        ...FIGURES,
      }),
      "shiftedOffJoists?": text("What the shift off the joists does to the light."),
      "dimmed?": object<NonNullable<Proposed["dimmed"]>>("Dimmed as far as the targets allow.", {
        dims: numbers("Dim of each layer, 0 to 1."),
        saves: number("Share of power saved."),
        ...FIGURES,
      }),
      arrangement: anything("The arrangement, as a study writes it."),
    }),
  ),
  turnedDown: list("Why rows were turned down when checked in full.", { type: "string" }),
  leftOut: list("Rows that cannot be hung, with the reason.", anything("Count, rows, reason.")),
});

const HEIGHT_MARGIN = object<Ring["lower"]>("How much lower or higher it may hang.", {
  distance: number("With the same verdict; the farthest looked at where nothing changes.", "m"),
  "beyond?": VERDICT,
});

export const BOXES_ANSWER = object<BoxesJson>("What `boxes --json` prints.", {
  ...HEAD,
  error: number("How far a box may end up from its place.", "m"),
  evenness: number("Least evenness asked of the whole top."),
  shortlist: list("Names of the luminaires tried.", { type: "string" }),
  sets: list(
    "Sets of positions, the best first.",
    object<BoxesJson["sets"][number]>("Positions of boxes.", {
      along: numbers("From the end of the top.", "m"),
      across: number("From the edge of the top.", "m"),
      robust: flag("Whether every luminaire meets every target from these boxes, however they are off."),
      worstShortage: number("Worst relative shortage."),
      worstUniformity: number("Worst evenness."),
      kinds: list("By luminaire.", anything("Its name and figures.")),
    }),
  ),
  checked: list(
    "The first set checked in full with each luminaire.",
    object<BoxesJson["checked"][number]>("One luminaire's.", {
      name: text("Name of the arrangement."),
      ...FIGURES,
      arrangement: anything("The arrangement, as a study writes it."),
    }),
  ),
  rings: list(
    "How far each box of the arrangement may be off.",
    object<Ring>("One box.", {
      index: count("Number in the layer, from 0."),
      position: numbers("Where it is, in the room.", "m"),
      radius: number("How far it may be off with the same verdict.", "m"),
      "beyond?": object<NonNullable<Ring["beyond"]>>("What happens farther off.", {
        verdict: VERDICT,
        direction: number("Direction of the worst, counter-clockwise from +x.", "rad"),
      }),
      "clear?": number("How far off it stands in or hangs at what it does not as planned.", "m"),
      "planned?": CLASH,
      lower: HEIGHT_MARGIN,
      higher: HEIGHT_MARGIN,
      "canopyCover?": number("How far off a box its canopy hides.", "m"),
    }),
  ),
});

export const AS_BUILT_ANSWER = object<AsBuiltJson>("What `boxes --as-built --json` prints.", {
  ...HEAD,
  planned: VERDICT,
  built: VERDICT,
  clashes: CLASHES,
  zones: ZONE_CHECKS,
  remedies: list(
    "Remedies tried, the cheapest first.",
    object<AsBuiltJson["remedies"][number]>("A remedy.", {
      words: text("In words."),
      restores: flag("Whether it gives back the planned verdict."),
      verdict: VERDICT,
    }),
  ),
});

export const SWAP_ANSWER = object<SwapJson>("What `swap --json` prints.", {
  ...HEAD,
  layer: text("The layer changed."),
  planned: text("The luminaire planned."),
  instead: text("The luminaire in its place."),
  differs: list("In what the two differ.", { type: "string" }),
  placement: list("What the other's size does to the row.", { type: "string" }),
  setting: list(
    "What the other lacks to be set into the ceiling as the planned one is, clauses of which it is the subject: each is on hold.",
    { type: "string" },
  ),
  "dimmer?": text("What the other loads the layer's dimmer beyond, where the planned one does not; on hold."),
  before: object<SwapJson["before"]>("As planned.", FIGURES),
  after: object<SwapJson["after"]>("With the other.", FIGURES),
  zones: list(
    "Zones whose verdict or figure changes.",
    object<Changed>("A zone.", {
      zone: text("Its name."),
      before: VERDICT,
      after: VERDICT,
      "check?": object<NonNullable<Changed["check"]>>("The requirement that tells most.", {
        before: CHECK,
        after: CHECK,
      }),
    }),
  ),
  order: text("Words for the order."),
});
