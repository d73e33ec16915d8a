// Every number of a scene's light in one float texture, a record (four floats) a texel.
// Written by src/preview/scene-texture.ts, which states the layout of each part.

uniform highp sampler2D book;

const int BOOK_WIDTH_BITS = 10;

vec4 record(int index) {
  return texelFetch(book, ivec2(index & ((1 << BOOK_WIDTH_BITS) - 1), index >> BOOK_WIDTH_BITS), 0);
}
