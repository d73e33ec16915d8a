// Edges of things: ink on the lux look, nothing on the appearance.

uniform vec4 cut;
uniform vec4 ink;

in vec3 place;

out vec4 colour;

void main() {
  if (dot(cut.xyz, place) > cut.w) discard;
  colour = ink;
}
