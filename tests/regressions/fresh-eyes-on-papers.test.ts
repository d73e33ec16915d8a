/** What fresh eyes found on papers on 2026-11-29: each test says what was wrong. */
import { describe, expect, it } from "vitest";
import type { Clash } from "../../src/advice/clashes/clash.ts";
import { clashes } from "../../src/advice/clashes/clashes.ts";
import { peopleFindings } from "../../src/advice/findings.ts";
import { openStudy } from "../../src/app/open-study.ts";
import { overlaps, textBox } from "../../src/drawing/drawing.ts";
import { lineMeetsBox, orientedBox } from "../../src/drawing/oriented-box.ts";
import type { PaperMark } from "../../src/drawing/paper/paper.ts";
import { bounds } from "../../src/geometry/polygon.ts";
import type { Vec2 } from "../../src/geometry/vector.ts";
import { clientSheets } from "../../src/papers/client-sheet.ts";
import { dimmerSheets } from "../../src/papers/dimmer-sheet.ts";
import { type Handover, lampsOf } from "../../src/papers/handover.ts";
import { reportSheets } from "../../src/papers/report-sheet.ts";
import { scheduleSheets } from "../../src/papers/schedule-sheet.ts";
import { setOutSheets } from "../../src/papers/set-out/set-out-sheet.ts";
import { fluxCode, formatFluxCode } from "../../src/photometry/flux-code.ts";
import { range, rotational, tabulated } from "../support/distributions.ts";
import { handoverOf } from "../support/handover.ts";
import { ISLAND, type Json, kitchen, L_OUTLINE, resolved, withRow } from "../support/studies.ts";

const wordsOf = (sheets: readonly { readonly marks: readonly PaperMark[] }[]): string =>
  sheets
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])))
    .join(" ")
    .replaceAll(/\s+/g, " ");

const withL = (more: Json = {}): Json =>
  kitchen({ island: { centre: [2.7, 2.1], height: 0.92, outline: L_OUTLINE }, ...more });

describe("the client's sheet", () => {
  const COOK = { name: "Ada", stature: 1.7, at: [2.7, 3.0], facing: 270, posture: "standing" };
  const handover = handoverOf(kitchen({ island: { ...ISLAND, finish: "polished" }, people: [COOK] }));
  /** As if the image seen most plainly were so many times as bright as the top around it. */
  const said = (ratio: number): string => {
    const options = handover.options.map((option) => ({
      ...option,
      people: peopleFindings(option.scene, option.assessment).map((found) => ({
        ...found,
        glare: { ...found.glare, mirrored: found.glare.mirrored.map((image) => ({ ...image, ratio })) },
      })),
    }));
    return wordsOf(clientSheets({ ...handover, options }));
  };

  it("said that a polished top shows no image where the report told of one 8 times as bright", () => {
    expect(said(8)).toContain('Ada will see "dome" mirrored, about 8 times as bright as the top around it;');
    expect(said(40)).toContain("about 40 times as bright as the top around it, plain to see;");
    expect(said(1.2)).toContain("shows no image that is much brighter than the top around it");
  });
});

describe("the set-out", () => {
  it.each([
    ["A4", "mm"],
    ["Letter", "ft-in"],
  ] as const)("struck names with the frame of the enlarged part, on %s", (paper, unit) => {
    let framed = 0;
    for (const length of [5.4, 8, 11]) {
      const document = withL({
        room: { length, width: 4.2, ceilingHeight: 2.7 },
        island: { centre: [length / 2, 2.1], height: 0.92, outline: L_OUTLINE },
      });
      const [{ marks }] = setOutSheets(handoverOf(document, { paper, unit })).sheets;
      for (const frame of marks) {
        if (frame.kind !== "line" || frame.depicts !== "cut") continue;
        framed++;
        frame.points.forEach((a, i) => {
          const b = frame.points[(i + 1) % frame.points.length];
          const side = {
            x: Math.min(a[0], b[0]),
            y: Math.min(a[1], b[1]),
            width: Math.abs(a[0] - b[0]),
            height: Math.abs(a[1] - b[1]),
          };
          for (const mark of marks)
            if (mark.kind === "text" && /name$|^tag$|^slope$/.test(mark.depicts))
              expect(overlaps(textBox(mark), side), `${mark.text}, ${length} m`).toBe(false);
        });
      }
    }
    expect(framed).toBeGreaterThan(0);
  });

  it("wrote the name of a wall on the line between two cabinets", () => {
    for (const wall of [0, 2]) {
      const y = wall === 0 ? 0 : 3.8;
      const unit = (name: string, from: number, to: number): Json => ({
        name,
        box: [
          [from, y, 0],
          [to, y + 0.4, 2.2],
        ],
      });
      const bodies = [unit("larder", 0.9, 2.7), unit("oven", 2.7, 4.5)];
      const [{ marks }] = setOutSheets(handoverOf(kitchen({ bodies }))).sheets;
      const name = marks.find((mark) => mark.kind === "text" && mark.text === `wall ${wall}`);
      if (name?.kind !== "text") throw new Error(`wall ${wall} has no name`);
      const sides = marks.flatMap((mark) =>
        mark.kind === "line" && mark.depicts === "cabinet"
          ? mark.points.map((p, i) => [p, mark.points[(i + 1) % mark.points.length]] as const)
          : [],
      );
      expect(sides.length).toBeGreaterThan(7);
      for (const [from, to] of sides)
        expect(lineMeetsBox(from, to, orientedBox(textBox(name))), `wall ${wall}`).toBe(false);
    }
  });

  it("ran the name of the island's centreline up against that of a wall", () => {
    for (const length of [4.6, 5, 5.4, 6]) {
      const document = withL({ room: { length, width: 4.2, ceilingHeight: 2.7 } });
      const [{ marks }] = setOutSheets(handoverOf(document)).sheets;
      const names = marks.flatMap((mark) =>
        mark.kind === "text" && /^(wall|centreline) name$/.test(mark.depicts) ? [textBox(mark)] : [],
      );
      names.forEach((one, i) => {
        for (const other of names.slice(0, i)) expect(overlaps(one, other, 3)).toBe(false);
      });
      expect(names.length).toBeGreaterThan(3);
    }
  });

  it("explained lines that are not there, left out what a type is, and missed a switch that nothing waits for", () => {
    const small = wordsOf(setOutSheets(handoverOf(withL())).sheets);
    expect(small).not.toContain("Dash-dot frame");
    expect(small).not.toContain("Dashed:");
    expect(small).toContain('Recessed, from the datum: L2 "spot"');
    const large = wordsOf(
      setOutSheets(handoverOf(withL({ room: { length: 11, width: 7, ceilingHeight: 2.7 } }))).sheets,
    );
    expect(large).toContain("Dash-dot frame: the part drawn larger.");
    const overhung = kitchen({ island: { ...ISLAND, overhang: { side: "y-", depth: 0.3 } } });
    expect(wordsOf(setOutSheets(handoverOf(overhung)).sheets)).toContain("Dashed: base of the island.");
    const [arrangement] = kitchen().arrangements as { name: string; layers: Json[] }[];
    const dimmed = {
      arrangements: [
        { ...arrangement, layers: arrangement.layers.map((each) => ({ ...each, dimmer: { name: "D1" } })) },
      ],
    };
    expect(wordsOf(setOutSheets(handoverOf(kitchen(dimmed))).sheets)).not.toContain(" not stated D1");
  });

  it("named no box that is on HOLD beside the plan, unless something is in its way", () => {
    expect(wordsOf(setOutSheets(handoverOf(kitchen())).sheets)).toContain(
      "On HOLD, ringed or not: P1 to P3, R1 to R6; why, under HOLD.",
    );
  });
});

describe("the canopy over its box", () => {
  const canopied = (room: Json = {}): Json => ({
    room: { ...(kitchen().room as Json), ...room },
    luminaires: {
      ...(kitchen().luminaires as Json),
      dome: { ...((kitchen().luminaires as Json).dome as Json), canopy: { diameter: 0.1 } },
    },
  });
  const told = async (room: Json): Promise<unknown> => {
    const opened = await openStudy(kitchen(canopied(room)));
    if (!opened.ok) throw new Error(JSON.stringify(opened.issues));
    return opened.value.study.warnings.find(({ code }) => code === "canopy-below-box");
  };

  it("was told of on paper alone, and no study could say that its boxes are smaller", async () => {
    const usual = wordsOf(setOutSheets(handoverOf(kitchen(canopied()))).sheets);
    expect(usual).toContain("The canopy is smaller than a 102 mm box");
    expect(await told({})).toMatchObject({ received: "100 mm" });
    const small = wordsOf(setOutSheets(handoverOf(kitchen(canopied({ ceilingBox: "68 mm" })))).sheets);
    expect(small).toContain("canopy 100 mm, hides a 68 mm box up to 16 mm off");
    expect(small).not.toContain("The canopy is smaller");
    expect(await told({ ceilingBox: "68 mm" })).toBeUndefined();
  });

  it("left boxes of the room's own width nearer to joists and ducts than the usual ones", () => {
    const clashing = (ceilingBox: number): string[] => {
      const joists = { along: "y", spacing: 0.8, first: 0.3, width: 0.04 };
      const room = { ...(kitchen().room as Json), joists, ceilingBox };
      const keepOuts = [{ name: "duct", from: [2.8, 0], size: [0.2, 4.2] }];
      const { scenes } = resolved(withRow({ count: 1, offset: [0.06, 0] }, { room: { ...room, keepOuts } }));
      return clashes(scenes[0]).map(({ kind }) => kind);
    };
    // At 2.76 m: 40 mm from the face of the joist at 2.7 m and from the duct.
    expect(clashing(0.07)).toEqual([]);
    expect(clashing(0.09)).toEqual(["joist", "keep-out"]);
  });
});

describe("the schedule", () => {
  it("said nothing of the holes to cut and of the depth above the ceiling", () => {
    const { dome, spot } = kitchen().luminaires as Record<string, Json>;
    const sunk = { ...spot, cutOut: 0.075, body: { profile: "cylinder", diameter: 0.085, height: 0.11 } };
    const ordered = (recessed: Json): string =>
      wordsOf(scheduleSheets(handoverOf(kitchen({ luminaires: { dome, spot: recessed } }))));
    const set = (recessed: Json): string =>
      wordsOf(setOutSheets(handoverOf(kitchen({ luminaires: { dome, spot: recessed } }))).sheets);
    expect(ordered(sunk)).toContain("cut-out 75 mm; depth 110 mm by its stated body");
    expect(ordered(spot)).toContain("cut-out and depth not stated, the maker's");
    expect(set(sunk)).toContain(
      "Cut-out in the ceiling: L2 75 mm. Depth above it: L2 110 mm by its stated body.",
    );
    expect(set(spot)).toContain("Depth above it: L2 not stated, the maker's.");
  });

  it("asked for a finish that its shade was traced with, and left out the canopy", () => {
    const luminaires = {
      dome: {
        ...((kitchen().luminaires as Json).dome as Json),
        canopy: { diameter: 0.12 },
        suspension: "cord",
      },
      spot: (kitchen().luminaires as Json).spot,
    };
    const lamps = lampsOf({
      dome: { lamp: { flux: 800 }, shade: { finish: "black", inside: { finish: "white" } } },
    });
    const words = wordsOf(scheduleSheets({ ...handoverOf(kitchen({ luminaires })), lamps } as Handover));
    expect(words).toContain("cord; canopy 120 mm");
    expect(words).toMatch(/black, inside white(?!; order)/);
  });

  it("gave the mean beam of a luminaire whose planes differ as if it were every plane's", () => {
    const handover = handoverOf(kitchen());
    const [option] = handover.options;
    const narrowAcross = (C: number, gamma: number) =>
      100 * Math.cos(gamma) ** (Math.cos(C) ** 2 > 0.5 ? 1 : 8);
    const wide = tabulated("C", narrowAcross, range(0, 360, 90), range(0, 90, 1));
    const layers = option.scene.layers.map((layer) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed) => ({
        ...placed,
        luminaire: { ...placed.luminaire, distribution: wide },
      })),
    }));
    const options = [{ ...option, scene: { ...option.scene, layers } }];
    expect(wordsOf(scheduleSheets({ ...handover, options }))).toMatch(/\d+° \(mean of planes, 47° to 120°\)/);
  });

  it("set figures against the words of the next column", () => {
    const [{ marks }] = scheduleSheets(handoverOf(kitchen(), { paper: "Letter", unit: "ft-in" }));
    const heads = marks.flatMap((mark) =>
      mark.kind === "text" && mark.depicts === "table head" ? [{ text: mark.text, ...textBox(mark) }] : [],
    );
    const [weight, hangs] = ["lb", "hangs on"].map((words) => heads.find(({ text }) => text.endsWith(words)));
    expect(weight === undefined || hangs === undefined).toBe(false);
    if (weight !== undefined && hangs !== undefined)
      expect(hangs.x - weight.x - weight.width).toBeGreaterThan(9);
  });

  it("did not say what a file calls what it measured", () => {
    const handover = handoverOf(kitchen());
    const [option] = handover.options;
    const layers = option.scene.layers.map((layer) => ({
      ...layer,
      luminaires: layer.luminaires.map((placed) => ({
        ...placed,
        luminaire: { ...placed.luminaire, filed: { description: "linear   840\r\n4000 K" } },
      })),
    }));
    const options = [{ ...option, scene: { ...option.scene, layers } }];
    expect(wordsOf(scheduleSheets({ ...handover, options }))).toContain('which calls it "linear 840 4000 K"');
  });
});

it("told of brackets on the report as of another grid than on a check", () => {
  expect(wordsOf(reportSheets(handoverOf(kitchen())))).toContain(
    "In brackets are minimum and maximum of it and the fine grid of the isolux lines together",
  );
});

it("wrote an output ratio of 5999 % into the flux code of a file that states a sixtieth of its light", () => {
  const distribution = rotational((gamma) => 100 * Math.cos(gamma));
  expect(formatFluxCode(fluxCode(distribution, 1))).toMatch(/ –$/);
  expect(formatFluxCode(fluxCode(distribution, "absolute"))).toMatch(/ 100$/);
});

it("drew the ring that a long pendant's box may be off in about the pendant's middle, half a metre away", () => {
  const bar = {
    beam: { flux: 2000, angle: 90 },
    opening: { length: 1.2, width: 0.06 },
    body: { profile: "box", length: 1.2, width: 0.06, height: 0.06 },
    suspensions: [
      [-0.5, 0],
      [0.5, 0],
    ],
    feed: [-0.5, 0],
  };
  const document = withRow({ count: 1 }, { luminaires: { dome: bar } });
  const plain = handoverOf(document);
  const [option] = plain.options;
  const tolerances = option.scene.layers[0].luminaires.map(({ frame }) => ({
    position: frame.origin,
    radius: 0.1,
    lower: { distance: 0.1 },
    higher: { distance: 0.1 },
  }));
  const marks = setOutSheets({ ...plain, options: [{ ...option, tolerances }] }).sheets.flatMap(
    (s) => s.marks,
  );
  const middleOf = (depicts: string): Vec2 => {
    const mark = marks.find((each) => each.depicts === depicts);
    if (mark?.kind === "circle") return mark.centre;
    if (mark?.kind !== "line") throw new Error(`no ${depicts}`);
    const [x0, y0, x1, y1] = bounds(mark.points);
    return [(x0 + x1) / 2, (y0 + y1) / 2];
  };
  const [ring, box] = [middleOf("tolerance ring"), middleOf("pendant box")];
  expect(Math.hypot(ring[0] - box[0], ring[1] - box[1])).toBeLessThan(1e-6);
});

it("gave a zone of what cannot be built ! on the report's first page and ✓ on the next", () => {
  const plain = handoverOf(
    kitchen({
      targets: { low: { illuminance: 5 } },
      island: { ...ISLAND, zones: [{ name: "all", from: [0, 0], size: [2.4, 1.1], target: "low" }] },
    }),
  );
  const clash: Clash = {
    kind: "boxes",
    between: ["P1", "R1"],
    clear: -0.05,
    remedy: { kind: "move apart", by: 0.05 },
  };
  const options = plain.options.map((option) => ({ ...option, clashes: [clash] }));
  const said = wordsOf(reportSheets({ ...plain, options }));
  expect(said).toContain("! All");
  expect(said).toContain("! meets");
  expect(said).not.toContain("✓ meets");
});

it("spoke of a point over the sink and drew no sink", () => {
  const sink = { from: [0.9, 0.3], size: [0.6, 0.5] };
  const zones = [{ name: "washing up", from: [0.8, 0.2], size: [0.9, 0.7], target: "washing" }];
  const handover = handoverOf(kitchen({ island: { ...ISLAND, sink, zones } }));
  const [{ marks }] = dimmerSheets(handover, setOutSheets(handover).setOut);
  expect(wordsOf([{ marks }])).toContain("over the sink");
  expect(marks.filter(({ depicts }) => depicts === "island fitting").length).toBeGreaterThan(0);
  expect(wordsOf([{ marks }])).toMatch(/ sink /);
  for (const mark of marks)
    if (mark.kind === "line" && mark.depicts === "island fitting")
      for (const word of marks)
        if (word.kind === "text" && word.depicts === "meter point")
          mark.points.forEach((from, i) => {
            const to = mark.points[(i + 1) % mark.points.length];
            expect(lineMeetsBox(from, to, orientedBox(textBox(word))), word.text).toBe(false);
          });
});

it("cut off on the report how a shade's light was traced", () => {
  const handover = handoverOf(kitchen());
  const [option] = handover.options;
  const origin = "1055 lm frosted lamp in an opaque shade with a diffuser, 340 × 220 mm";
  const layers = option.scene.layers.map((layer) => ({
    ...layer,
    luminaires: layer.luminaires.map((placed) => ({
      ...placed,
      luminaire: { ...placed.luminaire, origin },
    })),
  }));
  const options = [{ ...option, scene: { ...option.scene, layers } }];
  expect(wordsOf(reportSheets({ ...handover, options }))).toContain(origin);
});
