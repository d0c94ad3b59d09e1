/* What a beam leans by below which slings are drawn off plumb, against linkages that are put
 * together in balance, which know nothing of the bound. */
#include "beam-hang.h"

#include <locale.h>
#include <math.h>

#include "test-scale.h"

static double
between (GRand *rand, double a, double b)
{
  return g_rand_double_range (rand, a, b);
}

/* In the plane of the beam, x along it and y up. */
typedef struct
{
  double x, y;
} Place;

/* A beam that leans by lean_rad, with a load on it that is turned by load_rad from where it is
 * drawn below the level beam. */
typedef struct
{
  double beam_m, long_m[2], lean_rad, load_rad;
  double pull;    /* along the beam, as a share of the weight */
  Place drawn[2]; /* the points, from the ends of the beam */
} Linkage;

/* Slings off plumb against each other pull alike along the beam, and with both the load. FALSE:
 * the points do not come below the level beam, or cross. */
static gboolean
put_together (GRand *rand, Linkage *linkage)
{
  const double inward = between (rand, 0, 1) < 0.5 ? 1 : -1;
  double high_m[2], aside_m[2];
  *linkage = (Linkage){ .beam_m = between (rand, 1, 6),
                        .lean_rad = between (rand, -0.2, 0.2),
                        .load_rad = between (rand, -0.2, 0.2) };
  for (guint i = 0; i < 2; i++)
    {
      linkage->long_m[i] = between (rand, 1, 5);
      aside_m[i] = linkage->long_m[i] * between (rand, 0, 0.3);
      high_m[i] = sqrt (linkage->long_m[i] * linkage->long_m[i] - aside_m[i] * aside_m[i]);
    }
  linkage->pull = 1 / (high_m[0] / aside_m[0] + high_m[1] / aside_m[1]);
  const double b = linkage->lean_rad, turn = -linkage->load_rad;
  const Place line = { linkage->beam_m * cos (b) - inward * (aside_m[0] + aside_m[1]),
                       linkage->beam_m * sin (b) - high_m[1] + high_m[0] },
              drawn = { line.x * cos (turn) - line.y * sin (turn),
                        line.x * sin (turn) + line.y * cos (turn) };
  /* The first point is as far below its end as its sling is long, and so is the other, with it. */
  const Place by = { linkage->beam_m - drawn.x, -drawn.y };
  const double far = hypot (by.x, by.y), a = linkage->long_m[0], c = linkage->long_m[1],
               along = (far * far + a * a - c * c) / (2 * far), square = a * a - along * along;
  if (!(far > 0) || square < 0)
    return FALSE;
  const double across = by.x > 0 ? -sqrt (square) : sqrt (square);
  linkage->drawn[0]
      = (Place){ (along * by.x - across * by.y) / far, (along * by.y + across * by.x) / far };
  linkage->drawn[1] = (Place){ linkage->drawn[0].x - by.x, linkage->drawn[0].y - by.y };
  return linkage->drawn[0].y < 0 && linkage->drawn[1].y < 0 && drawn.x > 0;
}

static TrnBeamPlay
play_of (const Linkage *linkage, double fan_m)
{
  TrnSling slings[3] = { { .from = TRN_SLING_FROM_BEAM_A },
                         { .from = TRN_SLING_FROM_BEAM_B },
                         { .from = TRN_SLING_FROM_BEAM_B } };
  TrnHoist hoist = { .given = TRUE, .has_beam = TRUE, .slings = slings, .n_slings = 3 };
  const TrnRotation as_drawn = trn_rotation_make (trn_vec3_make (1, 0, 0), 0);
  hoist.beam = (TrnLiftBeam){ .length_m = linkage->beam_m, .below_hook_m = 2 };
  for (guint i = 0; i < 3; i++)
    {
      const guint end = MIN (i, 1);
      const double out_m = end == 0 ? -linkage->beam_m / 2 : linkage->beam_m / 2;
      slings[i].to = trn_vec3_make (out_m + linkage->drawn[end].x + (i == 2 ? fan_m : 0), 0,
                                    linkage->drawn[end].y);
    }
  hoist.beam.between[0] = slings[0].to;
  hoist.beam.between[1] = slings[1].to;
  return trn_beam_hang_play (&hoist, trn_vec3_make (0, 0, 0), 2, &as_drawn, 1000);
}

static void
test_linkages (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (11);
  const guint wanted = test_scaled (2000);
  guint n = 0, n_known = 0, n_near = 0;
  while (n < wanted)
    {
      Linkage linkage;
      if (!put_together (rand, &linkage))
        continue;
      n++;
      const TrnBeamPlay play = play_of (&linkage, 0);
      const TrnBeamLean lean = trn_beam_hang_leans (&play, linkage.beam_m, fabs (linkage.load_rad));
      const double leans_rad = lean.lean_rad;
      if (isnan (leans_rad))
        continue;
      n_known++;
      n_near += leans_rad < fabs (linkage.lean_rad) + 0.2;
      g_assert_cmpfloat (fabs (linkage.lean_rad), <=, leans_rad);
      g_assert_cmpfloat (linkage.pull, <=, lean.pull * (1 + 1e-9));
    }
  g_test_message ("%u known of %u, %u near", n_known, n, n_near);
  g_assert_cmpuint (n_known, >, n / 2);
  g_assert_cmpuint (n_near, >, n_known / 3);
}

/* Plumb slings of two lengths lean the beam by no more than its load, but for what the height
 * between the points loses: δ (1 − cos λ). Drawn off plumb by next to nothing it is the same. */
static void
test_plumb (void)
{
  const double load_rad = 0.05;
  for (guint i = 0; i < 2; i++)
    {
      const double aside = i * 1e-12;
      const Linkage linkage = { .beam_m = 4, .drawn = { { aside, -1 }, { -aside, -3 } } };
      const TrnBeamPlay play = play_of (&linkage, 0);
      const TrnBeamLean lean = trn_beam_hang_leans (&play, 4, load_rad);
      const double leans_rad = lean.lean_rad, most = sin (load_rad) + 2 * (1 - cos (load_rad)) / 4;
      g_assert_cmpfloat (sin (leans_rad), >=, most);
      g_assert_cmpfloat (sin (leans_rad), <, 1.05 * most);
      g_assert_cmpfloat (lean.pull, <, 0.04);
    }
}

/* Slings of an end that spread along the beam, and a lean of a right angle, have no bound. */
static void
test_no_bound (void)
{
  const Linkage linkage = { .beam_m = 4, .drawn = { { 0, -2 }, { 0, -2 } } };
  const TrnBeamPlay one = play_of (&linkage, 0), narrow = play_of (&linkage, 0.019),
                    spread = play_of (&linkage, 0.021);
  g_assert_cmpfloat (trn_beam_hang_leans (&one, 4, 0.1).lean_rad, <, 0.11);
  g_assert_cmpfloat (trn_beam_hang_leans (&narrow, 4, 0.1).lean_rad, <, 0.11);
  g_assert_cmpfloat (trn_beam_hang_leans (&narrow, 4, 0.1).pull, >=, 0.0095);
  g_assert_true (isnan (trn_beam_hang_leans (&spread, 4, 0.1).lean_rad));
  g_assert_true (isnan (trn_beam_hang_leans (&one, 4, G_PI / 2).lean_rad));
  g_assert_true (isnan (trn_beam_hang_leans (&one, 4, NAN).lean_rad));
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scene/beam-lean/linkages", test_linkages);
  g_test_add_func ("/scene/beam-lean/plumb", test_plumb);
  g_test_add_func ("/scene/beam-lean/no-bound", test_no_bound);
  return g_test_run ();
}
