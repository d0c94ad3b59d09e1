/* sight.c: a ray against every triangle of the bodies whose box it meets (Möller and Trumbore,
 * "Fast, minimum storage ray/triangle intersection", 1997). Asked for a handful of points, so that
 * no tree is needed. */
#include "sight.h"

/* Hits nearer to the point than this are the surface that it lies on. */
#define OWN_SURFACE_M 0.02
/* A ray toward the eye of a parallel view ends here: beyond every site. */
#define FAR_M 1e5
#define HEADINGS 8

typedef struct
{
  TrnVec3 from, direction; /* unit */
  double length_m;
} Ray;

static Ray
ray_to_eye (const RenderCamera *camera, TrnVec3 point)
{
  if (camera->parallel)
    {
      TrnVec3 forward, right, up;
      render_camera_axes (camera, &forward, &right, &up);
      return (Ray){ point, trn_vec3_scale (forward, -1), FAR_M };
    }
  TrnVec3 way = trn_vec3_sub (render_camera_eye (camera), point);
  double length_m = trn_vec3_length (way);
  return length_m > 0 ? (Ray){ point, trn_vec3_scale (way, 1 / length_m), length_m }
                      : (Ray){ point, { 0, 0, 1 }, 0 };
}

static gboolean
meets_box (const Ray *ray, const TrnBox *box)
{
  double t0 = 0, t1 = ray->length_m;
  const double from[] = { ray->from.x, ray->from.y, ray->from.z };
  const double along[] = { ray->direction.x, ray->direction.y, ray->direction.z };
  const double lo[] = { box->lo.x, box->lo.y, box->lo.z };
  const double hi[] = { box->hi.x, box->hi.y, box->hi.z };
  for (int i = 0; i < 3; i++)
    {
      if (along[i] == 0)
        {
          if (from[i] < lo[i] || from[i] > hi[i])
            return FALSE;
          continue;
        }
      double a = (lo[i] - from[i]) / along[i], b = (hi[i] - from[i]) / along[i];
      t0 = fmax (t0, fmin (a, b));
      t1 = fmin (t1, fmax (a, b));
    }
  return t0 <= t1;
}

static TrnVec3
corner (const RenderMesh *mesh, guint32 triangle, int k)
{
  const float *p = mesh->positions + 3 * mesh->triangles[3 * (gsize)triangle + (gsize)k];
  return trn_vec3_add (mesh->centre, trn_vec3_make (p[0], p[1], p[2]));
}

/* How far along the ray it meets the triangle; INFINITY when it does not. */
static double
hit_triangle (const Ray *ray, TrnVec3 a, TrnVec3 b, TrnVec3 c)
{
  TrnVec3 ab = trn_vec3_sub (b, a), ac = trn_vec3_sub (c, a);
  TrnVec3 p = trn_vec3_cross (ray->direction, ac);
  double determinant = trn_vec3_dot (ab, p);
  if (determinant == 0)
    return INFINITY;
  TrnVec3 off = trn_vec3_sub (ray->from, a), q = trn_vec3_cross (off, ab);
  double u = trn_vec3_dot (off, p) / determinant;
  double v = trn_vec3_dot (ray->direction, q) / determinant;
  if (u < 0 || v < 0 || u + v > 1)
    return INFINITY;
  return trn_vec3_dot (ac, q) / determinant;
}

static gboolean
is_cut_away (const RenderSection *section, TrnVec3 point)
{
  return section->on && trn_vec3_dot (section->normal, point) > section->offset_m;
}

static gboolean
is_in_the_way (const RenderDrawList *list, const RenderBody *body, const Ray *ray)
{
  if (body->look != RENDER_LOOK_SOLID)
    return FALSE;
  Ray local
      = { trn_pose_apply_inverse (&body->site_from_mesh, ray->from),
          trn_rotation_apply_inverse (&body->site_from_mesh.turn, ray->direction), ray->length_m };
  if (!meets_box (&local, &body->mesh->box))
    return FALSE;
  for (guint32 i = 0; i < body->mesh->n_triangles; i++)
    {
      double t = hit_triangle (&local, corner (body->mesh, i, 0), corner (body->mesh, i, 1),
                               corner (body->mesh, i, 2));
      if (t > OWN_SURFACE_M && t < ray->length_m
          && !is_cut_away (&list->section, trn_vec3_add_scaled (ray->from, ray->direction, t)))
        return TRUE;
    }
  return FALSE;
}

gboolean
render_sight_is_free (const RenderDrawList *list, const RenderCamera *camera, TrnVec3 point)
{
  if (is_cut_away (&list->section, point))
    return FALSE;
  Ray ray = ray_to_eye (camera, point);
  for (guint i = 0; i < list->bodies->len; i++)
    if (is_in_the_way (list, &g_array_index (list->bodies, RenderBody, i), &ray))
      return FALSE;
  return TRUE;
}

static gboolean
is_in_box (const TrnBox *box, TrnVec3 p)
{
  return p.x >= box->lo.x && p.x <= box->hi.x && p.y >= box->lo.y && p.y <= box->hi.y
         && p.z >= box->lo.z && p.z <= box->hi.z;
}

/* An eye within the box of a body sees its inside, or nothing; that of a slanting boom is mostly
 * air. */
static gboolean
is_eye_within (const RenderDrawList *list, const RenderCamera *camera)
{
  TrnVec3 eye = render_camera_eye (camera);
  for (guint i = 0; i < list->bodies->len; i++)
    {
      const RenderBody *body = &g_array_index (list->bodies, RenderBody, i);
      TrnVec3 p = trn_pose_apply_inverse (&body->site_from_mesh, eye);
      if (body->look == RENDER_LOOK_SOLID && body->role != RENDER_ROLE_GEAR
          && is_in_box (&body->mesh->box, p))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_roughly_free (const RenderDrawList *list, const RenderCamera *camera, TrnVec3 point)
{
  Ray ray = ray_to_eye (camera, point);
  for (guint i = 0; i < list->bodies->len; i++)
    {
      const RenderBody *body = &g_array_index (list->bodies, RenderBody, i);
      if (body->look != RENDER_LOOK_SOLID
          || (body->role != RENDER_ROLE_STRUCTURE && body->role != RENDER_ROLE_COMPONENT))
        continue;
      Ray local = { trn_pose_apply_inverse (&body->site_from_mesh, ray.from),
                    trn_rotation_apply_inverse (&body->site_from_mesh.turn, ray.direction),
                    ray.length_m };
      if (!is_in_box (&body->mesh->box, local.from) && meets_box (&local, &body->mesh->box))
        return FALSE;
    }
  return TRUE;
}

typedef gboolean (*IsFree) (const RenderDrawList *list, const RenderCamera *camera, TrnVec3 point);

static guint
turn (const RenderDrawList *list, RenderCamera *camera, const TrnVec3 *points, guint n_points,
      IsFree is_free, guint most_hidden)
{
  guint least = G_MAXUINT;
  RenderCamera best = *camera;
  /* 0, +1, −1, +2, −2 … eighths of a turn */
  for (int i = 0; i < HEADINGS && least > most_hidden; i++)
    {
      int step = i % 2 == 1 ? (i + 1) / 2 : -i / 2;
      RenderCamera turned = *camera;
      turned.heading_rad += step * 2 * G_PI / HEADINGS;
      guint hidden = is_eye_within (list, &turned) ? n_points : 0;
      for (guint k = 0; k < n_points; k++)
        hidden += !is_free (list, &turned, points[k]);
      if (hidden >= least)
        continue;
      least = hidden;
      best = turned;
    }
  *camera = best;
  return least;
}

guint
render_sight_turn (const RenderDrawList *list, RenderCamera *camera, const TrnVec3 *points,
                   guint n_points)
{
  return turn (list, camera, points, n_points, render_sight_is_free, 0);
}

guint
render_sight_turn_roughly (const RenderDrawList *list, RenderCamera *camera, const TrnVec3 *points,
                           guint n_points)
{
  return turn (list, camera, points, n_points, is_roughly_free, n_points / 4);
}
