// Edges of things, drawn as lines a little before what they bound: a four-hundredth of the way to the eye.

in vec3 position;
// Of the face it bounds.
in vec3 normal;

uniform vec3 eye;
uniform mat4 viewMatrix;
uniform mat4 projectionMatrix;

out vec3 place;

void main() {
  place = position;
  gl_Position = projectionMatrix * viewMatrix * vec4(mix(position, eye, 0.0025), 1.0);
  // The edge of a face that is turned away lies behind it, and would come through the little it is drawn before it.
  if (dot(eye - position, normal) <= 0.0) gl_Position = vec4(0.0, 0.0, 2.0, 1.0);
}
