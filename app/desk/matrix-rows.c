/* matrix-rows.c: a row for the other checks, for each structure and for each part of the gear that
 * moves. Whatever is worst stands in the cell, by the same order as everywhere (room-parts.h). */
#include "matrix-rows.h"

#include <math.h>

#include "gear-words.h"
#include "room-parts.h"
#include "words.h"

static void
row_free (gpointer data)
{
  g_free (((DeskMatrixRow *)data)->findings);
  g_free (data);
}

/* Whether the finding with index @i is worse than the one with index @than, which may be −1. */
static gboolean
is_worse (DeskSession *session, const TrnLiftFindings *lift, guint i, int than)
{
  return than < 0
         || desk_finding_is_worse (session, &g_array_index (lift->findings, TrnFinding, i),
                                   &g_array_index (lift->findings, TrnFinding, than));
}

int
desk_matrix_find_worst (DeskSession *session, const TrnLiftFindings *lift)
{
  int worst = -1;
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->state != TRN_STATE_SEATED
          && !isnan (trn_words_margin_m (finding)) && is_worse (session, lift, i, worst))
        worst = (int)i;
    }
  return worst;
}

/* ---- rows ---- */

static DeskMatrixRow *
make_row (const TrnLiftRun *run, const char *body, gboolean is_part)
{
  DeskMatrixRow *row = g_new (DeskMatrixRow, 1);
  *row = (DeskMatrixRow){ body, -1, is_part, g_new (int, run->lift->n_moves) };
  for (guint i = 0; i < run->lift->n_moves; i++)
    row->findings[i] = -1;
  return row;
}

static void
take_finding (DeskSession *session, DeskMatrixRow *row, const TrnLiftFindings *lift, guint i)
{
  const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
  int *cell = &row->findings[finding->move];
  if (is_worse (session, lift, i, *cell))
    *cell = (int)i;
  if (finding->state != TRN_STATE_SEATED && is_worse (session, lift, i, row->worst))
    row->worst = (int)i;
}

/* Of the load and all that is of gear the one that is worst against what the row is of. */
static void
set_findings (DeskSession *session, GHashTable *rows, const TrnLiftFindings *lift)
{
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      DeskMatrixRow *row = finding->check == TRN_CHECK_CLEARANCE && finding->obstacle != NULL
                               ? g_hash_table_lookup (rows, finding->obstacle)
                               : NULL;
      if (row != NULL)
        take_finding (session, row, lift, i);
    }
}

/* A moving part that nothing is looked at against has what it is itself looked at against. */
static void
set_findings_of_parts (DeskSession *session, GHashTable *rows, const TrnLiftFindings *lift)
{
  g_autoptr (GHashTable) idle = g_hash_table_new (g_str_hash, g_str_equal);
  GHashTableIter iter;
  gpointer id, row;
  g_hash_table_iter_init (&iter, rows);
  while (g_hash_table_iter_next (&iter, &id, &row))
    if (((const DeskMatrixRow *)row)->is_part && ((const DeskMatrixRow *)row)->worst < 0)
      g_hash_table_insert (idle, id, row);
  for (guint i = 0; i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      row = finding->check == TRN_CHECK_CLEARANCE && finding->body != NULL
                ? g_hash_table_lookup (idle, finding->body)
                : NULL;
      if (row != NULL)
        take_finding (session, row, lift, i);
    }
}

/* Before what meets comes what a person is to look at, then what was left out: neither is met. A
 * number alone says no more than that it is known, and comes last. */
static int
rest_of (RenderState state)
{
  switch (state)
    {
    case RENDER_STATE_TIGHT:
      return 0;
    case RENDER_STATE_NOT_CHECKED:
      return 1;
    case RENDER_STATE_NONE:
      return 3;
    default:
      return 2;
    }
}

static gboolean
is_other_worse (DeskSession *session, const TrnLiftFindings *lift, guint i, int than)
{
  if (than < 0)
    return TRUE;
  const TrnFinding *a = &g_array_index (lift->findings, TrnFinding, i);
  const TrnFinding *b = &g_array_index (lift->findings, TrnFinding, than);
  const double tight_m = desk_session_get_tight (session);
  const gboolean are_open = trn_words_rank (a, tight_m) < TRN_RANK_TIGHT
                            || trn_words_rank (b, tight_m) < TRN_RANK_TIGHT;
  const int rest_a = rest_of (desk_finding_state (session, a));
  const int rest_b = rest_of (desk_finding_state (session, b));
  return are_open || rest_a == rest_b ? is_worse (session, lift, i, than) : rest_a < rest_b;
}

/* What is of no single move, as where a crane stands, is of each. */
static DeskMatrixRow *
make_other_row (DeskSession *session, const TrnLiftRun *run, const TrnLiftFindings *lift)
{
  DeskMatrixRow *row = make_row (run, NULL, FALSE);
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE)
        continue;
      const guint first = finding->move < 0 ? 0 : (guint)finding->move;
      const guint end = finding->move < 0 ? run->lift->n_moves : first + 1;
      for (guint m = first; m < end; m++)
        if (is_other_worse (session, lift, i, row->findings[m]))
          row->findings[m] = (int)i;
    }
  return row;
}

/* Before the check, and unless all are wanted, moving parts that nothing is looked at against are
 * left out. */
static void
drop_idle_parts (GPtrArray *rows)
{
  for (guint i = rows->len; i-- > 0;)
    {
      const DeskMatrixRow *row = rows->pdata[i];
      if (row->is_part && row->worst < 0)
        g_ptr_array_remove_index (rows, i);
    }
}

typedef struct
{
  DeskSession *session;
  const TrnLiftFindings *lift;
} Order;

/* Worst first; what has no finding comes last. */
static int
compare_rows (gconstpointer a, gconstpointer b, gpointer data)
{
  const Order *order = data;
  int x = (*(const DeskMatrixRow *const *)a)->worst, y = (*(const DeskMatrixRow *const *)b)->worst;
  if (x == y || x < 0 || y < 0)
    return (x < 0) - (y < 0);
  if (is_worse (order->session, order->lift, (guint)x, y))
    return -1;
  return is_worse (order->session, order->lift, (guint)y, x) ? 1 : 0;
}

GPtrArray *
desk_matrix_rows_new (DeskSession *session, const TrnScene *scene, const TrnLiftRun *run,
                      const TrnLiftFindings *lift, gboolean is_all, guint *n_all)
{
  GPtrArray *rows = g_ptr_array_new_with_free_func (row_free);
  guint n;
  g_autofree TrnObstacle *obstacles = trn_scene_obstacles (scene, run, &n);
  for (guint i = 0; i < n; i++)
    g_ptr_array_add (rows, make_row (run, obstacles[i].body->id, FALSE));
  for (guint i = 0; run->rig != NULL && i < run->rig->n_bodies; i++)
    g_ptr_array_add (rows, make_row (run, run->rig->bodies[i].id, TRUE));
  *n_all = rows->len + 1;
  g_autoptr (GHashTable) by_id = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < rows->len; i++)
    {
      DeskMatrixRow *row = rows->pdata[i];
      g_hash_table_insert (by_id, (gpointer)row->id, row);
    }
  if (lift != NULL)
    set_findings (session, by_id, lift);
  if (lift != NULL && is_all)
    set_findings_of_parts (session, by_id, lift);
  else
    drop_idle_parts (rows);
  Order order = { session, lift };
  g_ptr_array_sort_with_data (rows, compare_rows, &order);
  g_ptr_array_insert (rows, 0, make_other_row (session, run, lift));
  return rows;
}
