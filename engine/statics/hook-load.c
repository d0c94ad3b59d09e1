/* Plain sums; a limit of the table belongs to the row that it ends. */
#include "hook-load.h"

#include <math.h>

#include "gravity.h"

double
trn_hook_load_static_kg (const TrnHookLoad *load)
{
  return load->load_kg * load->factor + load->block_kg + load->beam_kg + load->slings_kg
         + load->shackles_kg + load->rope_kg;
}

double
trn_hook_load_dynamic_n (const TrnHookLoad *load)
{
  return trn_hook_load_static_kg (load) * load->dynamic * TRN_GRAVITY_M_S2;
}

/* Rows of the table, each with its last hook load; they fall. */
#define FIRST_KG 3e3
static const struct
{
  double last_kg, factor;
} rows[] = { { 100e3, 1.10 }, { 1000e3, 1.05 }, { INFINITY, 1.03 } };

double
trn_dynamic_factor_onshore (double static_hook_load_kg)
{
  guint row = 0;
  if (!(static_hook_load_kg >= FIRST_KG))
    return NAN;
  while (static_hook_load_kg > rows[row].last_kg)
    row++;
  return rows[row].factor;
}

double
trn_dynamic_row_end_onshore (double from_kg, double to_kg, double off_kg, double *at_kg)
{
  double greatest_kg = -INFINITY;
  for (guint i = 0; i + 1 < G_N_ELEMENTS (rows); i++)
    {
      const double last_kg = rows[i].last_kg, kg = rows[i].factor * (last_kg - off_kg);
      if (!(from_kg <= last_kg && last_kg < to_kg && kg > greatest_kg))
        continue;
      greatest_kg = kg;
      if (at_kg != NULL)
        *at_kg = last_kg;
    }
  return greatest_kg;
}
