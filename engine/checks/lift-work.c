#include "lift-work.h"

void
trn_lift_work_init (TrnLiftWork *work, const TrnScene *scene, guint run,
                    const TrnCheckOptions *options)
{
  trn_lift_check_init (&work->check, scene, run, options);
  const TrnLiftCheck *check = &work->check;
  work->swings = g_new0 (TrnSwing, check->run->lift->n_moves);
  work->seated = g_new0 (TrnSeated, check->n_obstacles);
  work->left_out = g_array_new (FALSE, FALSE, sizeof (TrnBodyPair));
  work->pairs = trn_pairs_list (check, work->left_out);
  if (check->run->rig != NULL)
    work->tails = g_new0 (TrnTailSwing, check->run->rig->n_places);
}

void
trn_lift_work_set_key (TrnLiftWork *work)
{
  if (work->check.options->cache != NULL)
    work->key = trn_lift_key_new (&work->check);
}

void
trn_lift_work_clear (TrnLiftWork *work)
{
  for (guint i = 0; i < work->check.n_obstacles; i++)
    trn_seated_clear (&work->seated[i]);
  g_free (work->swings);
  g_free (work->seated);
  g_free (work->tails);
  g_array_unref (work->pairs);
  g_clear_pointer (&work->left_out, g_array_unref);
  g_clear_pointer (&work->key, trn_lift_key_free);
  trn_lift_check_clear (&work->check);
}
