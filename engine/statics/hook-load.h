/* hook-load.h: what hangs on a hook, item by item. */
#pragma once

#include <glib.h>

typedef struct
{
  double load_kg;   /* this hook's part of the load's mass */
  double factor;    /* on the load's mass, for what is not known of it: 1 or more */
  double block_kg;  /* hook block */
  double beam_kg;   /* beams */
  double slings_kg; /* slings */
  double shackles_kg;
  double rope_kg; /* hoist rope below the tip */
  double dynamic; /* dynamic factor, 1 or more */
} TrnHookLoad;

/* Load with its factor and all rigging, at rest. NAN where an item is: what is not known is not 0.
 */
double trn_hook_load_static_kg (const TrnHookLoad *load);
/* The same times the dynamic factor, as a force. */
double trn_hook_load_dynamic_n (const TrnHookLoad *load);

/* The dynamic factor of a lift onshore by the static hook load: 0027/ND Rev 11.2, Table 5-1. NAN
 * below 3 t, for which the table has no row. */
#define TRN_DYNAMIC_FACTOR_SOURCE "0027/ND Rev 11.2, Table 5-1"
double trn_dynamic_factor_onshore (double static_hook_load_kg);

/* Over all hook loads at the end of a row of that table, from @from_kg up to but not @to_kg, the
 * one of the greatest factor times (hook load less @off_kg); returns that product, −INFINITY where
 * no row ends there. @at_kg: NULL, or what the hook load is. */
double trn_dynamic_row_end_onshore (double from_kg, double to_kg, double off_kg, double *at_kg);
