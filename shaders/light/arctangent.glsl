// The angle of a plane vector, -pi..pi. The language's own atan may be wrong by thousands of units in the last
// place, which shows beside a table of 1 degree; this one is right to 3e-7 rad.
//
// Polynomial of the Cephes library for |q| <= tan(pi/8): S. L. Moshier, "Methods and Programs for Mathematical
// Functions", 1989 (atanf; coefficients from memory, checked against double precision in the parity tests).

const float PI = 3.14159265359;

float arctangent(float y, float x) {
  float ax = abs(x);
  float ay = abs(y);
  float large = max(ax, ay);
  if (large == 0.0) return 0.0;
  float q = min(ax, ay) / large;
  float base = 0.0;
  if (q > 0.41421356237) {
    q = (q - 1.0) / (q + 1.0);
    base = 0.25 * PI;
  }
  float z = q * q;
  float angle = base + ((((8.05374449538e-2 * z - 1.38776856032e-1) * z + 1.99777106478e-1) * z - 3.33329491539e-1) * z * q + q);
  if (ay > ax) angle = 0.5 * PI - angle;
  if (x < 0.0) angle = PI - angle;
  return y < 0.0 ? -angle : angle;
}
