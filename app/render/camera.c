/* camera.c: an orbit camera: a target, a direction and a distance.
 *
 * Every movement is worked out from what must stay in its place on the screen, so that nothing is
 * approximated: turning keeps the pivot's coordinates along the axes of the view, panning moves
 * parallel to the screen, coming nearer shrinks everything about the point under the pointer. The
 * parallel view shows at its whole depth what the perspective view shows at the target, so that
 * switching between them keeps the size of what is looked at.
 *
 * Fitting is exact: a plane of the view's pyramid through a corner of the box gives a linear
 * condition on the eye, and the nearest eye that meets all of them is in closed form. What room is
 * left to the sides is then shared evenly. */
#include "camera.h"

#define LEAST_DISTANCE_M 0.01
#define GREATEST_DISTANCE_M 1e6
#define DEFAULT_FOV_RAD (G_PI / 5)
/* How much of the view a fitted box may fill. */
#define FIT_FILL 0.94
/* What is smaller is shown as if it were of this size. */
#define FIT_LEAST_M 0.5
/* The nearest plane is at least this share of the farthest: 24 bits of depth tell apart about
 * 1/16,000 of the distance at the far end then. */
#define NEAR_OF_FAR 1e-3
#define LEAST_NEAR_M 0.01
/* But what one looks at is never before it, however far something else stands: in such shares of
 * the distance. What is far off is told apart less well then. */
#define NEAR_OF_DISTANCE 0.2
/* Depth of a parallel view, as many times the distance: beyond it nothing would be told apart. */
#define DEEPEST 5000
/* Room in depth, as many times what a pixel is: lines are drawn a few pixels nearer than they are.
 */
#define MARGIN_PX 8

static double
half_height_at (const RenderCamera *camera, double depth_m)
{
  return tan (camera->fov_rad / 2) * (camera->parallel ? camera->distance_m : depth_m);
}

void
render_camera_axes (const RenderCamera *camera, TrnVec3 *forward, TrnVec3 *right, TrnVec3 *up)
{
  double ch = cos (camera->heading_rad), sh = sin (camera->heading_rad);
  double cp = cos (camera->pitch_rad), sp = sin (camera->pitch_rad);
  *forward = trn_vec3_make (cp * ch, cp * sh, sp);
  *right = trn_vec3_make (sh, -ch, 0);
  *up = trn_vec3_make (-sp * ch, -sp * sh, cp);
}

TrnVec3
render_camera_eye (const RenderCamera *camera)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  return trn_vec3_add_scaled (camera->target, forward, -camera->distance_m);
}

gboolean
render_camera_project (const RenderCamera *camera, RenderSize size, TrnVec3 point, double *x,
                       double *y, double *depth_m)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 from_target = trn_vec3_sub (point, camera->target);
  double depth = camera->distance_m + trn_vec3_dot (from_target, forward);
  *depth_m = depth;
  if (!camera->parallel && depth <= 0)
    return FALSE;
  double per_metre = size.height / 2 / half_height_at (camera, depth);
  *x = size.width / 2 + per_metre * trn_vec3_dot (from_target, right);
  *y = size.height / 2 - per_metre * trn_vec3_dot (from_target, up);
  return TRUE;
}

void
render_camera_ray (const RenderCamera *camera, RenderSize size, double x, double y, TrnVec3 *origin,
                   TrnVec3 *direction)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 eye = trn_vec3_add_scaled (camera->target, forward, -camera->distance_m);
  double metre = half_height_at (camera, 1) / (size.height / 2);
  TrnVec3 aside = trn_vec3_add (trn_vec3_scale (right, metre * (x - size.width / 2)),
                                trn_vec3_scale (up, metre * (size.height / 2 - y)));
  if (camera->parallel)
    {
      *origin = trn_vec3_add (eye, aside);
      *direction = forward;
      return;
    }
  *origin = eye;
  *direction = trn_vec3_unit (trn_vec3_add (forward, aside));
}

double
render_camera_metres_per_pixel (const RenderCamera *camera, RenderSize size, TrnVec3 point)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  double depth = camera->distance_m + trn_vec3_dot (trn_vec3_sub (point, camera->target), forward);
  /* Behind the eye nothing has a size: as at the target. */
  if (depth <= 0)
    depth = camera->distance_m;
  return half_height_at (camera, depth) / (size.height / 2);
}

/* ---- movements ---- */

void
render_camera_orbit (RenderCamera *camera, TrnVec3 pivot, double heading_by_rad,
                     double pitch_by_rad)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 to_target = trn_vec3_sub (camera->target, pivot);
  double along_right = trn_vec3_dot (to_target, right);
  double along_up = trn_vec3_dot (to_target, up);
  double along_forward = trn_vec3_dot (to_target, forward);
  camera->heading_rad = remainder (camera->heading_rad + heading_by_rad, 2 * G_PI);
  camera->pitch_rad = CLAMP (camera->pitch_rad + pitch_by_rad, -G_PI / 2, G_PI / 2);
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 turned = trn_vec3_scale (right, along_right);
  turned = trn_vec3_add_scaled (turned, up, along_up);
  turned = trn_vec3_add_scaled (turned, forward, along_forward);
  camera->target = trn_vec3_add (pivot, turned);
}

void
render_camera_pan (RenderCamera *camera, RenderSize size, TrnVec3 grabbed, double x0, double y0,
                   double x1, double y1)
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  double metre = render_camera_metres_per_pixel (camera, size, grabbed);
  TrnVec3 target = trn_vec3_add_scaled (camera->target, right, -metre * (x1 - x0));
  camera->target = trn_vec3_add_scaled (target, up, metre * (y1 - y0));
}

void
render_camera_zoom (RenderCamera *camera, RenderSize size, TrnVec3 under, double factor)
{
  double distance = CLAMP (camera->distance_m * factor, LEAST_DISTANCE_M, GREATEST_DISTANCE_M);
  double by = distance / camera->distance_m;
  camera->target = trn_vec3_add_scaled (under, trn_vec3_sub (camera->target, under), by);
  camera->distance_m = distance;
}

/* ---- showing all of something ---- */

/* What the view needs of the corners of a box, along its axes: the extremes of right, up and
 * forward, and of the linear forms of the pyramid's four planes. */
typedef struct
{
  double lo[3], hi[3];
  double right, left, top, bottom;
} Reach;

static Reach
reach_of_box (const TrnBox *box, const TrnVec3 axes[3], double tan_x, double tan_y)
{
  Reach reach = { { INFINITY, INFINITY, INFINITY },
                  { -INFINITY, -INFINITY, -INFINITY },
                  -INFINITY,
                  -INFINITY,
                  -INFINITY,
                  -INFINITY };
  TrnVec3 centre = trn_box_centre (box);
  for (guint i = 0; i < 8; i++)
    {
      TrnVec3 from_centre = trn_vec3_sub (trn_box_corner (box, i), centre);
      double p[3];
      for (int k = 0; k < 3; k++)
        {
          p[k] = trn_vec3_dot (from_centre, axes[k]);
          reach.lo[k] = fmin (reach.lo[k], p[k]);
          reach.hi[k] = fmax (reach.hi[k], p[k]);
        }
      reach.right = fmax (reach.right, p[0] - tan_x * p[2]);
      reach.left = fmax (reach.left, -p[0] - tan_x * p[2]);
      reach.top = fmax (reach.top, p[1] - tan_y * p[2]);
      reach.bottom = fmax (reach.bottom, -p[1] - tan_y * p[2]);
    }
  return reach;
}

/* The eye's place along one axis of the view from where the box reaches as far to one side of the
 * middle as to the other, by halving: the one side grows as the other shrinks. */
static double
balanced_eye (const TrnBox *box, TrnVec3 axis, TrnVec3 forward, double eye_forward)
{
  TrnVec3 centre = trn_box_centre (box);
  double reach = trn_vec3_length (trn_box_size (box)), lo = -reach, hi = reach;
  for (int round = 0; round < 60; round++)
    {
      double eye = (lo + hi) / 2, right = -INFINITY, left = -INFINITY;
      for (guint i = 0; i < 8; i++)
        {
          TrnVec3 p = trn_vec3_sub (trn_box_corner (box, i), centre);
          double slope = (trn_vec3_dot (p, axis) - eye) / (trn_vec3_dot (p, forward) - eye_forward);
          right = fmax (right, slope);
          left = fmax (left, -slope);
        }
      if (right > left)
        lo = eye;
      else
        hi = eye;
    }
  return (lo + hi) / 2;
}

void
render_camera_fit (RenderCamera *camera, RenderSize size, const TrnBox *extent)
{
  if (trn_box_is_empty (extent))
    return;
  TrnBox box = *extent;
  TrnVec3 centre = trn_box_centre (&box);
  if (trn_vec3_max_abs (trn_box_size (&box)) < FIT_LEAST_M)
    {
      TrnVec3 half = trn_vec3_make (FIT_LEAST_M / 2, FIT_LEAST_M / 2, FIT_LEAST_M / 2);
      box = (TrnBox){ trn_vec3_sub (centre, half), trn_vec3_add (centre, half) };
    }
  TrnVec3 axes[3]; /* right, up, forward */
  render_camera_axes (camera, &axes[2], &axes[0], &axes[1]);
  double tan_y = FIT_FILL * tan (camera->fov_rad / 2);
  double tan_x = tan_y * size.width / size.height;
  Reach reach = reach_of_box (&box, axes, tan_x, tan_y);
  double x, y;
  if (camera->parallel)
    {
      double half_y = fmax ((reach.hi[1] - reach.lo[1]) / 2,
                            (reach.hi[0] - reach.lo[0]) / 2 * size.height / size.width);
      camera->distance_m = half_y / tan_y;
      x = (reach.lo[0] + reach.hi[0]) / 2;
      y = (reach.lo[1] + reach.hi[1]) / 2;
    }
  else
    {
      double eye = fmin (-(reach.right + reach.left) / (2 * tan_x),
                         -(reach.top + reach.bottom) / (2 * tan_y));
      camera->distance_m = -eye;
      x = balanced_eye (&box, axes[0], axes[2], eye);
      y = balanced_eye (&box, axes[1], axes[2], eye);
    }
  camera->distance_m = CLAMP (camera->distance_m, LEAST_DISTANCE_M, GREATEST_DISTANCE_M);
  camera->target = trn_vec3_add_scaled (trn_vec3_add_scaled (centre, axes[0], x), axes[1], y);
}

RenderCamera
render_camera_make (const TrnBox *extent, RenderSize size)
{
  RenderCamera camera = { .distance_m = 50, .fov_rad = DEFAULT_FOV_RAD };
  render_camera_set_standard (&camera, RENDER_VIEW_SOLID);
  render_camera_fit (&camera, size, extent);
  return camera;
}

/* ---- standard views ---- */

static const struct
{
  const char *name;
  double heading_rad, pitch_rad;
} standard_views[] = {
  [RENDER_VIEW_PLAN] = { "plan", G_PI / 2, -G_PI / 2 },
  [RENDER_VIEW_NORTH] = { "north", -G_PI / 2, 0 },
  [RENDER_VIEW_EAST] = { "east", G_PI, 0 },
  [RENDER_VIEW_SOUTH] = { "south", G_PI / 2, 0 },
  [RENDER_VIEW_WEST] = { "west", 0, 0 },
  [RENDER_VIEW_SOLID] = { "3d", 0.7 * G_PI, -G_PI / 7 },
};

void
render_camera_set_standard (RenderCamera *camera, RenderStandardView view)
{
  camera->heading_rad = standard_views[view].heading_rad;
  camera->pitch_rad = standard_views[view].pitch_rad;
}

gboolean
render_standard_view_from_name (const char *name, RenderStandardView *view)
{
  for (guint i = 0; i < G_N_ELEMENTS (standard_views); i++)
    if (g_str_equal (name, standard_views[i].name))
      {
        *view = i;
        return TRUE;
      }
  return FALSE;
}

const char *
render_standard_view_name (RenderStandardView view)
{
  return standard_views[view].name;
}

/* ---- matrices ---- */

static void
depth_range (const RenderCamera *camera, RenderSize size, const TrnBox *extent, TrnVec3 forward,
             double *near, double *far)
{
  *near = INFINITY;
  *far = -INFINITY;
  for (guint i = 0; i < 8 && !trn_box_is_empty (extent); i++)
    {
      TrnVec3 from_target = trn_vec3_sub (trn_box_corner (extent, i), camera->target);
      double depth = camera->distance_m + trn_vec3_dot (from_target, forward);
      *near = fmin (*near, depth);
      *far = fmax (*far, depth);
    }
  if (!(*near <= *far))
    *near = *far = camera->distance_m;
  double margin = 0.01 * (*far - *near) + 0.1
                  + MARGIN_PX * half_height_at (camera, fmax (*far, 0)) / (size.height / 2);
  *near -= margin;
  *far += margin;
  double distance_m = camera->distance_m;
  if (camera->parallel)
    {
      *near = fmax (*near, -DEEPEST * distance_m);
      *far = fmin (*far, DEEPEST * distance_m);
      return;
    }
  *far = fmax (*far, 2 * LEAST_NEAR_M);
  double least_m = fmin (NEAR_OF_FAR * *far, NEAR_OF_DISTANCE * distance_m);
  *near = fmax (*near, fmax (least_m, LEAST_NEAR_M));
}

void
render_camera_matrices (const RenderCamera *camera, RenderSize size, TrnVec3 origin,
                        const TrnBox *extent, float view[16], float projection[16])
{
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 rows[3] = { right, up, trn_vec3_scale (forward, -1) };
  TrnVec3 target = trn_vec3_sub (camera->target, origin);
  for (int i = 0; i < 3; i++)
    {
      view[i] = (float)rows[i].x;
      view[4 + i] = (float)rows[i].y;
      view[8 + i] = (float)rows[i].z;
      view[12 + i] = (float)(-trn_vec3_dot (rows[i], target) - (i == 2 ? camera->distance_m : 0));
      view[4 * i + 3] = 0;
    }
  view[15] = 1;

  double near, far;
  depth_range (camera, size, extent, forward, &near, &far);
  double half_y = half_height_at (camera, 1), half_x = half_y * size.width / size.height;
  for (int i = 0; i < 16; i++)
    projection[i] = 0;
  projection[0] = (float)(1 / half_x);
  projection[5] = (float)(1 / half_y);
  if (camera->parallel)
    {
      projection[10] = (float)(-2 / (far - near));
      projection[14] = (float)(-(far + near) / (far - near));
      projection[15] = 1;
      return;
    }
  projection[10] = (float)(-(far + near) / (far - near));
  projection[11] = -1;
  projection[14] = (float)(-2 * far * near / (far - near));
}
