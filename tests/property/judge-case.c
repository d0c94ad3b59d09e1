#include "judge-case.h"

void
case_fails (const Case *c, const char *where, const char *condition, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *text = g_strdup_vprintf (format, args);
  va_end (args);
  const TrnFinding *f = c->finding;
  g_autofree char *values
      = f == NULL ? g_strdup ("")
                  : g_strdup_printf ("lower %.12g upper %.12g certified to %g required %g allowance"
                                     " %g verdict %d state %d time %.12g progress %.12g",
                                     f->lower_m, f->upper_m, f->certified_to_m, f->required_m,
                                     f->allowance_m, (int)f->verdict, (int)f->state, f->time_s,
                                     f->progress);
  g_error ("%s: plan %s, lift %u, move %d, obstacle %s: %s: %s\n%s\n%s", where, c->at->name,
           c->at->lift_index, f != NULL ? f->move : (int)c->move,
           f != NULL && f->obstacle != NULL ? f->obstacle : "none", condition, text, values,
           c->at->json);
}

void
case_count (const Case *c, TallyKind kind)
{
  g_atomic_int_inc (&c->at->tally->of[kind]);
}

/* ---- one moment ---- */

double
case_surface (const Case *c, double s, double limit)
{
  TrnPose pose = oracle_pose (c->at->lift, c->move, s);
  gboolean hinted = c->hint != NULL && c->hint->known;
  TrnDistance d = trn_mesh_distance (c->at->load->bvh, &pose, c->body->bvh, &c->standing->pose,
                                     limit, hinted ? &c->hint->pair : NULL);
  if (c->hint != NULL && isfinite (d.distance_m))
    *c->hint = (CaseHint){ TRUE, d.pair };
  return d.distance_m;
}

TrnInside
case_inside (const Case *c, double s)
{
  TrnPose pose = oracle_pose (c->at->lift, c->move, s);
  return trn_mesh_inside (c->at->load->bvh, c->at->load->check, &pose, c->body->bvh, c->body->check,
                          &c->standing->pose);
}

double
case_distance (const Case *c, double s)
{
  double d = case_surface (c, s, INFINITY);
  return d > TOUCH_M && case_inside (c, s) == TRN_INSIDE_YES ? 0 : d;
}

const OracleMove *
case_move (const Case *c)
{
  return &g_array_index (c->at->lift->moves, OracleMove, c->move);
}

double
case_time (const Case *c, double s)
{
  return case_move (c)->begins_s + s * case_move (c)->seconds;
}

double
case_progress (const Case *c, double time_s)
{
  double seconds = case_move (c)->seconds;
  double s = seconds > 0 ? (time_s - case_move (c)->begins_s) / seconds : 0;
  return s < 1e-9 ? 0 : s > 1 - 1e-9 ? 1 : s;
}

/* A move without duration is seated as a whole or not at all. */
gboolean
case_seated_part (const Case *c, TrnInterval *s)
{
  if (!c->finding->has_seated)
    return FALSE;
  *s = (TrnInterval){ case_progress (c, c->finding->seated_s.lo),
                      case_progress (c, c->finding->seated_s.hi) };
  if (case_move (c)->seconds == 0)
    *s = (TrnInterval){ 0, 1 };
  HOLDS (c, s->lo < s->hi && (s->lo == 0 || s->hi == 1), "seated from %g to %g", s->lo, s->hi);
  return TRUE;
}

gboolean
case_free_part (const Case *c, TrnInterval *s)
{
  TrnInterval seated;
  *s = (TrnInterval){ 0, 1 };
  if (!case_seated_part (c, &seated))
    return TRUE;
  if (seated.lo > 0)
    {
      s->hi = seated.lo;
      return TRUE;
    }
  s->lo = seated.hi;
  if (seated.hi >= 1)
    return FALSE;
  /* Seated again at the end of the same move, which the finding does not show. */
  for (guint k = SAMPLES; k > 0 && c->seat_at_end; k--)
    {
      s->hi = s->lo + (1 - s->lo) * k / SAMPLES;
      if (case_distance (c, s->hi) >= c->until_end_m)
        break;
    }
  return TRUE;
}

gboolean
case_lists_contact (const Case *c, double s)
{
  const GArray *contacts = c->finding->contacts;
  double time_s = case_time (c, s);
  for (guint i = 0; contacts != NULL && i < contacts->len; i++)
    {
      TrnInterval span = g_array_index (contacts, TrnInterval, i);
      if (span.lo - 1e-9 <= time_s && time_s <= span.hi + 1e-9)
        return TRUE;
    }
  return FALSE;
}
