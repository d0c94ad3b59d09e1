/* test-nearest.c: what is near, lower than its rows are together: which of them are in view. */
#include <gtk/gtk.h>

#include "desk-fixture.h"
#include "keep-loaded.h"
#include "nearest.h"
#include "room-list.h"
#include "room-parts.h"

typedef struct
{
  DeskSession *session;
  GtkWidget *window, *list;
} Near;

static GtkWidget *
find_list (GtkWidget *root)
{
  if (GTK_IS_LIST_VIEW (root))
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_list (child);
  return found;
}

static guint
count_rows (const Near *near)
{
  return g_list_model_get_n_items (
      G_LIST_MODEL (gtk_list_view_get_model (GTK_LIST_VIEW (near->list))));
}

static double
scrolled_by (const Near *near)
{
  return gtk_adjustment_get_value (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (near->list)));
}

static gboolean
is_worked_out (const Near *near)
{
  return test_is_settled (near->session) && count_rows (near) > 6;
}

static void
near_make (Near *near)
{
  near->session = desk_session_new ();
  near->window = gtk_window_new ();
  GtkWidget *nearest = desk_nearest_new (near->session);
  near->list = find_list (nearest);
  gtk_window_set_default_size (GTK_WINDOW (near->window), 300, 320);
  gtk_window_set_child (GTK_WINDOW (near->window), nearest);
  gtk_window_present (GTK_WINDOW (near->window));
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (near->session), file, 0);
  test_wait (is_worked_out (near));
  test_idle (0.5);
  GtkAdjustment *down = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (near->list));
  g_assert_cmpfloat (gtk_adjustment_get_upper (down), >, gtk_adjustment_get_page_size (down) + 100);
}

static void
near_clear (Near *near)
{
  gtk_window_destroy (GTK_WINDOW (near->window));
  test_idle (0.05);
  g_object_unref (near->session);
}

/* The row of what is looked at; NULL: it is not among those that there are widgets of. */
static GtkWidget *
find_current (GtkWidget *root)
{
  if (gtk_widget_has_css_class (root, "current"))
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_current (child);
  return found;
}

static gboolean
is_current_in_view (const Near *near)
{
  GtkWidget *row = find_current (near->list);
  graphene_rect_t at;
  return row != NULL && gtk_widget_compute_bounds (row, near->list, &at) && at.origin.y >= 0
         && at.origin.y + at.size.height <= (float)gtk_widget_get_height (near->list) + 1;
}

/* What is chosen elsewhere is seen, however low it stands, as what is seated does, and when one
 * goes to its time; at another time the worst is. */
static void
test_chosen_elsewhere (void)
{
  Near near;
  near_make (&near);
  const TrnFinding *worst = desk_session_worst (near.session, 0, -1, NULL);
  g_assert_cmpfloat (scrolled_by (&near), ==, 0);
  desk_session_set_selected (near.session, "recess/floor");
  test_wait (is_current_in_view (&near));
  g_assert_cmpfloat (scrolled_by (&near), >, 0);
  desk_session_set_time (near.session, worst->time_s);
  test_wait (desk_session_get_moment (near.session)->time_s == worst->time_s);
  test_idle (0.4);
  g_assert_cmpfloat (scrolled_by (&near), ==, 0);
  const TrnFinding *off = desk_session_worst (near.session, 0, 0, "recess/floor");
  desk_session_set_finding (near.session, off, TRUE);
  test_wait (desk_session_get_moment (near.session)->time_s == off->time_s);
  test_wait (is_current_in_view (&near));
  near_clear (&near);
}

/* A row that is chosen stays before the eyes. */
static void
test_chosen_stays (void)
{
  Near near;
  near_make (&near);
  const guint last = count_rows (&near) - 1;
  desk_room_list_show (near.list, last);
  test_wait (scrolled_by (&near) > 0);
  test_idle (0.4);
  const double before = scrolled_by (&near);
  g_assert_true (gtk_widget_activate_action (near.list, "list.activate-item", "u", last));
  test_idle (0.4);
  g_assert_nonnull (desk_session_get_selected (near.session));
  g_assert_cmpfloat_with_epsilon (scrolled_by (&near), before, 40);
  near_clear (&near);
}

/* Who has scrolled stays there when the check begins anew, though the finding looked at goes with
 * what was found. */
static void
test_check_scrolls_nothing (void)
{
  Near near;
  near_make (&near);
  DeskCheck *check = desk_session_get_check (near.session);
  desk_session_set_finding (near.session, desk_session_worst (near.session, 0, -1, NULL), FALSE);
  test_idle (0.4);
  GtkAdjustment *down = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (near.list));
  gtk_adjustment_set_value (down, 300);
  test_idle (0.4);
  const double before = scrolled_by (&near);
  g_assert_cmpfloat (before, >, 50);
  guint n_told;
  test_count_signal (near.session, "selection-changed", &n_told);
  desk_check_start (check, desk_session_get_site (near.session));
  test_wait (desk_check_get_state (check) == DESK_CHECK_DONE);
  test_idle (0.8);
  g_assert_cmpuint (n_told, >, 0);
  g_assert_cmpfloat_with_epsilon (scrolled_by (&near), before, 40);
  /* Nor when the window offers the worst again. */
  desk_session_offer_finding (near.session, desk_session_worst (near.session, 0, -1, NULL));
  test_idle (0.4);
  g_assert_cmpfloat_with_epsilon (scrolled_by (&near), before, 40);
  near_clear (&near);
}

/* What it says beside the tick: the first bar that is drawn for a length. */
static const RenderBar *
find_bar (GtkWidget *root)
{
  const RenderBar *bar
      = GTK_IS_DRAWING_AREA (root) ? g_object_get_data (G_OBJECT (root), "bar") : NULL;
  if (bar != NULL && bar->state == RENDER_STATE_SHORT)
    return bar;
  bar = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && bar == NULL;
       child = gtk_widget_get_next_sibling (child))
    bar = find_bar (child);
  return bar;
}

/* Apart by more than is to be kept, and short by what tolerances take off: the bar ends before its
 * tick, by as much. */
static void
test_bar_allowance (void)
{
  DeskSession *session = desk_session_new ();
  GtkWidget *window = gtk_window_new (), *nearest = desk_nearest_new (session);
  gtk_window_set_child (GTK_WINDOW (window), nearest);
  gtk_window_present (GTK_WINDOW (window));
  char *folder = test_folder_new ();
  g_autoptr (GFile) file = test_plan_copy (folder, "tolerances");
  desk_document_open (desk_session_get_document (session), file, 0);
  test_wait (desk_check_get_state (desk_session_get_check (session)) == DESK_CHECK_DONE);
  desk_session_set_run (session, 1);
  test_wait (find_bar (nearest) != NULL);
  const RenderBar *bar = find_bar (nearest);
  const TrnMoment *moment = desk_session_get_moment (session);
  g_assert_cmpfloat (moment->distances[0].distance_m, >, bar->required_m);
  const TrnFinding *worst = desk_session_worst (session, 1, -1, NULL);
  g_assert_cmpfloat (worst->allowance_m, >, 0.1);
  g_assert_cmpfloat (bar->distance_m, <, bar->required_m);
  gtk_window_destroy (GTK_WINDOW (window));
  test_idle (0.05);
  g_object_unref (session);
  test_folder_free (folder);
}

/* Read again, the worst is in view, not the number of the row that was chosen before. */
static void
test_read_again (void)
{
  Near near;
  near_make (&near);
  desk_session_set_selected (near.session, "recess/floor");
  test_wait (is_current_in_view (&near) && scrolled_by (&near) > 0);
  DeskDocument *document = desk_session_get_document (near.session);
  DeskSite *before = desk_session_get_site (near.session);
  desk_document_reload (document);
  test_wait (desk_session_get_site (near.session) != NULL
             && desk_session_get_site (near.session) != before);
  test_wait (is_worked_out (&near));
  test_idle (0.5);
  g_assert_cmpfloat (scrolled_by (&near), ==, 0);
  near_clear (&near);
}

/* A detent of the wheel over @scrolled, down; returns whether it takes it for itself. */
static gboolean
turn_wheel (GtkWidget *scrolled, double dy)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (scrolled);
  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean is_taken = FALSE;
      if (!GTK_IS_EVENT_CONTROLLER_SCROLL (controller)
          || gtk_event_controller_get_propagation_phase (controller) != GTK_PHASE_CAPTURE
          || gtk_event_controller_scroll_get_flags (GTK_EVENT_CONTROLLER_SCROLL (controller))
                 != GTK_EVENT_CONTROLLER_SCROLL_VERTICAL)
        continue;
      g_signal_emit_by_name (controller, "scroll", 0.0, dy, &is_taken);
      return is_taken;
    }
  g_assert_not_reached ();
}

/* The wheel goes on with the column when the list in it is at its end, either way, and not before.
 */
static void
test_wheel_goes_on (void)
{
  Near near;
  near_make (&near);
  GtkWidget *nearest = g_object_ref (gtk_window_get_child (GTK_WINDOW (near.window)));
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  GtkWidget *below = gtk_label_new ("below");
  GtkWidget *outer = gtk_scrolled_window_new ();
  gtk_window_set_child (GTK_WINDOW (near.window), NULL);
  gtk_widget_set_size_request (nearest, -1, 300);
  gtk_widget_set_size_request (below, -1, 400);
  gtk_box_append (GTK_BOX (column), nearest);
  gtk_box_append (GTK_BOX (column), below);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (outer), column);
  gtk_window_set_child (GTK_WINDOW (near.window), outer);
  g_object_unref (nearest);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (outer));
  GtkAdjustment *own = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (near.list));
  test_wait (gtk_adjustment_get_upper (down) > gtk_adjustment_get_page_size (down) + 200);
  GtkWidget *scrolled = gtk_widget_get_ancestor (near.list, GTK_TYPE_SCROLLED_WINDOW);
  gtk_adjustment_set_value (own, 20);
  g_assert_false (turn_wheel (scrolled, 1) || turn_wheel (scrolled, -1));
  g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, 0);
  gtk_adjustment_set_value (own, gtk_adjustment_get_upper (own));
  g_assert_false (turn_wheel (scrolled, -1));
  g_assert_true (turn_wheel (scrolled, 1));
  const double by_px = gtk_adjustment_get_value (down);
  g_assert_cmpfloat (by_px, >, 10);
  gtk_adjustment_set_value (own, 0);
  g_assert_false (turn_wheel (scrolled, 1));
  g_assert_true (turn_wheel (scrolled, -0.5));
  g_assert_cmpfloat_with_epsilon (gtk_adjustment_get_value (down), by_px / 2, 1e-6);
  near_clear (&near);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/nearest/chosen-elsewhere", test_chosen_elsewhere);
  g_test_add_func ("/desk/nearest/chosen-stays", test_chosen_stays);
  g_test_add_func ("/desk/nearest/check-scrolls-nothing", test_check_scrolls_nothing);
  g_test_add_func ("/desk/nearest/bar-allowance", test_bar_allowance);
  g_test_add_func ("/desk/nearest/wheel-goes-on", test_wheel_goes_on);
  g_test_add_func ("/desk/nearest/read-again", test_read_again);
  return g_test_run ();
}
