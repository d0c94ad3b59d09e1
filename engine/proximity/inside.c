/* inside.c: whether one mesh lies inside another.
 *
 * Used once for each pair of bodies and span of motion in which their surfaces do not meet: a
 * distance of surfaces alone would call a body that is swallowed whole clear.
 *
 * The winding number about a point is the number of times that a ray from it leaves the surface
 * less the number of times that it enters it. The tree finds the few triangles near the ray. What a
 * triangle adds is decided by signs of volumes, each taken only where it is beyond its rounding
 * (ray.c); a ray for which one is not is given up for another, and after some tries the winding
 * number is the sum of the solid angles of the triangles over a whole sphere (A. van Oosterom, J.
 * Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed. Eng. 30, 1983), for closed
 * pieces an integer up to rounding. Where surfaces do not meet, one corner decides for a whole
 * piece.
 *
 * A piece that is inside out makes what it holds a hollow only where it lies wholly within another.
 * Where two that overlap cancel, nobody can tell which of them is wrong: that counts as inside. */
#include "inside.h"

#include <float.h>

#include "ray.h"
#include "triangle.h"

#define ALL_PIECES G_MAXUINT32

/* Directions along no axis and in no plane that a body is likely to have. */
static const TrnVec3 rays[] = { { 0.836142, 0.543219, 0.0761538 },
                                { -0.352941, 0.917647, 0.182353 },
                                { 0.182353, -0.294118, 0.938235 },
                                { -0.670588, -0.611765, -0.419412 } };

/* Half the solid angle of the triangle a b c seen from the origin, signed. */
static double
half_solid_angle (TrnVec3 a, TrnVec3 b, TrnVec3 c)
{
  double la = trn_vec3_length (a), lb = trn_vec3_length (b), lc = trn_vec3_length (c);
  double numerator = trn_vec3_dot (a, trn_vec3_cross (b, c));
  double denominator = la * lb * lc + trn_vec3_dot (a, b) * lc + trn_vec3_dot (b, c) * la
                       + trn_vec3_dot (c, a) * lb;
  return atan2 (numerator, denominator);
}

static gboolean
box_holds (const TrnBox *box, TrnVec3 p)
{
  return p.x >= box->lo.x && p.x <= box->hi.x && p.y >= box->lo.y && p.y <= box->hi.y
         && p.z >= box->lo.z && p.z <= box->hi.z;
}

/* Whether a triangle is part of what parts inside from outside about @point: of a closed piece, or
 * of a balanced one without its membranes, whose box holds the point. @only: a piece, or
 * ALL_PIECES. */
static gboolean
counts (const TrnMeshCheck *check, guint32 only, guint32 triangle, TrnVec3 point)
{
  guint32 index = check->piece_of[triangle];
  if (index == G_MAXUINT32 || (only != ALL_PIECES && index != only))
    return FALSE;
  const TrnMeshPiece *piece = &check->pieces[index];
  return (piece->closed || (piece->balanced && !check->membrane[triangle]))
         && box_holds (&piece->box, point);
}

static void
corners_from (const TrnMesh *mesh, guint32 triangle, TrnVec3 point, TrnVec3 c[3])
{
  trn_mesh_corners (mesh, triangle, c);
  for (int k = 0; k < 3; k++)
    c[k] = trn_vec3_sub (c[k], point);
}

static int
sum_of_angles (const TrnMesh *mesh, const TrnMeshCheck *check, guint32 only, TrnVec3 point)
{
  double sum = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    if (counts (check, only, i, point))
      {
        TrnVec3 c[3];
        corners_from (mesh, i, point, c);
        sum += half_solid_angle (c[0], c[1], c[2]);
      }
  return (int)lround (sum / (2 * G_PI));
}

/* Whether anything can count about @point. */
static gboolean
some_piece_holds (const TrnMeshCheck *check, TrnVec3 point)
{
  for (guint32 i = 0; i < check->n_pieces; i++)
    if ((check->pieces[i].closed || check->pieces[i].balanced)
        && box_holds (&check->pieces[i].box, point))
      return TRUE;
  return FALSE;
}

/* The winding number by one ray; FALSE where it cannot be told. */
static gboolean
count_crossings (const TrnBvh *bvh, const TrnMeshCheck *check, guint32 only, TrnVec3 point,
                 TrnVec3 d, int *sum)
{
  guint32 stack[(TRN_BVH_CHILDREN - 1) * TRN_BVH_MAX_DEPTH + TRN_BVH_CHILDREN];
  const TrnRay ray = trn_ray_make (point, d);
  guint n = 0;
  stack[n++] = 0;
  *sum = 0;
  while (n > 0)
    {
      const TrnBvhNode *node = &bvh->nodes[stack[--n]];
      const TrnVec3 to = trn_vec3_sub (trn_bvh_centre (node), point);
      const TrnHull hull = trn_bvh_hull (bvh, node);
      if (!trn_ray_meets_ball (&ray, to, hull.radius_m)
          || trn_ray_is_aside (&ray, to, &hull, (double)node->slack_m))
        continue;
      for (guint i = 0; i < node->n_children; i++)
        stack[n++] = node->child + i;
      for (guint32 i = 0; node->n_children == 0 && i < node->count; i++)
        {
          guint32 triangle = bvh->order[node->first + i];
          TrnVec3 c[3];
          int adds;
          if (!counts (check, only, triangle, point))
            continue;
          corners_from (bvh->mesh, triangle, point, c);
          if (!trn_ray_crossing (&ray, c, &adds))
            return FALSE;
          *sum += adds;
        }
    }
  return TRUE;
}

static int
winding_number (const TrnBvh *bvh, const TrnMeshCheck *check, guint32 only, TrnVec3 point)
{
  int sum;
  if (!box_holds (only == ALL_PIECES ? &bvh->mesh->box : &check->pieces[only].box, point))
    return 0;
  if (only == ALL_PIECES && !some_piece_holds (check, point))
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (rays); i++)
    if (count_crossings (bvh, check, only, point, rays[i], &sum))
      return sum;
  return sum_of_angles (bvh->mesh, check, only, point);
}

int
trn_winding_number (const TrnBvh *bvh, const TrnMeshCheck *check, TrnVec3 point)
{
  return winding_number (bvh, check, ALL_PIECES, point);
}

/* ---- hollows ---- */

/* Whether the triangle keeps clear of the piece @other of the same mesh. */
static gboolean
triangle_is_clear (const TrnBvh *bvh, const TrnMeshCheck *check, const TrnVec3 c[3], guint32 other)
{
  const TrnBox *box = &bvh->mesh->box;
  double size = fmax (trn_vec3_max_abs (box->lo), trn_vec3_max_abs (box->hi));
  double meets = 64 * (DBL_EPSILON / 2) * 2 * size; /* see triangle.h */
  double reach = fmax (trn_vec3_distance (c[0], c[1]), trn_vec3_distance (c[0], c[2]));
  guint32 stack[(TRN_BVH_CHILDREN - 1) * TRN_BVH_MAX_DEPTH + TRN_BVH_CHILDREN];
  guint n = 0;
  stack[n++] = 0;
  while (n > 0)
    {
      const TrnBvhNode *node = &bvh->nodes[stack[--n]];
      double off = trn_vec3_distance (trn_bvh_centre (node), c[0]);
      if (off * (1 - 1e-9) > reach + (double)node->radius_m + meets)
        continue;
      for (guint i = 0; i < node->n_children; i++)
        stack[n++] = node->child + i;
      for (guint32 i = 0; node->n_children == 0 && i < node->count; i++)
        {
          guint32 triangle = bvh->order[node->first + i];
          TrnVec3 d[3], on_c, on_d;
          if (check->piece_of[triangle] != other)
            continue;
          trn_mesh_corners (bvh->mesh, triangle, d);
          if (trn_triangle_distance (c, d, &on_c, &on_d) <= meets)
            return FALSE;
        }
    }
  return TRUE;
}

/* Whether the surface of the piece @inner lies wholly within the piece @outer of the same mesh. */
static gboolean
lies_within (const TrnBvh *bvh, const TrnMeshCheck *check, guint32 inner, guint32 outer)
{
  TrnVec3 c[3];
  trn_mesh_corners (bvh->mesh, check->pieces[inner].first_triangle, c);
  if (winding_number (bvh, check, outer, c[0]) != 1)
    return FALSE;
  for (guint32 i = 0; i < bvh->mesh->n_triangles; i++)
    {
      if (check->piece_of[i] != inner)
        continue;
      trn_mesh_corners (bvh->mesh, i, c);
      if (!triangle_is_clear (bvh, check, c, outer))
        return FALSE;
    }
  return TRUE;
}

/* Whether pieces that cancel each other about @point, which all of them together do not go round,
 * are something else than a solid with a hollow. */
static gboolean
cancels_wrongly (const TrnBvh *bvh, const TrnMeshCheck *check, TrnVec3 point)
{
  gboolean may_cancel = FALSE;
  for (guint32 i = 0; i < check->n_pieces && !may_cancel; i++)
    may_cancel = !(check->pieces[i].volume_m3 > 0) && box_holds (&check->pieces[i].box, point);
  if (!may_cancel)
    return FALSE;
  guint32 solid = ALL_PIECES, hollow = ALL_PIECES;
  for (guint32 i = 0; i < check->n_pieces; i++)
    {
      int turns = winding_number (bvh, check, i, point);
      if (turns == 1 && solid == ALL_PIECES)
        solid = i;
      else if (turns == -1 && hollow == ALL_PIECES)
        hollow = i;
      else if (turns != 0)
        return TRUE;
    }
  if (solid == ALL_PIECES && hollow == ALL_PIECES)
    return FALSE;
  return solid == ALL_PIECES || hollow == ALL_PIECES || !lies_within (bvh, check, hollow, solid);
}

/* ---- */

/* Whether a piece of @inner, or what was left out of its pieces, lies inside the pieces of @outer.
 */
static gboolean
some_piece_is_inside (const TrnMesh *inner, const TrnMeshCheck *check_inner, const TrnBvh *outer,
                      const TrnMeshCheck *check_outer, const TrnPose *outer_from_inner)
{
  for (guint32 i = 0; i < check_inner->n_pieces + check_inner->n_loose; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (inner,
                        i < check_inner->n_pieces ? check_inner->pieces[i].first_triangle
                                                  : check_inner->loose[i - check_inner->n_pieces],
                        c);
      TrnVec3 corner = trn_pose_apply (outer_from_inner, c[0]);
      if (trn_winding_number (outer, check_outer, corner) != 0
          || cancels_wrongly (outer, check_outer, corner))
        return TRUE;
    }
  return FALSE;
}

/* Whether the box of @a, turned into the frame of @b, keeps clear of the box of @b. */
static gboolean
boxes_are_apart (const TrnMesh *a, const TrnMesh *b, const TrnPose *b_from_a)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < 8; i++)
    trn_box_add_point (&box, trn_pose_apply (b_from_a, trn_box_corner (&a->box, i)));
  return box.lo.x > b->box.hi.x || box.lo.y > b->box.hi.y || box.lo.z > b->box.hi.z
         || box.hi.x < b->box.lo.x || box.hi.y < b->box.lo.y || box.hi.z < b->box.lo.z;
}

TrnInside
trn_mesh_inside (const TrnBvh *a, const TrnMeshCheck *check_a, const TrnPose *site_from_a,
                 const TrnBvh *b, const TrnMeshCheck *check_b, const TrnPose *site_from_b)
{
  TrnPose b_from_a = trn_pose_relative (site_from_b, site_from_a);
  TrnPose a_from_b = trn_pose_relative (site_from_a, site_from_b);
  if (boxes_are_apart (a->mesh, b->mesh, &b_from_a))
    return TRN_INSIDE_NO;
  if (some_piece_is_inside (a->mesh, check_a, b, check_b, &b_from_a)
      || some_piece_is_inside (b->mesh, check_b, a, check_a, &a_from_b))
    return TRN_INSIDE_YES;
  return check_a->closed || check_b->closed ? TRN_INSIDE_NO : TRN_INSIDE_UNKNOWN;
}
