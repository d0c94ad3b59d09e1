/* Two numbers of a finding decide where its verdict stays: what it has in hand to its limit, and
 * the same apart from the limit, so that a limit which was lowered makes nothing better. A finding
 * is worse when either fell. Where it was near one end of a range and is near the other now, only
 * what is in hand says something: what is asked for is both, and neither need have changed.
 *
 * Lengths within what both files were certified to count as the same: so far apart the bounds of
 * one distance may lie on two processors. Other values may differ in their last digits only. */
#include "results-compare.h"

#include <math.h>
#include <string.h>

/* Of a value that is no length: rounding, enclosures that another processor makes wider. */
#define SAME_SHARE 1e-6

/* ---- numbers ---- */

gboolean
trn_results_is_distance (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_APPROACH:
    case TRN_CHECK_SWING_RADIUS:
      return TRUE;
    case TRN_CHECK_TAIL_SWING:
      return finding->item == NULL;
    default:
      return FALSE;
    }
}

double
trn_results_measure (const TrnFinding *finding)
{
  if (!trn_results_is_distance (finding))
    return finding->value;
  if (finding->check == TRN_CHECK_CLEARANCE || finding->check == TRN_CHECK_APPROACH)
    return finding->state == TRN_STATE_SEATED ? NAN : finding->lower_m;
  return finding->sector_distance_m - finding->radius_m;
}

double
trn_results_limit (const TrnFinding *finding)
{
  return trn_results_is_distance (finding) ? finding->required_m : finding->limit;
}

/* The file does not say, but its margin does. */
gboolean
trn_results_is_floor (const TrnFinding *finding)
{
  if (trn_results_is_distance (finding))
    return TRUE;
  double allowance = isnan (finding->allowance_m) ? 0 : finding->allowance_m;
  double above = finding->value - finding->limit, left = finding->margin + allowance;
  return fabs (left - above) < fabs (left + above);
}

/* What is left, apart from the limit; NAN where there is no such number. */
static double
standing_of (const TrnFinding *finding, gboolean is_floor)
{
  if (!trn_results_is_distance (finding))
    return is_floor ? finding->margin + finding->limit : finding->margin - finding->limit;
  /* Of a swing circle of the load nothing is taken off. */
  gboolean has_allowance = finding->check != TRN_CHECK_SWING_RADIUS;
  return trn_results_measure (finding) - (has_allowance ? finding->allowance_m : 0);
}

double
trn_results_in_hand (const TrnFinding *finding)
{
  return trn_results_is_distance (finding) ? standing_of (finding, TRUE) - finding->required_m
                                           : finding->margin;
}

/* ---- one finding ---- */

/* By how much two numbers of these findings may differ and count as the same. */
static double
tolerance_of (const TrnComparison *c, const TrnFinding *before, const TrnFinding *after)
{
  if (trn_results_is_distance (after) || after->unit == TRN_UNIT_M)
    return fmax (c->before->certified_to_m, c->after->certified_to_m);
  double most = fmax (fabs (trn_results_measure (before)), fabs (trn_results_measure (after)));
  return SAME_SHARE * (isnan (most) ? 0 : most);
}

/* How a number differs; one that there is none of is the same as another such, and else unlike. */
typedef struct
{
  gboolean fell, rose, unlike;
} Change;

static void
add_change (Change *change, double before, double after, double tolerance)
{
  if (isnan (before) && isnan (after))
    return;
  change->unlike |= isnan (before) != isnan (after);
  change->fell |= after < before - tolerance;
  change->rose |= after > before + tolerance;
}

/* Of a range, of which the one is near the least and the other near the greatest. */
static gboolean
are_of_both_ends (const TrnFinding *before, const TrnFinding *after)
{
  const double a = before->value - before->limit, b = after->value - after->limit;
  return before->check == TRN_CHECK_REACH && isfinite (before->margin) && isfinite (after->margin)
         && a != 0 && b != 0 && trn_results_is_floor (before) != trn_results_is_floor (after);
}

static gboolean
limit_changed (const TrnFinding *before, const TrnFinding *after)
{
  double a = trn_results_limit (before), b = trn_results_limit (after);
  return isnan (a) != isnan (b) || (!isnan (a) && a != b && !are_of_both_ends (before, after));
}

/* What is at its limit does not say which end that is: then as the other. */
static gboolean
is_floor_of (const TrnFinding *finding, const TrnFinding *other)
{
  return trn_results_is_floor (finding->value != finding->limit ? finding : other);
}

/* Where nothing says which way is better. */
static gboolean
is_unlike (const TrnFinding *before, const TrnFinding *after, double tolerance)
{
  Change value = { 0 };
  add_change (&value, trn_results_measure (before), trn_results_measure (after), tolerance);
  return value.fell || value.rose || value.unlike || before->state != after->state
         || before->inside != after->inside || g_strcmp0 (before->missing, after->missing) != 0;
}

static TrnDifference
kind_of (const TrnComparison *c, const TrnFinding *before, const TrnFinding *after)
{
  gboolean lost = after->verdict == TRN_VERDICT_UNKNOWN && before->verdict != TRN_VERDICT_UNKNOWN;
  if (lost || after->verdict > before->verdict)
    return TRN_DIFFER_WORSE;
  if (before->unit != after->unit)
    return TRN_DIFFER_OTHER;
  const double tolerance = tolerance_of (c, before, after);
  Change standing = { 0 }, in_hand = { 0 };
  const gboolean other_end = are_of_both_ends (before, after);
  if (!other_end)
    add_change (&standing, standing_of (before, is_floor_of (before, after)),
                standing_of (after, is_floor_of (after, before)), tolerance);
  add_change (&in_hand, trn_results_in_hand (before), trn_results_in_hand (after), tolerance);
  if (standing.fell || in_hand.fell)
    return TRN_DIFFER_WORSE;
  if (after->verdict < before->verdict)
    return TRN_DIFFER_BETTER;
  if (standing.unlike || in_hand.unlike || other_end)
    return TRN_DIFFER_OTHER;
  if (standing.rose || in_hand.rose)
    return TRN_DIFFER_BETTER;
  return is_unlike (before, after, tolerance) ? TRN_DIFFER_OTHER : TRN_DIFFER_SAME;
}

static gboolean
is_not_met (const TrnFinding *finding)
{
  return finding->verdict == TRN_VERDICT_FAIL || finding->verdict == TRN_VERDICT_UNKNOWN;
}

static void
add_finding (TrnComparison *c, const char *lift, const TrnFinding *before, const TrnFinding *after)
{
  TrnResultsDifference change
      = { .lift = lift, .before = before, .after = after, .order = c->changes->len };
  if (before == NULL || after == NULL)
    change.kind = before == NULL ? TRN_DIFFER_NEW : TRN_DIFFER_GONE;
  else
    {
      change.kind = kind_of (c, before, after);
      change.limit_changed = limit_changed (before, after);
    }
  change.is_open
      = change.kind < TRN_DIFFER_NEW || (change.kind == TRN_DIFFER_NEW && is_not_met (after));
  c->counts[change.kind]++;
  c->n_open += change.is_open;
  c->n_limits += change.limit_changed;
  c->n_fail += after != NULL && after->verdict == TRN_VERDICT_FAIL;
  c->n_unknown += after != NULL && after->verdict == TRN_VERDICT_UNKNOWN;
  g_array_append_val (c->changes, change);
}

/* ---- order ---- */

static guint
rank_of (const TrnResultsDifference *change)
{
  if (change->is_open && change->after != NULL && change->after->verdict == TRN_VERDICT_FAIL)
    return 0;
  if (change->is_open && change->after != NULL && change->after->verdict == TRN_VERDICT_UNKNOWN)
    return 1;
  return 2 + (guint)change->kind;
}

/* What has least in hand now is first; what has no such number is last. */
static double
order_in_hand (const TrnResultsDifference *change)
{
  double in_hand = change->after != NULL ? trn_results_in_hand (change->after) : NAN;
  return isnan (in_hand) ? INFINITY : in_hand;
}

static int
compare_changes (gconstpointer a, gconstpointer b)
{
  const TrnResultsDifference *one = a, *other = b;
  if (rank_of (one) != rank_of (other))
    return rank_of (one) < rank_of (other) ? -1 : 1;
  double in_hand_one = order_in_hand (one), in_hand_other = order_in_hand (other);
  if (in_hand_one != in_hand_other)
    return in_hand_one < in_hand_other ? -1 : 1;
  return one->order < other->order ? -1 : 1;
}

/* ---- what was checked ---- */

static const TrnResultsMesh *
find_mesh (const TrnResults *results, const char *file)
{
  for (guint i = 0; i < results->meshes->len; i++)
    {
      const TrnResultsMesh *mesh = &g_array_index (results->meshes, TrnResultsMesh, i);
      if (strcmp (mesh->file, file) == 0)
        return mesh;
    }
  return NULL;
}

static void
compare_meshes (TrnComparison *c)
{
  for (guint i = 0; i < c->before->meshes->len; i++)
    {
      const TrnResultsMesh *mesh = &g_array_index (c->before->meshes, TrnResultsMesh, i);
      TrnMeshChange change = { mesh, find_mesh (c->after, mesh->file) };
      if (change.after == NULL || strcmp (mesh->sha256, change.after->sha256) != 0)
        g_array_append_val (c->meshes, change);
    }
  for (guint i = 0; i < c->after->meshes->len; i++)
    {
      TrnMeshChange change = { NULL, &g_array_index (c->after->meshes, TrnResultsMesh, i) };
      if (find_mesh (c->before, change.after->file) == NULL)
        g_array_append_val (c->meshes, change);
    }
}

static void
compare_checks (TrnComparison *c)
{
  for (guint i = 0; i < c->before->checks->len; i++)
    {
      char *check = c->before->checks->pdata[i];
      if (!g_ptr_array_find_with_equal_func (c->after->checks, check, g_str_equal, NULL))
        g_ptr_array_add (c->checks_gone, check);
    }
}

static void
compare_findings (TrnComparison *c)
{
  for (guint i = 0; i < c->after->findings->len; i++)
    {
      const TrnResultsFinding *after = c->after->findings->pdata[i];
      const TrnResultsFinding *before
          = g_hash_table_lookup (c->before->by_identity, after->identity);
      add_finding (c, after->lift, before != NULL ? &before->found : NULL, &after->found);
    }
  for (guint i = 0; i < c->before->findings->len; i++)
    {
      const TrnResultsFinding *before = c->before->findings->pdata[i];
      if (!g_hash_table_contains (c->after->by_identity, before->identity))
        add_finding (c, before->lift, &before->found, NULL);
    }
}

TrnComparison *
trn_results_compare (const TrnResults *before, const TrnResults *after)
{
  TrnComparison *c = g_new0 (TrnComparison, 1);
  c->before = before;
  c->after = after;
  c->changes = g_array_new (FALSE, FALSE, sizeof (TrnResultsDifference));
  c->meshes = g_array_new (FALSE, FALSE, sizeof (TrnMeshChange));
  c->checks_gone = g_ptr_array_new ();
  c->plan_changed = strcmp (before->plan_sha256, after->plan_sha256) != 0;
  compare_meshes (c);
  compare_checks (c);
  compare_findings (c);
  g_array_sort (c->changes, compare_changes);
  return c;
}

gboolean
trn_comparison_is_open (const TrnComparison *comparison)
{
  return comparison->n_open > 0 || comparison->checks_gone->len > 0;
}

void
trn_comparison_free (TrnComparison *comparison)
{
  if (comparison == NULL)
    return;
  g_array_unref (comparison->changes);
  g_array_unref (comparison->meshes);
  g_ptr_array_unref (comparison->checks_gone);
  g_free (comparison);
}
