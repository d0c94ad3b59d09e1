/* The programme: lifts and changes, in order. */
#include "plan-read.h"

static void
read_swap (TrnReader *reader, const TrnValue *value, TrnChange *change)
{
  static const char *const keys[] = { "component", "with", NULL };
  TrnValue swap = trn_value_member (value, "swap");
  if (!trn_read_object (reader, &swap, keys))
    return;
  change->what = trn_read_reference (reader, &swap, "component", TRUE);
  change->with = trn_read_reference (reader, &swap, "with", TRUE);
  TrnValue with = trn_value_member (&swap, "with");
  if (change->what != NULL && g_strcmp0 (change->what, change->with) == 0)
    trn_read_fault_text (reader, &with, "plan/swap-same", "id", change->with);
}

/* What is done, of the three things that can be; FALSE unless it is just one of them. */
static gboolean
read_change_kind (TrnReader *reader, const TrnValue *value, TrnChange *change)
{
  static const char *const words[] = { "add", "remove", "swap" };
  guint n_found = 0;
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    if (trn_value_member (value, words[i]).node != NULL)
      {
        change->kind = (TrnChangeKind)i;
        n_found++;
      }
  if (n_found != 1)
    trn_read_fault (reader, value, "plan/change-kind");
  return n_found == 1;
}

static void
read_change (TrnReader *reader, const TrnValue *value, TrnChange *change)
{
  static const char *const keys[] = { "change", "name", "add", "at", "remove", "swap", NULL };
  change->pointer = trn_value_pointer_dup (value);
  trn_read_object (reader, value, keys);
  change->id = trn_read_id (reader, value, "change", reader->steps);
  change->name = trn_read_text (reader, value, "name", TRN_OPTIONAL);
  if (change->name == NULL)
    change->name = g_strdup (change->id);
  TrnValue at = trn_value_member (value, "at");
  change->has_at = at.node != NULL;
  change->at = trn_read_placement (reader, &at);
  if (!read_change_kind (reader, value, change))
    return;
  if (change->has_at && change->kind != TRN_CHANGE_ADD)
    trn_read_fault (reader, &at, "plan/change-at");
  if (change->kind == TRN_CHANGE_SWAP)
    read_swap (reader, value, change);
  else
    change->what = trn_read_reference (reader, value,
                                       change->kind == TRN_CHANGE_ADD ? "add" : "remove", FALSE);
  if (trn_plan_find_gear (reader->plan, change->what) != NULL)
    trn_read_check_upright (reader, value, &change->at);
}

static void
read_item (TrnReader *reader, const TrnValue *value, TrnProgrammeItem *item)
{
  TrnPlan *plan = reader->plan;
  if (!trn_read_object (reader, value, NULL))
    return;
  const gboolean is_change = trn_value_member (value, "change").node != NULL;
  item->is_lift = trn_value_member (value, "lift").node != NULL;
  item->index = item->is_lift ? plan->n_lifts : plan->n_changes;
  if (item->is_lift == is_change)
    trn_read_fault (reader, value, "plan/lift-or-change");
  else if (item->is_lift)
    trn_read_lift (reader, value, &plan->lifts[plan->n_lifts++]);
  else
    read_change (reader, value, &plan->changes[plan->n_changes++]);
}

void
trn_read_programme (TrnReader *reader, const TrnValue *document)
{
  TrnValue list = trn_read_member (reader, document, "programme", TRN_REQUIRED);
  if (!trn_read_array (reader, &list))
    return;
  TrnPlan *plan = reader->plan;
  plan->n_programme = trn_value_length (&list);
  plan->programme = g_new0 (TrnProgrammeItem, plan->n_programme);
  plan->lifts = g_new0 (TrnLift, plan->n_programme);
  plan->changes = g_new0 (TrnChange, plan->n_programme);
  for (guint i = 0; i < plan->n_programme; i++)
    {
      TrnValue value = trn_value_element (&list, i);
      read_item (reader, &value, &plan->programme[i]);
    }
}
