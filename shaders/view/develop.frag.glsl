// The surfaces' light as it is looked at: slots weighed by dimming and maintenance, direct and interreflected together.
//
//   rgb = sum over slots of w (E_direct + E_interreflected) colour,   a = sum of w (E_direct + E_interreflected)
//
// rgb is the illuminance (lx) tinted by each layer's light, of the same luminance as a; a alone is in lux.

uniform highp sampler2D direct;
uniform highp sampler2D interreflected;
uniform vec4 weights;
uniform vec3 slotColours[4];

out vec4 developed;

void main() {
  ivec2 here = ivec2(gl_FragCoord.xy);
  vec4 E = weights * (texelFetch(direct, here, 0) + texelFetch(interreflected, here, 0));
  vec3 rgb = E.x * slotColours[0] + E.y * slotColours[1] + E.z * slotColours[2] + E.w * slotColours[3];
  developed = vec4(rgb, E.x + E.y + E.z + E.w);
}
