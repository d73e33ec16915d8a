// A luminous body as it glows: its mean luminance towards the eye,
//
//   L = w I(omega) / A_p(omega)
//
// from the distribution alone. Known error: a mean over the opening; a lamp in sight can be 10 to 100 times brighter.

#include <light/opening>
#include <view/tone>

uniform vec3 eye;
uniform vec4 cut;
uniform int look;
uniform int linear;
uniform vec4 weights;
uniform vec3 luminaireInk;
// An opening that sends nothing this way shows the inside of its shade, of which nothing is known: a share of the
// room's mean luminance stands in (cd/m2).
uniform float insideLuminance;

in vec3 place;
flat in float luminaireRecord;
flat in vec3 lightTint;

out vec4 colour;

void main() {
  if (dot(cut.xyz, place) > cut.w) discard;
  if (look == 1) {
    colour = vec4(luminaireInk, 1.0);
    return;
  }
  Luminaire l = luminaireAt(int(luminaireRecord + 0.5));
  vec3 v = (eye - place) * l.axes;
  float area = projectedArea(l, normalize(v));
  float L = area > 1e-9 ? intensityTowards(distributionAt(l.distribution), v) / area : 0.0;
  L *= l.share * dot(weights, vec4(l.slot == 0, l.slot == 1, l.slot == 2, l.slot == 3));
  L = max(L, insideLuminance);
  colour = linear == 1 ? vec4(min(L * lightTint, 40.0 * whiteLevel / exposure), 1.0) : vec4(toScreen(L * lightTint), 1.0);
}
