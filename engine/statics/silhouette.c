/* Branch and bound over directions; of two opposite ones one will do, since from behind the outline
 * is mirrored. Patches of the greatest bounds are halved, some at a time, until no bound is much
 * more than what is seen along some direction of a band.
 *
 * TrnConvex functions bound a patch by what they come to at its corners, which neighbours share, so
 * that each corner is looked at once (silhouette-patch.c). They lead as far as the greatest of what
 * they come to. What the body itself shows there is seen from all of its triangles; where that is
 * much less, pictures of patches go on. */
#include "silhouette.h"

#include "parallel.h"
#include "silhouette-patch.h"

#define NEAR_ENOUGH 0.003
#define CONVEX_ENOUGH 0.01
#define SEEN_ROWS 1024u
#define THICK_SHARE (1.0 / 4000)
#define COARSE_SHARE (1.0 / 400)
#define MOST_CONVEX_CUTS 400u
#define MANY_TRIANGLES 20000u
#define MANY_ENOUGH 0.12
#define AT_ONCE 8u
#define MOST_LOOKS 2u
#define MANY_POINTS 20000u
/* In all, so many points are placed in pictures, within bounds. */
#define MOST_POINTS 8000000.0
#define LEAST_CUTS 40u
#define MOST_CUTS 400u
/* Where a convex function is less than so many times what is seen there is no need of a picture. */
#define AS_SEEN 1.005
/* Tangents: coarse facets do, and pictures are worth nothing. */
#define COARSE 0.04
#define MOST_GROWN 0.3

#define TURN_STEPS 16
#define AS_LITTLE 1.02
#define MUCH 0.9

typedef struct
{
  gboolean is_closed;
  TrnConvexWants wants;
  double slack_m;
  TrnConvex more; /* that slack makes of each, along vectors of length 1 */
} Body;

/* What comes of halving one patch, or of a first look at it. Coarse facets are enough where much is
 * grown; both wait until pictures are wanted. */
typedef struct
{
  const Body *body;
  TrnPicture *coarse, *fine;
  TrnConvexRoom room;
  TrnPatch patch, halves[2];
  guint n_halves;
  double enough_m2;    /* no need to go below that */
  double most_seen_m2; /* so far */
  gboolean is_looked_at, with_pictures;
  double seen_m2;
  TrnVec3 direction;
} Cut;

static TrnConvex
convex_along (Cut *cut, const TrnSight *sight)
{
  const Body *body = cut->body;
  const TrnConvexAreas areas = trn_convex_areas (&cut->room, sight, body->is_closed, body->wants);
  const TrnConvex *more = &body->more;
  return (TrnConvex){ { areas.hull_m2 + more->m2[0], areas.slabs_m2 + more->m2[1],
                        areas.sum_m2 + more->m2[2] },
                      areas.shared_m2 };
}

/* What is grown by need not be seen finely. */
static guint
rows_for (const TrnSight *sight)
{
  const double by = fmax (sight->across_by, sight->up_by);
  return by > 0.05 ? 256 : SEEN_ROWS;
}

static void
bound (Cut *cut, TrnPatch *patch)
{
  const TrnSight sight = trn_patch_sight (patch);
  trn_patch_bound_convex (patch);
  if (!cut->with_pictures || patch->bound_m2 <= cut->enough_m2
      || trn_patch_middle_m2 (patch) <= AS_SEEN * cut->most_seen_m2)
    return;
  const double by = fmax (sight.across_by, sight.up_by);
  const gboolean is_coarse = by > COARSE;
  if (by > MOST_GROWN)
    return;
  const double pictured_m2 = trn_picture_bound_m2 (is_coarse ? cut->coarse : cut->fine, &sight,
                                                   cut->body->slack_m, rows_for (&sight));
  patch->bound_m2 = fmin (patch->bound_m2, pictured_m2);
}

static double
seen_m2 (Cut *cut, TrnPicture *picture, const TrnSight *sight)
{
  const TrnConvex convex = convex_along (cut, sight);
  double seen = trn_picture_bound_m2 (picture, sight, cut->body->slack_m, SEEN_ROWS);
  for (guint i = 0; i < TRN_CONVEX_N; i++)
    seen = fmin (seen, convex.m2[i] - (i == TRN_CONVEX_SLABS ? fabs (convex.shared_m2) : 0));
  return seen;
}

/* What the patch shows in its middle, if that may be more than what was seen so far. */
static void
see (Cut *cut)
{
  const TrnSight sight = trn_patch_middle (&cut->patch);
  cut->seen_m2 = 0;
  cut->direction = sight.along;
  if (cut->is_looked_at && trn_patch_middle_m2 (&cut->patch) * AS_SEEN >= cut->most_seen_m2)
    cut->seen_m2 = seen_m2 (cut, cut->fine, &sight);
}

/* Their corners are there already. */
static void
bound_halves (guint index, gpointer data)
{
  Cut *cut = (Cut *)data + index;
  see (cut);
  for (guint i = 0; i < cut->n_halves; i++)
    bound (cut, &cut->halves[i]);
}

/* ---- corners ---- */

typedef struct
{
  const TrnSilhouetteBand *band;
  double turn, rise;
} Corner;

typedef struct
{
  Corner at;
  TrnConvex convex;
} Looked;

typedef struct
{
  GArray *patches;
  Cut *cuts;
  guint jobs;
  GHashTable *looked; /* Looked by Corner: itself */
  GPtrArray *wanted;  /* of Looked, in order */
  TrnSilhouette *worst;
  double most_convex_m2; /* that convex functions come to in a corner */
} Search;

static guint
hash_corner (gconstpointer key)
{
  const Corner *corner = key;
  return (guint)(gint64)(corner->turn * 1e9) * 31 + (guint)(gint64)(corner->rise * 1e9);
}

static gboolean
same_corner (gconstpointer a, gconstpointer b)
{
  const Corner *p = a, *q = b;
  return p->band == q->band && p->turn == q->turn && p->rise == q->rise;
}

static Corner
corner_of (const TrnPatch *patch, guint corner)
{
  return (Corner){ patch->band, corner & 1 ? patch->whole.hi : patch->whole.lo,
                   corner & 2 ? patch->rise.hi : patch->rise.lo };
}

static void
want (Search *search, Corner corner)
{
  if (g_hash_table_contains (search->looked, &corner))
    return;
  Looked *looked = g_new0 (Looked, 1);
  looked->at = corner;
  g_hash_table_add (search->looked, looked);
  g_ptr_array_add (search->wanted, looked);
}

typedef struct
{
  Cut *cuts;
  Looked **looked;
} Look;

static void
look (guint index, gpointer data)
{
  const Look *all = data;
  Looked *looked = all->looked[index];
  const TrnSight sight = trn_patch_sight_at (looked->at.band, looked->at.turn, looked->at.rise);
  looked->convex = convex_along (&all->cuts[index], &sight);
}

static void
look_at_wanted (Search *search)
{
  for (guint from = 0; from < search->wanted->len; from += AT_ONCE)
    {
      Look all = { search->cuts, (Looked **)search->wanted->pdata + from };
      trn_parallel_for (MIN (AT_ONCE, search->wanted->len - from), search->jobs, look, &all);
    }
  g_ptr_array_set_size (search->wanted, 0);
}

static TrnConvex
looked_at (const Search *search, Corner corner)
{
  return ((const Looked *)g_hash_table_lookup (search->looked, &corner))->convex;
}

static void
set_corners (Search *search, TrnPatch *patch)
{
  for (guint i = 0; i < 4; i++)
    patch->corners[i] = looked_at (search, corner_of (patch, i));
  for (guint i = 0; i < 4; i++)
    search->most_convex_m2
        = fmax (search->most_convex_m2, trn_patch_least_m2 (patch, i, TRN_CONVEX_N));
}

/* ---- the search ---- */

static int
compare_bounds (gconstpointer a, gconstpointer b)
{
  const TrnPatch *p = a, *q = b;
  return p->bound_m2 > q->bound_m2 ? -1 : p->bound_m2 < q->bound_m2;
}

/* What a patch has of its band. */
static void
set_band (const Search *search, TrnPatch *patch)
{
  const TrnConvex up = looked_at (search, (Corner){ patch->band, G_PI / 2, 0 }),
                  across = looked_at (search, (Corner){ patch->band, 0, 0 });
  patch->axis = looked_at (search, (Corner){ patch->band, 0, G_PI / 2 });
  for (guint i = 0; i < TRN_CONVEX_N; i++)
    {
      const gboolean with = i == TRN_CONVEX_SLABS;
      patch->square.m2[i] = hypot (up.m2[i] + with * fabs (up.shared_m2),
                                   across.m2[i] + with * fabs (across.shared_m2));
    }
  patch->axis.m2[TRN_CONVEX_SLABS] += fabs (patch->axis.shared_m2);
}

static void
look_at_first (Search *search)
{
  TrnPatch *patches = (TrnPatch *)(void *)search->patches->data;
  for (guint i = 0; i < search->patches->len; i++)
    {
      want (search, (Corner){ patches[i].band, G_PI / 2, 0 });
      want (search, (Corner){ patches[i].band, 0, 0 });
      want (search, (Corner){ patches[i].band, 0, G_PI / 2 });
      for (guint k = 0; k < 4; k++)
        want (search, corner_of (&patches[i], k));
    }
  look_at_wanted (search);
  for (guint i = 0; i < search->patches->len; i++)
    {
      set_band (search, &patches[i]);
      set_corners (search, &patches[i]);
      trn_patch_bound_convex (&patches[i]);
    }
}

/* Whether one of the convex functions is less than the others, or about as much, where they come to
 * much. The sum takes a look at all triangles, the hull at all slabs. */
static gboolean
is_of_use (const GArray *patches, guint which)
{
  double most_m2 = 0;
  for (guint i = 0; i < 4 * patches->len; i++)
    most_m2 = fmax (most_m2, trn_patch_least_m2 (&g_array_index (patches, TrnPatch, i / 4), i % 4,
                                                 TRN_CONVEX_N));
  for (guint i = 0; i < 4 * patches->len; i++)
    {
      const TrnPatch *patch = &g_array_index (patches, TrnPatch, i / 4);
      const double others_m2 = trn_patch_least_m2 (patch, i % 4, which);
      if (trn_patch_corner_m2 (patch, i % 4, which) < AS_LITTLE * others_m2
          && others_m2 > MUCH * most_m2)
        return TRUE;
    }
  return FALSE;
}

/* Takes the greatest off @patches, which are cut into their parts; returns their number. */
static guint
take_greatest (GArray *patches, double enough_m2, Cut *cuts)
{
  guint n = 0;
  g_array_sort (patches, compare_bounds);
  while (n < AT_ONCE && n < patches->len
         && g_array_index (patches, TrnPatch, n).bound_m2 > enough_m2)
    {
      cuts[n].patch = g_array_index (patches, TrnPatch, n);
      n++;
    }
  g_array_remove_range (patches, 0, n);
  return n;
}

/* Where the band has little of the turns, the corners move to where that is, in steps. */
static void
tighten (TrnPatch *patch)
{
  const double width = trn_interval_width (patch->whole), step = width / TURN_STEPS;
  if (trn_interval_width (patch->turn) > 0.5 * width)
    return;
  const double lo = patch->whole.lo;
  const double from = lo + step * floor ((patch->turn.lo - lo) / step),
               to = lo + step * ceil ((patch->turn.hi - lo) / step);
  patch->whole.lo = fmin (patch->turn.lo, fmax (patch->whole.lo, from));
  patch->whole.hi = fmax (patch->turn.hi, fmin (patch->whole.hi, to));
}

static void
halve (Cut *cut)
{
  const TrnPatch *patch = &cut->patch;
  const double rise = trn_interval_middle (patch->rise), turn = trn_interval_middle (patch->whole);
  const gboolean across
      = trn_interval_width (patch->turn) * cos (rise) > trn_interval_width (patch->rise);
  TrnPatch halves[2] = { *patch, *patch };
  *(across ? &halves[0].whole.hi : &halves[0].rise.hi) = across ? turn : rise;
  *(across ? &halves[1].whole.lo : &halves[1].rise.lo) = across ? turn : rise;
  cut->n_halves = 0;
  for (guint i = 0; i < 2; i++)
    {
      TrnPatch *half = &halves[i];
      const TrnInterval turns = trn_patch_turns (half->band, half->rise);
      half->turn
          = (TrnInterval){ fmax (half->whole.lo, turns.lo), fmin (half->whole.hi, turns.hi) };
      if (half->turn.lo > half->turn.hi)
        continue;
      tighten (half);
      cut->halves[cut->n_halves++] = *half;
    }
}

static void
look_at_halves (Search *search, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      Cut *cut = &search->cuts[i];
      halve (cut);
      for (guint k = 0; k < 4 * cut->n_halves; k++)
        want (search, corner_of (&cut->halves[k / 4], k % 4));
    }
  look_at_wanted (search);
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < search->cuts[i].n_halves; k++)
      set_corners (search, &search->cuts[i].halves[k]);
}

/* Halves the greatest ones; FALSE when there is no need. */
static gboolean
go_on (Search *search, double least_m2, guint most_looks, gboolean with_pictures)
{
  TrnSilhouette *worst = search->worst;
  const double enough_m2 = fmax (least_m2, worst->seen_m2 * (1 + NEAR_ENOUGH));
  const guint n = take_greatest (search->patches, enough_m2, search->cuts);
  for (guint i = 0; i < n; i++)
    {
      Cut *cut = &search->cuts[i];
      cut->enough_m2 = enough_m2;
      cut->most_seen_m2 = worst->seen_m2;
      cut->is_looked_at = i < most_looks;
      cut->with_pictures = with_pictures;
    }
  look_at_halves (search, n);
  trn_parallel_for (n, search->jobs, bound_halves, search->cuts);
  for (guint i = 0; i < n; i++)
    {
      const Cut *cut = &search->cuts[i];
      g_array_append_vals (search->patches, cut->halves, cut->n_halves);
      if (cut->seen_m2 <= worst->seen_m2)
        continue;
      worst->seen_m2 = cut->seen_m2;
      worst->direction = cut->direction;
    }
  return n > 0;
}

/* The patch that convex functions come to most in: there the body is looked at as it is. */
static void
look_at_most (Search *search, const TrnMesh *mesh)
{
  guint most = 0;
  for (guint i = 1; i < search->patches->len; i++)
    if (trn_patch_middle_m2 (&g_array_index (search->patches, TrnPatch, i))
        > trn_patch_middle_m2 (&g_array_index (search->patches, TrnPatch, most)))
      most = i;
  g_autoptr (TrnFacets) triangles = trn_facets_of_triangles (mesh, search->cuts[0].body->is_closed);
  g_autoptr (TrnPicture) picture = trn_picture_new (triangles);
  const TrnSight sight = trn_patch_middle (&g_array_index (search->patches, TrnPatch, most));
  search->worst->seen_m2 = seen_m2 (&search->cuts[0], picture, &sight);
  search->worst->direction = sight.along;
}

static void
tell_most (Search *search)
{
  TrnSilhouette *worst = search->worst;
  worst->area_m2 = 0;
  for (guint i = 0; i < search->patches->len; i++)
    worst->area_m2 = fmax (worst->area_m2, g_array_index (search->patches, TrnPatch, i).bound_m2);
}

static void
look_at_pictures (Search *search, const TrnMesh *mesh)
{
  g_autoptr (TrnFacets) fine = trn_facets_build (mesh, THICK_SHARE);
  g_autoptr (TrnFacets) coarse = trn_facets_build (mesh, COARSE_SHARE);
  for (guint i = 0; i < AT_ONCE; i++)
    {
      search->cuts[i].fine = trn_picture_new (fine);
      search->cuts[i].coarse = trn_picture_new (coarse);
    }
  /* With many points looking takes as long as the rest: then only at the most promising. */
  const guint most_looks = fine->n_points < MANY_POINTS ? AT_ONCE : MOST_LOOKS;
  const guint most = (guint)CLAMP (MOST_POINTS / fine->n_points, LEAST_CUTS, MOST_CUTS);
  for (guint done = 0; done < most && go_on (search, 0, most_looks, TRUE);)
    done += AT_ONCE;
  for (guint i = 0; i < AT_ONCE; i++)
    {
      trn_picture_free (search->cuts[i].fine);
      trn_picture_free (search->cuts[i].coarse);
    }
}

/* By convex functions as far as they lead, then by pictures as well where that is worth it. */
static void
look_for_worst (Search *search, const TrnMesh *mesh)
{
  TrnSilhouette *worst = search->worst;
  for (guint done = 0; done < MOST_CONVEX_CUTS; done += AT_ONCE)
    if (!go_on (search, search->most_convex_m2 * (1 + CONVEX_ENOUGH), 0, FALSE))
      break;
  look_at_most (search, mesh);
  tell_most (search);
  const double enough = mesh->n_triangles > MANY_TRIANGLES ? MANY_ENOUGH : NEAR_ENOUGH;
  if (worst->area_m2 > worst->seen_m2 * (1 + enough))
    look_at_pictures (search, mesh);
  tell_most (search);
  worst->seen_m2 = fmin (worst->seen_m2, worst->area_m2);
}

static TrnConvex
more_of_slack (const TrnMesh *mesh, const TrnSlabs *slabs, gboolean is_closed, double slack_m)
{
  const double border_m2 = G_PI * slack_m * slack_m, off_m = slack_m + slabs->off_m,
               off_m2 = G_PI * off_m * off_m;
  double round_m = 0;
  for (guint32 i = 0; i < mesh->n_triangles; i++)
    {
      TrnVec3 c[3];
      trn_mesh_corners (mesh, i, c);
      round_m += trn_vec3_distance (c[0], c[1]) + trn_vec3_distance (c[1], c[2])
                 + trn_vec3_distance (c[2], c[0]);
    }
  return (TrnConvex){
    { 2 * G_PI * slabs->reach_m * off_m + off_m2, slabs->round_m * off_m + slabs->n * off_m2,
      (is_closed ? 0.5 : 1) * (round_m * slack_m + mesh->n_triangles * border_m2) },
    0
  };
}

TrnSilhouette
trn_silhouette_worst (const TrnMesh *mesh, gboolean is_closed, double slack_m,
                      const TrnSilhouetteBand *bands, guint n_bands, guint jobs)
{
  g_assert (n_bands > 0 && slack_m >= 0);
  TrnSilhouette worst = { 0, 0, bands[0].axis };
  if (mesh->n_triangles == 0)
    return worst;
  g_autoptr (TrnNormals) normals = trn_normals_build (mesh);
  g_autoptr (TrnSlabs) slabs = trn_slabs_build (mesh, trn_box_centre (&mesh->box), jobs);
  Body body
      = { is_closed, { TRUE, TRUE }, slack_m, more_of_slack (mesh, slabs, is_closed, slack_m) };
  g_autofree TrnSilhouetteBand *turned = g_new (TrnSilhouetteBand, n_bands);
  g_autoptr (GArray) patches = g_array_new (FALSE, FALSE, sizeof (TrnPatch));
  g_autoptr (GHashTable) looked = g_hash_table_new_full (hash_corner, same_corner, g_free, NULL);
  g_autoptr (GPtrArray) wanted = g_ptr_array_new ();
  Cut cuts[AT_ONCE];
  for (guint i = 0; i < AT_ONCE; i++)
    {
      cuts[i] = (Cut){ .body = &body };
      trn_convex_room_init (&cuts[i].room, normals, slabs);
    }
  for (guint i = 0; i < n_bands; i++)
    {
      turned[i] = trn_patch_band (&bands[i], slabs->axis);
      trn_patches_add_first (&turned[i], slabs->axis, patches);
    }
  Search search = { patches, cuts, jobs, looked, wanted, &worst, 0 };
  look_at_first (&search);
  body.wants.sum = is_of_use (patches, TRN_CONVEX_SUM);
  body.wants.hull = is_of_use (patches, TRN_CONVEX_HULL);
  look_for_worst (&search, mesh);
  for (guint i = 0; i < AT_ONCE; i++)
    trn_convex_room_clear (&cuts[i].room);
  return worst;
}

double
trn_silhouette_m2 (const TrnMesh *mesh, TrnVec3 direction, double slack_m)
{
  g_autoptr (TrnFacets) facets = trn_facets_build (mesh, THICK_SHARE);
  g_autoptr (TrnPicture) picture = trn_picture_new (facets);
  const TrnVec3 across = trn_vec3_square_to (direction);
  const TrnSight sight
      = { .along = direction, .across = across, .up = trn_vec3_cross (direction, across) };
  return trn_picture_bound_m2 (picture, &sight, slack_m, TRN_PICTURE_MOST);
}
