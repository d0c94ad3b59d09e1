/* test-window-sides.c: the rooms at the sides of the view, in windows that are wide and narrow. */
#include "window-look.h"

static gboolean
is_toggle_called (GtkWidget *widget, gconstpointer label)
{
  return GTK_IS_TOGGLE_BUTTON (widget)
         && g_strcmp0 (gtk_button_get_label (GTK_BUTTON (widget)), label) == 0;
}

static gboolean
is_of_type (GtkWidget *widget, gconstpointer name)
{
  return strcmp (G_OBJECT_TYPE_NAME (widget), name) == 0;
}

static GtkWidget *
find_toggle (Fixture *fixture, const char *label)
{
  GtkWidget *button = find (GTK_WIDGET (fixture->window), is_toggle_called, label);
  g_assert_nonnull (button);
  return button;
}

static int
least_width (Fixture *fixture)
{
  int width_px;
  gtk_widget_measure (GTK_WIDGET (fixture->window), GTK_ORIENTATION_HORIZONTAL, -1, &width_px, NULL,
                      NULL, NULL);
  return width_px;
}

/* Rooms come up one in a turn: before the last is there, the least width is not that of the window.
 */
static gboolean
has_all_rooms (Fixture *fixture)
{
  GtkWidget *last = find (GTK_WIDGET (fixture->window), is_of_type, "DeskFindingCard");
  return last != NULL && gtk_widget_get_visible (gtk_widget_get_parent (last));
}

/* A size that the window is just being given counts for a later wish when its news comes, and the
 * wish is lost: it is said again until it is granted. */
static gboolean
is_made_narrow (Fixture *fixture, int width_px)
{
  GtkWindow *window = GTK_WINDOW (fixture->window);
  int wish_px, height_px;
  gtk_window_get_default_size (window, &wish_px, &height_px);
  if (wish_px != width_px)
    gtk_window_set_default_size (window, width_px, 600);
  return gtk_widget_get_width (GTK_WIDGET (window)) <= width_px;
}

/* Wide enough for all, the rooms stand side by side and no button is needed to reach them. In 900
 * pixels nothing lies off the window: the sequence goes behind a button and a key, and lies over
 * the view when it is asked for. */
static void
test_narrow (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "changes");
  test_wait (is_checked (fixture) && has_all_rooms (fixture));
  GtkWidget *sequence = find_toggle (fixture, "Sequence");
  test_idle (0.3);
  g_assert_false (gtk_widget_get_mapped (sequence));
  g_assert_cmpint (least_width (fixture), <=, 900);
  test_wait (is_made_narrow (fixture, 900));
  test_wait (gtk_widget_get_mapped (sequence));
  /* It goes step by step, and the view becomes wider meanwhile. */
  GtkWidget *stage = desk_window_get_stage (fixture->window);
  test_wait (gtk_widget_get_width (stage) > 500);
  g_assert_false (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (sequence)));
  do_action (fixture, "show-sequence");
  test_wait (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (sequence)));
  do_action (fixture, "show-sequence");
  test_wait (!gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (sequence)));
  static const char *const rooms[] = { "findings", "matrix", "view" };
  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++)
    {
      desk_window_show_room (fixture->window, rooms[i]);
      test_idle (0.2);
      g_assert_cmpint (least_width (fixture), <=, 900);
    }
}

/* So narrow that neither side has room: the buttons, like the keys, show one of them at a time. */
static void
test_one_side_at_a_time (Fixture *fixture, gconstpointer name)
{
  open_copy (fixture, "changes");
  test_wait (is_checked (fixture) && has_all_rooms (fixture));
  GtkWidget *sequence = find_toggle (fixture, "Sequence"),
            *nearest = find_toggle (fixture, "Nearest");
  int width_px = least_width (fixture);
  test_wait (is_made_narrow (fixture, width_px));
  test_wait (gtk_widget_get_mapped (sequence) && gtk_widget_get_mapped (nearest));
  GtkToggleButton *buttons[] = { GTK_TOGGLE_BUTTON (sequence), GTK_TOGGLE_BUTTON (nearest) };
  for (guint i = 0; i < G_N_ELEMENTS (buttons); i++)
    {
      gtk_toggle_button_set_active (buttons[i], TRUE);
      g_assert_true (gtk_toggle_button_get_active (buttons[i]));
      g_assert_false (gtk_toggle_button_get_active (buttons[1 - i]));
    }
  do_action (fixture, "show-sequence");
  g_assert_true (gtk_toggle_button_get_active (buttons[0]));
  g_assert_false (gtk_toggle_button_get_active (buttons[1]));
}

static int
least_height (Fixture *fixture, int width_px)
{
  int height_px;
  gtk_widget_measure (GTK_WIDGET (fixture->window), GTK_ORIENTATION_VERTICAL, width_px, &height_px,
                      NULL, NULL, NULL);
  return height_px;
}

static gboolean
has_its_width (GtkWidget *room)
{
  int least_px;
  gtk_widget_measure (room, GTK_ORIENTATION_HORIZONTAL, -1, &least_px, NULL, NULL, NULL);
  return gtk_widget_get_width (room) >= least_px;
}

/* In larger letters the rooms at the sides are wider, so that verdicts and numbers are not cut; and
 * a finding of many lines scrolls, so that the window fits on a low screen. */
static void
test_letters (Fixture *fixture, gconstpointer name)
{
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 1600, 800);
  open_copy (fixture, "crane-beside-rack");
  test_wait (is_checked (fixture) && has_all_rooms (fixture));
  GtkWidget *root = GTK_WIDGET (fixture->window);
  GtkWidget *rooms[]
      = { find (root, is_of_type, "DeskSequence"), find (root, is_of_type, "DeskNearest"),
          find (root, is_of_type, "DeskFindingCard") };
  test_wait (gtk_widget_get_width (rooms[0]) > 100);
  const int before_px = gtk_widget_get_width (rooms[0]);
  GtkSettings *settings = gtk_settings_get_default ();
  g_object_set (settings, "gtk-xft-dpi", 144 * 1024, NULL);
  test_wait (gtk_widget_get_width (rooms[0]) > before_px * 1.2);
  for (guint i = 0; i < G_N_ELEMENTS (rooms); i++)
    test_wait (has_its_width (rooms[i]));
  TrnFinding *finding = (TrnFinding *)desk_session_worst (fixture->session, 0, 0, NULL);
  finding->check = TRN_CHECK_ATTITUDE;
  finding->item = "lean";
  finding->verdict = TRN_VERDICT_FAIL;
  finding->state = TRN_STATE_OUTSIDE;
  finding->unit = TRN_UNIT_DEG;
  finding->value = 2.5;
  finding->limit = 0.5;
  finding->missing = NULL;
  desk_session_set_finding (fixture->session, finding, FALSE);
  test_wait (gtk_widget_get_height (rooms[2]) > 250);
  g_assert_cmpint (least_height (fixture, 1600), <=, 720);
  gtk_settings_reset_property (settings, "gtk-xft-dpi");
  test_wait (gtk_widget_get_width (rooms[0]) == before_px);
}

static GtkWidget *
find_fold (GtkWidget *root, const char *room)
{
  GtkWidget *found = find (root, is_of_type, room);
  g_assert_nonnull (found);
  found = gtk_widget_get_first_child (found);
  g_assert_true (GTK_IS_EXPANDER (found));
  return found;
}

/* Whether the top of @fold is in view, and as much of the rest as there is room for. */
static gboolean
is_seen (GtkWidget *fold)
{
  GtkWidget *scrolled = gtk_widget_get_ancestor (fold, GTK_TYPE_SCROLLED_WINDOW);
  graphene_rect_t at;
  if (!gtk_widget_compute_bounds (fold, scrolled, &at))
    return FALSE;
  const double room = gtk_widget_get_height (scrolled), foot = at.origin.y + at.size.height;
  return at.origin.y > -1 && (foot < room + 1 || at.origin.y < 1);
}

/* In a window that is not high the side scrolls: gear and forces may both be open, each as high as
 * what it says, what is near keeps three rows, and what is unfolded comes into view. The finding
 * stays where it is, in the window. */
static void
test_scrolls (Fixture *fixture, gconstpointer name)
{
  gtk_window_set_default_size (GTK_WINDOW (fixture->window), 1280, 600);
  open_copy (fixture, "crane-beside-rack");
  test_wait (is_checked (fixture) && has_all_rooms (fixture));
  GtkWidget *root = GTK_WIDGET (fixture->window), *gear = find_fold (root, "DeskGearNow"),
            *forces = find_fold (root, "DeskForcesNow"),
            *nearest = find (root, is_of_type, "DeskNearest"),
            *card = find (root, is_of_type, "DeskFindingCard");
  test_wait (gtk_widget_get_mapped (forces));
  /* At first from its top on, though the gear is open and there is no room for all of it. */
  test_idle (0.2);
  GtkWidget *side = gtk_widget_get_ancestor (gear, GTK_TYPE_SCROLLED_WINDOW);
  g_assert_false (is_seen (gear));
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (side));
  g_assert_cmpfloat (gtk_adjustment_get_value (down), ==, 0);
  g_assert_true (gtk_widget_activate (forces));
  test_wait (gtk_widget_get_height (forces) > 200 && is_seen (forces));
  g_assert_true (gtk_expander_get_expanded (GTK_EXPANDER (gear)));
  g_assert_cmpint (gtk_widget_get_height (nearest), >=, 200);
  graphene_rect_t at;
  g_assert_true (gtk_widget_compute_bounds (card, root, &at));
  g_assert_cmpfloat (at.origin.y + at.size.height, <=, gtk_widget_get_height (root));
}

int
main (int argc, char **argv)
{
  char *home = test_folder_new ();
  test_window_init (&argc, &argv, home);
  g_test_add ("/window/narrow", Fixture, NULL, set_up, test_narrow, tear_down);
  g_test_add ("/window/one-side-at-a-time", Fixture, NULL, set_up, test_one_side_at_a_time,
              tear_down);
  g_test_add ("/window/letters", Fixture, NULL, set_up, test_letters, tear_down);
  g_test_add ("/window/side-scrolls", Fixture, NULL, set_up, test_scrolls, tear_down);
  return test_window_run (home);
}
