/* A lift is made move by move: where the load is after each is asked of the oracle, so that a stand
 * can be put under its end, an up-ending finds an axis square to it, and obstacles are aimed at
 * moments of the path. Every choice comes from the seed. */
#include "plan-maker.h"

#include <stdlib.h>
#include <string.h>

#include "maker-parts.h"

/* ---- components ---- */

static void
add_piece (Maker *m)
{
  Piece *piece = &m->pieces[m->n_pieces];
  g_autofree char *solid = NULL;
  piece->open = maker_chance (m, 0.1);
  piece->flat = !piece->open && maker_chance (m, 0.85);
  if (piece->open)
    {
      solid = maker_mesh_text (MESH_OPEN);
      piece->radius_m = piece->high_m = 1;
    }
  else if (piece->flat)
    solid = maker_standing_solid (m, maker_between (m, 0.8, 3), &piece->radius_m, &piece->high_m);
  else
    {
      solid = maker_any_solid (m, maker_between (m, 0.5, 2), &piece->radius_m);
      piece->high_m = piece->radius_m;
    }
  double h = piece->high_m;
  piece->text = g_strdup_printf (
      "{'id': 'unit-%u', %s, 'mass': 1000, 'points': {'hook': [%g, %g, %g], 'head': [0, 0, %g],"
      " 'heel': [%g, 0.1, 0]}%s",
      m->n_pieces, solid, maker_between (m, -0.2, 0.2), maker_between (m, -0.2, 0.2),
      h + maker_between (m, 0.2, 3), h, 0.4 * piece->radius_m,
      maker_chance (m, 0.3) ? ", 'keep_clear': 0.15" : "");
  g_autofree char *whole = g_strconcat (piece->text, "}", NULL);
  piece->object = maker_parse (m, whole);
  m->n_pieces++;
}

/* Where the top of the piece before is, to stand on it; FALSE where it is none to stand on. */
static gboolean
find_top (Maker *m, guint place, TrnVec3 *top)
{
  if (place == 0)
    return FALSE;
  const Piece *below = &m->pieces[place - 1];
  *top = trn_vec3_add (below->pose.position, trn_vec3_make (0, 0, below->high_m));
  return below->on_site && below->flat;
}

static void
place_piece (Maker *m, Piece *piece, guint place)
{
  TrnVec3 p = { 9.0 * place + maker_between (m, -1, 1), maker_between (m, -2, 2),
                maker_between (m, 0, 3) };
  gboolean upright = piece->flat || maker_chance (m, 0.5);
  if (piece->flat && maker_chance (m, 0.15))
    {
      p.z = m->yard_z;
      piece->rests_on = g_strdup ("yard");
    }
  else if (piece->flat && maker_chance (m, 0.2) && find_top (m, place, &p))
    piece->rests_on = g_strdup_printf ("unit-%u", place - 1);
  g_autofree char *at
      = maker_at_text (p, maker_between (m, -180, 180), upright ? 0 : maker_between (m, -40, 40),
                       upright ? 0 : maker_between (m, -180, 180));
  piece->on_site = TRUE;
  piece->pose = oracle_placement (maker_parse (m, at));
  piece->at = g_strdup (at);
  if (piece->flat && piece->rests_on == NULL && maker_chance (m, 0.8))
    piece->rests_on = maker_put_under (m, piece, p);
}

/* ---- moves ---- */

static char *
tilt_text (Maker *m, const TrnPose *pose)
{
  double by = maker_between (m, -95, 95);
  if (maker_chance (m, 0.5))
    return g_strdup_printf (
        "{'do': 'tilt', 'by': %g, 'axis': %g%s%s, 'seconds': %g}", by, maker_between (m, -180, 180),
        maker_chance (m, 0.5) ? ", 'about': 'heel'" : "",
        maker_chance (m, 0.7) ? ", 'guide': 'fixed', 'carry': [0.5, -1, 0.8]" : "",
        maker_between (m, 10, 100));
  /* Square to the line from head (0, 0, z) to a tail on the same line of the load. */
  TrnVec3 line = { pose->turn.m[0][2], pose->turn.m[1][2], 0 };
  double axis = hypot (line.x, line.y) > 1e-9 ? atan2 (line.x, -line.y) * 180 / G_PI
                                              : maker_between (m, -180, 180);
  return g_strdup_printf ("{'do': 'tilt', 'by': %g, 'axis': %.17g, 'head': 'head', 'tail': [0, 0,"
                          " %g], 'guide': 'head-plumb', 'seconds': %g}",
                          by, axis, maker_between (m, -2, -0.1), maker_between (m, 10, 100));
}

static char *
slew_text (Maker *m, const Piece *piece, const TrnPose *pose)
{
  double radius = maker_between (m, 2, 10), away = maker_between (m, -3.1, 3.1);
  TrnVec3 at = trn_vec3_add_scaled (pose->position, trn_vec3_make (cos (away), sin (away), 0),
                                    radius + piece->radius_m + 0.5);
  /* Where it goes far out while it slews little, the two act on each other most. */
  gboolean outwards = maker_chance (m, 0.3);
  double luff = outwards ? maker_between (m, 1, 4) : maker_between (m, -0.5, 1);
  g_autofree char *more = outwards || maker_chance (m, 0.5)
                              ? g_strdup_printf (", 'radius_by': %g, 'hoist_by': %g", luff * radius,
                                                 maker_between (m, -2, 2))
                              : g_strdup ("");
  double by = outwards ? maker_between (m, -30, 30) : maker_between (m, -200, 200);
  const char *keeps = maker_chance (m, 0.3)   ? ""
                      : maker_chance (m, 0.5) ? ", 'load_turns': true"
                                              : ", 'load_turns': false";
  return g_strdup_printf ("{'do': 'slew', 'by': %g, 'centre': [%.6f, %.6f]%s%s, 'seconds': %g}", by,
                          at.x, at.y, keeps, more, maker_between (m, 20, 200));
}

static char *
move_text (Maker *m, const Piece *piece, const TrnPose *pose)
{
  double seconds = maker_between (m, 5, 120);
  double x = maker_between (m, -4, 4), y = maker_between (m, -4, 4), z = maker_between (m, -2, 3);
  switch (maker_one_of (m, 8))
    {
    case 0:
      return g_strdup_printf ("{'do': 'hoist', 'by': %g, 'seconds': %g}",
                              maker_chance (m, 0.1) ? 0 : z, seconds);
    case 1:
      return g_strdup_printf ("{'do': 'travel', 'by': [%g, %g], 'seconds': %g}", x, y, seconds);
    case 2:
      return g_strdup_printf ("{'do': 'move', 'by': [%g, %g, %g], 'turn': %g, 'about': %s,"
                              " 'seconds': %g}",
                              x, y, z, maker_between (m, -150, 150),
                              maker_chance (m, 0.5) ? "'heel'" : "[0.5, -0.3, 1]", seconds);
    case 3:
      return g_strdup_printf ("{'do': 'turn', 'by': %g%s, 'seconds': %g}",
                              maker_chance (m, 0.9) ? maker_between (m, -270, 270)
                                                    : maker_between (m, -800, 800),
                              maker_chance (m, 0.5) ? ", 'about': 'heel'" : "", seconds);
    case 4:
      return g_strdup_printf ("{'do': 'wait', 'hold_point': 'look', 'seconds': %g}",
                              maker_chance (m, 0.5) ? 0 : seconds);
    case 5:
      return slew_text (m, piece, pose);
    default:
      return tilt_text (m, pose);
    }
}

/* A lift while it is made. */
typedef struct
{
  Piece *piece;
  TrnVec3 hook;
  TrnPose pose;
  GString *moves, *seats;
} Making;

static void
add_aim (Maker *m, const Piece *piece, const TrnPose *pose)
{
  Aim aim = { trn_pose_apply (pose, trn_vec3_make (0, 0, 0.5 * piece->high_m)), piece->radius_m,
              piece->high_m, piece->open };
  g_array_append_val (m->aims, aim);
}

static void
add_move (Maker *m, Making *making, const char *text)
{
  g_string_append_printf (making->moves, "%s%s", making->moves->len > 0 ? ",\n  " : "", text);
  JsonObject *move = maker_parse (m, text);
  TrnPose start = making->pose;
  for (int i = 0; i <= 4; i++)
    {
      making->pose = oracle_move_pose (making->piece->object, making->hook, move, &start, 0.25 * i);
      add_aim (m, making->piece, &making->pose);
    }
}

static void
add_hoist (Maker *m, Making *making, double by)
{
  g_autofree char *text
      = g_strdup_printf ("{'do': 'hoist', 'by': %g, 'seconds': %g}", by, maker_between (m, 5, 60));
  add_move (m, making, text);
}

static void
add_seat (Maker *m, Making *making, const char *on, const char *end)
{
  GString *s = making->seats;
  g_string_append_printf (s, "%s{'on': '%s', 'at': '%s'", s->len > 0 ? ", " : "", on, end);
  if (maker_chance (m, 0.3))
    g_string_append_printf (s, ", 'until_clear': %g", maker_between (m, 0.65, 1.2));
  if (maker_chance (m, 0.3))
    g_string_append_printf (s, ", 'fit': %g", maker_between (m, 0.002, 0.02));
  g_string_append (s, "}");
}

static gboolean
is_upright (const TrnPose *pose)
{
  return pose->turn.m[2][2] > 1 - 1e-12;
}

/* Sets the load down where it is, or back where it came from; what it then rests on. */
static char *
land (Maker *m, Making *making)
{
  if (!making->piece->flat || !is_upright (&making->pose) || !maker_chance (m, 0.7))
    return NULL;
  add_hoist (m, making, -maker_between (m, 0.3, 3));
  return maker_put_under (m, making->piece, making->pose.position);
}

static void
make_moves (Maker *m, Making *making)
{
  Piece *piece = making->piece;
  if (piece->rests_on != NULL && maker_chance (m, 0.9))
    add_hoist (m, making, maker_between (m, 0.5, 6));
  for (guint n = maker_one_of (m, 4); n > 0 || making->moves->len == 0; n = n > 0 ? n - 1 : 0)
    {
      g_autofree char *text = move_text (m, piece, &making->pose);
      add_move (m, making, text);
    }
}

/* Up, perhaps a wait, and down to the same place. */
static void
make_up_and_down (Maker *m, Making *making)
{
  double by = maker_between (m, 0.8, 4);
  add_hoist (m, making, by);
  if (maker_chance (m, 0.5))
    add_move (m, making, "{'do': 'wait', 'seconds': 5}");
  add_hoist (m, making, -by);
}

static void
write_lift (Maker *m, const Making *making, const char *start)
{
  GString *s = m->programme;
  g_string_append_printf (s, "%s{'lift': 'lift-%u', 'component': '%s', 'hook_point': 'hook'%s",
                          s->len > 0 ? ",\n" : "", m->n_names++,
                          json_object_get_string_member (making->piece->object, "id"), start);
  if (maker_chance (m, 0.2))
    g_string_append_printf (s, ", 'keep_clear': %g", maker_between (m, 0.05, 0.5));
  else if (m->ids->len > 0 && maker_chance (m, 0.3))
    g_string_append_printf (s, ", 'keep_clear': {'%s': %g}",
                            (char *)g_ptr_array_index (m->ids, maker_one_of (m, m->ids->len)),
                            maker_between (m, 0.05, 0.5));
  if (maker_chance (m, 0.35))
    g_string_append_printf (s, ", 'tolerance': {'position': %g, 'tilt_deg': %g, 'heading_deg': %g}",
                            maker_between (m, 0, 0.1),
                            maker_chance (m, 0.5) ? maker_between (m, 0, 1) : 0,
                            maker_chance (m, 0.5) ? maker_between (m, 0, 3) : 0);
  g_string_append_printf (s, ", 'seats': [%s],\n 'moves': [%s]}", making->seats->str,
                          making->moves->str);
}

static void
make_lift (Maker *m, Piece *piece)
{
  Making making = { .piece = piece, .pose = piece->pose };
  making.moves = g_string_new (NULL);
  making.seats = g_string_new (NULL);
  JsonObject *points = json_object_get_object_member (piece->object, "points");
  JsonArray *hook = json_object_get_array_member (points, "hook");
  making.hook = trn_vec3_make (json_array_get_double_element (hook, 0),
                               json_array_get_double_element (hook, 1),
                               json_array_get_double_element (hook, 2));
  g_autofree char *start = g_strdup ("");
  g_autofree char *lands_on = NULL;
  if (maker_chance (m, 0.05))
    {
      g_autofree char *at
          = maker_at_text (trn_vec3_add (piece->pose.position, trn_vec3_make (1, 0, 1)),
                           maker_between (m, 0, 90), 0, 0);
      making.pose = oracle_placement (maker_parse (m, at));
      g_free (start);
      start = g_strdup_printf (", 'start': %s", at);
    }
  if (piece->rests_on != NULL && g_str_has_prefix (piece->rests_on, "unit-")
      && !m->pieces[atoi (piece->rests_on + strlen ("unit-"))].on_site)
    g_clear_pointer (&piece->rests_on, g_free);
  const char *rests_on = start[0] == '\0' && maker_chance (m, 0.95) ? piece->rests_on : NULL;
  if (rests_on != NULL && maker_chance (m, 0.12))
    {
      make_up_and_down (m, &making);
      add_seat (m, &making, rests_on, "both");
      lands_on = g_strdup (rests_on);
    }
  else
    {
      make_moves (m, &making);
      lands_on = land (m, &making);
      if (rests_on != NULL)
        add_seat (m, &making, rests_on, "start");
      if (lands_on != NULL && maker_chance (m, 0.9))
        add_seat (m, &making, lands_on, "end");
      else if (lands_on == NULL && rests_on == NULL && maker_chance (m, 0.2))
        add_seat (m, &making, "yard", maker_chance (m, 0.5) ? "end" : "both");
    }
  write_lift (m, &making, start);
  piece->pose = making.pose;
  g_free (piece->rests_on);
  piece->rests_on = g_steal_pointer (&lands_on);
  g_string_free (making.moves, TRUE);
  g_string_free (making.seats, TRUE);
}

/* ---- changes ---- */

static void
make_change (Maker *m, gboolean *yard_tower)
{
  GString *s = m->programme;
  g_autofree char *id = maker_new_id (m, "change");
  Piece *piece = &m->pieces[maker_one_of (m, m->n_pieces)],
        *other = &m->pieces[maker_one_of (m, m->n_pieces)];
  if (piece->on_site && !other->on_site && maker_chance (m, 0.7))
    {
      g_string_append_printf (s, ",\n{'change': '%s', 'swap': {'component': '%s', 'with': '%s'}}",
                              id, json_object_get_string_member (piece->object, "id"),
                              json_object_get_string_member (other->object, "id"));
      other->on_site = TRUE;
      other->pose = piece->pose;
      other->rests_on = piece->flat && other->flat ? g_steal_pointer (&piece->rests_on) : NULL;
      g_clear_pointer (&piece->rests_on, g_free);
      piece->on_site = FALSE;
    }
  else if (*yard_tower)
    {
      g_string_append_printf (s, ",\n{'change': '%s', 'remove': 'tower'}", id);
      *yard_tower = FALSE;
    }
  else
    {
      TrnVec3 near
          = trn_vec3_add (piece->pose.position,
                          trn_vec3_make (maker_between (m, -4, 4), maker_between (m, -4, 4), -1));
      g_autofree char *at = maker_at_text (near, maker_between (m, 0, 90), 0, 0);
      g_string_append_printf (s, ",\n{'change': '%s', 'add': 'tower', 'at': %s}", id, at);
      *yard_tower = TRUE;
    }
}

static void
make_programme (Maker *m)
{
  guint n_lifts = 1 + maker_one_of (m, 3);
  gboolean tower = FALSE;
  for (guint i = 0; i < n_lifts; i++)
    {
      Piece *piece = &m->pieces[maker_one_of (m, m->n_pieces)];
      while (!piece->on_site)
        piece = &m->pieces[maker_one_of (m, m->n_pieces)];
      make_lift (m, piece);
      if (maker_chance (m, 0.5))
        make_change (m, &tower);
    }
}

/* ---- obstacles ---- */

static void
aim_obstacle (Maker *m)
{
  const Aim *aim = &g_array_index (m->aims, Aim, maker_one_of (m, m->aims->len));
  g_autofree char *id = maker_new_id (m, "aimed");
  double radius, a = maker_between (m, -3.1, 3.1), b = maker_between (m, -1.5, 1.5);
  g_autofree char *solid = maker_any_solid (m, maker_between (m, 0.4, 2.5), &radius);
  TrnVec3 dir = { cos (a) * cos (b), sin (a) * cos (b), sin (b) };
  double away = (aim->radius_m + radius) * maker_between (m, 0.6, 2.2);
  g_autofree char *at
      = maker_at_text (trn_vec3_add_scaled (aim->centre, dir, away), maker_between (m, -180, 180),
                       maker_chance (m, 0.5) ? maker_between (m, -90, 90) : 0,
                       maker_chance (m, 0.5) ? maker_between (m, -180, 180) : 0);
  maker_add_structure (m, id, solid, at);
}

/* Round the load at some moment, or within it: a solid block, a closed hollow, or a pebble. */
static void
swallow (Maker *m)
{
  const Aim *aim = &g_array_index (m->aims, Aim, maker_one_of (m, m->aims->len));
  g_autofree char *id = maker_new_id (m, "swallowed");
  TrnVec3 p = aim->centre;
  g_autofree char *solid = NULL;
  switch (aim->open ? 3 : maker_one_of (m, 3))
    {
    case 0:
      solid = g_strdup ("'solid': {'kind': 'box', 'size': [14, 13, 12]}");
      p.z -= 6;
      break;
    case 1:
      solid = maker_mesh_text (MESH_HOLLOW);
      p.z -= 6;
      break;
    case 3:
      solid = maker_mesh_text (MESH_SHELL);
      p.z -= 6;
      break;
    default:
      solid = g_strdup ("'solid': {'kind': 'box', 'size': [0.02, 0.03, 0.02]}");
    }
  g_autofree char *at = maker_at_text (p, maker_between (m, 0, 90), 0, 0);
  maker_add_structure (m, id, solid, at);
}

static void
add_site (Maker *m)
{
  m->yard_z = maker_chance (m, 0.4) ? 0 : -5;
  g_autofree char *at = maker_at_text (trn_vec3_make (0, 0, m->yard_z), 0, 0, 0);
  maker_add_structure (
      m, "yard",
      "'solid': {'kind': 'ground', 'size': [90, 80], 'openings': [{'circle': [30, 20,"
      " 5]}, {'rect': [-20, -20, 6, 5]}]}",
      at);
  maker_add_structure (m, "tower", "'solid': {'kind': 'box', 'size': [1, 1.5, 8]}", "null");
}

static Maker
maker_make (guint32 seed)
{
  return (Maker){ .rand = g_rand_new_with_seed (seed),
                  .structures = g_string_new (NULL),
                  .programme = g_string_new (NULL),
                  .ids = g_ptr_array_new_with_free_func (g_free),
                  .nodes = g_ptr_array_new_with_free_func ((GDestroyNotify)json_node_unref),
                  .aims = g_array_new (FALSE, FALSE, sizeof (Aim)) };
}

static void
maker_clear (Maker *m)
{
  g_rand_free (m->rand);
  g_string_free (m->structures, TRUE);
  g_string_free (m->programme, TRUE);
  g_ptr_array_unref (m->ids);
  g_ptr_array_unref (m->nodes);
  g_array_unref (m->aims);
}

/* The text of the whole plan; what the maker holds is freed. */
static char *
finish (Maker *m)
{
  GString *json = g_string_new ("{'format': 'trunnion-plan', 'version': 1, 'title': 'Random',");
  g_string_append_printf (json, " 'keep_clear': %g,\n'structures': [\n%s],\n'components': [\n",
                          maker_chance (m, 0.1) ? 0 : maker_between (m, 0.05, 0.6),
                          m->structures->str);
  for (guint i = 0; i < m->n_pieces; i++)
    {
      Piece *piece = &m->pieces[i];
      g_string_append_printf (json, "%s%s, 'at': %s}", i > 0 ? ",\n" : "", piece->text,
                              piece->at != NULL ? piece->at : "null");
      g_free (piece->text);
      g_free (piece->at);
      g_free (piece->rests_on);
    }
  g_string_append_printf (json, "],\n'programme': [\n%s]}\n", m->programme->str);
  maker_clear (m);
  g_strdelimit (json->str, "'", '"');
  return g_string_free (json, FALSE);
}

char *
plan_maker_make (guint32 seed)
{
  Maker m = maker_make (seed);
  add_site (&m);
  guint n = 1 + maker_one_of (&m, 3);
  for (guint i = 0; i < n; i++)
    {
      add_piece (&m);
      if (i == 0 || maker_chance (&m, 0.7))
        place_piece (&m, &m.pieces[i], i);
    }
  make_programme (&m);
  for (guint k = maker_one_of (&m, 4); k > 0; k--)
    aim_obstacle (&m);
  if (maker_chance (&m, 0.2))
    swallow (&m);
  return finish (&m);
}

char *
plan_maker_make_wait (guint32 seed, gboolean swapped)
{
  Maker m = maker_make (seed);
  double radius[2];
  char *solid[2], *at[2];
  for (guint i = 0; i < 2; i++)
    solid[i] = maker_any_solid (&m, maker_between (&m, 0.5, 3), &radius[i]);
  for (guint i = 0; i < 2; i++)
    {
      double away = i * (radius[0] + radius[1]) * maker_between (&m, 0, 1.2);
      double heading = maker_between (&m, -3.1, 3.1);
      TrnVec3 p = { away * cos (heading), away * sin (heading), maker_between (&m, -1, 1) };
      at[i] = maker_at_text (p, maker_between (&m, -180, 180), maker_between (&m, -90, 90),
                             maker_between (&m, -180, 180));
    }
  guint load = swapped ? 1 : 0;
  char *json = g_strdup_printf (
      "{'format': 'trunnion-plan', 'version': 1, 'keep_clear': %g, 'structures': [{'id': 'still',"
      " %s, 'at': %s}], 'components': [{'id': 'unit', %s, 'mass': 1, 'at': %s}],\n'programme':"
      " [{'lift': 'up', 'component': 'unit', 'hook_point': [0, 0, 1], 'moves': [{'do': 'wait',"
      " 'seconds': 1}]}]}",
      maker_between (&m, 0, 1), solid[!load], at[!load], solid[load], at[load]);
  for (guint i = 0; i < 2; i++)
    {
      g_free (solid[i]);
      g_free (at[i]);
    }
  maker_clear (&m);
  return g_strdelimit (json, "'", '"');
}
