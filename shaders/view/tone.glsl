// From luminance to the screen: a stated exposure, then a photographic tone curve.
//
//   s = key L / L_mean,   d = s (1 + s / s_w^2) / (1 + s)
//
// E. Reinhard, M. Stark, P. Shirley, J. Ferwerda, "Photographic tone reproduction for digital images", ACM TOG 21
// (2002), eq. 2 and 4; coded for the screen by IEC 61966-2-1. `exposure` is key / L_mean (m2/cd).
// What the screen shows is relative: no screen reaches the luminance of a lamp.

uniform float exposure;
uniform float whiteLevel;
// Pixel of the lower left corner of the picture: two side by side are grained alike.
uniform vec2 corner;

vec3 toScreen(vec3 luminance) {
  vec3 s = exposure * luminance;
  vec3 d = clamp(s * (1.0 + s / (whiteLevel * whiteLevel)) / (1.0 + s), 0.0, 1.0);
  vec3 coded = mix(12.92 * d, 1.055 * pow(max(d, vec3(1e-6)), vec3(1.0 / 2.4)) - 0.055, step(0.0031308, d));
  // Half a step of eight bits either way, so that slow gradients show no bands.
  float noise = fract(52.9829189 * fract(dot(gl_FragCoord.xy - corner, vec2(0.06711056, 0.00583715))));
  return coded + (noise - 0.5) / 255.0;
}
