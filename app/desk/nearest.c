/* nearest.c: every obstacle, of the load and of moving gear, at the moment that was last worked
 * out, what stands worst first: of a gear the part of it that does, by its name.
 *
 * The rows stay where they are and are filled anew in the new order, so that dragging time costs
 * only the rows that are seen. */
#include "nearest.h"

#include <math.h>

#include "desk-words.h"
#include "room-layout.h"
#include "room-list.h"
#include "number.h"
#include "room-parts.h"
#include "tolerances.h"

/* Less tilt than this is none. */
#define LEAST_TILT_RAD (0.05 * G_PI / 180)

/* What there is always of the rows: the three that stand worst, where two lines do for their names,
 * and that there are more. */
#define LEAST_HEIGHT_PX 204

/* Room for a name, while it has none. */
#define NAME_PX 180
/* Of a name, which is cut at the end of its third line as well: both a part of a gear and what it
 * is near to are told from others by what stands at their ends. */
#define MOST_NAME_CHARS 66

#define DESK_TYPE_NEAREST (desk_nearest_get_type ())
G_DECLARE_FINAL_TYPE (DeskNearest, desk_nearest, DESK, NEAREST, GtkBox)

/* A pair at this moment. */
typedef struct
{
  guint pair;
  double required_m;
  TrnMomentDistance distance;
  RenderPairNow now;
} Near;

/* Where the list is scrolled to. */
typedef enum
{
  LED_NOWHERE,
  LED_GOING, /* the moment is of the time before it still */
  LED_THERE,
} Led;

struct _DeskNearest
{
  GtkBox parent;
  DeskSession *session;
  GtkWidget *title, *tilt, *list, *empty;
  GArray *order;           /* of Near, the worst first */
  const char *widest_word; /* that a row may say; NULL: not looked for yet */
  gboolean is_choosing;    /* what is selected is chosen here, by a row */
  Led led;                 /* to what was chosen elsewhere */
  double led_s;            /* at this time */
  guint run;               /* the lift whose rows they are; G_MAXUINT: none yet */
  DeskSite *site;          /* whose rows they are; owned, NULL: none */
};

G_DEFINE_FINAL_TYPE (DeskNearest, desk_nearest, GTK_TYPE_BOX)

/* ---- what is near ---- */

static int
compare_near (gconstpointer a, gconstpointer b)
{
  const Near *x = a, *y = b;
  const int order = render_pair_now_compare (&x->now, &y->now);
  return order != 0 ? order : (x->pair > y->pair) - (x->pair < y->pair);
}

static void
sort_out (DeskNearest *nearest, const TrnMoment *moment)
{
  RenderSiteState state = desk_session_view_state (nearest->session);
  g_array_set_size (nearest->order, 0);
  for (guint i = 0; moment != NULL && i < moment->n_pairs; i++)
    {
      Near near = { .pair = i,
                    .required_m = moment->pairs[i].required_m,
                    .distance = moment->distances[i],
                    .now = render_pair_now (state.judge, moment, i, state.tight_m) };
      if (near.now.is_there)
        g_array_append_val (nearest->order, near);
    }
  g_array_sort (nearest->order, compare_near);
}

/* FALSE for what has no word of its own. */
static gboolean
now_of (RenderState state, TrnMeeting meeting, TrnNow *now)
{
  switch (state)
    {
    case RENDER_STATE_TOUCHING:
      *now = render_now_of_meeting (meeting);
      return TRUE;
    case RENDER_STATE_SHORT:
      *now = TRN_NOW_SHORT;
      return TRUE;
    case RENDER_STATE_TIGHT:
      *now = TRN_NOW_TIGHT;
      return TRUE;
    case RENDER_STATE_CLEAR:
      *now = TRN_NOW_CLEAR;
      return TRUE;
    case RENDER_STATE_NONE:
    case RENDER_STATE_NOT_CHECKED:
      return FALSE;
    }
  g_assert_not_reached ();
}

/* ---- a row ---- */

typedef struct
{
  GtkWidget *mark, *name, *distance, *bar, *word;
} Row;

/* One width for all words, whatever a row has said before, so that the ticks of all bars stand
 * above each other. */
static void
make_room_for_words (DeskNearest *nearest, GtkWidget *word)
{
  static const TrnDeskText texts[] = { TRN_DESK_SEATED, TRN_DESK_NOT_KNOWN, TRN_DESK_NOT_CHECKED };
  if (nearest->widest_word != NULL)
    {
      desk_number_make_room (word, nearest->widest_word);
      return;
    }
  for (guint i = 0; i <= TRN_NOW_CLEAR + G_N_ELEMENTS (texts); i++)
    {
      const char *text = i <= TRN_NOW_CLEAR ? trn_words_now_word ((TrnNow)i)
                                            : trn_words_desk (texts[i - TRN_NOW_CLEAR - 1]);
      const guint before = gtk_inscription_get_min_chars (GTK_INSCRIPTION (word));
      desk_number_make_room (word, text);
      if (nearest->widest_word == NULL
          || gtk_inscription_get_min_chars (GTK_INSCRIPTION (word)) > before)
        nearest->widest_word = text;
    }
}

static GtkWidget *
build_row (gpointer data)
{
  Row *row = g_new0 (Row, 1);
  GtkWidget *grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_widget_add_css_class (grid, "room-row");
  gtk_widget_add_css_class (grid, "near-row");
  row->mark = desk_mark_new ();
  /* A long name takes more lines before it is cut at its end; what is told has all of it. */
  row->name = desk_name_line_new (NAME_PX);
  gtk_widget_set_hexpand (row->name, TRUE);
  row->distance = desk_number_new (NULL);
  gtk_widget_set_valign (row->distance, GTK_ALIGN_START);
  gtk_widget_set_margin_start (row->distance, 8);
  row->bar = desk_bar_new (RENDER_BAR_DISTANCE);
  row->word = desk_number_new ("room-small");
  gtk_widget_set_size_request (row->word, DESK_NUMBER_PX, -1);
  make_room_for_words (data, row->word);
  /* No box: see finding-card.c. */
  GtkWidget *first = gtk_grid_new ();
  gtk_grid_attach (GTK_GRID (first), row->name, 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (first), row->distance, 1, 0, 1, 1);
  GtkWidget *second = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  gtk_box_append (GTK_BOX (second), row->bar);
  gtk_box_append (GTK_BOX (second), row->word);
  gtk_grid_attach (GTK_GRID (grid), row->mark, 0, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), first, 1, 0, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), second, 1, 1, 1, 1);
  g_object_set_data_full (G_OBJECT (grid), "row", row, g_free);
  return grid;
}

/* Of what has no word of its own. */
static const char *
state_word (DeskNearest *nearest, const Near *near)
{
  const RenderJudge *judge = desk_session_view_state (nearest->session).judge;
  const gboolean stands = near->now.is_on_seat && near->now.distance_m <= TRN_SEAT_FIT_M;
  return trn_words_desk (near->now.is_seated || stands     ? TRN_DESK_SEATED
                         : render_judge_is_checked (judge) ? TRN_DESK_NOT_KNOWN
                                                           : TRN_DESK_NOT_CHECKED);
}

static void
tell_row (DeskNearest *nearest, GtkWidget *widget, const char *name, const Near *near,
          gboolean selected)
{
  TrnNow now;
  g_autofree char *keep = trn_words_keep (near->required_m);
  g_autofree char *words = NULL;
  if (now_of (near->now.state, near->distance.meeting, &now))
    words = trn_words_now (
        now, now == TRN_NOW_INSIDE ? near->distance.depth_m : near->now.distance_m,
        near->required_m + (isnan (near->now.allowance_m) ? 0 : near->now.allowance_m));
  else
    words = g_strdup (state_word (nearest, near));
  g_autofree char *told = g_strdup_printf ("%s. %s, %s", name, words, keep);
  desk_room_row_tell (widget, told, selected);
}

/* Of gear a row is about the part that stands worst now: a finding of another part is none of it,
 * and has no row at that moment. */
static gboolean
is_selected (DeskNearest *nearest, const TrnMoment *moment, guint pair)
{
  DeskSession *session = nearest->session;
  const TrnFinding *finding = desk_session_get_finding (session);
  if (desk_session_get_selected_pair (session) != (int)pair)
    return FALSE;
  return finding == NULL || finding->lift != desk_session_get_run (session)
         || desk_session_pair_of (session, finding->body, finding->obstacle) != (int)pair
         || desk_finding_is_of (finding, trn_moment_body (moment, pair),
                                trn_moment_obstacle (moment, pair));
}

static void
fill_row (GtkWidget *widget, guint index, gpointer data)
{
  DeskNearest *nearest = data;
  DeskSession *session = nearest->session;
  const TrnMoment *moment = desk_session_get_moment (session);
  Row *row = g_object_get_data (G_OBJECT (widget), "row");
  if (moment == NULL || index >= nearest->order->len)
    return;
  const Near *near = &g_array_index (nearest->order, Near, index);
  gboolean dark = desk_session_get_dark (session);
  RenderState state = near->now.state;
  TrnNow now;
  const char *body = trn_moment_body (moment, near->pair);
  const char *obstacle = trn_moment_obstacle (moment, near->pair);
  g_autofree char *name = desk_between_dup (session, body, obstacle, 0);
  g_autofree char *distance = trn_words_length_down (near->now.distance_m);
  gboolean is_bad = state == RENDER_STATE_SHORT || state == RENDER_STATE_TOUCHING;
  const char *word = now_of (state, near->distance.meeting, &now) ? trn_words_now_word (now)
                                                                  : state_word (nearest, near);
  g_autofree char *shown = desk_between_dup (session, body, obstacle, MOST_NAME_CHARS);
  desk_number_set (row->distance, distance);
  desk_number_set (row->word, word);
  desk_number_set_bold (row->name, is_bad);
  desk_name_line_set (row->name, shown, desk_room_list_is_at_rest (nearest->list));
  desk_number_set_bold (row->distance, is_bad);
  desk_text_set_state (row->distance, is_bad ? state : RENDER_STATE_NONE);
  desk_text_set_state (row->word, state);
  desk_mark_set (row->mark, state, dark);
  /* Less what tolerances take off: what is short ends before the tick. */
  desk_bar_set (row->bar, near->now.is_seated ? NAN : near->now.spare_m + near->required_m,
                near->required_m, state, dark);
  tell_row (nearest, widget, name, near, is_selected (nearest, moment, near->pair));
}

/* Looks at how close those two come at worst. */
static void
on_row (guint index, gpointer data)
{
  DeskNearest *nearest = data;
  DeskSession *session = nearest->session;
  const TrnMoment *moment = desk_session_get_moment (session);
  if (moment == NULL || index >= nearest->order->len)
    return;
  guint pair = g_array_index (nearest->order, Near, index).pair;
  const TrnFinding *worst = desk_session_worst_of_bodies (session, trn_moment_body (moment, pair),
                                                          trn_moment_obstacle (moment, pair));
  nearest->is_choosing = TRUE;
  if (worst != NULL)
    desk_session_set_finding (session, worst, FALSE);
  else
    desk_session_select_pair (session, pair);
  nearest->is_choosing = FALSE;
}

/* ---- following the session ---- */

/* How far the load is tilted from how it was at the start: the angle between where its upright was
 * then and where it is now. */
static double
tilt_of (const TrnMoment *moment)
{
  /* The direction of the load's frame that was upright at the start. */
  TrnVec3 up = trn_rotation_apply_inverse (&moment->run->start.turn, (TrnVec3){ 0, 0, 1 });
  TrnVec3 turned = trn_rotation_apply (&moment->site_from_load.turn, up);
  return atan2 (hypot (turned.x, turned.y), turned.z);
}

/* The row of what is selected; else that of the worst. */
static guint
find_selected (DeskNearest *nearest, const TrnMoment *moment)
{
  for (guint i = 0; moment != NULL && i < nearest->order->len; i++)
    if (is_selected (nearest, moment, g_array_index (nearest->order, Near, i).pair))
      return i;
  return 0;
}

/* What was chosen elsewhere is seen when it is chosen, and when one has gone to its time. At other
 * times it may stand anywhere: then the worst is seen again. Who has scrolled since stays there. */
static void
follow_choice (DeskNearest *nearest, const TrnMoment *moment)
{
  const guint run = desk_session_get_run (nearest->session);
  DeskSite *site = desk_session_get_site (nearest->session);
  const gboolean is_other_lift = run != nearest->run || site != nearest->site;
  nearest->run = run;
  if (site != nearest->site)
    {
      g_clear_pointer (&nearest->site, desk_site_unref);
      nearest->site = site != NULL ? desk_site_ref (site) : NULL;
    }
  if (is_other_lift
      || (nearest->led != LED_NOWHERE
          && desk_session_get_time (nearest->session) != nearest->led_s))
    {
      nearest->led = LED_NOWHERE;
      desk_room_list_show (nearest->list, 0);
      return;
    }
  if (nearest->led != LED_GOING)
    return;
  desk_room_list_show (nearest->list, find_selected (nearest, moment));
  if (moment != NULL && moment->time_s == nearest->led_s)
    nearest->led = LED_THERE;
}

static void
follow_moment (DeskNearest *nearest)
{
  const TrnMoment *moment = desk_session_get_moment (nearest->session);
  sort_out (nearest, moment);
  g_autofree char *title = moment != NULL ? trn_words_at (moment->time_s) : g_strdup ("");
  double tilt_rad = moment != NULL ? tilt_of (moment) : 0;
  g_autofree char *tilt = tilt_rad > LEAST_TILT_RAD ? trn_words_tilt (tilt_rad) : g_strdup ("");
  desk_number_set (nearest->title, title);
  desk_number_set (nearest->tilt, tilt);
  gtk_widget_set_visible (nearest->tilt, *tilt != '\0');
  desk_room_list_set_count (nearest->list, nearest->order->len);
  gboolean is_open = desk_session_get_site (nearest->session) != NULL;
  gboolean has_lift = desk_session_get_lift_run (nearest->session) != NULL;
  gtk_widget_set_visible (nearest->empty, nearest->order->len == 0);
  desk_label_set (nearest->empty, trn_words_desk (!is_open         ? TRN_DESK_NO_PLAN
                                                  : !has_lift      ? TRN_DESK_NO_LIFT
                                                  : moment == NULL ? TRN_DESK_MEASURING
                                                                   : TRN_DESK_NO_OBSTACLE));
  follow_choice (nearest, moment);
}

/* Who chooses a row has it before the eyes, and it stays there. What is chosen elsewhere may stand
 * low, and is scrolled to; not so what nobody has chosen, as when the check begins anew. */
static void
follow_selection (DeskNearest *nearest)
{
  desk_room_list_refill (nearest->list);
  if (nearest->is_choosing || !desk_session_is_chosen (nearest->session))
    return;
  nearest->led = LED_GOING;
  nearest->led_s = desk_session_get_time (nearest->session);
  follow_choice (nearest, desk_session_get_moment (nearest->session));
}

static void
follow_view (DeskNearest *nearest)
{
  desk_rooms_style (GTK_WIDGET (nearest), desk_session_get_dark (nearest->session));
  follow_moment (nearest);
}

/* ---- building ---- */

static void
desk_nearest_init (DeskNearest *nearest)
{
  GtkBox *box = GTK_BOX (nearest);
  nearest->order = g_array_new (FALSE, FALSE, sizeof (Near));
  nearest->run = G_MAXUINT;
  gtk_orientable_set_orientation (GTK_ORIENTABLE (nearest), GTK_ORIENTATION_VERTICAL);
  GtkWidget *head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  gtk_widget_add_css_class (head, "room-head");
  nearest->title = desk_number_new ("room-title");
  desk_number_set_xalign (nearest->title, 0);
  gtk_widget_set_hexpand (nearest->title, TRUE);
  nearest->tilt = desk_number_new ("room-quiet");
  desk_number_set_xalign (nearest->tilt, 0);
  gtk_box_append (GTK_BOX (head), nearest->title);
  gtk_box_append (GTK_BOX (head), nearest->tilt);
  gtk_box_append (box, head);
  nearest->empty = gtk_label_new (NULL);
  gtk_widget_add_css_class (nearest->empty, "room-quiet");
  gtk_widget_add_css_class (nearest->empty, "room-foot");
  gtk_label_set_xalign (GTK_LABEL (nearest->empty), 0);
  gtk_label_set_wrap (GTK_LABEL (nearest->empty), TRUE);
  gtk_box_append (box, nearest->empty);
  nearest->list = desk_room_list_new (build_row, fill_row, on_row, nearest);
  GtkWidget *rows = desk_room_box_new (desk_scrolled_new (nearest->list, 0), 0, LEAST_HEIGHT_PX);
  gtk_widget_set_vexpand (rows, TRUE);
  gtk_box_append (box, rows);
}

static void
desk_nearest_dispose (GObject *object)
{
  desk_unfollow (&DESK_NEAREST (object)->session, object);
  G_OBJECT_CLASS (desk_nearest_parent_class)->dispose (object);
}

static void
desk_nearest_finalize (GObject *object)
{
  g_array_unref (DESK_NEAREST (object)->order);
  g_clear_pointer (&DESK_NEAREST (object)->site, desk_site_unref);
  G_OBJECT_CLASS (desk_nearest_parent_class)->finalize (object);
}

static void
desk_nearest_class_init (DeskNearestClass *class)
{
  G_OBJECT_CLASS (class)->dispose = desk_nearest_dispose;
  G_OBJECT_CLASS (class)->finalize = desk_nearest_finalize;
}

GtkWidget *
desk_nearest_new (DeskSession *session)
{
  static const char *const of_moment[]
      = { "site-changed", "moment-changed", "findings-changed", NULL };
  static const char *const of_selection[] = { "selection-changed", NULL };
  static const char *const of_view[] = { "view-changed", NULL };
  DeskNearest *nearest = g_object_new (DESK_TYPE_NEAREST, NULL);
  nearest->session = g_object_ref (session);
  desk_rooms_style (GTK_WIDGET (nearest), desk_session_get_dark (session));
  desk_follow (session, nearest, G_CALLBACK (follow_moment), of_moment);
  desk_follow (session, nearest, G_CALLBACK (follow_selection), of_selection);
  desk_follow (session, nearest, G_CALLBACK (follow_view), of_view);
  follow_moment (nearest);
  return GTK_WIDGET (nearest);
}
