// The luminous opening of a luminaire as a closed convex surface of area elements, in the luminaire's frame:
//
//   dI = I(w) n.w dA / A_p(w),   A_p(w) = integral of n.w dA over what faces w
//
// the same surfaces, dark ends and projected areas as src/luminaire/opening/opening-surface.ts. An element comes from
// two parameters in the unit square; its share W = n.v dA / A_p(v), v from the element to the point, so that the
// sum of W over the square is about one.

#include <light/intensity>

const int POINT = 0;
const int RECTANGLE = 1;
const int DISC = 2;
const int BOX = 3;
const int ELLIPSOID = 4;
const int CYLINDER = 5;

struct Luminaire {
  vec3 origin;
  // Columns: local axes in the room.
  mat3 axes;
  vec3 extent;
  vec3 reach;
  vec3 lowEnds;
  vec3 highEnds;
  int kind;
  int axis;
  int slot;
  int distribution;
  // First record of its near field's table, 0 for none.
  int nearField;
  float radius;
  float sharpness;
  float share;
};

const int LUMINAIRE_RECORDS = 8;

Luminaire luminaireFrom(vec4 r[LUMINAIRE_RECORDS]) {
  Luminaire l;
  l.origin = r[0].xyz;
  l.kind = int(r[0].w);
  l.axes = mat3(r[1].xyz, r[2].xyz, r[3].xyz);
  l.extent = vec3(r[1].w, r[2].w, r[3].w);
  l.slot = int(r[4].x);
  l.nearField = int(r[4].y);
  l.distribution = int(r[4].z);
  l.radius = r[4].w;
  l.lowEnds = r[5].xyz;
  l.axis = int(r[5].w);
  l.highEnds = r[6].xyz;
  l.sharpness = r[6].w;
  l.reach = r[7].xyz;
  l.share = r[7].w;
  return l;
}

Luminaire luminaireAt(int first) {
  vec4 r[LUMINAIRE_RECORDS];
  for (int i = 0; i < LUMINAIRE_RECORDS; i++) r[i] = record(first + i);
  return luminaireFrom(r);
}

// A_p(v) times the length of v (m2 times its unit).
float projectedArea(Luminaire l, vec3 v) {
  vec3 across = l.extent.yxx * l.extent.zzy;
  if (l.kind == ELLIPSOID) return PI * length(across * v);
  if (l.kind == DISC) return PI * dot(across, abs(v));
  if (l.kind == RECTANGLE) return 4.0 * dot(across, abs(v));
  float faces = dot(mix(l.lowEnds, l.highEnds, vec3(greaterThan(v, vec3(0.0)))), abs(v));
  if (l.kind != CYLINDER) return faces;
  vec3 e = l.extent;
  if (l.axis == 0) return faces + 4.0 * e.x * length(vec2(e.y * v.z, e.z * v.y));
  if (l.axis == 1) return faces + 4.0 * e.y * length(vec2(e.x * v.z, e.z * v.x));
  return faces + 4.0 * e.z * length(vec2(e.x * v.y, e.y * v.x));
}

// Pieces of the surface that a point can see: three faces of a box, side and end of a cylinder.
int pieces(Luminaire l) {
  return l.kind == BOX ? 3 : l.kind == CYLINDER ? 2 : 1;
}

// Whether a piece is spread over a turn rather than a rectangle.
bool isRound(Luminaire l, int piece) {
  return l.kind == DISC || l.kind == ELLIPSOID || (l.kind == CYLINDER && piece == 1);
}

float arcSeen(float distanceInRadii) {
  return distanceInRadii > 1.0 ? arctangent(sqrt(distanceInRadii * distanceInRadii - 1.0), 1.0) : 0.0;
}

// n.v dA integrated over a piece, 0 where it is dark or unseen. One for what has only one piece.
float pieceShare(Luminaire l, vec3 p, int piece) {
  if (l.kind == BOX || (l.kind == CYLINDER && piece == 1)) {
    int k = l.kind == BOX ? piece : l.axis;
    float clear = abs(p[k]) - l.extent[k];
    return clear > 0.0 ? clear * (p[k] > 0.0 ? l.highEnds[k] : l.lowEnds[k]) : 0.0;
  }
  if (l.kind == CYLINDER) {
    int i = (l.axis + 1) % 3;
    int j = (l.axis + 2) % 3;
    float far = length(vec2(p[i] / l.extent[i], p[j] / l.extent[j]));
    if (far <= 1.0) return 0.0;
    float reach = arcSeen(far);
    return 4.0 * (far * sin(reach) - reach) * l.extent[i] * l.extent[j] * l.extent[l.axis];
  }
  return 1.0;
}

// Element of a piece at (s, t): local position, and W per unit of ds dt.
vec4 element(Luminaire l, vec3 p, int piece, float s, float t) {
  vec3 at = vec3(0.0);
  vec3 e = l.extent;
  if (l.kind == POINT) return vec4(at, 1.0);
  if (l.kind == RECTANGLE)
    return vec4(e.x * (2.0 * s - 1.0), e.y * (2.0 * (e.x == 0.0 ? s : t) - 1.0), e.z * (2.0 * t - 1.0), 1.0);
  if (l.kind == DISC) {
    vec2 turn = sqrt(s) * vec2(cos(2.0 * PI * t), sin(2.0 * PI * t));
    return vec4(l.axis == 0 ? vec3(0.0, e.yz * turn) : vec3(e.xy * turn, 0.0), 1.0);
  }
  float share;
  if (l.kind == ELLIPSOID) {
    vec3 scaled = p / e;
    float far = length(scaled);
    if (far <= 1.0) return vec4(0.0);
    vec3 towards = scaled / far;
    // Orthonormal basis: Duff et al., JCGT 6 (2017).
    float sign = towards.z >= 0.0 ? 1.0 : -1.0;
    float q = -1.0 / (sign + towards.z);
    float r = towards.x * towards.y * q;
    float cosine = 1.0 - (1.0 - 1.0 / far) * s;
    vec2 turn = sqrt(max(0.0, 1.0 - cosine * cosine)) * vec2(cos(2.0 * PI * t), sin(2.0 * PI * t));
    at = e * (cosine * towards
      + turn.x * vec3(1.0 + sign * towards.x * towards.x * q, sign * r, -sign * towards.x)
      + turn.y * vec3(r, sign + towards.y * towards.y * q, -towards.y));
    share = e.x * e.y * e.z * (far * cosine - 1.0) * (1.0 - 1.0 / far) * 2.0 * PI;
  } else if (l.kind == BOX || piece == 1) {
    int k = l.kind == BOX ? piece : l.axis;
    int i = (k + 1) % 3;
    int j = (k + 2) % 3;
    share = pieceShare(l, p, piece);
    if (share <= 0.0) return vec4(0.0);
    at[k] = p[k] > 0.0 ? e[k] : -e[k];
    if (l.kind == BOX) {
      at[i] = e[i] * (2.0 * s - 1.0);
      at[j] = e[j] * (2.0 * t - 1.0);
    } else {
      at[i] = e[i] * sqrt(s) * cos(2.0 * PI * t);
      at[j] = e[j] * sqrt(s) * sin(2.0 * PI * t);
    }
  } else {
    int k = l.axis;
    int i = (k + 1) % 3;
    int j = (k + 2) % 3;
    vec2 scaled = vec2(p[i] / e[i], p[j] / e[j]);
    float far = length(scaled);
    if (far <= 1.0) return vec4(0.0);
    scaled /= far;
    float reach = arcSeen(far);
    float angle = reach * (2.0 * s - 1.0);
    at[i] = e[i] * (cos(angle) * scaled.x - sin(angle) * scaled.y);
    at[j] = e[j] * (cos(angle) * scaled.y + sin(angle) * scaled.x);
    at[k] = e[k] * (2.0 * t - 1.0);
    share = e[i] * e[j] * (far * cos(angle) - 1.0) * 2.0 * reach * 2.0 * e[k];
  }
  float area = projectedArea(l, p - at);
  return vec4(at, area > 0.0 ? share / area : 0.0);
}
