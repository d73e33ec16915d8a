// A surface of the room, or a thing in it.

in vec3 position;
in vec3 normal;
// Place in the atlas of light (texels), or negative: then the light is the vertex's own.
in vec2 spot;
// Luminous reflectance times tint; the tint's luminance is one.
in vec3 albedo;
in vec4 own;
// 1 where the top mirrors, else 0; 1 where it counts as a surface in the lux look.
in vec2 traits;

uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;
out vec3 facing;
out vec2 lightSpot;
out vec3 reflecting;
out vec4 ownLight;
out vec2 trait;

void main() {
  place = position;
  facing = normal;
  lightSpot = spot;
  reflecting = albedo;
  ownLight = own;
  trait = traits;
  gl_Position = projectionMatrix * viewMatrix * vec4(position, 1.0);
}
