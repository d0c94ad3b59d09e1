/* Gear, approach and rigging of the plan that holds every kind (data/full.trunnion): each key read
 * into its place, what is left out, and the clearances that are to be kept from gear and by it. */
#include "full-plan.h"

#include <math.h>
#include <string.h>

#define DEG (G_PI / 180)

static void
assert_range (TrnInterval range, double lo, double hi)
{
  g_assert_cmpfloat (range.lo, ==, lo);
  g_assert_cmpfloat (range.hi, ==, hi);
}

static void
test_gantry (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *tower = trn_plan_find_gear (plan, "tower");
  g_assert_cmpint (tower->kind, ==, TRN_GEAR_GANTRY);
  g_assert_cmpstr (trn_gear_kind_name (tower->kind), ==, "gantry");
  g_assert_cmpstr (tower->name, ==, "Lift tower");
  g_assert_cmpstr (tower->pointer, ==, "/gear/0");
  g_assert_true (tower->placed);
  assert_vec (tower->at.position, 12, 12, 0);
  g_assert_cmpfloat (tower->at.heading_rad, ==, G_PI / 2);
  g_assert_cmpfloat (tower->keep_clear_m, ==, 0.12);
  g_assert_cmpuint (tower->n_keep_clear_from, ==, 4);
  g_assert_cmpstr (tower->keep_clear_from[3].id, ==, "tailer");
  g_assert_cmpfloat (tower->keep_clear_from[3].m, ==, 1.25);
  g_assert_cmpfloat (tower->rope_diameter_m, ==, 0.25);
  assert_range (tower->window_x, -3, 3);
  assert_range (tower->window_y, -8, 8.5);
  assert_range (tower->window_hook, 1.5, 21);
  g_assert_cmpuint (tower->n_capacity, ==, 1);
  g_assert_true (isnan (tower->capacity[0].radius_m));
  g_assert_cmpfloat (tower->capacity[0].mass_kg, ==, 90000);
  g_assert_cmpstr (tower->capacity_source, ==, "sheet 7");
  g_assert_null (tower->configuration);
}

static void
test_gantry_parts (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *tower = trn_plan_find_gear (plan, "tower");
  g_assert_cmpuint (tower->n_legs, ==, 4);
  const TrnGearFoot *leg = &tower->legs[0];
  g_assert_cmpfloat (leg->x_m, ==, -4);
  g_assert_cmpfloat (leg->y_m, ==, 2.5);
  g_assert_cmpfloat (leg->size_x_m, ==, 0.6);
  g_assert_cmpfloat (leg->size_y_m, ==, 0.5);
  g_assert_cmpfloat (leg->height_m, ==, 22);
  g_assert_cmpfloat (leg->pad_x_m, ==, 2);
  g_assert_cmpfloat (leg->pad_y_m, ==, 1.5);
  g_assert_true (isnan (tower->legs[1].pad_x_m) && isnan (tower->legs[1].pad_y_m));
  g_assert_true (leg->has_mat && !tower->legs[1].has_mat);
  assert_vec (leg->mat_size, 5, 1.8, 0.25);
  g_assert_cmpfloat (leg->mat_mass_kg, ==, 1900);
  g_assert_cmpfloat (leg->mat_moment_nm, ==, 84000);
  g_assert_cmpfloat (leg->mat_moment_across_nm, ==, 9000);
  g_assert_cmpfloat (trn_gear_foot_size (leg).y_m, ==, 1.5);
  g_assert_cmpfloat (trn_gear_foot_on_ground (leg).y_m, ==, 1.8);
  g_assert_cmpfloat (trn_gear_foot_on_ground (&tower->legs[1]).y_m, ==, 0.5);
  g_assert_cmpuint (tower->n_runways, ==, 2);
  assert_vec (tower->runways[1].from, 4, -9, 22.4);
  assert_vec (tower->runways[1].to, 4, 9, 22.4);
  g_assert_cmpfloat (tower->runways[1].width_m, ==, 0.5);
  g_assert_cmpfloat (tower->runways[1].depth_m, ==, 0.8);
  g_assert_true (tower->has_header && tower->has_trolley);
  g_assert_cmpfloat (tower->header_length_m, ==, 9);
  g_assert_cmpfloat (tower->header_width_m, ==, 0.45);
  g_assert_cmpfloat (tower->header_depth_m, ==, 0.9);
  g_assert_cmpfloat (tower->header_underside_m, ==, 22.8);
  g_assert_cmpfloat (tower->header_spacing_m, ==, 1.2);
  assert_vec (tower->trolley_size, 1.8, 1.6, 0.7);
  g_assert_cmpfloat (tower->trolley_underside_m, ==, 23.7);
}

static void
test_crane (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *crane = trn_plan_find_gear (plan, "tailer");
  g_assert_cmpint (crane->kind, ==, TRN_GEAR_CRANE);
  g_assert_cmpstr (crane->name, ==, "tailer");
  g_assert_true (crane->has_carrier && crane->has_jib && crane->has_counterweight);
  assert_vec (crane->carrier_size, 9, 3, 1.4);
  g_assert_cmpfloat (crane->carrier_x_m, ==, -1.5);
  g_assert_cmpfloat (crane->carrier_y_m, ==, 0.25);
  g_assert_cmpfloat (crane->boom_foot_out_m, ==, -0.9);
  g_assert_cmpfloat (crane->boom_foot_up_m, ==, 1.8);
  g_assert_cmpfloat (crane->boom_length_m, ==, 24);
  g_assert_cmpfloat (crane->boom_width_m, ==, 1.1);
  g_assert_cmpfloat (crane->boom_depth_m, ==, 1.3);
  g_assert_cmpfloat_with_epsilon (crane->boom_angle_rad.lo, 15 * DEG, 1e-15);
  g_assert_cmpfloat_with_epsilon (crane->boom_angle_rad.hi, 82.5 * DEG, 1e-15);
  g_assert_cmpfloat (crane->jib_length_m, ==, 9);
  g_assert_cmpfloat_with_epsilon (crane->jib_offset_rad, 20 * DEG, 1e-15);
  g_assert_cmpfloat (crane->jib_width_m, ==, 0.7);
  g_assert_cmpfloat (crane->jib_depth_m, ==, 0.8);
  g_assert_cmpfloat (crane->tail_radius_m, ==, 4.4);
  g_assert_cmpfloat (crane->counterweight_bottom_m, ==, 1.2);
  g_assert_cmpfloat (crane->counterweight_top_m, ==, 2.9);
  g_assert_cmpfloat (crane->counterweight_width_m, ==, 3.5);
  g_assert_cmpfloat (crane->rope_diameter_m, ==, 0.1);
  g_assert_cmpfloat (crane->hook_to_tip_m, ==, 2.2);
  g_assert_cmpfloat (crane->wind_limit_m_s, ==, 9.8);
  g_assert_cmpfloat (crane->barricade_m, ==, 5.5);
  g_assert_true (crane->has_park);
  assert_vec (crane->park, 8, 0, 12);
}

static void
test_crane_lists (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *crane = trn_plan_find_gear (plan, "tailer");
  g_assert_cmpstr (crane->configuration, ==, "33 m, 20 t ballast");
  g_assert_cmpstr (crane->capacity_source, ==, "invented");
  g_assert_cmpuint (crane->n_capacity, ==, 3);
  g_assert_cmpfloat (crane->capacity[1].radius_m, ==, 9);
  g_assert_cmpfloat (crane->capacity[1].mass_kg, ==, 22500.5);
  g_assert_cmpint (crane->support_kind, ==, TRN_SUPPORT_OUTRIGGERS);
  g_assert_cmpuint (crane->n_supports, ==, 4);
  g_assert_cmpfloat (crane->supports[1].x_m, ==, -3);
  g_assert_cmpfloat (crane->supports[1].y_m, ==, 3);
  g_assert_cmpfloat (crane->supports[1].pad_x_m, ==, 1.2);
  g_assert_cmpfloat (crane->supports[1].pad_y_m, ==, 1);
  assert_vec (crane->supports[3].mat_size, 2.4, 2, 0.15);
  g_assert_cmpfloat (crane->supports[3].mat_mass_kg, ==, 650);
  g_assert_true (isnan (crane->supports[1].size_x_m) && isnan (crane->supports[1].height_m));
}

/* What is left out is no number, nothing, or none. */
static void
test_left_out (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnGear *crawler = trn_plan_find_gear (plan, "crawler");
  g_assert_false (crawler->placed);
  g_assert_false (crawler->has_carrier || crawler->has_jib || crawler->has_counterweight);
  g_assert_false (crawler->has_park);
  g_assert_true (isnan (crawler->keep_clear_m) && isnan (crawler->rope_diameter_m));
  g_assert_true (isnan (crawler->boom_angle_rad.lo) && isnan (crawler->boom_angle_rad.hi));
  g_assert_true (isnan (crawler->hook_to_tip_m) && isnan (crawler->barricade_m));
  g_assert_true (isnan (crawler->wind_limit_m_s) && isnan (crawler->window_hook.hi));
  g_assert_cmpuint (crawler->n_capacity, ==, 0);
  g_assert_cmpint (crawler->support_kind, ==, TRN_SUPPORT_TRACKS);
  g_assert_true (isnan (crawler->supports[0].pad_x_m));
  g_assert_true (crawler->supports[1].has_mat && isnan (crawler->supports[1].mat_mass_kg));
  g_assert_true (isnan (crawler->supports[1].mat_moment_nm));
  g_assert_true (isnan (crawler->supports[1].mat_moment_across_nm));
  const TrnGear *bogie = trn_plan_find_gear (plan, "bogie");
  g_assert_cmpint (bogie->kind, ==, TRN_GEAR_TAIL_TROLLEY);
  assert_vec (bogie->size, 2, 1.4, 0.8);
  assert_range (bogie->track_m, -6, 10);
  const TrnGear *frame = trn_plan_find_gear (plan, "frame");
  g_assert_cmpint (frame->kind, ==, TRN_GEAR_TURNING_FRAME);
  assert_vec (frame->size, 0.3, 1.2, 1.6);
  g_assert_cmpfloat (frame->pivot_up_m, ==, 1.3);
  g_assert_cmpfloat (frame->cheek_spacing_m, ==, 2.6);
  g_assert_true (isnan (frame->track_m.lo));
  g_assert_null (trn_plan_find_gear (plan, "pump"));
}

/* The same sling and shackle serve in one lift after the other. */
static void
test_rigging_used_again (void)
{
#define USED                                                                                       \
  "\"component\": \"unit\", \"hook_point\": [0, 0, 1], \"rigging\": {\"main\": {\"slings\": "      \
  "[{\"id\":"                                                                                      \
  " \"leg\", \"to\": [0, 0, 1], \"diameter\": 0.02, \"shackle\": {\"id\": \"bow\"}}]}}, "          \
  "\"moves\": "                                                                                    \
  "[{\"do\": \"hoist\", \"by\": 1, \"seconds\": 9}]"
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"title\": \"Test\", \"keep_clear\": 0.1,"
        " \"structures\": [], \"components\": [{\"id\": \"unit\", \"name\": \"Unit\", \"mass\": 9,"
        " \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": {\"position\": [0, 0, 0]}}],"
        " \"programme\": [{\"lift\": \"one\", " USED "}, {\"lift\": \"two\", " USED "}]}";
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
  g_assert_cmpstr (plan->lifts[1].rigging.main.slings[0].id, ==, "leg");
#undef USED
}

static TrnApproachRule
approach_of (const char *approach)
{
  g_autofree char *text
      = g_strdup_printf ("{\"format\": \"trunnion-plan\", \"version\": 1, \"structures\": [],"
                         "\"components\": [], \"programme\": []%s}",
                         approach);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
  g_assert_null (plan->approach.source);
  return plan->approach;
}

static void
test_approach (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  g_assert_cmpint (plan->approach.kind, ==, TRN_APPROACH_OWN);
  g_assert_cmpfloat (plan->approach.distance_m, ==, 4.5);
  g_assert_cmpstr (plan->approach.source, ==, "works rule 12");
  g_assert_cmpint (approach_of ("").kind, ==, TRN_APPROACH_NONE);
  g_assert_cmpint (approach_of (", \"approach\": {\"rule\": \"29-cfr-1926-1408-table-a\"}").kind,
                   ==, TRN_APPROACH_CFR_1926_1408);
  g_assert_cmpint (approach_of (", \"approach\": {\"rule\": \"en-50110-1\"}").kind, ==,
                   TRN_APPROACH_EN_50110);
  TrnApproachRule vde = approach_of (", \"approach\": {\"rule\": \"din-vde-0105-100\"}");
  g_assert_cmpint (vde.kind, ==, TRN_APPROACH_VDE_0105_100);
  g_assert_true (isnan (vde.distance_m));
}

static void
test_hoists (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnRigging *rigging = &plan->lifts[0].rigging;
  g_assert_true (rigging->given && rigging->main.given && rigging->tail.given);
  const TrnHoist *hoist = &rigging->main, *tail = &rigging->tail;
  g_assert_cmpstr (hoist->pointer, ==, "/programme/1/rigging/main");
  g_assert_cmpuint (hoist->gear, ==, 0);
  g_assert_cmpstr (hoist->point_name, ==, "top lug");
  assert_vec (hoist->point, 0, 0, 14.2);
  g_assert_cmpuint (hoist->first_move, ==, 0);
  g_assert_cmpuint (hoist->last_move, ==, 10);
  g_assert_cmpfloat (hoist->hook_above_m, ==, 4.25);
  g_assert_true (hoist->has_block && hoist->has_beam);
  g_assert_cmpfloat (hoist->block_diameter_m, ==, 0.8);
  g_assert_cmpfloat (hoist->block_height_m, ==, 1.5);
  g_assert_cmpfloat (hoist->block_mass_kg, ==, 950);
  g_assert_cmpuint (tail->gear, ==, 1);
  g_assert_cmpstr (tail->point_name, ==, "tail lug");
  assert_vec (tail->point, 1.1, 0, 0.5);
  g_assert_cmpuint (tail->first_move, ==, 1);
  g_assert_cmpuint (tail->last_move, ==, 9);
  g_assert_true (isnan (tail->hook_above_m));
  g_assert_false (tail->has_block || tail->has_beam);
  g_assert_cmpuint (rigging->n_connected, ==, 3);
  g_assert_cmpstr (rigging->connected[0].a, ==, "tower/header-2");
  g_assert_cmpstr (rigging->connected[0].b, ==, "up-b");
  const TrnRigging *second = &plan->lifts[1].rigging;
  g_assert_true (second->given && !second->main.given && second->tail.given);
  g_assert_cmpuint (second->main.gear, ==, G_MAXUINT);
  g_assert_cmpuint (second->tail.gear, ==, 3);
  g_assert_null (second->tail.point_name);
  assert_vec (second->tail.point, 0, 0, 0);
  g_assert_cmpuint (second->tail.last_move, ==, 0);
}

static void
test_rigging (void)
{
  g_autoptr (TrnPlan) plan = test_read_full ();
  const TrnHoist *hoist = &plan->lifts[0].rigging.main;
  const TrnLiftBeam *beam = &hoist->beam;
  g_assert_cmpstr (beam->id, ==, "spreader");
  g_assert_cmpstr (beam->pointer, ==, "/programme/1/rigging/main/beam");
  g_assert_cmpfloat (beam->length_m, ==, 3);
  g_assert_cmpfloat (beam->width_m, ==, 0.3);
  g_assert_cmpfloat (beam->depth_m, ==, 0.4);
  g_assert_cmpfloat (beam->below_hook_m, ==, 2.1);
  g_assert_cmpfloat (beam->mass_kg, ==, 700);
  g_assert_cmpfloat (beam->wll_kg, ==, 80000);
  assert_vec (beam->between[0], 0, 0, 14.2);
  assert_vec (beam->between[1], 1, 0, 14.2);
  g_assert_cmpuint (hoist->n_slings, ==, 4);
  const TrnSling *first = &hoist->slings[0], *second = &hoist->slings[1];
  g_assert_cmpstr (first->id, ==, "up-a");
  g_assert_cmpstr (first->pointer, ==, "/programme/1/rigging/main/slings/0");
  g_assert_cmpint (first->from, ==, TRN_SLING_FROM_HOOK);
  g_assert_true (first->to_beam && !first->to_beam_b);
  g_assert_null (first->to_name);
  g_assert_cmpfloat (first->diameter_m, ==, 0.05);
  g_assert_cmpfloat (first->length_m, ==, 2.6);
  g_assert_cmpfloat (first->mass_kg, ==, 40);
  g_assert_cmpfloat (first->wll_kg, ==, 45000);
  g_assert_cmpstr (first->shackle.id, ==, "sh-1");
  g_assert_cmpfloat (first->shackle.mass_kg, ==, 12);
  g_assert_cmpfloat (first->shackle.wll_kg, ==, 55000);
  g_assert_cmpfloat_with_epsilon (first->shackle.pin.y, 0.6, 1e-15);
  g_assert_cmpfloat_with_epsilon (first->shackle.pin.z, 0.8, 1e-15);
  g_assert_true (isnan (second->shackle.pin.x));
  g_assert_true (second->to_beam && second->to_beam_b);
  g_assert_true (isnan (second->length_m) && isnan (second->mass_kg) && isnan (second->wll_kg));
  g_assert_null (second->shackle.id);
  g_assert_true (isnan (second->shackle.wll_kg));
  const TrnSling *third = &hoist->slings[2], *fourth = &hoist->slings[3];
  g_assert_cmpint (third->from, ==, TRN_SLING_FROM_BEAM_A);
  g_assert_false (third->to_beam);
  g_assert_cmpstr (third->to_name, ==, "top lug");
  assert_vec (third->to, 0, 0, 14.2);
  g_assert_true (isnan (third->shackle.mass_kg));
  g_assert_cmpint (fourth->from, ==, TRN_SLING_FROM_BEAM_B);
  g_assert_null (fourth->to_name);
  assert_vec (fourth->to, 1, 0, 14.2);
}

/* By the bodies that each kind has. */
static void
test_parts (void)
{
  static const struct
  {
    const char *gear, *has, *has_not;
  } parts[] = {
    { "tower", "leg-1 leg-4 runway-2 pad-1 mat-1 header-1 header-2 trolley rope block",
      "pad-2 pad-5 mat-2 mat-5 leg-0 leg-5 leg-01 leg- leg runway-3 header-3 boom cheek-1 carrier "
      "leg-1x" },
    { "tailer", "carrier boom jib counterweight pad-1 pad-4 mat-1 mat-4 rope block",
      "pad-5 mat-5 mat-0 trolley leg-1 boom-1" },
    { "crawler", "boom mat-2 rope block", "pad-1 mat-3 carrier jib counterweight" },
    { "bogie", "trolley", "rope block boom" },
    { "frame", "cheek-1 cheek-2", "cheek-3 trolley block" },
  };
  g_autoptr (TrnPlan) plan = test_read_full ();
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      const TrnGear *gear = trn_plan_find_gear (plan, parts[i].gear);
      g_auto (GStrv) has = g_strsplit (parts[i].has, " ", -1);
      g_auto (GStrv) has_not = g_strsplit (parts[i].has_not, " ", -1);
      for (guint k = 0; has[k] != NULL; k++)
        g_assert_true (trn_gear_has_part (gear, has[k]));
      for (guint k = 0; has_not[k] != NULL; k++)
        g_assert_false (trn_gear_has_part (gear, has_not[k]));
    }
}

/* The full plan with one piece of text replaced; it must be good. */
static TrnPlan *
read_full_with (const char *from, const char *to)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", "full.trunnion", NULL);
  g_autofree char *folder = g_path_get_dirname (path);
  g_autofree char *text = NULL;
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  char *at = strstr (text, from);
  g_assert_nonnull (at);
  g_autofree char *before = g_strndup (text, (gsize)(at - text));
  g_autofree char *with = g_strconcat (before, to, at + strlen (from), NULL);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  TrnPlan *plan = trn_plan_parse (with, strlen (with), NULL, folder, NULL, diags);
  g_assert_nonnull (plan);
  return plan;
}

/* What else may be connected: a beam by its own id, a part of a mesh file, whose parts are not
 * known yet, and the block of a hoist that names no gear, which is called after its hoist. */
static void
test_connected (void)
{
  static const char *const pairs[][2] = { { "tower/header-1", "spreader" },
                                          { "hall/door", "tower/leg-2" },
                                          { "bogie", "tail-hook/block" } };
  static const char rigging[] = "{\"tail\": {\"gear\": \"bogie\", \"point\": [0, 0, 0]}}";
  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      const gboolean second = i == 2;
      g_autofree char *pair = g_strdup_printf ("[\"%s\", \"%s\"]", pairs[i][0], pairs[i][1]);
      g_autofree char *alone = g_strdup_printf (
          "{\"tail\": {\"point\": [0, 0, 0], \"block\": {\"diameter\": 1, \"height\": 1}}, "
          "\"connected\": [%s]}",
          pair);
      g_autoptr (TrnPlan) plan = second ? read_full_with (rigging, alone)
                                        : read_full_with ("[\"load\", \"bogie\"]", pair);
      const TrnConnected *connected
          = &plan->lifts[second ? 1 : 0].rigging.connected[second ? 0 : 1];
      g_assert_cmpstr (connected->a, ==, pairs[i][0]);
      g_assert_cmpstr (connected->b, ==, pairs[i][1]);
    }
}

/* The load: the lift's value for the gear, the gear's for the load, the gear's for all, the lift's,
 * the plan's. A part of gear: its value for the obstacle, else the
 * greater of its value for all and of what is said of that obstacle, else what holds for all. Two
 * pieces of gear: the greater of what each says for the other, then of what each says for all. */
static void
test_required (void)
{
  static const char text[]
      = "{\"format\": \"trunnion-plan\", \"version\": 1, \"keep_clear\": 0.9, \"structures\": ["
        "{\"id\": \"post\", \"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": null,"
        " \"keep_clear\": 0.6}, {\"id\": \"wall\", \"solid\": {\"kind\": \"box\","
        " \"size\": [1, 1, 1]}, \"at\": null}], \"components\": [{\"id\": \"b\","
        "\"solid\": {\"kind\": \"box\", \"size\": [1, 1, 1]}, \"at\": null}], \"gear\": ["
        "{\"id\": \"one\", \"kind\": \"tail-trolley\", \"at\": null, \"size\": [1, 1, 1],"
        " \"keep_clear\": 0.1, \"keep_clear_from\": {\"load\": 0.2, \"wall\": 0.3, \"two\": 0.35}},"
        "{\"id\": \"two\", \"kind\": \"tail-trolley\", \"at\": null, \"size\": [1, 1, 1],"
        " \"keep_clear_from\": {\"one\": 0.4}},"
        "{\"id\": \"three\", \"kind\": \"tail-trolley\", \"at\": null, \"size\": [1, 1, 1],"
        " \"keep_clear\": 0.05}, {\"id\": \"four\", \"kind\": \"tail-trolley\", \"at\": null,"
        " \"size\": [1, 1, 1], \"keep_clear\": 0.05, \"keep_clear_from\": {\"b\": 0.25}}],"
        " \"programme\": ["
        "{\"lift\": \"l\", \"component\": \"b\", \"hook_point\": [0, 0, 1], \"moves\": [{\"do\":"
        "\"wait\", \"seconds\": 1}]},"
        "{\"lift\": \"m\", \"component\": \"b\", \"hook_point\": [0, 0, 1], \"moves\": [{\"do\":"
        "\"wait\", \"seconds\": 1}], \"keep_clear\": {\"one\": 0.7, \"post\": 0.8}},"
        "{\"lift\": \"n\", \"component\": \"b\", \"hook_point\": [0, 0, 1], \"moves\": [{\"do\":"
        "\"wait\", \"seconds\": 1}], \"keep_clear\": 0.5}]}";
  static const struct
  {
    guint lift;
    const char *gear, *obstacle; /* gear NULL: the load */
    double required_m;
  } expected[] = {
    { 0, NULL, "one", 0.2 },    { 0, NULL, "two", 0.9 },     { 0, NULL, "three", 0.05 },
    { 1, NULL, "one", 0.7 },    { 2, NULL, "two", 0.5 },     { 2, NULL, "one", 0.2 },
    { 0, "one", "load", 0.2 },  { 1, "one", "load", 0.7 },   { 0, "three", "load", 0.05 },
    { 0, "one", "wall", 0.3 },  { 0, "one", "post", 0.6 },   { 0, "two", "post", 0.6 },
    { 1, "two", "post", 0.8 },  { 2, "two", "wall", 0.5 },   { 0, "two", "wall", 0.9 },
    { 0, "one", "two", 0.4 },   { 0, "two", "one", 0.4 },    { 0, "one", "three", 0.1 },
    { 0, "three", "one", 0.1 }, { 0, "two", "three", 0.05 }, { 1, "one", "post", 0.8 },
    { 0, NULL, "four", 0.25 },  { 0, "four", "load", 0.25 },
  };
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  g_autoptr (TrnPlan) plan = trn_plan_parse (text, strlen (text), NULL, NULL, NULL, diags);
  g_assert_nonnull (plan);
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      const TrnLift *lift = &plan->lifts[expected[i].lift];
      const char *obstacle = expected[i].obstacle;
      const double required_m
          = expected[i].gear == NULL
                ? trn_plan_required_m (plan, lift, obstacle)
                : trn_plan_gear_required_m (plan, lift, trn_plan_find_gear (plan, expected[i].gear),
                                            obstacle);
      g_assert_cmpfloat (required_m, ==, expected[i].required_m);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/gear/gantry", test_gantry);
  g_test_add_func ("/plan/gear/gantry-parts", test_gantry_parts);
  g_test_add_func ("/plan/gear/crane", test_crane);
  g_test_add_func ("/plan/gear/crane-lists", test_crane_lists);
  g_test_add_func ("/plan/gear/left-out", test_left_out);
  g_test_add_func ("/plan/gear/rigging-used-again", test_rigging_used_again);
  g_test_add_func ("/plan/gear/approach", test_approach);
  g_test_add_func ("/plan/gear/hoists", test_hoists);
  g_test_add_func ("/plan/gear/rigging", test_rigging);
  g_test_add_func ("/plan/gear/parts", test_parts);
  g_test_add_func ("/plan/gear/connected", test_connected);
  g_test_add_func ("/plan/gear/required", test_required);
  return g_test_run ();
}
