#include "maker-parts.h"

#include <string.h>

/* ---- chance ---- */

double
maker_between (Maker *m, double lo, double hi)
{
  /* Three decimals, so that the text is the number. */
  return round (g_rand_double_range (m->rand, lo, hi) * 1000) / 1000;
}

gboolean
maker_chance (Maker *m, double share)
{
  return g_rand_double (m->rand) < share;
}

guint
maker_one_of (Maker *m, guint n)
{
  return (guint)g_rand_int_range (m->rand, 0, (gint32)n);
}

char *
maker_new_id (Maker *m, const char *word)
{
  return g_strdup_printf ("%s-%u", word, m->n_names++);
}

JsonObject *
maker_parse (Maker *m, const char *text)
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

char *
maker_mesh_text (guint i)
{
  return g_strdup_printf ("'mesh': {'file': '%s', 'unit': '%s', 'up': '%s'}", meshes[i].file,
                          meshes[i].unit, i % 2 == 0 ? "z" : "y");
}

char *
maker_standing_solid (Maker *m, double size, double *radius, double *high)
{
  double w = maker_between (m, 0.3 * size, size), d = maker_between (m, 0.3 * size, size);
  double h = maker_between (m, 0.4 * size, size);
  *radius = 0.5 * w;
  *high = h;
  switch (maker_one_of (m, 5))
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

char *
maker_any_solid (Maker *m, double size, double *radius)
{
  double high, a = maker_between (m, 0.2 * size, size), b = maker_between (m, 0.2 * size, size);
  *radius = size;
  switch (maker_one_of (m, 8))
    {
    case 0:
      return g_strdup_printf ("'solid': {'kind': 'beam', 'from': [%g, 0, 0], 'to': [%g, %g, %g],"
                              " 'width': %g, 'depth': %g}",
                              -a, b, maker_between (m, -0.3, 0.3) * size,
                              maker_between (m, -1, 1) * size, 0.2 * a, 0.1 * b);
    case 1:
      return g_strdup_printf ("'solid': {'kind': 'round-shaft', 'inner_diameter': %g, 'depth': %g,"
                              " 'wall': %g, 'floor': %g}",
                              a, b, 0.1 * size, maker_chance (m, 0.5) ? 0.2 * b : 0);
    case 2:
      return g_strdup_printf ("'solid': {'kind': 'rect-shaft', 'size': [%g, %g], 'depth': %g,"
                              " 'wall': %g, 'floor': %g}",
                              a, b, b, 0.1 * size, maker_chance (m, 0.5) ? 0.2 * b : 0);
    case 3:
      return g_strdup_printf ("'solid': {'kind': 'overhead-line', 'conductors': [{'from': [%g, 0,"
                              " 0], 'to': [%g, 0, %g], 'sag': %g}, {'from': [%g, 1, 0], 'to': [%g,"
                              " 1, 0], 'sag': 0}]}",
                              -3 * size, 3 * size, 0.1 * a, 0.2 * b, -2 * size, 2 * size);
    case 4:
      return maker_mesh_text (maker_one_of (m, N_SMALL_MESHES));
    case 5:
      return g_strdup_printf (
          "'solid': {'kind': 'ground', 'size': [%g, %g], 'openings': [{'circle':"
          " [0, 0, %g]}]}",
          2 * a, 2 * b, 0.8 * fmin (a, b));
    default:
      {
        char *text = maker_standing_solid (m, size, radius, &high);
        *radius = fmax (*radius, 0.7 * high);
        return text;
      }
    }
}

/* ---- structures ---- */

void
maker_add_structure (Maker *m, const char *id, const char *solid, const char *at)
{
  GString *s = m->structures;
  g_string_append_printf (s, "%s{'id': '%s', %s, 'at': %s", s->len > 0 ? ",\n" : "", id, solid, at);
  if (maker_chance (m, 0.25))
    g_string_append_printf (s, ", 'keep_clear': %g", maker_between (m, 0, 0.5));
  if (maker_chance (m, 0.25))
    g_string_append_printf (s, ", 'survey_tolerance': %g", maker_between (m, 0, 0.05));
  g_string_append (s, "}");
  if (strcmp (at, "null") != 0)
    g_ptr_array_add (m->ids, g_strdup (id));
}

char *
maker_at_text (TrnVec3 p, double heading, double pitch, double roll)
{
  return g_strdup_printf ("{'position': [%.17g, %.17g, %.17g], 'turn': [%g, %g, %g]}", p.x, p.y,
                          p.z, heading, pitch, roll);
}

char *
maker_put_under (Maker *m, const Piece *piece, TrnVec3 place)
{
  g_autofree char *id = maker_new_id (m, "stand");
  g_autofree char *solid = NULL;
  TrnVec3 at = place;
  const char *part = "";
  double wide = 2 * piece->radius_m;
  if (maker_chance (m, 0.06)) /* too high or too low to rest on */
    at.z += maker_chance (m, 0.5) ? 0.03 : -0.03;
  switch (maker_one_of (m, 4))
    {
    case 0:
      {
        double depth = maker_between (m, 0.5, 5), inner = wide + maker_between (m, 0.2, 1.5);
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
                               maker_between (m, 0.3, 1.4) * wide);
      at.z -= 0.75;
      break;
    default:
      solid = g_strdup_printf ("'solid': {'kind': 'box', 'size': [%g, %g, 0.5]}",
                               maker_between (m, 0.3, 1.5) * wide,
                               maker_between (m, 0.3, 1.5) * wide);
      at.z -= 0.5;
    }
  g_autofree char *at_place = maker_at_text (at, maker_between (m, 0, 360), 0, 0);
  maker_add_structure (m, id, solid, at_place);
  return g_strconcat (id, part, NULL);
}
