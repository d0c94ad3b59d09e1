/* ground.h: what supports carry, and what the ground under them does. */
#pragma once

#include "vec3.h"

#define TRN_GROUND_SUPPORTS_MAX 32

typedef struct
{
  double x_m, y_m;
} TrnLevelPoint;

typedef struct
{
  double reaction_n[TRN_GROUND_SUPPORTS_MAX]; /* 0: lifted off */
  guint n_lifted;
  gboolean stands; /* FALSE: the load is not over the footprint, it tips; reactions are NAN */
} TrnReactions;

/* A rigid body on equal elastic supports that cannot pull, under a plumb load at @load_at: the
 * plane of settlement that balances force and moments, without the supports that it leaves. */
TrnReactions trn_ground_reactions (const TrnLevelPoint *supports, guint n_supports,
                                   TrnLevelPoint load_at, double load_n);

/* As long as no support lifts off the reactions are affine in the place of the load: @shares[i]
 * gives R_i / W = x + y · (load x) + z · (load y), so that least and greatest over a path or a box
 * come from its ends. No share below 0 anywhere: none has lifted off, and these are the reactions.
 * FALSE where all supports are in one line, which holds no load beside it. */
gboolean trn_ground_even_shares (const TrnLevelPoint *supports, guint n_supports, TrnVec3 *shares);

/* The greatest reaction of each support however level and stiff the ground is: a rigid body may
 * rock on any three, or two, supports that can hold it. FALSE where none can. */
gboolean trn_ground_worst_reactions (const TrnLevelPoint *supports, guint n_supports,
                                     TrnLevelPoint load_at, double load_n, double *reaction_n);

/* Four legs at ± spread/2 under a load off their middle: F = W (½ ± ex/Sx)(½ ± ey/Sy), a body that
 * shares like a beam both ways. In the order −−, +−, −+, ++. FALSE where a leg would pull. */
gboolean trn_ground_leg_shares (double off_x_m, double off_y_m, double spread_x_m,
                                double spread_y_m, double load_n, double reaction_n[4]);

/* Four supports in a rectangle, given in any order, which may be turned and skew, or wider at one
 * end, by TRN_GROUND_SKEW_SHARE. @ways[0] gives the distance of a load from the middle along one
 * pair of sides as a share of their length, x + y · (load x) + z · (load y), @ways[1] along the
 * other, and
 * @signs where each support is that way: −1 or 1, as F = W (½ + signs[i][0] ex/Sx)(½ + …). FALSE
 * where they do not stand so. */
#define TRN_GROUND_SKEW_SHARE 0.1
gboolean
trn_ground_rectangle (const TrnLevelPoint supports[4], TrnVec3 ways[2], double signs[4][2]);

typedef struct
{
  double greatest_pa, least_pa;
  double contact_m; /* the length that presses */
} TrnPressure;

/* A strip of @width_m and @length_m under a load @off_m from its middle along the length: linear
 * pressure, no pull. FALSE where the load is at its edge or beyond. */
gboolean trn_ground_strip (double load_n, double width_m, double length_m, double off_m,
                           TrnPressure *pressure);

double trn_ground_pad_pa (double load_n, double area_m2);

/* Two tracks along x, at ± gauge/2 in y: each a strip with its share of the load. FALSE where the
 * load is beyond a track or the end of one. */
gboolean trn_ground_tracks (double load_n, double off_x_m, double off_y_m, double gauge_m,
                            double width_m, double length_m, TrnPressure pressure[2]);

/* A mat across the load's foot: how long a part of it bears at the allowed pressure, and what that
 * asks of the mat. Duerr, Effective bearing length of crane mats, 2010. */
typedef struct
{
  double area_m2, bearing_length_m, cantilever_m;
  double pressure_pa; /* of the load alone, which bends the mat */
  double moment_nm;
} TrnMat;

TrnMat trn_ground_mat (double load_n, double mat_weight_n, double allowed_pa, double mat_width_m,
                       double foot_length_m);
