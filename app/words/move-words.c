/* move-words.c: each move of a lift as a short sentence, as it would be said on site. */
#include "desk-words.h"

#include <glib/gi18n-lib.h>

#define LONGEST_NAME 40
/* Directions closer than this to a point of the compass are named by it; less than this far is
 * nowhere. */
#define NAMED_WITHIN_DEG 0.05
#define NOWHERE_M 0.5e-3

/* From the mathematical heading (counter-clockwise from east) to a bearing. */
static char *
direction_text (double heading_rad)
{
  const char *points[]
      = { N_ ("toward north"),      N_ ("toward north-east"), N_ ("toward east"),
          N_ ("toward south-east"), N_ ("toward south"),      N_ ("toward south-west"),
          N_ ("toward west"),       N_ ("toward north-west") };
  double bearing_deg = fmod (90 - heading_rad * 180 / G_PI, 360);
  if (bearing_deg < 0)
    bearing_deg += 360;
  double eighth = round (bearing_deg / 45);
  if (fabs (bearing_deg - eighth * 45) <= NAMED_WITHIN_DEG)
    return g_strdup (_ (points[(guint)eighth % 8]));
  g_autofree char *heading = trn_words_heading (heading_rad);
  if (trn_words_get_units ().headings == TRN_HEADINGS_BEARINGS)
    return g_strdup_printf (_ ("on bearing %s"), heading);
  return g_strdup_printf (_ ("on heading %s from east"), heading);
}

static char *
point_text (const TrnLift *lift, const TrnPoint *point)
{
  if (point->name != NULL)
    {
      g_autofree char *name = trn_words_clean (point->name, LONGEST_NAME);
      return g_strdup_printf (_ ("“%s”"), name);
    }
  if (trn_vec3_distance (point->place, lift->hook.place) == 0)
    return g_strdup (_ ("the hook point"));
  return trn_words_point (point->place);
}

static const char *
turn_word (double turn_rad)
{
  return turn_rad < 0 ? _ ("clockwise") : _ ("counter-clockwise");
}

static gboolean
goes_level (TrnVec3 by)
{
  return hypot (by.x, by.y) >= NOWHERE_M;
}

static char *
level_text (TrnVec3 by)
{
  g_autofree char *far = trn_words_length (hypot (by.x, by.y));
  g_autofree char *direction = direction_text (atan2 (by.y, by.x));
  return g_strdup_printf ("%s %s", far, direction);
}

/* "5 m toward north", "up 2 m", or both; NULL where it goes nowhere. */
static char *
carry_text (TrnVec3 by)
{
  g_autofree char *level = goes_level (by) ? level_text (by) : NULL;
  g_autofree char *height = trn_words_length (fabs (by.z));
  if (fabs (by.z) < NOWHERE_M)
    return g_steal_pointer (&level);
  g_autofree char *upright = g_strdup_printf (by.z > 0 ? _ ("up %s") : _ ("down %s"), height);
  if (level == NULL)
    return g_steal_pointer (&upright);
  return g_strdup_printf ("%s, %s", level, upright);
}

static char *
hoist_text (const TrnMove *move)
{
  g_autofree char *by = trn_words_length (fabs (move->by.z));
  return g_strdup_printf (move->by.z < 0 ? _ ("Lower %s") : _ ("Hoist %s"), by);
}

static char *
travel_text (const TrnMove *move)
{
  if (!goes_level (move->by))
    return g_strdup (_ ("Travel nowhere"));
  g_autofree char *by = level_text (move->by);
  return g_strdup_printf (_ ("Travel %s"), by);
}

static char *
turn_text (const TrnLift *lift, const TrnMove *move)
{
  g_autofree char *angle = trn_words_angle (fabs (move->turn_rad));
  g_autofree char *about = point_text (lift, &move->about);
  return g_strdup_printf (_ ("Turn %s %s about %s"), angle, turn_word (move->turn_rad), about);
}

static char *
carrying_text (const TrnLift *lift, const TrnMove *move)
{
  g_autofree char *by = carry_text (move->by);
  if (by == NULL)
    return turn_text (lift, move);
  if (move->turn_rad == 0)
    return g_strdup_printf (_ ("Carry %s"), by);
  g_autofree char *angle = trn_words_angle (fabs (move->turn_rad));
  g_autofree char *about = point_text (lift, &move->about);
  return g_strdup_printf (_ ("Carry %s, turning %s %s about %s"), by, angle,
                          turn_word (move->turn_rad), about);
}

static char *
slew_text (const TrnMove *move)
{
  g_autofree char *angle = trn_words_angle (fabs (move->turn_rad));
  g_autofree char *x = trn_words_length (move->centre_x);
  g_autofree char *y = trn_words_length (move->centre_y);
  g_autoptr (GString) text = g_string_new (NULL);
  g_string_append_printf (text, _ ("Slew %s %s round (%s, %s)"), angle, turn_word (move->turn_rad),
                          x, y);
  if (fabs (move->radius_by_m) >= NOWHERE_M)
    {
      g_autofree char *by = trn_words_length (fabs (move->radius_by_m));
      g_string_append (text, ", ");
      g_string_append_printf (text, move->radius_by_m > 0 ? _ ("out %s") : _ ("in %s"), by);
    }
  if (fabs (move->hoist_by_m) >= NOWHERE_M)
    {
      g_autofree char *by = trn_words_length (fabs (move->hoist_by_m));
      g_string_append (text, ", ");
      g_string_append_printf (text, move->hoist_by_m > 0 ? _ ("up %s") : _ ("down %s"), by);
    }
  if (!move->load_turns)
    g_string_append_printf (text, ", %s", _ ("the load keeps its heading"));
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* Turning by a positive angle about u takes what pointed up toward u × z, which is a quarter turn
 * clockwise of u seen from above. */
static char *
tilt_text (const TrnLift *lift, const TrnMove *move)
{
  g_autofree char *angle = trn_words_angle (fabs (move->turn_rad));
  g_autofree char *toward
      = direction_text (move->axis_rad + (move->turn_rad < 0 ? G_PI_2 : -G_PI_2));
  if (move->head_plumb)
    {
      g_autofree char *head = point_text (lift, &move->head);
      g_autofree char *tail = point_text (lift, &move->tail);
      return g_strdup_printf (_ ("Tilt %s %s on two hooks, head %s plumb, tail %s level"), angle,
                              toward, head, tail);
    }
  g_autofree char *about = point_text (lift, &move->about);
  g_autofree char *carry = carry_text (move->by);
  if (carry == NULL)
    return g_strdup_printf (_ ("Tilt %s %s about %s"), angle, toward, about);
  return g_strdup_printf (_ ("Tilt %s %s about %s, carried %s"), angle, toward, about, carry);
}

static char *
wait_text (const TrnMove *move)
{
  if (move->hold_point != NULL)
    return trn_words_hold (move->hold_point);
  g_autofree char *time = trn_words_time (move->seconds);
  return g_strdup_printf (_ ("Wait %s"), time);
}

char *
trn_words_move (const TrnLift *lift, guint index)
{
  g_assert (index < lift->n_moves);
  const TrnMove *move = &lift->moves[index];
  switch (move->kind)
    {
    case TRN_MOVE_HOIST:
      return hoist_text (move);
    case TRN_MOVE_TRAVEL:
      return travel_text (move);
    case TRN_MOVE_MOVE:
      return carrying_text (lift, move);
    case TRN_MOVE_TURN:
      return turn_text (lift, move);
    case TRN_MOVE_SLEW:
      return slew_text (move);
    case TRN_MOVE_TILT:
      return tilt_text (lift, move);
    case TRN_MOVE_WAIT:
      return wait_text (move);
    }
  g_assert_not_reached ();
}
