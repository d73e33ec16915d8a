// Share of a luminaire's light that passes the solids in the way:
//
//   V = sum of w V / sum of w,   w what a sample would give the plane
//
// First `outlinePoints` of the opening's outline and `probes` of the additive R2 sequence [1] within it; where they
// disagree `penumbraSamples` of the sequence, where src/engine/visibility/penumbra.ts clips. Without an outline the probes
// alone tell.
// Of a lamp in its shade the samples are places on rings and lamps (light/shade), and what they do not give of the
// clear light E is taken to come evenly from all mirror-like rings that the point sees, as in
// src/engine/visibility/shade-pieces.ts.
// Definitions: TRACED 1 for a lamp in its shade.
// Of a long box all samples are asked where anything may be in the way: a sliver finds room between outline and probes.
// Error: 0.5 % of the opening with 4096 samples (tests/shaders/parity). While things move few samples are asked.
//
// [1] M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018.

#ifndef TRACED
#define TRACED 0
#endif

#include <light/clear>
#include <light/visibility>
#if TRACED == 1
#include <light/shade>
#endif

// A lamp in its shade is asked for more samples than an opening: many of them are hidden by the shade itself.
const int SHADE_SAMPLES = 8;

uniform int penumbraSamples;
// Points of the outline (24, 8 or none) and samples within that tell whether an opening is partly hidden.
uniform int outlinePoints;
uniform int probes;

// A point of the outline, or of edges that hold it; `at` is the element at the rim of the unit square.
vec3 outlinePoint(Luminaire l, int k, vec3 at) {
  if (l.kind == DISC || l.kind == ELLIPSOID) return at;
  if (l.kind == CYLINDER) {
    int i = (l.axis + 1) % 3;
    int j = (l.axis + 2) % 3;
    float angle = 4.0 * PI * float(k >> 1) / float(outlinePoints);
    at[i] = l.extent[i] * cos(angle);
    at[j] = l.extent[j] * sin(angle);
    at[l.axis] = (k & 1) == 0 ? l.extent[l.axis] : -l.extent[l.axis];
    return at;
  }
  if (outlinePoints < 24) return l.extent * (2.0 * vec3(float(k & 1), float((k >> 1) & 1), float(k >> 2)) - 1.0);
  // Corners, middles of edges and of faces; coincident where an extent is none.
  int corner = k >= 13 ? k + 1 : k;
  return l.extent * vec3(float(corner % 3) - 1.0, float((corner / 3) % 3) - 1.0, float(corner / 9) - 1.0);
}

float visibleShare(Luminaire l, Distribution t, Between between, vec3 room, vec3 p, vec3 n, vec3 shares, vec2 shift, float clear) {
  int parts = TRACED == 1 ? 1 : pieces(l);
  int few = TRACED == 1 ? SHADE_SAMPLES * probes : probes;
  float allShares = shares.x + shares.y + shares.z;
  bool outlined = outlinePoints > 0 && l.kind != POINT;
  bool rimming = outlined;
  int most = l.kind == POINT ? 1 : few;
  if (outlined) most = outlinePoints >= 24 && (l.kind == RECTANGLE || l.kind == BOX) ? 26 : outlinePoints;
  float rim = 0.0;
  float weight = 0.0;
  float passed = 0.0;
  float mirrored = 0.0;
  float mirroredPassed = 0.0;
  int k = 0;
  for (int step = 0; step < 8192; step++) {
    vec2 st = fract(shift + float(k + 1) * vec2(0.7548776662466927, 0.5698402909980532));
    float share = 1.0;
    int part = 0;
    if (rimming) {
      st = vec2(1.0, float(k) / float(outlinePoints));
    } else if (parts > 1) {
      // The first parameter chooses the piece and is spread anew within it.
      float wanted = st.x * allShares;
      if (wanted >= shares.x) {
        wanted -= shares.x;
        part = 1;
        if (parts > 2 && wanted >= shares.y) {
          wanted -= shares.y;
          part = 2;
        }
      }
      st.x = min(1.0, wanted / max(shares[part], 1e-20));
      share = allShares / max(shares[part], 1e-20);
    }
#if TRACED == 1
    ShadePlace place = shadePlace(l, p, n, st);
    vec4 e = vec4(place.at, 0.0);
    float w = place.E;
    if (rimming) e.xyz = outlinePoint(l, k, element(l, p, 0, st.x, st.y).xyz);
    else if (w + place.mirrored == 0.0 && k + 1 < most) {
      k++;
      continue;
    }
#else
    vec4 e = element(l, p, part, st.x, st.y);
    if (rimming) e.xyz = outlinePoint(l, k, e.xyz);
    float w = rimming ? 1.0 : fromElement(t, share * e.w, p - e.xyz, n);
#endif
    float here = passedBy(between, room, l.axes * e.xyz + l.origin - room);
    if (rimming) rim += here;
    else {
      weight += w;
      passed += w * here;
#if TRACED == 1
      mirrored += place.mirrored;
      mirroredPassed += place.mirrored * here;
#endif
    }
    k++;
    if (k >= most) {
      if (rimming) {
        rim /= float(most);
        rimming = false;
        most = few;
        k = 0;
      } else {
        float visible = weight > 0.0 ? passed / weight : 1.0;
        // All that was asked agrees: wholly seen, wholly hidden, or wholly behind the same translucent body.
        bool agree = outlined ? abs(visible - rim) < 1e-5 : abs(visible - 0.5) > 0.49999;
        if (l.kind == BOX) agree = false;
        if (agree || most > few || penumbraSamples <= few || l.kind == POINT) break;
        most = penumbraSamples;
      }
    }
  }
  float rest = mirrored > 0.0 ? max(0.0, clear * float(k) - weight) : 0.0;
  if (rest > 0.0) passed += rest * mirroredPassed / mirrored;
  weight += rest;
  return weight > 0.0 ? passed / weight : 1.0;
}
