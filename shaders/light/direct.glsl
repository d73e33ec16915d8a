// Direct illuminance (lx) of every layer at one point, in the layer's slot: E = sum of E_clear V.
//
// A row of pairs says for each luminaire which solids can stand between it and the surface the point belongs to.

#include <light/received>

uniform int luminaireTable;
uniform int luminaireCount;
uniform int pairTable;

// Points of a surface are lifted off it before rays leave (m).
const float ON_SURFACE = 1e-3;

vec4 directLight(vec3 place, vec3 normal, int row, vec2 shift) {
  vec4 E = vec4(0.0);
  vec3 lifted = place + ON_SURFACE * normal;
  for (int i = 0; i < luminaireCount; i++) {
    vec4 pair = record(pairTable + row * luminaireCount + i);
    if (pair.z < 0.5) continue;
    Luminaire l = luminaireAt(luminaireTable + LUMINAIRE_RECORDS * i);
    vec3 p = (place - l.origin) * l.axes;
    vec3 n = normal * l.axes;
    // Wholly at or below the point's horizon.
    if (-dot(n, p) + min(l.radius, dot(abs(n), l.extent)) <= 1e-6) continue;
    Between between;
    between.count = 0;
    for (int k = 0; k < int(pair.y); k++) {
      int solid = int(record(int(pair.x) + k).x);
      if (solid != l.own && between.count < MOST_BETWEEN && shaftMeets(solid, lifted, l.origin, l.reach))
        between.solid[between.count++] = solid;
    }
    E += l.share * received(l, between, lifted, p, n, shift) * vec4(l.slot == 0, l.slot == 1, l.slot == 2, l.slot == 3);
  }
  return E;
}
