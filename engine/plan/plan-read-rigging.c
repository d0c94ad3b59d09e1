/* The rigging of one lift: what holds the load at its hook point and at its tail, and what hangs
 * between. */
#include "plan-read.h"

#include <math.h>
#include <string.h>

typedef struct
{
  TrnReader *reader;
  const TrnComponent *load; /* NULL where it is unknown */
  const TrnLift *lift;
} Rigging;

/* An id that neither rigging of the lift nor anything on the site has yet. */
static char *
read_new_id (TrnReader *reader, const TrnValue *object, TrnNeed need)
{
  TrnValue value = trn_value_member (object, "id");
  if (value.node == NULL && need == TRN_OPTIONAL)
    return NULL;
  char *id = trn_read_id (reader, object, "id", reader->rigging);
  const char *first = id != NULL ? g_hash_table_lookup (reader->bodies, id) : NULL;
  if (first != NULL)
    {
      TrnDiag *diag = trn_read_fault_text (reader, &value, "plan/duplicate-id", "id", id);
      trn_diag_set_text (diag, "first", first);
    }
  return id;
}

static double
read_optional_mass (TrnReader *reader, const TrnValue *object, const char *key)
{
  return trn_read_number (reader, object, key, TRN_OPTIONAL, &trn_range_mass);
}

static double
read_size (TrnReader *reader, const TrnValue *object, const char *key, TrnNeed need)
{
  return trn_read_number (reader, object, key, need, &trn_range_gear_size);
}

/* ---- slings ---- */

/* The ends of the beam go before points of the load that are called so; one of that name could be
 * meant, too, and that is not guessed. TRUE for an end of the beam. */
static gboolean
read_to_beam (const Rigging *rigging, const TrnValue *to, TrnSling *sling)
{
  const char *text = trn_value_is_text (to) ? json_node_get_string (to->node) : "";
  sling->to_beam_b = g_str_equal (text, "beam-b");
  sling->to_beam = sling->to_beam_b || g_str_equal (text, "beam-a");
  if (!sling->to_beam || rigging->load == NULL)
    return sling->to_beam;
  for (guint i = 0; i < rigging->load->n_points; i++)
    if (g_str_equal (rigging->load->points[i].name, text))
      trn_read_fault_text (rigging->reader, to, "plan/point-beam-name", "point", text);
  return TRUE;
}

static void
read_sling_ends (const Rigging *rigging, const TrnValue *value, const TrnHoist *hoist,
                 TrnSling *sling)
{
  static const char *const ends[] = { "hook", "beam-a", "beam-b", NULL };
  TrnReader *reader = rigging->reader;
  const int from = trn_read_word (reader, value, "from", TRN_OPTIONAL, ends);
  sling->from = from >= 0 ? (TrnSlingFrom)from : TRN_SLING_FROM_HOOK;
  TrnValue from_value = trn_value_member (value, "from");
  if (from > 0 && !hoist->has_beam)
    trn_read_fault (reader, &from_value, "plan/sling-no-beam");
  TrnValue to = trn_read_member (reader, value, "to", TRN_REQUIRED);
  if (to.node == NULL)
    return;
  if (!read_to_beam (rigging, &to, sling))
    {
      TrnPoint point = trn_read_point_at (reader, &to, rigging->load);
      sling->to_name = point.name;
      sling->to = point.place;
    }
  else if (from > 0)
    trn_read_fault (reader, &to, "plan/sling-beam-to-beam");
  else if (!hoist->has_beam)
    trn_read_fault (reader, &to, "plan/sling-no-beam");
}

static void
read_shackle (TrnReader *reader, const TrnValue *value, TrnShackle *shackle)
{
  static const char *const keys[] = { "id", "mass", "wll", "pin", NULL };
  TrnValue member = trn_value_member (value, "shackle");
  *shackle = (TrnShackle){ NULL, NAN, NAN, { NAN, NAN, NAN } };
  if (!trn_read_object (reader, &member, keys))
    return;
  shackle->id = read_new_id (reader, &member, TRN_OPTIONAL);
  shackle->mass_kg = read_optional_mass (reader, &member, "mass");
  shackle->wll_kg = read_optional_mass (reader, &member, "wll");
  const TrnVec3 pin = trn_read_vec3 (reader, &member, "pin", TRN_OPTIONAL, &trn_range_gear_length);
  const double length = trn_vec3_length (pin);
  TrnValue pin_value = trn_value_member (&member, "pin");
  if (length < TRN_SOLID_LEAST_M)
    trn_read_fault (reader, &pin_value, "plan/no-direction");
  else if (isfinite (length))
    shackle->pin = trn_vec3_scale (pin, 1 / length);
}

static void
read_sling (const Rigging *rigging, const TrnValue *value, const TrnHoist *hoist, TrnSling *sling)
{
  static const char *const keys[]
      = { "id", "from", "to", "diameter", "length", "mass", "wll", "shackle", NULL };
  TrnReader *reader = rigging->reader;
  sling->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, keys))
    return;
  sling->id = read_new_id (reader, value, TRN_REQUIRED);
  read_sling_ends (rigging, value, hoist, sling);
  sling->diameter_m = read_size (reader, value, "diameter", TRN_REQUIRED);
  sling->length_m = read_size (reader, value, "length", TRN_OPTIONAL);
  sling->mass_kg = read_optional_mass (reader, value, "mass");
  sling->wll_kg = read_optional_mass (reader, value, "wll");
  read_shackle (reader, value, &sling->shackle);
}

static void
read_slings (const Rigging *rigging, const TrnValue *value, TrnHoist *hoist)
{
  TrnValue list = trn_value_member (value, "slings");
  hoist->n_slings = trn_read_parts (rigging->reader, &list, 0);
  hoist->slings = g_new0 (TrnSling, hoist->n_slings);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      TrnValue sling = trn_value_element (&list, i);
      read_sling (rigging, &sling, hoist, &hoist->slings[i]);
    }
}

/* ---- block and beam ---- */

static void
read_block (TrnReader *reader, const TrnValue *value, TrnHoist *hoist)
{
  static const char *const keys[] = { "diameter", "height", "mass", NULL };
  TrnValue block = trn_value_member (value, "block");
  if (!trn_read_object (reader, &block, keys))
    return;
  hoist->has_block = TRUE;
  hoist->block_diameter_m = read_size (reader, &block, "diameter", TRN_REQUIRED);
  hoist->block_height_m = read_size (reader, &block, "height", TRN_REQUIRED);
  hoist->block_mass_kg = read_optional_mass (reader, &block, "mass");
}

/* Two points of the load that are not one. */
static void
read_between (const Rigging *rigging, const TrnValue *value, TrnLiftBeam *beam)
{
  TrnReader *reader = rigging->reader;
  TrnValue between = trn_read_member (reader, value, "between", TRN_REQUIRED);
  if (between.node == NULL)
    return;
  if (trn_value_length (&between) != 2)
    {
      trn_read_fault (reader, &between, "plan/not-two-points");
      return;
    }
  for (guint i = 0; i < 2; i++)
    {
      TrnValue end = trn_value_element (&between, i);
      TrnPoint point = trn_read_point_at (reader, &end, rigging->load);
      beam->between[i] = point.place;
      g_free (point.name);
    }
  if (trn_vec3_distance (beam->between[0], beam->between[1]) < TRN_SOLID_LEAST_M
      && rigging->load != NULL)
    trn_read_fault (reader, &between, "plan/between-one-point");
}

static void
read_beam (const Rigging *rigging, const TrnValue *value, TrnHoist *hoist)
{
  static const char *const keys[]
      = { "id", "length", "width", "depth", "below_hook", "between", "mass", "wll", NULL };
  TrnReader *reader = rigging->reader;
  TrnLiftBeam *beam = &hoist->beam;
  TrnValue member = trn_value_member (value, "beam");
  hoist->has_beam = member.node != NULL;
  if (!trn_read_object (reader, &member, keys))
    return;
  beam->pointer = trn_value_pointer_dup (&member);
  beam->id = read_new_id (reader, &member, TRN_REQUIRED);
  beam->length_m = read_size (reader, &member, "length", TRN_REQUIRED);
  beam->width_m = read_size (reader, &member, "width", TRN_REQUIRED);
  beam->depth_m = read_size (reader, &member, "depth", TRN_REQUIRED);
  beam->below_hook_m
      = trn_read_number (reader, &member, "below_hook", TRN_REQUIRED, &trn_range_gear_distance);
  read_between (rigging, &member, beam);
  beam->mass_kg = read_optional_mass (reader, &member, "mass");
  beam->wll_kg = read_optional_mass (reader, &member, "wll");
}

/* ---- a hoist ---- */

/* What carries the tail on a level or in a pivot holds the point itself. */
static void
refuse_hook (TrnReader *reader, const TrnValue *value, const TrnGear *gear)
{
  static const char *const keys[] = { "hook_above", "block", "beam", "slings" };
  for (guint i = 0; i < G_N_ELEMENTS (keys); i++)
    {
      TrnValue member = trn_value_member (value, keys[i]);
      if (member.node == NULL)
        continue;
      TrnDiag *diag = trn_read_fault_text (reader, &member, "plan/no-hook", "id", gear->id);
      trn_diag_set_text (diag, "key", keys[i]);
    }
}

static guint
read_hoist_gear (TrnReader *reader, const TrnValue *value)
{
  TrnValue member = trn_value_member (value, "gear");
  if (member.node == NULL)
    return G_MAXUINT;
  g_autofree char *id = trn_read_reference (reader, value, "gear", FALSE);
  if (id == NULL || !g_hash_table_contains (reader->bodies, id))
    return G_MAXUINT;
  const TrnGear *gear = trn_plan_find_gear (reader->plan, id);
  if (gear == NULL)
    {
      trn_read_fault_text (reader, &member, "plan/not-gear", "id", id);
      return G_MAXUINT;
    }
  if (gear->kind == TRN_GEAR_TAIL_TROLLEY || gear->kind == TRN_GEAR_TURNING_FRAME)
    refuse_hook (reader, value, gear);
  return (guint)(gear - reader->plan->gear);
}

/* An index of a move, or −1. */
static int
read_move_index (const TrnValue *value, guint n_moves)
{
  const double number = trn_value_is_number (value) ? json_node_get_double (value->node) : -1;
  return number >= 0 && number < n_moves && number == floor (number) ? (int)number : -1;
}

static void
read_hoist_moves (const Rigging *rigging, const TrnValue *value, TrnHoist *hoist)
{
  const guint n_moves = rigging->lift->n_moves;
  TrnValue moves = trn_value_member (value, "moves");
  hoist->first_move = 0;
  hoist->last_move = n_moves > 0 ? n_moves - 1 : 0;
  if (moves.node == NULL || n_moves == 0)
    return;
  int ends[2] = { -1, -1 };
  for (guint i = 0; i < 2 && trn_value_length (&moves) == 2; i++)
    {
      TrnValue end = trn_value_element (&moves, i);
      ends[i] = read_move_index (&end, n_moves);
    }
  if (ends[0] < 0 || ends[1] < ends[0])
    {
      TrnDiag *diag = trn_read_fault (rigging->reader, &moves, "plan/hoist-moves");
      trn_diag_set_number (diag, "last", n_moves - 1, TRN_UNIT_COUNT);
      return;
    }
  hoist->first_move = (guint)ends[0];
  hoist->last_move = (guint)ends[1];
}

/* The main hook is plumb over the hook point of the lift; the tail has a point of its own. */
static void
read_hoist_point (const Rigging *rigging, const TrnValue *value, gboolean is_tail, TrnHoist *hoist)
{
  TrnReader *reader = rigging->reader;
  TrnValue member = trn_value_member (value, "point");
  if (is_tail)
    {
      TrnPoint point = trn_read_point (reader, value, "point", TRN_REQUIRED, rigging->load);
      hoist->point_name = point.name;
      hoist->point = point.place;
      return;
    }
  if (member.node != NULL)
    trn_read_fault (reader, &member, "plan/main-point");
  hoist->point_name = g_strdup (rigging->lift->hook.name);
  hoist->point = rigging->lift->hook.place;
}

static void
read_hoist (const Rigging *rigging, const TrnValue *all, const char *key, gboolean is_tail,
            TrnHoist *hoist)
{
  static const char *const keys[]
      = { "gear", "point", "moves", "hook_above", "block", "beam", "slings", NULL };
  TrnReader *reader = rigging->reader;
  TrnValue value = trn_value_member (all, key);
  hoist->gear = G_MAXUINT;
  hoist->hook_above_m = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  hoist->given = TRUE;
  hoist->pointer = trn_value_pointer_dup (&value);
  hoist->gear = read_hoist_gear (reader, &value);
  read_hoist_point (rigging, &value, is_tail, hoist);
  read_hoist_moves (rigging, &value, hoist);
  hoist->hook_above_m
      = trn_read_number (reader, &value, "hook_above", TRN_OPTIONAL, &trn_range_gear_distance);
  read_block (reader, &value, hoist);
  read_beam (rigging, &value, hoist);
  read_slings (rigging, &value, hoist);
}

/* One gear has one hook. */
static void
check_gear_differs (TrnReader *reader, const TrnValue *value, const TrnRigging *rigging)
{
  if (rigging->main.gear == G_MAXUINT || rigging->main.gear != rigging->tail.gear)
    return;
  TrnValue tail = trn_value_member (value, "tail");
  TrnValue gear = trn_value_member (&tail, "gear");
  trn_read_fault_text (reader, &gear, "plan/same-gear", "id",
                       reader->plan->gear[rigging->tail.gear].id);
}

/* ---- what is connected ---- */

/* @block is what the block is called where there is no gear to name it by. */
static gboolean
is_rigging_of (const TrnHoist *hoist, const char *block, const char *id)
{
  if (hoist->has_beam && g_strcmp0 (hoist->beam.id, id) == 0)
    return TRUE;
  if (hoist->has_block && hoist->gear == G_MAXUINT && g_str_equal (block, id))
    return TRUE;
  for (guint i = 0; i < hoist->n_slings; i++)
    if (g_strcmp0 (hoist->slings[i].id, id) == 0)
      return TRUE;
  return FALSE;
}

/* Whether something of the object at @pointer could not be read. */
static gboolean
is_faulty (const TrnReader *reader, const char *pointer)
{
  g_autofree char *below = g_strconcat (pointer, "/", NULL);
  GHashTableIter iter;
  gpointer faulty;
  g_hash_table_iter_init (&iter, reader->json->faulty);
  while (g_hash_table_iter_next (&iter, &faulty, NULL))
    if (g_str_has_prefix (faulty, below))
      return TRUE;
  return FALSE;
}

/* Any part may be meant of a mesh, whose parts are not known yet, and of gear that could not be
 * read. */
static gboolean
has_part (const TrnReader *reader, const char *id, const char *part)
{
  const TrnStructure *structure = trn_plan_find_structure (reader->plan, id);
  const TrnGear *gear = trn_plan_find_gear (reader->plan, id);
  g_autofree char *nearest = NULL;
  if (gear != NULL)
    return trn_gear_has_part (gear, part) || is_faulty (reader, gear->pointer);
  if (structure == NULL)
    return FALSE;
  return structure->shape.solid == NULL
         || trn_solid_has_part (structure->shape.solid, part, &nearest);
}

/* A body by its id, or all whose ids begin so. FALSE for what is known and is neither of gear nor a
 * sling or a beam. */
static gboolean
read_body (TrnReader *reader, const TrnValue *value, const char *name, const TrnRigging *rigging)
{
  const char *slash = strchr (name, '/');
  g_autofree char *id = g_strndup (name, strcspn (name, "/"));
  const gboolean is_rigging = is_rigging_of (&rigging->main, "main-hook/block", name)
                              || is_rigging_of (&rigging->tail, "tail-hook/block", name);
  if (is_rigging)
    return TRUE;
  if (g_str_equal (name, "load"))
    return FALSE;
  if (!trn_read_is_known (reader, value, id))
    return TRUE;
  if (slash != NULL && !has_part (reader, id, slash + 1))
    {
      TrnDiag *diag = trn_read_fault_text (reader, value, "plan/connected-part", "part", slash + 1);
      trn_diag_set_text (diag, "id", id);
    }
  return trn_plan_find_gear (reader->plan, id) != NULL;
}

/* A crane's boom and a gantry's legs keep clear of the load: only parts of them can be fixed to it.
 */
static void
refuse_whole_gear (TrnReader *reader, const TrnValue *value, const char *a, const char *b)
{
  const char *other = g_str_equal (a, "load") ? b : g_str_equal (b, "load") ? a : "";
  const TrnGear *gear = trn_plan_find_gear (reader->plan, other);
  if (gear != NULL && (gear->kind == TRN_GEAR_CRANE || gear->kind == TRN_GEAR_GANTRY))
    trn_read_fault_text (reader, value, "plan/connected-whole-gear", "id", other);
}

/* What is not gear keeps its clearance from the load: a seat is the way to say that they touch. */
static void
read_pair (TrnReader *reader, const TrnValue *value, const TrnRigging *rigging, TrnConnected *pair)
{
  char **names[] = { &pair->a, &pair->b };
  gboolean is_gear[2] = { FALSE, FALSE };
  if (trn_value_length (value) != 2)
    {
      trn_read_fault (reader, value, "plan/not-pair");
      return;
    }
  for (guint i = 0; i < 2; i++)
    {
      TrnValue name = trn_value_element (value, i);
      if (!trn_value_is_text (&name))
        {
          trn_read_fault (reader, &name, "plan/not-text");
          return;
        }
      *names[i] = g_strdup (json_node_get_string (name.node));
      is_gear[i] = read_body (reader, &name, *names[i], rigging);
    }
  if (g_str_equal (pair->a, pair->b))
    trn_read_fault_text (reader, value, "plan/connected-one", "id", pair->a);
  else if (!is_gear[0] && !is_gear[1])
    trn_read_fault (reader, value, "plan/connected-no-gear");
  else
    refuse_whole_gear (reader, value, pair->a, pair->b);
}

static void
read_connected (TrnReader *reader, const TrnValue *value, TrnRigging *rigging)
{
  TrnValue list = trn_value_member (value, "connected");
  if (!trn_read_array (reader, &list))
    return;
  rigging->n_connected = trn_value_length (&list);
  rigging->connected = g_new0 (TrnConnected, rigging->n_connected);
  for (guint i = 0; i < rigging->n_connected; i++)
    {
      TrnValue pair = trn_value_element (&list, i);
      read_pair (reader, &pair, rigging, &rigging->connected[i]);
    }
}

void
trn_read_rigging (TrnReader *reader, const TrnValue *lift, const TrnComponent *load, TrnLift *into)
{
  static const char *const keys[] = { "main", "tail", "connected", NULL };
  TrnRigging *rigging = &into->rigging;
  const Rigging about = { reader, load, into };
  TrnValue value = trn_value_member (lift, "rigging");
  rigging->main.gear = rigging->tail.gear = G_MAXUINT;
  rigging->main.hook_above_m = rigging->tail.hook_above_m = NAN;
  if (!trn_read_object (reader, &value, keys))
    return;
  rigging->given = TRUE;
  g_hash_table_remove_all (reader->rigging); /* the same sling may serve in another lift */
  read_hoist (&about, &value, "main", FALSE, &rigging->main);
  read_hoist (&about, &value, "tail", TRUE, &rigging->tail);
  check_gear_differs (reader, &value, rigging);
  read_connected (reader, &value, rigging);
}
