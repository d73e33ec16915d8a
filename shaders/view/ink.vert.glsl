// Edges of things, drawn as lines a little before what they bound.

in vec3 position;

uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;

void main() {
  place = position;
  gl_Position = projectionMatrix * viewMatrix * vec4(position, 1.0);
  gl_Position.z -= 0.0004 * gl_Position.w;
}
