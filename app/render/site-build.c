/* site-build.c: the display meshes of a scene, each made once, and what of a lift is to be seen. */
#include <string.h>

#include "parallel.h"
#include "site-parts.h"

/* Poses along one move whose boxes together stand for its way. */
#define WAY_STEPS 12
/* How far round a point is near it, as a share of the size of the load. */
#define NEAR_SHARE 0.4
/* A picture that stands still may have so many times the triangles of one that moves. */
#define FINE_TIMES 5
/* Fewer would not show what it is. */
#define LEAST_TRIANGLES 60
/* A ghost of the load is seen through: for it this share of all triangles is enough. */
#define GHOST_SHARE 20
/* And for the load itself, which is drawn twice to shine through, this, where not all fits. */
#define LOAD_SHARE 4

typedef struct
{
  GPtrArray *from; /* of TrnMesh, borrowed */
  RenderMesh **to;
  /* Triangles that one body may have: while it stands still, while it moves, and as a ghost while
   * that moves; 0: all. */
  guint32 fine, coarse, ghost;
} Build;

/* @mesh with fewer triangles, where it has more than @most; NULL: it has not, or all may be had. */
static RenderMesh *
build_coarse (const TrnMesh *from, const RenderMesh *mesh, guint32 most)
{
  if (most == 0 || mesh->n_triangles <= most)
    return NULL;
  RenderMesh *coarse = render_mesh_build (from, most);
  /* Where flat faces are bent, their edges would be false ones. */
  if (coarse->crumpled)
    coarse->n_edges = coarse->n_folds = 0;
  return coarse;
}

static void
build_one (guint index, gpointer data)
{
  Build *build = data;
  const TrnMesh *from = build->from->pdata[index];
  RenderMesh *mesh = render_mesh_build (from, build->fine);
  RenderMesh *finest = mesh;
  mesh->coarse = build_coarse (from, mesh, build->coarse);
  if (mesh->coarse != NULL)
    finest = mesh->coarse;
  finest->coarse = build_coarse (from, finest, build->ghost);
  build->to[index] = mesh;
}

static void
add_meshes_of (const TrnBodies *bodies, guint n, GPtrArray *meshes)
{
  for (guint i = 0; i < n; i++)
    for (guint k = 0; k < bodies[i].n_bodies; k++)
      g_ptr_array_add (meshes, (gpointer)bodies[i].bodies[k].mesh);
}

static guint64
count_under (const GPtrArray *meshes, guint32 most)
{
  guint64 sum = 0;
  for (guint i = 0; i < meshes->len; i++)
    sum += MIN (((const TrnMesh *)meshes->pdata[i])->n_triangles, most);
  return sum;
}

static guint32
most_of (const GPtrArray *meshes)
{
  guint32 most = 0;
  for (guint i = 0; i < meshes->len; i++)
    most = MAX (most, ((const TrnMesh *)meshes->pdata[i])->n_triangles);
  return most;
}

/* What one body may have, so that all together have no more than @total: those that have few keep
 * them, and only the largest give up. 0: all keep all. */
static guint32
share (const GPtrArray *structures, const GPtrArray *components, guint64 total)
{
  guint32 most = MAX (most_of (structures), most_of (components));
  if (total == 0 || count_under (structures, most) + count_under (components, most) <= total)
    return 0;
  while (most > LEAST_TRIANGLES
         && count_under (structures, most) + count_under (components, most) > total)
    most -= most / 8;
  return most;
}

static void
count_rigs (RenderSite *site)
{
  const TrnProgramme *programme = site->scene->programme;
  site->first_rig = g_new0 (guint, programme->n_runs + 1);
  for (guint i = 0; i < programme->n_runs; i++)
    {
      const TrnRig *rig = programme->runs[i].rig;
      site->first_rig[i + 1] = site->first_rig[i] + (rig != NULL ? rig->n_bodies : 0);
    }
}

RenderSite *
render_site_build (const TrnScene *scene, guint32 most_triangles)
{
  const TrnPlan *plan = scene->programme->plan;
  RenderSite *site = g_new0 (RenderSite, 1);
  site->scene = scene;
  site->most_triangles = most_triangles;
  site->first = g_new0 (guint, plan->n_structures + 1);
  for (guint i = 0; i < plan->n_structures; i++)
    site->first[i + 1] = site->first[i] + scene->structures[i].n_bodies;
  site->n_structure_bodies = site->first[plan->n_structures];
  site->first_gear = g_new0 (guint, plan->n_gear + 1);
  for (guint i = 0; i < plan->n_gear; i++)
    site->first_gear[i + 1] = site->first_gear[i] + scene->gear[i].n_bodies;
  site->n_gear_bodies = site->first_gear[plan->n_gear];
  site->n_items = site->n_structure_bodies + plan->n_gear;
  count_rigs (site);
  site->structures = g_new0 (RenderMesh *, MAX (site->n_structure_bodies + site->n_gear_bodies, 1));
  site->gear = site->structures + site->n_structure_bodies;
  site->components = g_new0 (RenderMesh *, MAX (plan->n_components, 1));
  g_autoptr (GPtrArray) structures = g_ptr_array_new ();
  g_autoptr (GPtrArray) components = g_ptr_array_new ();
  add_meshes_of (scene->structures, plan->n_structures, structures);
  add_meshes_of (scene->gear, plan->n_gear, structures);
  add_meshes_of (scene->components, plan->n_components, components);
  g_assert (structures->len == site->n_structure_bodies + site->n_gear_bodies
            && components->len == plan->n_components);
  Build build = { structures, site->structures,
                  share (structures, components, (guint64)FINE_TIMES * most_triangles),
                  share (structures, components, most_triangles), 0 };
  trn_parallel_for (structures->len, 0, build_one, &build);
  build.from = components;
  build.to = site->components;
  build.ghost = most_triangles / GHOST_SHARE;
  guint32 load = most_triangles / LOAD_SHARE;
  build.coarse = build.coarse > 0 ? MIN (build.coarse, load) : load;
  trn_parallel_for (components->len, 0, build_one, &build);
  return site;
}

void
render_site_free (RenderSite *site)
{
  if (site == NULL)
    return;
  for (guint i = 0; i < site->n_structure_bodies + site->n_gear_bodies; i++)
    render_mesh_unref (site->structures[i]);
  for (guint i = 0; i < site->scene->programme->plan->n_components; i++)
    render_mesh_unref (site->components[i]);
  g_free (site->structures);
  g_free (site->components);
  g_free (site->first);
  g_free (site->first_gear);
  g_free (site->first_rig);
  g_free (site);
}

const RenderMesh *
render_site_mesh_of (const RenderSite *site, const TrnStanding *standing, guint body)
{
  switch (standing->kind)
    {
    case TRN_STANDING_STRUCTURE:
      return site->structures[site->first[standing->index] + body];
    case TRN_STANDING_COMPONENT:
      return site->components[standing->index];
    case TRN_STANDING_GEAR:
      return site->gear[site->first_gear[standing->index] + body];
    }
  g_assert_not_reached ();
}

const RenderMesh *
render_site_load (const RenderSite *site, const TrnLiftRun *run)
{
  return site->components[run->lift->component];
}

gboolean
render_site_is_ground (const RenderSite *site, const TrnStanding *standing)
{
  if (standing->kind != TRN_STANDING_STRUCTURE)
    return FALSE;
  const TrnSolid *solid = site->scene->programme->plan->structures[standing->index].shape.solid;
  return solid != NULL && solid->kind == TRN_SOLID_GROUND;
}

TrnBox
render_site_box (const RenderMesh *mesh, const TrnPose *pose)
{
  TrnBox box = trn_box_empty ();
  for (guint i = 0; i < 8; i++)
    trn_box_add_point (&box, trn_pose_apply (pose, trn_box_corner (&mesh->box, i)));
  return box;
}

TrnBox
render_site_load_way (const RenderSite *site, const TrnLiftRun *run)
{
  const RenderMesh *load = render_site_load (site, run);
  TrnBox way = render_site_box (load, &run->start);
  for (guint m = 0; m < run->lift->n_moves; m++)
    for (guint k = 1; k <= WAY_STEPS; k++)
      {
        TrnPose pose = trn_motion_pose (&run->motions[m], (double)k / WAY_STEPS);
        TrnBox box = render_site_box (load, &pose);
        trn_box_add_box (&way, &box);
      }
  return way;
}

TrnBox
render_site_extent_of_move (const RenderSite *site, guint run_index, guint move)
{
  const TrnLiftRun *run = &site->scene->programme->runs[run_index];
  g_assert (move < run->lift->n_moves);
  TrnBox extent = trn_box_empty ();
  for (guint k = 0; k <= WAY_STEPS; k++)
    {
      TrnPose pose = trn_motion_pose (&run->motions[move], (double)k / WAY_STEPS);
      TrnBox box = render_site_box (render_site_load (site, run), &pose);
      trn_box_add_box (&extent, &box);
    }
  return extent;
}

static TrnBox
grow (const TrnBox *box, double by_m)
{
  TrnVec3 by = { by_m, by_m, by_m };
  return (TrnBox){ trn_vec3_sub (box->lo, by), trn_vec3_add (box->hi, by) };
}

/* Of @box what lies in @within; empty where they do not meet. */
static TrnBox
common (const TrnBox *box, const TrnBox *within)
{
  return (TrnBox){ { fmax (box->lo.x, within->lo.x), fmax (box->lo.y, within->lo.y),
                     fmax (box->lo.z, within->lo.z) },
                   { fmin (box->hi.x, within->hi.x), fmin (box->hi.y, within->hi.y),
                     fmin (box->hi.z, within->hi.z) } };
}

static void
add_hook_way (const TrnLiftRun *run, TrnBox *box)
{
  trn_box_add_point (box, trn_pose_apply (&run->start, run->lift->hook.place));
  for (guint m = 0; m < run->lift->n_moves; m++)
    for (guint k = 1; k <= WAY_STEPS; k++)
      {
        TrnPose pose = trn_motion_pose (&run->motions[m], (double)k / WAY_STEPS);
        trn_box_add_point (box, trn_pose_apply (&pose, run->lift->hook.place));
      }
}

/* Gear that holds the load stands there with all that is of it. */
static gboolean
is_in_use (const TrnLiftRun *run, const TrnStanding *standing)
{
  const TrnHoist *hoists[] = { &run->lift->rigging.main, &run->lift->rigging.tail };
  for (guint i = 0; i < G_N_ELEMENTS (hoists); i++)
    if (standing->kind == TRN_STANDING_GEAR && hoists[i]->given
        && hoists[i]->gear == standing->index)
      return TRUE;
  return FALSE;
}

TrnBox
render_site_extent (const RenderSite *site, guint run_index)
{
  const TrnLiftRun *run = &site->scene->programme->runs[run_index];
  TrnBox way = render_site_load_way (site, run), extent = way;
  add_hook_way (run, &extent);
  render_site_add_gear_way (run, WAY_STEPS, &extent);
  TrnBox near = grow (&way, 0.15 * trn_vec3_length (trn_box_size (&way)));
  for (guint i = 0; i < run->n_standing; i++)
    {
      const TrnStanding *standing = &run->standing[i];
      guint n = trn_scene_bodies_of (site->scene, standing)->n_bodies;
      for (guint k = 0; k < n; k++)
        {
          TrnBox box = render_site_box (render_site_mesh_of (site, standing, k),
                                        &standing->site_from_standing);
          if (!is_in_use (run, standing))
            box = common (&box, &near);
          if (!render_site_is_ground (site, standing))
            trn_box_add_box (&extent, &box);
        }
    }
  return extent;
}

TrnBox
render_site_extent_near (const RenderSite *site, guint run_index, TrnVec3 point)
{
  const TrnLiftRun *run = &site->scene->programme->runs[run_index];
  TrnVec3 size = trn_box_size (&render_site_load (site, run)->box);
  TrnBox box = { point, point };
  return grow (&box, NEAR_SHARE * trn_vec3_length (size));
}

guint32
render_site_pick_id (const RenderSite *site, guint structure_body)
{
  g_assert (structure_body < site->n_structure_bodies);
  return 2 + structure_body;
}

const char *
render_site_body_id (const RenderSite *site, guint32 pick_id)
{
  const TrnPlan *plan = site->scene->programme->plan;
  if (pick_id == 1)
    return "load";
  if (pick_id < 2)
    return NULL;
  guint32 index = pick_id - 2;
  for (guint i = 0; i < plan->n_structures; i++)
    if (index < site->first[i + 1])
      return site->scene->structures[i].bodies[index - site->first[i]].id;
  index -= site->n_structure_bodies;
  if (index < plan->n_components)
    return site->scene->components[index].bodies[0].id;
  index -= plan->n_components;
  for (guint i = 0; i < plan->n_gear; i++)
    if (index < site->first_gear[i + 1])
      return site->scene->gear[i].bodies[index - site->first_gear[i]].id;
  index -= site->n_gear_bodies;
  const TrnProgramme *programme = site->scene->programme;
  for (guint i = 0; i < programme->n_runs; i++)
    if (index < site->first_rig[i + 1])
      return programme->runs[i].rig->bodies[index - site->first_rig[i]].id;
  return NULL;
}

guint32
render_site_pick_id_of_rig (const RenderSite *site, guint run, guint body)
{
  return 2 + site->n_structure_bodies + site->scene->programme->plan->n_components
         + site->n_gear_bodies + site->first_rig[run] + body;
}

/* ---- items ---- */

int
render_site_item_of_standing (const RenderSite *site, const TrnStanding *standing, guint body)
{
  switch (standing->kind)
    {
    case TRN_STANDING_STRUCTURE:
      return (int)(site->first[standing->index] + body);
    case TRN_STANDING_COMPONENT:
      return -1;
    case TRN_STANDING_GEAR:
      return (int)(site->n_structure_bodies + standing->index);
    }
  g_assert_not_reached ();
}

const char *
render_site_item_id (const RenderSite *site, guint item)
{
  g_assert (item < site->n_items);
  return item < site->n_structure_bodies
             ? render_site_body_id (site, render_site_pick_id (site, item))
             : site->scene->programme->plan->gear[item - site->n_structure_bodies].id;
}

static gboolean
is_part_of (const char *body, const char *whole)
{
  gsize length = strlen (whole);
  return strncmp (body, whole, length) == 0 && (body[length] == '\0' || body[length] == '/');
}

int
render_site_item_of (const RenderSite *site, guint run_index, const char *body)
{
  const TrnLiftRun *run = &site->scene->programme->runs[run_index];
  for (guint i = 0; i < site->n_structure_bodies; i++)
    if (g_str_equal (render_site_item_id (site, i), body))
      return (int)i;
  for (guint i = site->n_structure_bodies; i < site->n_items; i++)
    if (is_part_of (body, render_site_item_id (site, i)))
      return (int)i;
  for (guint i = 0; run->rig != NULL && i < run->rig->n_bodies; i++)
    if (g_str_equal (run->rig->bodies[i].id, body) && run->rig->bodies[i].place != G_MAXUINT)
      return (int)(site->n_structure_bodies)
             + (int)(run->rig->places[run->rig->bodies[i].place].gear
                     - site->scene->programme->plan->gear);
  return -1;
}
