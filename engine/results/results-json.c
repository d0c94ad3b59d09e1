/* The findings become a tree of JSON values in the order of the contract, which the writer of plan/
 * turns into text. A number that there is none of is null. */
#include "results.h"

#include <json-glib/json-glib.h>

#include "json-text.h"

/* ---- values ---- */

static void
add_text (JsonBuilder *builder, const char *key, const char *text)
{
  json_builder_set_member_name (builder, key);
  json_builder_add_string_value (builder, text);
}

static void
add_bare_number (JsonBuilder *builder, double number)
{
  if (isfinite (number))
    json_builder_add_double_value (builder, number);
  else
    json_builder_add_null_value (builder);
}

static void
add_number (JsonBuilder *builder, const char *key, double number)
{
  json_builder_set_member_name (builder, key);
  add_bare_number (builder, number);
}

static void
add_pair (JsonBuilder *builder, TrnInterval pair)
{
  json_builder_begin_array (builder);
  add_bare_number (builder, pair.lo);
  add_bare_number (builder, pair.hi);
  json_builder_end_array (builder);
}

static void
add_point (JsonBuilder *builder, const char *key, TrnVec3 point, gboolean known)
{
  json_builder_set_member_name (builder, key);
  if (!known)
    {
      json_builder_add_null_value (builder);
      return;
    }
  json_builder_begin_array (builder);
  add_bare_number (builder, point.x);
  add_bare_number (builder, point.y);
  add_bare_number (builder, point.z);
  json_builder_end_array (builder);
}

static void
add_names (JsonBuilder *builder, const char *key, const char *const *names)
{
  json_builder_set_member_name (builder, key);
  json_builder_begin_array (builder);
  for (; *names != NULL; names++)
    json_builder_add_string_value (builder, *names);
  json_builder_end_array (builder);
}

static void
add_placement (JsonBuilder *builder, const char *key, const TrnPlacement *placement)
{
  TrnVec3 turn_deg
      = trn_vec3_make (trn_degrees (placement->heading_rad), trn_degrees (placement->pitch_rad),
                       trn_degrees (placement->roll_rad));
  json_builder_set_member_name (builder, key);
  json_builder_begin_object (builder);
  add_point (builder, "position", placement->position, TRUE);
  add_point (builder, "turn", turn_deg, TRUE);
  json_builder_end_object (builder);
}

/* ---- findings ---- */

static void
add_judgement (JsonBuilder *builder, const TrnFinding *finding)
{
  add_text (builder, "verdict", trn_verdict_name (finding->verdict));
  add_text (builder, "state", trn_state_name (finding->state));
}

static void
add_inside (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->inside == TRN_INSIDE_NO)
    return;
  json_builder_set_member_name (builder, "inside");
  if (finding->inside == TRN_INSIDE_YES)
    json_builder_add_boolean_value (builder, TRUE);
  else
    json_builder_add_string_value (builder, "unknown");
}

static void
add_contacts (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->contacts == NULL)
    return;
  add_number (builder, "first_contact", g_array_index (finding->contacts, TrnInterval, 0).lo);
  json_builder_set_member_name (builder, "contacts");
  json_builder_begin_array (builder);
  for (guint i = 0; i < finding->contacts->len; i++)
    add_pair (builder, g_array_index (finding->contacts, TrnInterval, i));
  json_builder_end_array (builder);
}

static void
add_items (JsonBuilder *builder, const char *key, const GArray *items)
{
  if (items == NULL)
    return;
  json_builder_set_member_name (builder, key);
  json_builder_begin_array (builder);
  for (guint i = 0; i < items->len; i++)
    {
      const TrnFindingItem *item = &g_array_index (items, TrnFindingItem, i);
      json_builder_begin_object (builder);
      add_text (builder, "what", item->what);
      add_number (builder, "m", item->m);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

static void
add_clearance (JsonBuilder *builder, const TrnFinding *finding)
{
  add_number (builder, "lower", finding->lower_m);
  add_number (builder, "upper", finding->upper_m);
  add_number (builder, "certified_to", finding->certified_to_m);
  add_number (builder, "required", finding->required_m);
  add_number (builder, "allowance", finding->allowance_m);
  add_items (builder, "allowance_parts", finding->allowance_parts);
  add_judgement (builder, finding);
  add_number (builder, "time", finding->time_s);
  add_number (builder, "progress", finding->progress);
  add_point (builder, "point_on_body", finding->point_on_body, finding->has_points);
  add_point (builder, "point_on_obstacle", finding->point_on_obstacle, finding->has_points);
  if (finding->has_seated)
    {
      json_builder_set_member_name (builder, "seated");
      add_pair (builder, finding->seated_s);
    }
  add_contacts (builder, finding);
  add_inside (builder, finding);
  if (isfinite (finding->seat_until_m))
    add_number (builder, "seat_until_clear", finding->seat_until_m);
}

static void
add_approach (JsonBuilder *builder, const TrnFinding *finding)
{
  add_clearance (builder, finding);
  if (finding->source != NULL)
    add_text (builder, "source", finding->source);
}

static void
add_swing (JsonBuilder *builder, const TrnFinding *finding)
{
  add_number (builder, "radius", finding->radius_m);
  add_number (builder, "sector_distance", finding->sector_distance_m);
  add_number (builder, "circle_distance", finding->circle_distance_m);
  add_number (builder, "required", finding->required_m);
  if (finding->check == TRN_CHECK_TAIL_SWING)
    add_number (builder, "allowance", finding->allowance_m);
  add_judgement (builder, finding);
}

/* One of the plan: a name, a number, a place or a direction; null where it is left out. */
static void
add_of_plan (JsonBuilder *builder, const char *key, const char *name, guint n_values,
             const double *values)
{
  if (name != NULL)
    add_text (builder, key, name);
  else if (n_values == 3)
    add_point (builder, key, trn_vec3_make (values[0], values[1], values[2]), isfinite (values[0]));
  else
    add_number (builder, key, n_values == 1 ? values[0] : NAN);
}

/* How what holds the load differs from what held it. */
static void
add_differs (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->key == NULL)
    return;
  json_builder_set_member_name (builder, "differs");
  json_builder_begin_object (builder);
  add_text (builder, "key", finding->key);
  if (finding->key_of != NULL)
    add_text (builder, "of", finding->key_of);
  add_of_plan (builder, "was", finding->was, finding->n_values, finding->was_values);
  add_of_plan (builder, "is", finding->is, finding->n_values, finding->is_values);
  json_builder_end_object (builder);
}

/* A value beside its limit. */
static void
add_value (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->item != NULL)
    add_text (builder, "item", finding->item);
  add_number (builder, "value", finding->value);
  add_number (builder, "limit", finding->limit);
  add_number (builder, "margin", finding->margin);
  add_text (builder, "unit", trn_results_unit_name (finding->unit));
  add_number (builder, "allowance", finding->allowance_m);
  add_judgement (builder, finding);
  add_number (builder, "time", finding->time_s);
  add_number (builder, "progress", finding->progress);
  add_items (builder, "items", finding->items);
  add_differs (builder, finding);
}

static void
add_numbers (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->numbers == NULL)
    return;
  json_builder_set_member_name (builder, "items");
  json_builder_begin_array (builder);
  for (guint i = 0; i < finding->numbers->len; i++)
    {
      const TrnFindingNumber *number = &g_array_index (finding->numbers, TrnFindingNumber, i);
      json_builder_begin_object (builder);
      add_text (builder, "what", number->what);
      add_number (builder, "value", number->value);
      add_text (builder, "unit", trn_results_unit_name (number->unit));
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

/* The same of forces. */
static void
add_force (JsonBuilder *builder, const TrnFinding *finding)
{
  if (finding->item != NULL)
    add_text (builder, "item", finding->item);
  add_number (builder, "value", finding->value);
  add_number (builder, "limit", finding->limit);
  add_number (builder, "margin", finding->margin);
  add_text (builder, "unit", trn_results_unit_name (finding->unit));
  if (finding->check == TRN_CHECK_RESTING)
    add_number (builder, "allowance", finding->allowance_m);
  add_number (builder, "utilisation", finding->utilisation);
  add_judgement (builder, finding);
  add_number (builder, "time", finding->time_s);
  add_number (builder, "progress", finding->progress);
  if (finding->source != NULL)
    add_text (builder, "source", finding->source);
  if (finding->rule != NULL)
    add_text (builder, "rule", finding->rule);
  add_numbers (builder, finding);
}

static void
add_footing (JsonBuilder *builder, const TrnFinding *finding)
{
  add_judgement (builder, finding);
  if (finding->source != NULL)
    add_text (builder, "source", finding->source);
  add_numbers (builder, finding);
}

static void
add_standing (JsonBuilder *builder, const TrnFinding *finding)
{
  add_number (builder, "distance", finding->distance_m);
  add_number (builder, "raise", finding->raise_m);
  add_judgement (builder, finding);
}

static void
add_seat (JsonBuilder *builder, const TrnFinding *finding)
{
  add_text (builder, "end", finding->at_end ? "end" : "start");
  add_number (builder, "fit", finding->fit_m);
  add_judgement (builder, finding);
  add_inside (builder, finding);
  if (finding->state == TRN_STATE_NOT_RESTING)
    {
      add_number (builder, "gap", finding->gap_m);
      add_number (builder, "distance", finding->distance_m);
    }
  if (finding->state == TRN_STATE_BURIED)
    add_number (builder, "raise", finding->raise_m);
}

static void
add_start (JsonBuilder *builder, const TrnFinding *finding)
{
  add_judgement (builder, finding);
  if (finding->state != TRN_STATE_ELSEWHERE)
    return;
  add_placement (builder, "stands", &finding->stands);
  add_placement (builder, "starts", &finding->starts);
  add_number (builder, "distance", finding->distance_m);
  add_number (builder, "turned_deg", trn_degrees (finding->turned_rad));
}

/* With what it lies; a number that there is none of is left out. */
static void
add_cause (JsonBuilder *builder, const TrnCause *cause)
{
  static const char *const kinds[] = { NULL, "point", "sling", "beam", "gear" };
  const gboolean has_number = isfinite (cause->found);
  json_builder_set_member_name (builder, "cause");
  json_builder_begin_object (builder);
  add_text (builder, "why", cause->why);
  if (cause->of != NULL)
    add_text (builder, kinds[cause->kind], cause->of);
  if (cause->n_more > 0)
    {
      json_builder_set_member_name (builder, "more");
      json_builder_add_int_value (builder, cause->n_more);
    }
  if (has_number)
    add_number (builder, "found", cause->found);
  if (has_number && isfinite (cause->limit))
    add_number (builder, cause->is_at_least ? "at_least" : "at_most", cause->limit);
  if (has_number)
    add_text (builder, "unit", trn_results_unit_name (cause->unit));
  json_builder_end_object (builder);
}

static void
add_finding (JsonBuilder *builder, const TrnFinding *finding)
{
  json_builder_begin_object (builder);
  add_text (builder, "check", trn_check_name (finding->check));
  if (finding->move >= 0)
    {
      json_builder_set_member_name (builder, "move");
      json_builder_add_int_value (builder, finding->move);
    }
  add_text (builder, "body", finding->body);
  if (finding->obstacle != NULL)
    add_text (builder, "obstacle", finding->obstacle);
  switch (finding->check)
    {
    case TRN_CHECK_CLEARANCE:
      add_clearance (builder, finding);
      break;
    case TRN_CHECK_SWING_RADIUS:
      add_swing (builder, finding);
      break;
    case TRN_CHECK_TAIL_SWING:
      (finding->item != NULL ? add_value : add_swing) (builder, finding);
      break;
    case TRN_CHECK_APPROACH:
      add_approach (builder, finding);
      break;
    case TRN_CHECK_HEADROOM:
    case TRN_CHECK_REACH:
    case TRN_CHECK_RIGGING:
      add_value (builder, finding);
      break;
    case TRN_CHECK_SEAT:
      add_seat (builder, finding);
      break;
    case TRN_CHECK_STANDING:
      add_standing (builder, finding);
      break;
    case TRN_CHECK_FOOTING:
      add_footing (builder, finding);
      break;
    case TRN_CHECK_START:
      add_start (builder, finding);
      break;
    case TRN_CHECK_HOOK_LOAD:
    case TRN_CHECK_CAPACITY:
    case TRN_CHECK_LOAD_SHARE:
    case TRN_CHECK_SLINGS:
    case TRN_CHECK_GROUND:
    case TRN_CHECK_WIND:
    case TRN_CHECK_RESTING:
    case TRN_CHECK_ATTITUDE:
    case TRN_CHECK_HOIST_LINES:
    case TRN_CHECK_SPEEDS:
    case TRN_CHECK_SWINGING:
      add_force (builder, finding);
      break;
    }
  if (finding->missing != NULL)
    add_text (builder, "missing", finding->missing);
  if (finding->cause.why != NULL)
    add_cause (builder, &finding->cause);
  json_builder_end_object (builder);
}

/* ---- the file ---- */

/* Only there when there are some. */
static void
add_left_out (JsonBuilder *builder, const GArray *pairs)
{
  if (pairs == NULL || pairs->len == 0)
    return;
  json_builder_set_member_name (builder, "left_out");
  json_builder_begin_array (builder);
  for (guint i = 0; i < pairs->len; i++)
    {
      const TrnBodyPair *pair = &g_array_index (pairs, TrnBodyPair, i);
      json_builder_begin_array (builder);
      json_builder_add_string_value (builder, pair->a);
      json_builder_add_string_value (builder, pair->b);
      json_builder_end_array (builder);
    }
  json_builder_end_array (builder);
}

static void
add_lift (JsonBuilder *builder, const TrnScene *scene, const TrnLiftFindings *lift)
{
  const TrnLiftRun *run = &scene->programme->runs[lift->lift];
  json_builder_begin_object (builder);
  add_text (builder, "lift", run->lift->id);
  add_text (builder, "verdict", trn_verdict_name (lift->verdict));
  add_number (builder, "seconds", run->begins_s[run->lift->n_moves]);
  add_left_out (builder, lift->left_out);
  json_builder_set_member_name (builder, "findings");
  json_builder_begin_array (builder);
  for (guint i = 0; i < lift->findings->len; i++)
    add_finding (builder, &g_array_index (lift->findings, TrnFinding, i));
  json_builder_end_array (builder);
  json_builder_end_object (builder);
}

static void
add_files (JsonBuilder *builder, const TrnScene *scene)
{
  const TrnPlan *plan = scene->programme->plan;
  json_builder_set_member_name (builder, "plan");
  json_builder_begin_object (builder);
  add_text (builder, "title", plan->title);
  add_text (builder, "file", plan->base_name);
  add_text (builder, "sha256", plan->sha256);
  json_builder_end_object (builder);
  json_builder_set_member_name (builder, "meshes");
  json_builder_begin_array (builder);
  for (guint i = 0; i < scene->n_files; i++)
    {
      json_builder_begin_object (builder);
      add_text (builder, "file", scene->files[i].file);
      add_text (builder, "sha256", scene->files[i].sha256);
      json_builder_end_object (builder);
    }
  json_builder_end_array (builder);
}

/* Only there when it is not all of them. */
static void
add_lifts_not_checked (JsonBuilder *builder, const TrnProgramme *programme,
                       const TrnFindings *findings)
{
  if (findings->n_lifts == programme->n_runs)
    return;
  json_builder_set_member_name (builder, "lifts_not_checked");
  json_builder_begin_array (builder);
  for (guint i = 0, k = 0; i < programme->n_runs; i++)
    if (k < findings->n_lifts && findings->lifts[k].lift == i)
      k++;
    else
      json_builder_add_string_value (builder, programme->runs[i].lift->id);
  json_builder_end_array (builder);
}

char *
trn_results_to_json (const TrnScene *scene, const TrnFindings *findings,
                     const char *program_version, gsize *length)
{
  g_autoptr (JsonBuilder) builder = json_builder_new ();
  json_builder_begin_object (builder);
  add_text (builder, "format", "trunnion-results");
  json_builder_set_member_name (builder, "version");
  json_builder_add_int_value (builder, 1);
  add_text (builder, "program", program_version);
  add_files (builder, scene);
  add_number (builder, "certified_to", findings->certify_m);
  const char *names[TRN_RESULTS_MOST_CHECKS + 1];
  trn_results_checks_done (findings->checks_done, names);
  add_names (builder, "checks_done", names);
  trn_results_not_checked (findings->checks_done, names);
  add_names (builder, "not_checked", names);
  add_lifts_not_checked (builder, scene->programme, findings);
  add_text (builder, "verdict", trn_verdict_name (findings->verdict));
  json_builder_set_member_name (builder, "lifts");
  json_builder_begin_array (builder);
  for (guint i = 0; i < findings->n_lifts; i++)
    add_lift (builder, scene, &findings->lifts[i]);
  json_builder_end_array (builder);
  json_builder_end_object (builder);
  g_autoptr (JsonNode) root = json_builder_get_root (builder);
  return trn_json_to_text (root, length);
}
