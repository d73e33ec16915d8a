// Illuminance (lx) that one luminaire gives a plane, past what stands in the way:
//
//   E = V * sum of W I(w) max(0, cos xi) / d2,   V = sum of w V / sum of w
//
// In three turns of one loop (one call each of element, intensity and visibility: a software renderer compiles every
// call anew):
//   NODES    weighted nodes of the opening (Gauss; Gauss x even angles), as many as its size over its distance and
//            the sharpest bend of its distribution ask for, never more than `mostNodes` a side
//   OUTLINE  points of the opening's outline: do they see the point?
//   SAMPLES  `probes` of the additive R2 sequence [1]; where they and the outline disagree, `penumbraSamples` of them,
//            each weighed by what it would give the plane: the procedure of src/engine/visibility/penumbra.ts
// Error: 0.1 % of the contribution with twelve nodes a side; 0.5 % of the opening with 2048 samples
// (tests/shaders/parity). While things move no outline is asked, and few samples are.
//
// [1] M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018.

#include <light/opening>
#include <light/visibility>

uniform int gaussTable;
uniform int mostNodes;
uniform int penumbraSamples;
// Points of the outline (8 or 24) and samples within that tell whether an opening is partly hidden.
uniform int outlinePoints;
uniform int probes;

const int NODES = 0;
const int OUTLINE = 1;
const int SAMPLES = 2;

struct Between {
  int count;
  int solid[MOST_BETWEEN];
};

int nodesFor(Luminaire l, vec3 p, vec3 n) {
  if (l.kind == POINT) return 1;
  // Cut by the point's horizon: the sum has a kink.
  float height = -dot(n, p);
  if (height < dot(abs(n), l.extent)) return mostNodes;
  // From the opening's nearest point, not its centre, where it is long.
  float far = length(p);
  float d = min(far, max(length(max(abs(p) - l.extent, 0.0)), 0.35 * far));
  float q = l.radius / max(d, 1e-6) * l.sharpness;
  int count = q < 0.01 ? 1 : q < 0.1 ? 2 : q < 0.25 ? 3 : q < 0.45 ? 4 : q < 0.8 ? 6 : q < 1.3 ? 8 : 12;
  return min(count, mostNodes);
}

// Rings and nodes across a piece for `count` nodes a side.
ivec2 nodesOf(Luminaire l, int count, bool turned) {
  if (l.kind == POINT) return ivec2(1);
  // What is seen of a curved surface turns through almost half a circle however far it is.
  if (l.kind == ELLIPSOID) return ivec2(max(count, 2), 3 * count + 1);
  if (turned) return count == 1 ? ivec2(1, 4) : ivec2(count - 1, 3 * count + 1);
  if (l.kind == CYLINDER) return ivec2(min(count + 2, 12), count);
  if (l.kind != RECTANGLE) return ivec2(count);
  float first = l.extent.x == 0.0 ? l.extent.y : l.extent.x;
  float second = l.extent.x == 0.0 || l.extent.z > 0.0 ? l.extent.z : l.extent.y;
  return clamp(ivec2(ceil(float(count) * vec2(first, second) / max(first, second))), ivec2(min(count, 2)), ivec2(count));
}

// A point of the outline, or of edges that hold it; `at` is the element at the rim of the unit square.
vec3 outlinePoint(Luminaire l, int k, vec3 at) {
  if (l.kind == DISC || l.kind == ELLIPSOID) return at;
  if (l.kind == CYLINDER) {
    int i = (l.axis + 1) % 3;
    int j = (l.axis + 2) % 3;
    float angle = 4.0 * PI * float(k >> 1) / float(outlinePoints);
    at[i] = l.extent[i] * cos(angle);
    at[j] = l.extent[j] * sin(angle);
    at[l.axis] = (k & 1) == 0 ? l.extent[l.axis] : -l.extent[l.axis];
    return at;
  }
  if (outlinePoints < 24) return l.extent * (2.0 * vec3(float(k & 1), float((k >> 1) & 1), float(k >> 2)) - 1.0);
  // Corners, middles of edges and of faces; coincident where an extent is none.
  int corner = k >= 13 ? k + 1 : k;
  return l.extent * vec3(float(corner % 3) - 1.0, float((corner / 3) % 3) - 1.0, float(corner / 9) - 1.0);
}

float received(Luminaire l, Between between, vec3 room, vec3 p, vec3 n, vec2 shift) {
  int count = nodesFor(l, p, n);
  int parts = pieces(l);
  vec3 shares = vec3(pieceShare(l, p, 0), parts > 1 ? pieceShare(l, p, 1) : 0.0, parts > 2 ? pieceShare(l, p, 2) : 0.0);
  float allShares = shares.x + shares.y + shares.z;
  if (allShares <= 0.0) return 0.0;
  bool outlined = outlinePoints > 0 && l.kind != POINT;
  int turn = NODES;
  int piece = -1;
  bool turned = false;
  ivec2 size = ivec2(0);
  ivec2 node = ivec2(0);
  int most = outlinePoints >= 24 && (l.kind == RECTANGLE || l.kind == BOX) ? 26 : outlinePoints;
  int k = 0;
  float clear = 0.0;
  float rim = 0.0;
  float weight = 0.0;
  float passed = 0.0;
  for (int step = 0; step < 8192; step++) {
    vec2 st;
    float share = 1.0;
    int part = piece;
    if (turn == NODES) {
      if (node.x >= size.x) {
        piece++;
        if (piece >= parts) {
          if (between.count == 0 || clear <= 0.0) return clear;
          turn = outlined ? OUTLINE : SAMPLES;
          if (!outlined) most = l.kind == POINT ? 1 : probes;
          continue;
        }
        turned = isRound(l, piece);
        size = shares[piece] > 0.0 ? nodesOf(l, count, turned) : ivec2(0);
        node = ivec2(0);
        continue;
      }
      vec2 a = record(gaussTable + size.x * (size.x - 1) / 2 + node.x).xy;
      vec2 b = turned
        ? vec2((float(node.y) + 0.5), 1.0) / float(size.y)
        : record(gaussTable + size.y * (size.y - 1) / 2 + node.y).xy;
      st = vec2(a.x, b.x);
      share = a.y * b.y;
      node.y++;
      if (node.y >= size.y) node = ivec2(node.x + 1, 0);
    } else if (turn == OUTLINE) {
      st = vec2(1.0, float(k) / float(outlinePoints));
      part = 0;
    } else {
      st = fract(shift + float(k + 1) * vec2(0.7548776662466927, 0.5698402909980532));
      part = 0;
      if (parts > 1) {
        // The first parameter chooses the piece and is spread anew within it.
        float wanted = st.x * allShares;
        while (part < parts - 1 && wanted >= shares[part]) wanted -= shares[part++];
        st.x = min(1.0, wanted / max(shares[part], 1e-20));
        share = allShares / max(shares[part], 1e-20);
      }
    }
    vec4 e = element(l, p, part, st.x, st.y);
    if (turn == OUTLINE) e.xyz = outlinePoint(l, k, e.xyz);
    float w = 0.0;
    if (turn != OUTLINE) {
      vec3 v = p - e.xyz;
      float height = -dot(n, v);
      float dd = dot(v, v);
      if (height > 0.0 && e.w > 0.0) w = share * e.w * intensityTowards(l.distribution, v) * height / (dd * sqrt(dd));
    }
    if (turn == NODES) {
      clear += w;
      continue;
    }
    float here = turn == OUTLINE || w > 0.0 ? 1.0 : 0.0;
    vec3 d = l.axes * e.xyz + l.origin - room;
    for (int i = 0; i < between.count && here > 0.0; i++) here *= passedBy(between.solid[i], room, d);
    if (turn == OUTLINE) rim += here;
    else {
      weight += w;
      passed += w * here;
    }
    k++;
    if (k < most) continue;
    if (turn == OUTLINE) {
      rim /= float(most);
      turn = SAMPLES;
      most = probes;
      k = 0;
      continue;
    }
    float visible = weight > 0.0 ? passed / weight : 1.0;
    // All that was asked agrees: wholly seen, wholly hidden, or wholly behind the same translucent body.
    bool agree = outlined ? abs(visible - rim) < 1e-5 : abs(visible - 0.5) > 0.49999;
    if (agree || most > probes || penumbraSamples <= probes || l.kind == POINT) return clear * visible;
    most = penumbraSamples;
  }
  return clear * (weight > 0.0 ? passed / weight : 1.0);
}
