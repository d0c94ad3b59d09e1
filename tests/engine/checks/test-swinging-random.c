/* Random lifts by a crane: hoists, travels, carries that turn, slews about the crane or another
 * place with the radius and the height changing. The true pendulum below the tip that the rig of
 * the lift has is integrated over all moves, from rest to rest, by the classical method of Runge
 * and Kutta, with the ramps of the plan; it is nowhere farther out of plumb than what the check has
 * for that move. */
#include <math.h>

#include "gravity.h"
#include "hoist.h"
#include "swinging.h"
#include "test-checks.h"
#include "test-pendulum.h"
#include "test-scale.h"

#define LIFTS 300
#define MOST_MOVES 4
#define GRID 600
#define STEP_S 0.02
/* Of the integration, and of what is between the places of the grid. */
#define NEAR 2e-5
/* The centre of gravity below the hook: 1 m to the hook point, and 5 m. */
#define BELOW_M 6

/* ---- where the tip is ---- */

enum
{
  X,
  Y,
  HEIGHT,
  ROPE,
  N_QUANTITIES,
};

/* Values and derivatives by s. */
typedef struct
{
  double v, d, dd;
} Number;

typedef struct
{
  double seconds, ramp_s;
  Number at[GRID + 1][N_QUANTITIES];
} Way;

static gboolean
way_set (Way *way, const TrnLiftCheck *check, guint move)
{
  static const TrnRigQuantity quantities[N_QUANTITIES]
      = { TRN_RIG_HOOK_X, TRN_RIG_HOOK_Y, TRN_RIG_TIP_HEIGHT, TRN_RIG_TIP_ABOVE_HOOK };
  for (guint i = 0; i <= GRID; i++)
    for (guint k = 0; k < N_QUANTITIES; k++)
      {
        const TrnRigQuestion question = { .rig = check->run->rig,
                                          .hoist = &check->run->lift->rigging.main,
                                          .quantity = quantities[k],
                                          .move = move };
        TrnJet jet;
        if (!trn_rig_ask (&question, trn_interval_point ((double)i / GRID), &jet))
          return FALSE;
        way->at[i][k] = (Number){ trn_interval_middle (jet.v), trn_interval_middle (jet.d),
                                  trn_interval_middle (jet.dd) };
      }
  way->seconds = check->run->motions[move].seconds;
  way->ramp_s = check->scene->programme->plan->loads.ramp.seconds;
  return TRUE;
}

static Number
number_at (const Way *way, guint k, double s)
{
  const double at = CLAMP (s, 0, 1) * GRID;
  const guint i = MIN ((guint)at, GRID - 1);
  const double w = at - i;
  const Number *a = &way->at[i][k], *b = &way->at[i + 1][k];
  return (Number){ a->v + w * (b->v - a->v), a->d + w * (b->d - a->d),
                   a->dd + w * (b->dd - a->dd) };
}

/* s and its derivatives by time, t s after the start. */
static Number
progress (const Way *way, double t)
{
  const double u = fmin (way->ramp_s, way->seconds / 2), r = 1 / (way->seconds - u),
               left_s = way->seconds - t;
  if (t < u)
    return (Number){ r / u * t * t / 2, r / u * t, r / u };
  if (left_s < u)
    return (Number){ 1 - r / u * left_s * left_s / 2, r / u * left_s, -r / u };
  return (Number){ r * (t - u / 2), r, 0 };
}

/* ---- the pendulum ---- */

static void
rates_of (gconstpointer data, double t, const double *x, double *d)
{
  const Way *way = data;
  const Number s = progress (way, t), rope = number_at (way, ROPE, s.v);
  double a[3];
  for (guint k = X; k <= HEIGHT; k++)
    {
      const Number q = number_at (way, k, s.v);
      a[k] = q.dd * s.d * s.d + q.d * s.dd;
    }
  const TrnVec3 force = trn_vec3_make (-a[X], -a[Y], -a[HEIGHT] - TRN_GRAVITY_M_S2);
  const double l = rope.v + BELOW_M;
  test_pendulum_rates (x, force, 1 / l, 2 * rope.d * s.d / l, d);
}

/* The greatest chord from plumb. No step goes over the end of a ramp. */
static double
swing_over (const Way *way, TestPendulum *x)
{
  const TrnVec3 plumb = { 0, 0, -1 };
  const double u = fmin (way->ramp_s, way->seconds / 2);
  const double ends[4] = { 0, u, way->seconds - u, way->seconds };
  double most = 0;
  for (guint part = 0; part < 3; part++)
    {
      const double length_s = ends[part + 1] - ends[part];
      const guint n = 1 + (guint)(length_s / STEP_S);
      for (guint i = 0; i < n && length_s > 0; i++)
        {
          /* Just within, where the rates of both sides differ. */
          const double inside = 1e-9 * length_s;
          test_pendulum_step (rates_of, way, ends[part] + inside + i * (length_s - 2 * inside) / n,
                              (length_s - 2 * inside) / n, x);
          most = fmax (most, trn_vec3_distance (x->n, plumb));
        }
    }
  return most;
}

/* ---- random lifts ---- */

static double
pick (double lo, double hi)
{
  return g_test_rand_double_range (lo, hi);
}

static void
add_move (GString *text)
{
  const double seconds = pick (20, 120);
  switch (g_test_rand_int_range (0, 6))
    {
    case 0:
      g_string_append_printf (text, "{'do': 'hoist', 'by': %.3f", pick (-5, 9));
      break;
    case 1:
      g_string_append_printf (text, "{'do': 'travel', 'by': [%.3f, %.3f]", pick (-8, 8),
                              pick (-8, 8));
      break;
    case 2:
      g_string_append_printf (text,
                              "{'do': 'move', 'by': [%.3f, %.3f, %.3f], 'turn': %.1f, 'about': "
                              "[%.3f, 0.5, 0]",
                              pick (-6, 6), pick (-6, 6), pick (-4, 4), pick (-180, 180),
                              pick (-2, 2));
      break;
    case 3:
      g_string_append_printf (text, "{'do': 'slew', 'by': %.1f, 'centre': [%.3f, %.3f]",
                              pick (-40, 40), pick (-40, -10), pick (-9, 9));
      break;
    case 4:
      g_string_append_printf (text,
                              "{'do': 'slew', 'by': %.1f, 'centre': [-30, 0], 'radius_by': %.3f, "
                              "'hoist_by': %.3f",
                              pick (-90, 90), pick (-9, 6), pick (-4, 4));
      break;
    default:
      g_string_append_printf (text, "{'do': 'turn', 'by': %.1f, 'about': [%.3f, 0, 0]",
                              pick (-300, 300), pick (-1, 1));
    }
  g_string_append_printf (text, ", 'seconds': %.3f}", seconds);
}

static TrnScene *
random_lift (void)
{
  g_autoptr (GString) moves = g_string_new (NULL);
  const guint n = 1 + (guint)g_test_rand_int_range (0, MOST_MOVES);
  for (guint i = 0; i < n; i++)
    {
      g_string_append (moves, i > 0 ? ", " : "");
      add_move (moves);
    }
  g_autofree char *text = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': 0.5, 'loads': {'ramp': {'seconds': "
      "%.3f, 'source': 'made up'}}, 'structures': [], 'components': [{'id': 'unit', 'solid': "
      "{'kind': 'box', 'size': [2, 2, 2]}, 'cog': [0, 0, 1], 'mass': 3000, 'at': {'position': [0, "
      "0, %.3f]}}], "
      "'gear': [{'id': 'crane', 'kind': 'crane', 'at': {'position': [-30, 0, 0]}, 'boom': {'foot':"
      " [0, 2], 'length': 50, 'section': [0.6, 0.8], 'angle': [5, 85]}, 'hook_to_tip': 3}], "
      "'programme': [{'lift': 'one', 'component': 'unit', 'hook_point': [0, 0, 6], 'rigging': "
      "{'main': {'gear': 'crane', 'hook_above': 1, 'block': {'diameter': 0.4, 'height': 0.5, "
      "'mass': "
      "100}, 'slings': [{'id': 'a', 'to': [0, 0, 6], 'diameter': 0.03, 'mass': 9}]}}, 'moves': "
      "[%s]}]}",
      pick (3, 30), pick (5, 20), moves->str);
  g_autoptr (TrnDiags) diags = trn_diags_new ();
  const TrnSceneOptions options = { .jobs = 1 };
  TrnScene *scene = trn_scene_build_take (test_programme (text), &options, diags);
  test_print_diags (diags);
  g_assert_nonnull (scene);
  return scene;
}

static void
test_random (void)
{
  const guint n = test_scaled (LIFTS);
  guint n_moves = 0, n_known = 0;
  double tightest = 0;
  g_autofree Way *way = g_new0 (Way, 1);
  for (guint i = 0; i < n; i++)
    {
      TrnScene *scene = random_lift ();
      const TrnCheckOptions options = { .jobs = 1 };
      TrnLiftCheck check;
      trn_lift_check_init (&check, scene, 0, &options);
      TestPendulum x = { { 0, 0, -1 }, { 0, 0, 0 } };
      gboolean is_known = TRUE;
      for (guint k = 0; k < check.run->lift->n_moves; k++)
        {
          const double chord = check.swinging[k].chord;
          n_moves++;
          is_known = is_known && !isnan (chord) && way_set (way, &check, k);
          if (!is_known)
            continue;
          const double most = swing_over (way, &x);
          g_assert_cmpfloat (most, <=, chord + NEAR);
          if (chord > 0.002)
            tightest = fmax (tightest, most / chord);
          n_known++;
        }
      trn_lift_check_clear (&check);
      trn_scene_free (scene);
    }
  g_test_message ("%u of %u moves known, %.3f of the bound at most", n_known, n_moves, tightest);
  if (n == LIFTS)
    {
      g_assert_cmpuint (n_known, >, n_moves / 3);
      g_assert_cmpfloat (tightest, >, 0.7);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/checks/swinging-random/pendulum", test_random);
  return g_test_run ();
}
