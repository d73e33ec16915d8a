/**
 * Photometric files for the studies, from plain formulas: LM-63 of types A, B and C, EULUMDAT of every symmetry.
 * They describe no product.
 */
const radians = (degrees) => (degrees * Math.PI) / 180;
const steps = (from, to, step) =>
  Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
const rounded = (value) => String(Number(value.toFixed(3)));

/** A lobe about the nadir: power of the cosine, a little leaning, a little upward light (cd). */
function intensity(C, gamma, { peak, power, lean = 0, up = 0 }) {
  const cosine = Math.cos(radians(gamma));
  const downward = cosine > 0 ? peak * cosine ** power : 0;
  const upward = cosine < 0 ? peak * up * -cosine : 0;
  return downward * (1 + lean * Math.sin(radians(gamma)) * Math.cos(radians(C))) + upward;
}

/** Type C: horizontal angles `planes` (degrees), intensities over gamma. */
function typeC(
  title,
  lobe,
  planes,
  gammas,
  opening,
  { lamps = "1 -1 1", factors = "1 1 11", tilt = "TILT=NONE" } = {},
) {
  return lm63(
    title,
    tilt,
    `${lamps} ${gammas.length} ${planes.length} 1 2 ${opening}`,
    factors,
    gammas,
    planes,
    (C, g) => intensity(C, g, lobe),
  );
}

/** Types A and B: the direction of (horizontal X, vertical Y) turned into an angle from the photometric axis. */
function typeAB(title, type, lobe, horizontal, vertical, opening) {
  const value = (X, Y) => lobe.peak * Math.max(0, Math.cos(radians(X)) * Math.cos(radians(Y))) ** lobe.power;
  return lm63(
    title,
    "TILT=NONE",
    `1 -1 1 ${vertical.length} ${horizontal.length} ${type} 2 ${opening}`,
    "1 1 9",
    vertical,
    horizontal,
    value,
  );
}

function lm63(title, tilt, counts, factors, vertical, horizontal, value) {
  const rows = horizontal.map((C) => vertical.map((g) => rounded(value(C, g))).join(" "));
  const labels = [
    "[TEST] made up",
    "[TESTLAB] none",
    "[ISSUEDATE] 2026-01-05",
    "[MANUFAC] none",
    `[LUMINAIRE] ${title}`,
  ];
  const angles = [vertical.map(rounded).join(" "), horizontal.map(rounded).join(" ")];
  return ["IESNA:LM-63-2002", ...labels, tilt, counts, factors, ...angles, ...rows, ""].join("\r\n");
}

/** The planes an EULUMDAT file of symmetry `isym` stores, out of 24 (degrees). */
const STORED = {
  0: steps(0, 345, 15),
  1: [0],
  2: steps(0, 180, 15),
  3: steps(90, 270, 15),
  4: steps(0, 90, 15),
};

function eulumdat(
  title,
  isym,
  lobe,
  { round = false, sets = [["1", "made up", "1000", "2700", "90", "10"]] } = {},
) {
  const planes = isym === 1 ? [0] : steps(0, 345, 15);
  const gammas = steps(0, 180, 10);
  const luminous = round
    ? ["180", "0", "60", "140", "0", "0", "0", "0", "0"]
    : ["1200", "70", "50", "1150", "60", "0", "0", "0", "0"];
  return [
    "none",
    isym === 1 ? "1" : "2",
    String(isym),
    ...(isym === 1 ? ["1", "0"] : ["24", "15"]),
    String(gammas.length),
    "10",
    "made up",
    title,
    "0",
    "none",
    "05.01.2026",
    ...luminous,
    "80",
    "85",
    "1",
    "0",
    String(sets.length),
    ...sets.flat(),
    ...Array.from({ length: 10 }, (_, i) => rounded(0.5 + i * 0.03)),
    ...planes.map(rounded),
    ...gammas.map(rounded),
    ...STORED[isym].flatMap((C) => gammas.map((g) => rounded(intensity(C, g, lobe)))),
    "",
  ].join("\r\n");
}

/** Name → text of every file written for the freeze. */
export const PHOTOMETRIC_FILES = {
  "c-round.ies": typeC("round", { peak: 420, power: 1.2 }, [0], steps(0, 90, 7.5), "-0.12 -0.12 0"),
  "c-quarter.ies": typeC(
    "quarter",
    { peak: 380, power: 1 },
    steps(0, 90, 22.5),
    steps(0, 180, 10),
    "0.05 1.1 0",
  ),
  "c-half.ies": typeC(
    "half",
    { peak: 600, power: 3, lean: 0.4 },
    steps(0, 180, 22.5),
    steps(0, 90, 5),
    "0 0 0",
  ),
  "c-full.ies": typeC(
    "full",
    { peak: 300, power: 1.5, lean: 0.3, up: 0.4 },
    steps(0, 360, 30),
    steps(0, 180, 10),
    "0.2 0.2 0.1",
  ),
  "c-relative.ies": typeC("relative", { peak: 330, power: 1.4 }, [0], steps(0, 90, 10), "-0.2 0 0", {
    lamps: "2 600 1.1",
    factors: "0.95 1 14",
  }),
  "b-half.ies": typeAB(
    "type B",
    2,
    { peak: 500, power: 2 },
    steps(0, 90, 10),
    steps(-90, 90, 10),
    "0.1 0.2 0",
  ),
  "b-full.ies": typeAB(
    "type B whole",
    2,
    { peak: 450, power: 1.5 },
    steps(-90, 90, 15),
    steps(-90, 90, 15),
    "0.3 0.05 0",
  ),
  "a-full.ies": typeAB(
    "type A",
    3,
    { peak: 700, power: 4 },
    steps(-90, 90, 15),
    steps(-90, 90, 15),
    "0.08 0.08 0",
  ),
  "sym0.ldt": eulumdat("symmetry 0", 0, { peak: 400, power: 1.2, lean: 0.35, up: 0.2 }),
  "sym1.ldt": eulumdat("symmetry 1", 1, { peak: 350, power: 1 }, { round: true }),
  "sym2.ldt": eulumdat("symmetry 2", 2, { peak: 380, power: 1.5, lean: 0.2 }),
  "sym3.ldt": eulumdat("symmetry 3", 3, { peak: 390, power: 1.1, up: 0.3 }),
  "sym4.ldt": eulumdat(
    "symmetry 4",
    4,
    { peak: 360, power: 1.3 },
    {
      sets: [
        ["1", "first", "1200", "3000", "80", "12"],
        ["2", "second", "2000", "4000", "90", "20"],
      ],
    },
  ),
};

export const EMBEDDED_TEXT = PHOTOMETRIC_FILES["c-half.ies"];
