/* paragraphs.c: see paragraphs.h. What has one cause over several moves is told once, by its worst
 * line. */
#include "paragraphs.h"

#include <stdio.h>
#include <string.h>

#include "command-words.h"
#include "desk-words.h"
#include "words.h"

#define WIDTH 100
/* Paragraphs of what fails or is not known, before the rest is only counted. */
#define MOST_FAULTS 12

static void
print_wrapped (const char *text)
{
  g_autofree char *lines = trn_words_wrap (text, WIDTH);
  printf ("\n%s\n", lines);
}

/* What is to be looked at in one move, on one line. */
static void
print_notes_of (const TrnLiftFindings *lift, const TrnPlan *plan, const TrnLiftRun *run, guint move)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->verdict != TRN_VERDICT_NOTE || f->check != TRN_CHECK_SWING_RADIUS
          || f->move != (int)move)
        continue;
      g_autofree char *obstacle = trn_words_body_name (plan, f->obstacle);
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", obstacle);
    }
  if (list->len == 0)
    return;
  g_autofree char *note = trn_words_table_notes (run, move, list->str);
  print_wrapped (note);
}

/* The same of the tail swing of each crane. */
static void
print_tail_notes (const TrnLiftFindings *lift, const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  for (guint k = 0; k < plan->n_gear; k++)
    {
      g_autoptr (GString) list = g_string_new (NULL);
      for (guint i = 0; i < lift->findings->len; i++)
        {
          const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
          if (f->verdict != TRN_VERDICT_NOTE || f->check != TRN_CHECK_TAIL_SWING
              || strcmp (f->body, plan->gear[k].id) != 0)
            continue;
          g_autofree char *obstacle = trn_words_body_name (plan, f->obstacle);
          g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", obstacle);
        }
      if (list->len == 0)
        continue;
      g_autofree char *crane = trn_words_clean (plan->gear[k].name, 0);
      g_autofree char *note
          = trn_words_table_tail_notes (crane, &scene->programme->runs[lift->lift], list->str);
      print_wrapped (note);
    }
}

/* What is left on the main hook where the tail point comes below the centre of gravity; NAN is the
 * worst. */
static gboolean
is_worse_height (const TrnFinding *a, const TrnFinding *b)
{
  const double left_a = trn_finding_number (a, "least-main"),
               left_b = trn_finding_number (b, "least-main");
  if (isnan (left_a) != isnan (left_b))
    return isnan (left_a);
  return left_a < left_b || (!(left_a > left_b) && a->value < b->value);
}

/* A tail point below the centre of gravity bears nothing, so that no line of forces tells it; the
 * worst move of the lift. */
static void
print_share_note (const TrnLiftFindings *lift, const TrnScene *scene)
{
  const TrnFinding *worst = NULL;
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->verdict != TRN_VERDICT_NOTE || f->check != TRN_CHECK_LOAD_SHARE
          || g_strcmp0 (f->item, "tail-height") != 0)
        continue;
      if (worst == NULL || is_worse_height (f, worst))
        worst = f;
    }
  if (worst == NULL)
    return;
  g_autofree char *note = trn_words_table_share_note (scene->programme->plan,
                                                      &scene->programme->runs[lift->lift], worst);
  print_wrapped (note);
}

/* What the plan leaves out of each gear, or of rigging without gear. */
static void
print_not_given (const TrnLiftFindings *lift, const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  const TrnLiftRun *run = &scene->programme->runs[lift->lift];
  for (guint k = 0; k <= plan->n_gear; k++)
    {
      const char *id = k < plan->n_gear ? plan->gear[k].id : "load";
      g_autoptr (GString) list = g_string_new (NULL);
      for (guint i = 0; i < lift->findings->len; i++)
        {
          const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
          if (f->state == TRN_STATE_NOT_GIVEN && strcmp (f->body, id) == 0)
            g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", f->missing);
        }
      if (list->len == 0)
        continue;
      g_autofree char *whose = trn_words_clean (k < plan->n_gear ? plan->gear[k].name : id, 0);
      g_autofree char *note = trn_words_table_not_given (whose, run, list->str);
      print_wrapped (note);
    }
}

/* Slings without shackles, which nobody has looked at. */
static void
print_no_shackles (const TrnLiftFindings *lift, const TrnScene *scene)
{
  g_autoptr (GString) list = g_string_new (NULL);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *f = &g_array_index (lift->findings, TrnFinding, i);
      if (f->state != TRN_STATE_NOT_GIVEN || strcmp (f->missing, "shackle") != 0)
        continue;
      g_autofree char *sling = trn_words_clean (f->body, 0);
      g_string_append_printf (list, "%s%s", list->len > 0 ? ", " : "", sling);
    }
  if (list->len == 0)
    return;
  g_autofree char *note
      = trn_words_table_not_given (list->str, &scene->programme->runs[lift->lift], "shackle");
  print_wrapped (note);
}

static void
print_notes (const TrnScene *scene, const TrnFindings *findings)
{
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[findings->lifts[i].lift];
      for (guint move = 0; move < run->lift->n_moves; move++)
        print_notes_of (&findings->lifts[i], scene->programme->plan, run, move);
      print_tail_notes (&findings->lifts[i], scene);
      print_share_note (&findings->lifts[i], scene);
      print_not_given (&findings->lifts[i], scene);
      print_no_shackles (&findings->lifts[i], scene);
    }
}

/* Whether this row says where a lift comes closest. Near a seat the margin is what the plan itself
 * leaves: there the place is only of interest where something is wrong. */
static gboolean
tells_place (const CliRow *row, const TrnLiftRun *run)
{
  const TrnFinding *f = row->finding;
  return row->run == run && f->check == TRN_CHECK_CLEARANCE && f->has_points
         && !isnan (row->margin_m) && !(f->has_seated && f->verdict == TRN_VERDICT_PASS);
}

/* The first such row of a lift: the rows are sorted, so it is the worst. NULL: there is none. */
static const CliRow *
find_closest (const GArray *rows, const TrnLiftRun *run)
{
  for (guint r = 0; r < rows->len; r++)
    if (tells_place (&g_array_index (rows, CliRow, r), run))
      return &g_array_index (rows, CliRow, r);
  return NULL;
}

static void
print_closest (const GArray *rows, const TrnScene *scene)
{
  for (guint i = 0; i < scene->programme->n_runs; i++)
    {
      const CliRow *row = find_closest (rows, &scene->programme->runs[i]);
      if (row == NULL)
        continue;
      g_autofree char *where = trn_words_where (scene->programme->plan, row->run, row->finding);
      printf ("\n%s", where);
    }
}

/* What the row is about, whichever move it is in, as a text; NULL: it is about no move. */
static char *
matter_dup (const CliRow *row)
{
  const TrnFinding *f = row->finding;
  if (f->move < 0)
    return NULL;
  const char *texts[] = { f->body, f->obstacle, f->item, f->missing };
  GString *matter = g_string_new (NULL);
  g_string_printf (matter, "%u %d %d %d %d", f->lift, (int)f->check, (int)f->verdict, (int)f->state,
                   isfinite (f->seat_until_m) != 0);
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_string_append (matter, texts[i] != NULL ? "\n=" : "\n");
      g_string_append (matter, texts[i] != NULL ? texts[i] : "");
    }
  return g_string_free (matter, FALSE);
}

/* A number for each matter, the row that is the first of it. */
static guint *
firsts_new (const GArray *rows, guint n)
{
  g_autoptr (GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint *firsts = g_new (guint, n);
  for (guint r = 0; r < n; r++)
    {
      char *matter = matter_dup (&g_array_index (rows, CliRow, r));
      gpointer first = NULL;
      firsts[r] = r;
      if (matter != NULL && g_hash_table_lookup_extended (seen, matter, NULL, &first))
        firsts[r] = GPOINTER_TO_UINT (first);
      else if (matter != NULL)
        g_hash_table_insert (seen, g_steal_pointer (&matter), GUINT_TO_POINTER (r));
      g_free (matter);
    }
  return firsts;
}

/* How many of the rows after it, up to @to, are about the same, in other moves. */
static guint
count_more (const guint *firsts, guint row, guint to)
{
  guint n = 0;
  for (guint r = row + 1; r < to; r++)
    n += firsts[r] == row;
  return n;
}

/* How many rows fail or are not known: they come first. */
static guint
count_open (const GArray *rows)
{
  guint n = 0;
  while (n < rows->len
         && cli_row_rank (g_array_index (rows, CliRow, n).finding) <= TRN_RANK_UNKNOWN)
    n++;
  return n;
}

/* Whether an earlier row has told its cause. */
static gboolean
is_cause_told (const GArray *rows, guint row)
{
  const CliRow *one = &g_array_index (rows, CliRow, row);
  for (guint r = 0; one->cause != 0 && r < row; r++)
    if (cli_row_same_cause (&g_array_index (rows, CliRow, r), one))
      return TRUE;
  return FALSE;
}

/* What is not known for one cause. */
typedef struct
{
  GPtrArray *names; /* each once, whichever moves it is in; owned */
  guint n_clearances, n_rows;
} Unknown;

static void
add_name (GPtrArray *names, char *name)
{
  if (g_ptr_array_find_with_equal_func (names, name, g_str_equal, NULL))
    g_free (name);
  else
    g_ptr_array_add (names, name);
}

/* Of that row's cause. Clearances are named where there is nothing else, and else counted: they are
 * many. */
static Unknown
unknown_make (const GArray *rows, const TrnPlan *plan, guint row, guint to)
{
  const CliRow *one = &g_array_index (rows, CliRow, row);
  g_autoptr (GPtrArray) clearances = g_ptr_array_new_with_free_func (g_free);
  Unknown unknown = { g_ptr_array_new_with_free_func (g_free), 0, 0 };
  for (guint r = row; r < to; r++)
    {
      const CliRow *other = &g_array_index (rows, CliRow, r);
      if (r != row && !cli_row_same_cause (one, other))
        continue;
      unknown.n_rows++;
      const gboolean is_clearance = cli_row_is_clearance (other->finding);
      unknown.n_clearances += is_clearance;
      add_name (is_clearance ? clearances : unknown.names,
                trn_words_obstacle_name (plan, other->finding, 0));
    }
  if (unknown.names->len > 0)
    return unknown;
  g_ptr_array_unref (unknown.names);
  return (Unknown){ g_steal_pointer (&clearances), 0, unknown.n_rows };
}

/* A cause, once, with all that it makes unknown. */
static void
print_cause (const GArray *rows, const TrnPlan *plan, guint row, guint to)
{
  const CliRow *one = &g_array_index (rows, CliRow, row);
  Unknown unknown = unknown_make (rows, plan, row, to);
  const char *const *names = (const char *const *)unknown.names->pdata;
  const guint n_names = unknown.names->len;
  g_autofree char *fault
      = n_names == 1 && unknown.n_clearances == 0
            ? trn_words_fault (plan, one->run, one->finding, unknown.n_rows - 1)
            : trn_words_fault_cause (plan, one->run, one->finding, names, n_names,
                                     unknown.n_clearances, unknown.n_rows);
  printf ("\n%s", fault);
  g_ptr_array_unref (unknown.names);
}

/* What fails or is not known, but for what is told by where the lift comes closest. */
static void
print_faults (const GArray *rows, const TrnPlan *plan)
{
  guint n_open = count_open (rows), n_told = 0, n_left = 0;
  g_autofree guint *firsts = firsts_new (rows, n_open);
  for (guint r = 0; r < n_open; r++)
    {
      const CliRow *row = &g_array_index (rows, CliRow, r);
      if (row->cause != 0 ? is_cause_told (rows, r) : firsts[r] != r)
        continue;
      if (row->finding->check == TRN_CHECK_CLEARANCE && !isfinite (row->finding->seat_until_m)
          && tells_place (row, row->run) && row == find_closest (rows, row->run))
        continue;
      if (n_told++ >= MOST_FAULTS)
        {
          n_left++;
          continue;
        }
      if (row->cause != 0)
        {
          print_cause (rows, plan, r, n_open);
          continue;
        }
      g_autofree char *fault
          = trn_words_fault (plan, row->run, row->finding, count_more (firsts, r, n_open));
      printf ("\n%s", fault);
    }
  if (n_left == 0)
    return;
  g_autofree char *left = trn_words_table_faults_left (n_left);
  print_wrapped (left);
}

/* How much each gear has in hand. */
static void
print_hoists (const TrnScene *scene, const TrnFindings *findings)
{
  const TrnPlan *plan = scene->programme->plan;
  for (guint i = 0; i < findings->n_lifts; i++)
    for (guint k = 0; k < plan->n_gear; k++)
      {
        const TrnLiftRun *run = &scene->programme->runs[findings->lifts[i].lift];
        g_autofree char *hoist
            = trn_words_table_hoist (&plan->gear[k], run, findings->lifts[i].findings);
        if (hoist != NULL)
          printf ("\n%s", hoist);
      }
}

/* What is borne in each lift. */
static void
print_forces (const TrnScene *scene, const TrnFindings *findings)
{
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[findings->lifts[i].lift];
      g_autofree char *forces
          = trn_words_table_forces (scene->programme->plan, run, findings->lifts[i].findings);
      if (forces != NULL)
        printf ("\n%s", forces);
    }
}

/* By what each lift is judged. */
static void
print_sources (const TrnScene *scene, const TrnFindings *findings)
{
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftRun *run = &scene->programme->runs[findings->lifts[i].lift];
      g_autofree char *sources = trn_words_table_sources (run, findings->lifts[i].findings);
      if (sources != NULL)
        printf ("\n%s", sources);
    }
}

/* A verdict on one lift must not read like one on the plan. */
static void
print_lift_alone (const TrnProgramme *programme, const TrnFindings *findings)
{
  if (findings->n_lifts != 1 || programme->n_runs == 1)
    return;
  const TrnLift *lift = programme->runs[findings->lifts[0].lift].lift;
  g_autofree char *alone = trn_words_lift_alone (lift, programme->n_runs);
  print_wrapped (alone);
}

void
cli_paragraphs_print (const GArray *rows, const TrnScene *scene, const TrnFindings *findings)
{
  print_faults (rows, scene->programme->plan);
  print_closest (rows, scene);
  print_hoists (scene, findings);
  print_forces (scene, findings);
  print_notes (scene, findings);
  print_sources (scene, findings);
  print_lift_alone (scene->programme, findings);
}
