/* strip-data.c: lines, bands, moves and seats of the lift that is shown.
 *
 * Six obstacles at most matter: those with the least margin, and the one looked at. Before the
 * check has come to this lift the margin is taken from the samples, and nothing has a state. */
#include "strip-data.h"

#include <math.h>

#include "desk-words.h"

#define MOST_THAT_MATTER 6
#define LONGEST_OWNER 60
/* Ends of moves, as they are added up, s. */
#define SAME_TIME_S 1e-6
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

int
desk_strip_focus (DeskSession *session)
{
  const TrnFinding *finding = desk_session_get_finding (session);
  if (finding != NULL && finding->obstacle != NULL)
    return desk_session_pair_of (session, finding->body, finding->obstacle);
  return desk_session_pair_of (session, "load", desk_session_get_selected (session));
}

static double
least_sample_m (const DeskProfile *profile, guint line)
{
  double least = INFINITY;
  for (guint i = 0; i < profile->n_done; i++)
    least = fmin (least, profile->distances_m[(gsize)i * profile->n_pairs + line]);
  return least;
}

static gboolean
is_off_seat (const Rank *rank)
{
  return rank->worst != NULL && rank->worst->verdict == TRN_VERDICT_PASS && rank->worst->has_seated;
}

/* What only leaves a seat comes last: it would take the places of all others. */
static int
compare_ranks (gconstpointer a, gconstpointer b)
{
  const Rank *x = a, *y = b;
  TrnVerdict vx = x->worst != NULL ? x->worst->verdict : TRN_VERDICT_PASS;
  TrnVerdict vy = y->worst != NULL ? y->worst->verdict : TRN_VERDICT_PASS;
  if (vx != vy)
    return vx > vy ? -1 : 1;
  if (is_off_seat (x) != is_off_seat (y))
    return is_off_seat (x) ? 1 : -1;
  if (x->margin_m != y->margin_m)
    return x->margin_m < y->margin_m ? -1 : 1;
  return x->line < y->line ? -1 : 1;
}

static void
add_lines (DeskStripData *data, DeskSession *session)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  for (guint i = 0; i < profile->n_pairs; i++)
    {
      double required_m = profile->pairs[i].required_m;
      RenderStripLine line = { .name = keep_text (data, desk_session_pair_name (session, i)),
                               .required_text = keep_text (data, trn_words_to_be_kept (required_m)),
                               .distances_m = profile->distances_m + i,
                               .spares_m = profile->spares_m + i,
                               .stride = profile->n_pairs,
                               .required_m = required_m,
                               .state = RENDER_STATE_NOT_CHECKED };
      g_array_append_val (data->lines, line);
      g_array_append_val (data->pairs, i);
    }
}

static RenderStripLine *
line_at (DeskStripData *data, guint index)
{
  return &g_array_index (data->lines, RenderStripLine, index);
}

static guint
pair_of (const DeskStripData *data, guint line)
{
  return g_array_index (data->pairs, guint, line);
}

static void
drop_line (DeskStripData *data, guint index)
{
  g_array_remove_index (data->lines, index);
  g_array_remove_index (data->pairs, index);
}

static int
compare_descending (gconstpointer a, gconstpointer b)
{
  guint x = *(const guint *)a, y = *(const guint *)b;
  return x > y ? -1 : x < y;
}

/* Whether each line is of something that the load rests on at some time. */
static gboolean *
find_seats (DeskSession *session, guint n_lines)
{
  gboolean *seats = g_new0 (gboolean, n_lines + 1);
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (session), desk_session_get_run (session));
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      int pair = finding->has_seated
                     ? desk_session_pair_of (session, finding->body, finding->obstacle)
                     : -1;
      if (pair >= 0 && (guint)pair < n_lines)
        seats[pair] = TRUE;
    }
  return seats;
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
      const TrnFinding *worst = desk_session_worst_of_pair (session, i);
      double margin_m = worst != NULL ? trn_words_margin_m (worst)
                                      : least_sample_m (profile, i) - line_at (data, i)->required_m;
      Rank rank = { i, worst, isnan (margin_m) ? INFINITY : margin_m };
      g_array_append_val (ranks, rank);
      line_at (data, i)->is_judged = worst != NULL;
      if (worst != NULL)
        line_at (data, i)->state
            = render_state_of_finding (worst, desk_session_get_tight (session));
    }
  g_array_sort (ranks, compare_ranks);
  int focus = desk_strip_focus (session);
  g_autofree gboolean *seats = find_seats (session, n);
  g_autoptr (GArray) dropped = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < n; i++)
    {
      guint index = g_array_index (ranks, Rank, i).line;
      RenderStripLine *line = line_at (data, index);
      line->focus = (int)pair_of (data, index) == focus;
      line->matters = i < MOST_THAT_MATTER || line->focus;
      if (!line->matters && i >= MOST_THAT_MATTER + MOST_GREY && !seats[index])
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
find_line (const DeskStripData *data, int pair)
{
  for (guint i = 0; i < data->pairs->len; i++)
    if ((int)pair_of (data, i) == pair)
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
  if (isnan (finding->allowance_m) || finding->allowance_m > 0)
    bound.lower_m = fmax (bound.lower_m - finding->allowance_m, 0);
  if (finding->has_seated && finding->seated_s.lo <= bound.begin_s)
    bound.begin_s = finding->seated_s.hi;
  else if (finding->has_seated)
    bound.end_s = finding->seated_s.lo;
  bound.state = render_state_of_finding (finding, desk_session_get_tight (session));
  if (finding->has_points && finding == desk_session_worst_of_pair (session, pair_of (data, line)))
    bound.time_s = finding->time_s;
  /* Bands of all lines would hide each other: of those that are met well only the mark. */
  gboolean is_met = bound.state == RENDER_STATE_CLEAR || bound.state == RENDER_STATE_TIGHT;
  if (is_met && !line_at (data, line)->focus)
    bound.end_s = bound.begin_s;
  g_array_append_val (data->bounds, bound);
}

/* Spans that meet at a border of moves are one. */
static void
add_seat (DeskStripData *data, guint line, TrnInterval seated_s)
{
  for (guint i = 0; i < data->seats->len; i++)
    {
      RenderStripSeat *seat = &g_array_index (data->seats, RenderStripSeat, i);
      if (seat->line != line || seated_s.lo > seat->end_s + SAME_TIME_S
          || seated_s.hi < seat->begin_s - SAME_TIME_S)
        continue;
      seat->begin_s = fmin (seat->begin_s, seated_s.lo);
      seat->end_s = fmax (seat->end_s, seated_s.hi);
      return;
    }
  RenderStripSeat seat = { line, seated_s.lo, seated_s.hi };
  g_array_append_val (data->seats, seat);
}

/* Moves of which nothing is known of any line, @worst by line and move; those that follow each
 * other are one. */
static void
add_unknown (DeskStripData *data, const TrnLiftRun *run, const TrnFinding **worst)
{
  const guint n_moves = run->lift->n_moves;
  for (guint m = 0; m < n_moves; m++)
    {
      guint n = 0, n_unknown = 0;
      for (guint i = 0; i < data->lines->len; i++)
        {
          const TrnFinding *finding = worst[i * n_moves + m];
          n += finding != NULL;
          n_unknown += finding != NULL && finding->verdict == TRN_VERDICT_UNKNOWN;
        }
      RenderStripUnknown unknown = { run->begins_s[m], run->begins_s[m + 1] };
      RenderStripUnknown *last
          = data->unknown->len > 0
                ? &g_array_index (data->unknown, RenderStripUnknown, data->unknown->len - 1)
                : NULL;
      if (n == 0 || n_unknown < n)
        continue;
      if (last != NULL && last->end_s == unknown.begin_s)
        last->end_s = unknown.end_s;
      else
        g_array_append_val (data->unknown, unknown);
    }
}

/* Of the parts of a gear only what is worst in a move has its band. */
static void
add_findings (DeskStripData *data, DeskSession *session, const TrnLiftRun *run)
{
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (session), desk_session_get_run (session));
  guint n_moves = run->lift->n_moves;
  g_autofree const TrnFinding **worst = g_new0 (const TrnFinding *, data->lines->len *n_moves + 1);
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      int line
          = finding->check == TRN_CHECK_CLEARANCE && finding->move >= 0
                ? find_line (data, desk_session_pair_of (session, finding->body, finding->obstacle))
                : -1;
      if (line < 0)
        continue;
      if (finding->has_seated)
        add_seat (data, (guint)line, finding->seated_s);
      guint at = (guint)line * n_moves + (guint)finding->move;
      if (finding->state != TRN_STATE_SEATED && desk_finding_is_worse (session, finding, worst[at]))
        worst[at] = finding;
    }
  for (guint at = 0; at < data->lines->len * n_moves; at++)
    if (worst[at] != NULL && line_at (data, at / n_moves)->matters)
      add_bound (data, session, run, at / n_moves, worst[at]);
  add_unknown (data, run, worst);
}

/* ---- gauges ---- */

/* Whose line it is: gear that holds by both hooks has two; the wind has the load. */
static char *
gauge_owner (DeskSession *session, const DeskGauge *gauge)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  const TrnPlan *plan = desk_session_get_site (session)->plan;
  const DeskHoist *hoist = &gauge->hoist;
  gboolean is_of_both = FALSE;
  if (gauge->gauge == TRN_GAUGE_WIND)
    return trn_words_clean (
        plan->components[desk_session_get_lift_run (session)->lift->component].name, LONGEST_OWNER);
  for (guint k = 0; k < profile->n_gauges; k++)
    is_of_both |= profile->gauges[k].hoist.gear == hoist->gear
                  && profile->gauges[k].hoist.is_tail != hoist->is_tail;
  return hoist->gear == NULL || is_of_both ? trn_words_hoist (desk_hoist_role (hoist), NULL)
                                           : trn_words_clean (hoist->gear->name, LONGEST_OWNER);
}

static void
widen (double *least, double *most, double value)
{
  if (isnan (value))
    return;
  *least = fmin (*least, value);
  *most = fmax (*most, value);
}

/* A limit that is far off would press the line flat: it is shown when it is no further from the
 * line than the line is long, or the line crosses it. */
static gboolean
is_near (double limit, double least, double most)
{
  double span = fmax (most - least, 0.05 * fmax (fabs (least), fabs (most)));
  return limit >= least - 1.5 * span && limit <= most + 1.5 * span;
}

/* A scale that goes over less than this part of its values would show noise as a slope. */
#define LEAST_SPAN 0.05

/* Both hooks of a lift may have the same. */
static gboolean
has_limit (const DeskStripData *data, double value)
{
  for (guint i = 0; i < data->limits->len; i++)
    {
      const RenderStripLimit *limit = &g_array_index (data->limits, RenderStripLimit, i);
      if (limit->band == data->n_bands && limit->value == value)
        return TRUE;
    }
  return FALSE;
}

/* Whether all hoists that have that quantity have that limit, so that it needs no owner. */
static gboolean
is_of_all (DeskSession *session, TrnGauge quantity, const DeskGaugeLimit *limit)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  for (guint k = 0; k < profile->n_gauges; k++)
    {
      DeskGaugeLimit limits[2];
      gboolean has_it = profile->gauges[k].gauge != quantity;
      const guint n = has_it ? 0
                             : desk_gauge_limits (desk_session_get_lift_run (session),
                                                  &profile->gauges[k], limits);
      for (guint i = 0; i < n; i++)
        has_it |= limits[i].limit == limit->limit && limits[i].value == limit->value;
      if (!has_it)
        return FALSE;
    }
  return TRUE;
}

/* "hook to tip at least 5 m", or "Main crane: hook to tip at least 5 m". Owned. */
static char *
limit_name (DeskSession *session, const DeskGauge *gauge, const DeskGaugeLimit *limit)
{
  char *text = trn_words_gauge_limit (limit->limit, limit->value);
  if (is_of_all (session, gauge->gauge, limit))
    return text;
  g_autofree char *bare = text, *owner = gauge_owner (session, gauge);
  return trn_words_gauge_reading (owner, bare);
}

static void
add_limits (DeskStripData *data, DeskSession *session, const DeskGauge *gauge, double lo, double hi,
            double *least, double *most)
{
  DeskGaugeLimit limits[2];
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  guint n = desk_gauge_limits (run, gauge, limits);
  for (guint i = 0; i < n; i++)
    {
      if (!is_near (limits[i].value, lo, hi) || has_limit (data, limits[i].value))
        continue;
      RenderStripLimit limit
          = { .band = data->n_bands,
              .value = limits[i].value,
              .text = keep_text (data, limit_name (session, gauge, &limits[i])) };
      g_array_append_val (data->limits, limit);
      widen (least, most, limits[i].value);
    }
}

/* What the checks find of a quantity is never less than its lines, which are drawn without
 * tolerances. */
typedef struct
{
  double greatest;
  gboolean is_all; /* of all hoists, in every move in which they are looked at */
} Found;

/* Raises @found; returns what it is by @gauge, NAN where there is none. */
static double
find_greatest (DeskSession *session, const DeskGauge *gauge, Found *found)
{
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (session), desk_session_get_run (session));
  double greatest;
  gboolean is_all;
  if (lift == NULL || !desk_gauge_found (lift->findings, gauge, &greatest, &is_all))
    {
      found->is_all = FALSE;
      return NAN;
    }
  found->is_all = found->is_all && is_all;
  found->greatest = fmax (found->greatest, greatest);
  return greatest;
}

static void
add_found (DeskStripData *data, TrnGauge quantity, const Found *found)
{
  RenderStripLimit line
      = { .band = data->n_bands,
          .value = found->greatest,
          .text
          = keep_text (data, trn_words_gauge_found (quantity, found->greatest, found->is_all)),
          .is_found = TRUE };
  g_array_append_val (data->limits, line);
}

/* A quantity that was chosen and of which there is no line says why in its place. */
static void
add_note (DeskStripData *data, DeskSession *session, TrnGauge quantity)
{
  const TrnLiftFindings *lift
      = desk_check_get_lift (desk_session_get_check (session), desk_session_get_run (session));
  const DeskProfile *profile = desk_session_get_profile (session);
  const gboolean is_done = lift != NULL && profile->n_done == profile->n_times;
  const char *note
      = desk_gauge_note (desk_session_get_site (session)->plan, desk_session_get_lift_run (session),
                         is_done ? lift->findings : NULL, quantity);
  if (note != NULL)
    data->bands[data->n_bands++]
        = (RenderStripBand){ .title = trn_words_gauge_drawn (quantity), .note = note };
}

/* These are read from nothing on. */
static void
widen_to_zero (TrnGauge quantity, double *least, double *most)
{
  if (quantity == TRN_GAUGE_SHARE || quantity == TRN_GAUGE_WIND)
    widen (least, most, 0);
  if (quantity == TRN_GAUGE_SHARE)
    widen (least, most, 1);
}

/* The band of a quantity, with a line for each hoist that has it; none where nothing of it is
 * worked out, and nothing says why. */
static void
add_band (DeskStripData *data, DeskSession *session, TrnGauge quantity)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  double least = INFINITY, most = -INFINITY;
  guint band = data->n_bands;
  Found found = { NAN, TRUE };
  for (guint k = 0; k < profile->n_gauges; k++)
    {
      const DeskGauge *gauge = &profile->gauges[k];
      if (gauge->gauge != quantity)
        continue;
      double lo = INFINITY, hi = -INFINITY;
      for (guint i = 0; i < profile->n_done; i++)
        widen (&lo, &hi, profile->values[(gsize)i * profile->n_gauges + k]);
      if (lo > hi)
        continue;
      RenderStripGauge line = { .name = keep_text (data, gauge_owner (session, gauge)),
                                .values = profile->values + k,
                                .stride = profile->n_gauges,
                                .band = band,
                                .pattern = gauge->hoist.is_tail ? 1 : 0 };
      g_array_append_val (data->gauges, line);
      g_array_append_val (data->shown, *gauge);
      widen (&least, &most, lo);
      widen (&least, &most, hi);
      const double greatest = fmax (hi, find_greatest (session, gauge, &found));
      widen (&least, &most, greatest);
      add_limits (data, session, gauge, lo, greatest, &least, &most);
    }
  if (least > most)
    {
      add_note (data, session, quantity);
      return;
    }
  widen_to_zero (quantity, &least, &most);
  if (isfinite (found.greatest))
    add_found (data, quantity, &found);
  double lacking = LEAST_SPAN * fmax (fabs (least), fabs (most)) - (most - least);
  least -= fmax (lacking, 0) / 2;
  most += fmax (lacking, 0) / 2;
  guint n_ticks = trn_words_gauge_ticks (trn_gauge_scale (quantity), least, most,
                                         data->band_ticks[band], data->band_texts[band]);
  data->bands[band] = (RenderStripBand){ .title = trn_words_gauge_drawn (quantity),
                                         .ticks = data->band_ticks[band],
                                         .texts = (const char *const *)data->band_texts[band],
                                         .n_ticks = n_ticks };
  data->n_bands++;
}

static void
add_gauges (DeskStripData *data, DeskSession *session)
{
  G_STATIC_ASSERT (TRN_N_GAUGES <= RENDER_STRIP_BANDS);
  G_STATIC_ASSERT (DESK_MOST_HOISTS <= RENDER_GAUGE_PATTERNS);
  for (guint quantity = 0; quantity < TRN_N_GAUGES; quantity++)
    if ((desk_session_get_gauges (session) & 1u << quantity) != 0)
      add_band (data, session, (TrnGauge)quantity);
}

guint
desk_strip_count_bands (DeskSession *session)
{
  const DeskProfile *profile = desk_session_get_profile (session);
  guint there = 0;
  for (guint k = 0; profile != NULL && k < profile->n_gauges; k++)
    there |= 1u << profile->gauges[k].gauge;
  /* That there is none of them is said. */
  if (there != 0)
    there |= 1u << TRN_GAUGE_SHARE | 1u << TRN_GAUGE_WIND;
  return (guint)__builtin_popcount (there & desk_session_get_gauges (session));
}

/* NULL once all samples are there. */
static const char *
unfinished_text (DeskStripData *data, const DeskProfile *profile)
{
  if (profile->n_done >= profile->n_times)
    return NULL;
  return keep_text (data, trn_words_drawing_lines ((double)profile->n_done / profile->n_times));
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
    .unknown = (const RenderStripUnknown *)(gpointer)data->unknown->data,
    .n_unknown = data->unknown->len,
    .unknown_text = trn_words_desk (TRN_DESK_NOT_KNOWN),
    .ticks_m = data->ticks_m,
    .ticks = (const char *const *)data->ticks,
    .n_ticks = trn_words_distance_ticks (data->ticks_m, data->ticks),
    .bands = data->bands,
    .n_bands = data->n_bands,
    .gauges = (const RenderStripGauge *)(gpointer)data->gauges->data,
    .n_gauges = data->gauges->len,
    .limits = (const RenderStripLimit *)(gpointer)data->limits->data,
    .n_limits = data->limits->len,
    .unfinished = unfinished_text (data, profile),
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
  if (profile->n_pairs == 0 && profile->n_gauges == 0)
    return NULL;
  DeskStripData *data = g_new0 (DeskStripData, 1);
  data->lines = g_array_new (FALSE, FALSE, sizeof (RenderStripLine));
  data->bounds = g_array_new (FALSE, FALSE, sizeof (RenderStripBound));
  data->moves = g_array_new (FALSE, FALSE, sizeof (RenderStripMove));
  data->seats = g_array_new (FALSE, FALSE, sizeof (RenderStripSeat));
  data->unknown = g_array_new (FALSE, FALSE, sizeof (RenderStripUnknown));
  data->gauges = g_array_new (FALSE, FALSE, sizeof (RenderStripGauge));
  data->limits = g_array_new (FALSE, FALSE, sizeof (RenderStripLimit));
  data->shown = g_array_new (FALSE, FALSE, sizeof (DeskGauge));
  data->texts = g_ptr_array_new_with_free_func (g_free);
  data->pairs = g_array_new (FALSE, FALSE, sizeof (guint));
  add_lines (data, session);
  rank_lines (data, session);
  add_moves (data, run);
  add_findings (data, session, run);
  add_gauges (data, session);
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
  g_array_unref (data->unknown);
  g_array_unref (data->gauges);
  g_array_unref (data->limits);
  g_array_unref (data->shown);
  for (guint b = 0; b < RENDER_STRIP_BANDS; b++)
    for (guint i = 0; i < TRN_MOST_GAUGE_TICKS; i++)
      g_free (data->band_texts[b][i]);
  g_ptr_array_unref (data->texts);
  g_array_unref (data->pairs);
  for (guint i = 0; i < G_N_ELEMENTS (data->ticks); i++)
    g_free (data->ticks[i]);
  g_free (data);
}
