// Illuminance (lx) near a luminaire traced from lamp and shade when nothing stands in the way: groups of its elements,
// each a vector illuminance towards where its light comes from,
//
//   E = sum over tables and groups of max(0, n.E_g)
//
// bilinear in 1/distance and gamma about each table's own centre, as in src/luminaire/shade/near-field-lattice.ts; the
// half y > 0 is tabulated for a point in the plane y = 0, the other is its mirror image.
// Records: number of tables, first record of lamp and shade; of each, height of its centre (m), distance of its last row (m), rows, angles | groups;
// then per row, angle and group x, y, z times distance squared (cd) and by how much the group's elements are nearer
// than the centre (m).
// Known error: nearer than the last row, half the shade's reach, the light of that distance stands in.

#include <light/opening>

float nearField(Luminaire l, vec3 p, vec3 n) {
  float r = length(p.xy);
  vec2 turn = r > 0.0 ? p.xy / r : vec2(1.0, 0.0);
  float E = 0.0;
  int tables = int(record(l.nearField).x);
  int at = l.nearField + 1;
  for (int table = 0; table < tables; table++) {
    vec4 head = record(at);
    int groups = int(record(at + 1).x);
    int rows = int(head.z);
    int angles = int(head.w);
    float fall = head.x - p.z;
    float d = max(length(vec2(r, fall)), head.y);
    float a = float(rows - 1) * head.y / d;
    float b = clamp(arctangent(r, fall) / PI * float(angles - 1), 0.0, float(angles - 1));
    int i = min(int(a), rows - 2);
    int j = min(int(b), angles - 2);
    float s = a - float(i);
    float t = b - float(j);
    int first = at + 2 + (i * angles + j) * groups;
    float sum = 0.0;
    for (int k = 0; k < 2 * groups; k++) {
      int g = first + k / 2;
      vec4 low = mix(record(g), record(g + angles * groups), s);
      vec4 high = mix(record(g + groups), record(g + (angles + 1) * groups), s);
      vec4 e = mix(low, high, t);
      float across = (k & 1) == 0 ? e.y : -e.y;
      vec3 v = vec3(e.x * turn.x - across * turn.y, e.x * turn.y + across * turn.x, e.z);
      sum += max(0.0, dot(n, v));
    }
    E += sum / (d * d);
    at += 2 + rows * angles * groups;
  }
  return E;
}
