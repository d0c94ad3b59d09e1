#include "weld.h"

#include <string.h>

#define FIRST_ROOM 1024

gboolean
trn_weld_init (TrnWeld *weld)
{
  *weld = (TrnWeld){ .room = FIRST_ROOM, .n_slots = 2 * FIRST_ROOM };
  weld->points = g_try_new (double, 3 * weld->room);
  weld->slots = g_try_new0 (guint32, weld->n_slots);
  return weld->points != NULL && weld->slots != NULL;
}

void
trn_weld_clear (TrnWeld *weld)
{
  g_free (weld->slots);
  weld->slots = NULL;
}

/* The finaliser of splitmix64, over each coordinate in turn. */
static guint64
hash_point (const double point[3])
{
  guint64 hash = 0;
  for (int i = 0; i < 3; i++)
    {
      guint64 bits;
      memcpy (&bits, &point[i], sizeof bits);
      hash = (hash ^ bits) + 0x9e3779b97f4a7c15u;
      hash = (hash ^ (hash >> 30)) * 0xbf58476d1ce4e5b9u;
      hash = (hash ^ (hash >> 27)) * 0x94d049bb133111ebu;
      hash ^= hash >> 31;
    }
  return hash;
}

/* The slot that holds @point, or the free one where it belongs. */
static gsize
find_slot (const TrnWeld *weld, const double point[3])
{
  gsize mask = weld->n_slots - 1;
  gsize slot = hash_point (point) & mask;
  while (weld->slots[slot] != 0
         && memcmp (weld->points + 3 * (gsize)(weld->slots[slot] - 1), point, 3 * sizeof (double))
                != 0)
    slot = (slot + 1) & mask;
  return slot;
}

static gboolean
grow (TrnWeld *weld)
{
  guint32 *slots = g_try_new0 (guint32, 2 * weld->n_slots);
  double *points = g_try_renew (double, weld->points, 3 * 2 * weld->room);
  if (points != NULL)
    weld->points = points;
  if (slots == NULL || points == NULL)
    {
      g_free (slots);
      return FALSE;
    }
  g_free (weld->slots);
  weld->slots = slots;
  weld->n_slots *= 2;
  weld->room *= 2;
  for (guint32 i = 0; i < weld->n_points; i++)
    weld->slots[find_slot (weld, weld->points + 3 * (gsize)i)] = i + 1;
  return TRUE;
}

gboolean
trn_weld_add (TrnWeld *weld, const double point[3], guint32 *index)
{
  gsize slot = find_slot (weld, point);
  if (weld->slots[slot] == 0)
    {
      if (weld->n_points == weld->room)
        {
          if (!grow (weld))
            return FALSE;
          slot = find_slot (weld, point);
        }
      memcpy (weld->points + 3 * (gsize)weld->n_points, point, 3 * sizeof (double));
      weld->slots[slot] = ++weld->n_points;
    }
  *index = weld->slots[slot] - 1;
  return TRUE;
}
