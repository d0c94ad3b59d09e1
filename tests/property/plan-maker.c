/* A lift is made move by move: where the load is after each is asked of the oracle, so that a stand
 * can be put under its end, an up-ending finds an axis square to it, and obstacles are aimed at
 * moments of the path. Every choice comes from the seed. */
#include "plan-maker.h"

#include <string.h>

#include "oracle.h"

#define MOST_PIECES 4

/* A component while the programme is made. */
typedef struct
{
  JsonObject *object;
  char *text;              /* the component up to its place */
  char *at;                /* its place; NULL: not on the site at first */
  double radius_m, high_m; /* about its own axis; above its base */
  gboolean flat;           /* stands on a flat base at z = 0 */
  gboolean open;           /* its mesh is not closed */
  gboolean on_site;
  TrnPose pose;
  char *rests_on; /* what is under it; NULL: nothing */
} Piece;

/* A moment at which obstacles can be aimed. */
typedef struct
{
  TrnVec3 centre;
  double radius_m, high_m;
  gboolean open; /* the load's mesh is not closed */
} Aim;

typedef struct
{
  GRand *rand;
  GString *structures, *programme;
  GPtrArray *ids;   /* of structures that stand all the time */
  GPtrArray *nodes; /* JSON kept alive */
  Piece pieces[MOST_PIECES];
  guint n_pieces, n_names;
  GArray *aims; /* of Aim */
  double yard_z;
} Maker;

/* ---- chance ---- */

static double
between (Maker *m, double lo, double hi)
{
  /* Three decimals, so that the text is the number. */
  return round (g_rand_double_range (m->rand, lo, hi) * 1000) / 1000;
}

static gboolean
chance (Maker *m, double share)
{
  return g_rand_double (m->rand) < share;
}

static guint
one_of (Maker *m, guint n)
{
  return (guint)g_rand_int_range (m->rand, 0, (gint32)n);
}

static char *
new_id (Maker *m, const char *word)
{
  return g_strdup_printf ("%s-%u", word, m->n_names++);
}

static JsonObject *
parse (Maker *m, const char *text)
{
  g_autofree char *json = g_strdup (text);
  g_strdelimit (json, "'", '"');
  JsonNode *node = oracle_parse (json);
  g_ptr_array_add (m->nodes, node);
  return json_node_get_object (node);
}

/* ---- solids ---- */

static const struct
{
  const char *file, *unit;
  double scale; /* of the unit, in metres */
} meshes[]
    = { { "wedge.obj", "m", 1 },      { "wedge-mm.obj", "mm", 1e-3 }, { "open.obj", "m", 1 },
        { "soup.obj", "ft", 0.3048 }, { "hollow.obj", "m", 1 },       { "shell.obj", "mm", 1e-3 } };

/* The first are small; an open one, one that is closed round a hollow, and an open one of that
 * size. */
#define N_SMALL_MESHES 4
#define MESH_OPEN 2
#define MESH_HOLLOW 4
#define MESH_SHELL 5

static char *
mesh_text (guint i)
{
  return g_strdup_printf ("'mesh': {'file': '%s', 'unit': '%s', 'up': '%s'}", meshes[i].file,
                          meshes[i].unit, i % 2 == 0 ? "z" : "y");
}

/* What stands on a flat base at its origin, no higher than @size and no wider than twice that. */
static char *
standing_solid (Maker *m, double size, double *radius, double *high)
{
  double w = between (m, 0.3 * size, size), d = between (m, 0.3 * size, size);
  double h = between (m, 0.4 * size, size);
  *radius = 0.5 * w;
  *high = h;
  switch (one_of (m, 5))
    {
    case 0:
      return g_strdup_printf ("'solid': {'kind': 'cylinder', 'diameter': %g, 'height': %g}", w, h);
    case 1:
      return g_strdup_printf ("'solid': {'kind': 'tube', 'outer_diameter': %g, 'inner_diameter':"
                              " %g, 'height': %g}",
                              w, 0.6 * w, h);
    case 2:
      *radius = 0.5 * hypot (w, d);
      return g_strdup_printf (
          "'solid': {'kind': 'group', 'parts': [{'id': 'base', 'solid': {'kind': 'box', 'size':"
          " [%g, %g, %g]}, 'at': {'position': [0, 0, 0]}}, {'id': 'top', 'solid': {'kind':"
          " 'cylinder', 'diameter': %g, 'height': %g}, 'at': {'position': [0, 0, %g], 'turn':"
          " [30, 20, 0]}}]}",
          w, d, 0.5 * h, 0.3 * w, 0.6 * h, 0.4 * h);
    default:
      *radius = 0.5 * hypot (w, d);
      return g_strdup_printf ("'solid': {'kind': 'box', 'size': [%g, %g, %g]}", w, d, h);
    }
}

/* Anything at all. */
static char *
any_solid (Maker *m, double size, double *radius)
{
  double high, a = between (m, 0.2 * size, size), b = between (m, 0.2 * size, size);
  *radius = size;
  switch (one_of (m, 8))
    {
    case 0:
      return g_strdup_printf ("'solid': {'kind': 'beam', 'from': [%g, 0, 0], 'to': [%g, %g, %g],"
                              " 'width': %g, 'depth': %g}",
                              -a, b, between (m, -0.3, 0.3) * size, between (m, -1, 1) * size,
                              0.2 * a, 0.1 * b);
    case 1:
      return g_strdup_printf ("'solid': {'kind': 'round-shaft', 'inner_diameter': %g, 'depth': %g,"
                              " 'wall': %g, 'floor': %g}",
                              a, b, 0.1 * size, chance (m, 0.5) ? 0.2 * b : 0);
    case 2:
      return g_strdup_printf ("'solid': {'kind': 'rect-shaft', 'size': [%g, %g], 'depth': %g,"
                              " 'wall': %g, 'floor': %g}",
                              a, b, b, 0.1 * size, chance (m, 0.5) ? 0.2 * b : 0);
    case 3:
      return g_strdup_printf ("'solid': {'kind': 'overhead-line', 'conductors': [{'from': [%g, 0,"
                              " 0], 'to': [%g, 0, %g], 'sag': %g}, {'from': [%g, 1, 0], 'to': [%g,"
                              " 1, 0], 'sag': 0}]}",
                              -3 * size, 3 * size, 0.1 * a, 0.2 * b, -2 * size, 2 * size);
    case 4:
      return mesh_text (one_of (m, N_SMALL_MESHES));
    case 5:
      return g_strdup_printf (
          "'solid': {'kind': 'ground', 'size': [%g, %g], 'openings': [{'circle':"
          " [0, 0, %g]}]}",
          2 * a, 2 * b, 0.8 * fmin (a, b));
    default:
      {
        char *text = standing_solid (m, size, radius, &high);
        *radius = fmax (*radius, 0.7 * high);
        return text;
      }
    }
}

/* ---- structures ---- */

static void
add_structure (Maker *m, const char *id, const char *solid, const char *at)
{
  GString *s = m->structures;
  g_string_append_printf (s, "%s{'id': '%s', %s, 'at': %s", s->len > 0 ? ",\n" : "", id, solid, at);
  if (chance (m, 0.25))
    g_string_append_printf (s, ", 'keep_clear': %g", between (m, 0, 0.5));
  if (chance (m, 0.25))
    g_string_append_printf (s, ", 'survey_tolerance': %g", between (m, 0, 0.05));
  g_string_append (s, "}");
  if (strcmp (at, "null") != 0)
    g_ptr_array_add (m->ids, g_strdup (id));
}

static char *
at_text (TrnVec3 p, double heading, double pitch, double roll)
{
  return g_strdup_printf ("{'position': [%.17g, %.17g, %.17g], 'turn': [%g, %g, %g]}", p.x, p.y,
                          p.z, heading, pitch, roll);
}

/* Puts something under a flat base at @place; its id, "id/part" where it is a part. */
static char *
put_under (Maker *m, const Piece *piece, TrnVec3 place)
{
  g_autofree char *id = new_id (m, "stand");
  g_autofree char *solid = NULL;
  TrnVec3 at = place;
  const char *part = "";
  double wide = 2 * piece->radius_m;
  if (chance (m, 0.06)) /* too high or too low to rest on */
    at.z += chance (m, 0.5) ? 0.03 : -0.03;
  switch (one_of (m, 4))
    {
    case 0:
      {
        double depth = between (m, 0.5, 5), inner = wide + between (m, 0.2, 1.5);
        solid = g_strdup_printf ("'solid': {'kind': 'round-shaft', 'inner_diameter': %g, 'depth':"
                                 " %g, 'wall': 0.4, 'floor': 0.5}",
                                 inner, depth);
        at.z += depth;
        part = "/floor";
        break;
      }
    case 1:
      solid = g_strdup_printf (
          "'solid': {'kind': 'group', 'parts': [{'id': 'bed', 'solid': {'kind': 'box', 'size': [%g,"
          " %g, 1]}, 'at': {'position': [0, 0, 0]}}, {'id': 'rail', 'solid': {'kind': 'beam',"
          " 'from': [%g, -2, 0], 'to': [%g, 2, 0], 'width': 0.2, 'depth': 0.3}, 'at': {'position':"
          " [0, 0, 1]}}]}",
          wide, 0.4 * wide, wide + 0.5, wide + 0.5);
      at.z -= 1;
      part = "/bed";
      break;
    case 2:
      solid = g_strdup_printf ("'solid': {'kind': 'cylinder', 'diameter': %g, 'height': 0.75}",
                               between (m, 0.3, 1.4) * wide);
      at.z -= 0.75;
      break;
    default:
      solid = g_strdup_printf ("'solid': {'kind': 'box', 'size': [%g, %g, 0.5]}",
                               between (m, 0.3, 1.5) * wide, between (m, 0.3, 1.5) * wide);
      at.z -= 0.5;
    }
  g_autofree char *at_place = at_text (at, between (m, 0, 360), 0, 0);
  add_structure (m, id, solid, at_place);
  return g_strconcat (id, part, NULL);
}

/* ---- components ---- */

static void
add_piece (Maker *m)
{
  Piece *piece = &m->pieces[m->n_pieces];
  g_autofree char *solid = NULL;
  piece->open = chance (m, 0.1);
  piece->flat = !piece->open && chance (m, 0.85);
  if (piece->open)
    {
      solid = mesh_text (MESH_OPEN);
      piece->radius_m = piece->high_m = 1;
    }
  else if (piece->flat)
    solid = standing_solid (m, between (m, 0.8, 3), &piece->radius_m, &piece->high_m);
  else
    {
      solid = any_solid (m, between (m, 0.5, 2), &piece->radius_m);
      piece->high_m = piece->radius_m;
    }
  double h = piece->high_m;
  piece->text = g_strdup_printf (
      "{'id': 'unit-%u', %s, 'mass': 1000, 'points': {'hook': [%g, %g, %g], 'head': [0, 0, %g],"
      " 'heel': [%g, 0.1, 0]}%s",
      m->n_pieces, solid, between (m, -0.2, 0.2), between (m, -0.2, 0.2), h + between (m, 0.2, 3),
      h, 0.4 * piece->radius_m, chance (m, 0.3) ? ", 'keep_clear': 0.15" : "");
  g_autofree char *whole = g_strconcat (piece->text, "}", NULL);
  piece->object = parse (m, whole);
  m->n_pieces++;
}

static void
place_piece (Maker *m, Piece *piece, guint place)
{
  TrnVec3 p = { 9.0 * place + between (m, -1, 1), between (m, -2, 2), between (m, 0, 3) };
  gboolean upright = piece->flat || chance (m, 0.5);
  if (piece->flat && chance (m, 0.15))
    {
      p.z = m->yard_z;
      piece->rests_on = g_strdup ("yard");
    }
  g_autofree char *at = at_text (p, between (m, -180, 180), upright ? 0 : between (m, -40, 40),
                                 upright ? 0 : between (m, -180, 180));
  piece->on_site = TRUE;
  piece->pose = oracle_placement (parse (m, at));
  piece->at = g_strdup (at);
  if (piece->flat && piece->rests_on == NULL && chance (m, 0.8))
    piece->rests_on = put_under (m, piece, p);
}

/* ---- moves ---- */

static char *
tilt_text (Maker *m, const TrnPose *pose)
{
  double by = between (m, -95, 95);
  if (chance (m, 0.5))
    return g_strdup_printf ("{'do': 'tilt', 'by': %g, 'axis': %g%s%s, 'seconds': %g}", by,
                            between (m, -180, 180), chance (m, 0.5) ? ", 'about': 'heel'" : "",
                            chance (m, 0.7) ? ", 'guide': 'fixed', 'carry': [0.5, -1, 0.8]" : "",
                            between (m, 10, 100));
  /* Square to the line from head (0, 0, z) to a tail on the same line of the load. */
  TrnVec3 line = { pose->turn.m[0][2], pose->turn.m[1][2], 0 };
  double axis = hypot (line.x, line.y) > 1e-9 ? atan2 (line.x, -line.y) * 180 / G_PI
                                              : between (m, -180, 180);
  return g_strdup_printf ("{'do': 'tilt', 'by': %g, 'axis': %.17g, 'head': 'head', 'tail': [0, 0,"
                          " %g], 'guide': 'head-plumb', 'seconds': %g}",
                          by, axis, between (m, -2, -0.1), between (m, 10, 100));
}

static char *
slew_text (Maker *m, const Piece *piece, const TrnPose *pose)
{
  double radius = between (m, 2, 10), away = between (m, -3.1, 3.1);
  TrnVec3 at = trn_vec3_add_scaled (pose->position, trn_vec3_make (cos (away), sin (away), 0),
                                    radius + piece->radius_m + 0.5);
  g_autofree char *more = chance (m, 0.6)
                              ? g_strdup_printf (", 'radius_by': %g, 'hoist_by': %g",
                                                 between (m, -0.5, 1) * radius, between (m, -2, 2))
                              : g_strdup ("");
  const char *keeps = chance (m, 0.3)   ? ""
                      : chance (m, 0.5) ? ", 'load_turns': true"
                                        : ", 'load_turns': false";
  return g_strdup_printf ("{'do': 'slew', 'by': %g, 'centre': [%.6f, %.6f]%s%s, 'seconds': %g}",
                          between (m, -200, 200), at.x, at.y, keeps, more, between (m, 20, 200));
}

static char *
move_text (Maker *m, const Piece *piece, const TrnPose *pose)
{
  double seconds = between (m, 5, 120);
  double x = between (m, -4, 4), y = between (m, -4, 4), z = between (m, -2, 3);
  switch (one_of (m, 8))
    {
    case 0:
      return g_strdup_printf ("{'do': 'hoist', 'by': %g, 'seconds': %g}", z, seconds);
    case 1:
      return g_strdup_printf ("{'do': 'travel', 'by': [%g, %g], 'seconds': %g}", x, y, seconds);
    case 2:
      return g_strdup_printf ("{'do': 'move', 'by': [%g, %g, %g], 'turn': %g, 'about': %s,"
                              " 'seconds': %g}",
                              x, y, z, between (m, -150, 150),
                              chance (m, 0.5) ? "'heel'" : "[0.5, -0.3, 1]", seconds);
    case 3:
      return g_strdup_printf ("{'do': 'turn', 'by': %g%s, 'seconds': %g}", between (m, -270, 270),
                              chance (m, 0.5) ? ", 'about': 'heel'" : "", seconds);
    case 4:
      return g_strdup_printf ("{'do': 'wait', 'hold_point': 'look', 'seconds': %g}",
                              chance (m, 0.5) ? 0 : seconds);
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
  JsonObject *move = parse (m, text);
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
      = g_strdup_printf ("{'do': 'hoist', 'by': %g, 'seconds': %g}", by, between (m, 5, 60));
  add_move (m, making, text);
}

static void
add_seat (Maker *m, Making *making, const char *on, const char *end)
{
  GString *s = making->seats;
  g_string_append_printf (s, "%s{'on': '%s', 'at': '%s'", s->len > 0 ? ", " : "", on, end);
  if (chance (m, 0.3))
    g_string_append_printf (s, ", 'until_clear': %g", between (m, 0.65, 1.2));
  if (chance (m, 0.3))
    g_string_append_printf (s, ", 'fit': %g", between (m, 0.002, 0.02));
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
  if (!making->piece->flat || !is_upright (&making->pose) || !chance (m, 0.7))
    return NULL;
  add_hoist (m, making, -between (m, 0.3, 3));
  return put_under (m, making->piece, making->pose.position);
}

static void
make_moves (Maker *m, Making *making)
{
  Piece *piece = making->piece;
  if (piece->rests_on != NULL && chance (m, 0.9))
    add_hoist (m, making, between (m, 0.5, 6));
  for (guint n = one_of (m, 4); n > 0 || making->moves->len == 0; n = n > 0 ? n - 1 : 0)
    {
      g_autofree char *text = move_text (m, piece, &making->pose);
      add_move (m, making, text);
    }
}

/* Up, perhaps a wait, and down to the same place. */
static void
make_up_and_down (Maker *m, Making *making)
{
  double by = between (m, 0.8, 4);
  add_hoist (m, making, by);
  if (chance (m, 0.5))
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
  if (chance (m, 0.2))
    g_string_append_printf (s, ", 'keep_clear': %g", between (m, 0.05, 0.5));
  else if (m->ids->len > 0 && chance (m, 0.3))
    g_string_append_printf (s, ", 'keep_clear': {'%s': %g}",
                            (char *)g_ptr_array_index (m->ids, one_of (m, m->ids->len)),
                            between (m, 0.05, 0.5));
  if (chance (m, 0.35))
    g_string_append_printf (s, ", 'tolerance': {'position': %g, 'tilt_deg': %g, 'heading_deg': %g}",
                            between (m, 0, 0.1), chance (m, 0.5) ? between (m, 0, 1) : 0,
                            chance (m, 0.5) ? between (m, 0, 3) : 0);
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
  if (chance (m, 0.05))
    {
      g_autofree char *at = at_text (trn_vec3_add (piece->pose.position, trn_vec3_make (1, 0, 1)),
                                     between (m, 0, 90), 0, 0);
      making.pose = oracle_placement (parse (m, at));
      g_free (start);
      start = g_strdup_printf (", 'start': %s", at);
    }
  const char *rests_on = start[0] == '\0' && chance (m, 0.95) ? piece->rests_on : NULL;
  if (rests_on != NULL && chance (m, 0.12))
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
      if (lands_on != NULL && chance (m, 0.9))
        add_seat (m, &making, lands_on, "end");
      else if (lands_on == NULL && rests_on == NULL && chance (m, 0.2))
        add_seat (m, &making, "yard", chance (m, 0.5) ? "end" : "both");
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
  g_autofree char *id = new_id (m, "change");
  Piece *piece = &m->pieces[one_of (m, m->n_pieces)], *other = &m->pieces[one_of (m, m->n_pieces)];
  if (piece->on_site && !other->on_site && chance (m, 0.7))
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
      TrnVec3 near = trn_vec3_add (piece->pose.position,
                                   trn_vec3_make (between (m, -4, 4), between (m, -4, 4), -1));
      g_autofree char *at = at_text (near, between (m, 0, 90), 0, 0);
      g_string_append_printf (s, ",\n{'change': '%s', 'add': 'tower', 'at': %s}", id, at);
      *yard_tower = TRUE;
    }
}

static void
make_programme (Maker *m)
{
  guint n_lifts = 1 + one_of (m, 3);
  gboolean tower = FALSE;
  for (guint i = 0; i < n_lifts; i++)
    {
      Piece *piece = &m->pieces[one_of (m, m->n_pieces)];
      while (!piece->on_site)
        piece = &m->pieces[one_of (m, m->n_pieces)];
      make_lift (m, piece);
      if (chance (m, 0.5))
        make_change (m, &tower);
    }
}

/* ---- obstacles ---- */

static void
aim_obstacle (Maker *m)
{
  const Aim *aim = &g_array_index (m->aims, Aim, one_of (m, m->aims->len));
  g_autofree char *id = new_id (m, "aimed");
  double radius, a = between (m, -3.1, 3.1), b = between (m, -1.5, 1.5);
  g_autofree char *solid = any_solid (m, between (m, 0.4, 2.5), &radius);
  TrnVec3 dir = { cos (a) * cos (b), sin (a) * cos (b), sin (b) };
  double away = (aim->radius_m + radius) * between (m, 0.6, 2.2);
  g_autofree char *at = at_text (trn_vec3_add_scaled (aim->centre, dir, away),
                                 between (m, -180, 180), chance (m, 0.5) ? between (m, -90, 90) : 0,
                                 chance (m, 0.5) ? between (m, -180, 180) : 0);
  add_structure (m, id, solid, at);
}

/* Round the load at some moment, or within it: a solid block, a closed hollow, or a pebble. */
static void
swallow (Maker *m)
{
  const Aim *aim = &g_array_index (m->aims, Aim, one_of (m, m->aims->len));
  g_autofree char *id = new_id (m, "swallowed");
  TrnVec3 p = aim->centre;
  g_autofree char *solid = NULL;
  switch (aim->open ? 3 : one_of (m, 3))
    {
    case 0:
      solid = g_strdup ("'solid': {'kind': 'box', 'size': [14, 13, 12]}");
      p.z -= 6;
      break;
    case 1:
      solid = mesh_text (MESH_HOLLOW);
      p.z -= 6;
      break;
    case 3:
      solid = mesh_text (MESH_SHELL);
      p.z -= 6;
      break;
    default:
      solid = g_strdup ("'solid': {'kind': 'box', 'size': [0.02, 0.03, 0.02]}");
    }
  g_autofree char *at = at_text (p, between (m, 0, 90), 0, 0);
  add_structure (m, id, solid, at);
}

static void
add_site (Maker *m)
{
  m->yard_z = chance (m, 0.4) ? 0 : -5;
  g_autofree char *at = at_text (trn_vec3_make (0, 0, m->yard_z), 0, 0, 0);
  add_structure (m, "yard",
                 "'solid': {'kind': 'ground', 'size': [90, 80], 'openings': [{'circle': [30, 20,"
                 " 5]}, {'rect': [-20, -20, 6, 5]}]}",
                 at);
  add_structure (m, "tower", "'solid': {'kind': 'box', 'size': [1, 1.5, 8]}", "null");
}

/* The text of the whole plan; what the maker holds is freed. */
static char *
finish (Maker *m)
{
  GString *json = g_string_new ("{'format': 'trunnion-plan', 'version': 1, 'title': 'Random',");
  g_string_append_printf (json, " 'keep_clear': %g,\n'structures': [\n%s],\n'components': [\n",
                          chance (m, 0.1) ? 0 : between (m, 0.05, 0.6), m->structures->str);
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
  g_strdelimit (json->str, "'", '"');
  g_rand_free (m->rand);
  g_string_free (m->structures, TRUE);
  g_string_free (m->programme, TRUE);
  g_ptr_array_unref (m->ids);
  g_ptr_array_unref (m->nodes);
  g_array_unref (m->aims);
  return g_string_free (json, FALSE);
}

char *
plan_maker_make (guint32 seed)
{
  Maker m = { .rand = g_rand_new_with_seed (seed),
              .structures = g_string_new (NULL),
              .programme = g_string_new (NULL),
              .ids = g_ptr_array_new_with_free_func (g_free),
              .nodes = g_ptr_array_new_with_free_func ((GDestroyNotify)json_node_unref),
              .aims = g_array_new (FALSE, FALSE, sizeof (Aim)) };
  add_site (&m);
  guint n = 1 + one_of (&m, 3);
  for (guint i = 0; i < n; i++)
    {
      add_piece (&m);
      if (i == 0 || chance (&m, 0.7))
        place_piece (&m, &m.pieces[i], i);
    }
  make_programme (&m);
  for (guint k = one_of (&m, 4); k > 0; k--)
    aim_obstacle (&m);
  if (chance (&m, 0.2))
    swallow (&m);
  return finish (&m);
}
