/* Each fault of a solid has its code and the path of the key at fault. Every case starts from a
 * solid that passes. */
#include "solid.h"

/* Faults as lines "code path". */
static void
note_fault (const char *code, const char *path, gpointer data)
{
  g_string_append_printf (data, "%s %s\n", code, path);
}

static void
assert_faults (const TrnSolid *solid, const char *expected)
{
  g_autoptr (GString) faults = g_string_new (NULL);
  gboolean fine = trn_solid_check (solid, note_fault, faults);
  g_assert_cmpstr (faults->str, ==, expected);
  g_assert_cmpint (fine, ==, *expected == '\0');
  g_assert_cmpint (trn_solid_check (solid, NULL, NULL), ==, fine);
}

static TrnSolid *
box_new (double x, double y, double z)
{
  TrnSolid *solid = trn_solid_new (TRN_SOLID_BOX);
  solid->size = trn_vec3_make (x, y, z);
  return solid;
}

static void
test_sizes (void)
{
  g_autoptr (TrnSolid) solid = box_new (1, 2, 3);
  assert_faults (solid, "");
  solid->size = trn_vec3_make (0, -1, NAN);
  assert_faults (solid, "shape/not-positive /size/0\nshape/not-positive /size/1\n"
                        "shape/not-finite /size/2\n");
  solid->size = trn_vec3_make (INFINITY, 100001, 1e-7);
  assert_faults (solid, "shape/not-finite /size/0\nshape/too-large /size/1\n"
                        "shape/too-small /size/2\n");
}

static void
test_round (void)
{
  g_autoptr (TrnSolid) cylinder = trn_solid_new (TRN_SOLID_CYLINDER);
  assert_faults (cylinder, "shape/not-positive /diameter\nshape/not-positive /height\n");
  cylinder->diameter_m = cylinder->height_m = 1;
  assert_faults (cylinder, "");

  g_autoptr (TrnSolid) tube = trn_solid_new (TRN_SOLID_TUBE);
  tube->outer_diameter_m = tube->inner_diameter_m = 2;
  assert_faults (tube, "shape/not-positive /height\nshape/inner-not-smaller /inner_diameter\n");
  tube->inner_diameter_m = 1.9;
  tube->height_m = 5;
  assert_faults (tube, "");
  tube->inner_diameter_m = 2.1;
  assert_faults (tube, "shape/inner-not-smaller /inner_diameter\n");
}

static void
test_shafts (void)
{
  g_autoptr (TrnSolid) round = trn_solid_new (TRN_SOLID_ROUND_SHAFT);
  assert_faults (round, "shape/not-positive /inner_diameter\nshape/not-positive /depth\n"
                        "shape/not-positive /wall\n");
  round->inner_diameter_m = round->depth_m = round->wall_m = 1;
  assert_faults (round, "");
  round->floor_m = -0.1;
  assert_faults (round, "shape/negative /floor\n");
  round->floor_m = NAN;
  assert_faults (round, "shape/not-finite /floor\n");

  g_autoptr (TrnSolid) rect = trn_solid_new (TRN_SOLID_RECT_SHAFT);
  assert_faults (rect, "shape/not-positive /size/0\nshape/not-positive /size/1\n"
                       "shape/not-positive /depth\nshape/not-positive /wall\n");
}

static void
test_beam (void)
{
  g_autoptr (TrnSolid) beam = trn_solid_new (TRN_SOLID_BEAM);
  assert_faults (beam, "shape/no-length /to\nshape/not-positive /width\n"
                       "shape/not-positive /depth\n");
  beam->width_m = beam->depth_m = 0.3;
  beam->to = trn_vec3_make (0, 0, -1);
  assert_faults (beam, "");
  beam->from.y = -2e5;
  beam->to.z = INFINITY;
  assert_faults (beam, "shape/too-large /from/1\nshape/not-finite /to/2\n");
}

/* A plate of 20 m by 10 m. A circle 4 m across at (0, 0), and a square 2 m wide whose nearest
 * corner lies at (1.5, 1.5), 2.12 m from the centre: apart, though their bounding squares overlap.
 * At (1.4, 1.4) the corner is 1.98 m away: inside. */
static void
test_openings (void)
{
  g_autoptr (TrnSolid) ground = trn_solid_new (TRN_SOLID_GROUND);
  ground->size = trn_vec3_make (20, 10, 0);
  ground->openings = g_new0 (TrnOpening, 2);
  ground->n_openings = 2;
  TrnOpening *circle = &ground->openings[0], *square = &ground->openings[1];
  *circle = (TrnOpening){ .kind = TRN_OPENING_CIRCLE, .diameter_m = 4 };
  *square = (TrnOpening){
    .kind = TRN_OPENING_RECT, .x_m = 2.5, .y_m = 2.5, .width_m = 2, .height_m = 2
  };
  assert_faults (ground, "");
  square->x_m = square->y_m = 2.4;
  assert_faults (ground, "shape/openings-meet /openings/1/rect\n");
  square->y_m = 4.5;
  assert_faults (ground, "shape/opening-outside /openings/1/rect\n");
  square->y_m = 4; /* touches the edge */
  assert_faults (ground, "shape/opening-outside /openings/1/rect\n");
  square->y_m = 3.5;
  circle->x_m = -8; /* touches the edge */
  assert_faults (ground, "shape/opening-outside /openings/0/circle\n");
  circle->diameter_m = -1;
  circle->y_m = NAN;
  square->height_m = 0;
  assert_faults (ground, "shape/not-finite /openings/0/circle/1\n"
                         "shape/not-positive /openings/0/circle/2\n"
                         "shape/not-positive /openings/1/rect/3\n");

  /* Two circles of 4 m whose centres are 4 m apart touch. */
  *circle = (TrnOpening){ .kind = TRN_OPENING_CIRCLE, .x_m = -4, .diameter_m = 4 };
  *square = (TrnOpening){ .kind = TRN_OPENING_CIRCLE, .diameter_m = 4 };
  assert_faults (ground, "shape/openings-meet /openings/1/circle\n");
  circle->x_m = -4.01;
  assert_faults (ground, "");
  /* Two rectangles side by side, sharing an edge. */
  *circle = (TrnOpening){ .kind = TRN_OPENING_RECT, .x_m = -2, .width_m = 2, .height_m = 1 };
  *square = (TrnOpening){ .kind = TRN_OPENING_RECT, .width_m = 2, .height_m = 1 };
  assert_faults (ground, "shape/openings-meet /openings/1/rect\n");
}

static void
test_line (void)
{
  g_autoptr (TrnSolid) line = trn_solid_new (TRN_SOLID_OVERHEAD_LINE);
  assert_faults (line, "shape/not-positive /diameter\nshape/empty /conductors\n");
  line->diameter_m = 0.03;
  line->voltage_kv = 0;
  line->conductors = g_new0 (TrnConductor, 2);
  line->n_conductors = 2;
  line->conductors[0] = (TrnConductor){ { 0, 0, 20 }, { 100, 0, 20 }, 3 };
  line->conductors[1] = (TrnConductor){ { 0, 0, 20 }, { 0, 0, 20 }, -1 };
  assert_faults (line, "shape/not-positive /voltage_kv\nshape/no-length /conductors/1/to\n"
                       "shape/negative /conductors/1/sag\n");
  line->voltage_kv = 110;
  /* A plumb conductor cannot sag; a level one of 1 m by no more than 1 m. */
  line->conductors[1] = (TrnConductor){ { 0, 0, 20 }, { 0, 0, 10 }, 0.1 };
  assert_faults (line, "shape/sag-too-great /conductors/1/sag\n");
  line->conductors[1].sag_m = 0;
  assert_faults (line, "");
  line->conductors[1] = (TrnConductor){ { 0, 0, 20 }, { 1, 0, 20 }, 1.01 };
  assert_faults (line, "shape/sag-too-great /conductors/1/sag\n");
  /* 0.03 m thick over 0.4 m with 0.4 m of sag: radius of curvature 0.05 m, less than 0.06 m. */
  line->conductors[1] = (TrnConductor){ { 0, 0, 20 }, { 0.4, 0, 20 }, 0.4 };
  assert_faults (line, "shape/sag-too-great /conductors/1/sag\n");
  line->conductors[1].sag_m = 0.3;
  assert_faults (line, "");
}

static TrnSolid *
group_new (guint n)
{
  TrnSolid *group = trn_solid_new (TRN_SOLID_GROUP);
  group->parts = g_new0 (TrnSolidGroupPart, n);
  group->n_parts = n;
  for (guint i = 0; i < n; i++)
    {
      group->parts[i].id = g_strdup_printf ("part-%u", i);
      group->parts[i].solid = box_new (1, 1, 1);
    }
  return group;
}

static void
set_id (TrnSolid *group, guint index, const char *id)
{
  g_free (group->parts[index].id);
  group->parts[index].id = g_strdup (id);
}

static void
test_groups (void)
{
  g_autoptr (TrnSolid) group = group_new (3);
  assert_faults (group, "");
  set_id (group, 1, "Wall");
  set_id (group, 2, "part-0");
  group->parts[0].at.position.y = 1e9;
  group->parts[1].at.roll_rad = NAN;
  group->parts[2].solid->size.x = 0;
  assert_faults (group, "shape/too-large /parts/0/at/position/1\nshape/bad-part-id /parts/1/id\n"
                        "shape/not-finite /parts/1/at/turn/2\nshape/same-part-id /parts/2/id\n"
                        "shape/not-positive /parts/2/solid/size/0\n");

  g_autoptr (TrnSolid) empty = trn_solid_new (TRN_SOLID_GROUP);
  assert_faults (empty, "shape/empty /parts\n");
}

/* Groups within groups: the fault names the whole way; one level too many is a fault. */
static void
test_levels (void)
{
  TrnSolid *solid = box_new (1, 1, 0);
  for (int i = 0; i < TRN_SOLID_MOST_LEVELS; i++)
    {
      TrnSolid *group = group_new (1);
      trn_solid_free (group->parts[0].solid);
      group->parts[0].solid = solid;
      solid = group;
    }
  assert_faults (solid, "shape/not-positive /parts/0/solid/parts/0/solid/parts/0/solid/parts/0/"
                        "solid/size/2\n");
  g_autoptr (TrnSolid) deeper = group_new (1);
  trn_solid_free (deeper->parts[0].solid);
  deeper->parts[0].solid = solid;
  assert_faults (deeper,
                 "shape/too-deep /parts/0/solid/parts/0/solid/parts/0/solid/parts/0/solid/parts\n");
}

/* 1001 conductors are too many; 1000 long ones with a great sag would take too many triangles. */
static void
test_counts (void)
{
  g_autoptr (TrnSolid) line = trn_solid_new (TRN_SOLID_OVERHEAD_LINE);
  line->diameter_m = 0.03;
  line->n_conductors = TRN_SOLID_MOST_ITEMS + 1;
  line->conductors = g_new0 (TrnConductor, line->n_conductors);
  for (guint i = 0; i < line->n_conductors; i++)
    line->conductors[i] = (TrnConductor){ { 0, i, 20 }, { 400, i, 20 }, 20 };
  assert_faults (line, "shape/too-many /conductors\n");
  line->n_conductors--;
  assert_faults (line, "shape/too-many-triangles \n");
  line->n_conductors = 24;
  assert_faults (line, "");

  g_autoptr (TrnSolid) group = group_new (TRN_SOLID_MOST_ITEMS + 1);
  assert_faults (group, "shape/too-many /parts\n");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/shape/solid-check/sizes", test_sizes);
  g_test_add_func ("/shape/solid-check/round", test_round);
  g_test_add_func ("/shape/solid-check/shafts", test_shafts);
  g_test_add_func ("/shape/solid-check/beam", test_beam);
  g_test_add_func ("/shape/solid-check/openings", test_openings);
  g_test_add_func ("/shape/solid-check/line", test_line);
  g_test_add_func ("/shape/solid-check/groups", test_groups);
  g_test_add_func ("/shape/solid-check/levels", test_levels);
  g_test_add_func ("/shape/solid-check/counts", test_counts);
  return g_test_run ();
}
