// Illuminance as colour and isolux lines: the absolute scale of src/drawing/light-scale.ts, a band a step.
//
// A table over ln E (1 to 20,000 lx) holds each band's colour, the ln of the steps below and above it and the inks of
// their lines. A line lies where E crosses a step: |ln E - ln step| within half the line's width, by how far ln E changes
// over a pixel; it is of one ink on both its sides.

uniform highp sampler2D scaleTable;
uniform float lineWidth;

const int SCALE_ENTRIES = 1024;
const float SCALE_SPAN = 9.903487552536127;

// `change`: of ln E over a pixel.
vec3 scaleColour(float E, float change) {
  float level = log(max(E, 1e-3));
  int entry = clamp(int(level / SCALE_SPAN * float(SCALE_ENTRIES)), 0, SCALE_ENTRIES - 1);
  vec4 ends = texelFetch(scaleTable, ivec2(entry, 1), 0);
  // An entry that a step runs through belongs to the band below.
  if (level >= ends.y && entry < SCALE_ENTRIES - 1) {
    entry++;
    ends = texelFetch(scaleTable, ivec2(entry, 1), 0);
  }
  vec3 colour = texelFetch(scaleTable, ivec2(entry, 0), 0).rgb;
  float below = abs(level - ends.x);
  float above = abs(ends.y - level);
  float inPixels = min(below, above) / max(change, 1e-6);
  vec3 ink = texelFetch(scaleTable, ivec2(entry, below < above ? 2 : 3), 0).rgb;
  return mix(ink, colour, clamp(inPixels - 0.5 * lineWidth + 0.5, 0.3, 1.0));
}
