/* test-gear.c: the gear of a lift in the rooms of the desk: the crane of test-crane.h, whose
 * numbers follow from a triangle of 3, 4 and 5. */
#include <gtk/gtk.h>
#include <math.h>
#include <string.h>

#include "desk-fixture.h"
#include "keep-loaded.h"
#include "desk-words.h"
#include "finding-card.h"
#include "gauge-words.h"
#include "gear-now.h"
#include "nearest.h"
#include "number.h"
#include "room-parts.h"
#include "strip.h"
#include "strip-data.h"
#include "test-crane.h"
#include "transport.h"
#include "text-of.h"

typedef struct
{
  char *folder;
  DeskSession *session;
  GtkWidget *window, *gear, *nearest, *card, *transport;
} Fixture;

static void
set_up (Fixture *f, gconstpointer data)
{
  f->folder = test_folder_new ();
  f->session = desk_session_new ();
  f->window = gtk_window_new ();
  f->gear = desk_gear_now_new (f->session);
  f->nearest = desk_nearest_new (f->session);
  f->card = desk_finding_card_new (f->session);
  f->transport = desk_transport_new (f->session);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_append (GTK_BOX (box), f->transport);
  gtk_box_append (GTK_BOX (box), f->nearest);
  gtk_box_append (GTK_BOX (box), f->gear);
  gtk_box_append (GTK_BOX (box), f->card);
  gtk_window_set_default_size (GTK_WINDOW (f->window), 500, 850);
  gtk_window_set_child (GTK_WINDOW (f->window), box);
  gtk_window_present (GTK_WINDOW (f->window));
  test_wait (gtk_widget_get_mapped (f->nearest));
}

static void
tear_down (Fixture *f, gconstpointer data)
{
  gtk_window_destroy (GTK_WINDOW (f->window));
  test_idle (0.05);
  g_object_unref (f->session);
  test_folder_free (f->folder);
}

static gboolean
is_worked_out (const Fixture *f)
{
  return test_is_settled (f->session);
}

/* The plan of the crane, with @before, which is in it once, as @after; NULL: as it is. */
static void
open_crane (Fixture *f, const char *before, const char *after)
{
  g_autofree char *text
      = before != NULL ? test_replace (test_crane_plan, before, after) : g_strdup (test_crane_plan);
  g_strdelimit (text, "'", '"');
  g_autoptr (GFile) file = test_write (f->folder, "crane.trunnion", text);
  desk_document_open (desk_session_get_document (f->session), file, 0);
  test_wait (is_worked_out (f));
  test_idle (0.2);
}

/* The label that says @text and can be seen; NULL: there is none. */
static GtkWidget *
find_label (GtkWidget *widget, const char *text)
{
  if (!gtk_widget_get_visible (widget))
    return NULL;
  if (g_strcmp0 (test_text_of (widget), text) == 0)
    return widget;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_label (child, text);
      if (found != NULL)
        return found;
    }
  return NULL;
}

static void
assert_says (GtkWidget *widget, const char *text)
{
  if (find_label (widget, text) == NULL)
    g_error ("“%s” is not said", text);
}

/* The hook is 4 m high at the start, on a radius of 12 m of a table from 4 m to 15 m; the boom, at
 * acos 0.6, points east; its tip, 16 m up, has to be 2 m above the hook at least. */
static void
test_now (Fixture *f, gconstpointer data)
{
  open_crane (f, NULL, NULL);
  static const char *const at_start[] = {
    "Main hook: Yard crane", "4 m", "12 m", "4 to 15 m", "53.14°", "20° to 80°", "10 m", "090.0°"
  };
  for (guint i = 0; i < G_N_ELEMENTS (at_start); i++)
    assert_says (f->gear, at_start[i]);
  g_assert_null (find_label (f->gear, "Tail hook"));
  /* Beside its number what bounds it keeps to one line, however narrow the room. */
  GtkWidget *range = find_label (f->gear, "4 to 15 m");
  PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (range));
  pango_layout_set_width (layout, 20 * PANGO_SCALE);
  g_assert_cmpint (pango_layout_get_line_count (layout), ==, 1);
  gtk_widget_queue_resize (range);
  desk_session_set_time (f->session, 120);
  static const char *const at_end[] = { "7 m", "12 m", "9 m", "180.0°" };
  for (guint i = 0; i < G_N_ELEMENTS (at_end); i++)
    assert_says (f->gear, at_end[i]);
  TrnWordsUnits mathematical = { .headings = TRN_HEADINGS_MATHEMATICAL };
  trn_words_set_units (mathematical);
  desk_session_tell_view_changed (f->session);
  assert_says (f->gear, "270.0°");
  trn_words_set_units ((TrnWordsUnits){ 0 });
}

/* How many bodies in the view are the boom. */
static guint
count_booms (const Fixture *f)
{
  const RenderSite *display = desk_session_get_site (f->session)->display;
  RenderSiteState state = desk_session_view_state (f->session);
  g_autoptr (RenderDrawList) list = render_site_view (display, &state);
  guint n = 0;
  for (guint i = 0; i < list->bodies->len; i++)
    n += g_strcmp0 (render_site_body_id (display, g_array_index (list->bodies, RenderBody, i).id),
                    "crane/boom")
         == 0;
  return n;
}

/* A boom of 11 m does not get to a radius of 12 m: the room says so, and nothing is drawn of it nor
 * said of its angle; of one that does both are. */
static void
test_no_place (Fixture *f, gconstpointer data)
{
  const char *angle = trn_words_gauge (TRN_GAUGE_BOOM_ANGLE);
  open_crane (f, NULL, NULL);
  g_assert_null (find_label (f->gear, trn_words_gear (TRN_GEAR_NO_PLACE)));
  assert_says (f->gear, angle);
  g_assert_cmpuint (count_booms (f), ==, 1);
  open_crane (f, "'length':20", "'length':11");
  assert_says (f->gear, trn_words_gear (TRN_GEAR_NO_PLACE));
  g_assert_null (find_label (f->gear, angle));
  g_assert_cmpuint (count_booms (f), ==, 0);
  const TrnFinding *worst;
  test_wait ((worst = desk_session_worst (f->session, 0, -1, NULL)) != NULL);
  g_assert_cmpint (worst->verdict, ==, TRN_VERDICT_FAIL);
}

/* A crate that would turn over hangs nobody knows how: the strip has one span of both moves of
 * which nothing is known, and no line that looks as if it were. As it is, it has none. */
static void
test_not_known (Fixture *f, gconstpointer data)
{
  open_crane (f, NULL, NULL);
  g_autoptr (DeskStripData) known = desk_strip_data_new (f->session);
  g_assert_cmpuint (known->strip.n_unknown, ==, 0);
  open_crane (f, "'hook_point':'eye',", "'hook_point':'eye','hangs':'free',");
  /* Without a centre of gravity. */
  test_wait (isnan (desk_session_get_profile (f->session)->distances_m[0]));
  g_autoptr (DeskStripData) data_of = desk_strip_data_new (f->session);
  g_assert_cmpuint (data_of->strip.n_unknown, ==, 1);
  g_assert_cmpfloat (data_of->strip.unknown[0].begin_s, ==, 0);
  g_assert_cmpfloat (data_of->strip.unknown[0].end_s, ==, 120);
  g_assert_cmpstr (data_of->strip.unknown_text, ==, "Not known");
  for (guint i = 0; i < data_of->strip.n_lines; i++)
    g_assert_true (isnan (render_strip_line_at (&data_of->strip, i, 60)));
}

/* Without gear neither the room nor the choice of lines is there. */
static void
test_without (Fixture *f, gconstpointer data)
{
  g_autoptr (GFile) file = test_plan_copy (f->folder, "between-the-ends");
  desk_document_open (desk_session_get_document (f->session), file, 0);
  test_wait (is_worked_out (f));
  g_assert_false (gtk_widget_get_visible (f->gear));
  g_assert_null (find_label (f->transport, trn_words_gear (TRN_GEAR_STRIP_LINES)));
  open_crane (f, NULL, NULL);
  g_assert_true (gtk_widget_get_visible (f->gear));
  assert_says (f->transport, trn_words_gear (TRN_GEAR_STRIP_LINES));
}

/* What the strip reads is of the time itself, not of a straight line between samples, which would
 * be on the other side of a rounded number once in a while. */
static void
test_reading (Fixture *f, gconstpointer data)
{
  open_crane (f, "'do':'slew','centre':[0,0],'by':-90", "'do':'travel','by':[-5,0]");
  desk_session_set_gauges (f->session, 1u << TRN_GAUGE_TIP_ABOVE_HOOK);
  g_autoptr (DeskStripData) data_of = desk_strip_data_new (f->session);
  const DeskGauge *gauge = &g_array_index (data_of->shown, DeskGauge, 0);
  const TrnLiftRun *run = desk_session_get_lift_run (f->session);
  DeskForces *forces = desk_forces_new (desk_session_get_site (f->session)->scene, 0);
  GtkWidget *strip = g_object_ref_sink (desk_strip_new (f->session));
  guint n_apart = 0;
  for (guint i = 0; i <= 20000; i++)
    {
      const double time_s = 120.0 * i / 20000;
      guint move;
      double progress;
      trn_lift_run_pose (run, time_s, &move, &progress);
      g_autofree char *exact
          = desk_gauge_text (run, gauge, desk_gauge_value (run, forces, gauge, move, progress));
      g_autofree char *between
          = desk_gauge_text (run, gauge, render_strip_gauge_at (&data_of->strip, 0, time_s));
      g_autofree char *said = trn_words_gauge_reading (data_of->strip.gauges[0].name, exact);
      g_autoptr (GPtrArray) readings = desk_strip_read_gauges (strip, time_s);
      g_assert_cmpuint (readings->len, ==, 1);
      g_assert_cmpstr (readings->pdata[0], ==, said);
      n_apart += strcmp (exact, between) != 0;
    }
  g_assert_cmpuint (n_apart, >, 0);
  g_object_unref (strip);
  desk_forces_free (forces);
}

/* Bands of the strip: heights with a scale in metres, angles with one in degrees; the limits of the
 * boom near enough to be seen. None are there until they are chosen. */
static void
test_lines (Fixture *f, gconstpointer data)
{
  open_crane (f, NULL, NULL);
  g_autoptr (DeskStripData) none = desk_strip_data_new (f->session);
  g_assert_cmpuint (none->strip.n_bands + none->strip.n_gauges + none->strip.n_limits, ==, 0);
  guint count;
  test_count_signal (f->session, "view-changed", &count);
  desk_session_set_gauges (f->session, 1u << TRN_GAUGE_HOOK_HEIGHT | 1u << TRN_GAUGE_BOOM_ANGLE);
  g_assert_cmpuint (count, ==, 1);
  g_autoptr (DeskStripData) data_of = desk_strip_data_new (f->session);
  const RenderStrip *strip = &data_of->strip;
  g_assert_cmpuint (strip->n_gauges, ==, 2);
  g_assert_cmpuint (strip->n_bands, ==, 2);
  g_assert_cmpuint (desk_strip_count_bands (f->session), ==, 2);
  g_assert_cmpstr (strip->gauges[0].name, ==, "Yard crane");
  g_assert_cmpstr (strip->gauges[1].name, ==, "Yard crane");
  g_assert_cmpfloat_with_epsilon (render_strip_gauge_at (strip, 0, 0), 4, 1e-9);
  g_assert_cmpfloat_with_epsilon (render_strip_gauge_at (strip, 0, 15), 5.5, 1e-6);
  g_assert_cmpfloat_with_epsilon (render_strip_gauge_at (strip, 0, 120), 7, 1e-6);
  g_assert_cmpfloat_with_epsilon (render_strip_gauge_at (strip, 1, 60), acos (0.6), 1e-6);
  g_assert_cmpstr (strip->bands[0].title, ==, trn_words_gauge (TRN_GAUGE_HOOK_HEIGHT));
  g_assert_cmpstr (strip->bands[1].title, ==, trn_words_gauge (TRN_GAUGE_BOOM_ANGLE));
  g_assert_cmpfloat (strip->bands[0].ticks[0], <=, 4);
  g_assert_cmpfloat (strip->bands[0].ticks[strip->bands[0].n_ticks - 1], >=, 7);
}

static guint
count_framed (GtkWidget *root)
{
  guint n = gtk_widget_has_css_class (root, "current");
  for (GtkWidget *child = gtk_widget_get_first_child (root); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    n += count_framed (child);
  return n;
}

/* Of the crane and the post only the part that stands worst has a row: a finding of that part is
 * framed, one of another part is not in the list and frames no row. */
static void
test_framed (Fixture *f, gconstpointer data)
{
  open_crane (f, NULL, NULL);
  DeskSession *session = f->session;
  const TrnMoment *moment = desk_session_get_moment (session);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (session), 0);
  const char *nearest = trn_moment_body (moment, 1);
  guint n_framed = 0, n_others = 0;
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check != TRN_CHECK_CLEARANCE || finding->move != 0
          || desk_session_pair_of (session, finding->body, finding->obstacle) != 1)
        continue;
      gboolean has_row = desk_finding_is_of (finding, nearest, "post");
      desk_session_set_finding (session, finding, FALSE);
      test_idle (0.3);
      g_assert_cmpuint (count_framed (f->nearest), ==, has_row ? 1 : 0);
      *(has_row ? &n_framed : &n_others) += 1;
    }
  g_assert_cmpuint (n_framed, ==, 1);
  g_assert_cmpuint (n_others, >, 0);
}

/* The pairs of the crane: findings of its boom are found by their two bodies, whichever comes
 * first; what is nearest names both, and looks at the worst of them. */
static void
test_pairs (Fixture *f, gconstpointer data)
{
  open_crane (f, NULL, NULL);
  DeskSession *session = f->session;
  g_assert_cmpint (desk_session_pair_of (session, "load", "post"), ==, 0);
  g_assert_cmpint (desk_session_pair_of (session, "crane/boom", "post"), ==, 1);
  g_assert_cmpint (desk_session_pair_of (session, "leg", "post"), ==, 1);
  g_assert_cmpint (desk_session_pair_of (session, "load", "crane/boom"), ==, 2);
  g_assert_cmpint (desk_session_pair_of (session, "crane/boom", "crane/rope"), ==, -1);
  g_assert_cmpint (desk_session_pair_of (session, "load", "nothing"), ==, -1);
  const TrnFinding *worst = desk_session_worst_of_pair (session, 1);
  g_assert_cmpstr (worst->body, ==, "crane/boom");
  g_assert_cmpstr (worst->obstacle, ==, "post");
  g_autofree char *name = desk_between_dup (session, "crane/boom", "post", 0);
  assert_says (f->nearest, name);
  desk_session_set_finding (session, worst, TRUE);
  g_assert_cmpint (desk_session_get_selected_pair (session), ==, 1);
  g_assert_cmpint (desk_strip_focus (session), ==, 1);
  assert_says (f->card, name);
}

/* A trolley has no numbers: no column of dashes, but that it holds the load while it does. */
static void
test_trolley (Fixture *f, gconstpointer data)
{
  static const char holds[] = "Tail support: Heel trolley – It holds the load here.";
  g_autoptr (GFile) file = test_demo ("lock-gate");
  desk_document_open (desk_session_get_document (f->session), file, 0);
  test_wait (is_worked_out (f));
  const TrnLiftRun *run = desk_session_get_lift_run (f->session);
  const double *tilt_s = &run->begins_s[run->lift->rigging.tail.first_move];
  g_assert_null (find_label (f->gear, holds));
  desk_session_set_time (f->session, (tilt_s[0] + tilt_s[1]) / 2);
  assert_says (f->gear, holds);
  g_assert_null (find_label (f->gear, "–"));
  desk_session_set_time (f->session, 0);
  g_assert_null (find_label (f->gear, holds));
}

/* A name has as many lines as it needs in its room, but for three at most, and keeps them until it
 * may shrink. */
static void
test_name_lines (Fixture *f, gconstpointer data)
{
  static const char *const names[]
      = { "Yard at grade", "Sling drop-b to Stand of the north trunnion",
          "Counterweight of Tail crane to Plant area at grade beside it" };
  const int room_px = 170;
  GtkWidget *name = desk_name_line_new (room_px);
  g_object_ref_sink (name);
  guint lines[G_N_ELEMENTS (names)];
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      desk_name_line_set (name, names[i], FALSE);
      lines[i] = gtk_inscription_get_min_lines (GTK_INSCRIPTION (name));
      g_autoptr (PangoLayout) layout = gtk_widget_create_pango_layout (name, names[i]);
      pango_layout_set_width (layout, room_px * PANGO_SCALE);
      g_assert_cmpint (pango_layout_get_line_count (layout), <=, (int)lines[i]);
    }
  g_assert_cmpuint (lines[0], ==, 1);
  g_assert_cmpuint (lines[1], >=, 2);
  g_assert_cmpuint (lines[2], ==, 3);
  desk_name_line_set (name, names[0], FALSE);
  g_assert_cmpuint (gtk_inscription_get_min_lines (GTK_INSCRIPTION (name)), ==, 3);
  desk_name_line_set (name, names[0], TRUE);
  g_assert_cmpuint (gtk_inscription_get_min_lines (GTK_INSCRIPTION (name)), ==, 1);
  g_object_unref (name);
}

static gboolean
is_row_of (const Fixture *f, const char *body)
{
  const TrnMoment *moment = desk_session_get_moment (f->session);
  return moment != NULL && g_strcmp0 (trn_moment_body (moment, 1), body) == 0;
}

static void
add_texts (GtkWidget *widget, GPtrArray *texts)
{
  const char *text = gtk_widget_get_visible (widget) ? test_text_of (widget) : NULL;
  if (text != NULL && *text != '\0')
    g_ptr_array_add (texts, (gpointer)text);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL;
       child = gtk_widget_get_next_sibling (child))
    add_texts (child, texts);
}

/* What is said in the row of the list that is of the crane and the post, whose name comes first in
 * it. */
static char *
row_said (const Fixture *f, const char *body)
{
  g_autofree char *name = desk_between_dup (f->session, body, "post", 0);
  GtkWidget *row = find_label (f->nearest, name);
  if (row == NULL)
    g_error ("“%s” has no row", name);
  while (!gtk_widget_has_css_class (row, "near-row"))
    row = gtk_widget_get_parent (row);
  g_autoptr (GPtrArray) texts = g_ptr_array_new ();
  add_texts (row, texts);
  g_ptr_array_add (texts, NULL);
  return g_strjoinv ("; ", (char **)texts->pdata);
}

/* When the check has come to the lift, the moment is still of the part that was nearest before: it
 * is not said to be met, nor not known, by findings that it was not judged by. */
static void
on_findings (DeskSession *session, guint *n_between)
{
  const TrnMoment *moment = desk_session_get_moment (session);
  if (desk_check_get_lift (desk_session_get_check (session), 0) == NULL || moment == NULL
      || g_strcmp0 (trn_moment_body (moment, 1), "crane/boom") != 0)
    return;
  const RenderSiteState state = desk_session_view_state (session);
  const RenderPairNow now = render_pair_now (state.judge, state.moment, 1, state.tight_m);
  g_assert_cmpint (now.state, ==, RENDER_STATE_NOT_CHECKED);
  g_assert_false (render_judge_is_checked (state.judge));
  (*n_between)++;
}

/* The distance of the line of the crane and the post at the start, as the strip has it. */
static double
line_of_crane_m (const Fixture *f)
{
  g_autoptr (DeskStripData) data_of = desk_strip_data_new (f->session);
  for (guint i = 0; i < data_of->pairs->len; i++)
    if (g_array_index (data_of->pairs, guint, i) == 1)
      return render_strip_line_at (&data_of->strip, i, 0);
  g_assert_not_reached ();
}

/* The boom is nearer to the post and clear; of the leg, which ends at a lug aside of the hook, more
 * is taken off, since the crate may lean and turn, and it is short by 0.124 m. Before the check
 * only the distance is known: when the check begins anew, and when it has come to the lift, the row
 * and the line of the strip are of the other part without anyone going anywhere. */
static void
test_worst_part (Fixture *f, gconstpointer data)
{
  g_autofree char *lug = test_replace (test_crane_plan, "'to':'eye'", "'to':'lug'");
  g_autofree char *point
      = test_replace (lug, "'points':{'eye':[0,0,2]}", "'points':{'eye':[0,0,2],'lug':[0,0.05,2]}");
  g_autofree char *keep = test_replace (point, "'keep_clear':0.5", "'keep_clear':3.61");
  g_autofree char *text = test_replace (
      keep, "'hook_point':'eye',",
      "'hook_point':'eye','tolerance':{'position':0.05,'tilt_deg':7,'heading_deg':20},");
  g_strdelimit (text, "'", '"');
  g_autoptr (GFile) file = test_write (f->folder, "crane.trunnion", text);
  desk_document_open (desk_session_get_document (f->session), file, 0);
  test_wait (is_worked_out (f));
  test_wait (is_row_of (f, "leg"));
  test_idle (0.3);
  g_autofree char *leg = row_said (f, "leg");
  g_assert_cmpstr (leg, ==, "Sling leg to Post; 4.429 m; Short");
  test_wait (fabs (line_of_crane_m (f) - 4.43) < 0.01);
  DeskCheck *check = desk_session_get_check (f->session);
  const TrnFinding *worst = desk_session_worst_of_bodies (f->session, "leg", "post");
  g_assert_cmpint (worst->verdict, ==, TRN_VERDICT_FAIL);
  desk_check_start (check, desk_session_get_site (f->session));
  desk_check_cancel (check);
  g_assert_null (desk_check_get_findings (check));
  test_wait (is_row_of (f, "crane/boom"));
  test_idle (0.3);
  g_autofree char *boom = row_said (f, "crane/boom");
  g_assert_cmpstr (boom, ==, "Boom of Yard crane to Post; 3.792 m; Not checked");
  test_wait (fabs (line_of_crane_m (f) - 3.79) < 0.01);
  guint n_between = 0;
  g_signal_connect (f->session, "findings-changed", G_CALLBACK (on_findings), &n_between);
  desk_check_start (check, desk_session_get_site (f->session));
  test_wait (is_row_of (f, "leg"));
  g_assert_cmpuint (n_between, >, 0);
  g_signal_handlers_disconnect_by_data (f->session, &n_between);
  test_wait (fabs (line_of_crane_m (f) - 4.43) < 0.01);
  g_assert_cmpint (desk_check_get_state (check), ==, DESK_CHECK_DONE);
  test_idle (0.3);
  g_autofree char *again = row_said (f, "leg");
  g_assert_cmpstr (again, ==, leg);
}

/* A table that ends at 11 m: the radius is the worst of the lift, the card says by how much, and
 * one may go there. */
static void
test_value (Fixture *f, gconstpointer data)
{
  open_crane (f, "[15,4000]", "[11,4000]");
  const TrnFinding *worst = desk_session_worst (f->session, 0, -1, NULL);
  g_assert_cmpint (worst->check, ==, TRN_CHECK_REACH);
  g_assert_cmpstr (worst->item, ==, "radius");
  desk_session_set_finding (f->session, worst, TRUE);
  g_assert_cmpfloat (desk_session_get_time (f->session), ==, worst->time_s);
  g_autofree char *line = trn_words_value_line (desk_session_get_site (f->session)->plan, worst);
  assert_says (f->card, line);
  const TrnLiftFindings *lift = desk_check_get_lift (desk_session_get_check (f->session), 0);
  gboolean has_items = FALSE;
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      g_autofree char *items = trn_words_value_items (finding);
      if (items == NULL)
        continue;
      desk_session_set_finding (f->session, finding, FALSE);
      assert_says (f->card, items);
      has_items = TRUE;
    }
  g_assert_true (has_items);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = { { "/desk/gear/now", test_now },
                { "/desk/gear/no-place", test_no_place },
                { "/desk/gear/not-known", test_not_known },
                { "/desk/gear/without", test_without },
                { "/desk/gear/reading", test_reading },
                { "/desk/gear/lines", test_lines },
                { "/desk/gear/framed", test_framed },
                { "/desk/gear/pairs", test_pairs },
                { "/desk/gear/worst-part", test_worst_part },
                { "/desk/gear/name-lines", test_name_lines },
                { "/desk/gear/trolley", test_trolley },
                { "/desk/gear/value", test_value } };
  gtk_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
