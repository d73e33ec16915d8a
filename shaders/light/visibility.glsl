// Can light pass from here to there, past the solids of the scene?
//
// Convex solids are cut by their planes (Cyrus and Beck, 1978); others are walked by a bounding-volume hierarchy
// with skip pointers, triangles met two-sided (Moeller and Trumbore, JGT 2, 1997): the same solids as the engine's,
// to single precision. Segments count from 0.1 mm after their start to 0.1 mm before their end.
// `MOST_BETWEEN` is no less than the number of the scene's solids: none is left out.

#include <light/scene-texture>

uniform int solidTable;

const float CLEARANCE = 1e-4;

// Solids that stand or may stand between a point and a luminaire: convex ones from the front, others from the back.
struct Between {
  int convex;
  int meshes;
  int solid[MOST_BETWEEN];
};

bool crossesConvex(int first, int count, vec3 a, vec3 d, float size) {
  float from = CLEARANCE / size;
  float to = 1.0 - from;
  for (int k = 0; k < count; k++) {
    vec4 plane = record(first + k);
    float depth = plane.w - dot(plane.xyz, a);
    float change = -dot(plane.xyz, d);
    if (abs(change) > 1e-9) {
      float t = -depth / change;
      if (change > 0.0) from = max(from, t);
      else to = min(to, t);
    } else if (depth <= 0.0) return false;
    if (from >= to) return false;
  }
  return (to - from) * size > 1e-6;
}

bool crossesMesh(int first, int count, int triangles, vec3 a, vec3 d, float size) {
  float least = CLEARANCE / size;
  float most = 1.0 - least;
  vec3 over = 1.0 / mix(d, vec3(1e-20), equal(d, vec3(0.0)));
  int node = 0;
  while (node < count) {
    vec4 low = record(first + 2 * node);
    vec4 high = record(first + 2 * node + 1);
    vec3 t0 = (low.xyz - a) * over;
    vec3 t1 = (high.xyz - a) * over;
    vec3 near = min(t0, t1);
    vec3 far = max(t0, t1);
    float enter = max(max(near.x, near.y), near.z);
    float leave = min(min(far.x, far.y), far.z);
    if (enter > leave || enter > most || leave < least) {
      node = int(low.w);
      continue;
    }
    int packed = int(high.w);
    int leaf = packed & 7;
    for (int i = 0; i < leaf; i++) {
      int at = triangles + 3 * ((packed >> 3) + i);
      vec3 corner = record(at).xyz;
      vec3 e1 = record(at + 1).xyz;
      vec3 e2 = record(at + 2).xyz;
      vec3 p = cross(d, e2);
      float determinant = dot(e1, p);
      if (determinant == 0.0) continue;
      float inverse = 1.0 / determinant;
      vec3 s = a - corner;
      float u = dot(s, p) * inverse;
      if (u < -1e-6 || u > 1.000001) continue;
      vec3 q = cross(s, e1);
      float v = dot(d, q) * inverse;
      if (v < -1e-6 || u + v > 1.000001) continue;
      float t = dot(e2, q) * inverse;
      if (t >= least && t <= most) return true;
    }
    node++;
  }
  return false;
}

// Whether anything in a solid's bounds can stand between a point and a box of half-size `reach` about `centre`:
// the hull of both is the union over t of boxes, cut six times.
bool shaftMeets(int solid, vec3 p, vec3 centre, vec3 reach) {
  vec3 low = record(solidTable + 3 * solid).xyz;
  vec3 high = record(solidTable + 3 * solid + 1).xyz;
  float from = 0.0;
  float to = 1.0;
  for (int k = 0; k < 3; k++) {
    float a = high[k] - 1e-6 - p[k];
    float step = centre[k] - reach[k] - p[k];
    if (step > 0.0) to = min(to, a / step);
    else if (step < 0.0) from = max(from, a / step);
    else if (a <= 0.0) return false;
    a = low[k] + 1e-6 - p[k];
    step = centre[k] + reach[k] - p[k];
    if (step > 0.0) from = max(from, a / step);
    else if (step < 0.0) to = min(to, a / step);
    else if (a >= 0.0) return false;
    if (from >= to) return false;
  }
  return true;
}

// Those of a list, convex ones before the others, whose bounds the light can meet on its way.
Between solidsBetween(int list[MOST_BETWEEN], ivec2 listed, vec3 p, vec3 centre, vec3 reach) {
  Between between;
  between.convex = 0;
  between.meshes = 0;
  for (int k = 0; k < listed.x + listed.y; k++) {
    int solid = list[k];
    if (shaftMeets(solid, p, centre, reach)) {
      if (k < listed.x) between.solid[between.convex++] = solid;
      else between.solid[MOST_BETWEEN - ++between.meshes] = solid;
    }
  }
  return between;
}

// Share that passes all of them on the way from a along d.
float passedBy(Between between, vec3 a, vec3 d) {
  float size = length(d);
  float share = size > 2.0 * CLEARANCE ? 1.0 : 2.0;
  for (int i = 0; i < between.convex && share > 0.0 && share <= 1.0; i++) {
    vec4 where = record(solidTable + 3 * between.solid[i] + 2);
    if (crossesConvex(int(where.x), int(where.y), a, d, size)) share *= where.w;
  }
  for (int i = 0; i < between.meshes && share > 0.0 && share <= 1.0; i++) {
    vec4 where = record(solidTable + 3 * between.solid[MOST_BETWEEN - 1 - i] + 2);
    if (crossesMesh(int(where.x), int(where.y), int(where.z), a, d, size)) share *= where.w;
  }
  return min(share, 1.0);
}
