// Writes the photometric files of the worked example from plain formulas. They describe no product: each lobe
// is chosen to show one thing a real pendant does. Run: node fixtures-data/boathouse/make-photometry.mjs
import { writeFileSync } from "node:fs";

const folder = new URL("./photometry/", import.meta.url);
const rad = (degrees) => (degrees * Math.PI) / 180;
const range = (from, to, step) => Array.from({ length: Math.round((to - from) / step) + 1 }, (_, i) => from + i * step);
/** 1 below `from`, 0 above `to`, a smooth step between. */
const cutOff = (gamma, from, to) => {
  const t = Math.min(1, Math.max(0, (gamma - from) / (to - from)));
  return 1 - t * t * (3 - 2 * t);
};

/** Flux of a table over a full sphere by a fine midpoint sum; only used to scale a lobe to its flux. */
function fluxOf(lobe) {
  let flux = 0;
  const n = 720;
  for (let i = 0; i < n; i++) {
    const gamma = ((i + 0.5) * 180) / n;
    for (let j = 0; j < 72; j++) flux += lobe((j + 0.5) * 5, gamma) * Math.sin(rad(gamma)) * (Math.PI / n) * ((2 * Math.PI) / 72);
  }
  return flux;
}

function wrap(numbers, digits = 2) {
  const lines = [];
  let line = "";
  for (const value of numbers) {
    const text = Number(value.toFixed(digits)).toString();
    if (line !== "" && line.length + text.length + 1 > 100) {
      lines.push(line);
      line = "";
    }
    line += (line === "" ? "" : " ") + text;
  }
  return [...lines, line];
}

function writeLm63(name, { title, lobe, flux, watts, vertical, horizontal, opening, edition = "2019" }) {
  const scale = flux / fluxOf(lobe);
  const [width, length, height] = opening;
  const lines = [
    edition === "2019" ? "IES:LM-63-2019" : "IESNA:LM-63-2002",
    "[TEST] example data computed from a formula",
    "[TESTLAB] none",
    "[ISSUEDATE] 2026-11-25",
    "[MANUFAC] none: worked example",
    `[LUMINAIRE] ${title}`,
    "TILT=NONE",
    `1 -1 1 ${vertical.length} ${horizontal.length} 1 2 ${width} ${length} ${height}`,
    `1 ${edition === "2019" ? "1.00010" : "1"} ${watts}`,
    ...wrap(vertical),
    ...wrap(horizontal),
    ...horizontal.flatMap((c) => wrap(vertical.map((gamma) => lobe(c, gamma) * scale))),
  ];
  writeFileSync(new URL(name, folder), lines.join("\r\n") + "\r\n");
}

function writeEulumdat(name, { title, lobe, flux, watts, isym, planes, stored, gammas, luminous, housing, lor = 100, absolute = true }) {
  const scale = 1000 / fluxOf(lobe);
  const [length, width, ...heights] = luminous;
  const down = fluxOf((c, gamma) => (gamma <= 90 ? lobe(c, gamma) : 0)) / fluxOf(lobe);
  const lines = [
    "none: worked example",
    isym === 1 ? 1 : 3,
    isym,
    planes.length,
    planes[1] - planes[0],
    gammas.length,
    gammas[1] - gammas[0],
    "example data computed from a formula",
    title,
    "none",
    name.slice(0, 8),
    "2026-11-25",
    ...housing,
    length,
    width,
    ...heights,
    (down * 100).toFixed(1),
    lor,
    1,
    0,
    1,
    absolute ? -1 : 1,
    "LED",
    Math.round(absolute ? flux : flux / (lor / 100)),
    "3000",
    "90",
    watts,
    ...Array(10).fill(0),
    ...planes,
    ...gammas,
    ...stored.flatMap((c) => gammas.map((gamma) => (lobe(c, gamma) * scale * (lor / 100)).toFixed(2))),
  ];
  writeFileSync(new URL(name, folder), lines.join("\r\n") + "\r\n");
}

// A wide white-lined dome: soft lobe, cut by the rim at about 78°.
writeLm63("dome-wide.ies", {
  title: "wide dome, white inside, 300 mm",
  lobe: (_, gamma) => Math.cos(rad(Math.min(gamma, 90))) ** 1.1 * cutOff(gamma, 66, 82),
  flux: 1150,
  watts: 13,
  vertical: range(0, 90, 2.5),
  horizontal: [0],
  opening: [-0.28, -0.28, 0],
});

// A narrow spun cone with a reflector lamp: a hot spot with a weak halo.
writeLm63("cone-narrow.ies", {
  title: "narrow cone, reflector lamp, 120 mm",
  lobe: (_, gamma) => (0.93 * Math.cos(rad(Math.min(gamma, 90))) ** 24 + 0.07 * Math.cos(rad(Math.min(gamma, 90))) ** 3) * cutOff(gamma, 60, 72),
  flux: 800,
  watts: 9.5,
  vertical: [...range(0, 30, 1), ...range(32.5, 90, 2.5)],
  horizontal: [0],
  opening: [-0.1, -0.1, 0],
  edition: "2002",
});

// A pendant that throws to one side: strongest 25° towards C0, nothing behind 50°.
writeEulumdat("lily-asymmetric.ldt", {
  title: "one-sided flower, 220 mm",
  lobe: (c, gamma) => {
    const x = Math.sin(rad(gamma)) * Math.cos(rad(c));
    const towards = x * Math.sin(rad(25)) + Math.cos(rad(gamma)) * Math.cos(rad(25));
    return gamma > 90 ? 0 : Math.max(0, towards) ** 4 * cutOff(gamma, 70, 88);
  },
  flux: 900,
  watts: 11,
  isym: 2,
  planes: range(0, 345, 15),
  stored: range(0, 180, 15),
  gammas: range(0, 90, 5),
  luminous: [200, 0, 0, 0, 0, 0],
  housing: [220, 0, 180],
});

// A lantern that sends light up and down, dark at the horizon.
writeLm63("lantern-up-down.ies", {
  title: "up and down lantern, 180 mm",
  lobe: (_, gamma) => (gamma <= 90 ? Math.cos(rad(gamma)) ** 2 : 0.65 * Math.abs(Math.cos(rad(gamma))) ** 1.5),
  flux: 1400,
  watts: 16,
  vertical: range(0, 180, 2.5),
  horizontal: [0],
  opening: [-0.16, -0.16, 0.2],
});

// An opal globe: nearly the same in every direction, weaker under its cap.
writeEulumdat("globe-opal.ldt", {
  title: "opal globe, 250 mm",
  lobe: (_, gamma) => 1 - 0.85 * (1 - cutOff(gamma, 150, 175)),
  flux: 690,
  watts: 8,
  isym: 1,
  planes: range(0, 345, 15),
  stored: [0],
  gammas: range(0, 180, 5),
  luminous: [250, 0, 250, 250, 250, 250],
  housing: [250, 0, 250],
});

// Two recessed downlights: one to fill a room, one to aim.
writeLm63("recessed-wide.ies", {
  title: "recessed, wide, 75 mm",
  lobe: (_, gamma) => Math.cos(rad(Math.min(gamma, 90))) ** 3.2 * cutOff(gamma, 55, 75),
  flux: 620,
  watts: 7,
  vertical: range(0, 90, 2.5),
  horizontal: [0],
  opening: [-0.075, -0.075, 0],
});
writeEulumdat("recessed-narrow.ldt", {
  title: "recessed, narrow, 60 mm",
  lobe: (_, gamma) => Math.cos(rad(Math.min(gamma, 90))) ** 31.4 + 0.01 * cutOff(gamma, 40, 70),
  flux: 480,
  watts: 6,
  isym: 1,
  planes: range(0, 345, 15),
  stored: [0],
  gammas: range(0, 90, 1),
  luminous: [60, 0, 0, 0, 0, 0],
  housing: [80, 0, 110],
});

// A linear pendant, 1.5 m: wider across than along.
writeLm63("linear-opal.ies", {
  title: "linear, opal, 1500 x 60 mm",
  lobe: (c, gamma) => {
    if (gamma >= 90) return 0;
    const along = Math.abs(Math.cos(rad(c)));
    return Math.cos(rad(gamma)) ** (1.05 + 0.75 * along);
  },
  flux: 2600,
  watts: 26,
  vertical: range(0, 90, 5),
  horizontal: range(0, 90, 15),
  opening: [0.06, 1.5, 0],
});
