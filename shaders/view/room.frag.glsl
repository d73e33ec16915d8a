// What a surface or a thing shows: its luminance, or its illuminance on the scale.
//
//   L = rho E / pi   (diffuse),   and for a polished top  L + F(theta) L_mirror
//
// F: Fresnel reflectance of an unpolarised ray on a dielectric of index 1.5 [1]; L_mirror is the picture from the eye's
// mirror image. [1] M. Born, E. Wolf, Principles of Optics, 1.5.2.
//
// Light lies on nodes, closer ones where it changes fast, and is bilinear between them, mixed here: filters of the hardware know eight bits of a weight, and an
// isolux line drawn on their steps is ragged.
//
// A program for each case, as a software renderer goes through branches it does not take. Definitions, 0 or 1:
//   SURFACE light from the atlas, else the vertex's own; LUX the scale, else luminance; LINEAR no tone curve;
//   CUT something is cut away; SECTION what is cut open is filled; MIRRORS a polished top with its image

#ifndef SURFACE
#define SURFACE 1
#define LUX 0
#define LINEAR 0
#define CUT 1
#define SECTION 1
#define MIRRORS 1
#endif

#include <view/tone>
#include <view/scale>

uniform highp sampler2D developed;
// Cells where light changes too fast for their nodes are divided: 1 + the texel in `divided` where their own nodes begin.
uniform highp sampler2D divisions;
uniform highp sampler2D divided;
uniform vec3 eye;
// Points with dot(cut.xyz, p) > cut.w are not drawn.
uniform vec4 cut;
// What fills a solid that is cut open: the inside of its surfaces stands for it.
uniform vec3 filling;
uniform sampler2D mirrorPicture;
uniform mat4 mirrorView;

in vec3 place;
in vec3 facing;
#if !LUX
centroid
#endif
in vec2 lightSpot;
in vec3 reflecting;
in vec4 ownLight;

out vec4 colour;

const float DIVISION = 4.0;
const float INVERSE_PI = 0.3183098861838;

float fresnel(float cosine) {
  float g = sqrt(1.5 * 1.5 - 1.0 + cosine * cosine);
  float a = (g - cosine) / (g + cosine);
  float b = (cosine * (g + cosine) - 1.0) / (cosine * (g - cosine) + 1.0);
  return 0.5 * a * a * (1.0 + b * b);
}

#if SURFACE
vec4 between(highp sampler2D light, vec2 spot) {
  ivec2 node = ivec2(floor(spot));
  vec2 share = spot - vec2(node);
  vec4 low = mix(texelFetch(light, node, 0), texelFetch(light, node + ivec2(1, 0), 0), share.x);
  vec4 high = mix(texelFetch(light, node + ivec2(0, 1), 0), texelFetch(light, node + ivec2(1, 1), 0), share.x);
  return mix(low, high, share.y);
}

vec4 lightOn(vec2 spot) {
  vec2 node = floor(spot);
  int start = int(texelFetch(divisions, ivec2(node), 0).r + 0.5) - 1;
  if (start < 0) return between(developed, spot);
  int width = textureSize(divided, 0).x;
  return between(divided, vec2(start % width, start / width) + DIVISION * (spot - node));
}
#endif

#if LUX && SURFACE
float levelAt(vec2 spot) {
  return log(max(lightOn(spot).a, 1e-3));
}

// By what lies half a line's width beside: the screen's own derivative is taken within blocks of four pixels, and between two
// of them an edge of a shadow would have no line. Within the gutter around a surface's light.
float changeOverPixel(vec2 spot) {
  vec2 across = clamp(0.5 * lineWidth * dFdx(spot), -1.0, 1.0);
  vec2 up = clamp(0.5 * lineWidth * dFdy(spot), -1.0, 1.0);
  return (abs(levelAt(spot + across) - levelAt(spot - across)) + abs(levelAt(spot + up) - levelAt(spot - up))) / lineWidth;
}
#endif

void main() {
#if CUT
  if (dot(cut.xyz, place) > cut.w) discard;
#endif
#if SECTION
  if (!gl_FrontFacing) {
    colour = vec4(filling, 1.0);
    return;
  }
#endif
#if SURFACE
  vec4 light = lightOn(lightSpot);
#else
  vec4 light = ownLight;
#endif
#if LUX && SURFACE
  colour = vec4(scaleColour(light.a, changeOverPixel(lightSpot)), 1.0);
#elif LUX
  // A thing is no surface that lux are asked of: grey, shaped by how it faces.
  float towards = abs(dot(normalize(facing), normalize(eye - place)));
  colour = vec4(vec3(0.55, 0.54, 0.52) * (0.62 + 0.38 * towards), 1.0);
#else
  vec3 L = INVERSE_PI * reflecting * light.rgb;
#if MIRRORS
  vec4 image = mirrorView * vec4(place, 1.0);
  float cosine = clamp(dot(normalize(eye - place), facing), 0.0, 1.0);
  L += fresnel(cosine) * texture(mirrorPicture, 0.5 + 0.5 * image.xy / image.w).rgb;
#endif
  colour = vec4(LINEAR == 1 ? L : toScreen(L), 1.0);
#endif
}
