#include "finding.h"

#include <math.h>
#include <string.h>

void
trn_finding_clear (TrnFinding *finding)
{
  g_clear_pointer (&finding->contacts, g_array_unref);
  g_clear_pointer (&finding->items, g_array_unref);
  g_clear_pointer (&finding->numbers, g_array_unref);
  g_clear_pointer (&finding->allowance_parts, g_array_unref);
}

const TrnLiftFindings *
trn_findings_get_lift (const TrnFindings *findings, guint lift)
{
  for (guint i = 0; findings != NULL && i < findings->n_lifts; i++)
    if (findings->lifts[i].lift == lift)
      return &findings->lifts[i];
  return NULL;
}

/* ---- seats ---- */

/* Whether a body is that seat, or a part of it. */
static gboolean
is_of_seat (const char *body, const char *seat)
{
  gsize length = strlen (seat);
  return strncmp (body, seat, length) == 0 && (body[length] == '\0' || body[length] == '/');
}

/* The load lies inside the seat at that end of the lift, or beside it, or that is not known. */
static gboolean
is_wrong_on_seat (const GArray *list, const char *body, gboolean at_end)
{
  for (guint i = 0; i < list->len; i++)
    {
      const TrnFinding *f = &g_array_index (list, TrnFinding, i);
      gboolean is_in_doubt = f->verdict == TRN_VERDICT_FAIL || f->verdict == TRN_VERDICT_UNKNOWN;
      if (f->check == TRN_CHECK_SEAT && is_in_doubt && f->at_end == at_end
          && is_of_seat (body, f->obstacle))
        return TRUE;
    }
  return FALSE;
}

/* A contact that the seat does not allow. */
static gboolean
is_in_contact (const TrnFinding *finding, double time_s)
{
  for (guint i = 0; finding->contacts != NULL && i < finding->contacts->len; i++)
    {
      TrnInterval span = g_array_index (finding->contacts, TrnInterval, i);
      if (time_s >= span.lo && time_s <= span.hi)
        return TRUE;
    }
  return FALSE;
}

gboolean
trn_finding_is_on_seat (const GArray *list, const TrnFinding *finding, double time_s)
{
  const TrnInterval *seat_s = &finding->seat_s;
  return finding->has_seated && time_s > seat_s->lo && time_s < seat_s->hi
         && !is_in_contact (finding, time_s)
         && !is_wrong_on_seat (list, finding->obstacle, isfinite (seat_s->lo));
}

gboolean
trn_finding_is_seated (const GArray *list, const TrnFinding *finding, double time_s)
{
  return finding->verdict != TRN_VERDICT_UNKNOWN && trn_finding_is_on_seat (list, finding, time_s);
}

/* ---- what a finding has ---- */

gboolean
trn_finding_is_unhung (const TrnFinding *finding)
{
  return g_strcmp0 (finding->missing, TRN_MISSING_ATTITUDE) == 0
         || g_strcmp0 (finding->missing, TRN_MISSING_ATTITUDE_BEFORE) == 0
         || g_strcmp0 (finding->missing, TRN_MISSING_HUNG_SEAT) == 0
         || g_strcmp0 (finding->missing, TRN_MISSING_HOLDER) == 0;
}

void
trn_finding_add_number (TrnFinding *finding, const char *what, double value, TrnUnit unit)
{
  TrnFindingNumber number = { what, value, unit };
  if (finding->numbers == NULL)
    finding->numbers = g_array_new (FALSE, FALSE, sizeof number);
  g_array_append_val (finding->numbers, number);
}

double
trn_finding_number (const TrnFinding *finding, const char *what)
{
  for (guint i = 0; finding->numbers != NULL && i < finding->numbers->len; i++)
    if (strcmp (g_array_index (finding->numbers, TrnFindingNumber, i).what, what) == 0)
      return g_array_index (finding->numbers, TrnFindingNumber, i).value;
  return NAN;
}

gboolean
trn_finding_is_holder (const TrnFinding *finding)
{
  return finding->check == TRN_CHECK_RIGGING && g_strcmp0 (finding->item, "holder") == 0
         && g_strcmp0 (finding->missing, TRN_MISSING_HOLDER) == 0;
}

/* ---- kept by a cache ---- */

/* Whoever adds a text or a list to a finding adds it below. */
#if GLIB_SIZEOF_VOID_P == 8
G_STATIC_ASSERT (sizeof (TrnFinding) == 632);
#endif

#define N_TEXTS 10

/* All but those within lists, which are static. */
static void
list_texts (TrnFinding *finding, const char **texts[N_TEXTS])
{
  texts[0] = &finding->body;
  texts[1] = &finding->obstacle;
  texts[2] = &finding->missing;
  texts[3] = &finding->item;
  texts[4] = &finding->source;
  texts[5] = &finding->rule;
  texts[6] = &finding->key;
  texts[7] = &finding->key_of;
  texts[8] = &finding->was;
  texts[9] = &finding->is;
}

static gsize
ref_list (GArray *list)
{
  if (list == NULL)
    return 0;
  g_array_ref (list);
  return (gsize)list->len * g_array_get_element_size (list);
}

static gsize
ref_lists (const TrnFinding *finding)
{
  return ref_list (finding->contacts) + ref_list (finding->items) + ref_list (finding->numbers)
         + ref_list (finding->allowance_parts);
}

TrnKeptFinding *
trn_kept_finding_new (const TrnFinding *finding)
{
  TrnFinding copy = *finding;
  const char **texts[N_TEXTS];
  gsize length = 0, at = 0;
  list_texts (&copy, texts);
  for (guint i = 0; i < N_TEXTS; i++)
    length += *texts[i] != NULL ? strlen (*texts[i]) + 1 : 0;
  TrnKeptFinding *kept = g_atomic_rc_box_alloc (sizeof *kept + length);
  for (guint i = 0; i < N_TEXTS; i++)
    if (*texts[i] != NULL)
      {
        const gsize size = strlen (*texts[i]) + 1;
        *texts[i] = memcpy (kept->texts + at, *texts[i], size);
        at += size;
      }
  kept->finding = copy;
  kept->bytes = ref_lists (&copy);
  return kept;
}

void
trn_kept_finding_clear (gpointer kept)
{
  trn_finding_clear (&((TrnKeptFinding *)kept)->finding);
}

TrnFinding
trn_kept_finding_dup (const TrnKeptFinding *kept)
{
  ref_lists (&kept->finding);
  return kept->finding;
}

static void
free_kept (TrnLiftFindings *findings)
{
  for (guint i = 0; findings->kept != NULL && i < findings->findings->len; i++)
    if (findings->kept[i] != NULL)
      g_atomic_rc_box_release_full (findings->kept[i], trn_kept_finding_clear);
  g_clear_pointer (&findings->kept, g_free);
}

/* ---- all of them ---- */

void
trn_findings_free (TrnFindings *findings)
{
  if (findings == NULL)
    return;
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      GArray *list = findings->lifts[i].findings;
      for (guint k = 0; k < list->len; k++)
        trn_finding_clear (&g_array_index (list, TrnFinding, k));
      free_kept (&findings->lifts[i]);
      g_array_unref (list);
      g_clear_pointer (&findings->lifts[i].left_out, g_array_unref);
    }
  g_free (findings->lifts);
  g_free (findings);
}

TrnFindings *
trn_findings_dup_lift (const TrnFindings *findings, guint lift)
{
  const TrnLiftFindings *from = trn_findings_get_lift (findings, lift);
  if (from == NULL)
    return NULL;
  const guint n = from->findings->len;
  TrnFindings *copy = g_memdup2 (findings, sizeof *findings);
  TrnLiftFindings *to = copy->lifts = g_memdup2 (from, sizeof *from);
  copy->n_lifts = 1;
  to->findings = g_array_sized_new (FALSE, FALSE, sizeof (TrnFinding), n);
  g_array_append_vals (to->findings, from->findings->data, n);
  for (guint i = 0; i < n; i++)
    ref_lists (&g_array_index (to->findings, TrnFinding, i));
  if (from->left_out != NULL)
    g_array_ref (from->left_out);
  if (from->kept != NULL)
    to->kept = g_memdup2 (from->kept, n * sizeof *from->kept);
  for (guint i = 0; to->kept != NULL && i < n; i++)
    if (to->kept[i] != NULL)
      g_atomic_rc_box_acquire (to->kept[i]);
  return copy;
}

/* Proven is left at any moment at which the distance is d (gear-along.c): d less what is taken off
 * everywhere; what is left at the worst one; and no less than what is to be kept where d less the
 * allowance is no less, since that is no less than what is taken off any part that leaves too
 * little, and the others leave enough at all moments. */
double
trn_finding_allowance_now_m (const TrnFinding *finding, double required_m, double distance_m)
{
  const double least_m = finding->allowance_m, most_m = finding->everywhere_m,
               left_m = fmax (required_m, finding->lower_m - least_m);
  if (!(most_m > least_m) || isnan (distance_m))
    return least_m;
  double now_m = distance_m - left_m;
  /* Nor is less left by the rounding of this difference. */
  while (now_m > least_m && distance_m < required_m + now_m)
    now_m = nextafter (now_m, -INFINITY);
  return CLAMP (now_m, least_m, most_m);
}

double
trn_finding_margin_m (const TrnFinding *finding)
{
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
    case TRN_CHECK_APPROACH:
      if (finding->state == TRN_STATE_SEATED)
        return NAN;
      return finding->lower_m - (isnan (finding->allowance_m) ? 0 : finding->allowance_m)
             - finding->required_m;
    case TRN_CHECK_SWING_RADIUS:
      return finding->sector_distance_m - finding->radius_m - finding->required_m;
    case TRN_CHECK_TAIL_SWING:
      if (finding->item != NULL)
        return finding->margin;
      return finding->sector_distance_m - finding->radius_m - finding->allowance_m
             - finding->required_m;
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_RIGGING:
      return finding->unit == TRN_UNIT_M ? finding->margin : NAN;
    case TRN_CHECK_RESTING:
      return finding->margin;
    case TRN_CHECK_SEAT:
    case TRN_CHECK_START:
    case TRN_CHECK_STANDING:
    case TRN_CHECK_FOOTING:
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
    case TRN_CHECK_SPEEDS:
    case TRN_CHECK_SWINGING:
      return NAN;
    }
  g_assert_not_reached ();
}
