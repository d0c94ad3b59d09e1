/* gauges.h: heights, radii, angles and forces of the gear of a lift at a moment, and what bounds
 * them; no GTK. From the same sums as the checks (rig.h); not certified over time: the checks do
 * that. */
#pragma once

#include "forces.h"
#include "gauge-words.h"
#include "finding.h"
#include "scene.h"

/* What holds the load. */
typedef struct
{
  const TrnHoist *hoist; /* the plan's */
  const TrnGear *gear;   /* NULL: none is named */
  gboolean is_tail;
  const TrnHoist *other; /* that may hold the load as well; NULL: there is none */
} DeskHoist;

#define DESK_MOST_HOISTS 2

/* As it is named: a trolley and a frame hold the tail and have no hook. */
TrnHoistRole desk_hoist_role (const DeskHoist *hoist);
/* Where there is a hook that rigging hangs from. */
gboolean desk_hoist_has_hook (const DeskHoist *hoist);

/* The hoists of the lift; returns how many. */
guint
desk_hoists_of (const TrnPlan *plan, const TrnLiftRun *run, DeskHoist hoists[DESK_MOST_HOISTS]);

/* One line of the strip. */
typedef struct
{
  DeskHoist hoist;
  TrnGauge gauge;
} DeskGauge;

#define DESK_MOST_GAUGES (DESK_MOST_HOISTS * TRN_N_GAUGES)

/* What there is of the lift, whether or not it is wanted; returns how many. */
guint
desk_gauges_of (const TrnPlan *plan, const TrnLiftRun *run, DeskGauge gauges[DESK_MOST_GAUGES]);

/* The name of the window's action that shows it in the strip, without "win.", static. */
const char *desk_gauge_action (TrnGauge gauge);

/* The value at a moment; NAN where there is none, as beyond reach. Any thread. */
double desk_rig_value (const TrnLiftRun *run, const TrnHoist *hoist, TrnRigQuantity quantity,
                       guint move, double progress);
/* @forces: those of the run; NULL where no force is asked for. */
double desk_gauge_value (const TrnLiftRun *run, DeskForces *forces, const DeskGauge *gauge,
                         guint move, double progress);
gboolean desk_gauge_is_force (TrnGauge gauge);

/* How far the wind takes the load aside at a moment: the bound of its move, from @findings, of
 * TrnFinding, all of that lift; the greater one where two moves meet. NAN where it does not hang,
 * where there is no bound, and before the check (@findings NULL). Any thread. */
double
desk_wind_aside_m (const GArray *findings, const TrnLiftRun *run, guint move, double progress);
/* Why there is no line of @gauge; NULL: there is one, or it may still come. @findings: likewise. */
const char *desk_gauge_note (const TrnPlan *plan, const TrnLiftRun *run, const GArray *findings,
                             TrnGauge gauge);

typedef struct
{
  TrnGaugeLimit limit;
  double value;
} DeskGaugeLimit;

/* What the plan sets; returns how many, up to 2. */
guint desk_gauge_limits (const TrnLiftRun *run, const DeskGauge *gauge, DeskGaugeLimit limits[2]);

/* The same as what it has to be at least and at most; NAN: that is not set. */
void desk_gauge_bounds (const TrnLiftRun *run, const DeskGauge *gauge, double *least, double *most);
/* A value of it in words, beside those; owned by the caller. */
char *desk_gauge_text (const TrnLiftRun *run, const DeskGauge *gauge, double value);

/* Of a force, or of what the wind does: the greatest that the checks prove over the moves of the
 * lift, with tolerances, wind and all else that they count; NAN where they prove nothing.
 * @findings: of TrnFinding, all of that lift. FALSE: none looks at it. @is_all: of every move in
 * which they look. */
gboolean desk_gauge_found (const GArray *findings, const DeskGauge *gauge, double *greatest,
                           gboolean *is_all);

/* That of a force of a hook. */
typedef struct
{
  double greatest;
  double used, limit; /* of the limit at most, as a share, and that limit; NAN: there is none */
  gboolean is_any, is_all; /* whether a check looks at it; of every move in which they look */
  gboolean fails;          /* in a move in which no number says how much, as a support lifts off */
  TrnState state;          /* that of it, where it fails so */
} DeskFound;

typedef struct
{
  DeskFound of[TRN_N_GAUGES];
  GArray *slings;   /* of DeskFound: of the tension of each; owned; NULL: of none */
  GArray *shackles; /* the same of their shackles: of what takes most of one */
  DeskFound beam[TRN_N_SLINGS_ITEMS]; /* of those that are of a beam */
} DeskFoundOfHoist;

void desk_found_clear (DeskFoundOfHoist found[DESK_MOST_HOISTS]);

/* The same of all forces of those hooks, in one go. @found: cleared, or all 0. */
void desk_gauges_find (const GArray *findings, const DeskHoist *hoists, guint n_hoists,
                       DeskFoundOfHoist found[DESK_MOST_HOISTS]);

/* What is left up to where the hook can go: the tip above the hook less the least of it, or the
 * highest hook of the window less the hook. NAN where that is not set, or there is no place. */
double
desk_headroom_left_m (const TrnLiftRun *run, const DeskHoist *hoist, guint move, double progress);
