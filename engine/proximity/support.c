#include "support.h"

static gint chosen = -1; /* TRUE or FALSE when it is known */

void
trn_support_choose (TrnSupportKind kind)
{
  gboolean simd = FALSE;
#if defined __x86_64__
  __builtin_cpu_init ();
  simd = kind == TRN_SUPPORT_BEST && __builtin_cpu_supports ("avx2");
#endif
  g_atomic_int_set (&chosen, simd);
}

gboolean
trn_support_is_simd (void)
{
  gint simd = g_atomic_int_get (&chosen);
  if (simd < 0)
    {
      trn_support_choose (TRN_SUPPORT_BEST);
      simd = g_atomic_int_get (&chosen);
    }
  return simd;
}
