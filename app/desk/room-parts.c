/* room-parts.c: marks, bars and texts of the rooms. */
#include "room-parts.h"

#include <math.h>
#include <string.h>

#include "desk-words.h"
#include "number.h"
#include "overlay.h"

#define MARK_PX 16
#define BAR_HEIGHT 8
#define BAR_ROOM 18
#define HINT_KEY "desk-hint"
#define LONG_VERDICT_CHARS 70

/* The text colours of the states are those of app/render, light and dark. */
static const char *const state_classes[] = { "state-none",  "state-touching", "state-short",
                                             "state-tight", "state-clear",    "state-not-checked" };

static const char rooms_css[]
    = ".room-title { font-weight: 700; font-size: 11pt; }"
      ".room-quiet { opacity: 0.72; font-size: 9pt; }"
      ".room-small { font-size: 9pt; }"
      ".room-number { font-feature-settings: 'tnum'; }"
      ".room-bold { font-weight: 700; }"
      ".room-note { padding: 6px 10px; margin: 0 8px 6px 8px; border-radius: 8px;"
      "  background: alpha(currentColor, 0.09); font-size: 9pt; }"
      ".room-list { background: none; }"
      ".room-list > row { padding: 0; background: none; }"
      ".room-row { padding: 9px 12px 9px 10px; margin: 2px 6px; border-radius: 10px;"
      "  border: 2px solid transparent; }"
      ".room-list > row:hover .room-row { background: alpha(currentColor, 0.05); }"
      ".room-list > row:focus-visible { outline: none; }"
      ".room-list > row:focus-visible .room-row { border-color: alpha(currentColor, 0.5); }"
      ".room-row.current { border-color: @accent_bg_color; background: @card_bg_color; }"
      ".room-list > row:focus-visible .room-row.current { border-color: @accent_color; "
      "  background: alpha(@accent_bg_color, 0.12); }"
      ".room-card { padding: 12px 14px; margin: 0 10px 12px 10px; border-radius: 12px;"
      "  background: @card_bg_color; border: 1px solid alpha(currentColor, 0.12); }"
      ".room-head { padding: 14px 16px 8px 16px; }"
      ".room-foot { padding: 8px 16px 12px 16px; }"
      ".room-edge, .gear-now { border-top: 1px solid alpha(currentColor, 0.12); }"
      ".gear-now { padding: 10px 0 0 12px; } .gear-now .room-card { margin: 6px 10px 10px 0; "
      "padding: 8px 12px; }"
      ".near-row { padding: 6px 10px 4px 8px; margin: 0 6px; }"
      ".transport { padding: 6px 6px 2px 6px; }"
      ".strip-room { background: @view_bg_color; }"
      "clearance-strip:focus-visible { outline: 2px solid @accent_bg_color; outline-offset: -2px;"
      "  border-radius: 6px; }";

static char *
state_css (gboolean dark)
{
  g_autoptr (GString) css = g_string_new (NULL);
  for (guint i = 0; i < G_N_ELEMENTS (state_classes); i++)
    {
      RenderColour c = render_state_text_colour (i, dark);
      g_string_append_printf (css, ".%s { color: rgb(%d,%d,%d); }\n", state_classes[i],
                              (int)round (c.r * 255), (int)round (c.g * 255),
                              (int)round (c.b * 255));
    }
  return g_string_free (g_steal_pointer (&css), FALSE);
}

/* The provider of that name on a display; new ones are empty. */
static GtkCssProvider *
provider_get (GdkDisplay *display, const char *name, gboolean *is_new)
{
  GtkCssProvider *provider = g_object_get_data (G_OBJECT (display), name);
  *is_new = provider == NULL;
  if (provider != NULL)
    return provider;
  provider = gtk_css_provider_new ();
  gtk_style_context_add_provider_for_display (display, GTK_STYLE_PROVIDER (provider),
                                              GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
  g_object_set_data_full (G_OBJECT (display), name, provider, g_object_unref);
  return provider;
}

void
desk_rooms_style (GtkWidget *widget, gboolean dark)
{
  GdkDisplay *display = gtk_widget_get_display (widget);
  gboolean is_new;
  GtkCssProvider *rooms = provider_get (display, "desk-rooms", &is_new);
  if (is_new)
    gtk_css_provider_load_from_data (rooms, rooms_css, -1);
  GtkCssProvider *states = provider_get (display, "desk-states", &is_new);
  gboolean was_dark = GPOINTER_TO_INT (g_object_get_data (G_OBJECT (states), "dark"));
  if (!is_new && was_dark == dark)
    return;
  g_autofree char *css = state_css (dark);
  gtk_css_provider_load_from_data (states, css, -1);
  g_object_set_data (G_OBJECT (states), "dark", GINT_TO_POINTER (dark));
}

/* ---- marks ---- */

typedef struct
{
  RenderState state;
  gboolean dark;
} Mark;

static void
draw_mark (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  const Mark *mark = data;
  render_mark_draw (cr, mark->state, width / 2.0, height / 2.0, 6.5, mark->dark);
}

GtkWidget *
desk_mark_new (void)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role",
                                  GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), MARK_PX);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), MARK_PX);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  Mark *mark = g_new0 (Mark, 1);
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_mark, mark, g_free);
  g_object_set_data (G_OBJECT (area), "mark", mark);
  return area;
}

void
desk_mark_set (GtkWidget *area, RenderState state, gboolean dark)
{
  Mark *mark = g_object_get_data (G_OBJECT (area), "mark");
  if (mark->state == state && mark->dark == dark)
    return;
  *mark = (Mark){ state, dark };
  gtk_widget_queue_draw (area);
}

/* ---- bars ---- */

static void
draw_bar (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data)
{
  RenderRect rect = { 0, (height - BAR_HEIGHT) / 2.0, width, BAR_HEIGHT };
  render_bar_draw (cr, data, &rect);
}

GtkWidget *
desk_bar_new (RenderBarKind kind)
{
  GtkWidget *area = g_object_new (GTK_TYPE_DRAWING_AREA, "accessible-role",
                                  GTK_ACCESSIBLE_ROLE_PRESENTATION, NULL);
  gtk_drawing_area_set_content_width (GTK_DRAWING_AREA (area), 60);
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (area), BAR_ROOM);
  gtk_widget_set_hexpand (area, TRUE);
  gtk_widget_set_valign (area, GTK_ALIGN_CENTER);
  RenderBar *bar = g_new0 (RenderBar, 1);
  bar->kind = kind;
  bar->distance_m = NAN;
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (area), draw_bar, bar, g_free);
  g_object_set_data (G_OBJECT (area), "bar", bar);
  return area;
}

void
desk_bar_set (GtkWidget *area, double distance_m, double required_m, RenderState state,
              gboolean dark)
{
  RenderBar *bar = g_object_get_data (G_OBJECT (area), "bar");
  *bar = (RenderBar){ bar->kind, distance_m, required_m, state, dark };
  gtk_widget_queue_draw (area);
}

/* As far as the toolkit goes by one detent of a wheel. */
static double
detent_px (GtkAdjustment *down)
{
  return pow (gtk_adjustment_get_page_size (down), 2.0 / 3.0);
}

/* The toolkit keeps the wheel over a list that is at its end, so that what is below it in the same
 * column would never come up. */
static gboolean
on_scroll (GtkScrolledWindow *scrolled, double dx, double dy, GtkEventControllerScroll *wheel)
{
  GtkAdjustment *own = gtk_scrolled_window_get_vadjustment (scrolled);
  const double value = gtk_adjustment_get_value (own), half_px = 0.5;
  const double last = gtk_adjustment_get_upper (own) - gtk_adjustment_get_page_size (own);
  const gboolean is_at_end = dy > 0 ? value >= last - half_px : value <= half_px;
  GtkWidget *parent = gtk_widget_get_parent (GTK_WIDGET (scrolled));
  GtkWidget *outer = gtk_widget_get_ancestor (parent, GTK_TYPE_SCROLLED_WINDOW);
  if (!is_at_end || outer == NULL)
    return GDK_EVENT_PROPAGATE;
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (outer));
  const gboolean is_wheel = gtk_event_controller_scroll_get_unit (wheel) == GDK_SCROLL_UNIT_WHEEL;
  gtk_adjustment_set_value (down, gtk_adjustment_get_value (down)
                                      + dy * (is_wheel ? detent_px (down) : 1));
  return GDK_EVENT_STOP;
}

GtkWidget *
desk_scrolled_new (GtkWidget *child, int most_px)
{
  GtkScrolledWindow *scrolled = GTK_SCROLLED_WINDOW (gtk_scrolled_window_new ());
  gtk_scrolled_window_set_policy (scrolled, GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (scrolled, child);
  GtkEventController *wheel
      = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_VERTICAL);
  gtk_event_controller_set_propagation_phase (wheel, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (wheel, "scroll", G_CALLBACK (on_scroll), scrolled);
  gtk_widget_add_controller (GTK_WIDGET (scrolled), wheel);
  if (most_px > 0)
    {
      gtk_scrolled_window_set_propagate_natural_height (scrolled, TRUE);
      gtk_scrolled_window_set_max_content_height (scrolled, most_px);
    }
  return GTK_WIDGET (scrolled);
}

/* ---- texts ---- */

GtkWidget *
desk_text_new (const char *style_class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  if (style_class != NULL)
    gtk_widget_add_css_class (label, style_class);
  return label;
}

const char *
desk_hint_get (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), HINT_KEY);
}

static gboolean
on_query_hint (GtkWidget *widget, int x, int y, gboolean by_keys, GtkTooltip *tooltip,
               gpointer data)
{
  const char *text = desk_hint_get (widget);
  gtk_tooltip_set_text (tooltip, text);
  return text != NULL && *text != '\0';
}

void
desk_hint_set (GtkWidget *widget, const char *text)
{
  const char *before = desk_hint_get (widget);
  if (before != NULL && strcmp (before, text) == 0)
    return;
  g_object_set_data_full (G_OBJECT (widget), HINT_KEY, g_strdup (text), g_free);
  if (before != NULL)
    return;
  g_signal_connect (widget, "query-tooltip", G_CALLBACK (on_query_hint), NULL);
  gtk_widget_set_has_tooltip (widget, TRUE);
}

void
desk_text_set (GtkWidget *label, const char *text)
{
  if (desk_label_set (label, text))
    desk_hint_set (label, text);
}

void
desk_text_set_state (GtkWidget *label, RenderState state)
{
  for (guint i = 0; i < G_N_ELEMENTS (state_classes); i++)
    {
      if (i == state)
        gtk_widget_add_css_class (label, state_classes[i]);
      else
        gtk_widget_remove_css_class (label, state_classes[i]);
    }
}

void
desk_text_set_bold (GtkWidget *label, gboolean bold)
{
  if (bold)
    gtk_widget_add_css_class (label, "room-bold");
  else
    gtk_widget_remove_css_class (label, "room-bold");
}

GtkWidget *
desk_name_new (void)
{
  GtkWidget *label = desk_text_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_lines (GTK_LABEL (label), 2);
  return label;
}

void
desk_name_set (GtkWidget *label, const char *shown, const char *name, const char *id)
{
  g_autofree char *hint = id != NULL ? g_strdup_printf ("%s\n%s", name, id) : g_strdup (name);
  desk_label_set (label, shown);
  desk_hint_set (label, hint);
}

static GtkWidget *
find_label (GtkWidget *widget, const char *text)
{
  if (GTK_IS_LABEL (widget) && strcmp (gtk_label_get_text (GTK_LABEL (widget)), text) == 0)
    return widget;
  GtkWidget *found = NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL && found == NULL;
       child = gtk_widget_get_next_sibling (child))
    found = find_label (child, text);
  return found;
}

/* The toolkit has no property for that (GTK 4.8): headings are in the first row of the view, not
 * always in the order of the columns; the label of one is in a box of its own. */
void
desk_heading_set_number (GtkColumnViewColumn *column)
{
  GtkColumnView *view = gtk_column_view_column_get_column_view (column);
  GtkWidget *row = view != NULL ? gtk_widget_get_first_child (GTK_WIDGET (view)) : NULL;
  GtkWidget *label
      = row != NULL ? find_label (row, gtk_column_view_column_get_title (column)) : NULL;
  if (label != NULL)
    gtk_widget_set_halign (gtk_widget_get_parent (label), GTK_ALIGN_END);
}

/* ---- findings ---- */

/* Of a pair of names no part is cut to less. */
#define LEAST_NAME_CHARS 16
#define BETWEEN_CHARS 4

static char *
name_dup (DeskSession *session, const char *body, guint max)
{
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (run != NULL && g_str_equal (body, "load"))
    {
      g_autofree char *load = trn_words_load_name (plan, run->lift->component);
      return trn_words_clean (load, max);
    }
  return max > 0 ? trn_words_body_name_cut (plan, body, max) : trn_words_body_name (plan, body);
}

char *
desk_between_dup (DeskSession *session, const char *body, const char *obstacle, guint max)
{
  if (g_str_equal (body, "load"))
    return name_dup (session, obstacle, max);
  g_autofree char *from = name_dup (session, body, 0);
  g_autofree char *to = name_dup (session, obstacle, 0);
  guint n_from = (guint)g_utf8_strlen (from, -1), n_to = (guint)g_utf8_strlen (to, -1);
  if (max > 0 && n_from + n_to + BETWEEN_CHARS > max)
    {
      /* A short name leaves its room to the other one. */
      guint room = max - BETWEEN_CHARS, half = room / 2;
      guint most_from = n_to < half ? room - n_to : MIN (n_from, half);
      guint most_to = n_from < half ? room - n_from : half;
      g_free (from);
      g_free (to);
      from = name_dup (session, body, MAX (most_from, LEAST_NAME_CHARS));
      to = name_dup (session, obstacle, MAX (most_to, LEAST_NAME_CHARS));
    }
  return trn_words_between (from, to);
}

gsize
desk_verdict_head (const char *verdict)
{
  static const char *const ends[] = { ": ", "; ", ". " };
  gsize n = strlen (verdict);
  for (guint i = 0; g_utf8_strlen (verdict, -1) > LONG_VERDICT_CHARS && i < G_N_ELEMENTS (ends);
       i++)
    {
      const char *end = strstr (verdict, ends[i]);
      if (end != NULL)
        n = MIN (n, (gsize)(end - verdict));
    }
  return n;
}

double
desk_finding_distance_m (const TrnFinding *finding)
{
  return trn_words_margin_m (finding) + finding->required_m;
}

RenderState
desk_finding_state (DeskSession *session, const TrnFinding *finding)
{
  return finding != NULL ? render_state_of_finding (finding, desk_session_get_tight (session))
                         : RENDER_STATE_NOT_CHECKED;
}

const char *
desk_check_note (DeskSession *session)
{
  if (desk_session_get_site (session) == NULL)
    return NULL;
  if (desk_session_is_stale (session))
    return trn_words_desk (TRN_DESK_STALE);
  switch (desk_check_get_state (desk_session_get_check (session)))
    {
    case DESK_CHECK_NONE:
      return trn_words_desk (TRN_DESK_NOT_CHECKED);
    case DESK_CHECK_RUNNING:
      return trn_words_desk (TRN_DESK_CHECKING);
    case DESK_CHECK_CANCELLED:
      return trn_words_desk (TRN_DESK_CANCELLED);
    case DESK_CHECK_DONE:
      return NULL;
    }
  g_assert_not_reached ();
}

void
desk_follow (DeskSession *session, gpointer object, GCallback callback, const char *const *signals)
{
  for (; *signals != NULL; signals++)
    g_signal_connect_object (session, *signals, callback, object, G_CONNECT_SWAPPED);
}

void
desk_unfollow (DeskSession **session, gpointer object)
{
  if (*session != NULL)
    g_signal_handlers_disconnect_by_data (*session, object);
  g_clear_object (session);
}

typedef struct
{
  void (*fill) (GtkWidget *widget);
  gboolean is_due;
} Filling;

static void
on_seen (GtkWidget *widget, Filling *filling)
{
  if (filling->is_due)
    filling->fill (widget);
  filling->is_due = FALSE;
}

void
desk_fill_when_seen (GtkWidget *widget, void (*fill) (GtkWidget *widget))
{
  static const char key[] = "desk-filling";
  Filling *filling = g_object_get_data (G_OBJECT (widget), key);
  if (filling == NULL)
    {
      filling = g_new0 (Filling, 1);
      filling->fill = fill;
      g_object_set_data_full (G_OBJECT (widget), key, filling, g_free);
      g_signal_connect (widget, "map", G_CALLBACK (on_seen), filling);
    }
  filling->is_due = TRUE;
  if (gtk_widget_get_mapped (widget))
    on_seen (widget, filling);
}

/* A table makes widgets for so many of its rows, and of the others only when they are scrolled to.
 */
#define MOST_MADE 210
#define ROWS_UNMADE_A_TURN 100

typedef struct
{
  GListStore *store; /* borrowed; holds this */
  GtkWidget *view;   /* weak; NULL: none, or no more */
  GPtrArray *rows;
  guint next, n_a_turn, id;
  gint64 frame; /* in which the last ones were given */
} Feed;

static void
feed_free (gpointer data)
{
  Feed *feed = data;
  g_clear_handle_id (&feed->id, g_source_remove);
  g_clear_weak_pointer (&feed->view);
  g_ptr_array_unref (feed->rows);
  g_free (feed);
}

/* Gives the next ones, in place of @n_removed. Who is told of them may feed the store anew, which
 * frees @feed: it is not looked at afterwards. */
static gboolean
feed_next (Feed *feed, guint n_removed)
{
  guint first = feed->next;
  guint n = MIN (first < MOST_MADE ? feed->n_a_turn : ROWS_UNMADE_A_TURN, feed->rows->len - first);
  feed->next += n;
  gboolean has_more = feed->next < feed->rows->len;
  if (!has_more)
    feed->id = 0;
  gpointer *rows = n > 0 ? feed->rows->pdata + first : NULL;
  g_list_store_splice (feed->store, first, n_removed, rows, n);
  return has_more;
}

/* Whether the rows of the turn before have been given their places: else those of two turns would
 * get them together where a frame takes longer than a turn. */
static gboolean
is_due (Feed *feed)
{
  GdkFrameClock *clock = feed->view != NULL && gtk_widget_get_mapped (feed->view)
                             ? gtk_widget_get_frame_clock (feed->view)
                             : NULL;
  if (clock == NULL)
    return TRUE;
  gint64 frame = gdk_frame_clock_get_frame_counter (clock);
  gdk_frame_clock_request_phase (clock, GDK_FRAME_CLOCK_PHASE_UPDATE);
  if (frame == feed->frame)
    return FALSE;
  feed->frame = frame;
  return TRUE;
}

static gboolean
on_feed (gpointer data)
{
  return is_due (data) ? feed_next (data, 0) : G_SOURCE_CONTINUE;
}

void
desk_rows_feed (GListStore *store, GPtrArray *rows, guint n_a_turn, GtkWidget *view)
{
  Feed *feed = g_new (Feed, 1);
  *feed = (Feed){ .store = store, .rows = g_ptr_array_ref (rows), .n_a_turn = n_a_turn };
  g_set_weak_pointer (&feed->view, view);
  g_object_set_data_full (G_OBJECT (store), "desk-feed", feed, feed_free);
  if (rows->len > n_a_turn)
    feed->id = g_timeout_add (DESK_TURN_MS, on_feed, feed);
  feed_next (feed, g_list_model_get_n_items (G_LIST_MODEL (store)));
}
