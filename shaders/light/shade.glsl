// A place of a lamp in its shade that sends light to a point, and the illuminance (lx) that it gives a plane there,
// past the shade's own edges: of a ring of exitance M, and of a lamp of law J(gamma) and flux F,
//
//   dE = M |m.v| max(0, -n.v) V dA / (pi d4),   dE = F J max(0, -n.v) V / d3
//
// over the probability of the place; the same surfaces and laws as src/luminaire/shade/shade-light.ts, V as passedAlong
// of src/geometry/revolved-surface.ts, in the shade's own heights and size.
// Written by src/preview/shade-records.ts, which states the layout.
// Known error: none but that of the number of places and of single precision.

#include <light/opening>

// Places start this share of the way off a lamp's sphere, and meet nothing nearer than this share of theirs.
const float OFF_SPHERE = 1e-4;
const float LEAST_WAY = 2e-6;
const float FLAT_RING = 1e-9;
const int SPHERE_LAMP = 0;
const int FILAMENT_LAMP = 1;
const int RING_RECORDS = 3;
const int LAMP_RECORDS = 2;
// A ring of lamps is spread over so many.
const float LAMPS_AROUND = 24.0;

struct ShadePlace {
  // In the luminaire's frame (m).
  vec3 at;
  float E;
  // What of it a mirror-like ring would give of exitance 1.
  float mirrored;
};

// Share that every ring met on the way from o along d lets pass; o itself lies on ring `own`, or on none.
float passedAlong(int rings, int count, int own, vec3 o, vec3 d) {
  float passed = 1.0;
  for (int i = 0; i < count && passed > 0.0; i++) {
    vec4 ends = record(rings + RING_RECORDS * i);
    vec4 curve = record(rings + RING_RECORDS * i + 1);
    vec2 ways;
    vec2 heights = vec2(min(ends.y, ends.w), max(ends.y, ends.w));
    if (heights.y - heights.x < FLAT_RING) {
      if (i == own || d.z == 0.0) continue;
      ways = vec2((ends.y - o.z) / d.z, 0.0);
      float r = length(o.xy + ways.x * d.xy);
      if (r < min(ends.x, ends.z) || r > max(ends.x, ends.z)) continue;
    } else {
      float s = o.z - ends.y;
      if (max(o.z, o.z + d.z) < heights.x || min(o.z, o.z + d.z) > heights.y) continue;
      float a = dot(d.xy, d.xy) - curve.y * d.z * d.z;
      float b = dot(o.xy, d.xy) - (0.5 * curve.x + curve.y * s) * d.z;
      float c = i == own ? 0.0 : dot(o.xy, o.xy) - ends.x * ends.x - s * (curve.x + curve.y * s);
      float discriminant = b * b - a * c;
      if (discriminant < 0.0) continue;
      float w = -(b + (b < 0.0 ? -1.0 : 1.0) * sqrt(discriminant));
      ways = vec2(a == 0.0 ? 0.0 : w / a, w == 0.0 ? 0.0 : c / w);
      vec2 z = o.z + ways * d.z;
      if (z.x < heights.x || z.x > heights.y) ways.x = 0.0;
      if (z.y < heights.x || z.y > heights.y) ways.y = 0.0;
    }
    if (ways.x > LEAST_WAY && ways.x < 1.0) passed *= curve.z;
    if (ways.y > LEAST_WAY && ways.y < 1.0) passed *= curve.z;
  }
  return passed;
}

// A turn of t, of length 1: sines and cosines alone may be wrong by 1e-4 of it, and a place would lie within its sphere.
vec2 turned(float t) {
  return normalize(vec2(cos(2.0 * PI * t), sin(2.0 * PI * t)));
}

ShadePlace shadePlace(Luminaire l, vec3 p, vec3 n, vec2 st) {
  int first = int(record(l.nearField).y);
  // Rings, lamps, height of the photometric centre over the rim, size | level, probability of the rings.
  vec4 head = record(first);
  vec4 scale = record(first + 1);
  int count = int(head.x);
  int rings = first + 2;
  vec3 point = p / head.w + vec3(0.0, 0.0, head.z);
  ShadePlace place;
  vec3 o;
  vec3 start = vec3(0.0);
  int own = -1;
  float E;
  if (st.x < scale.y) {
    float wanted = st.x / scale.y;
    own = 0;
    while (own < count - 1 && record(rings + RING_RECORDS * own + 1).w <= wanted) own++;
    vec4 ends = record(rings + RING_RECORDS * own);
    vec4 curve = record(rings + RING_RECORDS * own + 1);
    vec4 light = record(rings + RING_RECORDS * own + 2);
    float u = clamp(1.0 - (curve.w - wanted) / light.w, 0.0, 1.0);
    float h = ends.w - ends.y;
    float s = u * h;
    vec2 turn = turned(st.y);
    float r = mix(ends.x, ends.z, u);
    // Outward normal in (r, z) times dA/du.
    vec2 m = vec2(0.0, ends.x - ends.z) * 2.0 * PI * r;
    if (abs(h) >= FLAT_RING) {
      r = sqrt(max(0.0, ends.x * ends.x + s * (curve.x + curve.y * s)));
      m = vec2(r, -0.5 * curve.x - curve.y * s) * 2.0 * PI * h;
    }
    o = vec3(r * turn, ends.y + s);
    vec3 v = point - o;
    float facing = dot(m, vec2(dot(turn, v.xy), v.z));
    float dd = dot(v, v);
    float unit = abs(facing) * max(0.0, -dot(n, v)) / (PI * dd * dd * light.w * scale.y);
    E = (facing > 0.0 ? light.y : light.x) * unit;
    place.mirrored = light.z * unit;
  } else {
    float wanted = (st.x - scale.y) / (1.0 - scale.y) * head.y;
    float which = min(floor(wanted), head.y - 1.0);
    int at = rings + RING_RECORDS * count + LAMP_RECORDS * int(which);
    // Shape, size, height, distance from the axis | flux of all, first record of the law, its steps.
    vec4 lamp = record(at);
    vec4 light = record(at + 1);
    float rho = wanted - which;
    vec3 centre = vec3(lamp.w * turned(st.y), lamp.z);
    vec3 towards = normalize(point - centre);
    float level = length(towards.xy);
    vec2 across = level > 1e-6 ? vec2(-towards.y, towards.x) / level : vec2(1.0, 0.0);
    o = centre;
    if (int(lamp.x) == FILAMENT_LAMP) o.z += lamp.y * (2.0 * rho - 1.0);
    else {
      vec2 disc = lamp.y * sqrt(rho) * turned(lamp.w > 0.0 ? fract(LAMPS_AROUND * st.y) : st.y);
      vec3 up = vec3(-across.y, across.x, 0.0);
      if (int(lamp.x) == SPHERE_LAMP) {
        up = vec3(-towards.z * across.y, towards.z * across.x, towards.x * across.y - towards.y * across.x);
        start = towards * sqrt(max(0.0, 1.0 - rho)) * lamp.y * (1.0 + OFF_SPHERE);
      }
      o += disc.x * vec3(across, 0.0) + disc.y * up;
    }
    vec3 v = point - o;
    float dd = dot(v, v);
    float gamma = arctangent(length(v.xy), -v.z) / PI * light.z;
    float cell = clamp(floor(gamma), 0.0, light.z - 1.0);
    vec4 law = record(int(light.y) + int(cell));
    E = light.x * mix(law.x, law.y, gamma - cell) * max(0.0, -dot(n, v)) / (dd * sqrt(dd)) * head.y / (1.0 - scale.y);
    place.mirrored = 0.0;
  }
  if (E + place.mirrored > 0.0) {
    float passed = scale.x * passedAlong(rings, count, own, o + start, point - o - start);
    E *= passed;
    place.mirrored *= passed;
  }
  place.E = E;
  place.at = (o - vec3(0.0, 0.0, head.z)) * head.w;
  return place;
}
