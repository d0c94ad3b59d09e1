/* One lift: its component, moves, seats, and the clearances and tolerances it sets. */
#include "plan-read.h"

#include <math.h>
#include <string.h>

#include "tolerances.h"

static const TrnComponent *
component_of (const TrnReader *reader, const char *id)
{
  return id != NULL ? trn_plan_find_component (reader->plan, id) : NULL;
}

/* Nothing is said while an id is lost: it may be the one that is meant. */
static void
fault_unknown_id (TrnReader *reader, const TrnValue *value, const char *id)
{
  if (reader->ids_lost)
    return;
  const char *nearest = trn_nearest_key (id, reader->bodies);
  TrnDiag *diag = trn_read_fault_text (
      reader, value, nearest != NULL ? "plan/unknown-id" : "plan/no-ids", "id", id);
  if (nearest != NULL)
    trn_json_set_quoted (diag, "nearest", nearest);
}

gboolean
trn_read_is_known (TrnReader *reader, const TrnValue *value, const char *id)
{
  if (g_hash_table_contains (reader->bodies, id))
    return TRUE;
  fault_unknown_id (reader, value, id);
  return FALSE;
}

char *
trn_read_reference (TrnReader *reader, const TrnValue *object, const char *key,
                    gboolean components_only)
{
  char *id = trn_read_text (reader, object, key, TRN_REQUIRED);
  if (id == NULL)
    return NULL;
  TrnValue value = trn_value_member (object, key);
  if (trn_read_is_known (reader, &value, id) && components_only
      && component_of (reader, id) == NULL)
    trn_read_fault_text (reader, &value, "plan/not-component", "id", id);
  return id;
}

/* The part of a seat's `on`: of a solid it must be one; a mesh names its own, which is looked up
 * when it has been read. */
static void
check_part (TrnReader *reader, const TrnValue *value, const char *id, const char *part)
{
  const TrnStructure *structure = trn_plan_find_structure (reader->plan, id);
  if (structure != NULL && structure->shape.solid == NULL)
    return;
  g_autofree char *nearest = NULL;
  if (structure != NULL && trn_solid_has_part (structure->shape.solid, part, &nearest))
    return;
  TrnDiag *diag = trn_read_fault_text (
      reader, value, nearest != NULL ? "plan/unknown-part" : "plan/no-parts", "part", part);
  trn_diag_set_text (diag, "id", id);
  if (nearest != NULL)
    trn_json_set_quoted (diag, "nearest", nearest);
}

static void
check_seat_on (TrnReader *reader, const TrnValue *value, const char *on, const TrnComponent *load)
{
  const char *slash = strchr (on, '/');
  g_autofree char *id = slash != NULL ? g_strndup (on, (gsize)(slash - on)) : g_strdup (on);
  if (!trn_read_is_known (reader, value, id))
    return;
  if (load != NULL && g_str_equal (load->id, id))
    trn_read_fault_text (reader, value, "plan/seat-on-itself", "id", id);
  else if (trn_plan_find_gear (reader->plan, id) != NULL)
    trn_read_fault_text (reader, value, "plan/seat-on-gear", "id", id);
  else if (slash != NULL)
    check_part (reader, value, id, slash + 1);
}

static void
read_seat (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnSeat *seat)
{
  static const char *const keys[] = { "on", "at", "until_clear", "fit", NULL };
  static const char *const ends[] = { "start", "end", "both", NULL };
  seat->pointer = trn_value_pointer_dup (value);
  if (!trn_read_object (reader, value, keys))
    return;
  seat->on = trn_read_text (reader, value, "on", TRN_REQUIRED);
  TrnValue on = trn_value_member (value, "on");
  if (seat->on != NULL)
    check_seat_on (reader, &on, seat->on, load);
  const int end = trn_read_word (reader, value, "at", TRN_REQUIRED, ends);
  seat->at_start = end == 0 || end == 2;
  seat->at_end = end == 1 || end == 2;
  seat->until_clear_m
      = trn_read_number (reader, value, "until_clear", TRN_OPTIONAL, &trn_range_positive);
  const double fit_m = trn_read_number (reader, value, "fit", TRN_OPTIONAL, &trn_range_positive);
  seat->fit_m = trn_or (fit_m, TRN_SEAT_FIT_M);
}

/* Whether a number that the required clearance depends on could not be read. */
static gboolean
required_is_faulty (const TrnReader *reader, const TrnLift *lift, const char *id)
{
  const TrnStructure *structure = trn_plan_find_structure (reader->plan, id);
  const TrnComponent *component = trn_plan_find_component (reader->plan, id);
  const char *body = structure != NULL   ? structure->pointer
                     : component != NULL ? component->pointer
                                         : "";
  g_autofree char *of_body = g_strconcat (body, "/keep_clear", NULL);
  g_autofree char *of_lift = g_strconcat (lift->pointer, "/keep_clear", NULL);
  g_autofree char *of_lift_for_body = g_strconcat (of_lift, "/", id, NULL);
  GHashTable *faulty = reader->json->faulty;
  return g_hash_table_contains (faulty, "/keep_clear") || g_hash_table_contains (faulty, of_body)
         || g_hash_table_contains (faulty, of_lift)
         || g_hash_table_contains (faulty, of_lift_for_body);
}

/* A seat that is left at less than the clearance to be kept would end in a shortfall. */
static void
check_until_clear (TrnReader *reader, const TrnValue *value, const TrnLift *lift,
                   const TrnSeat *seat)
{
  if (seat->on == NULL || isnan (seat->until_clear_m))
    return;
  g_autofree char *id = g_strndup (seat->on, strcspn (seat->on, "/"));
  const double required_m = trn_plan_required_m (reader->plan, lift, id);
  if (isnan (required_m) || seat->until_clear_m > required_m
      || required_is_faulty (reader, lift, id))
    return;
  TrnValue until_clear = trn_value_member (value, "until_clear");
  TrnDiag *diag = trn_read_fault (reader, &until_clear, "plan/until-clear");
  trn_diag_set_number (diag, "value", seat->until_clear_m, TRN_UNIT_M);
  trn_diag_set_number (diag, "required", required_m, TRN_UNIT_M);
}

/* Two seats on the same thing at the same end contradict each other. */
static void
check_seat_is_new (TrnReader *reader, const TrnValue *value, const TrnLift *lift, guint index)
{
  const TrnSeat *seat = &lift->seats[index];
  for (guint i = 0; i < index; i++)
    {
      const TrnSeat *other = &lift->seats[i];
      const gboolean same_end
          = (other->at_start && seat->at_start) || (other->at_end && seat->at_end);
      if (same_end && g_strcmp0 (other->on, seat->on) == 0 && seat->on != NULL)
        {
          trn_read_fault_text (reader, value, "plan/duplicate-seat", "on", seat->on);
          return;
        }
    }
}

static void
read_seats (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnLift *lift)
{
  TrnValue list = trn_value_member (value, "seats");
  if (!trn_read_array (reader, &list))
    return;
  lift->n_seats = trn_value_length (&list);
  lift->seats = g_new0 (TrnSeat, lift->n_seats);
  for (guint i = 0; i < lift->n_seats; i++)
    {
      TrnValue seat = trn_value_element (&list, i);
      read_seat (reader, &seat, load, &lift->seats[i]);
      check_until_clear (reader, &seat, lift, &lift->seats[i]);
      check_seat_is_new (reader, &seat, lift, i);
    }
}

static void
read_moves (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnLift *lift)
{
  TrnValue list = trn_read_member (reader, value, "moves", TRN_REQUIRED);
  if (!trn_read_array (reader, &list))
    return;
  if (trn_value_length (&list) == 0)
    trn_read_fault_text (reader, &list, "plan/empty", "key", "moves");
  lift->n_moves = trn_value_length (&list);
  lift->moves = g_new0 (TrnMove, lift->n_moves);
  for (guint i = 0; i < lift->n_moves; i++)
    {
      TrnValue move = trn_value_element (&list, i);
      trn_read_move (reader, &move, load, &lift->hook, &lift->moves[i]);
    }
}

/* Every key is an id here, also one that begins with x-: a clearance that is set for an obstacle
 * must never be passed over. */
static void
read_keep_clear_of (TrnReader *reader, const TrnValue *value, const TrnComponent *load,
                    TrnLift *lift)
{
  JsonObject *object = json_node_get_object (value->node);
  if (!trn_read_few (reader, value, json_object_get_size (object)))
    return;
  lift->keep_clear_of = g_new0 (TrnKeepClear, json_object_get_size (object));
  JsonObjectIter iter;
  const char *id;
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &id, NULL))
    {
      TrnKeepClear *keep = &lift->keep_clear_of[lift->n_keep_clear_of++];
      TrnValue member = trn_value_member (value, id);
      if (trn_read_is_known (reader, &member, id) && load != NULL && g_str_equal (load->id, id))
        trn_read_fault_text (reader, &member, "plan/clear-of-itself", "id", id);
      keep->id = g_strdup (id);
      keep->m = trn_read_number (reader, value, id, TRN_REQUIRED, &trn_range_distance);
    }
}

static void
read_keep_clear (TrnReader *reader, const TrnValue *value, const TrnComponent *load, TrnLift *lift)
{
  lift->keep_clear_m = NAN;
  TrnValue keep_clear = trn_value_member (value, "keep_clear");
  if (trn_value_is_object (&keep_clear))
    read_keep_clear_of (reader, &keep_clear, load, lift);
  else if (trn_value_is_number (&keep_clear))
    lift->keep_clear_m
        = trn_read_number (reader, value, "keep_clear", TRN_OPTIONAL, &trn_range_distance);
  else if (keep_clear.node != NULL)
    trn_read_fault (reader, &keep_clear, "plan/not-keep-clear");
}

static void
read_tolerance (TrnReader *reader, const TrnValue *value, TrnLift *lift)
{
  static const char *const keys[] = { "position", "tilt_deg", "heading_deg", NULL };
  TrnValue tolerance = trn_value_member (value, "tolerance");
  if (!trn_read_object (reader, &tolerance, keys))
    return;
  const double position_m
      = trn_read_number (reader, &tolerance, "position", TRN_OPTIONAL, &trn_range_distance);
  const double tilt_deg
      = trn_read_number (reader, &tolerance, "tilt_deg", TRN_OPTIONAL, &trn_range_play);
  const double heading_deg
      = trn_read_number (reader, &tolerance, "heading_deg", TRN_OPTIONAL, &trn_range_play);
  lift->tolerance_m = trn_or (position_m, 0);
  lift->tolerance_tilt_rad = trn_radians (trn_or (tilt_deg, 0));
  lift->tolerance_heading_rad = trn_radians (trn_or (heading_deg, 0));
}

void
trn_read_lift (TrnReader *reader, const TrnValue *value, TrnLift *lift)
{
  static const char *const keys[]
      = { "lift",       "name",  "component", "hook_point", "moves", "seats",
          "keep_clear", "start", "tolerance", "rigging",    "hangs", NULL };
  static const char *const hangs[] = { "as-drawn", "free", NULL };
  lift->pointer = trn_value_pointer_dup (value);
  trn_read_object (reader, value, keys);
  lift->id = trn_read_id (reader, value, "lift", reader->steps);
  lift->name = trn_read_text (reader, value, "name", TRN_OPTIONAL);
  if (lift->name == NULL)
    lift->name = g_strdup (lift->id);
  g_autofree char *component = trn_read_reference (reader, value, "component", TRUE);
  const TrnComponent *load = component_of (reader, component);
  if (load != NULL)
    lift->component = (guint)(load - reader->plan->components);
  lift->hook = trn_read_point (reader, value, "hook_point", TRN_REQUIRED, load);
  read_keep_clear (reader, value, load, lift);
  read_moves (reader, value, load, lift);
  read_seats (reader, value, load, lift);
  TrnValue start = trn_value_member (value, "start");
  lift->has_start = start.node != NULL;
  lift->start = trn_read_placement (reader, &start);
  read_tolerance (reader, value, lift);
  trn_read_rigging (reader, value, load, lift);
  lift->hangs_free = trn_read_word (reader, value, "hangs", TRN_OPTIONAL, hangs) == 1;
}
