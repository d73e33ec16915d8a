/** The guide page "study format": a sketch of frames, walls and angles, and a table of every key, drawn from the JSON Schema. */
import type { JsonSchema } from "../../src/study/study-json-schema.ts";

/** The kitchen of the sketch, as a study writes it. */
export const SKETCHED = {
  room: {
    length: 5.4,
    width: 4.2,
    ceilingHeight: 2.7,
    openings: [{ wall: 1, from: 0.9, length: 1.2, height: 1.2 }],
    doors: [{ wall: 3, from: 0.5, width: 0.9, swing: "in-left" }],
  },
  island: {
    centre: [2.7, 2.2],
    length: 2.4,
    width: 1.1,
    height: 0.92,
    turn: 20,
    zones: [{ name: "prep", from: [0.15, 0.1], size: [0.7, 0.25], target: "preparation" }],
  },
  people: [{ name: "cook", at: [3.5, 1.05], facing: 115 }],
  row: { count: 3, clearance: 0.85 },
} as const;

type Point = readonly [x: number, y: number];
const SCALE = 110;
const LEFT = 150;
const TOP = 70;
const { room, island, people, row } = SKETCHED;
const radians = (degrees: number) => (degrees * Math.PI) / 180;
const fixed = (value: number) => String(Number(value.toFixed(1)));

/** A point of the room on the page. */
const page = ([x, y]: Point): Point => [LEFT + x * SCALE, TOP + (room.width - y) * SCALE];
/** A point of the island's frame in the room. */
function inRoom([x, y]: Point): Point {
  const [c, s] = [Math.cos(radians(island.turn)), Math.sin(radians(island.turn))];
  const [u, w] = [x - island.length / 2, y - island.width / 2];
  return [island.centre[0] + c * u - s * w, island.centre[1] + s * u + c * w];
}

const TICKS = ' marker-start="url(#tick)" marker-end="url(#tick)"';
const line = (a: Point, b: Point, kind = "thin") =>
  `<path class="${kind}" d="M${page(a).map(fixed)}L${page(b).map(fixed)}"${kind === "measure" ? TICKS : ""}/>`;
const arrow = (a: Point, b: Point, kind = "arrow") =>
  `<path class="${kind}" d="M${page(a).map(fixed)}L${page(b).map(fixed)}" marker-end="url(#tip)"/>`;
const shape = (points: readonly Point[], kind: string) =>
  `<path class="${kind}" d="M${points.map((p) => page(p).map(fixed)).join("L")}Z"/>`;
const dot = (p: Point, name = "") => {
  const [x, y] = page(p);
  const data = name === "" ? "" : ` data-name="${name}" data-at="${p.map((c) => c.toFixed(4)).join(" ")}"`;
  return `<circle class="dot"${data} cx="${fixed(x)}" cy="${fixed(y)}" r="3.5"/>`;
};
const label = (p: Point, words: string, anchor = "start", move: Point = [0, 0], kind = "") => {
  const [x, y] = page(p);
  return `<text${kind === "" ? "" : ` class="${kind}"`} x="${fixed(x + move[0])}" y="${fixed(y + move[1])}" text-anchor="${anchor}">${words}</text>`;
};
/** An angle counter-clockwise from +x, drawn about a point. */
function angle(at: Point, degrees: number, radius: number, words: string): string {
  const [x, y] = page(at);
  const r = radius * SCALE;
  const end = [x + r * Math.cos(radians(degrees)), y - r * Math.sin(radians(degrees))];
  const middle: Point = [
    at[0] + (radius + 0.06) * Math.cos(radians(degrees / 2)),
    at[1] + (radius + 0.06) * Math.sin(radians(degrees / 2)),
  ];
  return `<path class="fine" d="M${fixed(x)},${fixed(y)}h${fixed(r + 12)}"/><path class="arrow" d="M${fixed(x + r)},${fixed(y)}A${fixed(r)},${fixed(r)} 0 0 0 ${end.map(fixed)}" marker-end="url(#tip)"/>${label(middle, words, "start", [2, 0])}`;
}

function walls(): string {
  const { length: L, width: W } = room;
  const corners: Point[] = [
    [0, 0],
    [L, 0],
    [L, W],
    [0, W],
  ];
  const [opening] = room.openings;
  const [door] = room.doors;
  const doorFrom = W - door.from;
  return [
    shape(corners, "room"),
    label([L / 2, 0], "wall 0: y = 0", "middle", [0, 40], "wall"),
    label([L, W], "wall 1: x = length", "start", [12, 6], "wall"),
    label([L / 2, W], "wall 2: y = width", "middle", [0, -26], "wall"),
    label([0, W / 2], "wall 3: x = 0", "end", [-24, 10], "wall"),
    arrow([0.6, -0.14], [2, -0.14], "around"),
    arrow([L + 0.14, 2.5], [L + 0.14, 3.7], "around"),
    arrow([L - 0.6, W + 0.14], [L - 2, W + 0.14], "around"),
    arrow([-0.14, 1.7], [-0.14, 0.6], "around"),
    arrow([0, 0], [0.75, 0]),
    arrow([0, 0], [0, 0.75]),
    dot([0, 0]),
    label([0, 0], "room: origin, z up", "end", [4, 24]),
    label([0.75, 0], "x", "start", [4, -4]),
    label([0, 0.75], "y", "start", [6, 0]),
    line([L, opening.from], [L, opening.from + opening.length], "opening"),
    line([L - 0.1, 0], [L - 0.1, opening.from], "measure"),
    label([L - 0.1, opening.from / 2], "from", "end", [-4, 4]),
    label([L, opening.from + opening.length / 2], "opening: length", "start", [10, 30]),
    line([0, doorFrom], [0, doorFrom - door.width], "opening"),
    line([0, doorFrom - door.width], [door.width, doorFrom - door.width], "thin"),
    line([0.1, W], [0.1, doorFrom], "measure"),
    label([0.1, W - door.from / 2], "from", "start", [8, 4]),
    label([0.08, doorFrom - door.width], "door, swing in-left", "start", [0, 16]),
  ].join("\n");
}

function islandSketch(): string {
  const { length: L, width: W, zones } = island;
  const [{ from, size }] = zones;
  const outline: Point[] = [
    [0, 0],
    [L, 0],
    [L, W],
    [0, W],
  ];
  const zone: Point[] = [
    [from[0], from[1]],
    [from[0] + size[0], from[1]],
    [from[0] + size[0], from[1] + size[1]],
    [from[0], from[1] + size[1]],
  ];
  const stations = Array.from({ length: row.count }, (_, i) => ((i + 0.5) * L) / row.count);
  const radius = 0.14;
  return [
    shape(outline.map(inRoom), "island"),
    shape(zone.map(inRoom), "zone"),
    ...stations.map((x) => {
      const [cx, cy] = page(inRoom([x, W / 2]));
      return `<circle class="pendant" cx="${fixed(cx)}" cy="${fixed(cy)}" r="${radius * SCALE}"/>`;
    }),
    arrow(inRoom([0, 0]), inRoom([0.55, 0])),
    arrow(inRoom([0, 0]), inRoom([0, 0.5])),
    dot(inRoom([0, 0]), "island origin"),
    label(inRoom([0, 0]), "island: origin", "end", [-8, 14]),
    label(inRoom([0.55, 0]), "x, along length", "start", [0, 18]),
    label(inRoom([0, 0.5]), "y, across", "end", [-8, -2]),
    dot([island.centre[0], island.centre[1]], "centre"),
    label([island.centre[0], island.centre[1]], "centre", "start", [12, 22]),
    angle([island.centre[0], island.centre[1]], island.turn, 1.5, "turn"),
    dot(inRoom([from[0], from[1]]), "zone from"),
    label(inRoom([from[0] + size[0], from[1] + size[1] / 2]), "zone", "start", [6, 0]),
    line(inRoom([stations[0], W + 0.12]), inRoom([stations[1], W + 0.12]), "measure"),
    label(inRoom([(stations[0] + stations[1]) / 2, W + 0.12]), "spacing", "middle", [-4, -6]),
    line(inRoom([stations[1] + radius, W + 0.24]), inRoom([stations[2] - radius, W + 0.24]), "measure"),
    label(inRoom([(stations[1] + stations[2]) / 2, W + 0.24]), "gap", "middle", [-4, -6]),
    line(inRoom([stations[2] + radius, W + 0.12]), inRoom([L, W + 0.12]), "measure"),
    label(inRoom([(stations[2] + radius + L) / 2, W + 0.12]), "end", "middle", [-4, -6]),
  ].join("\n");
}

function person(): string {
  const [{ at, facing }] = people;
  const [x, y] = at;
  const ahead: Point = [x + 0.5 * Math.cos(radians(facing)), y + 0.5 * Math.sin(radians(facing))];
  return [
    dot([x, y], "person"),
    arrow([x, y], ahead),
    angle([x, y], facing, 0.28, "facing"),
    label([x, y], "person: at", "middle", [0, 18]),
  ].join("\n");
}

/** Heights, drawn beneath the plan: floor, top, pendant, ceiling. */
function heights(): string {
  const base = TOP + room.width * SCALE + 110 + room.ceilingHeight * SCALE;
  const z = (metres: number) => fixed(base - metres * SCALE);
  const x = (metres: number) => fixed(LEFT + metres * SCALE);
  const low = island.height + row.clearance;
  const rule = (at: number, from: number, to: number, words: string, side: "start" | "end" = "start") =>
    `<path class="measure" d="M${x(at)},${z(from)}V${z(to)}"${TICKS}/><text x="${fixed(LEFT + at * SCALE + (side === "start" ? 8 : -8))}" y="${z((from + to) / 2)}" text-anchor="${side}">${words}</text>`;
  return [
    `<path class="room" d="M${x(0)},${z(0)}H${x(5.4)}V${z(2.7)}H${x(0)}Z"/>`,
    `<path class="island" d="M${x(1.6)},${z(0)}H${x(3.8)}V${z(0.92)}H${x(1.6)}Z"/>`,
    `<path class="pendant" d="M${x(2.56)},${z(low)}H${x(2.84)}L${x(2.76)},${z(low + 0.22)}H${x(2.64)}Z"/>`,
    `<path class="thin" d="M${x(2.7)},${z(low + 0.22)}V${z(2.7)}"/>`,
    `<circle class="dot" cx="${x(2.7)}" cy="${z(low)}" r="3.5"/>`,
    `<text x="${x(2.88)}" y="${z(low + 0.04)}">position: the photometric centre</text>`,
    rule(0.5, 0, 2.7, "ceilingHeight"),
    rule(1.45, 0, 0.92, "island height", "end"),
    rule(2.3, 0.92, low, "clearance", "end"),
    `<text x="${x(4.2)}" y="${z(0.1)}">floor, z = 0</text>`,
  ].join("\n");
}

const stroke = (width: number, colour = "#222", fill = "none") =>
  `fill="${fill}" stroke="${colour}" stroke-width="${width}"`;
/** Attributes, since a style inside would need a hole in the page's policy. */
const LOOK = {
  room: stroke(2.5),
  island: stroke(1.8, "#222", "#f0eee9"),
  zone: `${stroke(1)} stroke-dasharray="5 4"`,
  pendant: stroke(1.4, "#222", "#fff"),
  opening: stroke(5, "#fff"),
  fine: stroke(0.8, "#888"),
  thin: stroke(1),
  arrow: stroke(1.4),
  around: stroke(1.2, "#888"),
  measure: stroke(1.2),
  dot: 'fill="#222"',
  wall: 'font-weight="bold"',
} as const;

/** The sketch as an SVG of its own. */
export function framesSketch(): string {
  const width = LEFT * 2 + room.length * SCALE;
  const height = TOP + room.width * SCALE + 110 + room.ceilingHeight * SCALE + 40;
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="title">
<title id="title">Frames of a study: the room's axes and walls 0 to 3, the island's own frame with its turn, a zone, a row of pendants, a person's facing, and heights</title>
<defs><marker id="tip" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="7" markerHeight="7" orient="auto-start-reverse"><path d="M0,0L8,4L0,8Z" fill="#222"/></marker><marker id="tick" viewBox="0 0 8 8" refX="4" refY="4" markerWidth="8" markerHeight="8" orient="auto"><rect fill="#222" x="3.5" y="0" width="1" height="8"/></marker></defs>
<rect width="100%" height="100%" fill="#fff"/>
<g font-family="sans-serif" font-size="13" fill="#222">
${walls()}
${islandSketch()}
${person()}
${heights()}
</g>
</svg>
`.replace(/class="(\w+)"/g, (_, kind: keyof typeof LOOK) => LOOK[kind]);
}

const escaped = (words: string) =>
  words.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
/** Words in which `keys` are set as code. */
const prose = (words: string) => escaped(words).replace(/`([^`]+)`/g, "<code>$1</code>");

/** What a value may be, in words. */
function kindOf(schema: JsonSchema): string {
  const s = schema as Record<string, never>;
  if (s.enum !== undefined) return (s.enum as unknown[]).map((word) => JSON.stringify(word)).join(", ");
  if (s.const !== undefined) return JSON.stringify(s.const);
  const options = s.anyOf as JsonSchema[] | undefined;
  if (options !== undefined) {
    if (options[1].maxLength === 60) return `${kindOf(options[0])}, or text with unit`;
    return options.map(kindOf).join("; or ");
  }
  const kind = s.type as string;
  const [least, above, most] = [s.minimum, s.exclusiveMinimum, s.maximum] as (number | undefined)[];
  const range = [
    ...(above === undefined ? [] : [`above ${above}`]),
    ...(least === undefined ? [] : [`from ${least}`]),
    ...(most === undefined ? [] : [`to ${most}`]),
  ].join(" ");
  if (kind === "integer") return `whole number ${range}`.trim();
  if (kind === "number") return `number ${range}`.trim();
  if (kind === "boolean") return "true or false";
  if (kind === "string") return "text";
  if (kind === "null") return "null";
  if (kind === "array") {
    const items = s.prefixItems as JsonSchema[] | undefined;
    if (items !== undefined) return `list of ${items.length}`;
    return "list";
  }
  return s.additionalProperties === false ? "object" : "object by names of your own";
}

interface Row {
  readonly path: string;
  readonly schema: JsonSchema;
  readonly required: boolean;
}

/** Every key in the order of the schema; entries of lists as `[]`, names of one's own as `*`. */
export function keyRows(schema: JsonSchema, path = ""): Row[] {
  const s = schema as Record<string, never>;
  const required = new Set((s.required ?? []) as string[]);
  const join = (key: string) => (path === "" ? key : `${path}.${key}`);
  return [
    ...Object.entries((s.properties ?? {}) as Record<string, JsonSchema>).flatMap(([key, inner]) => [
      { path: join(key), schema: inner, required: required.has(key) },
      ...keyRows(inner, join(key)),
    ]),
    ...(typeof s.items === "object" ? keyRows(s.items, `${path}[]`) : []),
    ...(typeof s.additionalProperties === "object" ? keyRows(s.additionalProperties, `${path}.*`) : []),
    ...((s.anyOf ?? []) as JsonSchema[]).flatMap((option) => keyRows(option, path)),
  ];
}

function keyTable(schema: JsonSchema): string {
  const rows = keyRows(schema);
  const part = (path: string) => path.split(/[.[]/)[0];
  return rows
    .map(({ path, schema: s, required }, i) => {
      const head =
        part(path) === part(rows[i - 1]?.path ?? "")
          ? ""
          : `<tr><th colspan="5" scope="rowgroup" id="${part(path).replace("$", "")}">${part(path)}</th></tr>\n`;
      const { description, unit, frame, examples } = s as Record<string, never>;
      const left = required
        ? "required"
        : "default" in s
          ? `<code>${escaped(JSON.stringify(s.default))}</code>`
          : "";
      const example = escaped(JSON.stringify((examples as unknown[])[0]));
      const about = [unit, frame].filter((each) => each !== undefined).join(", ");
      return `${head}<tr><td><code>${escaped(path)}</code></td><td>${prose(description)}</td><td>${escaped(kindOf(s))}${about === "" ? "" : ` <small>(${about})</small>`}</td><td>${left}</td><td><code>${example}</code></td></tr>`;
    })
    .join("\n");
}

/** The guide page. */
export function studyFormatGuide(schema: JsonSchema): string {
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8" />
<meta name="viewport" content="width=device-width, initial-scale=1" />
<title>Candlespan: the study format</title>
<link rel="icon" href="data:," />
<link rel="stylesheet" href="../styles/guide.css" />
</head>
<body>
<main>
<h1>The study format</h1>
<p>A study is one JSON file, <code>kitchen.study.json</code>, beside its photometric files. It holds a room, an island, luminaires and the arrangements to compare. Required are <code>format</code>, <code>version</code>, <code>room</code> and one arrangement; whatever else is left out has a default, and every default used is listed in the result. <code>candlespan new kitchen.study.json</code> writes one to start from, <code>candlespan schema</code> prints this table as JSON Schema, and a key that is not known is refused with the nearest that is.</p>
<ul>
<li><b>Lengths</b> are metres as numbers; as texts they carry their unit: <code>"2.4 m"</code>, <code>"850 mm"</code>, <code>"36 in"</code>, <code>"8'-0\\""</code>, <code>"7' 6 1/2\\""</code>.</li>
<li><b>Angles</b> are degrees, counter-clockwise seen from above. <b>Illuminances</b> are lux, or texts such as <code>"50 fc"</code>.</li>
<li><b>Paths</b> are told from the study's folder and stay inside it.</li>
</ul>
<h2>Where things are measured from</h2>
<p><img src="./study-frames.svg" alt="Plan of a room with walls 0 to 3 and its axes, an island turned in it with its own axes, a zone, a row of three pendants with spacing, gap and end, a person with facing; below it the heights." /></p>
<ul>
<li><b>Room.</b> The origin is the corner of walls 3 and 0; x runs along wall 0, y along wall 3, z up from the floor.</li>
<li><b>Walls.</b> 0 is y = 0, 1 is x = length, 2 is y = width, 3 is x = 0. <code>from</code> of an opening or a door runs counter-clockwise from the wall's first corner, as the grey arrows.</li>
<li><b>Island.</b> Its own frame starts at the corner of least x and y of the unturned top, x along <code>length</code>. <code>centre</code> is in the room; <code>turn</code> swings the whole frame about it. Zones, hob, sink, outline and overhang are in it.</li>
<li><b>Row.</b> Pendants hang along the island's x about its middle. <code>spacing</code> runs from centre to centre, <code>gap</code> from rim to rim, <code>end</code> from rim to the end of the top; give one of them, or none for equal bays.</li>
<li><b>Heights.</b> <code>clearance</code> runs from the top to the lowest point of a pendant; <code>position</code> of a single place is the photometric centre: of a file as it was measured, of a lamp in an opaque shade the middle of its rim, in one that light passes the middle of the shade.</li>
<li><b>Facing.</b> A person looks in the direction <code>facing</code>, from +x counter-clockwise.</li>
<li><b>A luminaire's own turns.</b> <code>spin</code> about its axis first, then <code>tilt</code> lifts its downward axis towards its own x, then <code>turn</code> swings it about the room's vertical; or <code>aim</code> says at what it shines.</li>
</ul>
<h2>Every key</h2>
<p><code>[]</code> stands for each entry of a list, <code>*</code> for a name of your own.</p>
<table>
<thead><tr><th scope="col">key</th><th scope="col">what it means</th><th scope="col">value (unit, frame)</th><th scope="col">default</th><th scope="col">example</th></tr></thead>
<tbody>
${keyTable(schema)}
</tbody>
</table>
</main>
</body>
</html>
`;
}
