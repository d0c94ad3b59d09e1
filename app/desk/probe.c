/* probe.c: rays through the trees of the scene's bodies.
 *
 * A ray is taken into the body's frame and goes down the tree by the spheres of its nodes;
 * triangles are met by the signed volumes of Möller and Trumbore ("Fast, minimum storage
 * ray/triangle intersection", Journal of Graphics Tools 2(1), 1997). With a section the ray starts,
 * or ends, at the plane: what it meets there from the inside is a cut face. */
#include "probe.h"

#include "probe-private.h"

DeskProbe *
desk_probe_new (const RenderSite *site, guint run, double time_s,
                const RenderVisibility *visibility, RenderSection section)
{
  const TrnScene *scene = site->scene;
  g_assert (run < scene->programme->n_runs);
  const TrnLiftRun *lift = &scene->programme->runs[run];
  guint move;
  double progress;
  GArray *bodies = g_array_new (FALSE, FALSE, sizeof (DeskProbeBody));
  DeskProbeBody load = { .body = trn_scene_load (scene, lift),
                         .site_from_body = trn_lift_run_pose (lift, time_s, &move, &progress),
                         .is_load = TRUE };
  g_array_append_val (bodies, load);
  for (guint i = 0; i < lift->n_standing; i++)
    {
      const TrnStanding *standing = &lift->standing[i];
      const TrnBodies *of = trn_scene_bodies_of (scene, standing);
      for (guint k = 0; k < of->n_bodies; k++)
        {
          int item = render_site_item_of_standing (site, standing, k);
          if (visibility != NULL && item >= 0 && visibility[item] != RENDER_VISIBLE_SOLID)
            continue;
          DeskProbeBody body
              = { .body = &of->bodies[k], .site_from_body = standing->site_from_standing };
          g_array_append_val (bodies, body);
        }
    }
  DeskProbe *probe = g_new (DeskProbe, 1);
  probe->n_bodies = bodies->len;
  probe->bodies = (DeskProbeBody *)(gpointer)g_array_free (bodies, FALSE);
  probe->section = section;
  return probe;
}

void
desk_probe_free (DeskProbe *probe)
{
  if (probe == NULL)
    return;
  g_free (probe->bodies);
  g_free (probe);
}

/* ---- rays ---- */

typedef struct
{
  TrnVec3 origin, direction; /* of the body's frame */
  double from_m, to_m;       /* of the ray, what is looked at */
  guint32 triangle;
  gboolean is_back; /* the triangle is seen from its inside */
  gboolean is_hit;
} Ray;

static gboolean
meets_sphere (const Ray *ray, const TrnBvhNode *node)
{
  TrnVec3 to_centre = trn_vec3_sub (trn_bvh_centre (node), ray->origin);
  double along = trn_vec3_dot (to_centre, ray->direction);
  double near = CLAMP (along, ray->from_m, ray->to_m);
  TrnVec3 apart = trn_vec3_add_scaled (to_centre, ray->direction, -near);
  double reach = (double)node->radius_m * (1 + 1e-9) + 1e-9;
  return trn_vec3_length_squared (apart) <= reach * reach;
}

static void
meet_triangle (Ray *ray, const TrnMesh *mesh, guint32 triangle)
{
  TrnVec3 corners[3];
  trn_mesh_corners (mesh, triangle, corners);
  TrnVec3 a = trn_vec3_sub (corners[1], corners[0]), b = trn_vec3_sub (corners[2], corners[0]);
  TrnVec3 p = trn_vec3_cross (ray->direction, b);
  double volume = trn_vec3_dot (a, p);
  if (volume == 0)
    return;
  TrnVec3 from = trn_vec3_sub (ray->origin, corners[0]);
  double u = trn_vec3_dot (from, p) / volume;
  TrnVec3 q = trn_vec3_cross (from, a);
  double v = trn_vec3_dot (ray->direction, q) / volume;
  double along = trn_vec3_dot (b, q) / volume;
  if (!(u >= 0 && v >= 0 && u + v <= 1 && along >= ray->from_m && along <= ray->to_m))
    return;
  ray->to_m = along;
  ray->triangle = triangle;
  ray->is_back = volume < 0;
  ray->is_hit = TRUE;
}

static void
meet_body (Ray *ray, const TrnBvh *bvh)
{
  g_autofree guint32 *stack = g_new (guint32, TRN_BVH_CHILDREN * bvh->depth);
  guint n = 0;
  stack[n++] = 0;
  while (n > 0)
    {
      const TrnBvhNode *node = &bvh->nodes[stack[--n]];
      if (!meets_sphere (ray, node))
        continue;
      if (node->child != 0)
        {
          for (guint i = 0; i < node->n_children; i++)
            stack[n++] = node->child + i;
          continue;
        }
      for (guint32 i = 0; i < node->count; i++)
        meet_triangle (ray, bvh->mesh, bvh->order[node->first + i]);
    }
}

/* The part of a ray that is not cut away; FALSE where nothing of it is left. @enters: the ray comes
 * out of what is cut away where it begins. */
static gboolean
keep_of_ray (const RenderSection *section, TrnVec3 origin, TrnVec3 direction, double *from_m,
             double *to_m, gboolean *enters)
{
  *from_m = 0;
  *to_m = INFINITY;
  *enters = FALSE;
  if (!section->on)
    return TRUE;
  double above = trn_vec3_dot (section->normal, origin) - section->offset_m;
  double towards = trn_vec3_dot (section->normal, direction);
  if (above > 0 && towards >= 0)
    return FALSE;
  if (above > 0)
    {
      *from_m = -above / towards;
      *enters = TRUE;
    }
  else if (towards > 0)
    *to_m = -above / towards;
  return TRUE;
}

DeskHit
desk_probe_ray (const DeskProbe *probe, TrnVec3 origin, TrnVec3 direction)
{
  DeskHit hit = { .on = DESK_ON_NOTHING };
  double from_m, to_m;
  gboolean enters;
  if (!keep_of_ray (&probe->section, origin, direction, &from_m, &to_m, &enters))
    return hit;
  for (guint i = 0; i < probe->n_bodies; i++)
    {
      const DeskProbeBody *body = &probe->bodies[i];
      Ray ray = { .origin = trn_pose_apply_inverse (&body->site_from_body, origin),
                  .direction = trn_rotation_apply_inverse (&body->site_from_body.turn, direction),
                  .from_m = from_m,
                  .to_m = to_m };
      meet_body (&ray, body->body->bvh);
      if (!ray.is_hit)
        continue;
      /* From the inside first: the ray was inside the solid where it came out of the cut. */
      gboolean is_cut = enters && ray.is_back && body->body->check->closed;
      to_m = is_cut ? from_m : ray.to_m;
      hit = (DeskHit){ .on = is_cut ? DESK_ON_CUT : DESK_ON_FACE,
                       .body = i,
                       .triangle = ray.triangle,
                       .along_m = to_m };
    }
  if (hit.on != DESK_ON_NOTHING)
    hit.point = trn_vec3_add_scaled (origin, direction, hit.along_m);
  return hit;
}

DeskHit
desk_probe_screen (const DeskProbe *probe, const RenderCamera *camera, RenderSize size, double x,
                   double y, double snap_px)
{
  TrnVec3 origin, direction;
  render_camera_ray (camera, size, x, y, &origin, &direction);
  /* A parallel view looks at what is behind its eye as well. */
  if (camera->parallel)
    origin = trn_vec3_add_scaled (origin, direction, -DESK_PROBE_BACK_M);
  DeskHit hit = desk_probe_ray (probe, origin, direction);
  if (hit.on != DESK_ON_NOTHING && snap_px > 0)
    desk_probe_snap (probe, camera, size, x, y, snap_px, &hit);
  return hit;
}

/* ---- measuring ---- */

DeskAnchor
desk_anchor_make (const DeskProbe *probe, const DeskHit *hit)
{
  g_assert (hit->on != DESK_ON_NOTHING && hit->body < probe->n_bodies);
  const DeskProbeBody *body = &probe->bodies[hit->body];
  if (!body->is_load)
    return (DeskAnchor){ FALSE, hit->point };
  return (DeskAnchor){ TRUE, trn_pose_apply_inverse (&body->site_from_body, hit->point) };
}

TrnVec3
desk_anchor_point (const DeskAnchor *anchor, const TrnPose *site_from_load)
{
  return anchor->on_load ? trn_pose_apply (site_from_load, anchor->point) : anchor->point;
}

DeskMeasure
desk_measure_make (TrnVec3 a, TrnVec3 b)
{
  TrnVec3 apart = trn_vec3_sub (b, a);
  return (DeskMeasure){ .straight_m = trn_vec3_length (apart),
                        .level_m = hypot (apart.x, apart.y),
                        .vertical_m = fabs (apart.z) };
}
