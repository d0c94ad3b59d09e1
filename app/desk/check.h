/* check.h: the check in the background, on a site that does not change under it.
 *
 * Lift after lift, so that results appear as they come. They belong to one site; when another one
 * is open, they are stale, and whoever shows them says so. */
#pragma once

#include "document.h"

typedef enum
{
  DESK_CHECK_NONE,
  DESK_CHECK_RUNNING,
  DESK_CHECK_DONE,
  DESK_CHECK_CANCELLED, /* what was not computed is unknown */
} DeskCheckState;

#define DESK_TYPE_CHECK (desk_check_get_type ())
G_DECLARE_FINAL_TYPE (DeskCheck, desk_check, DESK, CHECK, GObject)

/* Signal "changed": state, progress or findings are other ones. */
DeskCheck *desk_check_new (void);

/* Begins to check @site, which must be whole; a check that is running is cancelled first. */
void desk_check_start (DeskCheck *check, DeskSite *site);
void desk_check_cancel (DeskCheck *check);
/* Forgets site and findings: none is open that can be checked. */
void desk_check_clear (DeskCheck *check);

DeskCheckState desk_check_get_state (DeskCheck *check);
double desk_check_get_fraction (DeskCheck *check);
/* The findings so far, with one entry for each lift that is done, in order; borrowed until the next
 * "changed"; NULL before the first. */
const TrnFindings *desk_check_get_findings (DeskCheck *check);
/* The findings of one lift of the plan, borrowed, or NULL while they are not there. */
const TrnLiftFindings *desk_check_get_lift (DeskCheck *check, guint run);
/* The site that they belong to, borrowed; NULL before the first. */
DeskSite *desk_check_get_site (DeskCheck *check);
