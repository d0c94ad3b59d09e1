/* What a plan owns of gear and rigging. */
#include "plan-read.h"

void
trn_gear_clear (TrnGear *gear)
{
  g_free (gear->id);
  g_free (gear->name);
  g_free (gear->pointer);
  for (guint i = 0; i < gear->n_keep_clear_from; i++)
    g_free (gear->keep_clear_from[i].id);
  g_free (gear->keep_clear_from);
  g_free (gear->legs);
  g_free (gear->runways);
  g_free (gear->supports);
  g_free (gear->capacity);
  g_free (gear->configuration);
  g_free (gear->capacity_source);
  g_free (gear->pressure_source);
  g_free (gear->stands_on);
  g_free (gear->out_of_plumb_source);
}

static void
hoist_clear (TrnHoist *hoist)
{
  g_free (hoist->pointer);
  g_free (hoist->point_name);
  g_free (hoist->beam.id);
  g_free (hoist->beam.pointer);
  for (guint i = 0; i < hoist->n_slings; i++)
    {
      TrnSling *sling = &hoist->slings[i];
      g_free (sling->id);
      g_free (sling->pointer);
      g_free (sling->to_name);
      g_free (sling->shackle.id);
    }
  g_free (hoist->slings);
}

void
trn_rigging_clear (TrnRigging *rigging)
{
  hoist_clear (&rigging->main);
  hoist_clear (&rigging->tail);
  for (guint i = 0; i < rigging->n_connected; i++)
    {
      g_free (rigging->connected[i].a);
      g_free (rigging->connected[i].b);
    }
  g_free (rigging->connected);
}
