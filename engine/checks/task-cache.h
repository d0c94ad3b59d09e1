/* task-cache.h: findings and allowances, asked of the caller's cache first. What was cancelled is
 * not kept. */
#pragma once

#include "task-list.h"

typedef TrnFinding (*TrnTaskJudge) (const TrnLiftWork *work, const TrnTask *task);

/* What @judge finds. @kept receives a reference to what owns the texts of a finding that was kept;
 * it may be NULL where there is no cache, and is left alone where the finding is new. */
TrnFinding trn_task_cached_judge (const TrnLiftWork *work, const TrnTask *task, TrnTaskJudge judge,
                                  gpointer *kept);

/* As trn_lift_check_allowance. */
TrnAllowance trn_task_cached_allowance (const TrnLiftWork *work, guint move);
