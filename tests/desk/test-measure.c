/* What lies under a screen point, where it snaps to, and what is measured, by closed form: a crate
 * on a slab beside a wall, looked at squarely, so that every place on the screen is known. */
#include "probe.h"
#include "section.h"
#include "test-plan.h"

/* The crate is the cube of 2 m on (0, 0, 0) and rises 3 m at 0.1 m/s; the slab's top is at 0; the
 * wall's faces are at x = 5.5 and 6.5. */
static const char plan_text[]
    = "{'format':'trunnion-plan','version':1,'keep_clear':0.2,"
      "'structures':[{'id':'slab','at':{'position':[0,0,-1]},"
      "'solid':{'kind':'box','size':[20,20,1]}},"
      "{'id':'wall','at':{'position':[6,0,0]},'solid':{'kind':'box','size':[1,20,9]}}],"
      "'components':[{'id':'crate','at':{'position':[0,0,0]},'points':{'eye':[0,0,2]},"
      "'solid':{'kind':'box','size':[2,2,2]}}],"
      "'programme':[{'lift':'up','component':'crate','hook_point':'eye','moves':["
      "{'do':'hoist','by':3,'seconds':30}],'seats':[{'on':'slab','at':'start'}]}]}";

static const RenderSize size = { 800, 600 };

typedef struct
{
  TrnScene *scene;
  RenderSite *site;
  RenderCamera camera; /* from the south, 100 px a metre, the crate's middle in the middle */
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  f->scene = trn_scene_build_take (test_programme (plan_text), &(TrnSceneOptions){ 0 }, diags);
  g_assert_nonnull (f->scene);
  f->site = render_site_build (f->scene, 0);
  f->camera = (RenderCamera){ .target = { 0, 0, 1 },
                              .distance_m = 50,
                              .heading_rad = G_PI / 2,
                              .fov_rad = 2 * atan (3.0 / 50),
                              .parallel = TRUE };
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  render_site_free (f->site);
  trn_scene_free (f->scene);
}

static DeskProbe *
probe_at (Fixture *f, double time_s, RenderSection section)
{
  return desk_probe_new (f->site, 0, time_s, NULL, section);
}

static const TrnVec3 down = { 0, 0, -1 };
static const RenderSection uncut = { .on = FALSE };

/* From above: the crate's top where it is at that time, the slab beside it, nothing beside the
 * slab. */
static void
test_rays (Fixture *f, gconstpointer data)
{
  const struct
  {
    double time_s, x, y, z; /* NAN: nothing */
    guint body;
  } rows[] = { { 0, 0.3, 0.4, 2, 0 }, { 10, 0.3, 0.4, 3, 0 }, { 0, 3, -2, 0, 1 },
               { 0, 6.2, 1, 9, 2 },   { 0, 30, 0, NAN, 0 },   { 30, -0.9, 0.9, 5, 0 } };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (DeskProbe) probe = probe_at (f, rows[i].time_s, uncut);
      DeskHit hit = desk_probe_ray (probe, trn_vec3_make (rows[i].x, rows[i].y, 50), down);
      g_assert_cmpint (hit.on, ==, isnan (rows[i].z) ? DESK_ON_NOTHING : DESK_ON_FACE);
      if (isnan (rows[i].z))
        continue;
      g_assert_cmpuint (hit.body, ==, rows[i].body);
      test_assert_near (hit.point, rows[i].x, rows[i].y, rows[i].z, 1e-9);
    }
}

/* What is cut away is not met; where the ray comes out of the cut inside a solid it is on the cut
 * face; what lies below the plane is met as ever. A hidden wall is not there. */
static void
test_cuts (Fixture *f, gconstpointer data)
{
  RenderSection level = { TRUE, { 0, 0, 1 }, 1.25 };
  g_autoptr (DeskProbe) probe = probe_at (f, 0, level);
  DeskHit hit = desk_probe_ray (probe, trn_vec3_make (0.3, 0.4, 50), down);
  g_assert_cmpint (hit.on, ==, DESK_ON_CUT);
  test_assert_near (hit.point, 0.3, 0.4, 1.25, 1e-9);
  hit = desk_probe_ray (probe, trn_vec3_make (3, 3, 50), down);
  g_assert_cmpint (hit.on, ==, DESK_ON_FACE);
  test_assert_near (hit.point, 3, 3, 0, 1e-9);
  /* Above the plane, toward the wall, and never back below it. */
  hit = desk_probe_ray (probe, trn_vec3_make (0, 0, 4), trn_vec3_make (1, 0, 0));
  g_assert_cmpint (hit.on, ==, DESK_ON_NOTHING);

  RenderVisibility visibility[2] = { RENDER_VISIBLE_SOLID, RENDER_VISIBLE_HIDDEN };
  g_autoptr (DeskProbe) without = desk_probe_new (f->site, 0, 0, visibility, uncut);
  hit = desk_probe_ray (without, trn_vec3_make (6.2, 1, 50), down);
  test_assert_near (hit.point, 6.2, 1, 0, 1e-9);
}

static DeskHit
snap_at (Fixture *f, const DeskProbe *probe, TrnVec3 near, double right_px, double down_px)
{
  double x, y, depth_m;
  g_assert_true (render_camera_project (&f->camera, size, near, &x, &y, &depth_m));
  return desk_probe_screen (probe, &f->camera, size, x + right_px, y + down_px, 10);
}

/* The front of the crate, 200 px wide. Near a corner: the corner, exactly, of the front and not of
 * the back that is seen at the same place; near an edge only: the edge; elsewhere, on the diagonal
 * between its two triangles as well: the face. */
static void
test_snap (Fixture *f, gconstpointer data)
{
  g_autoptr (DeskProbe) probe = probe_at (f, 0, uncut);
  const TrnVec3 corner = { 1, -1, 2 };
  const struct
  {
    double right_px, down_px;
    DeskOn on;
    TrnVec3 at;
  } rows[]
      = { { -3, 3, DESK_ON_CORNER, { 1, -1, 2 } },      { -9, 3, DESK_ON_CORNER, { 1, -1, 2 } },
          { -50, 6, DESK_ON_EDGE, { 0.5, -1, 2 } },     { -6, 50, DESK_ON_EDGE, { 1, -1, 1.5 } },
          { -50, 14, DESK_ON_FACE, { 0.5, -1, 1.86 } }, { -50, 50, DESK_ON_FACE, { 0.5, -1, 1.5 } },
          { -50, 150, DESK_ON_FACE, { 0.5, -1, 0.5 } } };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      DeskHit hit = snap_at (f, probe, corner, rows[i].right_px, rows[i].down_px);
      g_assert_cmpint (hit.on, ==, rows[i].on);
      test_assert_near (hit.point, rows[i].at.x, rows[i].at.y, rows[i].at.z, 1e-9);
    }
}

/* Cut open along y = 0.25 and seen from the south: on the hatched face the pointer finds the
 * outline of the cut, which is no edge of the mesh, and its corners; the diagonal of a side that
 * the plane goes through makes no corner. */
static void
test_snap_on_cut (Fixture *f, gconstpointer data)
{
  g_autoptr (DeskProbe) probe = probe_at (f, 0, (RenderSection){ TRUE, { 0, -1, 0 }, -0.25 });
  const TrnVec3 corner = { 1, 0.25, 2 };
  const struct
  {
    double right_px, down_px;
    DeskOn on;
    TrnVec3 at;
  } rows[] = { { -3, 3, DESK_ON_CORNER, { 1, 0.25, 2 } },
               { -50, 6, DESK_ON_EDGE, { 0.5, 0.25, 2 } },
               { -6, 50, DESK_ON_EDGE, { 1, 0.25, 1.5 } },
               { -50, 50, DESK_ON_CUT, { 0.5, 0.25, 1.5 } } };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      DeskHit hit = snap_at (f, probe, corner, rows[i].right_px, rows[i].down_px);
      g_assert_cmpint (hit.on, ==, rows[i].on);
      test_assert_near (hit.point, rows[i].at.x, rows[i].at.y, rows[i].at.z, 1e-9);
    }
  /* All along the upper outline: nowhere a corner but at its ends. */
  for (int px = -180; px <= -20; px += 5)
    g_assert_cmpint (snap_at (f, probe, corner, px, 4).on, ==, DESK_ON_EDGE);
}

/* In a perspective view the same corner is found to the bit of the mesh: what is measured does not
 * depend on where one looks from. */
static void
test_snap_is_exact (Fixture *f, gconstpointer data)
{
  g_autoptr (DeskProbe) probe = probe_at (f, 0, uncut);
  f->camera.parallel = FALSE;
  for (int i = -4; i <= 4; i++)
    {
      f->camera.heading_rad = G_PI / 2 + 0.1 * i;
      f->camera.pitch_rad = -0.3;
      DeskHit hit = snap_at (f, probe, trn_vec3_make (-1, -1, 2), 3, 3);
      g_assert_cmpint (hit.on, ==, DESK_ON_CORNER);
      test_assert_near (hit.point, -1, -1, 2, 0);
    }
}

/* A point of the load rises with it, one of the slab stays; their distance follows. */
static void
test_anchors (Fixture *f, gconstpointer data)
{
  g_autoptr (DeskProbe) probe = probe_at (f, 0, uncut);
  DeskHit top = desk_probe_ray (probe, trn_vec3_make (0.5, 0, 50), down);
  DeskHit slab = desk_probe_ray (probe, trn_vec3_make (4.5, 0, 50), down);
  DeskAnchor a = desk_anchor_make (probe, &top), b = desk_anchor_make (probe, &slab);
  g_assert_true (a.on_load);
  g_assert_false (b.on_load);
  guint move;
  double progress;
  TrnPose later = trn_lift_run_pose (&f->scene->programme->runs[0], 10, &move, &progress);
  test_assert_near (desk_anchor_point (&a, &later), 0.5, 0, 3, 1e-9);
  test_assert_near (desk_anchor_point (&b, &later), 4.5, 0, 0, 1e-9);
  DeskMeasure measure
      = desk_measure_make (desk_anchor_point (&a, &later), desk_anchor_point (&b, &later));
  g_assert_cmpfloat_with_epsilon (measure.straight_m, 5, 1e-9);
  g_assert_cmpfloat_with_epsilon (measure.level_m, 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (measure.vertical_m, 3, 1e-9);
}

/* The box of 3 × 4 × 12: 13 straight, 5 level; the other way round as well. */
static void
test_parts (void)
{
  TrnVec3 a = { 10, -20, 5 }, b = { 13, -16, -7 };
  for (int i = 0; i < 2; i++)
    {
      DeskMeasure measure = i == 0 ? desk_measure_make (a, b) : desk_measure_make (b, a);
      g_assert_cmpfloat_with_epsilon (measure.straight_m, 13, 1e-12);
      g_assert_cmpfloat_with_epsilon (measure.level_m, 5, 1e-12);
      g_assert_cmpfloat_with_epsilon (measure.vertical_m, 12, 1e-12);
    }
}

static gboolean
is_cut_away (const DeskSectionPlane *plane, double x, double y, double z)
{
  RenderSection section = desk_section_make (plane, TRUE);
  return trn_vec3_dot (section.normal, trn_vec3_make (x, y, z)) > section.offset_m;
}

/* Each kind cuts away the side that its name says, at the place that it says, and the other side
 * when flipped. Heading 30° runs along (cos, sin); to its right lies the point below the line. */
static void
test_sections (void)
{
  const struct
  {
    DeskSectionPlane plane;
    TrnVec3 away, kept;
  } rows[] = {
    { { DESK_SECTION_LEVEL, 2, 0, FALSE }, { 0, 0, 2.1 }, { 0, 0, 1.9 } },
    { { DESK_SECTION_EAST_WEST, 2, 0, FALSE }, { 0, 1.9, 0 }, { 0, 2.1, 0 } },
    { { DESK_SECTION_NORTH_SOUTH, -2, 0, FALSE }, { -1.9, 0, 0 }, { -2.1, 0, 0 } },
    { { DESK_SECTION_HEADING, 0, G_PI / 6, FALSE }, { 5, 2.8, 0 }, { 5, 3.0, 0 } },
    { { DESK_SECTION_HEADING, 1, G_PI / 2, FALSE }, { 1.1, 7, 0 }, { 0.9, -7, 0 } },
  };
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (int flipped = 0; flipped < 2; flipped++)
      {
        DeskSectionPlane plane = rows[i].plane;
        plane.flipped = flipped;
        TrnVec3 away = rows[i].away, kept = rows[i].kept;
        g_assert_true (is_cut_away (&plane, away.x, away.y, away.z) == !flipped);
        g_assert_true (is_cut_away (&plane, kept.x, kept.y, kept.z) == flipped);
      }
  TrnBox box = { { -1, -2, -3 }, { 4, 5, 6 } };
  double lo_m, hi_m;
  desk_section_range (&rows[1].plane, &box, &lo_m, &hi_m);
  g_assert_cmpfloat (lo_m, ==, -2);
  g_assert_cmpfloat (hi_m, ==, 5);
  desk_section_range (&rows[0].plane, &box, &lo_m, &hi_m);
  g_assert_cmpfloat (lo_m, ==, -3);
  g_assert_cmpfloat (hi_m, ==, 6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add ("/desk/measure/rays", Fixture, NULL, set_up, test_rays, tear_down);
  g_test_add ("/desk/measure/cuts", Fixture, NULL, set_up, test_cuts, tear_down);
  g_test_add ("/desk/measure/snap", Fixture, NULL, set_up, test_snap, tear_down);
  g_test_add ("/desk/measure/snap-on-cut", Fixture, NULL, set_up, test_snap_on_cut, tear_down);
  g_test_add ("/desk/measure/exact", Fixture, NULL, set_up, test_snap_is_exact, tear_down);
  g_test_add ("/desk/measure/anchors", Fixture, NULL, set_up, test_anchors, tear_down);
  g_test_add_func ("/desk/measure/parts", test_parts);
  g_test_add_func ("/desk/measure/sections", test_sections);
  return g_test_run ();
}
