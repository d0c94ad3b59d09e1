/* Where the hook goes is asked of the oracle, and the gear is put where it reaches that, or nearly:
 * a boom a little too short, a window a little too small and a counterweight that meets something
 * are wanted as well. */
#include "gear-maker.h"

#include "oracle.h"

typedef struct
{
  GRand *rand;
  const Oracle *oracle;
  TrnVec3 middle; /* of the hook's way in the first lift */
  double high_m;  /* the highest hook point of all lifts */
} Maker;

static double
between (Maker *m, double lo, double hi)
{
  return round (g_rand_double_range (m->rand, lo, hi) * 1000) / 1000;
}

static gboolean
chance (Maker *m, double share)
{
  return g_rand_double (m->rand) < share;
}

static TrnVec3
hook_at (const OracleLift *lift, guint move, double s)
{
  TrnPose pose = oracle_pose (lift, move, s);
  return trn_pose_apply (&pose, lift->hook);
}

static void
look_at_way (Maker *m)
{
  m->high_m = -INFINITY;
  for (guint i = 0; i < m->oracle->lifts->len; i++)
    {
      const OracleLift *lift = &g_array_index (m->oracle->lifts, OracleLift, i);
      guint n = 0;
      TrnVec3 sum = { 0, 0, 0 };
      for (guint move = 0; move < lift->moves->len; move++)
        for (guint k = 0; k <= 4; k++, n++)
          {
            TrnVec3 hook = hook_at (lift, move, k / 4.0);
            sum = trn_vec3_add (sum, hook);
            m->high_m = fmax (m->high_m, hook.z);
          }
      if (i == 0)
        m->middle = trn_vec3_scale (sum, 1.0 / n);
    }
}

/* ---- gear ---- */

static void
add_crane (Maker *m, GString *text, const char *id)
{
  double away = between (m, 9, 25), toward = between (m, 0, 2 * G_PI), base = between (m, -5, 0);
  double up = between (m, 0.5, 2), need = m->high_m + 8 - base - up;
  double boom = round (hypot (away + 4, need) * between (m, 0.95, 1.6) * 1000) / 1000;
  g_string_append_printf (
      text,
      "{'id': '%s', 'kind': 'crane', 'at': {'position': [%.3f, %.3f, %g], 'turn': [%g, 0, 0]},"
      " 'carrier': {'size': [%g, 2.5, 1.5], 'centre': [%g, 0]}, 'boom': {'foot': [%g, %g],"
      " 'length': %g, 'section': [%g, %g]%s}, 'counterweight': {'tail_radius': %g, 'bottom': %g,"
      " 'top': %g, 'width': %g}, 'capacity': {'configuration': 'made up', 'table': [[%g, 9000],"
      " [%g, 2000]]}",
      id, m->middle.x + away * cos (toward), m->middle.y + away * sin (toward), base,
      between (m, -180, 180), between (m, 3, 7), between (m, -1, 1), between (m, -1, 1.5), up, boom,
      between (m, 0.3, 1), between (m, 0.3, 1), chance (m, 0.7) ? ", 'angle': [25, 82]" : "",
      between (m, 2.5, 6), between (m, 0.8, 1.2), between (m, 1.4, 3), between (m, 2, 4),
      between (m, 3, 8), between (m, 20, 45));
  if (chance (m, 0.8))
    g_string_append_printf (text, ", 'hook_to_tip': %g", between (m, 0.5, 3));
  if (chance (m, 0.4))
    g_string_append_printf (text, ", 'jib': {'length': %g, 'offset': %g, 'section': [0.4, 0.5]}",
                            between (m, 2, 9), between (m, 0, 40));
  if (chance (m, 0.7))
    g_string_append_printf (text, ", 'park': [%g, %g, %g]", between (m, -9, 9), between (m, 4, 9),
                            between (m, 1, 6));
  if (chance (m, 0.5))
    g_string_append_printf (text, ", 'barricade': %g", between (m, 4, 9));
  if (chance (m, 0.3))
    g_string_append_printf (text, ", 'keep_clear': %g", between (m, 0.05, 0.5));
  if (chance (m, 0.3))
    g_string_append_printf (text, ", 'keep_clear_from': {'load': %g, 'yard': 0}",
                            between (m, 0, 0.4));
  g_string_append (text, "}");
}

static void
add_gantry (Maker *m, GString *text)
{
  double high = m->high_m + between (m, 2, 9), x = between (m, 4, 9), y = between (m, 4, 9);
  double base = between (m, -5, 0), top = high - base;
  g_string_append_printf (
      text,
      "{'id': 'gantry', 'kind': 'gantry', 'at': {'position': [%.3f, %.3f, %g], 'turn': [%g, 0,"
      " 0]}, 'legs': [",
      m->middle.x, m->middle.y, base, between (m, -180, 180));
  for (guint i = 0; i < 4; i++)
    g_string_append_printf (text, "%s{'at': [%g, %g], 'size': [0.5, 0.6], 'height': %.3f}",
                            i > 0 ? ", " : "", i & 1 ? x : -x, i & 2 ? y : -y, top);
  g_string_append_printf (text,
                          "], 'header': {'length': %g, 'width': 0.5, 'depth': 0.9, 'underside':"
                          " %.3f%s}, 'trolley': {'size': [1.6, 1.2, 0.7], 'underside': %.3f}",
                          2 * x, top, chance (m, 0.5) ? ", 'spacing': 1.5" : "", top + 0.3);
  double reach = between (m, 2, 12);
  if (chance (m, 0.8))
    g_string_append_printf (text, ", 'window': {'x': [%g, %g], 'y': [%g, %g], 'hook': [%g, %.3f]}",
                            -reach, reach, -reach, reach, between (m, 0, 2), top - 0.5);
  g_string_append (text, "}");
}

/* ---- rigging ---- */

static void
add_slings (Maker *m, GString *text, guint lift, double high)
{
  guint n = (guint)g_rand_int_range (m->rand, 1, 5);
  g_string_append (text, ", 'slings': [");
  for (guint i = 0; i < n; i++)
    g_string_append_printf (text, "%s{'id': 'sling-%u-%u', 'to': [%g, %g, %.3f], 'diameter': %g}",
                            i > 0 ? ", " : "", lift, i, between (m, -0.8, 0.8),
                            between (m, -0.8, 0.8), high - 0.3, between (m, 0.01, 0.06));
  g_string_append (text, "]");
}

static void
add_beam (Maker *m, GString *text, guint lift, double high)
{
  double half = between (m, 0.5, 1.5);
  g_string_append_printf (
      text,
      ", 'beam': {'id': 'beam-%u', 'length': %g, 'width': 0.2, 'depth': 0.3, 'below_hook': %g,"
      " 'between': [[%g, 0, %.3f], [%g, 0.1, %.3f]]}, 'slings': [",
      lift, 2 * half, between (m, 0.3, 1.2), -half, high - 0.3, half, high - 0.3);
  g_string_append_printf (
      text,
      "{'id': 'sling-%u-0', 'from': 'beam-a', 'to': [%g, 0, %.3f], 'diameter': 0.03},"
      " {'id': 'sling-%u-1', 'from': 'beam-b', 'to': [%g, 0.1, %.3f], 'diameter': 0.03},"
      " {'id': 'sling-%u-2', 'to': 'beam-a', 'diameter': 0.02}]",
      lift, -half, high - 0.3, lift, half, high - 0.3, lift);
}

static void
add_moves (Maker *m, GString *text, const OracleLift *lift)
{
  guint n = lift->moves->len, first = (guint)g_rand_int_range (m->rand, 0, (gint32)n);
  if (chance (m, 0.2))
    g_string_append_printf (text, ", 'moves': [%u, %u]", first,
                            (guint)g_rand_int_range (m->rand, (gint32)first, (gint32)n));
}

/* The rigging of one lift. The highest point of the load is that of the hook, so slings begin a
 * little below it. */
static void
add_rigging (Maker *m, GString *text, guint index)
{
  const OracleLift *lift = &g_array_index (m->oracle->lifts, OracleLift, index);
  g_string_append_printf (text, "{'main': {'gear': '%s', 'hook_above': %g",
                          chance (m, 0.6) ? "crane-a" : "gantry", between (m, 0, 4));
  if (chance (m, 0.7))
    g_string_append_printf (text, ", 'block': {'diameter': %g, 'height': %g}", between (m, 0.3, 1),
                            between (m, 0.5, 2));
  if (chance (m, 0.4))
    add_slings (m, text, index, lift->hook.z);
  else if (chance (m, 0.6))
    add_beam (m, text, index, lift->hook.z);
  add_moves (m, text, lift);
  g_string_append (text, "}");
  if (chance (m, 0.3))
    {
      g_string_append_printf (text,
                              ", 'tail': {'gear': 'crane-b', 'point': 'heel',"
                              " 'hook_above': %g",
                              between (m, 0.5, 3));
      add_moves (m, text, lift);
      g_string_append (text, "}");
    }
  if (chance (m, 0.2))
    g_string_append (text, ", 'connected': [['crane-b', 'yard'], ['crane-a/boom', 'gantry']]");
  g_string_append (text, "}");
}

static JsonNode *
parse_taken (GString *text)
{
  g_strdelimit (text->str, "'", '"');
  JsonNode *node = oracle_parse (text->str);
  g_string_free (text, TRUE);
  return node;
}

char *
gear_maker_add (const char *json, guint32 seed)
{
  g_autoptr (Oracle) oracle = oracle_new (json);
  Maker m = { .rand = g_rand_new_with_seed (seed), .oracle = oracle };
  look_at_way (&m);
  JsonObject *plan = json_node_get_object (oracle->root);
  GString *gear = g_string_new ("[");
  add_crane (&m, gear, "crane-a");
  g_string_append (gear, ", ");
  add_gantry (&m, gear);
  g_string_append (gear, ", ");
  add_crane (&m, gear, "crane-b");
  g_string_append (gear, "]");
  json_object_set_member (plan, "gear", parse_taken (gear));
  for (guint i = 0; i < oracle->lifts->len; i++)
    {
      GString *rigging = g_string_new (NULL);
      add_rigging (&m, rigging, i);
      json_object_set_member (g_array_index (oracle->lifts, OracleLift, i).lift, "rigging",
                              parse_taken (rigging));
    }
  g_rand_free (m.rand);
  return json_to_string (oracle->root, TRUE);
}
