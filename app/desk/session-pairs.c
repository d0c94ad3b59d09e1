/* session-pairs.c: which pair of the lift a finding is of (moment.h), and the worst finding of
 * each.
 *
 * With gear there may be some thousand findings and a hundred pairs, and every row and every line
 * asks for its worst: all are worked out in one pass. */
#include "session-private.h"

#include "desk-words.h"
#include "gauge-words.h"

/* Of the name of gear in that of a pair. */
#define GEAR_CHARS 24
#define OBSTACLE_CHARS 32 /* as many as the strip has room for in a narrow window */

struct _DeskPairIndex
{
  GHashTable *obstacles;    /* id → index + 1 */
  GHashTable *parts;        /* id of a moving part → its place, or G_MAXUINT, as a guint * */
  const TrnFinding **worst; /* of each pair; NULL: none */
};

void
desk_session_forget_pair_index (DeskSession *session)
{
  DeskPairIndex *index = g_steal_pointer (&session->pair_index);
  if (index == NULL)
    return;
  g_hash_table_unref (index->obstacles);
  g_hash_table_unref (index->parts);
  g_free (index->worst);
  g_free (index);
}

static int
pair_of (const DeskPairIndex *index, const DeskProfile *profile, const char *body,
         const char *obstacle)
{
  gboolean of_load = g_str_equal (body, "load"), to_load = g_str_equal (obstacle, "load");
  guint found = GPOINTER_TO_UINT (g_hash_table_lookup (index->obstacles, obstacle));
  if (of_load && found > 0)
    return (int)found - 1;
  const guint *place = g_hash_table_lookup (index->parts, of_load ? obstacle : body);
  /* Of two moving parts of gear there is no pair. */
  if (place == NULL || (!of_load && !to_load && found == 0))
    return -1;
  guint other = of_load || to_load ? profile->n_obstacles : found - 1;
  for (guint i = profile->n_obstacles; i < profile->n_pairs; i++)
    if (profile->pairs[i].place == *place && profile->pairs[i].obstacle == other)
      return (int)i;
  return -1;
}

static void
find_worst (DeskSession *session, DeskPairIndex *index, const TrnLiftFindings *lift)
{
  const DeskProfile *profile = session->profile;
  index->worst = g_new0 (const TrnFinding *, profile->n_pairs + 1);
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check != TRN_CHECK_CLEARANCE || finding->state == TRN_STATE_SEATED)
        continue;
      int pair = pair_of (index, profile, finding->body, finding->obstacle);
      if (pair >= 0 && desk_finding_is_worse (session, finding, index->worst[pair]))
        index->worst[pair] = finding;
    }
}

/* NULL while there is no profile. */
static DeskPairIndex *
look_at_index (DeskSession *session)
{
  const DeskProfile *profile = session->profile;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  if (session->pair_index != NULL || profile == NULL || run == NULL)
    return session->pair_index;
  DeskPairIndex *index = session->pair_index = g_new0 (DeskPairIndex, 1);
  index->obstacles = g_hash_table_new (g_str_hash, g_str_equal);
  index->parts = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint k = 0; k < profile->n_obstacles; k++)
    g_hash_table_insert (index->obstacles, profile->obstacles[k].body->id,
                         GUINT_TO_POINTER (k + 1));
  for (guint i = 0; run->rig != NULL && i < run->rig->n_bodies; i++)
    g_hash_table_insert (index->parts, run->rig->bodies[i].id, &run->rig->bodies[i].place);
  find_worst (session, index, desk_check_get_lift (session->check, session->run));
  return index;
}

int
desk_session_pair_of (DeskSession *session, const char *body, const char *obstacle)
{
  const DeskPairIndex *index = look_at_index (session);
  return index != NULL && body != NULL && obstacle != NULL
             ? pair_of (index, session->profile, body, obstacle)
             : -1;
}

const TrnFinding *
desk_session_worst_of_pair (DeskSession *session, guint pair)
{
  const DeskPairIndex *index = look_at_index (session);
  return index != NULL && pair < session->profile->n_pairs ? index->worst[pair] : NULL;
}

gboolean
desk_finding_is_of (const TrnFinding *finding, const char *body, const char *obstacle)
{
  return (g_strcmp0 (finding->body, body) == 0 && g_strcmp0 (finding->obstacle, obstacle) == 0)
         || (g_strcmp0 (finding->body, obstacle) == 0 && g_strcmp0 (finding->obstacle, body) == 0);
}

const TrnFinding *
desk_session_worst_of_bodies (DeskSession *session, const char *body, const char *obstacle)
{
  const TrnLiftFindings *lift = desk_check_get_lift (session->check, session->run);
  const TrnFinding *worst = NULL;
  for (guint i = 0; lift != NULL && i < lift->findings->len; i++)
    {
      const TrnFinding *finding = &g_array_index (lift->findings, TrnFinding, i);
      if (finding->check == TRN_CHECK_CLEARANCE && finding->state != TRN_STATE_SEATED
          && desk_finding_is_of (finding, body, obstacle)
          && desk_finding_is_worse (session, finding, worst))
        worst = finding;
    }
  return worst;
}

int
desk_session_get_selected_pair (DeskSession *session)
{
  const TrnFinding *finding = session->finding;
  if (finding != NULL && finding->lift == session->run
      && (g_strcmp0 (finding->obstacle, session->selected) == 0
          || g_strcmp0 (finding->body, session->selected) == 0))
    return desk_session_pair_of (session, finding->body, finding->obstacle);
  return desk_session_pair_of (session, "load", session->selected);
}

/* A part of the gear where the pair is of it and the load. */
void
desk_session_select_pair (DeskSession *session, guint pair)
{
  const DeskProfile *profile = session->profile;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  const TrnMomentPair *p = &profile->pairs[pair];
  const char *body = NULL;
  if (p->obstacle < profile->n_obstacles)
    body = profile->obstacles[p->obstacle].body->id;
  for (guint i = 0; body == NULL && i < run->rig->n_bodies; i++)
    if (run->rig->bodies[i].place == p->place)
      body = run->rig->bodies[i].id;
  desk_session_set_selected (session, body);
}

char *
desk_session_pair_name (DeskSession *session, guint pair)
{
  const DeskProfile *profile = session->profile;
  const TrnLiftRun *run = desk_session_get_lift_run (session);
  const TrnPlan *plan = session->site->plan;
  const TrnMomentPair *p = &profile->pairs[pair];
  g_autofree char *to = p->obstacle < profile->n_obstacles
                            ? trn_words_body_name_cut (
                                plan, profile->obstacles[p->obstacle].body->id, OBSTACLE_CHARS)
                            : trn_words_load_name (plan, run->lift->component);
  if (p->of_load)
    return g_steal_pointer (&to);
  const char *gear = p->place != G_MAXUINT ? run->rig->places[p->place].gear->name
                                           : trn_words_gear (TRN_GEAR_RIGGING);
  /* What it is near to stands at the end and is not to be cut for it. */
  g_autofree char *short_gear = trn_words_clean (gear, GEAR_CHARS);
  return trn_words_between (short_gear, to);
}
