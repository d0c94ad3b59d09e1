/* strip-data.c: lines, bands, moves and seats of the lift that is shown.
 *
 * Six obstacles at most matter: those with the least margin, and the one looked at. Before the
 * check has come to this lift the margin is taken from the samples, and nothing has a state. */
#include "strip-data.h"

#include <math.h>

#include "desk-words.h"

#define MOST_THAT_MATTER 6
#define MOST_GREY                                                                                  \
  24 /* beyond these, lines are a grey field that nobody reads, and slow to draw                   \
      */

typedef struct
{
  guint line;
  const TrnFinding *worst; /* NULL: not checked */
  double margin_m;
} Rank;

static const char *
keep_text (DeskStripData *data, char *text)
{
  g_ptr_array_add (data->texts, text);
  return text;
}

const char *
desk_strip_focus (DeskSession *session)
{
  const TrnFinding *finding = desk_session_get_finding (session);
  return finding != NULL && finding->obstacle != NULL ? finding->obstacle
                                                      : desk_session_get_selected (session);
}

static double
least_sample_m (const DeskProfile *profile, guint line)
{
  double least = INFINITY;
  for (guint i = 0; i < profile->n_done; i++)
    least = fmin (least, profile->distances_m[(gsize)i * profile->n_obstacles + line]);
  return least;
}

static int
compare_ranks (gconstpointer a, gconstpointer b)
{
  const Rank *x = a, *y = b;
  TrnVerdict vx = x->worst != NULL ? x->worst->verdict : TRN_VERDICT_PASS;
  TrnVerdict vy = y->worst != NULL ? y->worst->verdict : TRN_VERDICT_PASS;
  if (vx != vy)
    return vx > vy ? -1 : 1;
  if (x->margin_m != y->margin_m)
    return x->margin_m < y->margin_m ? -1 : 1;
  return x->line < y->line ? -1 : 1;
}

static void
add_lines (DeskStripData *data, DeskSession *session, const TrnObstacle *obstacles)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  for (guint i = 0; i < profile->n_obstacles; i++)
    {
      const char *id = obstacles[i].body->id;
      double required_m = obstacles[i].standing->required_m;
      RenderStripLine line = { .name = keep_text (data, trn_words_body_name (plan, id)),
                               .required_text = keep_text (data, trn_words_to_be_kept (required_m)),
                               .distances_m = profile->distances_m + i,
                               .stride = profile->n_obstacles,
                               .required_m = required_m,
                               .state = RENDER_STATE_NOT_CHECKED };
      g_array_append_val (data->lines, line);
      g_ptr_array_add (data->bodies, (gpointer)id);
    }
}

static RenderStripLine *
line_at (DeskStripData *data, guint index)
{
  return &g_array_index (data->lines, RenderStripLine, index);
}

static void
drop_line (DeskStripData *data, guint index)
{
  g_array_remove_index (data->lines, index);
  g_ptr_array_remove_index (data->bodies, index);
}

static int
compare_descending (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *)a, y = *(const guint *)b;
  return x > y ? -1 : x < y;
}

/* Decides which lines matter, and which are not drawn at all. */
static void
rank_lines (DeskStripData *data, DeskSession *session)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  guint n = data->lines->len;
  g_autoptr (GArray) ranks = g_array_new (FALSE, FALSE, sizeof (Rank));
  for (guint i = 0; i < n; i++)
    {
      const TrnFinding *worst = desk_session_worst (session, desk_session_get_run (session), -1,
                                                    data->bodies->pdata[i]);
      double margin_m = worst != NULL ? trn_words_margin_m (worst)
                                      : least_sample_m (profile, i) - line_at (data, i)->required_m;
      Rank rank = { i, worst, isnan (margin_m) ? INFINITY : margin_m };
      g_array_append_val (ranks, rank);
      if (worst != NULL)
        line_at (data, i)->state
            = render_state_of_finding (worst, desk_session_get_tight (session));
    }
  g_array_sort (ranks, compare_ranks);
  const char *focus = desk_strip_focus (session);
  g_autoptr (GArray) dropped = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < n; i++)
    {
      guint index = g_array_index (ranks, Rank, i).line;
      RenderStripLine *line = line_at (data, index);
      line->focus = g_strcmp0 (data->bodies->pdata[index], focus) == 0;
      line->matters = i < MOST_THAT_MATTER || line->focus;
      if (!line->matters && i >= MOST_THAT_MATTER + MOST_GREY)
        g_array_append_val (dropped, index);
    }
  gboolean has_focus = FALSE;
  for (guint i = 0; i < n; i++)
    has_focus |= line_at (data, i)->focus;
  if (!has_focus && n > 0)
    line_at (data, g_array_index (ranks, Rank, 0).line)->focus = TRUE;
  g_array_sort (dropped, compare_descending);
  for (guint i = 0; i < dropped->len; i++)
    drop_line (data, g_array_index (dropped, guint, i));
}

static void
add_moves (DeskStripData *data, const TrnLiftRun *run)
{
  for (guint m = 0; m < run->lift->n_moves; m++)
    {
      const TrnMove *move = &run->lift->moves[m];
      RenderStripMove strip_move = { run->begins_s[m], run->begins_s[m + 1],
                                     keep_text (data, trn_words_move_short (run->lift, m)),
                                     move->kind == TRN_MOVE_WAIT && move->hold_point != NULL };
      g_array_append_val (data->moves, strip_move);
    }
}

static int
find_line (const DeskStripData *data, const char *body)
{
  for (guint i = 0; i < data->bodies->len; i++)
    if (g_strcmp0 (data->bodies->pdata[i], body) == 0)
      return (int)i;
  return -1;
}

static void
add_bound (DeskStripData *data, DeskSession *session, const TrnLiftRun *run, guint line,
           const TrnFinding *finding)
{
  RenderStripBound bound = { .line = line,
                             .begin_s = run->begins_s[finding->move],
                             .end_s = run->begins_s[finding->move + 1],
                             .lower_m = finding->lower_m,
                             .upper_m = finding->upper_m,
                             .time_s = NAN };
  /* What counts is what is left after the tolerances, and only off the seat. */
  if (finding->allowance_m > 0)
    bound.lower_m = fmax (bound.lower_m - finding->allowance_m, 0);
  if (finding->has_seated && finding->seated_s.lo <= bound.begin_s)
    bound.begin_s = finding->seated_s.hi;
  else if (finding->has_seated)
    bound.end_s = finding->seated_s.lo;
  bound.state = render_state_of_finding (finding, desk_session_get_tight (session));
  if (finding->has_points
      && finding
             == desk_session_worst (session, desk_session_get_run (session), -1, finding->obstacle))
    bound.time_s = finding->time_s;
  /* Bands of all lines would hide each other: of those that are met well only the mark. */
  gboolean is_met = bound.state == RENDER_STATE_CLEAR || bound.state == RENDER_STATE_TIGHT;
  if (is_met && !line_at (data, line)->focus)
    bound.end_s = bound.begin_s;
  g_array_append_val (data->bounds, bound);
}

static void
add_findings (DeskStripData *data, DeskSession *session, const TrnLiftRun *run)
{
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (session), desk_session_get_run (session));
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      int line = finding->check == TRN_CHECK_CLEARANCE && finding->move >= 0
                     ? find_line (data, finding->obstacle)
                     : -1;
      if (line < 0)
        continue;
      if (finding->has_seated)
        {
          RenderStripSeat seat = { (guint)line, finding->seated_s.lo, finding->seated_s.hi };
          g_array_append_val (data->seats, seat);
        }
      if (finding->state != TRN_STATE_SEATED && line_at (data, (guint)line)->matters)
        add_bound (data, session, run, (guint)line, finding);
    }
}

/* Where everything is, once no array grows any more. */
static void
tie (DeskStripData *data, DeskSession *session)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  G_STATIC_ASSERT (G_N_ELEMENTS (data->ticks_m) == TRN_MOST_TICKS);
  data->strip = (RenderStrip){
    .duration_s = desk_session_get_duration (session),
    .times_s = profile->times_s,
    .n_times = profile->n_done,
    .lines = (const RenderStripLine *)(gpointer)data->lines->data,
    .n_lines = data->lines->len,
    .bounds = (const RenderStripBound *)(gpointer)data->bounds->data,
    .n_bounds = data->bounds->len,
    .moves = (const RenderStripMove *)(gpointer)data->moves->data,
    .n_moves = data->moves->len,
    .seats = (const RenderStripSeat *)(gpointer)data->seats->data,
    .n_seats = data->seats->len,
    .seated_text = trn_words_desk (TRN_DESK_SEATED),
    .ticks_m = data->ticks_m,
    .ticks = (const char *const *)data->ticks,
    .n_ticks = trn_words_distance_ticks (data->ticks_m, data->ticks),
    .dark = desk_session_get_dark (session),
  };
}

DeskStripData *
desk_strip_data_new (DeskSession *session)
{
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  const DeskProfile *profile = desk_session_get_profile (session);
  if (run == NULL || profile == NULL || !(desk_session_get_duration (session) > 0))
    return NULL;
  guint n_obstacles;
  g_autofree TrnObstacle *obstacles
      = trn_scene_obstacles (desk_session_get_site (session)->scene, run, &n_obstacles);
  if (n_obstacles == 0 || n_obstacles != profile->n_obstacles)
    return NULL;
  DeskStripData *data = g_new0 (DeskStripData, 1);
  data->lines = g_array_new (FALSE, FALSE, sizeof (RenderStripLine));
  data->bounds = g_array_new (FALSE, FALSE, sizeof (RenderStripBound));
  data->moves = g_array_new (FALSE, FALSE, sizeof (RenderStripMove));
  data->seats = g_array_new (FALSE, FALSE, sizeof (RenderStripSeat));
  data->texts = g_ptr_array_new_with_free_func (g_free);
  data->bodies = g_ptr_array_new ();
  add_lines (data, session, obstacles);
  rank_lines (data, session);
  add_moves (data, run);
  add_findings (data, session, run);
  tie (data, session);
  return data;
}

void
desk_strip_data_free (DeskStripData *data)
{
  if (data == NULL)
    return;
  g_array_unref (data->lines);
  g_array_unref (data->bounds);
  g_array_unref (data->moves);
  g_array_unref (data->seats);
  g_ptr_array_unref (data->texts);
  g_ptr_array_unref (data->bodies);
  for (guint i = 0; i < G_N_ELEMENTS (data->ticks); i++)
    g_free (data->ticks[i]);
  g_free (data);
}
