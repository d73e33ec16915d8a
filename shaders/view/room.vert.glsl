// A surface of the room, or a thing in it.

#ifndef LUX
#define LUX 0
#endif

in vec3 position;
in vec3 normal;
// Place in the atlas of light (texels), of a surface.
in vec2 spot;
// Luminous reflectance times tint; the tint's luminance is one.
in vec3 albedo;
// Light of the vertex, of a thing.
in vec4 own;

uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;
out vec3 facing;
// In appearance taken within the triangle: beyond a thin one's rim lies another surface's light. Isolux lines need even steps.
#if !LUX
centroid
#endif
out vec2 lightSpot;
out vec3 reflecting;
out vec4 ownLight;

void main() {
  place = position;
  facing = normal;
  lightSpot = spot;
  reflecting = albedo;
  ownLight = own;
  gl_Position = projectionMatrix * viewMatrix * vec4(position, 1.0);
}
