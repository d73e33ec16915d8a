// Edges of things, drawn as lines a little before what they bound: a four-hundredth of the way to the eye.

in vec3 position;

uniform vec3 eye;
uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;

void main() {
  place = position;
  gl_Position = projectionMatrix * viewMatrix * vec4(mix(position, eye, 0.0025), 1.0);
}
