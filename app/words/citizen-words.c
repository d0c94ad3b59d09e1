/* citizen-words.c: presenting, the preferences and the page about the program. */
#include "citizen-words.h"

#include <glib/gi18n-lib.h>

#include "desk-words.h"

static const char *const texts[TRN_N_CITIZEN_TEXTS] = {
  [TRN_CITIZEN_PREFERENCES] = N_ ("Preferences"),
  [TRN_CITIZEN_UNITS] = N_ ("Units"),
  [TRN_CITIZEN_UNITS_HINT] = N_ ("For everything on the screen. Files and exports always have "
                                 "metres, kilograms and mathematical headings."),
  [TRN_CITIZEN_LENGTHS] = N_ ("Lengths"),
  [TRN_CITIZEN_METRES] = N_ ("Metres"),
  [TRN_CITIZEN_FEET] = N_ ("Feet and inches"),
  [TRN_CITIZEN_MASSES] = N_ ("Masses"),
  [TRN_CITIZEN_TONNES] = N_ ("Tonnes"),
  [TRN_CITIZEN_US_TONS] = N_ ("US tons"),
  [TRN_CITIZEN_HEADINGS] = N_ ("Directions"),
  [TRN_CITIZEN_BEARINGS] = N_ ("Bearings from north"),
  [TRN_CITIZEN_MATHEMATICAL] = N_ ("Headings from east"),
  [TRN_CITIZEN_MARGINS] = N_ ("Margins"),
  [TRN_CITIZEN_TIGHT_METRES] = N_ ("Tight up to, in metres"),
  [TRN_CITIZEN_TIGHT_INCHES] = N_ ("Tight up to, in inches"),
  [TRN_CITIZEN_TIGHT_HINT] = N_ ("A clearance that has no more than this to spare is shown as "
                                 "tight. No verdict changes."),
  [TRN_CITIZEN_LOOKS] = N_ ("Looks"),
  [TRN_CITIZEN_STYLE] = N_ ("Style"),
  [TRN_CITIZEN_STYLE_SYSTEM] = N_ ("As the system"),
  [TRN_CITIZEN_STYLE_LIGHT] = N_ ("Light"),
  [TRN_CITIZEN_STYLE_DARK] = N_ ("Dark"),
  [TRN_CITIZEN_ANIMATIONS] = N_ ("Animations"),
  [TRN_CITIZEN_ANIMATIONS_HINT] = N_ ("The view glides to where one looks next"),
  [TRN_CITIZEN_SHORTCUTS] = N_ ("Keyboard shortcuts"),
  [TRN_CITIZEN_DEVELOPERS] = N_ ("The Trunnion developers"),
  [TRN_CITIZEN_PRESENTING] = N_ ("Presenting"),
  [TRN_CITIZEN_PRESENTING_KEYS]
  = N_ ("→ next move · ← back · P pause · C closest · W worst · Esc leave"),
};

const char *
trn_words_citizen (TrnCitizenText text)
{
  g_assert (text < TRN_N_CITIZEN_TEXTS);
  return _ (texts[text]);
}

char *
trn_words_about (void)
{
  g_autofree char *not_checked = trn_words_not_checked ();
  return g_strdup_printf (
      "%s\n\n%s\n\n%s",
      _ ("Trunnion proves how near one heavy load comes to what stands around, over the whole "
         "continuous motion and not only at chosen moments. Every bound errs on the cautious "
         "side, and what was not computed never passes."),
      not_checked, trn_words_caution ());
}

char *
trn_words_present_lift (const TrnLift *lift, guint run, guint move)
{
  g_autofree char *title = trn_words_lift_title (lift, run);
  return g_strdup_printf (_ ("Move %u of %u · %s"), move + 1, lift->n_moves, title);
}

char *
trn_words_closest_to (const char *name)
{
  return g_strdup_printf (_ ("Closest to %s"), name);
}
