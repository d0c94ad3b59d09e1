/* picture-of.c: camera, section and draw list for a picture. Views along an axis are parallel, so
 * that they can be measured; the oblique one is in perspective. */
#include "picture-of.h"

#include "picture.h"
#include "sight.h"
#include "site-view.h"
#include "view-words.h"

#define WIDTH 1600
#define HEIGHT 1000
/* Nearer to its limit than this a clearance is shown as tight. */
#define TIGHT_M 0.1
/* A cut along a gap goes by this much before it, and is looked at so much from the side. */
#define BESIDE_GAP_M 1e-3
#define ASIDE_RAD (G_PI / 7)

static RenderSection
make_section (const CliSection *wanted, const RenderCamera *camera)
{
  RenderSection section = { .on = wanted->on };
  if (!wanted->on)
    return section;
  double normal[3] = { 0 };
  normal[wanted->axis] = 1;
  section.normal = trn_vec3_make (normal[0], normal[1], normal[2]);
  section.offset_m = wanted->offset_m;
  /* What is cut away lies between the plane and whoever looks. */
  TrnVec3 forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  if (trn_vec3_dot (section.normal, forward) > 0)
    {
      section.normal = trn_vec3_scale (section.normal, -1);
      section.offset_m = -section.offset_m;
    }
  return section;
}

/* A finding is looked at from near, a moment with the whole lift round it. */
static RenderCamera
make_camera (const CliOptions *options, const RenderSite *site, const CliMoment *moment,
             RenderSize size)
{
  TrnBox extent = moment->finding != NULL
                      ? render_site_extent_near (site, moment->run, moment->finding->point_on_body)
                      : render_site_extent (site, moment->run);
  RenderStandardView view = RENDER_VIEW_SOLID;
  if (options->view != NULL)
    render_standard_view_from_name (options->view, &view);
  RenderCamera camera = render_camera_make (&extent, size);
  render_camera_set_standard (&camera, view);
  camera.parallel = view != RENDER_VIEW_SOLID;
  render_camera_fit (&camera, size, &extent);
  return camera;
}

/* An upright plane along the gap: what stands before it is cut away, so that one looks into a shaft
 * from its side. Of the two sides the one that the camera is on already is kept. */
static void
cut_along_gap (TrnVec3 a, TrnVec3 b, RenderCamera *camera, RenderSection *section)
{
  TrnVec3 gap = trn_vec3_sub (b, a), forward, right, up;
  render_camera_axes (camera, &forward, &right, &up);
  TrnVec3 normal = { gap.y, -gap.x, 0 };
  if (trn_vec3_length (normal) < 0.1 * trn_vec3_length (gap) || trn_vec3_length (normal) == 0)
    normal = (TrnVec3){ forward.x, forward.y, 0 };
  normal = trn_vec3_unit (normal);
  if (trn_vec3_dot (normal, forward) > 0)
    normal = trn_vec3_scale (normal, -1);
  *section = (RenderSection){ TRUE, normal, trn_vec3_dot (normal, a) + BESIDE_GAP_M };
  camera->heading_rad = atan2 (-normal.y, -normal.x) + ASIDE_RAD;
}

/* What stands before the points of the finding is looked round, where the view is free to turn; and
 * where they are hidden from every side, it is cut away. */
static void
look_round (const CliMoment *moment, const RenderDrawList *list, RenderCamera *camera,
            RenderSection *section)
{
  if (moment->finding == NULL || camera->parallel || section->on)
    return;
  TrnVec3 a = moment->finding->point_on_body, b = moment->finding->point_on_obstacle;
  TrnVec3 points[] = { a, b, trn_vec3_mix (a, b, 0.5) };
  if (render_sight_turn (list, camera, points, G_N_ELEMENTS (points)) > 1)
    cut_along_gap (a, b, camera, section);
}

cairo_surface_t *
cli_picture_draw (const CliOptions *options, const TrnScene *scene, const CliMoment *moment,
                  CliPictureProgress progress, GError **error)
{
  RenderPictureOptions picture = { .width = options->width > 0 ? (int)options->width : WIDTH,
                                   .height = options->height > 0 ? (int)options->height : HEIGHT,
                                   .scale = options->scale > 0 ? options->scale : 1,
                                   .clean = options->clean,
                                   .progress = progress.tell,
                                   .progress_data = progress.data };
  RenderSize size = { picture.width / picture.scale, picture.height / picture.scale };
  g_autoptr (RenderSite) site = render_site_build (scene, 0);
  g_autoptr (TrnMoment) now = trn_moment_new (scene, moment->run);
  g_autoptr (RenderJudge) judge = render_judge_new (moment->findings, now);
  trn_moment_judge_by (now, render_judge_part, judge);
  trn_moment_set_time (now, moment->time_s);
  RenderCamera camera = make_camera (options, site, moment, size);
  g_autofree char *caption = trn_words_caption (
      moment->time_s, options->view != NULL ? options->view : "3d", camera.parallel);
  gboolean marks = !options->clean;
  RenderSiteState state = { .run = moment->run,
                            .time_s = moment->time_s,
                            .moment = now,
                            .judge = judge,
                            .findings = moment->findings,
                            .finding = marks ? moment->finding : NULL,
                            .tight_m = TIGHT_M,
                            .paths = marks,
                            .ghosts = marks,
                            .swing_circles = marks,
                            .nearest = marks && moment->finding == NULL,
                            .tells_verdict = marks,
                            .grid = TRUE,
                            .compass = marks,
                            .human = TRUE,
                            .dark = options->dark,
                            .section = make_section (&options->section, &camera),
                            .caption = caption };
  g_autoptr (RenderDrawList) whole = render_site_view (site, &state);
  look_round (moment, whole, &camera, &state.section);
  g_autoptr (RenderDrawList) list = render_site_view (site, &state);
  return render_picture (list, &camera, &picture, error);
}
