// Luminous intensity (cd) of a distribution in a direction of the luminaire's frame:
//
//   I(h, v) = (1 - s)(1 - t) I00 + (1 - s) t I01 + s (1 - t) I10 + s t I11
//
// bilinear in the file's own angles, zero outside the tabulated range, C periodic: the same interpolation as
// src/photometry/reference-lookup.ts, a cell's four corners in one record. Angles in even steps are found by
// arithmetic, others by bisection.
//
// [1] ANSI/IES LM-63 and CIE 121: types A, B and C and their angles.
// Error: single precision, some 2e-5 of the change across a cell; the range's rim is met within 3e-6 rad.

#include <light/scene-texture>
#include <light/arctangent>

const float RIM_TOLERANCE = 3e-6;
const int TYPE_A = 0;
const int TYPE_B = 1;
const int TYPE_C = 2;

struct Distribution {
  int type;
  int planes;
  int angles;
  // First records: cells, planes, angles.
  int cells;
  int horizontal;
  int vertical;
  // Steps per radian, 0 where uneven.
  float planesPerStep;
  float anglesPerStep;
  bool evenPlanes;
  bool evenAngles;
  // Least and greatest plane, least and greatest angle (rad).
  vec4 range;
};

const int DISTRIBUTION_RECORDS = 3;

Distribution distributionFrom(vec4 head, vec4 lists, vec4 range) {
  Distribution t;
  t.type = int(head.x);
  t.planes = int(head.y);
  t.angles = int(head.z);
  t.cells = int(head.w);
  t.horizontal = int(lists.x);
  t.vertical = int(lists.y);
  t.planesPerStep = lists.z;
  t.anglesPerStep = lists.w;
  t.evenPlanes = lists.z > 0.0;
  t.evenAngles = lists.w > 0.0;
  t.range = range;
  return t;
}

Distribution distributionAt(int first) {
  return distributionFrom(record(first), record(first + 1), record(first + 2));
}

// Cell of a rising list of angles that holds x, and where in it: 0..1.
vec2 angleCell(int first, int count, float x, float from, float perStep, bool even) {
  float last = float(max(count - 2, 0));
  if (even) {
    float place = (x - from) * perStep;
    float cell = clamp(floor(place), 0.0, last);
    return vec2(cell, clamp(place - cell, 0.0, 1.0));
  }
  int low = 0;
  int high = int(last) + 1;
  for (int i = 0; i < 16; i++) {
    int middle = (low + high) >> 1;
    if (high - low > 1) {
      if (record(first + middle).x <= x) low = middle;
      else high = middle;
    } else {
      break;
    }
  }
  vec4 ends = record(first + low);
  return vec2(float(low), clamp((x - ends.x) * ends.z, 0.0, 1.0));
}

float intensityTowards(Distribution t, vec3 d) {
  float h = 0.0;
  float v;
  bool turning = t.planes > 1 || t.type != TYPE_C;
  if (t.type == TYPE_C) {
    if (turning) {
      h = arctangent(d.y, d.x);
      if (h < 0.0) h += 2.0 * PI;
    }
    v = arctangent(length(d.xy), -d.z);
  } else if (t.type == TYPE_B) {
    h = arctangent(-d.y, length(d.xz));
    v = arctangent(d.x, -d.z);
  } else {
    h = arctangent(-d.y, d.x);
    v = arctangent(d.z, length(d.xy));
  }
  bool outside = v < t.range.z - RIM_TOLERANCE || v > t.range.w + RIM_TOLERANCE;
  if (t.type != TYPE_C) outside = outside || h < t.range.x - RIM_TOLERANCE || h > t.range.y + RIM_TOLERANCE;
  vec2 row = angleCell(t.vertical, t.angles, v, t.range.z, t.anglesPerStep, t.evenAngles);
  vec2 column = vec2(0.0);
  if (t.planes > 1) column = angleCell(t.horizontal, t.planes, h, t.range.x, t.planesPerStep, t.evenPlanes);
  vec4 corner = record(t.cells + int(column.x) * max(t.angles - 1, 1) + int(row.x));
  vec2 between = mix(corner.xz, corner.yw, row.y);
  return outside ? 0.0 : mix(between.x, between.y, column.y);
}
