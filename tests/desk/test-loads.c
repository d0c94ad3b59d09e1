/* test-loads.c: forces in the rooms, shown on the plan of a crane beside a rack: a unit of 2 t with
 * its centre of gravity plumb below the hook on two like legs, whose ends are 1.6 m apart and 1 m
 * below the hook; block 150 kg, legs 10 kg each, dynamic factor 1.1.
 *
 * Each leg bears half of 2020 kg times 1.1 at the slope of √(1 + 0.8²) to 1. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "desk-words.h"
#include "keep-loaded.h"
#include "finding-card.h"
#include "finding-row.h"
#include "force-rows.h"
#include "forces-now.h"
#include "gear-words.h"
#include "gravity.h"
#include "load-words.h"
#include "nearest.h"
#include "room-parts.h"
#include "strip-data.h"
#include "strip.h"
#include "text-of.h"

#define LEG_N (0.5 * 2020 * 1.1 * TRN_GRAVITY_M_S2 * sqrt (1.64))

typedef struct
{
  char *folder;
  DeskSession *session;
  GtkWidget *window, *card, *forces;
} Rooms;

static gboolean
is_worked_out (const Rooms *rooms)
{
  return test_is_settled (rooms->session);
}

static void
rooms_open_text (Rooms *rooms, const char *text)
{
  *rooms = (Rooms){ .folder = test_folder_new (),
                    .session = desk_session_new (),
                    .window = gtk_window_new () };
  g_autoptr (GFile) file = test_write (rooms->folder, "crane.trunnion", text);
  rooms->card = desk_finding_card_new (rooms->session);
  rooms->forces = desk_forces_now_new (rooms->session);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (box), rooms->forces);
  gtk_box_append (GTK_BOX (box), rooms->card);
  gtk_window_set_default_size (GTK_WINDOW (rooms->window), 360, 800);
  gtk_window_set_child (GTK_WINDOW (rooms->window), box);
  gtk_window_present (GTK_WINDOW (rooms->window));
  desk_document_open (desk_session_get_document (rooms->session), file, 0);
  test_wait (is_worked_out (rooms));
  test_idle (0.1);
}

/* The plan with @before as @after; @before NULL: as it is. */
static void
rooms_open (Rooms *rooms, const char *before, const char *after)
{
  g_autofree char *plan = test_plan_text ("crane-beside-rack");
  g_autofree char *text = before != NULL ? test_replace (plan, before, after) : g_strdup (plan);
  rooms_open_text (rooms, text);
}

static void
rooms_clear (Rooms *rooms)
{
  gtk_window_destroy (GTK_WINDOW (rooms->window));
  test_idle (0.05);
  g_object_unref (rooms->session);
  test_folder_free (rooms->folder);
}

static GtkWidget *
find_label (GtkWidget *root, const char *text)
{
  if (gtk_widget_get_mapped (root) && g_strcmp0 (test_text_of (root), text) == 0)
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_label (child, text);
  return found;
}

static GtkWidget *
find_type (GtkWidget *root, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type))
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_type (child, type);
  return found;
}

/* The figure of the room, not the mark in its head; NULL while it is folded. */
static GtkWidget *
find_figure (GtkWidget *root)
{
  if (GTK_IS_DRAWING_AREA (root)
      && gtk_accessible_get_accessible_role (GTK_ACCESSIBLE (root)) == GTK_ACCESSIBLE_ROLE_IMG)
    return root;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_figure (child);
  return found;
}

static void
unfold (Rooms *rooms)
{
  gtk_expander_set_expanded (GTK_EXPANDER (find_type (rooms->forces, GTK_TYPE_EXPANDER)), TRUE);
  test_idle (0.2);
}

static guint
find_finding (Rooms *rooms, TrnCheckKind check)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms->session), 0);
  for (guint i = 0; i < lift->findings->len; i++)
    if (g_array_index (lift->findings, TrnFinding, i).check == check)
      return i;
  g_assert_not_reached ();
}

/* One sling straight up is told plumb, whatever its sine leaves open. */
static void
test_plumb_leg (void)
{
  Rooms rooms;
  g_autofree char *plan = test_plan_text ("crane-beside-rack");
  g_autofree char *one
      = test_replace (plan,
                      "\"wll\": 2000 },\n            { \"id\": \"west\", \"to\": [-0.8, 0, 2], "
                      "\"diameter\": 0.02, \"mass\": 10, \"wll\": 1400 }",
                      "\"wll\": 2000 }");
  g_autofree char *plumb = test_replace (one, "\"to\": [0.8, 0, 2]", "\"to\": [0, 0, 2]");
  rooms_open_text (&rooms, plumb);
  const TrnScene *scene = desk_session_get_site (rooms.session)->scene;
  const TrnHoist *hoist = &scene->programme->runs[0].lift->rigging.main;
  DeskForces *forces = desk_forces_new (scene, 0);
  g_assert_cmpfloat_with_epsilon (desk_forces_leg_angle_rad (forces, hoist, 0, 1, 0.5), G_PI / 2,
                                  1e-7);
  desk_forces_free (forces);
  rooms_clear (&rooms);
}

/* Forces at the start: the hook has all of the load, each leg its share; of another hook, beyond
 * its moves, there is nothing. */
static void
test_forces (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const TrnScene *scene = desk_session_get_site (rooms.session)->scene;
  const TrnHoist *hoist = &scene->programme->runs[0].lift->rigging.main;
  DeskForces *forces = desk_forces_new (scene, 0);
  g_assert_cmpfloat (desk_forces_load_kg (forces, hoist, 0, 0.5), ==, 2000);
  g_assert_cmpfloat (desk_forces_hook_kg (forces, hoist, 1, 0.5), ==, 2170);
  for (guint i = 0; i < 2; i++)
    g_assert_cmpfloat_with_epsilon (desk_forces_tension_n (forces, hoist, i, 0, 0.5), LEG_N, 1);
  g_assert_cmpfloat_with_epsilon (desk_forces_greatest_tension_n (forces, hoist, 0, 0), LEG_N, 1);
  g_assert_cmpfloat_with_epsilon (desk_forces_leg_angle_rad (forces, hoist, 0, 0, 0),
                                  atan2 (1, 0.8), 1e-6);
  g_assert_true (
      isnan (desk_forces_load_kg (forces, &scene->programme->runs[0].lift->rigging.tail, 7, 0)));
  /* No moment has more than what is proven of the move. */
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  const TrnFinding *capacity
      = &g_array_index (lift->findings, TrnFinding, find_finding (&rooms, TRN_CHECK_CAPACITY));
  double used = desk_forces_utilisation (forces, hoist, 0, 0.5);
  g_assert_cmpfloat (used, >, 0.5 * capacity->utilisation);
  g_assert_cmpfloat (used, <=, capacity->utilisation);
  const TrnFinding *ground
      = &g_array_index (lift->findings, TrnFinding, find_finding (&rooms, TRN_CHECK_GROUND));
  double pressure_pa = desk_forces_pressure_pa (forces, hoist, 0, 0.5);
  g_assert_cmpfloat (pressure_pa, >, 0);
  g_assert_cmpfloat (pressure_pa, <=, ground->value * (1 + 1e-9));
  desk_forces_free (forces);
  rooms_clear (&rooms);
}

static double
found_in_band (const DeskStripData *data, guint band)
{
  for (guint i = 0; i < data->strip.n_limits; i++)
    if (data->strip.limits[i].band == band && data->strip.limits[i].is_found)
      {
        g_assert_true (g_str_has_prefix (data->strip.limits[i].text, "found: up to "));
        return data->strip.limits[i].value;
      }
  g_assert_not_reached ();
}

/* The strip draws what was chosen, each kind by a scale of its own; 100 % of the capacity only
 * where it is near. */
static void
test_strip (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  desk_session_set_gauges (rooms.session, 1u << TRN_GAUGE_LOAD | 1u << TRN_GAUGE_TENSION
                                              | 1u << TRN_GAUGE_CAPACITY
                                              | 1u << TRN_GAUGE_PRESSURE);
  DeskStripData *data = desk_strip_data_new (rooms.session);
  g_assert_cmpuint (data->strip.n_gauges, ==, 4);
  g_assert_cmpuint (data->strip.n_bands, ==, 4);
  g_assert_cmpfloat (render_strip_gauge_at (&data->strip, 0, 30), ==, 2000);
  g_assert_cmpfloat_with_epsilon (render_strip_gauge_at (&data->strip, 1, 30), LEG_N, 1);
  /* Each says that it is as drawn, and has what was found above all of it: within its scale, and
   * with all that the finding says. */
  for (guint i = 0; i < 4; i++)
    {
      g_assert_nonnull (strstr (data->strip.bands[i].title, "as drawn"));
      const RenderStripBand *band = &data->strip.bands[i];
      const double found = found_in_band (data, i);
      for (guint k = 0; k < data->strip.n_times; k++)
        g_assert_cmpfloat (data->strip.gauges[i].values[(gsize)k * data->strip.gauges[i].stride],
                           <=, found * (1 + 1e-9));
      g_assert_cmpfloat (found, <=, band->ticks[band->n_ticks - 1]);
    }
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  double pressure_pa = 0;
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_GROUND)
        pressure_pa = fmax (pressure_pa, finding->value);
    }
  g_assert_cmpfloat (pressure_pa, >, 0);
  g_assert_cmpfloat (found_in_band (data, 3), ==, pressure_pa);
  g_assert_cmpfloat_with_epsilon (found_in_band (data, 0), 2000, 1e-6);
  desk_strip_data_free (data);
  rooms_clear (&rooms);
}

/* The card of a finding of capacity names the crane, what is used, and where the numbers are from;
 * the row has value, limit and margin with their units. */
static void
test_lists (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  guint index = find_finding (&rooms, TRN_CHECK_CAPACITY);
  const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, index);
  desk_session_set_finding (rooms.session, f, FALSE);
  test_idle (0.1);
  g_autofree char *used = trn_words_utilisation (f);
  g_autofree char *numbers = trn_words_numbers (f);
  g_assert_nonnull (find_label (rooms.card, used));
  g_assert_nonnull (find_label (rooms.card, numbers));
  g_autoptr (DeskFindingRow) row = desk_finding_row_new (rooms.session, 0, index, 0);
  g_autofree char *value = trn_words_value_cell (f), *limit = trn_words_limit_cell (f);
  g_assert_cmpstr (row->cells[TRN_COLUMN_CLEARANCE], ==, value);
  g_assert_cmpstr (row->cells[TRN_COLUMN_KEEP], ==, limit);
  g_assert_nonnull (strstr (row->cells[TRN_COLUMN_OBSTACLE], "capacity"));
  /* Tonnes are not sorted among metres. */
  g_assert_true (isnan (row->values[TRN_COLUMN_CLEARANCE]));
  rooms_clear (&rooms);
}

/* The weight has the mass factor of its plan in it, and says so; 2 t without one say nothing of it.
 */
static void
test_mass_factor (void)
{
  Rooms rooms;
  rooms_open (&rooms, "\"mass\": 2000,", "\"mass\": 2000, \"mass_factor\": 1.05,");
  unfold (&rooms);
  g_autofree char *mass = trn_words_mass (2100);
  const char *name = trn_words_loads (TRN_LOADS_MASS_FACTOR);
  g_assert_nonnull (find_label (rooms.forces, mass));
  g_assert_nonnull (find_label (rooms.forces, name));
  g_assert_nonnull (find_label (rooms.forces, "1.05"));
  rooms_clear (&rooms);
  rooms_open (&rooms, NULL, NULL);
  unfold (&rooms);
  g_assert_null (find_label (rooms.forces, name));
  rooms_clear (&rooms);
}

/* Unfolded the room says what it draws; its switch goes to the rigging; the figures follow the
 * style. */
static void
test_room (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  g_assert_null (find_figure (rooms.forces));
  unfold (&rooms);
  GtkWidget *figure = find_figure (rooms.forces);
  g_assert_true (gtk_widget_get_mapped (figure));
  g_autofree char *weight = trn_words_weight (2000), *mass = trn_words_mass (2000);
  g_assert_nonnull (find_label (rooms.forces, weight));
  g_assert_nonnull (find_label (rooms.forces, mass));
  /* What was found is told below what is as drawn. */
  g_assert_nonnull (find_label (rooms.forces, trn_words_loads (TRN_LOADS_FOUND)));
  const TrnLiftFindings *found = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  const TrnFinding *ground
      = &g_array_index (found->findings, TrnFinding, find_finding (&rooms, TRN_CHECK_GROUND));
  g_autofree char *pressure = trn_words_gauge_value (TRN_GAUGE_PRESSURE, ground->value);
  g_assert_nonnull (find_label (rooms.forces, pressure));
  gtk_test_accessible_assert_role (figure, GTK_ACCESSIBLE_ROLE_IMG);
  GtkWidget *choice = gtk_widget_get_ancestor (
      find_label (rooms.forces, trn_words_loads (TRN_LOADS_RIGGING)), GTK_TYPE_TOGGLE_BUTTON);
  g_assert_true (gtk_widget_get_focusable (choice));
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (choice), TRUE);
  test_idle (0.1);
  GtkWidget *east = find_label (rooms.forces, "east");
  g_assert_nonnull (east);
  g_assert_false (pango_layout_is_ellipsized (gtk_label_get_layout (GTK_LABEL (east))));
  /* What has no number beside its name has the room of that. */
  GtkWidget *below = find_label (rooms.forces, trn_words_loads (TRN_LOADS_FOUND));
  int columns;
  g_assert_nonnull (below);
  gtk_grid_query_child (GTK_GRID (gtk_widget_get_parent (below)), below, NULL, NULL, &columns,
                        NULL);
  g_assert_cmpint (columns, ==, 2);
  gtk_grid_query_child (GTK_GRID (gtk_widget_get_parent (east)), east, NULL, NULL, &columns, NULL);
  g_assert_cmpint (columns, ==, 2);
  g_assert_null (find_label (rooms.forces, weight));
  desk_session_set_dark (rooms.session, TRUE);
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms.forces, "east"));
  rooms_clear (&rooms);
}

static gboolean
has_crane_label (Rooms *rooms)
{
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms->session), 0);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      g_autofree char *says = trn_words_of_lift (f);
      const gboolean is_of_crane = f->check == TRN_CHECK_CAPACITY || f->check == TRN_CHECK_GROUND;
      if (is_of_crane && f->verdict == TRN_VERDICT_FAIL && find_label (rooms->forces, says) != NULL)
        return TRUE;
    }
  return FALSE;
}

/* With ten times the mass the crane is far beyond its capacity and lifts off: the room says the
 * worst of it while it is folded, and nothing of the crane where that is within. */
static void
test_folded (void)
{
  Rooms rooms;
  rooms_open (&rooms, "\"mass\": 2000, ", "\"mass\": 20000, ");
  g_assert_false (
      gtk_expander_get_expanded (GTK_EXPANDER (find_type (rooms.forces, GTK_TYPE_EXPANDER))));
  g_assert_true (has_crane_label (&rooms));
  rooms_clear (&rooms);
  rooms_open (&rooms, NULL, NULL);
  g_assert_false (has_crane_label (&rooms));
  rooms_clear (&rooms);
}

/* Without a mass nothing is known, and the room says what is left out; without a centre of gravity
 * the weight has no place. */
static void
test_missing (void)
{
  Rooms rooms;
  TrnFinding mass = { .missing = "mass" };
  g_autofree char *says = trn_words_missing (&mass);
  rooms_open (&rooms, "\"mass\": 2000, ", "");
  unfold (&rooms);
  g_assert_nonnull (find_label (rooms.forces, says));
  /* The rows of its gear have the hook above them. */
  g_assert_nonnull (find_label (rooms.forces, trn_words_loads (TRN_LOADS_CAPACITY)));
  g_assert_nonnull (find_label (rooms.forces, "Main hook"));
  rooms_clear (&rooms);
  rooms_open (&rooms, "\"cog\": [0, 0, 1], ", "");
  unfold (&rooms);
  g_assert_nonnull (find_label (rooms.forces, trn_words_loads (TRN_LOADS_NO_COG)));
  rooms_clear (&rooms);
}

/* The load hangs free and its centre of gravity is left out: how it hangs is not known, nor any
 * clearance of it for that. The worst of the first move is what is left out, which somebody can
 * mend; toward the rack it is the clearance. */
static void
test_cause (void)
{
  Rooms rooms;
  g_autofree char *plan = test_plan_text ("crane-beside-rack");
  g_autofree char *without = test_replace (plan, "\"cog\": [0, 0, 1], ", "");
  g_autofree char *text
      = test_replace (without, "\"hook_point\"", "\"hangs\": \"free\", \"hook_point\"");
  rooms_open_text (&rooms, text);
  const TrnFinding *worst = desk_session_worst (rooms.session, 0, 0, NULL);
  g_assert_cmpint (worst->check, ==, TRN_CHECK_ATTITUDE);
  g_assert_cmpstr (worst->missing, ==, "cog");
  worst = desk_session_worst (rooms.session, 0, 0, "rack");
  g_assert_cmpint (worst->check, ==, TRN_CHECK_CLEARANCE);
  g_assert_cmpstr (worst->missing, ==, "attitude");
  /* Of that no bounds are shown, and the list says that the check ran and could not know. */
  desk_session_set_finding (rooms.session, worst, FALSE);
  GtkWidget *nearest = desk_nearest_new (rooms.session);
  gtk_box_append (GTK_BOX (gtk_window_get_child (GTK_WINDOW (rooms.window))), nearest);
  test_wait (find_label (nearest, trn_words_desk (TRN_DESK_NOT_KNOWN)) != NULL);
  g_assert_null (find_label (nearest, trn_words_desk (TRN_DESK_NOT_CHECKED)));
  g_autofree char *bounds = trn_words_bounds (worst);
  g_assert_null (find_label (rooms.card, bounds));
  rooms_clear (&rooms);
}

/* What is found of a quantity is no value that says nothing: of a leg that would have to push, and
 * of what lifts off, goes over its tail or turns over. */
static void
test_found (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const DeskProfile *profile = desk_session_get_profile (rooms.session);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  const DeskGauge *tension = NULL;
  for (guint i = 0; i < profile->n_gauges; i++)
    if (profile->gauges[i].gauge == TRN_GAUGE_TENSION)
      tension = &profile->gauges[i];
  g_assert_nonnull (tension);
  double greatest, most = 0;
  gboolean is_all;
  g_assert_true (desk_gauge_found (lift->findings, tension, &greatest, &is_all));
  g_assert_true (is_all);
  g_assert_cmpfloat (greatest, >=, LEG_N * (1 - 1e-9));
  for (guint i = 0; i < lift->findings->len; i++)
    {
      TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->check != TRN_CHECK_SLINGS || g_strcmp0 (f->item, "tension") != 0)
        continue;
      const TrnState state = f->state;
      const double value = f->value;
      static const TrnState states[]
          = { TRN_STATE_SLACK, TRN_STATE_LIFTED, TRN_STATE_OVER_TAIL, TRN_STATE_TURNS_OVER };
      f->value = 10 * greatest;
      for (guint k = 0; k < G_N_ELEMENTS (states); k++)
        {
          f->state = states[k];
          double others;
          g_assert_true (desk_gauge_found (lift->findings, tension, &others, &is_all));
          g_assert_false (is_all);
          g_assert_false (others > greatest);
        }
      f->state = state;
      f->value = value;
      most = fmax (most, value);
    }
  g_assert_cmpfloat (most, ==, greatest);
  rooms_clear (&rooms);
}

/* Found of all forces in one go is what is found of each. */
static void
test_found_at_once (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const DeskProfile *profile = desk_session_get_profile (rooms.session);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (rooms.session), 0);
  const TrnLiftRun *run = desk_session_get_lift_run (rooms.session);
  DeskHoist hoists[DESK_MOST_HOISTS];
  DeskFoundOfHoist found[DESK_MOST_HOISTS] = { 0 };
  const guint n
      = desk_hoists_of (desk_session_get_site (rooms.session)->scene->programme->plan, run, hoists);
  g_assert_cmpuint (n, ==, 1);
  desk_gauges_find (lift->findings, hoists, n, found);
  guint n_forces = 0;
  for (guint i = 0; i < profile->n_gauges; i++)
    {
      const DeskGauge *gauge = &profile->gauges[i];
      const DeskFound *at_once = &found[0].of[gauge->gauge];
      double greatest;
      gboolean is_all;
      const gboolean is_any = desk_gauge_found (lift->findings, gauge, &greatest, &is_all);
      g_assert_true (is_any == at_once->is_any && is_all == at_once->is_all);
      g_assert_true (is_any == desk_gauge_is_force (gauge->gauge));
      if (is_any)
        g_assert_cmpfloat (greatest, ==, at_once->greatest);
      n_forces += is_any;
    }
  g_assert_cmpuint (n_forces, ==, 4);
  desk_found_clear (found);
  rooms_clear (&rooms);
}

/* What was found stands in the units of the row above it, and is said with what it is of. */
static void
test_found_rows (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const TrnScene *scene = desk_session_get_site (rooms.session)->scene;
  DeskFoundOfHoist found[DESK_MOST_HOISTS] = { 0 };
  found[0].of[TRN_GAUGE_LOAD] = (DeskFound){ .greatest = 2100.2, .is_any = TRUE, .is_all = TRUE };
  found[0].of[TRN_GAUGE_PRESSURE] = (DeskFound){ .greatest = 5e4, .is_any = TRUE };
  found[0].of[TRN_GAUGE_CAPACITY]
      = (DeskFound){ .greatest = NAN, .is_any = TRUE, .fails = TRUE, .state = TRN_STATE_SLACK };
  const DeskFound of_slings[]
      = { { .greatest = NAN, .is_any = TRUE },
          { .greatest = 14e3, .used = 0.701, .is_any = TRUE, .is_all = TRUE } };
  found[0].slings = g_array_new (FALSE, FALSE, sizeof (DeskFound));
  g_array_append_vals (found[0].slings, of_slings, 2);
  DeskForces *forces = desk_forces_new (scene, 0);
  g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, found, 0, NAN);
  g_autofree char *hook = trn_words_hoist (TRN_HOIST_MAIN, NULL);
  /* With block and slings first, then what was found, which has them not. */
  const DeskForceRow *load = test_row_below (view->force_rows, hook) + 1;
  g_assert_cmpstr (load[-1].label, ==, trn_words_loads (TRN_LOADS_HOOK_LOAD));
  g_assert_cmpstr (load->label, ==, "load found, up to");
  /* Rounded up, both: 20.5960 kN and 2.1002 t. */
  g_assert_cmpstr (load->value, ==, "20.6 kN");
  g_assert_cmpstr (load->more, ==, "2.101 t");
  g_assert_true (g_str_has_prefix (load->said, hook) && g_str_has_suffix (load->said, "up to"));
  const DeskForceRow *ground
      = test_row_below (view->force_rows, trn_words_loads (TRN_LOADS_GROUND));
  g_assert_cmpstr (ground->value, ==, "50 kPa");
  g_assert_null (ground->more);
  g_assert_cmpstr (ground->said, ==, "Ground, found in part, up to");
  /* Each below its own sling. */
  const DeskForceRow *rigging = (const DeskForceRow *)(gpointer)view->rigging_rows->data;
  g_assert_cmpuint (view->rigging_rows->len, ==, 6);
  g_assert_cmpstr (rigging[1].label, ==, "tension");
  g_assert_cmpstr (rigging[2].label, ==, "found");
  g_assert_cmpstr (rigging[2].value, ==, "");
  g_assert_cmpstr (rigging[2].more, ==, trn_words_desk (TRN_DESK_NOT_KNOWN));
  g_assert_cmpstr (rigging[5].label, ==, "found, up to");
  g_assert_cmpstr (rigging[5].more, ==, "14 kN, 70.1 %");
  g_assert_true (g_str_has_prefix (rigging[5].said, rigging[3].label));
  for (guint i = 0; i < 6; i++)
    g_assert_true (!rigging[i].is_under == (i % 3 == 0) && !rigging[i].is_found == (i % 3 != 2));
  const DeskForceRow *used
      = test_row_below (view->force_rows, trn_words_loads (TRN_LOADS_CAPACITY));
  g_assert_cmpstr (used->label, ==, "found");
  g_assert_cmpstr (used->value, ==, "SLACK");
  g_assert_true (load->is_under && ground->is_under && used->is_under);
  desk_found_clear (found);
  desk_forces_free (forces);
  rooms_clear (&rooms);
}

/* What was found of a sling is the greatest of its own findings, and what rounding leaves of
 * nothing is nothing. */
static void
test_found_slings (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const TrnScene *scene = desk_session_get_site (rooms.session)->scene;
  GArray *findings = desk_check_get_lift (desk_session_get_check (rooms.session), 0)->findings;
  DeskHoist hoists[DESK_MOST_HOISTS];
  DeskFoundOfHoist found[DESK_MOST_HOISTS] = { 0 };
  const guint n = desk_hoists_of (scene->programme->plan, &scene->programme->runs[0], hoists);
  const double of_sling_n[] = { 2.23e-12, 30e3 };
  guint n_tensions = 0;
  for (guint i = 0; i < findings->len; i++)
    for (guint k = 0; k < 2; k++)
      {
        TrnFinding *f = &g_array_index (findings, TrnFinding, i);
        if (g_strcmp0 (f->item, "tension") != 0
            || g_strcmp0 (f->body, hoists[0].hoist->slings[k].id) != 0)
          continue;
        f->value = of_sling_n[k];
        n_tensions++;
      }
  g_assert_cmpuint (n_tensions, >=, 2);
  desk_gauges_find (findings, hoists, n, found);
  g_assert_cmpuint (found[0].slings->len, ==, 2);
  g_assert_cmpfloat (g_array_index (found[0].slings, DeskFound, 0).greatest, ==, 0);
  g_assert_cmpfloat (g_array_index (found[0].slings, DeskFound, 1).greatest, ==, 30e3);
  g_assert_cmpfloat (found[0].of[TRN_GAUGE_TENSION].greatest, ==, 30e3);
  desk_found_clear (found);
  rooms_clear (&rooms);
}

/* Where a support lifts off in one move, that is said beside what the others press with; where it
 * does in all of them, instead of it. What is not known of the moment is said as well. */
static void
test_found_fails (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  const TrnScene *scene = desk_session_get_site (rooms.session)->scene;
  GArray *findings = desk_check_get_lift (desk_session_get_check (rooms.session), 0)->findings;
  DeskHoist hoists[DESK_MOST_HOISTS];
  const guint n = desk_hoists_of (scene->programme->plan, &scene->programme->runs[0], hoists);
  DeskForces *forces = desk_forces_new (scene, 0);
  guint n_ground = 0;
  for (guint i = 0; i < findings->len; i++)
    {
      TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (f->check != TRN_CHECK_GROUND || g_strcmp0 (f->body, hoists[0].gear->id) != 0)
        continue;
      f->verdict = TRN_VERDICT_FAIL;
      f->state = TRN_STATE_LIFTED;
      DeskFoundOfHoist found[DESK_MOST_HOISTS] = { 0 };
      desk_gauges_find (findings, hoists, n, found);
      const DeskFound *ground = &found[0].of[TRN_GAUGE_PRESSURE];
      g_assert_true (ground->fails && ground->is_any && !ground->is_all);
      g_assert_cmpint (ground->state, ==, TRN_STATE_LIFTED);
      g_autoptr (DeskForceView) view = desk_force_view_new (scene, 0, forces, found, 0, NAN);
      const DeskForceRow *row
          = test_row_below (view->force_rows, trn_words_loads (TRN_LOADS_GROUND));
      g_assert_cmpstr (row->label, ==, "found");
      g_assert_cmpstr (row->value, ==, "LIFTS OFF");
      g_assert_cmpstr (row->said, ==, "Ground, found");
      if (isfinite (ground->greatest))
        g_assert_cmpstr (row[1].label, ==, "found in part, up to");
      desk_found_clear (found);
      n_ground++;
    }
  g_assert_cmpuint (n_ground, >, 1);
  desk_forces_free (forces);
  rooms_clear (&rooms);
}

/* The room looks for it again when the checks tell something, not at every moment. */
static void
test_found_kept (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  unfold (&rooms);
  GArray *findings = desk_check_get_lift (desk_session_get_check (rooms.session), 0)->findings;
  double greatest_pa = 0;
  for (guint i = 0; i < findings->len; i++)
    {
      TrnFinding *f = &g_array_index (findings, TrnFinding, i);
      if (f->check != TRN_CHECK_GROUND)
        continue;
      greatest_pa = fmax (greatest_pa, f->value);
      f->value *= 3;
    }
  g_autofree char *before = trn_words_gauge_value (TRN_GAUGE_PRESSURE, greatest_pa);
  g_autofree char *after = trn_words_gauge_value (TRN_GAUGE_PRESSURE, 3 * greatest_pa);
  desk_session_set_time (rooms.session, desk_session_get_duration (rooms.session) / 3);
  test_idle (0.1);
  g_assert_nonnull (find_label (rooms.forces, before));
  g_assert_null (find_label (rooms.forces, after));
  g_signal_emit_by_name (rooms.session, "findings-changed");
  test_wait (find_label (rooms.forces, after) != NULL);
  rooms_clear (&rooms);
}

/* When the plan is closed nothing keeps it: not the list of what is near, and not the forces that
 * the strip was read by. */
static void
test_closed (void)
{
  Rooms rooms;
  rooms_open (&rooms, NULL, NULL);
  GtkWidget *strip = desk_strip_new (rooms.session);
  GtkWidget *box = gtk_window_get_child (GTK_WINDOW (rooms.window));
  gtk_box_append (GTK_BOX (box), strip);
  gtk_box_append (GTK_BOX (box), desk_nearest_new (rooms.session));
  desk_session_set_gauges (rooms.session, 1u << TRN_GAUGE_TENSION);
  unfold (&rooms);
  g_autoptr (GPtrArray) readings = desk_strip_read_gauges (strip, 30);
  g_assert_cmpuint (readings->len, ==, 1);
  DeskSite *site = desk_site_ref (desk_session_get_site (rooms.session));
  g_assert_false (g_atomic_ref_count_compare (&site->refs, 1));
  desk_document_close (desk_session_get_document (rooms.session));
  test_wait (g_atomic_ref_count_compare (&site->refs, 1));
  desk_site_unref (site);
  rooms_clear (&rooms);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/desk/loads/forces", test_forces);
  g_test_add_func ("/desk/loads/plumb-leg", test_plumb_leg);
  g_test_add_func ("/desk/loads/strip", test_strip);
  g_test_add_func ("/desk/loads/found", test_found);
  g_test_add_func ("/desk/loads/found-at-once", test_found_at_once);
  g_test_add_func ("/desk/loads/found-rows", test_found_rows);
  g_test_add_func ("/desk/loads/found-kept", test_found_kept);
  g_test_add_func ("/desk/loads/found-fails", test_found_fails);
  g_test_add_func ("/desk/loads/found-slings", test_found_slings);
  g_test_add_func ("/desk/loads/closed", test_closed);
  g_test_add_func ("/desk/loads/lists", test_lists);
  g_test_add_func ("/desk/loads/room", test_room);
  g_test_add_func ("/desk/loads/mass-factor", test_mass_factor);
  g_test_add_func ("/desk/loads/folded", test_folded);
  g_test_add_func ("/desk/loads/missing", test_missing);
  g_test_add_func ("/desk/loads/cause", test_cause);
  return g_test_run ();
}
