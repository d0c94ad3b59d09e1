/* A plan that holds every solid, move, seat and change (data/full.trunnion): what is read from it,
 * what is written of it, and what is asked of it; and the mesh files that a plan may name. */
#include "full-plan.h"

#include <math.h>
#include <string.h>

#define DEG (G_PI / 180)

static const TrnSolid *
solid_of (const TrnPlan *plan, const char *id)
{
  return trn_plan_find_structure (plan, id)->shape.solid;
}

static void
test_plan (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  g_assert_cmpstr (plan->base_name, ==, "full.trunnion");
  g_assert_cmpstr (plan->title, ==, "Every kind of everything");
  g_assert_true (g_str_has_suffix (plan->notes, "“ä”, 中, 🏗."));
  g_assert_cmpfloat (plan->keep_clear_m, ==, 0.3);
  g_assert_cmpuint (plan->n_structures, ==, 10);
  g_assert_cmpuint (plan->n_components, ==, 3);
  g_assert_cmpuint (plan->n_gear, ==, 5);
  g_assert_cmpuint (plan->n_programme, ==, 7);
  static const gboolean is_lift[] = { FALSE, TRUE, FALSE, TRUE, FALSE, FALSE, FALSE };
  static const guint index[] = { 0, 0, 1, 1, 2, 3, 4 };
  for (guint i = 0; i < plan->n_programme; i++)
    {
      g_assert_cmpint (plan->programme[i].is_lift, ==, is_lift[i]);
      g_assert_cmpuint (plan->programme[i].index, ==, index[i]);
    }
}

static void
test_solids (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnSolid *ground = solid_of (plan, "grade"), *shaft = solid_of (plan, "shaft");
  assert_vec (ground->size, 80, 60, 0);
  g_assert_cmpuint (ground->n_openings, ==, 2);
  g_assert_cmpint (ground->openings[0].kind, ==, TRN_OPENING_CIRCLE);
  g_assert_cmpfloat (ground->openings[0].diameter_m, ==, 9);
  g_assert_cmpint (ground->openings[1].kind, ==, TRN_OPENING_RECT);
  g_assert_cmpfloat (ground->openings[1].x_m, ==, 20);
  g_assert_cmpfloat (ground->openings[1].y_m, ==, 5);
  g_assert_cmpfloat (ground->openings[1].width_m, ==, 6);
  g_assert_cmpfloat (ground->openings[1].height_m, ==, 4);
  g_assert_cmpint (shaft->kind, ==, TRN_SOLID_ROUND_SHAFT);
  g_assert_cmpfloat (shaft->inner_diameter_m, ==, 8.4);
  g_assert_cmpfloat (shaft->depth_m, ==, 18);
  g_assert_cmpfloat (shaft->wall_m, ==, 0.6);
  g_assert_cmpfloat (shaft->floor_m, ==, 1.2);
  g_assert_cmpint (solid_of (plan, "pit")->kind, ==, TRN_SOLID_RECT_SHAFT);
  assert_vec (solid_of (plan, "pit")->size, 5, 3, 0);
  g_assert_cmpfloat (solid_of (plan, "post")->diameter_m, ==, 0.5);
  g_assert_cmpfloat (solid_of (plan, "post")->height_m, ==, 7);
  g_assert_cmpfloat (solid_of (plan, "pipe")->outer_diameter_m, ==, 1.2);
  g_assert_cmpfloat (solid_of (plan, "pipe")->inner_diameter_m, ==, 1.1);
  assert_vec (solid_of (plan, "brace")->to, 4, 0, 6);
  g_assert_cmpfloat (solid_of (plan, "brace")->width_m, ==, 0.3);
  g_assert_cmpfloat (solid_of (plan, "brace")->depth_m, ==, 0.4);
  assert_vec (solid_of (plan, "fence")->size, 10, 0.1, 2);
}

static void
test_line_and_group (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnSolid *line = solid_of (plan, "line"), *stand = solid_of (plan, "stand");
  g_assert_cmpuint (line->n_conductors, ==, 2);
  assert_vec (line->conductors[1].from, -40, 27, 14);
  assert_vec (line->conductors[1].to, 40, 27, 14);
  g_assert_cmpfloat (line->conductors[0].sag_m, ==, 1.5);
  g_assert_cmpfloat (line->diameter_m, ==, 0.03);
  g_assert_cmpfloat (line->voltage_kv, ==, 110);
  g_assert_cmpuint (stand->n_parts, ==, 3);
  g_assert_cmpstr (stand->parts[2].id, ==, "sump");
  g_assert_cmpfloat (stand->parts[2].at.heading_rad, ==, G_PI / 4);
  assert_vec (stand->parts[0].at.position, -2, 0, 0);
  assert_vec (stand->parts[1].solid->size, 0.6, 2, 1);
}

/* A quarter turn of the file is π/2 to the last bit. */
static void
test_structures (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnStructure *pipe = trn_plan_find_structure (plan, "pipe");
  assert_vec (pipe->at.position, -14, -6, 5);
  g_assert_cmpfloat_with_epsilon (pipe->at.heading_rad, 30 * DEG, 1e-15);
  g_assert_cmpfloat (pipe->at.pitch_rad, ==, G_PI / 2);
  g_assert_cmpfloat (pipe->at.roll_rad, ==, 0);
  g_assert_cmpstr (pipe->name, ==, "pipe");
  g_assert_cmpfloat (pipe->survey_tolerance_m, ==, 0);
  g_assert_true (isnan (pipe->keep_clear_m));
  const TrnStructure *shaft = trn_plan_find_structure (plan, "shaft");
  g_assert_cmpstr (shaft->name, ==, "Deep shaft");
  g_assert_cmpfloat (shaft->keep_clear_m, ==, 0.25);
  g_assert_cmpfloat (shaft->survey_tolerance_m, ==, 0.02);
  g_assert_cmpstr (shaft->pointer, ==, "/structures/1");
  g_assert_true (shaft->placed);
  g_assert_false (trn_plan_find_structure (plan, "fence")->placed);
  const TrnMeshFile *hall = trn_plan_find_structure (plan, "hall")->shape.mesh;
  g_assert_cmpstr (hall->file, ==, "meshes/hall.stl");
  g_assert_true (g_path_is_absolute (hall->path));
  g_assert_true (g_str_has_suffix (hall->path, "/data/meshes/hall.stl"));
  g_assert_cmpint (hall->unit, ==, TRN_LENGTH_MM);
  g_assert_cmpint (hall->up, ==, TRN_UP_Y);
  g_assert_null (trn_plan_find_structure (plan, "pump"));
}

static void
test_components (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnComponent *pump = trn_plan_find_component (plan, "pump");
  g_assert_cmpfloat (pump->mass_kg, ==, 60000);
  g_assert_cmpstr (pump->mass_source, ==, "maker's drawing");
  g_assert_cmpfloat (pump->mass_factor, ==, 1.05);
  assert_vec (pump->cog, 0, 0, 6.5);
  assert_vec (pump->cog_box, 0.1, 0.1, 0.3);
  g_assert_cmpuint (pump->n_points, ==, 3);
  g_assert_cmpstr (pump->points[1].name, ==, "tail lug");
  assert_vec (pump->points[1].place, 1.1, 0, 0.5);
  g_assert_cmpfloat (pump->keep_clear_m, ==, 0.2);
  g_assert_true (pump->placed);
  const TrnComponent *cover = trn_plan_find_component (plan, "cover");
  g_assert_true (isnan (cover->mass_kg));
  g_assert_cmpfloat (cover->mass_factor, ==, 1);
  g_assert_null (cover->mass_source);
  g_assert_true (isnan (cover->cog.x));
  assert_vec (cover->cog_box, 0, 0, 0);
  g_assert_cmpint (cover->shape.mesh->unit, ==, TRN_LENGTH_UNDECLARED);
  g_assert_cmpint (cover->shape.mesh->up, ==, TRN_UP_UNDECLARED);
  g_assert_false (trn_plan_find_component (plan, "new-cover")->placed);
  g_assert_null (trn_plan_find_component (plan, "shaft"));
}

static void
test_moves (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnLift *lift = &plan->lifts[0];
  const TrnMove *m = lift->moves;
  static const TrnMoveKind kinds[]
      = { TRN_MOVE_HOIST, TRN_MOVE_TRAVEL, TRN_MOVE_MOVE, TRN_MOVE_TURN,
          TRN_MOVE_TURN,  TRN_MOVE_SLEW,   TRN_MOVE_SLEW, TRN_MOVE_TILT,
          TRN_MOVE_TILT,  TRN_MOVE_TILT,   TRN_MOVE_WAIT };
  g_assert_cmpuint (lift->n_moves, ==, G_N_ELEMENTS (kinds));
  for (guint i = 0; i < lift->n_moves; i++)
    g_assert_cmpint (m[i].kind, ==, kinds[i]);
  g_assert_cmpstr (trn_move_kind_name (m[5].kind), ==, "slew");
  g_assert_cmpstr (trn_move_kind_name (m[10].kind), ==, "wait");
  g_assert_cmpfloat (m[0].by.z, ==, 1.5);
  g_assert_cmpfloat (m[0].seconds, ==, 60);
  assert_vec (m[1].by, -2, 1.25, 0);
  assert_vec (m[2].by, 1, 1, 0.5);
  g_assert_cmpfloat_with_epsilon (m[2].turn_rad, 15 * DEG, 1e-15);
  g_assert_cmpstr (m[2].about.name, ==, "heel");
  assert_vec (m[2].about.place, 1.1, 0, 0);
  g_assert_cmpfloat (m[3].turn_rad, ==, -G_PI / 4);
  g_assert_cmpstr (m[3].about.name, ==, "top lug");
  assert_vec (m[3].about.place, 0, 0, 14.2);
  g_assert_null (m[4].about.name);
  assert_vec (m[4].about.place, 0, 0, 1);
  g_assert_cmpstr (m[4].pointer, ==, "/programme/1/moves/4");
  g_assert_false (m[5].load_turns);
  g_assert_cmpfloat (m[5].centre_x, ==, 5);
  g_assert_cmpfloat (m[5].centre_y, ==, -5);
  g_assert_cmpfloat (m[5].radius_by_m, ==, 0.5);
  g_assert_cmpfloat (m[5].hoist_by_m, ==, 1);
  g_assert_true (m[6].load_turns);
  g_assert_cmpfloat (m[6].radius_by_m, ==, 0);
}

static void
test_tilts (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnMove *m = plan->lifts[0].moves;
  g_assert_false (m[7].head_plumb);
  assert_vec (m[7].by, 0, 0, 1);
  g_assert_cmpstr (m[7].about.name, ==, "heel");
  g_assert_false (m[8].head_plumb);
  g_assert_cmpfloat (m[8].axis_rad, ==, G_PI);
  assert_vec (m[8].by, 0, 0, 0);
  g_assert_cmpstr (m[8].about.name, ==, "top lug");
  g_assert_true (m[9].head_plumb);
  g_assert_cmpfloat_with_epsilon (m[9].turn_rad, -10 * DEG, 1e-15);
  assert_vec (m[9].head.place, 0, 0, 14.2);
  assert_vec (m[9].tail.place, 0, 0, 0.5);
  g_assert_cmpstr (m[10].hold_point, ==, "Plumb checked by the surveyor");
  g_assert_cmpfloat (m[10].seconds, ==, 0);
}

static void
test_lifts (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnLift *lift = &plan->lifts[0], *second = &plan->lifts[1];
  g_assert_cmpstr (lift->name, ==, "Pump into the shaft");
  g_assert_cmpuint (lift->component, ==, 0);
  g_assert_cmpuint (lift->n_seats, ==, 4);
  g_assert_cmpstr (lift->seats[1].on, ==, "stand/sump/wall");
  g_assert_cmpfloat (lift->seats[0].until_clear_m, ==, 0.5);
  g_assert_cmpfloat (lift->seats[0].fit_m, ==, 0.01);
  g_assert_true (lift->seats[0].at_start && !lift->seats[0].at_end);
  g_assert_true (!lift->seats[2].at_start && lift->seats[2].at_end);
  g_assert_true (lift->seats[3].at_start && lift->seats[3].at_end);
  g_assert_true (isnan (lift->seats[2].until_clear_m));
  g_assert_cmpfloat (lift->seats[2].fit_m, ==, 0.005);
  g_assert_true (lift->has_start);
  assert_vec (lift->start.position, 12, 12, 1);
  g_assert_cmpfloat (lift->tolerance_m, ==, 0.05);
  g_assert_cmpfloat_with_epsilon (lift->tolerance_tilt_rad, 0.5 * DEG, 1e-15);
  g_assert_cmpfloat_with_epsilon (lift->tolerance_heading_rad, 1 * DEG, 1e-15);
  g_assert_cmpstr (second->name, ==, "cover-on");
  g_assert_cmpuint (second->component, ==, 2);
  g_assert_null (second->hook.name);
  assert_vec (second->hook.place, 0, 0, 3);
  g_assert_false (second->has_start);
  g_assert_cmpfloat (second->tolerance_m, ==, 0);
}

static void
test_changes (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnChange *change = plan->changes;
  g_assert_cmpint (change[0].kind, ==, TRN_CHANGE_ADD);
  g_assert_cmpstr (change[0].what, ==, "fence");
  g_assert_cmpstr (change[0].name, ==, "Fence set up");
  g_assert_true (change[0].has_at);
  assert_vec (change[0].at.position, 0, 29, 0);
  g_assert_cmpint (change[1].kind, ==, TRN_CHANGE_SWAP);
  g_assert_cmpstr (change[1].what, ==, "cover");
  g_assert_cmpstr (change[1].with, ==, "new-cover");
  g_assert_cmpint (change[2].kind, ==, TRN_CHANGE_REMOVE);
  g_assert_false (change[2].has_at);
  g_assert_cmpstr (change[2].pointer, ==, "/programme/4");
}

/* The lift's value for the obstacle, the obstacle's own, the lift's, the plan's, in this order. */
static void
test_required (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnLift *first = &plan->lifts[0], *second = &plan->lifts[1];
  g_assert_cmpfloat (trn_plan_required_m (plan, first, "post"), ==, 0.15);
  g_assert_cmpfloat (trn_plan_required_m (plan, first, "shaft"), ==, 0.25);
  g_assert_cmpfloat (trn_plan_required_m (plan, first, "pipe"), ==, 0.3);
  g_assert_cmpfloat (trn_plan_required_m (plan, second, "pipe"), ==, 0.4);
  g_assert_cmpfloat (trn_plan_required_m (plan, second, "line"), ==, 5);
  g_assert_cmpfloat (trn_plan_required_m (plan, second, "pump"), ==, 0.2);
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [{\"id\": \"a\", "
        "\"solid\":"
        "{\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": null}], \"components\": [{\"id\": \"b\","
        "\"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": null}], \"programme\": ["
        "{\"lift\": \"l\", \"component\": \"b\", \"hook_point\": [0, 0, 1], \"moves\": [{\"do\":"
        "\"wait\", \"seconds\": 1}]}]}";
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) none = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_true (isnan (trn_plan_required_m (none, &none->lifts[0], "a")));
}

/* A place below a value that the document has is shown at that value. */
static void
test_locate (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  static const struct
  {
    const char *pointer;
    guint line;
  } expected[] = { { "/structures/1", 14 },
                   { "/structures/1/solid/depth", 15 },
                   { "/structures/1/solid/depth/none/9", 15 },
                   { NULL, 1 },
                   { "/none", 1 } };
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      g_autoptr (TrnDiags) diags = trn_diags_new ();
      TrnDiag *diag = trn_diags_add (diags, TRN_SEVERITY_ERROR, "scene/none", expected[i].pointer);
      trn_plan_locate (plan, diag);
      g_assert_cmpstr (diag->file, ==, plan->file);
      g_assert_cmpuint (diag->line, ==, expected[i].line);
    }
}

/* The text without the space between its marks: the order of keys, every value, and, since the
 * example has its numbers in the shortest form, every number. */
static char *
squeeze (const char *text)
{
  GString *squeezed = g_string_new (NULL);
  gboolean quoted = FALSE;
  for (const char *c = text; *c != '\0'; c++)
    {
      if (*c == '"' && (c == text || c[-1] != '\\'))
        quoted = !quoted;
      if (quoted || !g_ascii_isspace (*c))
        g_string_append_c (squeezed, *c);
    }
  return g_string_free (squeezed, FALSE);
}

/* Saving keeps all that was read, and saving what was saved changes nothing. */
static void
test_save (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  g_autofree char *original = NULL;
  g_assert_true (g_file_get_contents (plan->file, &original, NULL, NULL));
  gsize length;
  g_autofree char *text = trn_plan_to_text (plan, &length);
  g_autofree char *squeezed_original = squeeze (original), *squeezed = squeeze (text);
  g_assert_cmpstr (squeezed, ==, squeezed_original);

  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) again = trn_plan_parse (text, length, NULL, NULL, NULL, diags);
  g_assert_nonnull (again);
  g_autofree char *text_again = trn_plan_to_text (again, NULL);
  g_assert_cmpstr (text_again, ==, text);
}

static void
test_reference (void)
{
  TrnPlan *plan = test_read_full ();
  TrnPlan *other = trn_plan_ref (plan);
  trn_plan_unref (plan);
  g_assert_cmpstr (other->lifts[0].id, ==, "pump-in");
  trn_plan_unref (other);
  trn_plan_unref (NULL);
}

/* The sum is that of sha256sum (GNU coreutils) for these bytes. A plan without lifts is good, but
 * says so. */
static void
test_least (void)
{
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1.0, \"structures\": [], "
        "\"components\": [], \"programme\": []}";
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
  g_assert_cmpstr (plan->sha256, ==,
                   "ab24d1f54cb15b7d89ef32fe606fa0e8bf627df2e40402b88d9ec558b13a6f69");
  g_assert_null (plan->file);
  g_assert_cmpstr (plan->base_name, ==, "");
  g_assert_cmpstr (plan->title, ==, "");
  g_assert_cmpstr (plan->notes, ==, "");
  g_assert_true (isnan (plan->keep_clear_m));
  g_assert_cmpuint (diags->items->len, ==, 1);
  const TrnDiag *warning = g_ptr_array_index (diags->items, 0);
  g_assert_cmpint (warning->severity, ==, TRN_SEVERITY_WARNING);
  g_assert_cmpstr (warning->code, ==, "plan/nothing-lifted");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/plan", test_plan);
  g_test_add_func ("/plan/solids", test_solids);
  g_test_add_func ("/plan/line-and-group", test_line_and_group);
  g_test_add_func ("/plan/structures", test_structures);
  g_test_add_func ("/plan/components", test_components);
  g_test_add_func ("/plan/moves", test_moves);
  g_test_add_func ("/plan/tilts", test_tilts);
  g_test_add_func ("/plan/lifts", test_lifts);
  g_test_add_func ("/plan/changes", test_changes);
  g_test_add_func ("/plan/required", test_required);
  g_test_add_func ("/plan/locate", test_locate);
  g_test_add_func ("/plan/save", test_save);
  g_test_add_func ("/plan/reference", test_reference);
  g_test_add_func ("/plan/least", test_least);
  return g_test_run ();
}
