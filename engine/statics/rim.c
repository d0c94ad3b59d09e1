/* A point comes in by taking the sides off that face it and joining it to what is left of the line.
 * Corners are never moved, so nothing is lost but the roundings of a turn. Whether a point is
 * inside is looked up in the fan from the first corner. */
#include "rim.h"

void
trn_rim_clear (TrnRim *rim)
{
  g_free (rim->point);
  rim->point = NULL;
  rim->n = rim->room = 0;
}

static void
make_room (TrnRim *rim, guint n)
{
  if (n <= rim->room)
    return;
  rim->room = MAX (n, MAX (16, 2 * rim->room));
  rim->point = g_renew (TrnPlanePoint, rim->point, rim->room);
}

void
trn_rim_copy (TrnRim *rim, const TrnRim *from)
{
  rim->off_m = from->off_m;
  make_room (rim, from->n);
  for (guint i = 0; i < from->n; i++)
    rim->point[i] = from->point[i];
  rim->n = from->n;
}

gboolean
trn_rim_holds (const TrnRim *rim, const TrnPlanePoint *point)
{
  const TrnPlanePoint *at = rim->point;
  if (rim->n < 2)
    return rim->n == 1 && trn_plane_off_segment (at, at, point) <= rim->off_m;
  if (rim->n == 2)
    return trn_plane_off_segment (&at[0], &at[1], point) <= rim->off_m;
  guint low = 1, high = rim->n - 1;
  while (low + 1 < high)
    {
      const guint middle = (low + high) / 2;
      if (trn_plane_turn (&at[0], &at[middle], point) >= 0)
        low = middle;
      else
        high = middle;
    }
  if (trn_plane_turn (&at[0], &at[low], point) >= 0
      && trn_plane_turn (&at[low], &at[low + 1], point) >= 0
      && trn_plane_turn (&at[low + 1], &at[0], point) >= 0)
    return TRUE;
  return trn_plane_off_segment (&at[low], &at[low + 1], point) <= rim->off_m
         || trn_plane_off_segment (&at[0], &at[1], point) <= rim->off_m
         || trn_plane_off_segment (&at[rim->n - 1], &at[0], point) <= rim->off_m;
}

/* Of two corners at most. */
static void
add_to_few (TrnRim *rim, const TrnPlanePoint *point)
{
  TrnPlanePoint all[3], hull[6];
  for (guint i = 0; i < rim->n; i++)
    all[i] = rim->point[i];
  all[rim->n] = *point;
  rim->n = trn_plane_hull (all, rim->n + 1, hull);
  make_room (rim, rim->n);
  for (guint i = 0; i < rim->n; i++)
    rim->point[i] = hull[i];
}

static gboolean
faces (const TrnRim *rim, guint side, const TrnPlanePoint *point)
{
  return trn_plane_turn (&rim->point[side], &rim->point[(side + 1) % rim->n], point) < 0;
}

gboolean
trn_rim_add (TrnRim *rim, const TrnPlanePoint *point)
{
  if (trn_rim_holds (rim, point))
    return FALSE;
  if (rim->n < 3)
    {
      add_to_few (rim, point);
      return TRUE;
    }
  double most = 0;
  guint first = 0, n_off = 1;
  for (guint i = 0; i < rim->n; i++)
    {
      const double turn = -trn_plane_turn (&rim->point[i], &rim->point[(i + 1) % rim->n], point);
      if (turn <= most)
        continue;
      most = turn;
      first = i;
    }
  if (most <= 0)
    return FALSE;
  while (n_off < rim->n - 1 && faces (rim, (first + n_off) % rim->n, point))
    n_off++;
  while (n_off < rim->n - 1 && faces (rim, (first + rim->n - 1) % rim->n, point))
    {
      first = (first + rim->n - 1) % rim->n;
      n_off++;
    }
  /* The corners from the end of the last side that goes to the beginning of the first. */
  const guint kept = rim->n - n_off + 1, begin = first + n_off;
  TrnPlanePoint *line = g_new (TrnPlanePoint, kept + 1);
  for (guint i = 0; i < kept; i++)
    line[i] = rim->point[(begin + i) % rim->n];
  line[kept] = *point;
  g_free (rim->point);
  rim->point = line;
  rim->n = rim->room = kept + 1;
  return TRUE;
}
