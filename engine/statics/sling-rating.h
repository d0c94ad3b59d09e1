/* sling-rating.h: published factors for slings and shackles. */
#pragma once

#include <glib.h>

/* How much more than one leg a bridle of like legs may hold: EN 13414-1:2003, Table 4, wire rope,
 * by the angle of the legs to the vertical. NAN beyond 60° and for no or more than 4 legs. */
double trn_sling_bridle_factor (guint n_legs, double to_vertical_rad);
/* An endless sling choked: the same table. */
#define TRN_SLING_ENDLESS_CHOKED 1.6

/* Whether a leg is too flat to be used: below this angle from the horizontal, by sling safety
 * sheets. An angle that is no number is too flat. */
#define TRN_SLING_LEAST_ANGLE_DEG 30.0
gboolean trn_sling_is_flat (double from_horizontal_rad);

/* Four matched slings that are not equalised: each diagonal in turn has this much more than its
 * even share. 0027/ND Rev 11.2, 5.6.12. Determinate arrangements: 1. */
#define TRN_SLING_SKEW_FACTOR 1.25
double trn_sling_skew_factor (guint n_legs, gboolean is_equalised);

/* What is left of a bow shackle's capacity under a pull aside by this angle: makers' common table,
 * 1 at 0°, 0.7 at 45°, 0.5 at 90°, and 0 beyond, where it is not allowed. Between the rows the
 * lower value counts: nothing is known of the curve. */
#define TRN_SHACKLE_SIDE_SOURCE "shackle side load: makers' common table"
#define TRN_SHACKLE_SIDE_LEAST 0.5 /* what is left of it at any angle */
double trn_shackle_side_factor (double aside_rad);
