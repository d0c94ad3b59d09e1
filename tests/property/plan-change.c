/* The mesh files that plans share, and plans made from others. */
#include <glib/gstdio.h>
#include <string.h>

#include "oracle.h"
#include "plan-maker.h"

/* ---- mesh files ---- */

/* Adds a closed prism over three or all four corners of a rectangle, inside out where @inwards. */
static void
add_block (GArray *vertices, GArray *faces, TrnVec3 lo, TrnVec3 hi, guint corners, gboolean inwards)
{
  const double x[] = { lo.x, hi.x, hi.x, lo.x }, y[] = { lo.y, lo.y, hi.y, hi.y };
  guint first = vertices->len + 1;
  for (guint i = 0; i < 2 * corners; i++)
    {
      TrnVec3 v = { x[i % corners], y[i % corners], i < corners ? lo.z : hi.z };
      g_array_append_val (vertices, v);
    }
  g_autoptr (GArray) own = g_array_new (FALSE, FALSE, sizeof (guint));
#define TRIANGLE(a, b, c) g_array_append_vals (own, ((guint[]){ a, b, c }), 3)
  for (guint i = 0; i < corners; i++)
    {
      guint j = (i + 1) % corners;
      TRIANGLE (i, j, corners + j);
      TRIANGLE (i, corners + j, corners + i);
    }
  for (guint i = 1; i + 1 < corners; i++)
    {
      TRIANGLE (0, i + 1, i);
      TRIANGLE (corners, corners + i, corners + i + 1);
    }
#undef TRIANGLE
  for (guint i = 0; i < own->len; i += 3)
    {
      guint *v = &g_array_index (own, guint, i);
      guint f[3] = { first + v[0], first + v[inwards ? 2 : 1], first + v[inwards ? 1 : 2] };
      g_array_append_vals (faces, f, 3);
    }
}

/* Writes the first @n_faces triangles in units of @scale metres. */
static void
write_obj (const char *folder, const char *name, double scale, gboolean up_y,
           const GArray *vertices, const GArray *faces, guint n_faces)
{
  g_autoptr (GString) text = g_string_new ("# made for a test\n");
  for (guint i = 0; i < vertices->len; i++)
    {
      TrnVec3 v = trn_vec3_scale (g_array_index (vertices, TrnVec3, i), 1 / scale);
      g_string_append_printf (text, "v %.9g %.9g %.9g\n", v.x, up_y ? v.z : v.y, up_y ? -v.y : v.z);
    }
  for (guint i = 0; i < n_faces; i++)
    {
      const guint *f = &g_array_index (faces, guint, 3 * i);
      g_string_append_printf (text, "f %u %u %u\n", f[0], f[1], f[2]);
    }
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_assert_true (g_file_set_contents (path, text->str, -1, NULL));
}

static const char *const mesh_names[]
    = { "wedge.obj", "wedge-mm.obj", "open.obj", "soup.obj", "hollow.obj", "shell.obj" };

char *
plan_maker_write_meshes (void)
{
  char *folder = g_dir_make_tmp ("trunnion-property-XXXXXX", NULL);
  g_assert_nonnull (folder);
  g_autoptr (GArray) v = g_array_new (FALSE, FALSE, sizeof (TrnVec3));
  g_autoptr (GArray) f = g_array_new (FALSE, FALSE, sizeof (guint));
  add_block (v, f, trn_vec3_make (-0.6, -0.4, 0), trn_vec3_make (0.7, 0.5, 1.1), 3, FALSE);
  write_obj (folder, "wedge.obj", 1, FALSE, v, f, f->len / 3);
  write_obj (folder, "wedge-mm.obj", 1e-3, TRUE, v, f, f->len / 3);
  write_obj (folder, "open.obj", 1, FALSE, v, f, f->len / 3 - 2);

  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  g_array_set_size (v, 0);
  g_array_set_size (f, 0);
  for (guint i = 0; i < 36; i++)
    {
      TrnVec3 p = { g_rand_double_range (rand, -1, 1), g_rand_double_range (rand, -1, 1),
                    g_rand_double_range (rand, 0, 1) };
      guint index = i + 1;
      g_array_append_val (v, p);
      g_array_append_val (f, index);
    }
  write_obj (folder, "soup.obj", 0.3048, TRUE, v, f, f->len / 3);

  g_array_set_size (v, 0);
  g_array_set_size (f, 0);
  add_block (v, f, trn_vec3_make (-7, -6.5, 0), trn_vec3_make (7, 6.5, 12), 4, FALSE);
  write_obj (folder, "shell.obj", 1e-3, TRUE, v, f, f->len / 3 - 2);
  add_block (v, f, trn_vec3_make (-6.5, -6, 0.5), trn_vec3_make (6.5, 6, 11.5), 4, TRUE);
  write_obj (folder, "hollow.obj", 1, FALSE, v, f, f->len / 3);
  return folder;
}

void
plan_maker_remove_meshes (const char *folder)
{
  for (guint i = 0; i < G_N_ELEMENTS (mesh_names); i++)
    {
      g_autofree char *path = g_build_filename (folder, mesh_names[i], NULL);
      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
}

/* ---- the site moved ---- */

/* New site point = shift + turn about the vertical · old site point. */
typedef struct
{
  TrnVec3 shift;
  double turn_deg;
} SiteMove;

/* Two or three numbers; a place is turned and shifted, a way only turned. */
static void
move_numbers (JsonObject *object, const char *key, const SiteMove *by, gboolean is_place)
{
  if (!json_object_has_member (object, key))
    return;
  JsonArray *old = json_object_get_array_member (object, key);
  guint n = json_array_get_length (old);
  double v[3] = { 0 };
  for (guint i = 0; i < n; i++)
    v[i] = json_array_get_double_element (old, i);
  double a = by->turn_deg * G_PI / 180, k = is_place ? 1 : 0;
  double moved[3] = { cos (a) * v[0] - sin (a) * v[1] + k * by->shift.x,
                      sin (a) * v[0] + cos (a) * v[1] + k * by->shift.y, v[2] + k * by->shift.z };
  JsonArray *array = json_array_new ();
  for (guint i = 0; i < n; i++)
    json_array_add_double_element (array, moved[i]);
  json_object_set_array_member (object, key, array);
}

static void
move_placement (JsonObject *object, const char *key, const SiteMove *by)
{
  if (!json_object_has_member (object, key) || json_object_get_null_member (object, key))
    return;
  JsonObject *at = json_object_get_object_member (object, key);
  move_numbers (at, "position", by, TRUE);
  double turn[3] = { 0 };
  if (json_object_has_member (at, "turn"))
    for (guint i = 0; i < 3; i++)
      turn[i] = json_array_get_double_element (json_object_get_array_member (at, "turn"), i);
  JsonArray *array = json_array_new ();
  for (guint i = 0; i < 3; i++)
    json_array_add_double_element (array, turn[i] + (i == 0 ? by->turn_deg : 0));
  json_object_set_array_member (at, "turn", array);
}

static void
move_move (JsonObject *move, const SiteMove *by)
{
  const char *kind = json_object_get_string_member (move, "do");
  if (g_str_equal (kind, "travel") || g_str_equal (kind, "move"))
    move_numbers (move, "by", by, FALSE);
  else if (g_str_equal (kind, "slew"))
    move_numbers (move, "centre", by, TRUE);
  else if (g_str_equal (kind, "tilt"))
    {
      move_numbers (move, "carry", by, FALSE);
      double axis = json_object_get_double_member (move, "axis");
      json_object_set_double_member (move, "axis", axis + by->turn_deg);
    }
}

static void
move_item (JsonObject *item, const SiteMove *by)
{
  move_placement (item, "start", by);
  move_placement (item, "at", by);
  JsonArray *moves = json_object_has_member (item, "moves")
                         ? json_object_get_array_member (item, "moves")
                         : NULL;
  for (guint i = 0; moves != NULL && i < json_array_get_length (moves); i++)
    move_move (json_array_get_object_element (moves, i), by);
}

char *
plan_maker_move_site (const char *json, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  double far = seed % 3 == 0 ? 5000 : 300;
  SiteMove by = { { g_rand_double_range (rand, -far, far), g_rand_double_range (rand, -far, far),
                    g_rand_double_range (rand, -30, 30) },
                  g_rand_double_range (rand, -180, 180) };
  g_autoptr (JsonNode) root = oracle_parse (json);
  static const char *const lists[] = { "structures", "components", "programme", "gear" };
  for (guint k = 0; k < G_N_ELEMENTS (lists); k++)
    {
      if (!json_object_has_member (json_node_get_object (root), lists[k]))
        continue;
      JsonArray *list = json_object_get_array_member (json_node_get_object (root), lists[k]);
      for (guint i = 0; i < json_array_get_length (list); i++)
        move_item (json_array_get_object_element (list, i), &by);
    }
  return json_to_string (root, FALSE);
}

/* ---- one obstacle more ---- */

char *
plan_maker_add_obstacle (const char *json, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  g_autoptr (JsonNode) root = oracle_parse (json);
  JsonObject *plan = json_node_get_object (root);
  JsonObject *first
      = json_array_get_object_element (json_object_get_array_member (plan, "components"), 0);
  TrnPose pose = oracle_placement (json_object_get_object_member (first, "at"));
  g_autofree char *text = g_strdup_printf (
      "{\"id\": \"added\", \"solid\": {\"kind\": \"box\", \"size\": [1, 2, 3]}, \"at\":"
      " {\"position\": [%.6f, %.6f, %.6f], \"turn\": [%.3f, 0, 0]}}",
      pose.position.x + g_rand_double_range (rand, -5, 5),
      pose.position.y + g_rand_double_range (rand, -5, 5),
      pose.position.z + g_rand_double_range (rand, -3, 3), g_rand_double_range (rand, -180, 180));
  g_autoptr (JsonNode) added = oracle_parse (text);
  json_array_add_object_element (json_object_get_array_member (plan, "structures"),
                                 json_object_ref (json_node_get_object (added)));
  return json_to_string (root, FALSE);
}

/* ---- another clearance to be kept ---- */

char *
plan_maker_set_required (const char *json, guint lift, const char *obstacle, double required_m)
{
  g_autoptr (JsonNode) root = oracle_parse (json);
  JsonArray *programme = json_object_get_array_member (json_node_get_object (root), "programme");
  JsonObject *keep_clear = json_object_new ();
  json_object_set_double_member (keep_clear, obstacle, required_m);
  for (guint i = 0, n = 0; i < json_array_get_length (programme); i++)
    {
      JsonObject *item = json_array_get_object_element (programme, i);
      if (json_object_has_member (item, "lift") && n++ == lift)
        json_object_set_object_member (item, "keep_clear", json_object_ref (keep_clear));
    }
  json_object_unref (keep_clear);
  return json_to_string (root, FALSE);
}
