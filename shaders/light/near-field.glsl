// Illuminance (lx) near a luminaire traced from lamp and shade, past what stands in the way: groups of its elements,
// each a vector illuminance towards where its light comes from,
//
//   E = sum over groups of max(0, n.E_g) V_g
//
// bilinear in ln(distance) and gamma between the nodes of its table, as in src/luminaire/shade/near-field-lattice.ts;
// the half y > 0 is tabulated for a point in the plane y = 0, the other is its mirror image.
// Records of a table: nearest distance (m), step of ln(distance), distances, angles | groups; then per distance, angle
// and group x, y, z times distance squared (cd) and the mean distance of the group's elements (m).
// Known error: nearer than half the shade's reach the light of that distance stands in.

#include <light/opening>

float nearField(Luminaire l, vec3 p, vec3 n, vec3 lifted) {
  vec4 head = record(l.nearField);
  int groups = int(record(l.nearField + 1).x);
  int angles = int(head.w);
  float r = length(p.xy);
  float d = max(length(p), head.x);
  float a = clamp(log(d / head.x) / head.y, 0.0, head.z - 1.0);
  float b = clamp(arctangent(r, -p.z) / PI * float(angles - 1), 0.0, float(angles - 1));
  int i = min(int(a), int(head.z) - 2);
  int j = min(int(b), angles - 2);
  float s = a - float(i);
  float t = b - float(j);
  vec2 turn = r > 0.0 ? p.xy / r : vec2(1.0, 0.0);
  int first = l.nearField + 2 + (i * angles + j) * groups;
#if MOST_BETWEEN > 0
  Between between = solidsBetween(list, listed, lifted, l.origin, l.reach);
#endif
  float E = 0.0;
  for (int k = 0; k < 2 * groups; k++) {
    int g = first + k / 2;
    vec4 low = mix(record(g), record(g + angles * groups), s);
    vec4 high = mix(record(g + groups), record(g + (angles + 1) * groups), s);
    vec4 e = mix(low, high, t);
    float across = (k & 1) == 0 ? e.y : -e.y;
    vec3 v = vec3(e.x * turn.x - across * turn.y, e.x * turn.y + across * turn.x, e.z);
    float w = dot(n, v);
    if (w <= 0.0) continue;
#if MOST_BETWEEN > 0
    vec3 place = p + v * (e.w / length(v));
    w *= passedBy(between, lifted, l.axes * place + l.origin - lifted);
#endif
    E += w;
  }
  return E / (d * d);
}
