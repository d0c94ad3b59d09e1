#include "gear-names.h"

#include <glib/gi18n-lib.h>
#include <string.h>

#define LONGEST_NAME 60

static const struct
{
  const char *part, *words; /* %s: the gear */
} parts[] = {
  { "boom", N_ ("Boom of %s") },
  { "jib", N_ ("Jib of %s") },
  { "counterweight", N_ ("Counterweight of %s") },
  { "trolley", N_ ("Trolley of %s") },
  { "rope", N_ ("Rope of %s") },
  { "block", N_ ("Hook block of %s") },
  { "carrier", N_ ("Carrier of %s") },
};

/* Those of which there are several: "leg-1". */
static const struct
{
  const char *part, *words; /* %s: the number, then the gear */
} numbered[] = {
  { "leg-", N_ ("Leg %s of %s") },       { "pad-", N_ ("Pad %s of %s") },
  { "mat-", N_ ("Mat %s of %s") },       { "header-", N_ ("Header %s of %s") },
  { "runway-", N_ ("Runway %s of %s") }, { "cheek-", N_ ("Cheek %s of %s") },
};

static char *
part_text (const char *part, const char *gear)
{
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    if (strcmp (parts[i].part, part) == 0)
      return g_strdup_printf (_ (parts[i].words), gear);
  for (guint i = 0; i < G_N_ELEMENTS (numbered); i++)
    if (g_str_has_prefix (part, numbered[i].part))
      {
        g_autofree char *number = trn_words_clean (part + strlen (numbered[i].part), LONGEST_NAME);
        return g_strdup_printf (_ (numbered[i].words), number, gear);
      }
  g_autofree char *clean = trn_words_clean (part, LONGEST_NAME);
  return g_strdup_printf ("%s, %s", gear, clean);
}

static char *
rigging_name (const TrnHoist *hoist, const char *id)
{
  g_autofree char *name = trn_words_clean (id, LONGEST_NAME);
  for (guint i = 0; i < hoist->n_slings; i++)
    if (strcmp (hoist->slings[i].id, id) == 0)
      return g_strdup_printf (_ ("Sling %s"), name);
  if (hoist->has_beam && strcmp (hoist->beam.id, id) == 0)
    return g_strdup_printf (_ ("Beam %s"), name);
  return NULL;
}

char *
trn_words_gear_body (const TrnPlan *plan, const char *body)
{
  const char *slash = strchr (body, '/');
  g_autofree char *id = slash != NULL ? g_strndup (body, (gsize)(slash - body)) : g_strdup (body);
  const TrnGear *gear = trn_plan_find_gear (plan, id);
  if (gear != NULL)
    {
      g_autofree char *name = trn_words_clean (gear->name, LONGEST_NAME);
      return slash != NULL ? part_text (slash + 1, name) : g_steal_pointer (&name);
    }
  for (guint i = 0; i < plan->n_lifts && slash == NULL; i++)
    {
      const TrnRigging *rigging = &plan->lifts[i].rigging;
      char *name = rigging->given ? rigging_name (&rigging->main, body) : NULL;
      if (name == NULL && rigging->given)
        name = rigging_name (&rigging->tail, body);
      if (name != NULL)
        return name;
    }
  return NULL;
}
