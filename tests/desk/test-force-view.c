/* test-force-view.c: what the room of forces says of hooks that bear nothing, of tails that are
 * held down, and of a tail that no hook holds. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "force-rows.h"
#include "gear-words.h"
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
      g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, NULL, 0);
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
      scene, 0, forces, NULL, (run->begins_s[move] + run->begins_s[move + 1]) / 2);
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

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/force-view/slack", test_slack);
  g_test_add_func ("/desk/force-view/trolley", test_trolley);
  g_test_add_func ("/desk/force-view/end-of-move", test_end_of_move);
  return g_test_run ();
}
