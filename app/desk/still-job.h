/* still-job.h: a picture of the view, drawn and written on a thread.
 *
 * The job has a context of its own and a draw list that nobody else has; nothing of the window is
 * touched. Everything here is called on the main thread, and tells there. */
#pragma once

#include "document.h"
#include "picture.h"

typedef struct _DeskStillJob DeskStillJob;

typedef enum
{
  DESK_STILL_WRITTEN,
  DESK_STILL_STOPPED, /* nothing was written */
  DESK_STILL_FAILED,
} DeskStillOutcome;

/* What the job tells while somebody listens. */
typedef struct
{
  /* How much is drawn, 0 … 1; at 1 it is being written. */
  void (*progress) (double done, gpointer data);
  /* The last that is told. @reason: one sentence when it has failed, else NULL. */
  void (*ended) (DeskStillOutcome outcome, const char *reason, gpointer data);
  gpointer data;
} DeskStillListener;

/* Begins. @list, which is taken, borrows meshes of @site. Sizes as in RenderPictureOptions. The
 * program stays until the job has ended, also when its last window has closed. */
DeskStillJob *desk_still_job_start (DeskSite *site, RenderDrawList *list,
                                    const RenderCamera *camera, const RenderPictureOptions *options,
                                    const char *path, DeskStillListener listener);
/* Stops it as soon as may be; it still tells its end. */
void desk_still_job_stop (DeskStillJob *job);
/* Stops it, and nobody listens any longer. */
void desk_still_job_abandon (DeskStillJob *job);
