/* Overhead lines: each conductor is a closed tube round a polyline.
 *
 * The true conductor is the disc of radius r that moves along the curve
 *   P(t) = from + t C − 4 s t (1 − t) ẑ,  0 ≤ t ≤ 1,  C the chord, s the sag,
 * square to it: a parabola in a vertical plane. T(t) = C − 4 s (1 − 2 t) ẑ is its tangent.
 *
 * The polyline joins the points P(k/n). Between two of them P lies below their chord by at most
 *   e = s / n²
 * measured plumb, since a chord of 1/n of the curve has the sag s/n². At each inner point the tube
 * is mitred in the plane M_k that halves the angle of the two pieces there; at either end it is cut
 * in the plane of the true end, square to T. Each piece is the prism round its line whose faces
 * touch the cylinder of radius R = r + e, with m faces.
 *
 * It contains the conductor. Let X be a point of the disc at P(t), t in piece k. The distance of X
 * from the line of piece k is at most r + e, so X is in that prism, unless X lies beyond a plane
 * that bounds the piece, M_k say. Then the way from P(t) to X meets M_k in a point Z. M_k makes the
 * lines of pieces k and k + 1 images of each other, so Z is equally far from both, and
 *   |X, line k+1| ≤ |X Z| + |Z, line k| ≤ |X Z| + |Z P(t)| + |P(t), line k| ≤ r + e
 * again; and so on over every plane that the way meets. Faces that touch both cylinders are images
 * of each other too, so that the prisms fit together. The plane of an end cuts nothing off: near
 * the end (within 2 r + e of it) the curve turns by less than a right angle, because its radius of
 * curvature is at least 4 r (trn_solid_check), so that each point of a moving disc moves away from
 * the plane.
 *
 * It exceeds it by at most the deviation d. With R' = R / cos(π/m) the distance of the prism's
 * edges from its line, a point whose foot on the line lies within the piece is within R' + e of the
 * curve, and one in the wedge of a mitre with turn τ within R' / cos(τ/2) of P(k/n). Both are the
 * distance from the conductor's axis, so r is taken off. Chosen are e ≤ d/5, m such that R' − R ≤
 * d/2, and τ ≤ √(d/R'), which makes R' (1/cos(τ/2) − 1) about d/8: in all at most 0.9 d, the rest
 * is for rounding. d is taken no greater than r, so that R' < 1.8 r and neighbouring mitres do not
 * meet.
 *
 * The turn between two pieces is at most the difference of their slopes, 8 s / (n L), L being the
 * level length of the chord. */
#include "solid-shaper.h"

#define SHARE_OF_CHORD 0.2
#define SHARE_OF_FACETS 0.5
#define MOST_TURN_RAD 0.2

void
trn_shaper_line_divide (const TrnConductor *conductor, double radius_m, double deviation_m,
                        guint *n_pieces, guint *n_facets)
{
  double d = fmin (deviation_m, radius_m);
  *n_facets = trn_shaper_facets (radius_m + SHARE_OF_CHORD * d, SHARE_OF_FACETS * d);
  *n_pieces = 1;
  if (conductor->sag_m <= 0)
    return;
  TrnVec3 chord = trn_vec3_sub (conductor->to, conductor->from);
  double slope = 8 * conductor->sag_m / hypot (chord.x, chord.y);
  double turn = fmin (MOST_TURN_RAD, sqrt (d / (radius_m + d)));
  double pieces = fmax (sqrt (conductor->sag_m / (SHARE_OF_CHORD * d)), slope / turn);
  *n_pieces = (guint)fmax (ceil (pieces), 1);
}

/* The parabola, and the level direction square to its plane. */
typedef struct
{
  TrnVec3 from, chord, side;
  double sag_m;
} Curve;

static Curve
curve_make (const TrnConductor *conductor)
{
  Curve curve = { .from = conductor->from, .sag_m = conductor->sag_m };
  curve.chord = trn_vec3_sub (conductor->to, conductor->from);
  double level = hypot (curve.chord.x, curve.chord.y);
  curve.side = level > 0 ? trn_vec3_make (-curve.chord.y / level, curve.chord.x / level, 0)
                         : trn_vec3_make (0, 1, 0);
  return curve;
}

static TrnVec3
curve_point (const Curve *curve, double t)
{
  TrnVec3 p = trn_vec3_add_scaled (curve->from, curve->chord, t);
  p.z -= 4 * curve->sag_m * t * (1 - t);
  return p;
}

/* The direction of the chord from t to u: of the tangent where they are the same. */
static TrnVec3
curve_direction (const Curve *curve, double t, double u)
{
  TrnVec3 way = curve->chord;
  way.z -= 4 * curve->sag_m * (1 - t - u);
  return trn_vec3_unit (way);
}

/* The ring where the prism along @along, with edges @corner_m from its line, meets the plane
 * through
 * @centre that is square to @normal. */
static guint32
shape_ring (TrnShaper *shaper, const Curve *curve, TrnVec3 centre, TrnVec3 along, TrnVec3 normal,
            double corner_m, guint n_facets)
{
  TrnVec3 up
      = trn_vec3_scale (trn_vec3_cross (normal, curve->side), 1 / trn_vec3_dot (normal, along));
  guint32 first = 0;
  for (guint i = 0; i < n_facets; i++)
    {
      double angle = 2 * G_PI * i / n_facets;
      TrnVec3 corner = trn_vec3_add_scaled (centre, curve->side, corner_m * sin (angle));
      corner = trn_vec3_add_scaled (corner, up, -corner_m * cos (angle));
      guint32 vertex = trn_shaper_vertex (shaper, corner);
      if (i == 0)
        first = vertex;
    }
  return first;
}

static void
shape_conductor (TrnShaper *shaper, const TrnConductor *conductor, double radius_m)
{
  Curve curve = curve_make (conductor);
  guint n, n_facets;
  trn_shaper_line_divide (conductor, radius_m, shaper->deviation_m, &n, &n_facets);
  double scale = trn_vec3_max_abs (conductor->from) + trn_vec3_max_abs (conductor->to)
                 + conductor->sag_m + radius_m;
  double pad = shaper->pad_m + TRN_SOLID_ROUNDING * scale;
  double below_chord = conductor->sag_m / n / n;
  double corner_m = (radius_m + below_chord + pad) / cos (G_PI / n_facets);
  guint32 last = 0;
  for (guint k = 0; k <= n; k++)
    {
      /* The pieces before and after; at an end there is one only. */
      double t = (double)k / n, before = k > 0 ? (k - 1.0) / n : t,
             after = k < n ? (k + 1.0) / n : t;
      TrnVec3 along
          = k > 0 ? curve_direction (&curve, before, t) : curve_direction (&curve, t, after);
      TrnVec3 centre = k < n ? curve_point (&curve, t) : conductor->to;
      TrnVec3 normal = curve_direction (&curve, t, t);
      if (k > 0 && k < n)
        normal = trn_vec3_unit (trn_vec3_add (along, curve_direction (&curve, t, after)));
      else
        centre = trn_vec3_add_scaled (centre, along,
                                      (k == 0 ? -pad : pad) / trn_vec3_dot (along, normal));
      guint32 ring = shape_ring (shaper, &curve, centre, along, normal, corner_m, n_facets);
      if (k > 0)
        trn_shaper_band (shaper, last, ring, n_facets);
      if (k == 0 || k == n)
        trn_shaper_cap (shaper, ring, n_facets, trn_shaper_vertex (shaper, centre), k == n);
      last = ring;
    }
}

void
trn_shaper_overhead_line (TrnShaper *shaper, const TrnSolid *solid)
{
  trn_shaper_begin (shaper);
  for (guint i = 0; i < solid->n_conductors; i++)
    shape_conductor (shaper, &solid->conductors[i], 0.5 * solid->diameter_m);
  trn_shaper_end (shaper, "");
}
