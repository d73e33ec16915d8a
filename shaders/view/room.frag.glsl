// What a surface shows: its luminance, or its illuminance on the scale.
//
//   L = rho E / pi   (diffuse),   and for a polished top  L + F(theta) L_mirror
//
// F: Fresnel reflectance of an unpolarised ray on a dielectric of index 1.5 [1]; L_mirror is the picture from the eye's
// mirror image. [1] M. Born, E. Wolf, Principles of Optics, 1.5.2.

#include <view/tone>
#include <view/scale>

uniform highp sampler2D developed;
uniform vec2 atlasSize;
uniform vec3 eye;
// Points with dot(cut.xyz, p) > cut.w are not drawn, nor what is below the mirror in its own picture.
uniform vec4 cut;
uniform float mirrorLevel;
uniform int look;
uniform int linear;
uniform sampler2D mirrorPicture;
uniform mat4 mirrorView;

in vec3 place;
in vec3 facing;
in vec2 lightSpot;
in vec3 reflecting;
in vec4 ownLight;
in vec2 trait;

out vec4 colour;

const float INVERSE_PI = 0.3183098861838;

float fresnel(float cosine) {
  float g = sqrt(1.5 * 1.5 - 1.0 + cosine * cosine);
  float a = (g - cosine) / (g + cosine);
  float b = (cosine * (g + cosine) - 1.0) / (cosine * (g - cosine) + 1.0);
  return 0.5 * a * a * (1.0 + b * b);
}

void main() {
  if (dot(cut.xyz, place) > cut.w || place.z < mirrorLevel) discard;
  vec3 towards = eye - place;
  // Faces turned away: a wall seen from outside the room does not hide it.
  if (dot(facing, towards) < 0.0 && trait.y > 0.5) discard;
  vec4 light = lightSpot.x >= 0.0 ? texture(developed, (lightSpot + 0.5) / atlasSize) : ownLight;
  if (look == 1) {
    vec3 shown = trait.y > 0.5 ? scaleColour(light.a) : vec3(0.55, 0.54, 0.52) * (0.62 + 0.38 * abs(dot(normalize(facing), normalize(towards))));
    colour = vec4(shown, 1.0);
    return;
  }
  vec3 L = INVERSE_PI * reflecting * light.rgb;
  if (trait.x > 0.5) {
    vec4 image = mirrorView * vec4(place, 1.0);
    float cosine = clamp(dot(normalize(towards), facing), 0.0, 1.0);
    L += fresnel(cosine) * texture(mirrorPicture, 0.5 + 0.5 * image.xy / image.w).rgb;
  }
  colour = linear == 1 ? vec4(L, 1.0) : vec4(toScreen(L), 1.0);
}
