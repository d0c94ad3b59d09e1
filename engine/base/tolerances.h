/* tolerances.h: every tolerance of the engine, with its unit, its value and the reason for it.
 *
 * Rounding terms are not tolerances: they are derived where they are used. */
#pragma once

/* How far the triangles of a curved solid may exceed the true solid, unless an option says
 * otherwise. Small against any clearance that is kept on a site, large enough that a shaft 10 m
 * across needs only about 300 facets. */
#define TRN_SOLID_DEVIATION_M 0.5e-3

/* Width of a certified clearance, unless an option says otherwise: a tenth of what a survey of a
 * structure resolves. */
#define TRN_CERTIFY_M 1e-3

/* Below this distance two surfaces count as touching, and a verdict that is still open is a fail:
 * no measurement on a site resolves it. */
#define TRN_CONTACT_M 10e-6

/* Beyond twice the required clearance a bound may be as wide as this share of it. */
#define TRN_FAR_SHARE 0.05

/* Contact spans are outer bounds, at most this much time or this much travel wider than the truth
 * where the approach is not grazing. */
#define TRN_SPAN_S 1e-3
#define TRN_SPAN_M 1e-3

/* A load is taken to rest on its seat when it is clear of it after being raised by this much, and
 * touches it after being lowered by this much: the play of packing and shims. */
#define TRN_SEAT_FIT_M 5e-3

/* How much farther than the required clearance a load must come from its seat before it counts as
 * lifted, unless the plan says otherwise. */
#define TRN_SEAT_CLEAR_MARGIN_M 10e-3

/* A two-hook up-ending is plane: the axis must be square to the line from head to tail within
 * this angle. What a rounded heading in a file amounts to. */
#define TRN_SQUARE_DEG 0.01

/* A load whose centre of gravity is within this angle of plumb below its hook counts as plumb: what
 * rounded coordinates in a file amount to, 2 mm at 10 m. */
#define TRN_PLUMB_DEG 0.01

/* A component whose start differs from where it stands by more than this is elsewhere. */
#define TRN_SAME_PLACE_M 1e-6
#define TRN_SAME_PLACE_RAD 1e-6

/* A mesh whose coordinates lose more than this in single precision is refused: it was written
 * too far from its origin. */
#define TRN_IMPORT_LOSS_M 0.1e-3

/* A leg of a sling whose length would have to change by more than this share is not rigged as
 * planned: what a chain or a wire sling gives under load and what a plan rounds. Common practice,
 * no source. */
#define TRN_SLING_FIT_SHARE 0.005

/* Thickness that a pad below a leg or an outrigger is drawn and looked at with: thinner than any,
 * and thicker than the play that it is raised by. Common practice, no source. */
#define TRN_PAD_THICKNESS_M 0.02

/* Of a pad so much may have nothing below it, an area or a share of the pad, whichever is less:
 * what rounding leaves open between two structures that meet, and edges of mesh files. Common
 * practice, no source. */
#define TRN_UNCARRIED_M2 1e-4
#define TRN_UNCARRIED_SHARE 1e-3

/* How far beside the middle of its track the tail point may lie on a tail trolley: its bearing
 * moves on the trolley by that much. Common practice, no source. */
#define TRN_TRACK_PLAY_M 0.05

/* A load that tips over when it is turned by less than this does not stand: what seats settle and
 * are out of level by. Common practice, no source. */
#define TRN_TIP_LEAST_DEG 3

/* What rests on a slope steeper than this may slide: less than the friction of steel on steel that
 * is wet or greased, 0.1 and more. From memory, no source. */
#define TRN_SLOPE_DEG 5
