/* Whether a solid can be built. All faults are told, not only the first, so that a plan can be put
 * right in one go. Sizes that are no numbers, or out of bounds, would only make nonsense of the
 * rules that relate them: those are looked at only where the numbers are in order. */
#include "solid-shaper.h"

#include <string.h>

typedef struct
{
  TrnSolidFault fault;
  gpointer data;
  GString *path; /* of the solid at hand, relative to the outermost */
  guint n_faults;
  guint levels; /* groups round the solid at hand */
} Check;

G_GNUC_PRINTF (3, 4)
static void
report (Check *check, const char *code, const char *format, ...)
{
  check->n_faults++;
  if (check->fault == NULL)
    return;
  va_list args;
  va_start (args, format);
  g_autofree char *tail = g_strdup_vprintf (format, args);
  va_end (args);
  g_autofree char *path = g_strconcat (check->path->str, tail, NULL);
  check->fault (code, path, check->data);
}

/* ---- numbers ---- */

static const char *
size_fault (double value)
{
  if (!isfinite (value))
    return "shape/not-finite";
  if (value <= 0)
    return "shape/not-positive";
  if (value < TRN_SOLID_LEAST_M)
    return "shape/too-small";
  return value > TRN_SOLID_GREATEST_M ? "shape/too-large" : NULL;
}

/* Of a value that may be 0. */
static const char *
amount_fault (double value)
{
  if (value < 0)
    return "shape/negative";
  return value == 0 ? NULL : size_fault (value);
}

static const char *
coordinate_fault (double value)
{
  if (!isfinite (value))
    return "shape/not-finite";
  return fabs (value) > TRN_SOLID_GREATEST_M ? "shape/too-large" : NULL;
}

/* These return TRUE when the number is in order. @path is the key's. */
static gboolean
check_size (Check *check, double value, const char *path)
{
  const char *code = size_fault (value);
  if (code != NULL)
    report (check, code, "%s", path);
  return code == NULL;
}

static gboolean
check_amount (Check *check, double value, const char *path)
{
  const char *code = amount_fault (value);
  if (code != NULL)
    report (check, code, "%s", path);
  return code == NULL;
}

static gboolean
check_point (Check *check, TrnVec3 point, const char *path)
{
  const double values[3] = { point.x, point.y, point.z };
  gboolean fine = TRUE;
  for (int i = 0; i < 3; i++)
    {
      const char *code = coordinate_fault (values[i]);
      if (code != NULL)
        report (check, code, "%s/%d", path, i);
      fine = fine && code == NULL;
    }
  return fine;
}

/* ---- kinds ---- */

static void
check_tube (Check *check, const TrnSolid *solid)
{
  gboolean fine = check_size (check, solid->outer_diameter_m, "/outer_diameter");
  fine = check_size (check, solid->inner_diameter_m, "/inner_diameter") && fine;
  check_size (check, solid->height_m, "/height");
  if (fine && solid->outer_diameter_m - solid->inner_diameter_m < 2 * TRN_SOLID_LEAST_M)
    report (check, "shape/inner-not-smaller", "/inner_diameter");
}

static void
check_shaft (Check *check, const TrnSolid *solid)
{
  if (solid->kind == TRN_SOLID_ROUND_SHAFT)
    check_size (check, solid->inner_diameter_m, "/inner_diameter");
  else
    {
      check_size (check, solid->size.x, "/size/0");
      check_size (check, solid->size.y, "/size/1");
    }
  check_size (check, solid->depth_m, "/depth");
  check_size (check, solid->wall_m, "/wall");
  check_amount (check, solid->floor_m, "/floor");
}

/* Checks the two ends of something long. */
static gboolean
check_ends (Check *check, TrnVec3 from, TrnVec3 to, const char *path)
{
  g_autofree char *from_path = g_strconcat (path, "/from", NULL);
  g_autofree char *to_path = g_strconcat (path, "/to", NULL);
  gboolean fine = check_point (check, from, from_path);
  fine = check_point (check, to, to_path) && fine;
  if (!fine || trn_vec3_distance (from, to) >= TRN_SOLID_LEAST_M)
    return fine;
  report (check, "shape/no-length", "%s", to_path);
  return FALSE;
}

/* The radius of curvature of a parabola with sag s over the level length L is least at its vertex,
 * L² / (8 s); it must be at least four times the radius of the conductor. And s ≤ L keeps the
 * slopes within what the number of pieces is meant for. */
static gboolean
sag_is_fine (const TrnConductor *conductor, double diameter_m)
{
  double level = hypot (conductor->to.x - conductor->from.x, conductor->to.y - conductor->from.y);
  return conductor->sag_m == 0
         || (conductor->sag_m <= level && 16 * diameter_m * conductor->sag_m <= level * level);
}

static void
check_overhead_line (Check *check, const TrnSolid *solid)
{
  gboolean fine = check_size (check, solid->diameter_m, "/diameter");
  if (!isnan (solid->voltage_kv) && !isfinite (solid->voltage_kv))
    report (check, "shape/not-finite", "/voltage_kv");
  else if (solid->voltage_kv <= 0)
    report (check, "shape/not-positive", "/voltage_kv");
  if (solid->n_conductors == 0)
    report (check, "shape/empty", "/conductors");
  if (solid->n_conductors > TRN_SOLID_MOST_ITEMS)
    {
      report (check, "shape/too-many", "/conductors");
      return;
    }
  for (guint i = 0; i < solid->n_conductors; i++)
    {
      const TrnConductor *conductor = &solid->conductors[i];
      g_autofree char *path = g_strdup_printf ("/conductors/%u", i);
      g_autofree char *sag = g_strconcat (path, "/sag", NULL);
      gboolean ends = check_ends (check, conductor->from, conductor->to, path);
      if (check_amount (check, conductor->sag_m, sag) && ends && fine
          && !sag_is_fine (conductor, solid->diameter_m))
        report (check, "shape/sag-too-great", "%s", sag);
    }
}

/* ---- the ground ---- */

static const char *
opening_key (const TrnOpening *opening)
{
  return opening->kind == TRN_OPENING_CIRCLE ? "circle" : "rect";
}

static gboolean
check_opening_numbers (Check *check, const TrnOpening *opening, guint index)
{
  gboolean circle = opening->kind == TRN_OPENING_CIRCLE;
  const char *codes[4] = {
    coordinate_fault (opening->x_m),
    coordinate_fault (opening->y_m),
    size_fault (circle ? opening->diameter_m : opening->width_m),
    circle ? NULL : size_fault (opening->height_m),
  };
  gboolean fine = TRUE;
  for (int i = 0; i < 4; i++)
    if (codes[i] != NULL)
      {
        report (check, codes[i], "/openings/%u/%s/%d", index, opening_key (opening), i);
        fine = FALSE;
      }
  return fine;
}

/* Half the extent of an opening's bounding rectangle along x and along y. */
static void
opening_half (const TrnOpening *opening, double *half_x, double *half_y)
{
  gboolean circle = opening->kind == TRN_OPENING_CIRCLE;
  *half_x = 0.5 * (circle ? opening->diameter_m : opening->width_m);
  *half_y = 0.5 * (circle ? opening->diameter_m : opening->height_m);
}

static gboolean
opening_inside (const TrnOpening *opening, TrnVec3 size)
{
  double half_x, half_y;
  opening_half (opening, &half_x, &half_y);
  return fabs (opening->x_m) + half_x <= 0.5 * size.x - TRN_SOLID_LEAST_M
         && fabs (opening->y_m) + half_y <= 0.5 * size.y - TRN_SOLID_LEAST_M;
}

/* Whether two openings keep the least gap. Each is a rectangle (a point, for a circle) grown by a
 * radius (0, for a rectangle): the gap is the distance of the rectangles less the radii. */
static gboolean
openings_apart (const TrnOpening *a, const TrnOpening *b)
{
  const TrnOpening *pair[2] = { a, b };
  double radius = 0, half_x = 0, half_y = 0;
  for (int i = 0; i < 2; i++)
    {
      gboolean circle = pair[i]->kind == TRN_OPENING_CIRCLE;
      radius += circle ? 0.5 * pair[i]->diameter_m : 0;
      half_x += circle ? 0 : 0.5 * pair[i]->width_m;
      half_y += circle ? 0 : 0.5 * pair[i]->height_m;
    }
  double dx = fmax (fabs (a->x_m - b->x_m) - half_x, 0);
  double dy = fmax (fabs (a->y_m - b->y_m) - half_y, 0);
  return hypot (dx, dy) >= radius + TRN_SOLID_LEAST_M;
}

static void
check_ground (Check *check, const TrnSolid *solid)
{
  gboolean sized = check_size (check, solid->size.x, "/size/0");
  sized = check_size (check, solid->size.y, "/size/1") && sized;
  if (solid->n_openings > TRN_SOLID_MOST_ITEMS)
    {
      report (check, "shape/too-many", "/openings");
      return;
    }
  g_autofree gboolean *fine = g_new0 (gboolean, solid->n_openings + 1);
  for (guint i = 0; i < solid->n_openings; i++)
    {
      const TrnOpening *opening = &solid->openings[i];
      fine[i] = check_opening_numbers (check, opening, i);
      if (fine[i] && sized && !opening_inside (opening, solid->size))
        report (check, "shape/opening-outside", "/openings/%u/%s", i, opening_key (opening));
      for (guint k = 0; fine[i] && k < i; k++)
        if (fine[k] && !openings_apart (&solid->openings[k], opening))
          {
            report (check, "shape/openings-meet", "/openings/%u/%s", i, opening_key (opening));
            break;
          }
    }
}

/* ---- groups ---- */

static void check_solid (Check *check, const TrnSolid *solid);

static gboolean
id_is_fine (const char *id)
{
  const char *letters = "abcdefghijklmnopqrstuvwxyz0123456789-";
  return id != NULL && *id != '\0' && *id != '-' && id[strspn (id, letters)] == '\0';
}

static void
check_part (Check *check, const TrnSolidGroupPart *part, guint index)
{
  const double turn[3] = { part->at.heading_rad, part->at.pitch_rad, part->at.roll_rad };
  g_autofree char *at = g_strdup_printf ("/parts/%u/at/position", index);
  check_point (check, part->at.position, at);
  for (int i = 0; i < 3; i++)
    if (!isfinite (turn[i]))
      report (check, "shape/not-finite", "/parts/%u/at/turn/%d", index, i);

  gsize length = check->path->len;
  g_string_append_printf (check->path, "/parts/%u/solid", index);
  check_solid (check, part->solid);
  g_string_truncate (check->path, length);
}

static void
check_group (Check *check, const TrnSolid *solid)
{
  if (check->levels == TRN_SOLID_MOST_LEVELS)
    {
      report (check, "shape/too-deep", "/parts");
      return;
    }
  if (solid->n_parts == 0)
    report (check, "shape/empty", "/parts");
  if (solid->n_parts > TRN_SOLID_MOST_ITEMS)
    {
      report (check, "shape/too-many", "/parts");
      return;
    }
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  check->levels++;
  for (guint i = 0; i < solid->n_parts; i++)
    {
      if (!id_is_fine (solid->parts[i].id))
        report (check, "shape/bad-part-id", "/parts/%u/id", i);
      else if (!g_hash_table_add (ids, solid->parts[i].id))
        report (check, "shape/same-part-id", "/parts/%u/id", i);
      check_part (check, &solid->parts[i], i);
    }
  check->levels--;
}

/* ---- all kinds ---- */

static void
check_solid (Check *check, const TrnSolid *solid)
{
  switch (solid->kind)
    {
    case TRN_SOLID_BOX:
      check_size (check, solid->size.x, "/size/0");
      check_size (check, solid->size.y, "/size/1");
      check_size (check, solid->size.z, "/size/2");
      return;
    case TRN_SOLID_CYLINDER:
      check_size (check, solid->diameter_m, "/diameter");
      check_size (check, solid->height_m, "/height");
      return;
    case TRN_SOLID_TUBE:
      check_tube (check, solid);
      return;
    case TRN_SOLID_ROUND_SHAFT:
    case TRN_SOLID_RECT_SHAFT:
      check_shaft (check, solid);
      return;
    case TRN_SOLID_BEAM:
      check_ends (check, solid->from, solid->to, "");
      check_size (check, solid->width_m, "/width");
      check_size (check, solid->depth_m, "/depth");
      return;
    case TRN_SOLID_GROUND:
      check_ground (check, solid);
      return;
    case TRN_SOLID_OVERHEAD_LINE:
      check_overhead_line (check, solid);
      return;
    case TRN_SOLID_GROUP:
      check_group (check, solid);
      return;
    }
  g_assert_not_reached ();
}

/* About how many triangles a solid takes at the finest deviation: facets times faces. */
static double
most_triangles (const TrnSolid *solid)
{
  const double d = TRN_SOLID_LEAST_DEVIATION_M, share = TRN_SOLID_FACET_SHARE * d;
  double sum = 48; /* boxes, beams and the edges of plates and shafts */
  if (solid->kind == TRN_SOLID_CYLINDER)
    sum += 4.0 * trn_shaper_facets (0.5 * solid->diameter_m, share);
  if (solid->kind == TRN_SOLID_TUBE)
    sum += 8.0 * trn_shaper_facets (0.5 * solid->outer_diameter_m, share);
  if (solid->kind == TRN_SOLID_ROUND_SHAFT)
    sum += 12.0 * trn_shaper_facets (0.5 * solid->inner_diameter_m + solid->wall_m, share);
  for (guint i = 0; i < solid->n_openings; i++)
    if (solid->openings[i].kind == TRN_OPENING_CIRCLE)
      sum += 4.0 * trn_shaper_facets (0.5 * solid->openings[i].diameter_m, share);
    else
      sum += 16;
  for (guint i = 0; i < solid->n_conductors; i++)
    {
      guint n_pieces, n_facets;
      trn_shaper_line_divide (&solid->conductors[i], 0.5 * solid->diameter_m, d, &n_pieces,
                              &n_facets);
      sum += 2.0 * n_facets * (n_pieces + 1.0);
    }
  for (guint i = 0; i < solid->n_parts; i++)
    sum += most_triangles (solid->parts[i].solid);
  return sum;
}

gboolean
trn_solid_check (const TrnSolid *solid, TrnSolidFault fault, gpointer data)
{
  g_autoptr (GString) path = g_string_new (NULL);
  Check check = { .fault = fault, .data = data, .path = path };
  check_solid (&check, solid);
  if (check.n_faults == 0 && most_triangles (solid) > TRN_SOLID_MOST_TRIANGLES)
    report (&check, "shape/too-many-triangles", "%s", "");
  return check.n_faults == 0;
}
