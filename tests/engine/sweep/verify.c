#include "verify.h"

static guint32 *
places_new (const TrnBvh *bvh)
{
  guint32 *place = g_new (guint32, bvh->mesh->n_triangles);
  for (guint32 i = 0; i < bvh->mesh->n_triangles; i++)
    place[bvh->order[i]] = i;
  return place;
}

Verify
verify_make (const TrnSweepPair *pair)
{
  const TrnBvh *a = pair->body.bvh, *b = pair->obstacle.bvh;
  return (Verify){ pair,
                   quad_motion_make (pair->motion),
                   places_new (a),
                   places_new (b),
                   g_new0 (guint, a->mesh->n_vertices),
                   g_new0 (guint, b->mesh->n_vertices),
                   0 };
}

void
verify_clear (Verify *verify)
{
  g_free (verify->place_a);
  g_free (verify->place_b);
  g_free (verify->seen_a);
  g_free (verify->seen_b);
}

/* ---- one step ---- */

/* A run of triangles in the order of a tree. */
typedef struct
{
  guint32 first, end;
} Run;

static Run
run_of (const TrnBvh *bvh, const guint32 *place, guint32 index)
{
  if (index & TRN_ITEM_TRIANGLE)
    {
      guint32 first = place[index & ~TRN_ITEM_TRIANGLE];
      return (Run){ first, first + 1 };
    }
  const TrnBvhNode *node = &bvh->nodes[index];
  return (Run){ node->first, node->first + node->count };
}

typedef struct
{
  Quad s, sine, cosine;
} Moment;

static Moment
moment_make (const Verify *verify, Quad s)
{
  const TrnMotion *motion = verify->pair->motion;
  Quad w = motion->path == TRN_PATH_ARC ? motion->phi_rad : motion->angle_rad;
  Moment moment = { .s = s };
  quad_sin_cos (w * s, &moment.sine, &moment.cosine);
  return moment;
}

static Quad
wave_at (const QuadWave *f, const Moment *m)
{
  return f->c0 + f->c1 * m->s + (f->a0 + f->a1 * m->s) * m->cosine
         + (f->b0 + f->b1 * m->s) * m->sine;
}

static Quad
bend_at (const QuadWave *f, const Moment *m)
{
  Quad a = f->a0 + f->a1 * m->s, b = f->b0 + f->b1 * m->s;
  return f->w * ((2 * f->b1 - f->w * a) * m->cosine - (2 * f->a1 + f->w * b) * m->sine);
}

/* Whether f is at least @least between two moments: it lies no lower than its chord less the
 * greatest f″ · h²/8, and no lower than its lower end where that f″ cannot turn it round. */
static gboolean
stays_above (const Verify *verify, const QuadWave *f, Quad least, const Moment *m0,
             const Moment *m1, guint depth)
{
  Quad f0 = wave_at (f, m0), f1 = wave_at (f, m1), low = MIN (f0, f1);
  if (low < least)
    return FALSE;
  if (f->w == 0)
    return TRUE;
  Moment middle = moment_make (verify, (m0->s + m1->s) / 2);
  Quad h = m1->s - m0->s, most = bend_at (f, &middle) + h / 2 * quad_wave_jerk (f);
  Quad differs = f0 < f1 ? f1 - f0 : f0 - f1;
  if (most <= 0 || low - most * h * h / 8 >= least || differs >= most * h * h / 2)
    return TRUE;
  return depth > 0 && stays_above (verify, f, least, m0, &middle, depth - 1)
         && stays_above (verify, f, least, &middle, m1, depth - 1);
}

static Quad
highest_of_obstacle (Verify *verify, Run run, QuadVec n)
{
  const TrnBvh *bvh = verify->pair->obstacle.bvh;
  Quad high = -INFINITY;
  for (guint32 k = run.first; k < run.end; k++)
    for (guint i = 0; i < 3; i++)
      {
        guint32 v = bvh->mesh->triangles[bvh->order[k]].v[i];
        if (verify->seen_b[v] == verify->n_looked)
          continue;
        verify->seen_b[v] = verify->n_looked;
        high = MAX (high, quad_product (n, quad_vec (bvh->mesh->vertices[v])));
      }
  return high;
}

gboolean
verify_step (Verify *verify, const TrnProofStep *step, double bound_m)
{
  const TrnBvh *bvh = verify->pair->body.bvh;
  const TrnPose *site_from_obstacle = &verify->pair->site_from_obstacle;
  Run a = run_of (bvh, verify->place_a, step->a);
  Run b = run_of (verify->pair->obstacle.bvh, verify->place_b, step->b);
  QuadVec n = { step->n.x, step->n.y, step->n.z };
  QuadVec of_site = quad_turned (&site_from_obstacle->turn, n);
  verify->n_looked++;
  Quad least = highest_of_obstacle (verify, b, n) + bound_m * quad_length (n)
               + quad_product (of_site, quad_vec (site_from_obstacle->position));
  Moment m0 = moment_make (verify, step->span.lo), m1 = moment_make (verify, step->span.hi);
  for (guint32 k = a.first; k < a.end; k++)
    for (guint i = 0; i < 3; i++)
      {
        guint32 v = bvh->mesh->triangles[bvh->order[k]].v[i];
        if (verify->seen_a[v] == verify->n_looked)
          continue;
        verify->seen_a[v] = verify->n_looked;
        QuadWave f = quad_motion_wave (&verify->motion, of_site, bvh->mesh->vertices[v]);
        if (!stays_above (verify, &f, least, &m0, &m1, 60))
          return FALSE;
      }
  return TRUE;
}

/* ---- the cover ---- */

/* Triangles of both and a span of time, and a step of which the same is said. */
typedef struct
{
  Run a, b;
  TrnInterval span;
} Block;

static gboolean
run_is_within (Run inner, Run outer)
{
  return outer.first <= inner.first && inner.end <= outer.end;
}

static gboolean
span_is_within (TrnInterval inner, TrnInterval outer)
{
  return outer.lo <= inner.lo && inner.hi <= outer.hi;
}

static gboolean
block_is_within (const Block *inner, const Block *outer)
{
  return run_is_within (inner->a, outer->a) && run_is_within (inner->b, outer->b)
         && span_is_within (inner->span, outer->span);
}

/* The parts that a run of a tree falls into: its children, or the triangles of a leaf. */
static guint
run_split (const TrnBvh *bvh, Run run, Run parts[TRN_BVH_CHILDREN + TRN_BVH_LEAF_TRIANGLES])
{
  for (guint32 i = 0; i < bvh->n_nodes; i++)
    {
      const TrnBvhNode *node = &bvh->nodes[i];
      if (node->first != run.first || node->first + node->count != run.end || node->child == 0)
        continue;
      for (guint c = 0; c < node->n_children; c++)
        {
          const TrnBvhNode *child = &bvh->nodes[node->child + c];
          parts[c] = (Run){ child->first, child->first + child->count };
        }
      return node->n_children;
    }
  guint n = 0;
  for (guint32 k = run.first; k < run.end; k++)
    parts[n++] = (Run){ k, k + 1 };
  return n;
}

static gboolean covers (const Verify *verify, const Block *block, const GArray *steps);

static gboolean
covers_part (const Verify *verify, const Block *part, const GArray *steps)
{
  g_autoptr (GArray) within = g_array_new (FALSE, FALSE, sizeof (Block));
  for (guint i = 0; i < steps->len; i++)
    if (block_is_within (&g_array_index (steps, Block, i), part))
      g_array_append_val (within, g_array_index (steps, Block, i));
  return covers (verify, part, within);
}

/* Split where no step is whole; each of them is then within one part, or it does not count. */
static gboolean
covers (const Verify *verify, const Block *block, const GArray *steps)
{
  gboolean whole_a = FALSE, whole_b = FALSE, whole_time = FALSE;
  for (guint i = 0; i < steps->len; i++)
    {
      const Block *step = &g_array_index (steps, Block, i);
      if (block_is_within (block, step))
        return TRUE;
      whole_a |= run_is_within (block->a, step->a);
      whole_b |= run_is_within (block->b, step->b);
      whole_time |= span_is_within (block->span, step->span);
    }
  if (steps->len == 0 || (whole_a && whole_b && whole_time))
    return FALSE;
  Block part = *block;
  if (!whole_time)
    {
      double middle = trn_interval_middle (block->span);
      part.span.hi = middle;
      if (!covers_part (verify, &part, steps))
        return FALSE;
      part.span = (TrnInterval){ middle, block->span.hi };
      return covers_part (verify, &part, steps);
    }
  Run parts[TRN_BVH_CHILDREN + TRN_BVH_LEAF_TRIANGLES];
  const TrnBvh *bvh = whole_a ? verify->pair->obstacle.bvh : verify->pair->body.bvh;
  guint n = run_split (bvh, whole_a ? block->b : block->a, parts);
  for (guint i = 0; i < n; i++)
    {
      *(whole_a ? &part.b : &part.a) = parts[i];
      if (!covers_part (verify, &part, steps))
        return FALSE;
    }
  return TRUE;
}

gboolean
verify_cover (const Verify *verify, TrnInterval span, const GArray *steps)
{
  const TrnBvh *a = verify->pair->body.bvh, *b = verify->pair->obstacle.bvh;
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (Block));
  for (guint i = 0; i < steps->len; i++)
    {
      const TrnProofStep *step = &g_array_index (steps, TrnProofStep, i);
      Block block = { run_of (a, verify->place_a, step->a), run_of (b, verify->place_b, step->b),
                      step->span };
      g_array_append_val (blocks, block);
    }
  Block all = { { 0, a->mesh->n_triangles }, { 0, b->mesh->n_triangles }, span };
  return covers (verify, &all, blocks);
}

Quad
verify_distance (const Verify *verify, guint32 a, guint32 b, double s)
{
  TrnVec3 corners_a[3], corners_b[3];
  QuadVec placed_a[3], placed_b[3];
  trn_mesh_corners (verify->pair->body.bvh->mesh, a, corners_a);
  trn_mesh_corners (verify->pair->obstacle.bvh->mesh, b, corners_b);
  for (guint i = 0; i < 3; i++)
    {
      placed_a[i] = quad_placed_back (&verify->pair->site_from_obstacle,
                                      quad_motion_place (&verify->motion, s, corners_a[i]));
      placed_b[i] = quad_vec (corners_b[i]);
    }
  return quad_placed_distance (placed_a, placed_b);
}
