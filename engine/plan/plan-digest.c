/* The document is walked, not the structs made of it: what a key of the plan may ever come to mean
 * is in it, and none can be forgotten here. Every value is written with what it is and how long it
 * is, so that two documents never write the same. */
#include "plan-digest.h"

#include <string.h>

#define PROGRAMME "programme"
#define MOVES "moves"

static void
add_number (GChecksum *sum, guint64 number)
{
  g_checksum_update (sum, (const guchar *)&number, sizeof number);
}

static void
add_text (GChecksum *sum, const char *text)
{
  const gsize length = strlen (text);
  add_number (sum, length);
  g_checksum_update (sum, (const guchar *)text, (gssize)length);
}

static void
add_scalar (GChecksum *sum, JsonNode *node)
{
  const GType type = json_node_get_value_type (node);
  if (type == G_TYPE_STRING)
    {
      add_number (sum, 's');
      add_text (sum, json_node_get_string (node));
    }
  else if (type == G_TYPE_BOOLEAN)
    add_number (sum, json_node_get_boolean (node) ? 't' : 'f');
  else if (type == G_TYPE_INT64)
    {
      add_number (sum, 'i');
      add_number (sum, (guint64)json_node_get_int (node));
    }
  else
    {
      const double number = json_node_get_double (node);
      add_number (sum, 'd');
      g_checksum_update (sum, (const guchar *)&number, sizeof number);
    }
}

static void add_node (GChecksum *sum, JsonNode *node);

/* Of @besides, which may be NULL, only that it is there. */
static void
add_object (GChecksum *sum, JsonObject *object, const char *besides)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *value;
  add_number (sum, '{');
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &key, &value))
    {
      add_text (sum, key);
      if (g_strcmp0 (key, besides) != 0)
        add_node (sum, value);
    }
  add_number (sum, '}');
}

static void
add_node (GChecksum *sum, JsonNode *node)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    add_object (sum, json_node_get_object (node), NULL);
  else if (JSON_NODE_HOLDS_ARRAY (node))
    {
      JsonArray *array = json_node_get_array (node);
      add_number (sum, '[');
      add_number (sum, json_array_get_length (array));
      for (guint i = 0; i < json_array_get_length (array); i++)
        add_node (sum, json_array_get_element (array, i));
    }
  else if (JSON_NODE_HOLDS_NULL (node))
    add_number (sum, 'n');
  else
    add_scalar (sum, node);
}

static void
finish (GChecksum *sum_taken, guint8 digest[TRN_DIGEST_BYTES])
{
  gsize length = TRN_DIGEST_BYTES;
  g_checksum_get_digest (sum_taken, digest, &length);
  g_assert (length == TRN_DIGEST_BYTES);
  g_checksum_free (sum_taken);
}

/* ---- the parts of a document ---- */

static JsonArray *
programme_of (const TrnPlan *plan)
{
  return json_object_get_array_member (json_node_get_object (plan->document), PROGRAMME);
}

static void
add_programme (GChecksum *sum, const TrnPlan *plan)
{
  JsonArray *programme = programme_of (plan);
  g_assert (json_array_get_length (programme) == plan->n_programme);
  add_number (sum, plan->n_programme);
  for (guint i = 0; i < plan->n_programme; i++)
    {
      add_number (sum, plan->programme[i].is_lift ? 'l' : 'c');
      if (plan->programme[i].is_lift)
        add_object (sum, json_array_get_object_element (programme, i), MOVES);
      else
        add_node (sum, json_array_get_element (programme, i));
    }
}

void
trn_plan_digest_site (const TrnPlan *plan, guint8 digest[TRN_DIGEST_BYTES])
{
  GChecksum *sum = g_checksum_new (G_CHECKSUM_SHA256);
  add_object (sum, json_node_get_object (plan->document), PROGRAMME);
  add_programme (sum, plan);
  finish (sum, digest);
}

void
trn_plan_digest_move (const TrnPlan *plan, guint lift, guint move, guint8 digest[TRN_DIGEST_BYTES])
{
  JsonArray *programme = programme_of (plan);
  GChecksum *sum = g_checksum_new (G_CHECKSUM_SHA256);
  for (guint i = 0; i < plan->n_programme; i++)
    if (plan->programme[i].is_lift && plan->programme[i].index == lift)
      {
        JsonObject *object = json_array_get_object_element (programme, i);
        JsonArray *moves = json_object_get_array_member (object, MOVES);
        g_assert (json_array_get_length (moves) == plan->lifts[lift].n_moves);
        add_node (sum, json_array_get_element (moves, move));
      }
  finish (sum, digest);
}
