/* test-force-view.c: what the room of forces says of hooks that bear nothing, of tails that are
 * held down, and of a tail that no hook holds. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "force-rows.h"
#include "force-words.h"
#include "gear-words.h"
#include "hang.h"
#include "keep-loaded.h"
#include "load-words.h"

static const DeskForceRow *
find_row (const GArray *rows, const char *label)
{
  for (guint i = 0; i < rows->len; i++)
    if (strcmp (g_array_index (rows, DeskForceRow, i).label, label) == 0)
      return &g_array_index (rows, DeskForceRow, i);
  return NULL;
}

/* With the centre of gravity beyond its head a column would have to be held down by its tail: the
 * tail rope is slack, and the main hook bears the weight, no more. The pivot of a frame does hold
 * it, and the main hook bears that, too. */
static void
test_slack (void)
{
  DeskSession *session = desk_session_new ();
  g_autoptr (GFile) file = test_demo ("column-tandem");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (test_is_settled (session));
  const TrnScene *scene = desk_session_get_site (session)->scene;
  const TrnPlan *plan = scene->programme->plan;
  const TrnLift *lift = scene->programme->runs[0].lift;
  const TrnHoist *main = &lift->rigging.main, *tail = &lift->rigging.tail;
  g_autofree char *name = trn_words_hoist (TRN_HOIST_TAIL, NULL);
  const TrnComponent *column = &plan->components[lift->component];
  const double all_kg = column->mass_kg * column->mass_factor;
  for (guint is_slack = 0; is_slack < 2; is_slack++)
    {
      if (is_slack)
        plan->components[lift->component].cog.z = 21;
      DeskForces *forces = desk_forces_new (scene, 0);
      g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, NULL, 0, NAN);
      const DeskForceRow *below = test_row_below (view->force_rows, name);
      g_assert_cmpint (strcmp (below->label, "slack: it would have to push") == 0, ==, is_slack);
      g_assert_cmpint (strcmp (below[-1].value, "0 kN") == 0, ==, is_slack);
      g_assert_cmpint (desk_forces_is_slack (forces, tail, 0, 0), ==, is_slack);
      g_assert_cmpuint (view->forces.n_forces, ==, is_slack ? 2 : 3);
      const double main_kg = desk_forces_load_kg (forces, main, 0, 0),
                   tail_kg = desk_forces_load_kg (forces, tail, 0, 0);
      g_assert_cmpfloat_with_epsilon (main_kg + tail_kg, all_kg, 1e-6);
      g_assert_true (main_kg <= all_kg && tail_kg >= 0);
      g_assert_cmpfloat (desk_forces_share (forces, main, 0, 0), <=, 1);
      desk_forces_free (forces);
    }
  plan->gear[tail->gear].kind = TRN_GEAR_TURNING_FRAME;
  DeskForces *forces = desk_forces_new (scene, 0);
  g_assert_cmpfloat (desk_forces_load_kg (forces, main, 0, 0), >, all_kg + 100);
  g_assert_cmpfloat (desk_forces_load_kg (forces, tail, 0, 0), <, -100);
  g_assert_true (desk_forces_keeps_down (forces, tail, 0, 0));
  g_assert_false (desk_forces_is_slack (forces, tail, 0, 0));
  desk_forces_free (forces);
  plan->gear[tail->gear].kind = TRN_GEAR_CRANE;
  g_object_unref (session);
}

/* A leaf is laid down over its heel, which a trolley holds: that is no hook and has no rigging. The
 * slings go to both ends of the leaf, which is seen along its width, and are drawn so. */
static void
test_trolley (void)
{
  DeskSession *session = desk_session_new ();
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (test_is_settled (session));
  const TrnScene *scene = desk_session_get_site (session)->scene;
  const TrnLiftRun *run = &scene->programme->runs[0];
  const guint move = run->lift->rigging.tail.first_move;
  DeskForces *forces = desk_forces_new (scene, 0);
  g_autoptr (DeskForceView) view = desk_force_view_new (
      scene, 0, forces, NULL, (run->begins_s[move] + run->begins_s[move + 1]) / 2, NAN);
  const DeskForceRow *hook = test_row_below (view->force_rows, "Main hook");
  g_assert_cmpstr (hook->label, ==, trn_words_loads (TRN_LOADS_HOOK_LOAD));
  const DeskForceRow *support = find_row (view->force_rows, "Tail support");
  g_assert_nonnull (support);
  g_assert_cmpstr (support[1].label, !=, trn_words_loads (TRN_LOADS_HOOK_LOAD));
  g_assert_null (find_row (view->force_rows, "Tail hook"));
  const GArray *legs = view->legs[0];
  g_assert_cmpuint (legs->len, ==, 2);
  g_assert_true (g_array_index (legs, RenderLeg, 0).goes_right
                 != g_array_index (legs, RenderLeg, 1).goes_right);
  desk_forces_free (forces);
  g_object_unref (session);
}

/* Where a finding is of the very end of a move, what is shown are the hooks of that move and not
 * those of the next. */
static void
test_end_of_move (void)
{
  DeskSession *session = desk_session_new ();
  g_autoptr (GFile) file = test_demo ("column-tandem");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (test_is_settled (session));
  const TrnLiftRun *run = &desk_session_get_site (session)->scene->programme->runs[0];
  const GArray *findings = desk_check_get_findings (session->check)->lifts[0].findings;
  guint n_at_end = 0;
  for (guint i = 0; i < findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (findings, TrnFinding, i);
      if (finding->check != TRN_CHECK_SLINGS || finding->move < 0 || !isfinite (finding->time_s))
        continue;
      desk_session_set_finding (session, finding, TRUE);
      g_assert_cmpuint (desk_session_get_move (session, NULL), ==, (guint)finding->move);
      g_assert_cmpfloat_with_epsilon (desk_session_get_time (session), finding->time_s, 1e-9);
      n_at_end += (guint)finding->move + 1 < run->lift->n_moves
                  && finding->time_s == run->begins_s[finding->move + 1];
    }
  g_assert_cmpuint (n_at_end, >, 0);
  g_object_unref (session);
}

/* A tank whose centre of gravity is 0.2 m toward the end b of its beam: 36 t, with 5 % for what is
 * not known of its mass. */
static const char tank[]
    = "{\"format\":\"trunnion-plan\",\"version\":1,\"title\":\"Tank\",\"keep_clear\":0.1,"
      "\"loads\":{\"dynamic\":{\"rule\":\"0027-nd-11.2-onshore\"}},"
      "\"structures\":[{\"id\":\"pad\",\"at\":{\"position\":[0,0,-0.5]},"
      "\"solid\":{\"kind\":\"box\",\"size\":[9,9,0.5]}}],"
      "\"components\":[{\"id\":\"tank\",\"at\":{\"position\":[0,0,5]},\"mass\":36000,"
      "\"mass_source\":\"weighed\",\"mass_factor\":1.05,\"cog\":[0.2,0,2.4],"
      "\"cog_box\":[0,0,0],"
      "\"points\":{\"lug\":[0,0,5],\"west\":[-1.5,0,5],\"east\":[1.5,0,5]},"
      "\"solid\":{\"kind\":\"cylinder\",\"diameter\":4,\"height\":5}}],"
      "\"programme\":[{\"lift\":\"up\",\"name\":\"Up\",\"component\":\"tank\","
      "\"hook_point\":\"lug\",\"hangs\":\"free\","
      "\"tolerance\":{\"position\":0,\"tilt_deg\":0,\"heading_deg\":0},"
      "\"rigging\":{\"main\":{\"hook_above\":4,"
      "\"block\":{\"diameter\":0.6,\"height\":1.5,\"mass\":900},"
      "\"beam\":{\"id\":\"bar\",\"length\":3,\"width\":0.3,\"depth\":0.4,\"below_hook\":2,"
      "\"between\":[\"west\",\"east\"],\"mass\":800,\"wll\":60000},\"slings\":["
      "{\"id\":\"up-a\",\"to\":\"beam-a\",\"diameter\":0.04,\"mass\":60,\"wll\":40000},"
      "{\"id\":\"up-b\",\"to\":\"beam-b\",\"diameter\":0.04,\"mass\":60,\"wll\":40000},"
      "{\"id\":\"drop-a\",\"from\":\"beam-a\",\"to\":\"west\",\"diameter\":0.04,\"mass\":60,"
      "\"wll\":32000,\"shackle\":{\"id\":\"sa\",\"mass\":48,\"wll\":55000,\"pin\":[0,1,0]}},"
      "{\"id\":\"drop-b\",\"from\":\"beam-b\",\"to\":\"east\",\"diameter\":0.04,\"mass\":60,"
      "\"wll\":32000,\"shackle\":{\"id\":\"sb\",\"mass\":48,\"wll\":55000,\"pin\":[0,1,0]}}"
      "]}},\"moves\":[{\"do\":\"hoist\",\"by\":2,\"seconds\":300}]}]}";

static DeskSession *
open_tank (char **folder)
{
  DeskSession *session = desk_session_new ();
  *folder = test_folder_new ();
  g_autoptr (GFile) file = test_write (*folder, "tank.trunnion", tank);
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (test_is_settled (session));
  return session;
}

/* What each number of the beam is, and what the checks find of it, stands below its name, as it
 * does below the sling for its shackle. */
static void
test_beam_rows (void)
{
  static const char *const labels[] = { "load", "compression", "bending moment" };
  static const char *const items[] = { "beam-load", "compression", "moment" };
  char *folder;
  DeskSession *session = open_tank (&folder);
  const TrnScene *scene = desk_session_get_site (session)->scene;
  const GArray *findings = desk_check_get_findings (session->check)->lifts[0].findings;
  DeskHoist hoists[DESK_MOST_HOISTS];
  DeskFoundOfHoist found[DESK_MOST_HOISTS] = { 0 };
  const guint n = desk_hoists_of (scene->programme->plan, &scene->programme->runs[0], hoists);
  desk_gauges_find (findings, hoists, n, found);
  DeskForces *forces = desk_forces_new (scene, 0);
  g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, found, 150, NAN);
  const DeskForceRow *row = test_row_below (view->rigging_rows, "Beam bar");
  for (guint k = 0; k < G_N_ELEMENTS (items); k++, row += 2)
    {
      guint n_found = 0;
      for (guint i = 0; i < findings->len; i++)
        {
          const TrnFinding *f = &g_array_index (findings, TrnFinding, i);
          if (f->check != TRN_CHECK_SLINGS || g_strcmp0 (f->item, items[k]) != 0)
            continue;
          g_autofree char *value = trn_words_force (f->value, f->unit, TRUE);
          g_assert_true (g_str_has_prefix (row[1].more, value));
          n_found++;
        }
      g_assert_cmpuint (n_found, ==, 1);
      g_assert_cmpstr (row[0].label, ==, labels[k]);
      g_assert_true (row[0].is_under && row[1].is_under && row[1].is_found);
      g_assert_true (g_str_has_prefix (row[1].said, "Beam bar, "));
    }
  const DeskForceRow *drop = test_row_below (view->rigging_rows, "drop-b");
  g_assert_cmpstr (drop[0].label, ==, "tension");
  g_assert_cmpstr (drop[2].label, ==, "shackle");
  g_assert_true (g_str_has_suffix (drop[2].more, " kN"));
  g_assert_true (drop[3].is_found);
  desk_found_clear (found);
  desk_forces_free (forces);
  g_object_unref (session);
  test_folder_free (folder);
}

/* The beam leans to where the load is heavier, by as much as the load, and each sling has what its
 * own end bears: the heavier one as the checks take it, the other less. Both together bear the load
 * and their own weight, with the dynamic factor. Seen from the other side all of it is mirrored. */
static void
test_beam_leans (void)
{
  char *folder;
  DeskSession *session = open_tank (&folder);
  const TrnScene *scene = desk_session_get_site (session)->scene;
  const TrnLiftRun *run = &scene->programme->runs[0];
  const TrnHoist *main = &run->lift->rigging.main;
  DeskForces *forces = desk_forces_new (scene, 0);
  for (guint is_north = 0; is_north < 2; is_north++)
    {
      g_autoptr (DeskForceView) view
          = desk_force_view_new (scene, 0, forces, NULL, 150, (is_north ? -0.5 : 0.5) * G_PI);
      const RenderHookSketch *hook = &view->hooks[0];
      const double sign = is_north ? -1 : 1;
      g_assert_cmpfloat_with_epsilon (sign * hook->beam_tilt_rad, -run->hangs[0].lean_rad, 1e-9);
      g_assert_cmpfloat (run->hangs[0].lean_rad, >, 0.04);
      /* up-a and drop-a: at the left end from the south. */
      g_assert_cmpint (hook->legs[0].goes_right, ==, is_north);
      g_assert_cmpint (hook->legs[1].goes_right, ==, !is_north);
      g_assert_cmpint (hook->legs[2].from, ==, is_north ? 1 : 0);
      g_assert_cmpint (hook->legs[3].from, ==, is_north ? 0 : 1);
      g_assert_cmpfloat (hook->legs[0].angle_rad + hook->legs[1].angle_rad, <, G_PI);
      g_assert_nonnull (strstr (view->force_head, is_north ? "north" : "south"));
    }
  const double a_n = desk_forces_tension_n (forces, main, 2, 0, 0.5),
               b_n = desk_forces_tension_n (forces, main, 3, 0, 0.5);
  /* Level from the middle of the beam, as a share of it, since load and beam hang parallel. */
  const TrnJet3 end_a = trn_hang_sling_way (run->rig, main, 2, 0, trn_interval_point (0.5));
  g_assert_cmpfloat (fabs (trn_interval_middle (end_a.x.v)), <, 0.05);
  TrnJet3 ends[2];
  trn_hang_beam (run->rig, main, 0, trn_interval_point (0.5), ends);
  const TrnPose pose = trn_motion_pose (&run->motions[0], 0.5);
  const TrnVec3 cog = trn_pose_apply (&pose, trn_vec3_make (0.2, 0, 2.4));
  const double ax = trn_interval_middle (ends[0].x.v), bx = trn_interval_middle (ends[1].x.v),
               share_b = (cog.x - ax) / (bx - ax);
  g_assert_cmpfloat (b_n, >, a_n * 1.05);
  g_assert_cmpfloat_with_epsilon (b_n / (a_n + b_n), share_b, 0.01);
  desk_forces_free (forces);
  g_object_unref (session);
  test_folder_free (folder);
}

/* Both points to one side of the hook: one leg would have to push, and no number of either says
 * anything, at that moment as in what is found. */
static void
test_slack_legs (void)
{
  DeskSession *session = desk_session_new ();
  char *folder = test_folder_new ();
  g_autofree char *plan = test_plan_text ("crane-beside-rack");
  g_autoptr (GFile) file = test_write (folder, "crane.trunnion", plan);
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (test_is_settled (session));
  const TrnScene *scene = desk_session_get_site (session)->scene;
  const TrnHoist *main = &scene->programme->runs[0].lift->rigging.main;
  const TrnVec3 points[] = { main->slings[0].to, main->slings[1].to };
  for (guint is_slack = 0; is_slack < 2; is_slack++)
    {
      /* The plan's own, to the other side. */
      if (is_slack)
        main->slings[0].to = trn_vec3_mix (points[1], points[0], 0.2);
      DeskForces *forces = desk_forces_new (scene, 0);
      g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, NULL, 0, NAN);
      for (guint i = 0; i < 2; i++)
        {
          const DeskForceRow *tension = test_row_below (view->rigging_rows, main->slings[i].id);
          const RenderLeg *leg = &g_array_index (view->legs[0], RenderLeg, i);
          g_assert_cmpstr (tension->label, ==, "tension");
          g_assert_cmpint (strcmp (tension->more, "SLACK") == 0, ==, is_slack);
          g_assert_cmpint (g_str_has_suffix (leg->text, " SLACK"), ==, is_slack);
        }
      desk_forces_free (forces);
    }
  main->slings[0].to = points[0];
  g_object_unref (session);
  test_folder_free (folder);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/force-view/slack", test_slack);
  g_test_add_func ("/desk/force-view/trolley", test_trolley);
  g_test_add_func ("/desk/force-view/end-of-move", test_end_of_move);
  g_test_add_func ("/desk/force-view/beam-rows", test_beam_rows);
  g_test_add_func ("/desk/force-view/beam-leans", test_beam_leans);
  g_test_add_func ("/desk/force-view/slack-legs", test_slack_legs);
  return g_test_run ();
}
