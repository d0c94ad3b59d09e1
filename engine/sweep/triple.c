#include "triple.h"

#define MOST_STEPS 24 /* of the search for a direction */

static TrnDirection
direction_make (TrnVec3 n)
{
  return (TrnDirection){ (float)n.x, (float)n.y, (float)n.z };
}

static TrnVec3
direction_vector (TrnDirection n)
{
  return trn_vec3_make (n.x, n.y, n.z);
}

static TrnVec3
unit (TrnVec3 v)
{
  return trn_vec3_scale (v, 1 / trn_vec3_length (v));
}

static double
bend_loss (TrnVec3 n, gconstpointer bend)
{
  return trn_bend_loss (bend, n);
}

static const TrnSwept *
swept_get (TrnBounder *bounder, guint32 id, const TrnTime *time)
{
  TrnSwept *swept = &bounder->last;
  const TrnSpan *span = &time->span;
  if (swept->id == id && swept->time == time)
    return swept;
  swept->id = id;
  swept->time = time;
  trn_item_make (bounder->a, id, &swept->item);
  swept->centre[0] = trn_pose_apply (&span->pose0, swept->item.centre);
  swept->centre[1] = trn_pose_apply (&span->pose1, swept->item.centre);
  if (!bounder->bending.none)
    swept->bend = trn_bend_make (&bounder->bending, bounder->motion, span, swept->item.centre,
                                 swept->item.radius_m);
  return swept;
}

/* A proven lower bound for everything in a triple, and the direction it was found along. At any
 * time of the span every point of the body's hull is within its loss of the chord between its two
 * ends, seen along n, so that
 *   distance >= min over the points at both ends of n·x − max over the obstacle's of n·y − loss. */
void
trn_triple_bound (TrnBounder *bounder, TrnTriple *triple, double enough_m)
{
  const TrnSwept *a = swept_get (bounder, triple->a, triple->time);
  const TrnSpan *span = &triple->time->span;
  TrnItem b;
  trn_item_make (bounder->b, triple->b, &b);
  TrnHullPlaces places = { .n_poses = bounder->still ? 1 : 2,
                           .same_turn = bounder->motion->angle_rad == 0,
                           .turn = { &span->pose0.turn, &span->pose1.turn },
                           .centre = { trn_vec3_sub (a->centre[0], b.centre),
                                       trn_vec3_sub (a->centre[1], b.centre) } };
  double off = a->item.slack_m + b.slack_m + bounder->rounding_m;
  gboolean bends = !bounder->bending.none;
  TrnHullGap gap
      = trn_hull_separate (&a->item.hull, &places, &b.hull, direction_make (triple->n),
                           enough_m + off, MOST_STEPS, bends ? bend_loss : NULL, &a->bend);
  triple->n = direction_vector (gap.n);
  triple->bound_m = gap.gap_m - off;
  if (bends)
    triple->bound_m -= trn_bend_loss (&a->bend, unit (triple->n));
}

void
trn_triple_bound_at (const TrnBounder *bounder, TrnTriple *triple, const TrnPose *pose,
                     double enough_m, guint max_steps)
{
  TrnItem a, b;
  trn_item_make (bounder->a, triple->a, &a);
  trn_item_make (bounder->b, triple->b, &b);
  TrnHullPlaces places = { .n_poses = 1,
                           .turn = { &pose->turn },
                           .centre = { trn_vec3_sub (trn_pose_apply (pose, a.centre), b.centre) } };
  double off = a.slack_m + b.slack_m + bounder->rounding_m;
  TrnHullGap gap = trn_hull_separate (&a.hull, &places, &b.hull, direction_make (triple->n),
                                      enough_m + off, max_steps, NULL, NULL);
  triple->n = direction_vector (gap.n);
  triple->bound_m = gap.gap_m - off;
}

/* ---- triangles, in double precision ---- */

/* A direction seen from the body at both ends of a span. */
typedef struct
{
  TrnVec3 n; /* unit, obstacle frame */
  TrnVec3 from_body[2];
  double offset[2];
  guint n_poses;
} View;

static View
view_make (const TrnBounder *bounder, const TrnSpan *span, TrnVec3 n)
{
  View view = { .n = n, .n_poses = bounder->still ? 1 : 2 };
  const TrnPose *poses[2] = { &span->pose0, &span->pose1 };
  for (guint i = 0; i < view.n_poses; i++)
    {
      view.from_body[i] = trn_rotation_apply_inverse (&poses[i]->turn, n);
      view.offset[i] = trn_vec3_dot (n, poses[i]->position);
    }
  return view;
}

static inline double
least (double a, double b)
{
  return a < b ? a : b;
}

static double
lowest_corner (const TrnMesh *mesh, const View *view, guint32 triangle)
{
  TrnVec3 c[3];
  trn_mesh_corners (mesh, triangle, c);
  double low = INFINITY;
  for (guint i = 0; i < view->n_poses; i++)
    {
      TrnVec3 n = view->from_body[i];
      double here
          = least (trn_vec3_dot (n, c[0]), least (trn_vec3_dot (n, c[1]), trn_vec3_dot (n, c[2])));
      low = least (low, here + view->offset[i]);
    }
  return low;
}

static double
highest_corner (const TrnMesh *mesh, const View *view, guint32 triangle)
{
  TrnVec3 c[3], down = trn_vec3_scale (view->n, -1);
  trn_mesh_corners (mesh, triangle, c);
  return -least (trn_vec3_dot (down, c[0]),
                 least (trn_vec3_dot (down, c[1]), trn_vec3_dot (down, c[2])));
}

static double
loss_along (const TrnBounder *bounder, guint32 a, const TrnSpan *span, TrnVec3 n)
{
  if (bounder->bending.none)
    return bounder->rounding_m;
  TrnItem item;
  trn_item_make (bounder->a, a, &item);
  TrnBend bend
      = trn_bend_make (&bounder->bending, bounder->motion, span, item.centre, item.radius_m);
  return trn_bend_loss (&bend, n) + bounder->rounding_m;
}

void
trn_triple_bound_along (const TrnBounder *bounder, TrnTriple *triple)
{
  const TrnSpan *span = &triple->time->span;
  TrnVec3 n = unit (triple->n);
  View view = view_make (bounder, span, n);
  triple->bound_m = lowest_corner (bounder->a->mesh, &view, triple->a & ~TRN_ITEM_TRIANGLE)
                    - highest_corner (bounder->b->mesh, &view, triple->b & ~TRN_ITEM_TRIANGLE)
                    - loss_along (bounder, triple->a, span, n);
}

/* ---- splitting ---- */

guint
trn_triple_split (const TrnBounder *bounder, const TrnTriple *triple,
                  TrnTriple parts[TRN_ITEM_PARTS])
{
  gboolean split_a = trn_item_is_first_split (bounder->a, triple->a, bounder->b, triple->b);
  guint32 ids[TRN_ITEM_PARTS];
  guint n
      = trn_item_parts (split_a ? bounder->a : bounder->b, split_a ? triple->a : triple->b, ids);
  trn_item_fetch (split_a ? bounder->a : bounder->b, ids, n);
  for (guint i = 0; i < n; i++)
    {
      parts[i] = *triple;
      *(split_a ? &parts[i].a : &parts[i].b) = ids[i];
    }
  return n;
}
