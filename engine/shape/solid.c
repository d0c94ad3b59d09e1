/* Solids with plane and circular faces; the ground and overhead lines have files of their own.
 *
 * A circle is replaced by a regular polygon: round it where the material is inside, in it where the
 * material is outside. Both walls of a tube take the number of facets that the outer one needs; for
 * the smaller circle the same angles deviate less. */
#include "solid-shaper.h"

TrnSolid *
trn_solid_new (TrnSolidKind kind)
{
  TrnSolid *solid = g_new0 (TrnSolid, 1);
  solid->kind = kind;
  solid->voltage_kv = NAN;
  return solid;
}

void
trn_solid_free (TrnSolid *solid)
{
  if (solid == NULL)
    return;
  for (guint i = 0; i < solid->n_parts; i++)
    {
      g_free (solid->parts[i].id);
      trn_solid_free (solid->parts[i].solid);
    }
  g_free (solid->parts);
  g_free (solid->openings);
  g_free (solid->conductors);
  g_free (solid);
}

const char *
trn_solid_kind_name (TrnSolidKind kind)
{
  switch (kind)
    {
    case TRN_SOLID_BOX:
      return "box";
    case TRN_SOLID_CYLINDER:
      return "cylinder";
    case TRN_SOLID_TUBE:
      return "tube";
    case TRN_SOLID_ROUND_SHAFT:
      return "round-shaft";
    case TRN_SOLID_RECT_SHAFT:
      return "rect-shaft";
    case TRN_SOLID_BEAM:
      return "beam";
    case TRN_SOLID_GROUND:
      return "ground";
    case TRN_SOLID_OVERHEAD_LINE:
      return "overhead-line";
    case TRN_SOLID_GROUP:
      return "group";
    }
  g_assert_not_reached ();
}

/* A sum of positive numbers, rounded up. */
static double
more (double sum)
{
  return sum * (1 + TRN_SOLID_ROUNDING);
}

/* ---- prisms and tubes, upright ---- */

/* The six faces between the lower and the upper ring of a box. */
static void
shape_box_faces (TrnShaper *shaper, const guint32 ring[2])
{
  trn_shaper_band (shaper, ring[0], ring[1], 4);
  for (guint32 i = 1; i < 3; i++)
    {
      trn_mesh_builder_triangle (shaper->builder, ring[0], ring[0] + i + 1, ring[0] + i);
      trn_mesh_builder_triangle (shaper->builder, ring[1], ring[1] + i, ring[1] + i + 1);
    }
}

static void
shape_rect_plate (TrnShaper *shaper, double half_x_m, double half_y_m, double bottom_m,
                  double top_m, const char *name)
{
  double pad = shaper->pad_m;
  trn_shaper_begin (shaper);
  guint32 ring[2];
  ring[0] = trn_shaper_rectangle (shaper, half_x_m + pad, half_y_m + pad, bottom_m - pad);
  ring[1] = trn_shaper_rectangle (shaper, half_x_m + pad, half_y_m + pad, top_m + pad);
  shape_box_faces (shaper, ring);
  trn_shaper_end (shaper, name);
}

static void
shape_round_plate (TrnShaper *shaper, double radius_m, double bottom_m, double top_m,
                   const char *name)
{
  double pad = shaper->pad_m;
  guint n = trn_shaper_facets (radius_m, TRN_SOLID_FACET_SHARE * shaper->deviation_m);
  double corner_m = more (radius_m + pad) / cos (G_PI / n);
  double z_m[2] = { bottom_m - pad, top_m + pad };
  guint32 ring[2], centre[2];
  trn_shaper_begin (shaper);
  for (int up = 0; up < 2; up++)
    {
      ring[up] = trn_shaper_circle (shaper, corner_m, n, z_m[up]);
      centre[up] = trn_shaper_vertex (shaper, trn_vec3_make (0, 0, z_m[up]));
    }
  trn_shaper_band (shaper, ring[0], ring[1], n);
  trn_shaper_cap (shaper, ring[0], n, centre[0], FALSE);
  trn_shaper_cap (shaper, ring[1], n, centre[1], TRUE);
  trn_shaper_end (shaper, name);
}

/* The four rings of a tube, in the order in which bands of outward faces join them. */
static void
shape_tube_bands (TrnShaper *shaper, const guint32 rings[4], guint n, const char *name)
{
  for (int i = 0; i < 4; i++)
    trn_shaper_band (shaper, rings[i], rings[(i + 1) % 4], n);
  trn_shaper_end (shaper, name);
}

static void
shape_round_tube (TrnShaper *shaper, double outer_m, double inner_m, double bottom_m, double top_m,
                  const char *name)
{
  double pad = shaper->pad_m;
  guint n = trn_shaper_facets (outer_m, TRN_SOLID_FACET_SHARE * shaper->deviation_m);
  double out = more (outer_m + pad) / cos (G_PI / n);
  double in = inner_m - pad - TRN_SOLID_ROUNDING * inner_m;
  trn_shaper_begin (shaper);
  guint32 rings[4];
  rings[0] = trn_shaper_circle (shaper, out, n, bottom_m - pad);
  rings[1] = trn_shaper_circle (shaper, out, n, top_m + pad);
  rings[2] = trn_shaper_circle (shaper, in, n, top_m + pad);
  rings[3] = trn_shaper_circle (shaper, in, n, bottom_m - pad);
  shape_tube_bands (shaper, rings, n, name);
}

static void
shape_rect_shaft (TrnShaper *shaper, const TrnSolid *solid)
{
  double pad = shaper->pad_m, depth = solid->depth_m;
  double in_x = 0.5 * solid->size.x, in_y = 0.5 * solid->size.y;
  double out_x = more (in_x + solid->wall_m), out_y = more (in_y + solid->wall_m);
  trn_shaper_begin (shaper);
  guint32 rings[4];
  rings[0] = trn_shaper_rectangle (shaper, out_x + pad, out_y + pad, -depth - pad);
  rings[1] = trn_shaper_rectangle (shaper, out_x + pad, out_y + pad, pad);
  rings[2] = trn_shaper_rectangle (shaper, in_x - pad, in_y - pad, pad);
  rings[3] = trn_shaper_rectangle (shaper, in_x - pad, in_y - pad, -depth - pad);
  shape_tube_bands (shaper, rings, 4, "wall");
  if (solid->floor_m > 0)
    shape_rect_plate (shaper, out_x, out_y, -more (depth + solid->floor_m), -depth, "floor");
}

static void
shape_round_shaft (TrnShaper *shaper, const TrnSolid *solid)
{
  double inner = 0.5 * solid->inner_diameter_m, outer = more (inner + solid->wall_m);
  double depth = solid->depth_m;
  shape_round_tube (shaper, outer, inner, -depth, 0, "wall");
  if (solid->floor_m > 0)
    shape_round_plate (shaper, outer, -more (depth + solid->floor_m), -depth, "floor");
}

/* ---- the beam ---- */

/* The frame of a beam: its direction, and where its width and its depth lie. Of a vertical beam the
 * width lies along +X, made square to a direction that may be out of plumb by TRN_BEAM_VERTICAL. */
static void
beam_axes (const TrnSolid *solid, TrnVec3 *along, TrnVec3 *wide, TrnVec3 *deep)
{
  TrnVec3 way = trn_vec3_sub (solid->to, solid->from);
  double level = hypot (way.x, way.y);
  *along = trn_vec3_unit (way);
  if (level > TRN_BEAM_VERTICAL * trn_vec3_length (way))
    *wide = trn_vec3_make (-way.y / level, way.x / level, 0);
  else
    *wide = trn_vec3_unit (trn_vec3_add_scaled (trn_vec3_make (1, 0, 0), *along, -along->x));
  *deep = trn_vec3_cross (*along, *wide);
}

static void
shape_beam (TrnShaper *shaper, const TrnSolid *solid)
{
  TrnVec3 along, wide, deep;
  beam_axes (solid, &along, &wide, &deep);
  double scale = fmax (trn_vec3_max_abs (solid->from), trn_vec3_max_abs (solid->to))
                 + solid->width_m + solid->depth_m;
  double pad = shaper->pad_m + TRN_SOLID_ROUNDING * scale;
  double half_w = 0.5 * solid->width_m + pad, half_d = 0.5 * solid->depth_m + pad;
  TrnVec3 end[2] = { trn_vec3_add_scaled (solid->from, along, -pad),
                     trn_vec3_add_scaled (solid->to, along, pad) };
  static const int corners[4][2] = { { -1, -1 }, { 1, -1 }, { 1, 1 }, { -1, 1 } };
  guint32 ring[2] = { 0, 0 };
  trn_shaper_begin (shaper);
  for (int up = 0; up < 2; up++)
    for (int i = 0; i < 4; i++)
      {
        TrnVec3 corner = trn_vec3_add_scaled (end[up], wide, corners[i][0] * half_w);
        corner = trn_vec3_add_scaled (corner, deep, corners[i][1] * half_d);
        guint32 vertex = trn_shaper_vertex (shaper, corner);
        if (i == 0)
          ring[up] = vertex;
      }
  shape_box_faces (shaper, ring);
  trn_shaper_end (shaper, "");
}

/* ---- groups, and all kinds ---- */

static void shape (TrnShaper *shaper, const TrnSolid *solid);

static void
shape_group (TrnShaper *shaper, const TrnSolid *solid)
{
  for (guint i = 0; i < solid->n_parts; i++)
    {
      const TrnSolidGroupPart *part = &solid->parts[i];
      g_autofree char *prefix
          = g_strconcat (shaper->prefix, *shaper->prefix ? "/" : "", part->id, NULL);
      TrnPose placed = trn_pose_make (&part->at);
      TrnShaper inner = *shaper;
      inner.prefix = prefix;
      inner.solid_from_local = trn_pose_multiply (&shaper->solid_from_local, &placed);
      shape (&inner, part->solid);
    }
}

static void
shape (TrnShaper *shaper, const TrnSolid *solid)
{
  switch (solid->kind)
    {
    case TRN_SOLID_BOX:
      shape_rect_plate (shaper, 0.5 * solid->size.x, 0.5 * solid->size.y, 0, solid->size.z, "");
      return;
    case TRN_SOLID_CYLINDER:
      shape_round_plate (shaper, 0.5 * solid->diameter_m, 0, solid->height_m, "");
      return;
    case TRN_SOLID_TUBE:
      shape_round_tube (shaper, 0.5 * solid->outer_diameter_m, 0.5 * solid->inner_diameter_m, 0,
                        solid->height_m, "");
      return;
    case TRN_SOLID_ROUND_SHAFT:
      shape_round_shaft (shaper, solid);
      return;
    case TRN_SOLID_RECT_SHAFT:
      shape_rect_shaft (shaper, solid);
      return;
    case TRN_SOLID_BEAM:
      shape_beam (shaper, solid);
      return;
    case TRN_SOLID_GROUND:
      trn_shaper_ground (shaper, solid);
      return;
    case TRN_SOLID_OVERHEAD_LINE:
      trn_shaper_overhead_line (shaper, solid);
      return;
    case TRN_SOLID_GROUP:
      shape_group (shaper, solid);
      return;
    }
  g_assert_not_reached ();
}

/* How far from its origin a solid reaches at most, generously. */
static double
reach (const TrnSolid *solid)
{
  double far = trn_vec3_length (solid->size) + solid->diameter_m + solid->outer_diameter_m
               + solid->inner_diameter_m + solid->height_m + solid->depth_m + solid->wall_m
               + solid->floor_m + solid->width_m + TRN_GROUND_THICKNESS_M
               + fmax (trn_vec3_length (solid->from), trn_vec3_length (solid->to));
  double farthest = 0;
  for (guint i = 0; i < solid->n_conductors; i++)
    {
      const TrnConductor *c = &solid->conductors[i];
      double end = fmax (trn_vec3_length (c->from), trn_vec3_length (c->to));
      farthest = fmax (farthest, end + c->sag_m);
    }
  for (guint i = 0; i < solid->n_parts; i++)
    {
      double at = trn_vec3_length (solid->parts[i].at.position);
      farthest = fmax (farthest, at + reach (solid->parts[i].solid));
    }
  return far + farthest;
}

static void
part_free (gpointer data)
{
  TrnSolidPart *part = data;
  trn_mesh_unref (part->mesh);
  g_free (part->id);
  g_free (part);
}

GPtrArray *
trn_solid_build (const TrnSolid *solid, double deviation_m)
{
  g_assert (deviation_m >= TRN_SOLID_LEAST_DEVIATION_M);
  g_assert (trn_solid_check (solid, NULL, NULL));
  TrnShaper shaper = {
    .parts = g_ptr_array_new_with_free_func (part_free),
    .prefix = "",
    .solid_from_local = trn_pose_identity (),
    .deviation_m = deviation_m,
    .pad_m = solid->kind == TRN_SOLID_GROUP ? TRN_SOLID_ROUNDING * reach (solid) : 0,
  };
  shape (&shaper, solid);
  return shaper.parts;
}
