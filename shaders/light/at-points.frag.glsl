// Direct light at points listed in a texture: the bake of the surfaces' cache, and every single reading.
//
// `places`: x, y, z (m) and the row of pairs, negative for none; `facings`: unit normal.

#include <light/direct>

uniform highp sampler2D places;
uniform highp sampler2D facings;

// 1: every point its own shift of the sample sequence; 0: one for all, so that what error a picture has changes
// evenly from point to point and isolux lines stay smooth.
uniform int ownShift;

out vec4 light;

void main() {
  ivec2 here = ivec2(gl_FragCoord.xy);
  vec4 place = texelFetch(places, here, 0);
  if (place.w < 0.0) {
    light = vec4(0.0);
    return;
  }
  // The point's own shift of the sample sequence: a hash of its texel, so that a bake repeats bit for bit.
  uint seed = uint(here.x) * 1597334677u ^ uint(here.y) * 3812015801u;
  seed = (seed ^ (seed >> 15)) * 2246822519u;
  vec2 shift = ownShift == 1 ? vec2(float(seed & 65535u), float(seed >> 16)) / 65536.0 : vec2(0.5);
  light = directLight(place.xyz, texelFetch(facings, here, 0).xyz, int(place.w), shift);
}
