/* forces.h: what hooks, slings, gear and ground bear at a moment of a lift; no GTK. By the
 * functions of the checks, for a span of no width: of that moment alone, and with the gear where
 * the plan has it. What holds over a move the findings say.
 *
 * What is worked out once for a move is kept: of one thread at a time. */
#pragma once

#include "scene.h"
#include "slings.h"

typedef struct _DeskForces DeskForces;

/* Of the lift @run; @scene is borrowed. */
DeskForces *desk_forces_new (const TrnScene *scene, guint run);
void desk_forces_free (DeskForces *forces);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (DeskForces, desk_forces_free)

/* All are NAN where there is no such value: @hoist does not hold the load in that move, an input is
 * left out, or the hook is beyond reach. */

/* What part of the load hangs on the hook, with the factor on its mass. A hook that would have to
 * push has none of it, and the other all, no more: but for a turning frame, whose pivot keeps the
 * tail down. Then it is below 0 there, and more than all of it at the main hook. */
double desk_forces_load_kg (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
/* Whether the hook would have to push and cannot; whether it keeps the tail down instead. */
gboolean
desk_forces_is_slack (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
gboolean
desk_forces_keeps_down (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
/* The load as a share of all of it. */
double desk_forces_share (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
/* The load with block, beam, slings and shackles; at rest. */
double desk_forces_hook_kg (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
/* Of a leg, with the dynamic factor: the greatest that it can have. Legs below a beam whose load
 * hangs parallel to it have that of their own end; of any other beam, that of the end with more. */
double desk_forces_tension_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                              double progress);
/* Whether that leg, or with it another, may have to push and cannot: what it pulls with then says
 * nothing. */
gboolean desk_forces_leg_is_slack (DeskForces *forces, const TrnHoist *hoist, guint sling,
                                   guint move, double progress);
/* Of its shackle: the straight pull that takes as much of it. */
double desk_forces_shackle_n (DeskForces *forces, const TrnHoist *hoist, guint sling, guint move,
                              double progress);
/* Of the beam, likewise: @item is one of those that are of a beam. */
double desk_forces_beam (DeskForces *forces, const TrnHoist *hoist, TrnSlingsItem item, guint move,
                         double progress);
/* Of all legs of the hook. */
double desk_forces_greatest_tension_n (DeskForces *forces, const TrnHoist *hoist, guint move,
                                       double progress);
/* From the level, downwards. */
double desk_forces_leg_angle_rad (DeskForces *forces, const TrnHoist *hoist, guint sling,
                                  guint move, double progress);
/* The dynamic hook load as a share of what the gear may lift there. */
double
desk_forces_utilisation (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);
/* The greatest below a support of the gear. */
double
desk_forces_pressure_pa (DeskForces *forces, const TrnHoist *hoist, guint move, double progress);

/* The input of the plan that is left out, static; NULL where none is: of what the hook carries, and
 * of what legs bear. */
const char *desk_forces_hook_missing (DeskForces *forces, const TrnHoist *hoist, guint move);
const char *desk_forces_tension_missing (DeskForces *forces, const TrnHoist *hoist, guint move);
