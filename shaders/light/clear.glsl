// Illuminance (lx) that one luminaire gives a plane when nothing stands in the way:
//
//   E = sum of W I(w) max(0, cos xi) / d2
//
// over weighted nodes of the opening (Gauss; Gauss x even angles), as many as its size over its distance and the
// sharpest bend of its distribution ask for, never more than `mostNodes` a side.
// Error: 0.1 % of the contribution with twelve nodes a side (tests/shaders/parity).

#include <light/opening>

uniform int gaussTable;
uniform int mostNodes;

int nodesFor(Luminaire l, vec3 p, vec3 n) {
  if (l.kind == POINT) return 1;
  // Cut by the point's horizon: the sum has a kink.
  float height = -dot(n, p);
  // From the opening's nearest point, not its centre, where it is long.
  float far = length(p);
  float d = min(far, max(length(max(abs(p) - l.extent, 0.0)), 0.35 * far));
  float q = l.radius / max(d, 1e-6) * l.sharpness;
  int count = q < 0.01 ? 1 : q < 0.1 ? 2 : q < 0.25 ? 3 : q < 0.45 ? 4 : q < 0.8 ? 6 : q < 1.3 ? 8 : 12;
  return height < dot(abs(n), l.extent) ? mostNodes : min(count, mostNodes);
}

// Rings and nodes across a piece for `count` nodes a side.
ivec2 nodesOf(Luminaire l, int count, bool turned) {
  if (l.kind == POINT) return ivec2(1);
  // What is seen of a curved surface turns through almost half a circle however far it is.
  if (l.kind == ELLIPSOID) return ivec2(max(count, 2), 3 * count + 1);
  if (turned) return count == 1 ? ivec2(1, 4) : ivec2(count - 1, 3 * count + 1);
  if (l.kind == CYLINDER) return ivec2(min(count + 2, 12), count);
  if (l.kind != RECTANGLE) return ivec2(count);
  float first = l.extent.x == 0.0 ? l.extent.y : l.extent.x;
  float second = l.extent.x == 0.0 || l.extent.z > 0.0 ? l.extent.z : l.extent.y;
  return clamp(ivec2(ceil(float(count) * vec2(first, second) / max(first, second))), ivec2(min(count, 2)), ivec2(count));
}

// What an element of weight `share` gives, v from it to the point.
float fromElement(Distribution t, float share, vec3 v, vec3 n) {
  float height = -dot(n, v);
  float dd = dot(v, v);
  float E = share * intensityTowards(t, v) * height / (dd * sqrt(dd));
  return height > 0.0 && share > 0.0 ? E : 0.0;
}

float clearLight(Luminaire l, Distribution t, vec3 p, vec3 n, vec3 shares) {
  int count = nodesFor(l, p, n);
  int parts = pieces(l);
  float E = 0.0;
  for (int piece = 0; piece < parts; piece++) {
    bool turned = isRound(l, piece);
    ivec2 size = parts == 1 || shares[piece] > 0.0 ? nodesOf(l, count, turned) : ivec2(0);
    for (int i = 0; i < size.x; i++) {
      vec2 a = record(gaussTable + size.x * (size.x - 1) / 2 + i).xy;
      for (int j = 0; j < size.y; j++) {
        vec2 b = turned ? vec2(float(j) + 0.5, 1.0) / float(size.y) : record(gaussTable + size.y * (size.y - 1) / 2 + j).xy;
        vec4 e = element(l, p, piece, a.x, b.x);
        E += fromElement(t, a.y * b.y * e.w, p - e.xyz, n);
      }
    }
  }
  return E;
}
