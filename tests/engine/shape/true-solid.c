/* Almost every solid here is a plane figure times an interval of height, for which the distance is
 * √(d² + h²) with the distances d in the plane and h in height. */
#include "true-solid.h"

#include <string.h>

static double
between (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

/* Log-uniform: small and large sizes alike. */
static double
size_between (double lo, double hi)
{
  return exp (between (log (lo), log (hi)));
}

/* A number in [lo, hi] which is often one of the ends. */
static double
pick (double lo, double hi)
{
  int way = g_test_rand_int_range (0, 4);
  return way == 0 ? lo : way == 1 ? hi : between (lo, hi);
}

static double
outside (double value, double lo, double hi)
{
  return fmax (fmax (lo - value, value - hi), 0);
}

/* ---- random solids ---- */

static TrnVec3
random_point (double far)
{
  return trn_vec3_make (between (-far, far), between (-far, far), between (-far, far));
}

/* In every direction; upright, hanging and almost upright ones more often than by chance. */
static void
random_beam (TrnSolid *solid)
{
  solid->from = random_point (size_between (0.1, 5000));
  solid->width_m = size_between (0.01, 5);
  solid->depth_m = size_between (0.01, 5);
  double length = size_between (0.1, 200), lean = size_between (1e-12, 1e-3) * length;
  TrnVec3 way = random_point (length);
  switch (g_test_rand_int_range (0, 5))
    {
    case 0:
      way = trn_vec3_make (0, 0, length);
      break;
    case 1:
      way = trn_vec3_make (0, 0, -length);
      break;
    case 2:
      way = trn_vec3_make (between (-lean, lean), between (-lean, lean),
                           g_test_rand_bit () ? length : -length);
      break;
    }
  solid->to = trn_vec3_add (solid->from, way);
}

/* Openings that touch one another or the edge are dropped by the check itself. */
static void
random_ground (TrnSolid *solid)
{
  solid->size = trn_vec3_make (size_between (5, 200), size_between (5, 200), 0);
  guint wanted = (guint)g_test_rand_int_range (0, 12);
  solid->openings = g_new0 (TrnOpening, wanted + 1);
  double widest = 0.4 * fmin (solid->size.x, solid->size.y);
  for (guint tries = 0; tries < 200 && solid->n_openings < wanted; tries++)
    {
      TrnOpening *opening = &solid->openings[solid->n_openings++];
      opening->kind = g_test_rand_bit () ? TRN_OPENING_CIRCLE : TRN_OPENING_RECT;
      /* Whole halves of a metre make corners and edges line up. */
      opening->x_m = 0.5 * round (between (-solid->size.x, solid->size.x));
      opening->y_m = 0.5 * round (between (-solid->size.y, solid->size.y));
      opening->diameter_m = size_between (0.05, widest);
      opening->width_m = g_test_rand_bit () ? 1 : size_between (0.05, widest);
      opening->height_m = g_test_rand_bit () ? 1 : size_between (0.05, widest);
      if (!trn_solid_check (solid, NULL, NULL))
        solid->n_openings--;
    }
}

static void
random_line (TrnSolid *solid)
{
  solid->diameter_m = size_between (0.004, 0.5);
  solid->n_conductors = (guint)g_test_rand_int_range (1, 3);
  solid->conductors = g_new0 (TrnConductor, solid->n_conductors);
  for (guint i = 0; i < solid->n_conductors; i++)
    {
      TrnConductor *c = &solid->conductors[i];
      c->from = random_point (size_between (1, 5000));
      TrnVec3 way = random_point (size_between (0.2, 300));
      if (g_test_rand_int_range (0, 5) == 0)
        way = trn_vec3_make (0, 0, way.z);
      c->to = trn_vec3_add (c->from, way);
      double level = hypot (way.x, way.y);
      double most = fmin (level, level * level / (16 * solid->diameter_m));
      c->sag_m = level > 0 ? 0.999 * fmin (most, level * size_between (1e-3, 1)) * pick (0, 1) : 0;
    }
}

static TrnPlacement
random_placement (void)
{
  TrnPlacement at = { .position = random_point (size_between (1, 1000)) };
  at.heading_rad = between (-4, 4);
  at.pitch_rad = between (-4, 4);
  at.roll_rad = between (-4, 4);
  return at;
}

static void
random_group (TrnSolid *solid)
{
  static const TrnSolidKind kinds[3]
      = { TRN_SOLID_BOX, TRN_SOLID_ROUND_SHAFT, TRN_SOLID_OVERHEAD_LINE };
  solid->n_parts = 2;
  solid->parts = g_new0 (TrnSolidGroupPart, 2);
  solid->parts[0].id = g_strdup ("first");
  solid->parts[0].at = random_placement ();
  solid->parts[0].solid = true_solid_random (kinds[g_test_rand_int_range (0, 3)]);

  TrnSolid *inner = trn_solid_new (TRN_SOLID_GROUP);
  inner->n_parts = 1;
  inner->parts = g_new0 (TrnSolidGroupPart, 1);
  inner->parts[0].id = g_strdup ("within");
  inner->parts[0].at = random_placement ();
  inner->parts[0].solid = true_solid_random (g_test_rand_int_range (0, TRN_SOLID_OVERHEAD_LINE));
  solid->parts[1].id = g_strdup ("second");
  solid->parts[1].at = random_placement ();
  solid->parts[1].solid = inner;
}

TrnSolid *
true_solid_random (TrnSolidKind kind)
{
  TrnSolid *solid = trn_solid_new (kind);
  solid->size
      = trn_vec3_make (size_between (0.01, 50), size_between (0.01, 50), size_between (0.01, 50));
  solid->height_m = size_between (0.01, 100);
  solid->depth_m = size_between (0.1, 100);
  solid->wall_m = size_between (0.01, 2);
  solid->floor_m = g_test_rand_int_range (0, 3) == 0 ? 0 : size_between (0.01, 3);
  solid->diameter_m = size_between (0.001, 30);
  solid->outer_diameter_m = size_between (0.002, 30);
  solid->inner_diameter_m = solid->outer_diameter_m * between (0.05, 0.99);
  if (kind == TRN_SOLID_BEAM)
    random_beam (solid);
  if (kind == TRN_SOLID_GROUND)
    random_ground (solid);
  if (kind == TRN_SOLID_OVERHEAD_LINE)
    random_line (solid);
  if (kind == TRN_SOLID_GROUP)
    random_group (solid);
  g_assert_true (trn_solid_check (solid, NULL, NULL));
  return solid;
}

/* ---- plane figures ---- */

/* A ring between two circles (inner 0: a disc). */
static TrnVec3
sample_ring (double inner, double outer, double z)
{
  double r = pick (inner, outer), angle = between (-G_PI, G_PI);
  if (g_test_rand_int_range (0, 8) == 0)
    angle = G_PI / 4 * g_test_rand_int_range (0, 8);
  return trn_vec3_make (r * cos (angle), r * sin (angle), z);
}

static double
distance_ring (double inner, double outer, TrnVec3 p)
{
  return outside (hypot (p.x, p.y), inner, outer);
}

/* A frame between two rectangles of half sizes (x, y) and (x + wall, y + wall). */
static TrnVec3
sample_frame (double x, double y, double wall, double z)
{
  double across = pick (x, x + wall), along = pick (-y - wall, y + wall);
  if (g_test_rand_bit ())
    across = -across;
  if (g_test_rand_bit ())
    return trn_vec3_make (across, along, z);
  across = pick (y, y + wall);
  return trn_vec3_make (pick (-x - wall, x + wall), g_test_rand_bit () ? across : -across, z);
}

static double
distance_rectangle (double x, double y, TrnVec3 p)
{
  return hypot (outside (p.x, -x, x), outside (p.y, -y, y));
}

/* How deep a point lies within an open rectangle; 0 outside. */
static double
depth_rectangle (double x, double y, TrnVec3 p)
{
  return fmax (fmin (x - fabs (p.x), y - fabs (p.y)), 0);
}

/* ---- beams ---- */

static void
beam_frame (const TrnSolid *solid, TrnVec3 axes[3], double *length)
{
  TrnVec3 way = trn_vec3_sub (solid->to, solid->from);
  *length = trn_vec3_length (way);
  axes[2] = trn_vec3_unit (way);
  TrnVec3 level = trn_vec3_cross (trn_vec3_make (0, 0, 1), axes[2]);
  if (trn_vec3_length (level) <= TRN_BEAM_VERTICAL)
    level = trn_vec3_cross (trn_vec3_cross (axes[2], trn_vec3_make (1, 0, 0)), axes[2]);
  axes[0] = trn_vec3_unit (level);
  axes[1] = trn_vec3_cross (axes[2], axes[0]);
}

static TrnVec3
sample_beam (const TrnSolid *solid)
{
  TrnVec3 axes[3];
  double length;
  beam_frame (solid, axes, &length);
  double w = 0.5 * solid->width_m, d = 0.5 * solid->depth_m;
  TrnVec3 p = trn_vec3_mix (solid->from, solid->to, pick (0, 1));
  p = trn_vec3_add_scaled (p, axes[0], pick (-w, w));
  return trn_vec3_add_scaled (p, axes[1], pick (-d, d));
}

static double
distance_beam (const TrnSolid *solid, TrnVec3 p)
{
  TrnVec3 axes[3];
  double length;
  beam_frame (solid, axes, &length);
  TrnVec3 q = trn_vec3_sub (p, solid->from);
  TrnVec3 local = { trn_vec3_dot (q, axes[0]), trn_vec3_dot (q, axes[1]), 0 };
  return hypot (distance_rectangle (0.5 * solid->width_m, 0.5 * solid->depth_m, local),
                outside (trn_vec3_dot (q, axes[2]), 0, length));
}

/* ---- the ground ---- */

static TrnVec3
opening_point (const TrnOpening *opening, TrnVec3 p)
{
  return trn_vec3_make (p.x - opening->x_m, p.y - opening->y_m, 0);
}

/* How deep a point lies within some opening. */
static double
depth_openings (const TrnSolid *solid, TrnVec3 p)
{
  for (guint i = 0; i < solid->n_openings; i++)
    {
      const TrnOpening *opening = &solid->openings[i];
      TrnVec3 q = opening_point (opening, p);
      double depth = opening->kind == TRN_OPENING_CIRCLE
                         ? 0.5 * opening->diameter_m - hypot (q.x, q.y)
                         : depth_rectangle (0.5 * opening->width_m, 0.5 * opening->height_m, q);
      if (depth > 0)
        return depth;
    }
  return 0;
}

/* Half of the points lie on the edge of an opening, if there is one. */
static TrnVec3
sample_ground (const TrnSolid *solid)
{
  double z = pick (-TRN_GROUND_THICKNESS_M, 0), x = 0.5 * solid->size.x, y = 0.5 * solid->size.y;
  if (solid->n_openings > 0 && g_test_rand_bit ())
    {
      const TrnOpening *opening
          = &solid->openings[g_test_rand_int_range (0, (gint32)solid->n_openings)];
      double r = 0.5 * opening->diameter_m;
      TrnVec3 p = opening->kind == TRN_OPENING_CIRCLE
                      ? sample_ring (r, r, z)
                      : sample_frame (0.5 * opening->width_m, 0.5 * opening->height_m, 0, z);
      return trn_vec3_add (p, trn_vec3_make (opening->x_m, opening->y_m, 0));
    }
  for (;;)
    {
      TrnVec3 p = trn_vec3_make (pick (-x, x), pick (-y, y), z);
      if (depth_openings (solid, p) <= 0)
        return p;
    }
}

static double
distance_ground (const TrnSolid *solid, TrnVec3 p)
{
  double plane = fmax (distance_rectangle (0.5 * solid->size.x, 0.5 * solid->size.y, p),
                       depth_openings (solid, p));
  return hypot (plane, outside (p.z, -TRN_GROUND_THICKNESS_M, 0));
}

/* ---- conductors ---- */

static TrnVec3
conductor_at (const TrnConductor *c, double t)
{
  TrnVec3 p = trn_vec3_mix (c->from, c->to, t);
  p.z -= c->sag_m * 4 * t * (1 - t);
  return p;
}

static TrnVec3
conductor_tangent (const TrnConductor *c, double t)
{
  TrnVec3 way = trn_vec3_sub (c->to, c->from);
  way.z -= c->sag_m * (4 - 8 * t);
  return trn_vec3_unit (way);
}

static TrnVec3
sample_line (const TrnSolid *solid)
{
  const TrnConductor *c
      = &solid->conductors[g_test_rand_int_range (0, (gint32)solid->n_conductors)];
  double t = g_test_rand_bit () ? pick (0, 1) : fabs (pick (0, 1) - size_between (1e-6, 1e-2));
  TrnVec3 tangent = conductor_tangent (c, t);
  TrnVec3 any = fabs (tangent.z) < 0.9 ? trn_vec3_make (0, 0, 1) : trn_vec3_make (1, 0, 0);
  TrnVec3 u = trn_vec3_unit (trn_vec3_cross (tangent, any)), v = trn_vec3_cross (tangent, u);
  TrnVec3 q = sample_ring (0, 0.5 * solid->diameter_m, 0);
  return trn_vec3_add_scaled (trn_vec3_add_scaled (conductor_at (c, t), u, q.x), v, q.y);
}

/* The nearest point of the curve: the best of 400, then golden section (Kiefer 1953). */
static double
conductor_nearest (const TrnConductor *c, TrnVec3 p)
{
  double best = 0, least = INFINITY;
  for (int i = 0; i <= 400; i++)
    {
      double d = trn_vec3_distance (p, conductor_at (c, i / 400.0));
      if (d < least)
        {
          least = d;
          best = i / 400.0;
        }
    }
  double lo = fmax (best - 1 / 400.0, 0), hi = fmin (best + 1 / 400.0, 1);
  for (int i = 0; i < 80; i++)
    {
      double a = lo + 0.381966 * (hi - lo), b = lo + 0.618034 * (hi - lo);
      if (trn_vec3_distance (p, conductor_at (c, a)) < trn_vec3_distance (p, conductor_at (c, b)))
        hi = b;
      else
        lo = a;
    }
  double t = 0.5 * (lo + hi);
  for (int end = 0; end < 2; end++)
    if (trn_vec3_distance (p, conductor_at (c, end)) <= trn_vec3_distance (p, conductor_at (c, t)))
      t = end;
  return t;
}

static double
distance_conductor (const TrnConductor *c, double radius, TrnVec3 p)
{
  double t = conductor_nearest (c, p);
  TrnVec3 q = trn_vec3_sub (p, conductor_at (c, t)), tangent = conductor_tangent (c, t);
  double along = trn_vec3_dot (q, tangent);
  double across = trn_vec3_length (trn_vec3_add_scaled (q, tangent, -along));
  gboolean end = t == 0 || t == 1;
  return hypot (end ? along : 0, fmax ((end ? across : trn_vec3_length (q)) - radius, 0));
}

static double
distance_line (const TrnSolid *solid, TrnVec3 p)
{
  double least = INFINITY;
  for (guint i = 0; i < solid->n_conductors; i++)
    least = fmin (least, distance_conductor (&solid->conductors[i], 0.5 * solid->diameter_m, p));
  return least;
}

/* ---- all kinds ---- */

/* The part of a group that @part names; @rest becomes the name within it. */
static const TrnSolidGroupPart *
group_part (const TrnSolid *solid, const char *part, const char **rest)
{
  for (guint i = 0; i < solid->n_parts; i++)
    {
      gsize length = strlen (solid->parts[i].id);
      if (strncmp (part, solid->parts[i].id, length) == 0)
        {
          *rest = part + length + (part[length] == '/');
          return &solid->parts[i];
        }
    }
  g_assert_not_reached ();
}

TrnVec3
true_solid_sample (const TrnSolid *solid, const char *part)
{
  double low = -solid->depth_m - solid->floor_m, wall = solid->wall_m;
  double x = 0.5 * solid->size.x, y = 0.5 * solid->size.y, r = 0.5 * solid->inner_diameter_m;
  gboolean floor = strcmp (part, "floor") == 0;
  double shaft_z = floor ? pick (low, -solid->depth_m) : pick (-solid->depth_m, 0);
  switch (solid->kind)
    {
    case TRN_SOLID_BOX:
      return trn_vec3_make (pick (-x, x), pick (-y, y), pick (0, solid->size.z));
    case TRN_SOLID_CYLINDER:
      return sample_ring (0, 0.5 * solid->diameter_m, pick (0, solid->height_m));
    case TRN_SOLID_TUBE:
      return sample_ring (r, 0.5 * solid->outer_diameter_m, pick (0, solid->height_m));
    case TRN_SOLID_ROUND_SHAFT:
      return sample_ring (floor ? 0 : r, r + wall, shaft_z);
    case TRN_SOLID_RECT_SHAFT:
      return floor ? trn_vec3_make (pick (-x - wall, x + wall), pick (-y - wall, y + wall), shaft_z)
                   : sample_frame (x, y, wall, shaft_z);
    case TRN_SOLID_BEAM:
      return sample_beam (solid);
    case TRN_SOLID_GROUND:
      return sample_ground (solid);
    case TRN_SOLID_OVERHEAD_LINE:
      return sample_line (solid);
    case TRN_SOLID_GROUP:
      break;
    }
  const TrnSolidGroupPart *inner = group_part (solid, part, &part);
  TrnPose pose = trn_pose_make (&inner->at);
  return trn_pose_apply (&pose, true_solid_sample (inner->solid, part));
}

double
true_solid_distance (const TrnSolid *solid, const char *part, TrnVec3 p)
{
  double low = -solid->depth_m - solid->floor_m, wall = solid->wall_m;
  double x = 0.5 * solid->size.x, y = 0.5 * solid->size.y, r = 0.5 * solid->inner_diameter_m;
  gboolean floor = strcmp (part, "floor") == 0;
  double shaft_h = floor ? outside (p.z, low, -solid->depth_m) : outside (p.z, -solid->depth_m, 0);
  switch (solid->kind)
    {
    case TRN_SOLID_BOX:
      return hypot (distance_rectangle (x, y, p), outside (p.z, 0, solid->size.z));
    case TRN_SOLID_CYLINDER:
      return hypot (distance_ring (0, 0.5 * solid->diameter_m, p),
                    outside (p.z, 0, solid->height_m));
    case TRN_SOLID_TUBE:
      return hypot (distance_ring (r, 0.5 * solid->outer_diameter_m, p),
                    outside (p.z, 0, solid->height_m));
    case TRN_SOLID_ROUND_SHAFT:
      return hypot (distance_ring (floor ? 0 : r, r + wall, p), shaft_h);
    case TRN_SOLID_RECT_SHAFT:
      return hypot (
          fmax (distance_rectangle (x + wall, y + wall, p), floor ? 0 : depth_rectangle (x, y, p)),
          shaft_h);
    case TRN_SOLID_BEAM:
      return distance_beam (solid, p);
    case TRN_SOLID_GROUND:
      return distance_ground (solid, p);
    case TRN_SOLID_OVERHEAD_LINE:
      return distance_line (solid, p);
    case TRN_SOLID_GROUP:
      break;
    }
  const TrnSolidGroupPart *inner = group_part (solid, part, &part);
  TrnPose pose = trn_pose_make (&inner->at);
  return true_solid_distance (inner->solid, part, trn_pose_apply_inverse (&pose, p));
}
