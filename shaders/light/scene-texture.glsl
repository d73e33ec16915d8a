// Every number of a scene's light in one float texture, a record (four floats) a texel.
// Written by src/preview/scene-texture.ts, which states the layout of each part.

uniform highp sampler2D records;

const int RECORDS_WIDTH_BITS = 10;

vec4 record(int index) {
  return texelFetch(records, ivec2(index & ((1 << RECORDS_WIDTH_BITS) - 1), index >> RECORDS_WIDTH_BITS), 0);
}
