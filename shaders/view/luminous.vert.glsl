// A luminous opening.

in vec3 position;
in vec3 normal;
in float record_;
in vec3 tint;

uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;
flat out float luminaireRecord;
flat out vec3 lightTint;

void main() {
  place = position;
  luminaireRecord = record_;
  lightTint = tint;
  gl_Position = projectionMatrix * viewMatrix * vec4(position, 1.0);
}
