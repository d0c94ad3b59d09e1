/* presenter-face.c: at the left which lift and move, in words; beside it how near it comes, by
 * mark, word and number; at the right where the hooks are now, in few numbers; below, how far the
 * lift has gone; at the foot what all comes to, what was not checked, the caution, and the keys for
 * as long as somebody looks for them. Nothing of it lies over the view.
 *
 * Letters grow with the window, so that the move is read from the last row whatever the projector
 * shows. A long sentence has smaller letters and more lines, so that nothing of it is lost. */
#include "presenter-face.h"

#include <adwaita.h>
#include <math.h>

#include "citizen-words.h"
#include "desk-words.h"
#include "gauge-words.h"
#include "gauges.h"
#include "gear-words.h"
#include "load-words.h"
#include "overlay.h"
#include "number.h"
#include "room-parts.h"

#define SIZE_OF_DESIGN 720.0
#define MARK_PX 34
#define BAR_PX 8
#define GAP_PX 3.0
#define LONG_CHARS 40

/* Of the hook now, in the order of the gauges; what is read from the last row. */
#define N_NUMBERS (TRN_GAUGE_BOOM_ANGLE + 1)
#define LONGEST_NAME 40
#define LONGEST_OBSTACLE 56 /* two lines, with the words before it */
#define NAME_CHARS 14

#define DESK_TYPE_PRESENTER_FACE (desk_presenter_face_get_type ())
G_DECLARE_FINAL_TYPE (DeskPresenterFace, desk_presenter_face, DESK, PRESENTER_FACE, GtkBox)

struct _DeskPresenterFace
{
  GtkBox parent;
  DeskSession *session;
  GtkCssProvider *letters;
  GtkWidget *lift, *caption, *mark, *state, *closest, *bounds, *progress, *time, *headline, *keys;
  struct
  {
    GtkWidget *name, *values[N_NUMBERS];
  } hooks[DESK_MOST_HOISTS];
  GtkWidget *readout, *numbers[N_NUMBERS];
  RenderState shown;
  guint move;
};

G_DEFINE_FINAL_TYPE (DeskPresenterFace, desk_presenter_face, GTK_TYPE_BOX)

/* ---- letters ---- */

void
desk_presenter_face_set_size (GtkWidget *widget, int width, int height)
{
  DeskPresenterFace *face = DESK_PRESENTER_FACE (widget);
  double scale = CLAMP (MIN (height / SIZE_OF_DESIGN, width / (SIZE_OF_DESIGN * 16 / 9)), 0.6, 6);
  g_autofree char *css = g_strdup_printf (
      ".present-face { background: #16191d; color: #ffffff; padding: %dpx %dpx; }"
      ".present-face label, .present-face inscription { font-feature-settings: 'tnum'; }"
      ".present-quiet { font-size: %dpx; color: #c3c9d0; }"
      ".present-large { font-size: %dpx; font-weight: 700; }"
      ".present-large.present-long { font-size: %dpx; }"
      ".present-words { min-height: %dpx; }"
      ".present-keys { font-size: %dpx; font-weight: 700; }"
      ".present-foot { font-size: %dpx; color: #aeb5bd; }"
      ".present-now { border-left: 1px solid #4a5057; padding-left: %dpx; }"
      ".present-number { font-size: %dpx; font-weight: 700; margin-left: %dpx; }"
      ".present-name { font-size: %dpx; color: #c3c9d0; margin-left: %dpx; }",
      (int)(14 * scale), (int)(26 * scale), (int)(19 * scale), (int)(32 * scale), (int)(23 * scale),
      (int)(120 * scale), (int)(14 * scale), (int)(13 * scale), (int)(24 * scale),
      (int)(25 * scale), (int)(18 * scale), (int)(15 * scale), (int)(18 * scale));
  gtk_css_provider_load_from_data (face->letters, css, -1);
  int mark = (int)(MARK_PX * scale);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (face->mark), mark);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (face->mark), mark);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (face->progress), (int)(BAR_PX * scale));
}

static void
draw_mark (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  DeskPresenterFace *face = data;
  render_mark_draw (cr, face->shown, width / 2.0, height / 2.0, MIN (width, height) * 0.4, TRUE);
}

/* A piece for each move, as long as it takes; white as far as it has gone. */
static void
draw_progress (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  DeskPresenterFace *face = data;
  const TrnLiftRun *run = desk_session_get_lift_run (face->session);
  double total_s = desk_session_get_duration (face->session);
  if (run == NULL || !(total_s > 0))
    return;
  double now = desk_session_get_time (face->session) / total_s * width;
  for (guint i = 0; i < run->lift->n_moves; i++)
    {
      double from = run->begins_s[i] / total_s * width;
      double to = MAX (from, run->begins_s[i + 1] / total_s * width - GAP_PX);
      cairo_rectangle (cr, from, 0, to - from, height);
      cairo_set_source_rgb (cr, 0.30, 0.33, 0.37);
      cairo_fill (cr);
      cairo_rectangle (cr, from, 0, CLAMP (now, from, to) - from, height);
      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_fill (cr);
    }
}

/* ---- words ---- */

static char *
headline_dup (DeskSession *session)
{
  const TrnFindings *findings = desk_check_get_findings (desk_session_get_check (session));
  static const TrnHeadline headlines[] = { [DESK_CHECK_NONE] = TRN_HEADLINE_NONE,
                                           [DESK_CHECK_RUNNING] = TRN_HEADLINE_RUNNING,
                                           [DESK_CHECK_CANCELLED] = TRN_HEADLINE_STOPPED,
                                           [DESK_CHECK_DONE] = TRN_HEADLINE_DONE };
  TrnHeadline headline = headlines[desk_check_get_state (desk_session_get_check (session))];
  if (desk_session_is_stale (session))
    headline = TRN_HEADLINE_STALE;
  return trn_words_headline_short (findings, headline,
                                   desk_session_get_site (session)->scene->programme->n_runs,
                                   desk_session_get_tight (session));
}

static void
set_large (GtkWidget *label, const char *text)
{
  if (g_utf8_strlen (text, -1) > LONG_CHARS)
    gtk_widget_add_css_class (label, "present-long");
  else
    gtk_widget_remove_css_class (label, "present-long");
  desk_text_set (label, text);
}

/* "Closest to Canopy", "Sling a to Canopy", or what is beside its limit where nothing is close. */
static char *
about_dup (DeskSession *session, const TrnFinding *worst)
{
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  if (worst->obstacle != NULL)
    {
      g_autofree char *name = trn_words_body_name_cut (plan, worst->obstacle, LONGEST_OBSTACLE);
      if (worst->body == NULL || g_str_equal (worst->body, "load"))
        return trn_words_closest_to (name);
      return desk_between_dup (session, worst->body, worst->obstacle, LONGEST_OBSTACLE);
    }
  char *value = trn_words_value_line (plan, worst);
  if (value != NULL)
    return value;
  gboolean of_load = worst->body == NULL || g_str_equal (worst->body, "load");
  guint component = desk_session_get_lift_run (session)->lift->component;
  g_autofree char *body
      = of_load ? trn_words_load_name (plan, component) : trn_words_body_name (plan, worst->body);
  return trn_words_with_subject (body, worst);
}

/* What the check knows of the closest moment of the move; not checked is a state as well. */
static void
show_closest (DeskPresenterFace *face)
{
  DeskSession *session = face->session;
  const TrnFinding *worst
      = desk_session_worst (session, desk_session_get_run (session), (int)face->move, NULL);
  const char *note = desk_check_note (session);
  face->shown = desk_finding_state (session, worst);
  desk_text_set_state (face->state, face->shown);
  gtk_widget_queue_draw (face->mark);
  if (worst == NULL)
    {
      set_large (face->state, trn_words_desk (TRN_DESK_NOT_CHECKED));
      desk_text_set (face->closest, note != NULL ? note : "");
      desk_text_set (face->bounds, "");
      return;
    }
  g_autofree char *state = trn_words_finding_title (worst, face->shown == RENDER_STATE_TIGHT);
  state[desk_verdict_head (state)] = '\0';
  g_autofree char *closest = about_dup (session, worst);
  g_autofree char *bounds = !isfinite (worst->required_m)  ? trn_words_utilisation (worst)
                            : trn_words_has_bounds (worst) ? trn_words_bounds_less (worst)
                                                           : NULL;
  set_large (face->state, state);
  desk_text_set (face->closest, closest);
  desk_text_set (face->bounds, note != NULL ? note : bounds != NULL ? bounds : "");
}

/* What the numbers of each hook are now; NULL: there is none. */
typedef struct
{
  char *texts[DESK_MOST_HOISTS][N_NUMBERS]; /* owned */
  gboolean is_there[N_NUMBERS], has_any[DESK_MOST_HOISTS];
} Now;

static void
read_now (DeskSession *session, const DeskHoist *hoists, guint n_hoists, Now *now)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  DeskGauge gauges[DESK_MOST_GAUGES];
  guint n_gauges = desk_gauges_of (desk_session_get_site (session)->plan, run, gauges);
  double s;
  guint move = desk_session_get_move (session, &s);
  *now = (Now){ .is_there = { FALSE } };
  for (guint g = 0; g < n_gauges; g++)
    for (guint i = 0; gauges[g].gauge < N_NUMBERS && i < n_hoists; i++)
      {
        TrnGauge gauge = gauges[g].gauge;
        double value = gauges[g].hoist.hoist == hoists[i].hoist && now->texts[i][gauge] == NULL
                           ? desk_gauge_value (run, NULL, &gauges[g], move, s)
                           : NAN;
        if (isnan (value))
          continue;
        now->texts[i][gauge] = desk_gauge_text (run, &gauges[g], value);
        now->is_there[gauge] = now->has_any[i] = TRUE;
      }
}

static void
show_hook_name (GtkWidget *label, const DeskHoist *hoist)
{
  g_autofree char *name = hoist->gear != NULL ? trn_words_clean (hoist->gear->name, LONGEST_NAME)
                                              : trn_words_hoist (desk_hoist_role (hoist), NULL);
  desk_text_set (label, name);
}

/* Each hook that the lift has: how high, how far out and how steep now; what gear has none of is
 * left out. */
static void
show_now (DeskPresenterFace *face)
{
  DeskHoist hoists[DESK_MOST_HOISTS];
  guint n_hoists = desk_hoists_of (desk_session_get_site (face->session)->plan,
                                   desk_session_get_lift_run (face->session), hoists);
  Now now;
  read_now (face->session, hoists, n_hoists, &now);
  for (guint k = 0; k < N_NUMBERS; k++)
    gtk_widget_set_visible (face->numbers[k], now.is_there[k]);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      gtk_widget_set_visible (face->hooks[i].name, now.has_any[i]);
      if (i < n_hoists)
        show_hook_name (face->hooks[i].name, &hoists[i]);
      for (guint k = 0; k < N_NUMBERS; k++)
        {
          gtk_widget_set_visible (face->hooks[i].values[k], now.is_there[k] && now.has_any[i]);
          desk_number_set (face->hooks[i].values[k],
                           now.texts[i][k] != NULL ? now.texts[i][k] : "–");
          g_free (now.texts[i][k]);
        }
    }
  gtk_widget_set_visible (face->readout, now.has_any[0] || now.has_any[1]);
}

void
desk_presenter_face_show (GtkWidget *widget, guint move)
{
  DeskPresenterFace *face = DESK_PRESENTER_FACE (widget);
  DeskSession *session = face->session;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  g_return_if_fail (run != NULL && move < run->lift->n_moves);
  face->move = move;
  g_autofree char *lift = trn_words_present_lift (run->lift, desk_session_get_run (session), move);
  g_autofree char *caption = trn_words_move (run->lift, move);
  g_autofree char *now = trn_words_column_time (desk_session_get_time (session));
  g_autofree char *total = trn_words_of_total (desk_session_get_duration (session));
  g_autofree char *time = g_strdup_printf ("%s %s", now, total);
  g_autofree char *headline = headline_dup (session);
  desk_text_set (face->lift, lift);
  set_large (face->caption, caption);
  desk_number_set (face->time, time);
  desk_text_set (face->headline, headline);
  show_closest (face);
  show_now (face);
  gtk_widget_queue_draw (face->progress);
}

const char *
desk_presenter_face_get_caption (GtkWidget *face)
{
  return gtk_label_get_text (GTK_LABEL (DESK_PRESENTER_FACE (face)->caption));
}

const char *
desk_presenter_face_get_state (GtkWidget *face)
{
  return gtk_label_get_text (GTK_LABEL (DESK_PRESENTER_FACE (face)->state));
}

/* ---- building ---- */

static GtkWidget *
column_new (GtkWidget *top, GtkWidget *middle, GtkWidget *bottom)
{
  GtkWidget *column = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_box_append (GTK_BOX (column), top);
  gtk_box_append (GTK_BOX (column), middle);
  if (bottom != NULL)
    gtk_box_append (GTK_BOX (column), bottom);
  return column;
}

static void
wrap (GtkWidget *label, int most_lines)
{
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), most_lines);
  gtk_label_set_yalign (GTK_LABEL (label), 0);
}

static GtkWidget *
build_readout (DeskPresenterFace *face)
{
  GtkWidget *grid = face->readout = gtk_grid_new ();
  gtk_widget_add_css_class (grid, "present-now");
  gtk_widget_set_valign (grid, GTK_ALIGN_START);
  for (guint i = 0; i < DESK_MOST_HOISTS; i++)
    {
      GtkWidget *name = face->hooks[i].name = desk_text_new ("present-name");
      gtk_label_set_xalign (GTK_LABEL (name), 1);
      gtk_label_set_max_width_chars (GTK_LABEL (name), NAME_CHARS);
      gtk_grid_attach (GTK_GRID (grid), name, (int)i + 1, 0, 1, 1);
    }
  for (guint k = 0; k < N_NUMBERS; k++)
    {
      face->numbers[k] = desk_text_new ("present-quiet");
      gtk_label_set_ellipsize (GTK_LABEL (face->numbers[k]), PANGO_ELLIPSIZE_NONE);
      desk_label_set (face->numbers[k], trn_words_gauge ((TrnGauge)k));
      gtk_grid_attach (GTK_GRID (grid), face->numbers[k], 0, (int)k + 1, 1, 1);
      for (guint i = 0; i < DESK_MOST_HOISTS; i++)
        {
          GtkWidget *value = face->hooks[i].values[k] = desk_number_new ("present-number");
          gtk_grid_attach (GTK_GRID (grid), value, (int)i + 1, (int)k + 1, 1, 1);
        }
    }
  return grid;
}

static GtkWidget *
build_words (DeskPresenterFace *face)
{
  GtkWidget *words = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 40);
  GtkWidget *state = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 14);
  face->lift = desk_text_new ("present-quiet");
  face->caption = desk_text_new ("present-large");
  face->closest = desk_text_new ("present-quiet");
  face->bounds = desk_text_new ("present-quiet");
  face->state = desk_text_new ("present-large");
  face->mark = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role",
                             GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (face->mark), draw_mark, face, NULL);
  gtk_widget_set_valign (face->mark, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (state), face->mark);
  gtk_box_append (GTK_BOX (state), face->state);
  gtk_widget_add_css_class (words, "present-words");
  wrap (face->lift, 2);
  wrap (face->caption, 5);
  wrap (face->closest, 2);
  wrap (face->state, 4);
  wrap (face->bounds, 2);
  gtk_box_set_homogeneous (GTK_BOX (words), TRUE);
  gtk_widget_set_hexpand (words, TRUE);
  gtk_box_append (GTK_BOX (words), column_new (face->lift, face->caption, NULL));
  gtk_box_append (GTK_BOX (words), column_new (face->closest, state, face->bounds));
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 32);
  gtk_box_append (GTK_BOX (row), words);
  gtk_box_append (GTK_BOX (row), build_readout (face));
  return row;
}

/* They have their place whether they are shown or not: nothing moves when they come. */
static void
build_keys (DeskPresenterFace *face)
{
  GtkWidget *label = gtk_label_new (trn_words_citizen (TRN_CITIZEN_PRESENTING_KEYS));
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 1);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_RIGHT);
  gtk_widget_add_css_class (label, "present-keys");
  face->keys = gtk_revealer_new ();
  gtk_revealer_set_transition_type (GTK_REVEALER (face->keys),
                                    GTK_REVEALER_TRANSITION_TYPE_CROSSFADE);
  gtk_revealer_set_child (GTK_REVEALER (face->keys), label);
  gtk_widget_set_valign (face->keys, GTK_ALIGN_END);
}

void
desk_presenter_face_show_keys (GtkWidget *face, gboolean show)
{
  gtk_revealer_set_reveal_child (GTK_REVEALER (DESK_PRESENTER_FACE (face)->keys), show);
}

GtkRevealer *
desk_presenter_face_get_keys (GtkWidget *face)
{
  return GTK_REVEALER (DESK_PRESENTER_FACE (face)->keys);
}

static GtkWidget *
build_foot (DeskPresenterFace *face)
{
  GtkWidget *caution = desk_text_new ("present-foot");
  desk_label_set (caution, trn_words_desk (TRN_DESK_PLANNING_AID));
  face->headline = desk_text_new ("present-foot");
  wrap (face->headline, 2);
  wrap (caution, 2);
  gtk_widget_set_hexpand (caution, TRUE);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 24);
  gtk_box_append (GTK_BOX (row), caution);
  gtk_box_append (GTK_BOX (row), face->keys);
  return column_new (face->headline, row, NULL);
}

static GtkWidget *
build_progress (DeskPresenterFace *face)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 16);
  face->progress = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role",
                                 GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (face->progress), draw_progress, face, NULL);
  gtk_widget_set_hexpand (face->progress, TRUE);
  gtk_widget_set_valign (face->progress, GTK_ALIGN_CENTER);
  face->time = desk_number_new ("present-quiet");
  gtk_box_append (GTK_BOX (row), face->progress);
  gtk_box_append (GTK_BOX (row), face->time);
  return row;
}

static void
desk_presenter_face_dispose (GObject *object)
{
  DeskPresenterFace *face = DESK_PRESENTER_FACE (object);
  if (face->letters != NULL)
    gtk_style_context_remove_provider_for_display (gtk_widget_get_display (GTK_WIDGET (face)),
                                                   GTK_STYLE_PROVIDER (face->letters));
  g_clear_object (&face->letters);
  g_clear_object (&face->session);
  G_OBJECT_CLASS (desk_presenter_face_parent_class)->dispose (object);
}

static void
desk_presenter_face_class_init (DeskPresenterFaceClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_presenter_face_dispose;
}

static void
desk_presenter_face_init (DeskPresenterFace *face)
{
  GtkBox *box = GTK_BOX (face);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (face), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (box, 10);
  gtk_widget_add_css_class (GTK_WIDGET (face), "present-face");
  build_keys (face);
  gtk_box_append (box, build_words (face));
  gtk_box_append (box, build_progress (face));
  gtk_box_append (box, build_foot (face));
  face->letters = gtk_css_provider_new ();
  gtk_style_context_add_provider_for_display (gtk_widget_get_display (GTK_WIDGET (face)),
                                              GTK_STYLE_PROVIDER (face->letters),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION + 1);
}

GtkWidget *
desk_presenter_face_new (DeskSession *session)
{
  DeskPresenterFace *face = g_object_new (DESK_TYPE_PRESENTER_FACE, NULL);
  face->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (face), TRUE);
  return GTK_WIDGET (face);
}
