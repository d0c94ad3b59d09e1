/* The outermost in 26 directions are chosen first. Then one that is farther than a given depth from
 * the hull of the chosen ones, again and again, until there is none or there are as many as there
 * may be. The distance from the hull is found by a search (hull.h), which makes nearly all of the
 * time that a tree takes; so no candidate is measured again without need. */
#include "choice.h"

#include <math.h>
#include <string.h>

/* Few enough to be kept as they are. */
#define FEW_POINTS 32

/* A point not deeper in the hull than this, and than this share of the radius, is left out:
 * small against the width to which clearances are certified. */
#define LEFT_OUT_M 0.05e-3
#define LEFT_OUT_SHARE 1e-3

/* A distance that cannot have become less by more than this share is taken for what it was. */
#define HARDLY 0.02
/* What is this share of the farthest is chosen like the farthest. */
#define NEARLY 0.5

/* So few candidates are mostly chosen in any order without there being too many points. */
#define FEW_CANDIDATES 256

/* The candidates that are not chosen, each with what is known of its distance from the hull of the
 * chosen ones: an attained distance, which no later choice makes wrong, and a direction along which
 * the hull was seen beyond @beyond. As long as no point chosen since is nearer than that along the
 * direction, the distance is hardly less than it was: it need not be worked out again. */
typedef struct
{
  guint n, n_all;
  guint32 heap[TRN_CHOICE_MOST_CANDIDATES]; /* places in the arrays below, the greatest distance
                                               first */
  guint32 candidate[TRN_CHOICE_MOST_CANDIDATES];
  double distance[TRN_CHOICE_MOST_CANDIDATES];
  TrnHullWay way[TRN_CHOICE_MOST_CANDIDATES];
  float x[TRN_CHOICE_MOST_CANDIDATES], y[TRN_CHOICE_MOST_CANDIDATES], z[TRN_CHOICE_MOST_CANDIDATES],
      beyond[TRN_CHOICE_MOST_CANDIDATES];
  guint32 stale[TRN_CHOICE_MOST_CANDIDATES]; /* not 0: a choice has made it less, perhaps */
} Rest;

static void
blocks_set (TrnPoints8 *blocks, guint index, TrnVec3 p)
{
  TrnPoints8 *block = &blocks[index / 8];
  for (guint i = index % 8; i < 8; i++)
    {
      block->x[i] = (float)p.x;
      block->y[i] = (float)p.y;
      block->z[i] = (float)p.z;
    }
}

static void
choose (TrnChoice *choice, guint i)
{
  guint n = choice->n_chosen++;
  choice->taken[i] = TRUE;
  blocks_set (choice->blocks, n, choice->place[i]);
  choice->chosen[n] = choice->vertex[i];
  for (guint k = n + 1; k % 8 != 0; k++)
    choice->chosen[k] = TRN_CHOICE_NO_VERTEX;
}

#define WAYS 13 /* of the 26 directions: of two opposite ones the first */

/* How far @p is along (k % 3 − 1, k/3 % 3 − 1, k/9 − 1), k < WAYS. */
static inline void
go_along (TrnVec3 p, double along[WAYS])
{
  along[0] = -p.x - p.y - p.z;
  along[1] = -p.y - p.z;
  along[2] = p.x - p.y - p.z;
  along[3] = -p.x - p.z;
  along[4] = -p.z;
  along[5] = p.x - p.z;
  along[6] = -p.x + p.y - p.z;
  along[7] = p.y - p.z;
  along[8] = p.x + p.y - p.z;
  along[9] = -p.x - p.y;
  along[10] = -p.y;
  along[11] = p.x - p.y;
  along[12] = -p.x;
}

/* A direction and the one opposite to it are looked along at once. */
static void
choose_outermost (TrnChoice *choice)
{
  guint least_at[WAYS] = { 0 }, most_at[WAYS] = { 0 };
  double least[WAYS], most[WAYS], along[WAYS];
  for (guint k = 0; k < WAYS; k++)
    {
      least[k] = INFINITY;
      most[k] = -INFINITY;
    }
  for (guint i = 0; i < choice->n; i++)
    {
      go_along (choice->place[i], along);
      for (guint k = 0; k < WAYS; k++)
        {
          if (along[k] < least[k])
            {
              least[k] = along[k];
              least_at[k] = i;
            }
          if (along[k] > most[k])
            {
              most[k] = along[k];
              most_at[k] = i;
            }
        }
    }
  for (guint k = 0; k < WAYS; k++)
    if (!choice->taken[most_at[k]])
      choose (choice, most_at[k]);
  for (guint k = WAYS; k-- > 0;)
    if (!choice->taken[least_at[k]])
      choose (choice, least_at[k]);
}

static void
rest_start (Rest *rest, const TrnChoice *choice)
{
  rest->n = 0;
  for (guint i = 0; i < choice->n; i++)
    if (!choice->taken[i])
      {
        guint k = rest->n++;
        rest->candidate[k] = i;
        rest->heap[k] = k;
        rest->distance[k] = INFINITY;
        rest->way[k].n = 0;
        rest->x[k] = rest->y[k] = rest->z[k] = rest->beyond[k] = 0;
        rest->stale[k] = 1;
      }
  rest->n_all = rest->n;
}

/* Puts the first of the heap where it belongs. */
static void
rest_sift (Rest *rest)
{
  guint32 moved = rest->heap[0];
  guint at = 0;
  for (guint below; (below = 2 * at + 1) < rest->n; at = below)
    {
      if (below + 1 < rest->n
          && rest->distance[rest->heap[below + 1]] > rest->distance[rest->heap[below]])
        below++;
      if (rest->distance[rest->heap[below]] <= rest->distance[moved])
        break;
      rest->heap[at] = rest->heap[below];
    }
  rest->heap[at] = moved;
}

/* The distance of a candidate of the rest from the hull of the chosen points; hardly more than the
 * least unless that is at most @enough_m or more than @beyond_m. */
static double
rest_distance (const Rest *rest, guint k, const TrnChoice *choice, double enough_m, double beyond_m,
               TrnHullWay *way)
{
  TrnHull hull = { choice->blocks, (choice->n_chosen + 7) / 8, 0 };
  return trn_hull_point_distance (&hull, choice->place[rest->candidate[k]], enough_m, beyond_m,
                                  way);
}

/* Measures the first of the heap. Where it is farther than enough, and nearly as far as any other
 * can be, it stays the first, to be chosen. */
static void
rest_measure (Rest *rest, const TrnChoice *choice, double enough_m)
{
  guint k = rest->heap[0];
  double distance = rest_distance (rest, k, choice, enough_m, INFINITY, &rest->way[k]);
  TrnDirection seen = rest->way[k].direction;
  TrnVec3 way = { seen.x, seen.y, seen.z };
  rest->x[k] = seen.x;
  rest->y[k] = seen.y;
  rest->z[k] = seen.z;
  rest->beyond[k]
      = (float)(trn_vec3_dot (way, choice->place[rest->candidate[k]]) + (1 - HARDLY) * distance);
  rest->stale[k] = 0;
  rest->distance[k] = fmin (rest->distance[k], distance);
  double next = 0;
  for (guint i = 1; i <= 2 && i < rest->n; i++)
    next = fmax (next, rest->distance[rest->heap[i]]);
  if (choice->n_chosen == TRN_CHOICE_MOST_POINTS
      || rest->distance[k] <= fmax (enough_m, NEARLY * next))
    rest_sift (rest);
}

/* Chooses the first of the heap. */
static void
rest_choose (Rest *rest, TrnChoice *choice)
{
  guint32 candidate = rest->candidate[rest->heap[0]];
  choose (choice, candidate);
  rest->heap[0] = rest->heap[--rest->n];
  if (rest->n > 0)
    rest_sift (rest);
  TrnVec3 p = choice->place[candidate];
  float x = (float)p.x, y = (float)p.y, z = (float)p.z;
  for (guint k = 0; k < rest->n_all; k++)
    rest->stale[k] |= rest->x[k] * x + rest->y[k] * y + rest->z[k] * z < rest->beyond[k];
}

/* The candidate of the rest that is farthest out where @k, being outside, was seen from. */
static guint
rest_outermost (const Rest *rest, const TrnChoice *choice, guint k, TrnDirection seen)
{
  TrnVec3 n = { seen.x, seen.y, seen.z };
  guint best = k;
  double least = trn_vec3_dot (n, choice->place[rest->candidate[k]]);
  for (guint i = 0; i < rest->n; i++)
    {
      double v = trn_vec3_dot (n, choice->place[rest->candidate[i]]);
      if (v < least)
        {
          least = v;
          best = i;
        }
    }
  return best;
}

/* Those within @enough_m are left out as they come; for one that is not, the outermost on its side
 * is chosen, as in Quickhull (Barber, Dobkin, Huhdanpaa 1996). FALSE when that takes more than
 * TRN_CHOICE_MOST_POINTS. */
static gboolean
choose_outside (TrnChoice *choice, double enough_m)
{
  Rest rest;
  rest_start (&rest, choice);
  TrnHullWay way = { .n = 0 }; /* neighbours in the mesh mostly come one after another */
  while (rest.n > 0)
    {
      guint last = rest.n - 1;
      if (!(rest_distance (&rest, last, choice, enough_m, enough_m, &way) <= enough_m))
        {
          if (choice->n_chosen == TRN_CHOICE_MOST_POINTS)
            return FALSE;
          guint out = rest_outermost (&rest, choice, last, way.direction);
          choose (choice, rest.candidate[out]);
          rest.candidate[out] = rest.candidate[last];
        }
      rest.n--;
    }
  return TRUE;
}

/* Chooses until what is left out is nowhere farther than @enough_m from the hull, or there are
 * TRN_CHOICE_MOST_POINTS; what is left out is within the distance that is returned. */
static double
choose_farthest (TrnChoice *choice, double enough_m)
{
  Rest rest;
  rest_start (&rest, choice);
  for (;;)
    {
      double farthest = rest.n > 0 ? rest.distance[rest.heap[0]] : 0;
      if (farthest <= enough_m)
        return enough_m;
      if (rest.stale[rest.heap[0]])
        rest_measure (&rest, choice, enough_m);
      else if (choice->n_chosen == TRN_CHOICE_MOST_POINTS)
        return farthest;
      else
        rest_choose (&rest, choice);
    }
}

void
trn_choice_start (TrnChoice *choice, guint most)
{
  g_assert (most <= TRN_CHOICE_MOST_CANDIDATES);
  choice->n = 0;
  choice->n_chosen = 0;
  choice->n_slots = 32;
  while (choice->n_slots < 2 * most)
    choice->n_slots *= 2;
  memset (choice->slots, 0, choice->n_slots * sizeof choice->slots[0]);
}

void
trn_choice_add (TrnChoice *choice, guint32 vertex, TrnVec3 place)
{
  guint64 bits[3];
  TrnVec3 positive = trn_vec3_add (place, trn_vec3_make (0, 0, 0)); /* zeros have one sign */
  memcpy (bits, &positive, sizeof bits);
  guint64 mixed = (bits[0] * 3 + bits[1] * 5 + bits[2] * 7) * 0x9e3779b97f4a7c15u;
  guint slot = (guint)(mixed >> 40) & (choice->n_slots - 1);
  for (; choice->slots[slot] != 0; slot = (slot + 1) & (choice->n_slots - 1))
    {
      TrnVec3 other = choice->place[choice->slots[slot] - 1];
      if (other.x == place.x && other.y == place.y && other.z == place.z)
        return;
    }
  choice->vertex[choice->n] = vertex;
  choice->place[choice->n] = place;
  choice->taken[choice->n++] = FALSE;
  choice->slots[slot] = (guint16)choice->n;
}

double
trn_choice_make (TrnChoice *choice, double radius_m)
{
  if (choice->n <= FEW_POINTS)
    {
      for (guint i = 0; i < choice->n; i++)
        choose (choice, i);
      return 0;
    }
  choose_outermost (choice);
  double enough_m = fmin (LEFT_OUT_M, LEFT_OUT_SHARE * radius_m);
  if (choice->n <= FEW_CANDIDATES && choose_outside (choice, enough_m))
    return enough_m;
  if (choice->n <= FEW_CANDIDATES)
    {
      choice->n_chosen = 0;
      memset (choice->taken, 0, choice->n * sizeof choice->taken[0]);
      choose_outermost (choice);
    }
  return choose_farthest (choice, enough_m);
}
