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

double
trn_dynamic_factor_onshore (double static_hook_load_kg)
{
  if (!(static_hook_load_kg >= 3e3))
    return NAN;
  if (static_hook_load_kg <= 100e3)
    return 1.10;
  return static_hook_load_kg <= 1000e3 ? 1.05 : 1.03;
}
