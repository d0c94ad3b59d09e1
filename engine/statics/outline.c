/* What a convex body shows along a direction d, as a function of vectors in proportion to their
 * length, is half the sum of |d · n| over its faces n: it never exceeds the sum of what is shown
 * along the parts of which d is the sum. So
 *   a level direction between two that are δ apart is the sum of shares of both that are together
 * at most 1/cos (δ/2), and shows no more than the greater over cos (δ/2); a direction slanting by α
 * is cos α times a level one and sin α times the vertical. The hull of the picture is the picture
 * of the hull: Andrew's monotone chain (1979). */
#include "outline.h"

#include <stdlib.h>

#define HEADINGS 36 /* over half a turn: from behind a body shows as much */
#define OUTWARDS (1 + 1e-9)

typedef struct
{
  double u, v;
} Dot;

static int
compare (gconstpointer a, gconstpointer b)
{
  const Dot *p = a, *q = b;
  if (p->u != q->u)
    return p->u < q->u ? -1 : 1;
  return (p->v > q->v) - (p->v < q->v);
}

static double
side (Dot a, Dot b, Dot c)
{
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

static guint
add_chain (const Dot *dots, guint n, gboolean backwards, Dot *hull, guint used)
{
  const guint first = used;
  for (guint i = 0; i < n; i++)
    {
      const Dot p = dots[backwards ? n - 1 - i : i];
      while (used >= first + 2 && side (hull[used - 2], hull[used - 1], p) <= 0)
        used--;
      hull[used++] = p;
    }
  return used - 1;
}

/* Leaves out of @dots most that are no corners: those within the octagon of the farthest eight
 * ways. Returns how many are left. */
static guint
thin_out (Dot *dots, guint n)
{
  static const double ways[8][2]
      = { { 1, 0 }, { 1, 1 }, { 0, 1 }, { -1, 1 }, { -1, 0 }, { -1, -1 }, { 0, -1 }, { 1, -1 } };
  Dot far[8];
  guint left = 0;
  for (guint k = 0; k < 8; k++)
    {
      far[k] = dots[0];
      for (guint i = 1; i < n; i++)
        if ((dots[i].u - far[k].u) * ways[k][0] + (dots[i].v - far[k].v) * ways[k][1] > 0)
          far[k] = dots[i];
    }
  for (guint i = 0; i < n; i++)
    {
      gboolean is_within = TRUE;
      for (guint k = 0; k < 8 && is_within; k++)
        {
          const Dot a = far[k], b = far[(k + 1) % 8];
          is_within = (a.u == b.u && a.v == b.v) || side (a, b, dots[i]) > 0;
        }
      if (!is_within)
        dots[left++] = dots[i];
    }
  return left;
}

/* Changes @dots; @hull holds 2 n + 1. */
static double
hull_area (Dot *dots, guint n, Dot *hull)
{
  double twice = 0;
  if (n == 0)
    return 0;
  n = thin_out (dots, n);
  if (n < 3)
    return 0;
  qsort (dots, n, sizeof *dots, compare);
  guint corners = add_chain (dots, n, FALSE, hull, 0);
  corners = add_chain (dots, n, TRUE, hull, corners);
  for (guint i = 1; i + 1 < corners; i++)
    twice += side (hull[0], hull[i], hull[i + 1]);
  return 0.5 * twice;
}

TrnOutline
trn_outline_make (const TrnMesh *mesh, const TrnRotation *turn)
{
  const guint n = mesh->n_vertices;
  const TrnVec3 middle = trn_box_centre (&mesh->box);
  TrnOutline outline = { 0, 0 };
  g_autofree TrnVec3 *points = g_new (TrnVec3, n);
  g_autofree Dot *dots = g_new (Dot, n), *hull = g_new (Dot, 2 * n + 1);
  for (guint i = 0; i < n; i++)
    {
      points[i] = trn_rotation_apply (turn, trn_vec3_sub (mesh->vertices[i], middle));
      dots[i] = (Dot){ points[i].x, points[i].y };
    }
  outline.plan_m2 = hull_area (dots, n, hull) * OUTWARDS;
  for (guint k = 0; k < HEADINGS; k++)
    {
      const double c = cos (k * G_PI / HEADINGS), s = sin (k * G_PI / HEADINGS);
      for (guint i = 0; i < n; i++)
        dots[i] = (Dot){ points[i].y * c - points[i].x * s, points[i].z };
      outline.level_m2 = fmax (outline.level_m2, hull_area (dots, n, hull));
    }
  outline.level_m2 *= OUTWARDS / cos (0.5 * G_PI / HEADINGS);
  return outline;
}
