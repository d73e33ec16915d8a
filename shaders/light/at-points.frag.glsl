// Direct light of one luminaire at points listed in a texture: E = E_clear V, in the channel of its layer. Drawn once
// a luminaire, sums by blending: the bake of the surfaces' cache, and every single reading.
//
// A program is made for a kind of opening, a kind of distribution and a number of solids that may stand between: a
// software renderer goes through every branch of a program whether it is taken or not. Definitions:
//   KIND 0..5 (light/opening), TYPE 0..2 (light/intensity), PLANES_ONE 1 for one plane, EVEN_PLANES and EVEN_ANGLES 1
//   for even steps, MOST_BETWEEN the most solids between, 0 for none, TRACED 1 for a near field of its own
// `places`: x, y, z (m) and a number, negative for no point; `facings`: unit normal.

#ifndef KIND
#define KIND 2
#define TYPE 2
#define PLANES_ONE 0
#define EVEN_PLANES 0
#define EVEN_ANGLES 0
#define MOST_BETWEEN 16
#define TRACED 0
#endif

// Before what only some programs hold: a chunk comes in once.
#include <light/opening>
#if MOST_BETWEEN > 0
#include <light/visibility>
#endif

uniform highp sampler2D places;
uniform highp sampler2D facings;
uniform vec4 luminaire[8];
uniform vec4 distribution[3];
// 1 in the channel of the luminaire's layer.
uniform vec4 slot;
#if MOST_BETWEEN > 0
// Solids that may stand between, convex ones before the others, and how many of both.
uniform int list[MOST_BETWEEN];
uniform ivec2 listed;
// 1: every point its own shift of the sample sequence; 0: one for all, so that what error a picture has changes
// evenly from point to point and isolux lines stay smooth.
uniform int ownShift;
#endif

#if TRACED == 1
#include <light/near-field>
#else
#include <light/clear>
#endif
#if MOST_BETWEEN > 0
#include <light/penumbra>
#endif

out vec4 light;

// Points of a surface are lifted off it before rays leave (m).
const float ON_SURFACE = 1e-4;

void main() {
  ivec2 here = ivec2(gl_FragCoord.xy);
  vec4 place = texelFetch(places, here, 0);
  vec3 normal = texelFetch(facings, here, 0).xyz;
  Luminaire l = luminaireFrom(luminaire);
  l.kind = KIND;
  vec3 lifted = place.xyz + ON_SURFACE * normal;
  vec3 p = (place.xyz - l.origin) * l.axes;
  vec3 n = normal * l.axes;
  // Not wholly at or below the point's horizon.
  bool above = place.w >= 0.0 && -dot(n, p) + min(l.radius, dot(abs(n), l.extent)) > 1e-6;
  Distribution t = distributionFrom(distribution[0], distribution[1], distribution[2]);
  t.type = TYPE;
  if (PLANES_ONE == 1) t.planes = 1;
  t.evenPlanes = EVEN_PLANES == 1;
  t.evenAngles = EVEN_ANGLES == 1;
#if TRACED == 1
  vec3 shares = vec3(1.0);
#else
  vec3 shares = vec3(pieceShare(l, p, 0), pieces(l) > 1 ? pieceShare(l, p, 1) : 0.0, pieces(l) > 2 ? pieceShare(l, p, 2) : 0.0);
#endif
  bool lit = above && shares.x + shares.y + shares.z > 0.0;
  float E = 0.0;
  if (lit) {
#if TRACED == 1
    E = nearField(l, p, n);
#else
    E = clearLight(l, t, p, n, shares);
#endif
#if MOST_BETWEEN > 0
    if (E > 0.0) {
      Between between = solidsBetween(list, listed, lifted, l.origin, l.reach);
      if (between.convex + between.meshes > 0) {
        // The point's own shift of the sample sequence: a hash of where it is, so that light repeats bit for bit.
        uvec3 bits = floatBitsToUint(place.xyz);
        uint seed = bits.x * 1597334677u ^ bits.y * 3812015801u ^ bits.z * 2798796415u;
        seed = (seed ^ (seed >> 15)) * 2246822519u;
        seed ^= seed >> 13;
        vec2 shift = ownShift == 1 ? vec2(float(seed & 65535u), float(seed >> 16)) / 65536.0 : vec2(0.5);
        E *= visibleShare(l, t, between, lifted, p, n, shares, shift, E);
      }
    }
#endif
  }
  light = l.share * E * slot;
}
