/* RFC 4180: a header line, fields separated by commas, lines ended by CR LF. A number that there is
 * none of is an empty field. Numbers have a decimal point whatever the locale. */
#include "results.h"

#include <string.h>

#include "number.h"

static const char header[]
    = "lift,check,move_index_from_0,move_kind,body,obstacle,end,verdict,state,lower_m,upper_m,"
      "certified_to_m,required_m,allowance_m,time_s,progress,body_x_m,body_y_m,body_z_m,"
      "obstacle_x_m,obstacle_y_m,obstacle_z_m,seated_from_s,seated_to_s,first_contact_s,contacts,"
      "inside,seat_until_clear_m,radius_m,sector_distance_m,circle_distance_m,fit_m,gap_m,raise_m,"
      "distance_m,turned_deg,stands_x_m,stands_y_m,stands_z_m,starts_x_m,starts_y_m,starts_z_m,"
      "obstacle_name,move_name,margin_m,body_name,item,value,limit,margin,unit,items,missing,"
      "source,utilisation,rule\r\n";

/* Ids and the words of the format have nothing in them that would need quotes. */
static void
add_text (GString *text, const char *field)
{
  if (field != NULL)
    {
      g_assert (field[strcspn (field, ",\"\r\n")] == '\0');
      g_string_append (text, field);
    }
  g_string_append_c (text, ',');
}

/* It may hold anything, so it is always quoted. What begins like that a spreadsheet would take for
 * a formula, and carry out, quoted or not: an apostrophe before it makes it a text. */
static void
add_quoted (GString *text, const char *field)
{
  g_string_append_c (text, '"');
  if (*field != '\0' && strchr ("=+-@\t\r\n", *field) != NULL)
    g_string_append_c (text, '\'');
  for (; *field != '\0'; field++)
    g_string_append_len (text, *field == '"' ? "\"\"" : field, *field == '"' ? 2 : 1);
  g_string_append (text, "\",");
}

/* The name in the plan of the structure, component or gear that @body is or is a part of. */
static void
add_name (GString *text, const TrnPlan *plan, const char *body)
{
  g_auto (GStrv) parts = g_strsplit (body != NULL ? body : "", "/", 2);
  const char *id = body != NULL ? parts[0] : "";
  const TrnStructure *structure = trn_plan_find_structure (plan, id);
  const TrnComponent *component = trn_plan_find_component (plan, id);
  const TrnGear *gear = trn_plan_find_gear (plan, id);
  add_quoted (text, structure != NULL   ? structure->name
                    : component != NULL ? component->name
                    : gear != NULL      ? gear->name
                                        : "");
}

/* "8 wait: stands packed": its number from 1, what it does, and its hold point. */
static void
add_move_name (GString *text, const TrnLift *lift, int index)
{
  if (index < 0)
    {
      add_quoted (text, "");
      return;
    }
  const TrnMove *move = &lift->moves[index];
  gboolean holds = move->kind == TRN_MOVE_WAIT && move->hold_point != NULL;
  g_autofree char *name = g_strdup_printf ("%d %s%s%s", index + 1, trn_move_kind_name (move->kind),
                                           holds ? ": " : "", holds ? move->hold_point : "");
  add_quoted (text, name);
}

static void
add_number (GString *text, double number)
{
  char buffer[TRN_NUMBER_BUFFER];
  if (isfinite (number))
    g_string_append (text, trn_number_format (number, buffer));
  g_string_append_c (text, ',');
}

static void
add_point (GString *text, TrnVec3 point, gboolean known)
{
  add_number (text, known ? point.x : NAN);
  add_number (text, known ? point.y : NAN);
  add_number (text, known ? point.z : NAN);
}

static void
add_contacts (GString *text, const GArray *contacts)
{
  add_number (text, contacts != NULL ? g_array_index (contacts, TrnInterval, 0).lo : NAN);
  for (guint i = 0; contacts != NULL && i < contacts->len; i++)
    {
      TrnInterval span = g_array_index (contacts, TrnInterval, i);
      char lo[TRN_NUMBER_BUFFER], hi[TRN_NUMBER_BUFFER];
      g_string_append_printf (text, "%s%s-%s", i > 0 ? " " : "", trn_number_format (span.lo, lo),
                              trn_number_format (span.hi, hi));
    }
  g_string_append_c (text, ',');
}

/* "load-underside=3.2 rigging=4.1" */
static void
add_items (GString *text, const GArray *items)
{
  for (guint i = 0; items != NULL && i < items->len; i++)
    {
      const TrnFindingItem *item = &g_array_index (items, TrnFindingItem, i);
      char m[TRN_NUMBER_BUFFER];
      g_string_append_printf (text, "%s%s=%s", i > 0 ? " " : "", item->what,
                              trn_number_format (item->m, m));
    }
  g_string_append_c (text, ',');
}

/* "load=12000kg block=300kg" */
static void
add_numbers (GString *text, const GArray *numbers)
{
  for (guint i = 0; i < numbers->len; i++)
    {
      const TrnFindingNumber *number = &g_array_index (numbers, TrnFindingNumber, i);
      gboolean has_unit = number->unit != TRN_UNIT_NONE;
      char value[TRN_NUMBER_BUFFER];
      g_string_append_printf (text, "%s%s=%s%s", i > 0 ? " " : "", number->what,
                              trn_number_format (number->value, value),
                              has_unit ? trn_results_unit_name (number->unit) : "");
    }
  g_string_append_c (text, ',');
}

static void
add_value (GString *text, const TrnFinding *f)
{
  add_text (text, f->item);
  add_number (text, f->value);
  add_number (text, f->limit);
  add_number (text, f->margin);
  add_text (text, f->unit != TRN_UNIT_NONE ? trn_results_unit_name (f->unit) : "");
  if (f->numbers != NULL)
    add_numbers (text, f->numbers);
  else
    add_items (text, f->items);
  add_text (text, f->missing);
  add_quoted (text, f->source != NULL ? f->source : "");
  add_number (text, f->utilisation);
  add_quoted (text, f->rule != NULL ? f->rule : "");
}

static void
add_finding (GString *text, const TrnPlan *plan, const TrnLift *lift, const TrnFinding *f)
{
  static const char *const inside_names[] = { "", "true", "unknown" };
  gboolean clearance = f->check == TRN_CHECK_CLEARANCE || f->check == TRN_CHECK_APPROACH;
  gboolean has_allowance = clearance || f->unit == TRN_UNIT_M || f->check == TRN_CHECK_TAIL_SWING;
  gboolean seat = f->check == TRN_CHECK_SEAT;
  gboolean elsewhere = f->state == TRN_STATE_ELSEWHERE;
  add_text (text, lift->id);
  add_text (text, trn_check_name (f->check));
  add_number (text, f->move >= 0 ? f->move : NAN);
  add_text (text, f->move >= 0 ? trn_move_kind_name (lift->moves[f->move].kind) : "");
  add_text (text, f->body);
  add_text (text, f->obstacle);
  add_text (text, seat ? (f->at_end ? "end" : "start") : "");
  add_text (text, trn_verdict_name (f->verdict));
  add_text (text, trn_state_name (f->state));
  add_number (text, clearance ? f->lower_m : NAN);
  add_number (text, clearance ? f->upper_m : NAN);
  add_number (text, clearance ? f->certified_to_m : NAN);
  add_number (text, f->required_m);
  add_number (text, has_allowance ? f->allowance_m : NAN);
  add_number (text, f->time_s);
  add_number (text, f->progress);
  add_point (text, f->point_on_body, f->has_points);
  add_point (text, f->point_on_obstacle, f->has_points);
  add_number (text, f->has_seated ? f->seated_s.lo : NAN);
  add_number (text, f->has_seated ? f->seated_s.hi : NAN);
  add_contacts (text, f->contacts);
  add_text (text, inside_names[f->inside]);
  add_number (text, f->seat_until_m);
  add_number (text, f->radius_m);
  add_number (text, f->sector_distance_m);
  add_number (text, f->circle_distance_m);
  add_number (text, seat ? f->fit_m : NAN);
  add_number (text, f->gap_m);
  add_number (text, f->raise_m);
  add_number (text, f->distance_m);
  add_number (text, trn_degrees (f->turned_rad));
  add_point (text, f->stands.position, elsewhere);
  add_point (text, f->starts.position, elsewhere);
  add_name (text, plan, f->obstacle);
  add_move_name (text, lift, f->move);
  add_number (text, trn_finding_margin_m (f));
  add_name (text, plan, f->body);
  add_value (text, f);
  g_string_truncate (text, text->len - 1); /* the last comma */
  g_string_append (text, "\r\n");
}

char *
trn_results_to_csv (const TrnScene *scene, const TrnFindings *findings, gsize *length)
{
  GString *text = g_string_new (header);
  for (guint i = 0; i < findings->n_lifts; i++)
    {
      const TrnLiftFindings *lift = &findings->lifts[i];
      for (guint k = 0; k < lift->findings->len; k++)
        add_finding (text, scene->programme->plan, scene->programme->runs[lift->lift].lift,
                     &g_array_index (lift->findings, TrnFinding, k));
    }
  *length = text->len;
  return g_string_free (text, FALSE);
}
