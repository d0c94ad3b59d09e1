/* test-citizen.c: what makes the desk a good neighbour on a desktop: presenting, the preferences,
 * the list of keys, the page about the program, and that no action needs a pointer.
 *
 * Keys go through the function that the keyboard calls; words are compared with app/words. */
#include "first-quarks.h"
#include "window-fixture.h"

#include <math.h>
#include <string.h>

#include "about.h"
#include "actions.h"
#include "citizen-words.h"
#include "desk-words.h"
#include "key-words.h"
#include "gear-words.h"
#include "preferences.h"
#include "presenter-face.h"
#include "presenter.h"
#include "settings.h"
#include "shortcuts.h"
#include "stage.h"
#include "text-of.h"

static gboolean
is_checked (Fixture *fixture)
{
  return test_is_settled (fixture->session)
         && g_strcmp0 (desk_window_get_page (fixture->window), "plan") == 0;
}

/* Four small lifts. */
static void
open_plan (Fixture *fixture)
{
  g_autoptr (GFile) file = test_plan_copy (fixture->folder, "changes");
  desk_window_open (fixture->window, file);
  test_wait (is_checked (fixture));
}

typedef struct
{
  const char *text;
  guint n;
} Sought;

static void
count_label (GtkWidget *widget, gpointer data)
{
  Sought *sought = data;
  if (gtk_widget_get_mapped (widget) && g_strcmp0 (test_text_of (widget), sought->text) == 0)
    sought->n++;
}

static gboolean
says (gpointer widget, const char *text)
{
  Sought sought = { text, 0 };
  test_walk (widget, count_label, &sought);
  return sought.n > 0;
}

/* ---- keys and actions ---- */

typedef void (*VisitKeys) (const DeskKeys *keys, gpointer data);

static void
visit_keys (VisitKeys visit, gpointer data)
{
  guint n[4];
  const DeskKeys *tables[]
      = { desk_actions_get_keys (TRUE, &n[0]), desk_actions_get_keys (FALSE, &n[1]),
          desk_stage_get_keys (&n[2]), desk_presenter_get_keys (&n[3]) };
  for (guint t = 0; t < G_N_ELEMENTS (tables); t++)
    for (guint i = 0; i < n[t]; i++)
      visit (&tables[t][i], data);
}

static void
assert_key (const DeskKeys *keys, gpointer data)
{
  Fixture *fixture = data;
  g_test_message ("%s", keys->action);
  g_assert_nonnull (trn_words_action (keys->action, NULL));
  for (guint i = 0; keys->accels[i] != NULL; i++)
    {
      guint key;
      GdkModifierType modifiers;
      g_assert_true (gtk_accelerator_parse (keys->accels[i], &key, &modifiers));
    }
  g_autofree char *name = NULL;
  g_autoptr (GVariant) target = NULL;
  g_assert_true (g_action_parse_detailed_name (keys->action, &name, &target, NULL));
  GActionGroup *group = g_str_has_prefix (name, "app.")   ? G_ACTION_GROUP (application)
                        : g_str_has_prefix (name, "win.") ? G_ACTION_GROUP (fixture->window)
                                                          : NULL;
  if (group != NULL)
    g_assert_true (g_action_group_has_action (group, strchr (name, '.') + 1));
}

/* Every key has words to be listed by, and an action that is there. */
static void
test_keys (Fixture *fixture, gconstpointer name)
{
  visit_keys (assert_key, fixture);
}

static void
remember_key (const DeskKeys *keys, gpointer reached)
{
  char *name = g_strdup (keys->action);
  char *target = strstr (name, "::");
  if (target != NULL)
    *target = '\0';
  g_hash_table_add (reached, name);
}

static void
remember_menu (GMenuModel *menu, GHashTable *reached)
{
  for (int i = 0; i < g_menu_model_get_n_items (menu); i++)
    {
      char *action = NULL;
      if (g_menu_model_get_item_attribute (menu, i, G_MENU_ATTRIBUTE_ACTION, "s", &action))
        g_hash_table_add (reached, action);
      g_autoptr (GMenuModel) section = g_menu_model_get_item_link (menu, i, G_MENU_LINK_SECTION);
      if (section != NULL)
        remember_menu (section, reached);
    }
}

/* What one comes to by Tab and F10. */
static void
remember_widget (GtkWidget *widget, gpointer reached)
{
  if (GTK_IS_MENU_BUTTON (widget)
      && gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)) != NULL)
    remember_menu (gtk_menu_button_get_menu_model (GTK_MENU_BUTTON (widget)), reached);
  const char *action = GTK_IS_ACTIONABLE (widget)
                           ? gtk_actionable_get_action_name (GTK_ACTIONABLE (widget))
                           : NULL;
  if (action != NULL && gtk_widget_get_focusable (widget))
    g_hash_table_add (reached, g_strdup (action));
}

static void
assert_reached (GActionGroup *group, const char *prefix, GHashTable *reached)
{
  g_auto (GStrv) names = g_action_group_list_actions (group);
  g_assert_cmpuint (g_strv_length (names), >, 3);
  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autofree char *name = g_strconcat (prefix, names[i], NULL);
      g_autofree char *of_stage = g_strconcat ("stage.", names[i], NULL);
      g_test_message ("%s", name);
      g_assert_true (g_hash_table_contains (reached, name)
                     || g_hash_table_contains (reached, of_stage));
    }
}

/* Every action of the program and of the window has a key, an entry of a menu, or a button that Tab
 * leads to; the recent plans and the faults are pages of their own. */
static void
test_reachable (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GHashTable) reached = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  open_plan (fixture);
  visit_keys (remember_key, reached);
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), "close-plan", NULL);
  test_wait (g_strcmp0 (desk_window_get_page (fixture->window), "start") == 0);
  /* GTK keeps the plan last opened a moment later. */
  test_wait ((test_walk (GTK_WIDGET (fixture->window), remember_widget, reached),
              g_hash_table_contains (reached, "win.open-uri")));
  assert_reached (G_ACTION_GROUP (application), "app.", reached);
  assert_reached (G_ACTION_GROUP (fixture->window), "win.", reached);
}

/* The window keeps each a second time, for what is searched for. */
static void
count_shortcut (GtkWidget *widget, gpointer data)
{
  if (GTK_IS_SHORTCUTS_SHORTCUT (widget)
      && gtk_widget_get_ancestor (widget, GTK_TYPE_SHORTCUTS_SECTION) != NULL)
    (*(guint *)data)++;
}

static void
count_key (const DeskKeys *keys, gpointer data)
{
  (*(guint *)data)++;
}

typedef struct
{
  const char *title;
  gboolean found;
} Shortcut;

static void
find_shortcut (GtkWidget *widget, gpointer data)
{
  Shortcut *shortcut = data;
  g_autofree char *title = NULL;
  if (!GTK_IS_SHORTCUTS_SHORTCUT (widget))
    return;
  g_object_get (widget, "title", &title, NULL);
  shortcut->found |= strcmp (title, shortcut->title) == 0;
}

static void
assert_listed (const DeskKeys *keys, gpointer window)
{
  Shortcut shortcut = { trn_words_action (keys->action, NULL), FALSE };
  test_walk (window, find_shortcut, &shortcut);
  g_test_message ("%s", keys->action);
  g_assert_true (shortcut.found);
}

static GtkWindow *
find_toplevel (GType type)
{
  g_autoptr (GList) windows = gtk_window_list_toplevels ();
  for (GList *i = windows; i != NULL; i = i->next)
    if (g_type_is_a (G_OBJECT_TYPE (i->data), type))
      return i->data;
  return NULL;
}

/* The list of keys has a row for each of them. */
static void
test_shortcuts (Fixture *fixture, gconstpointer name)
{
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), "show-help-overlay", NULL);
  GtkWindow *window = find_toplevel (GTK_TYPE_SHORTCUTS_WINDOW);
  g_assert_nonnull (window);
  test_wait (gtk_widget_get_mapped (GTK_WIDGET (window)));
  guint n_rows = 0, n_keys = 0;
  test_walk (GTK_WIDGET (window), count_shortcut, &n_rows);
  visit_keys (count_key, &n_keys);
  g_assert_cmpuint (n_rows, ==, n_keys);
  visit_keys (assert_listed, window);
  gtk_window_destroy (window);
}

/* The page about the program names its licence, what is not checked, and the cautions. */
static void
test_about (Fixture *fixture, gconstpointer name)
{
  g_action_group_activate_action (G_ACTION_GROUP (application), "about", NULL);
  GtkWindow *window = find_toplevel (ADW_TYPE_ABOUT_WINDOW);
  g_assert_nonnull (window);
  test_wait (gtk_widget_get_mapped (GTK_WIDGET (window)));
  const char *comments = adw_about_window_get_comments (ADW_ABOUT_WINDOW (window));
  g_autofree char *not_checked = trn_words_not_checked ();
  g_assert_nonnull (strstr (comments, trn_words_caution ()));
  g_assert_nonnull (strstr (comments, not_checked));
  g_assert_nonnull (strstr (not_checked, "ground pressure"));
  g_assert_cmpint (adw_about_window_get_license_type (ADW_ABOUT_WINDOW (window)), ==,
                   GTK_LICENSE_APACHE_2_0);
  gtk_window_destroy (window);
}

/* ---- preferences ---- */

typedef struct
{
  const char *title;
  GtkWidget *row;
} Row;

static void
find_row (GtkWidget *widget, gpointer data)
{
  Row *row = data;
  if (ADW_IS_PREFERENCES_ROW (widget)
      && strcmp (adw_preferences_row_get_title (ADW_PREFERENCES_ROW (widget)), row->title) == 0)
    row->row = widget;
}

static GtkWidget *
row_of (GtkWindow *window, TrnCitizenText title)
{
  Row row = { trn_words_citizen (title), NULL };
  test_walk (GTK_WIDGET (window), find_row, &row);
  g_assert_nonnull (row.row);
  return row.row;
}

static void
find_spin (GtkWidget *widget, gpointer data)
{
  if (GTK_IS_SPIN_BUTTON (widget))
    *(GtkWidget **)data = widget;
}

/* Feet are chosen in the window of preferences, and the rooms follow: the margins of the sequence
 * read in feet and inches at once, without anything else being touched; then metres again. */
static void
test_units (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  const TrnFinding *worst = desk_session_worst (fixture->session, 0, 0, NULL);
  g_assert_nonnull (worst);
  g_autofree char *metres = trn_words_margin (worst);
  test_wait (says (fixture->window, metres));
  g_action_group_activate_action (G_ACTION_GROUP (application), "preferences", NULL);
  GtkWindow *window = find_toplevel (ADW_TYPE_PREFERENCES_WINDOW);
  g_assert_nonnull (window);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row_of (window, TRN_CITIZEN_LENGTHS)),
                              TRN_LENGTHS_FEET);
  g_autofree char *feet = trn_words_margin (worst);
  g_assert_cmpstr (feet, !=, metres);
  test_wait (says (fixture->window, feet) && !says (fixture->window, metres));
  /* The margin that counts as tight reads in inches now: 0.1 m are 3.9 of them. */
  GtkWidget *spin = NULL;
  test_walk (row_of (window, TRN_CITIZEN_TIGHT_INCHES), find_spin, &spin);
  g_assert_cmpfloat_with_epsilon (gtk_spin_button_get_value (GTK_SPIN_BUTTON (spin)), 3.937, 0.05);
  g_assert_cmpfloat (desk_session_get_tight (fixture->session), ==, 0.1);
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (spin), 10);
  g_assert_cmpfloat_with_epsilon (desk_session_get_tight (fixture->session), 0.254, 1e-9);
  /* Chosen elsewhere, it is shown as it is: 2 m are 78.74 inches. */
  desk_settings_set_tight (desk_settings_get (), 2);
  g_assert_cmpfloat_with_epsilon (gtk_spin_button_get_value (GTK_SPIN_BUTTON (spin)), 78.74, 0.05);
  g_assert_cmpfloat (desk_session_get_tight (fixture->session), ==, 2);
  adw_combo_row_set_selected (ADW_COMBO_ROW (row_of (window, TRN_CITIZEN_LENGTHS)),
                              TRN_LENGTHS_METRES);
  test_wait (says (fixture->window, metres));
  desk_settings_set_tight (desk_settings_get (), 0.1);
  gtk_window_destroy (window);
}

/* Masses, directions, style and animations hold at once too. */
static void
test_other_choices (Fixture *fixture, gconstpointer name)
{
  GtkWidget *window = desk_preferences_show (GTK_WINDOW (fixture->window));
  AdwComboRow *masses = ADW_COMBO_ROW (row_of (GTK_WINDOW (window), TRN_CITIZEN_MASSES));
  AdwComboRow *headings = ADW_COMBO_ROW (row_of (GTK_WINDOW (window), TRN_CITIZEN_HEADINGS));
  AdwComboRow *style = ADW_COMBO_ROW (row_of (GTK_WINDOW (window), TRN_CITIZEN_STYLE));
  adw_combo_row_set_selected (masses, TRN_MASSES_US_TONS);
  adw_combo_row_set_selected (headings, TRN_HEADINGS_MATHEMATICAL);
  g_assert_cmpint (trn_words_get_units ().masses, ==, TRN_MASSES_US_TONS);
  g_assert_cmpint (trn_words_get_units ().headings, ==, TRN_HEADINGS_MATHEMATICAL);
  adw_combo_row_set_selected (style, DESK_STYLE_DARK);
  g_assert_true (desk_session_get_dark (fixture->session));
  adw_combo_row_set_selected (style, DESK_STYLE_LIGHT);
  g_assert_false (desk_session_get_dark (fixture->session));
  gboolean animated = TRUE;
  guint n_told = 0;
  GtkSettings *toolkit = gtk_settings_get_default ();
  const gulong told = g_signal_connect_swapped (toolkit, "notify::gtk-enable-animations",
                                                G_CALLBACK (test_count), &n_told);
  desk_settings_set_animations (desk_settings_get (), FALSE);
  g_object_get (toolkit, "gtk-enable-animations", &animated, NULL);
  g_assert_false (animated);
  g_assert_cmpuint (n_told, ==, 1);
  adw_combo_row_set_selected (masses, TRN_MASSES_TONNES);
  desk_settings_set_animations (desk_settings_get (), TRUE);
  g_object_get (toolkit, "gtk-enable-animations", &animated, NULL);
  g_assert_true (animated);
  /* Else the toolkit would style every widget anew at each choice, as of a line of the strip. */
  adw_combo_row_set_selected (headings, TRN_HEADINGS_BEARINGS);
  adw_combo_row_set_selected (style, DESK_STYLE_SYSTEM);
  g_assert_cmpuint (n_told, ==, 2);
  g_signal_handler_disconnect (toolkit, told);
  gtk_window_destroy (GTK_WINDOW (window));
}

/* With the schema the choices are kept, also those made elsewhere; without it they hold as long as
 * the program runs, which every other test of this file shows when it is run so. */
static void
test_kept (void)
{
  gboolean has_schema = g_getenv ("TRUNNION_TEST_SCHEMA") != NULL;
  g_assert_cmpint (desk_settings_are_kept (desk_settings_get ()), ==, has_schema);
  if (!has_schema)
    return;
  g_autoptr (GSettings) kept = g_settings_new ("org.trunnion.Desk");
  desk_settings_set_tight (desk_settings_get (), 0.25);
  g_assert_cmpfloat (g_settings_get_double (kept, "tight-margin"), ==, 0.25);
  g_settings_set_string (kept, "lengths", "feet");
  test_wait (trn_words_get_units ().lengths == TRN_LENGTHS_FEET);
  g_settings_reset (kept, "lengths");
  g_settings_reset (kept, "tight-margin");
  test_wait (trn_words_get_units ().lengths == TRN_LENGTHS_METRES
             && desk_settings_get_tight (desk_settings_get ()) == 0.1);
}

/* ---- presenting ---- */

static gboolean
press (DeskPresenter *presenter, guint key)
{
  return desk_presenter_key (presenter, key, 0);
}

static DeskPresenter *
present (Fixture *fixture)
{
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), "present", NULL);
  GtkWindow *window = find_toplevel (DESK_TYPE_PRESENTER);
  g_assert_nonnull (window);
  test_wait (gtk_widget_get_mapped (GTK_WIDGET (window)));
  return DESK_PRESENTER (window);
}

static void
leave (DeskPresenter *presenter)
{
  gpointer left = presenter;
  g_object_add_weak_pointer (G_OBJECT (presenter), &left);
  g_assert_true (press (presenter, GDK_KEY_Escape));
  test_wait (left == NULL);
}

/* Right plays the next move, Left goes back, and the words follow. A second one is not opened. */
static void
test_present_moves (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  DeskSession *session = fixture->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  g_assert_cmpuint (run->lift->n_moves, >=, 2);
  desk_session_set_playing (session, TRUE);
  DeskPresenter *presenter = present (fixture);
  g_assert_true (present (fixture) == presenter);
  g_assert_false (desk_session_get_playing (session));
  desk_session_set_time (session, 0);
  g_assert_true (desk_session_get_dark (session));
  g_autofree char *first = trn_words_move (run->lift, 0);
  g_autofree char *second = trn_words_move (run->lift, 1);
  g_assert_true (says (presenter, first));
  g_assert_true (says (presenter, trn_words_desk (TRN_DESK_PLANNING_AID)));

  g_assert_true (press (presenter, GDK_KEY_Right));
  g_assert_true (desk_presenter_get_playing (presenter));
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 0);
  test_wait (desk_session_get_time (session) > 0);
  /* What hides all is not left on. */
  desk_session_set_section (session, (RenderSection){ TRUE, { 0, 0, 1 }, -1000 });
  g_assert_true (press (presenter, GDK_KEY_space));
  g_assert_false (desk_session_get_section (session).on);
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 1);
  g_assert_true (says (presenter, second));
  g_assert_true (press (presenter, GDK_KEY_Left));
  g_assert_true (press (presenter, GDK_KEY_Page_Up));
  g_assert_false (desk_presenter_get_playing (presenter));
  g_assert_cmpuint (desk_presenter_get_move (presenter), <=, 1);
  g_assert_true (press (presenter, GDK_KEY_Left));
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 0);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  g_assert_false (press (presenter, GDK_KEY_x));
  leave (presenter);
  g_assert_false (desk_session_get_dark (session));
}

/* It stops at the end of the move, and the words stay with that move. */
static void
test_present_stops (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  DeskSession *session = fixture->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  DeskPresenter *presenter = present (fixture);
  desk_session_set_time (session, run->begins_s[1] * 0.99);
  g_assert_true (press (presenter, GDK_KEY_p));
  g_assert_true (desk_presenter_get_playing (presenter));
  test_wait (!desk_presenter_get_playing (presenter));
  g_assert_cmpfloat (desk_session_get_time (session), ==, run->begins_s[1]);
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 0);
  g_autofree char *words = trn_words_move (run->lift, 0);
  g_assert_true (says (presenter, words));
  /* Again from the beginning, and paused. */
  g_assert_true (press (presenter, GDK_KEY_P));
  g_assert_cmpfloat (desk_session_get_time (session), <, run->begins_s[1]);
  g_assert_true (press (presenter, GDK_KEY_p));
  g_assert_false (desk_presenter_get_playing (presenter));
  leave (presenter);
}

/* C and W go to what is closest, and it is said in words. After the last move comes the next lift,
 * and Left leads back into the one before. */
static void
test_present_closest (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  DeskSession *session = fixture->session;
  DeskPresenter *presenter = present (fixture);
  const TrnFinding *closest = desk_session_worst (session, 0, 0, NULL);
  g_assert_nonnull (closest);
  g_assert_true (press (presenter, GDK_KEY_c));
  g_assert_cmpfloat (desk_session_get_time (session), ==, closest->time_s);
  g_autofree char *title = trn_words_finding_title (
      closest, trn_words_margin_m (closest) < desk_session_get_tight (session));
  g_assert_true (says (presenter, title));
  const TrnFinding *worst = desk_session_worst (session, 0, -1, NULL);
  g_assert_true (press (presenter, GDK_KEY_w));
  g_assert_cmpfloat (desk_session_get_time (session), ==, worst->time_s);
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, (guint)worst->move);

  desk_session_set_time (session, desk_session_get_duration (session));
  g_assert_true (press (presenter, GDK_KEY_Page_Down));
  g_assert_cmpuint (desk_session_get_run (session), ==, 1);
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 0);
  g_assert_cmpfloat (desk_session_get_time (session), ==, 0);
  g_assert_true (press (presenter, GDK_KEY_Left));
  g_assert_cmpuint (desk_session_get_run (session), ==, 0);
  leave (presenter);
}

static double
far_of (DeskPresenter *presenter, TrnVec3 point)
{
  RenderCamera camera = desk_presenter_get_camera (presenter);
  double x, y, depth;
  g_assert_true (
      render_camera_project (&camera, (RenderSize){ 1000, 1000 }, point, &x, &y, &depth));
  return fmax (fabs (x - 500), fabs (y - 500));
}

/* After C has gone near, the next move is seen as a whole: its load and its own closest points lie
 * in the view, and are looked at, not those of the whole plan. */
static void
test_present_follows (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  DeskSession *session = fixture->session;
  DeskPresenter *presenter = present (fixture);
  desk_settings_set_animations (desk_settings_get (), FALSE);
  g_assert_true (press (presenter, GDK_KEY_c));
  double near_m = desk_presenter_get_camera (presenter).distance_m;
  /* Once more where the closest moment is the first of the move. */
  for (guint i = 0; i < 2 && desk_presenter_get_move (presenter) == 0; i++)
    g_assert_true (press (presenter, GDK_KEY_Right));
  g_assert_cmpuint (desk_presenter_get_move (presenter), ==, 1);
  const TrnFinding *own = desk_session_worst (session, 0, 1, NULL);
  g_assert_nonnull (own);
  g_assert_true (desk_session_get_finding (session) == own);
  g_assert_cmpfloat (desk_presenter_get_camera (presenter).distance_m, !=, near_m);
  TrnBox way = render_site_extent_of_move (desk_session_get_site (session)->display, 0, 1);
  for (guint i = 0; i < 8; i++)
    g_assert_cmpfloat (far_of (presenter, trn_box_corner (&way, i)), <, 700);
  g_assert_cmpfloat (far_of (presenter, own->point_on_obstacle), <, 500);
  /* Also when time is set from elsewhere. */
  desk_session_set_time (session, 0);
  g_assert_true (desk_session_get_finding (session) == desk_session_worst (session, 0, 0, NULL));
  desk_settings_set_animations (desk_settings_get (), TRUE);
  leave (presenter);
}

/* The keys are shown at first, and again when a key means nothing. */
static void
test_present_keys (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  /* Their time does not run before they are there to be seen, whether or not they move in. */
  desk_settings_set_animations (desk_settings_get (), FALSE);
  DeskPresenter *presenter = present (fixture);
  g_assert_false (desk_presenter_counts_keys (presenter));
  test_wait (desk_presenter_counts_keys (presenter));
  leave (presenter);
  desk_settings_set_animations (desk_settings_get (), TRUE);
  presenter = present (fixture);
  g_assert_false (desk_presenter_counts_keys (presenter));
  test_wait (desk_presenter_counts_keys (presenter));
  g_assert_true (says (presenter, trn_words_citizen (TRN_CITIZEN_PRESENTING_KEYS)));
  desk_presenter_hide_keys (presenter);
  g_assert_false (desk_presenter_counts_keys (presenter));
  test_wait (!says (presenter, trn_words_citizen (TRN_CITIZEN_PRESENTING_KEYS)));
  g_assert_false (press (presenter, GDK_KEY_x));
  test_wait (says (presenter, trn_words_citizen (TRN_CITIZEN_PRESENTING_KEYS)));
  leave (presenter);
}

/* When the plan is closed there is nothing left to present. */
static void
test_present_without_plan (Fixture *fixture, gconstpointer name)
{
  open_plan (fixture);
  gpointer left = present (fixture);
  g_object_add_weak_pointer (left, &left);
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), "close-plan", NULL);
  test_wait (left == NULL);
  g_assert_false (g_action_group_get_action_enabled (G_ACTION_GROUP (fixture->window), "present"));
}

/* A mesh is spoilt while it is presented: read again, the plan is shown without it, and nobody is
 * shown that. */
static void
test_present_left_out (Fixture *fixture, gconstpointer name)
{
  g_autoptr (GFile) file = test_gate_copy (fixture->folder, NULL);
  desk_window_open (fixture->window, file);
  test_wait (is_checked (fixture));
  gpointer left = present (fixture);
  g_object_add_weak_pointer (left, &left);
  g_object_unref (test_gate_copy (fixture->folder, "gatehouse.obj"));
  g_action_group_activate_action (G_ACTION_GROUP (fixture->window), "reload", NULL);
  test_wait (test_document_is_done (desk_session_get_document (fixture->session)));
  g_assert_nonnull (desk_session_get_site (fixture->session));
  test_wait (left == NULL);
}

/* A finding that is about no structure is presented too: a crate whose centre of gravity lies 0.3 m
 * beside its hook point would lean, and with nothing around that is the worst of its move. What it
 * is stands there, without why and what to do; no bounds of a clearance do. */
static void
test_present_lean (Fixture *fixture, gconstpointer name)
{
  static const char text[]
      = "{\"format\":\"trunnion-plan\",\"version\":1,\"keep_clear\":0.5,\"structures\":[],"
        "\"components\":[{\"id\":\"crate\",\"name\":\"Crate\",\"solid\":{\"kind\":\"box\","
        "\"size\":[2,2,2]},\"mass\":1000,\"cog\":[0.3,0,1],\"at\":{\"position\":[0,0,0]}}],"
        "\"programme\":[{\"lift\":\"up\",\"component\":\"crate\",\"hook_point\":[0,0,2],"
        "\"moves\":[{\"do\":\"hoist\",\"by\":3,\"seconds\":60}]}]}";
  g_autofree char *path = g_build_filename (fixture->folder, "lean.trunnion", NULL);
  g_assert_true (g_file_set_contents (path, text, -1, NULL));
  g_autoptr (GFile) file = g_file_new_for_path (path);
  desk_window_open (fixture->window, file);
  test_wait (is_checked (fixture));
  const TrnFinding *worst = desk_session_worst (fixture->session, 0, 0, NULL);
  g_assert_nonnull (worst);
  g_assert_null (worst->obstacle);
  DeskPresenter *presenter = present (fixture);
  g_autofree char *about = trn_words_with_subject ("Crate", worst);
  g_assert_true (says (presenter, about));
  g_assert_true (says (presenter, "Would not hang as drawn"));
  g_autofree char *bounds = trn_words_bounds (worst);
  g_assert_false (says (presenter, bounds));
  leave (presenter);
}

int
main (int argc, char **argv)
{
  char *home = test_folder_new ();
  test_window_init (&argc, &argv, home);
  trn_words_init (NULL);
#define ADD(path, function)                                                                        \
  g_test_add ("/desk/citizen/" path, Fixture, NULL, set_up, function, tear_down)
  ADD ("keys", test_keys);
  ADD ("reachable", test_reachable);
  ADD ("shortcuts", test_shortcuts);
  ADD ("about", test_about);
  ADD ("units", test_units);
  ADD ("other-choices", test_other_choices);
  ADD ("present-moves", test_present_moves);
  ADD ("present-stops", test_present_stops);
  ADD ("present-closest", test_present_closest);
  ADD ("present-follows", test_present_follows);
  ADD ("present-keys", test_present_keys);
  ADD ("present-without-plan", test_present_without_plan);
  ADD ("present-lean", test_present_lean);
  ADD ("present-left-out", test_present_left_out);
  g_test_add_func ("/desk/citizen/kept", test_kept);
  return test_window_run (home);
}
