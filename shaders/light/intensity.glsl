// Luminous intensity (cd) of a distribution in a direction of the luminaire's frame:
//
//   I(h, v) = (1 - s)(1 - t) I00 + (1 - s) t I01 + s (1 - t) I10 + s t I11
//
// bilinear in the file's own angles, zero outside the tabulated range, C periodic: the same interpolation as
// src/photometry/reference-lookup.ts, a cell's four corners in one record.
//
// [1] ANSI/IES LM-63 and CIE 121: types A, B and C and their angles.
// Error: single precision, some 1e-5 of the local value; the range's rim is met within 3e-6 rad.

#include <light/book>
#include <light/arctangent>

const float RIM_TOLERANCE = 3e-6;

// Index of the cell of a rising list of angles that holds x. Each record: this angle, the next, 1 / difference.
int angleCell(int first, int count, float x, float from, float perStep) {
  int last = max(count - 2, 0);
  if (perStep > 0.0) {
    int cell = clamp(int(floor((x - from) * perStep)), 0, last);
    vec4 ends = record(first + cell);
    if (x < ends.x && cell > 0) cell--;
    else if (x >= ends.y && cell < last) cell++;
    return cell;
  }
  int low = 0;
  int high = last + 1;
  for (int i = 0; i < 16 && high - low > 1; i++) {
    int middle = (low + high) >> 1;
    if (record(first + middle).x <= x) low = middle;
    else high = middle;
  }
  return low;
}

float intensityTowards(int distribution, vec3 d) {
  vec4 head = record(distribution);
  vec4 lists = record(distribution + 1);
  vec4 range = record(distribution + 2);
  int kind = int(head.x);
  float h;
  float v;
  if (kind == 2) {
    h = arctangent(d.y, d.x);
    if (h < 0.0) h += 2.0 * PI;
    v = arctangent(length(d.xy), -d.z);
  } else if (kind == 1) {
    h = arctangent(-d.y, length(d.xz));
    v = arctangent(d.x, -d.z);
  } else {
    h = arctangent(-d.y, d.x);
    v = arctangent(d.z, length(d.xy));
  }
  if (v < range.z - RIM_TOLERANCE || v > range.w + RIM_TOLERANCE) return 0.0;
  int planes = int(head.y);
  int angles = int(head.z);
  int vFirst = int(lists.y);
  int row = angleCell(vFirst, angles, v, range.z, lists.w);
  vec4 ends = record(vFirst + row);
  float t = clamp((v - ends.x) * ends.z, 0.0, 1.0);
  int column = 0;
  float s = 0.0;
  if (planes > 1) {
    if (kind != 2 && (h < range.x - RIM_TOLERANCE || h > range.y + RIM_TOLERANCE)) return 0.0;
    int hFirst = int(lists.x);
    column = angleCell(hFirst, planes, h, range.x, lists.z);
    ends = record(hFirst + column);
    s = clamp((h - ends.x) * ends.z, 0.0, 1.0);
  } else if (kind != 2 && abs(h - range.x) > RIM_TOLERANCE) {
    return 0.0;
  }
  vec4 corner = record(int(head.w) + column * max(angles - 1, 1) + row);
  vec2 between = mix(corner.xz, corner.yw, t);
  return mix(between.x, between.y, s);
}
