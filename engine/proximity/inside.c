/* inside.c: whether one mesh lies inside another.
 *
 * Used once for each pair of bodies and span of motion in which their surfaces do not meet: a
 * distance of surfaces alone would call a body that is swallowed whole clear.
 *
 * The winding number is the sum of the solid angles of the triangles, seen from the point, over a
 * whole sphere (A. van Oosterom, J. Strackee, The solid angle of a plane triangle, IEEE Trans.
 * Biomed. Eng. 30, 1983). It needs no ray that could hit an edge, and for closed pieces it is an
 * integer up to rounding. Where surfaces do not meet, one corner decides for a whole piece. */
#include "inside.h"

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

/* The boxes of the pieces of @mesh; for g_free(). */
static TrnBox *
piece_boxes_new (const TrnMesh *mesh, const TrnMeshCheck *check)
{
  TrnBox *boxes = g_new (TrnBox, check->n_pieces);
  for (guint32 i = 0; i < check->n_pieces; i++)
    boxes[i] = trn_box_empty ();
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    if (check->piece_of[i] != G_MAXUINT32)
      {
        TrnVec3 c[3];
        trn_mesh_corners (mesh, i, c);
        for (int k = 0; k < 3; k++)
          trn_box_add_point (&boxes[check->piece_of[i]], c[k]);
      }
  return boxes;
}

/* The winding number about @point; a piece whose box does not hold it adds nothing. */
static int
winding_number (const TrnMesh *mesh, const TrnMeshCheck *check, const TrnBox *boxes, TrnVec3 point)
{
  gboolean any = FALSE;
  gboolean *counts = g_new (gboolean, check->n_pieces);
  for (guint32 i = 0; i < check->n_pieces; i++)
    {
      gboolean parts = check->pieces[i].closed || check->pieces[i].balanced;
      counts[i] = parts && box_holds (&boxes[i], point);
      any = any || counts[i];
    }
  double sum = 0;
  for (guint32 i = 0; any && i < mesh->n_triangles; i++)
    {
      guint32 piece = check->piece_of[i];
      if (piece == G_MAXUINT32 || !counts[piece])
        continue;
      if (check->membrane[i] && !check->pieces[piece].closed)
        continue;
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      for (int k = 0; k < 3; k++)
        c[k] = trn_vec3_sub (c[k], point);
      sum += half_solid_angle (c[0], c[1], c[2]);
    }
  g_free (counts);
  return (int)lround (sum / (2 * G_PI));
}

int
trn_winding_number (const TrnMesh *mesh, const TrnMeshCheck *check, TrnVec3 point)
{
  if (!box_holds (&mesh->box, point))
    return 0;
  g_autofree TrnBox *boxes = piece_boxes_new (mesh, check);
  return winding_number (mesh, check, boxes, point);
}

/* Whether a piece of @inner, or what was left out of its pieces, lies inside the pieces of @outer.
 */
static gboolean
some_piece_is_inside (const TrnMesh *inner, const TrnMeshCheck *check_inner, const TrnMesh *outer,
                      const TrnMeshCheck *check_outer, const TrnPose *outer_from_inner)
{
  g_autofree TrnBox *boxes = piece_boxes_new (outer, check_outer);
  for (guint32 i = 0; i < check_inner->n_pieces + check_inner->n_loose; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (inner,
                        i < check_inner->n_pieces ? check_inner->pieces[i].first_triangle
                                                  : check_inner->loose[i - check_inner->n_pieces],
                        c);
      TrnVec3 point = trn_pose_apply (outer_from_inner, c[0]);
      if (box_holds (&outer->box, point) && winding_number (outer, check_outer, boxes, point) != 0)
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
trn_mesh_inside (const TrnMesh *a, const TrnMeshCheck *check_a, const TrnPose *site_from_a,
                 const TrnMesh *b, const TrnMeshCheck *check_b, const TrnPose *site_from_b)
{
  TrnPose b_from_a = trn_pose_relative (site_from_b, site_from_a);
  TrnPose a_from_b = trn_pose_relative (site_from_a, site_from_b);
  if (boxes_are_apart (a, b, &b_from_a))
    return TRN_INSIDE_NO;
  if (some_piece_is_inside (a, check_a, b, check_b, &b_from_a)
      || some_piece_is_inside (b, check_b, a, check_a, &a_from_b))
    return TRN_INSIDE_YES;
  return check_a->closed || check_b->closed ? TRN_INSIDE_NO : TRN_INSIDE_UNKNOWN;
}
